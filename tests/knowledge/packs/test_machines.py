"""Findings and sightings in a pack: keys, numbers as they are stamped, lost zeros, and nobody's name."""

import pytest

from knowledge.packs import faults_of, load

F, S = "findings.csv", "sightings.csv"
A_FINDING = (
    "{key},K,{number},,{digits},ara,{model},,1908,{evidence},ledger,,our circle,2026-11-25T14:03:00Z"
)
KEY = "c" * 32


def a_finding(**more: str) -> str:
    told = {"key": KEY, "number": "0000117", "digits": "7", "model": "", "evidence": ""}
    return A_FINDING.format(**(told | more))


def codes(faults):
    return [(one.code, one.severity, one.row, one.column) for one in faults]


def test_findings_and_sightings_that_are_sound_have_no_faults(folder, sound):
    folder.write(sound)
    assert folder.faults() == []


def test_a_pack_of_findings_needs_no_registers_and_only_the_things_it_names(folder, sound):
    folder.write({name: sound[name] for name in ("makers.csv", F, S)})
    assert folder.faults() == []
    assert load(folder.path).shares


def test_a_pack_with_neither_registers_nor_findings_is_told_what_it_lacks(folder, sound):
    folder.write({"makers.csv": sound["makers.csv"]})
    assert codes(folder.faults())[0] == ("missing-file", "error", None, None)


@pytest.mark.parametrize(
    ("row", "fault"),
    [
        (a_finding(number="117"), ("lost-zero", "error", 2, "number")),
        (a_finding(number="117", digits=""), ("perhaps-lost-zero", "warning", 2, "number")),
        (a_finding(number="985000", digits="7"), ("lost-zero", "error", 2, "number")),
        (a_finding(number="9850000", digits="6"), ("digits-differ", "error", 2, "number")),
        (a_finding(number="9.85E+05", digits=""), ("spreadsheet-number", "error", 2, "number")),
        (a_finding(number="985 000", digits=""), ("number-separators", "error", 2, "number")),
        (a_finding(number="", digits=""), ("missing-cell", "error", 2, "number")),
        (a_finding(model="b1"), ("other-maker", "warning", 2, "model")),
        (a_finding(key="12"), ("bad-key", "error", 2, "finding")),
    ],
)  # fmt: skip
def test_one_wrong_row_is_found_in_its_place(folder, row, fault):
    assert fault in codes(folder.with_rows(F, row))


def test_a_lost_zero_says_what_to_write(folder):
    (found,) = folder.with_rows(F, a_finding(number="117"))
    assert "write 0000117" in found.text


def test_a_number_that_a_list_holds_as_it_is_has_lost_no_zero(folder):
    assert folder.with_rows(F, a_finding(number="985000", digits="")) == []


def test_letters_among_the_figures_are_a_number_and_small_ones_are_not(folder):
    assert folder.with_rows(F, a_finding(number="7C123", digits="5")) == []
    assert codes(folder.with_rows(F, a_finding(number="7c123", digits="5"))) == [("bad-letters", "error", 2, "number")]


def test_a_key_given_twice_is_told_in_the_second_row(folder):
    assert codes(folder.with_rows(F, a_finding(), a_finding())) == [("duplicate-key", "error", 3, "finding")]


def test_an_opinion_is_no_sighting(folder):
    found = folder.spoiled(S, "dated-document", "opinion")
    assert codes(found) == [("unknown-word", "error", 2, "kind")]


def test_a_sighting_without_date_and_model_is_told_to_be_of_no_use(folder):
    found = folder.spoiled(S, "ara,,,1905", "ara,,,")
    assert codes(found) == [("says-nothing", "warning", 2, None)]


@pytest.mark.parametrize(
    "evidence",
    ["from ada@example.org", "call +44 1632 960123", "ask @ada_b", "told by Mrs. Ada Byron", "see t.me/ada_b"],
)
def test_what_tells_of_a_person_is_warned_of(folder, evidence):
    assert codes(folder.with_rows(F, a_finding(evidence=evidence))) == [("names-somebody", "warning", 2, "evidence")]


@pytest.mark.parametrize("author", ["expert 3", "Expert 12", "an expert of the group"])
def test_an_author_who_would_be_taken_for_our_own_is_refused(folder, sound, author):
    spoiled = sound[F].replace("an expert of the North circle,2026-11-25", f"{author},2026-11-25")
    folder.write(sound | {F: spoiled})
    assert [one.code for one in faults_of(folder.path)[1]] == ["bad-author"]
