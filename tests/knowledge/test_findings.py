"""Tests of what is answered from findings: knowledge/findings.py, contradictions.py and their part of the answer."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from knowledge.answer import Answer, answer, as_json
from knowledge.base import Knowledge
from knowledge.candidates import rank
from knowledge.contradictions import contradictions
from knowledge.findings import EVIDENCE, Finding, Findings
from knowledge.packs.tables import Pack, Table
from knowledge.said import Said
from tests.knowledge.oracle import Stamped, explains
from tests.knowledge.small import block, register, table, token
from tests.knowledge.test_completeness import found_by_brute_force, knowledge_of, pack_and_number

NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)
SERIAL = re.compile(r"([A-Z]*)([0-9].*?)([A-Z]*)")


def on(serial: str, key: int = 1, **more: Any) -> Finding:
    """Make a finding on a number: Model 9 of Ottrel, 1911, by a ledger, unless told otherwise."""
    match = SERIAL.fullmatch(serial)
    assert match
    told = Finding(
        f"{key:032x}", match[1], match[2], match[3], "ottrel", "m9", "", "1911", "ledger p. 40", "ledger", "",
        "expert 3", NOON, 12,
    )  # fmt: skip
    return replace(told, **more)


def two_makers() -> Pack:
    """Ottrel's blocks with the letter K; Wendel's numbers K 200001 to K 300000 besides."""
    return Pack.of(
        "small",
        table("makers", {"maker": "ottrel", "name": "Ottrel"}, {"maker": "wendel", "name": "Wendel"}),
        table(
            "models", {"model": "m6", "maker": "ottrel", "name": "Model 6"},
            {"model": "m9", "maker": "ottrel", "name": "Model 9"}, {"model": "ida", "maker": "wendel", "name": "Ida"},
        ),
        table("works", {"works": "mill", "maker": "ottrel", "name": "The Mill"},
              {"works": "yard", "maker": "ottrel", "name": "The Yard"}),
        table("registers", register("allocations", maker="ottrel", title="Ottrel's ledger"),
              register("allocations", "other", maker="wendel", title="Wendel's list")),
        table("allocations",
              block("K 175001-205000", "1910-03-02", model="m9", works="mill"),
              block("K 0200001-0225000", "1921", model="m6"),
              block("K 300001-310000", "1914", model="m6"),
              block("W 1-99999", "1900", register="other", model="ida"),
              block("K 260001-280000", "1931", register="other", model="ida")),
    )  # fmt: skip


def knowing(*findings: Finding) -> Knowledge:
    return Knowledge.of([two_makers()], findings)


def asked(text: str, *findings: Finding) -> Answer:
    return answer(text, knowing(*findings))


def codes(answered: Answer) -> list[str]:
    return [one.code for one in answered.cautions]


# --- the next question with that number


def test_a_number_with_a_finding_is_answered_from_it_first_and_the_register_stands_beside_it() -> None:
    answered = asked("How old is K204117?", on("K204117"))
    best, beside = answered.candidates[:2]
    assert (best.kind, best.serial, best.maker, best.model, best.date) == ("finding", "K204117", "ottrel", "m9", "1911")
    assert (best.register, best.first, best.last, best.quantity, best.position) == ("", None, None, None, None)
    assert (beside.kind, beside.register, beside.date) == ("allocation", "list", "1910-03-02")
    assert beside.steps == ("as-typed",)
    assert best.likelihood > 0.8


def test_its_source_tells_role_day_and_evidence() -> None:
    (best, *_) = asked("K204117", on("K204117")).candidates
    assert best.source == "an expert of the group, 2026-11-25: ledger p. 40"


def test_what_others_shared_names_their_group() -> None:
    (best, *_) = asked("K204117", on("K204117", author="Treadle circle", case=None)).candidates
    assert best.source == "Treadle circle, 2026-11-25: ledger p. 40"


@pytest.mark.parametrize(
    ("kind", "evidence", "words"),
    [
        ("dated-document", "", "a dated document"), ("feature", "", "a feature of the machine"),
        ("opinion", "", "an opinion"), ("opinion", "by the decals", "an opinion, by the decals"),
    ],
)  # fmt: skip
def test_the_kind_of_evidence_is_told_where_there_are_no_words_and_an_opinion_always(
    kind: str, evidence: str, words: str
) -> None:
    (best, *_) = asked("K204117", on("K204117", kind=kind, evidence=evidence)).candidates
    assert best.source.endswith(f": {words}")


def test_the_answer_as_json_tells_the_finding_by_its_key() -> None:
    told = as_json(asked("K204117", on("K204117", note="The lid is new.")))["candidates"][0]
    assert told["rests_on"] == [f"{1:032x}"]
    assert (told["kind"], told["object"], told["note"]) == ("finding", "finding", "The lid is new.")
    assert (told["first"], told["last"], told["quantity"], told["position"]) == (None, None, None, None)


def test_a_finding_with_a_model_alone_leaves_the_date_to_the_register() -> None:
    best, beside = asked("K204117", on("K204117", date="")).candidates[:2]
    assert (best.model, best.date) == ("m9", "")
    assert beside.date == "1910-03-02"


def test_the_maker_of_a_finding_is_that_of_its_model_where_only_the_model_was_told() -> None:
    (best, *_) = asked("K204117", on("K204117", maker="")).candidates
    assert best.maker == "ottrel"


def test_a_number_that_no_register_knows_is_answered_from_its_finding() -> None:
    answered = asked("XQ 47113", on("XQ47113", date="1899~"))
    assert [(one.kind, one.serial, one.date) for one in answered.candidates] == [("finding", "XQ47113", "1899~")]
    assert (answered.case, answered.ask_back) == ((), None)


def test_a_number_with_letters_among_its_digits_is_found_again_and_one_slip_away() -> None:
    finding = on("A3B4711")
    assert [one.steps for one in asked("serial A3B4711", finding).candidates] == [("as-typed",)]
    slipped = [one for one in asked("serial A3B4771", finding).candidates if one.kind == "finding"]
    assert [one.steps for one in slipped] == [("digit-misread",)]


def test_a_machine_without_a_readable_number_is_kept_and_answers_no_number() -> None:
    unread = on("K1", prefix="", digits="", suffix="")
    knowledge = knowing(unread)
    assert knowledge.findings.by_key[unread.key] == unread
    assert all(one.kind != "finding" for one in answer("K204117 and 1 and serial 47", knowledge).candidates)


@pytest.mark.parametrize(
    ("typed", "step"),
    [
        ("K204171", "digits-swapped"), ("K20417", "digit-missed"), ("K2041177", "digit-extra"),
        ("K204147", "digit-misread"), ("204117", "prefix-missing"), ("KZ04117", "letter-for-digit"),
        ("K2041?7", "unreadable"), ("K0204117", "zero-removed"),
    ],
)  # fmt: skip
def test_a_number_one_slip_away_finds_it_too(typed: str, step: str) -> None:
    found = [one for one in asked(f"serial {typed}", on("K204117")).candidates if one.kind == "finding"]
    assert [(one.serial, one.steps) for one in found] == [("K204117", (step,))]


def test_one_slip_away_the_number_as_typed_comes_first() -> None:
    best, *others = asked("K204171", on("K204117")).candidates
    assert (best.kind, best.serial) == ("allocation", "K204171")
    assert any(one.kind == "finding" for one in others)


@pytest.mark.parametrize("kind", EVIDENCE)
@pytest.mark.parametrize("beside", ["K0204117", "BK204117", "K204177"])
def test_where_the_number_was_typed_so_its_finding_comes_before_any_other(kind: str, beside: str) -> None:
    strongest = on(beside, 2, kind="dated-document", model="m6")
    best, *_ = asked("K204117", on("K204117", kind=kind), strongest).candidates
    assert best.serial == "K204117"


def test_many_unreadable_places_are_searched_for_findings_in_full() -> None:
    serials = ("K0204117", "K0214999", "K0300000")
    found = asked("serial K 0 2 ? ? ? ? ?", *(on(serial, at) for at, serial in enumerate(serials))).candidates
    assert {one.serial for one in found if one.kind == "finding"} == {"K0204117", "K0214999"}


@given(pack_and_number(), st.data())
@settings(max_examples=300)
def test_every_finding_that_brute_force_finds_is_a_candidate_and_registers_lose_none(
    drawn: tuple[list[Any], Stamped], data: st.DataObject
) -> None:
    rows, typed = drawn
    numbers = st.text("0123456789", min_size=1, max_size=5)
    affixes = st.sampled_from(("", "K", "B", "O", "S", "KO"))
    near = st.builds(Stamped, st.just(typed.prefix), numbers, st.just(typed.suffix)) | st.just(typed)
    other = st.builds(Stamped, affixes, numbers, affixes)
    stamped = data.draw(st.lists(near | other, min_size=1, max_size=6, unique=True))
    findings = [on("1", at, prefix=p, digits=d, suffix=s) for at, (p, d, s) in enumerate(stamped)]
    knowledge = knowledge_of(rows)
    known = Knowledge.of([_source(rows)], findings)
    text = "".join(typed)
    found = rank(token_of(typed), 0, known, Said())
    ours = {(one.serial, one.steps) for one in found if one.kind == "finding"}
    assert {serial for serial, _ in ours} == {"".join(one) for one in stamped if explains(typed, one)}
    registered = {(one.serial, one.reading.prefix + str(one.first), str(one.last) + one.reading.suffix)
                  for one in found if one.register}  # fmt: skip
    assert registered == found_by_brute_force(rows, typed)
    assert len([one for one in found if one.register]) == len(rank(token_of(typed), 0, knowledge, Said())), text
    assert sum(one.likelihood for one in found) <= 1 + 1e-9


def token_of(typed: Stamped) -> Any:
    return replace(token("1"), text="".join(typed), prefix=typed.prefix, digits=typed.digits, suffix=typed.suffix)


def _source(rows: list[Any]) -> Pack:
    columns = {name: [getattr(row, name) for row in rows] for name in type(rows[0])._fields}
    registers = {"register": ["list"], "maker": ["we"], "kind": ["allocations"]}
    return Pack.of("p", Table.of("registers", registers), Table.of("allocations", columns))


# --- what the asker says


def test_of_two_makers_with_the_same_number_the_one_the_asker_names_comes_first() -> None:
    finding = on("K270000")
    assert asked("Ottrel K270000", finding).candidates[0].maker == "ottrel"
    answered = asked("Wendel K270000", finding)
    assert (answered.candidates[0].maker, answered.candidates[0].kind) == ("wendel", "allocation")
    assert answered.case == ()


def test_two_findings_on_one_number_of_two_makers_lead_to_a_question_back() -> None:
    answered = asked("How old is K204117?", on("K204117"), on("K204117", 2, maker="wendel", model="ida"))
    assert answered.ask_back is not None
    assert answered.ask_back.about in ("maker", "model")


def test_a_finding_without_maker_is_not_taken_for_one_of_another_maker() -> None:
    answered = asked("Wendel XQ47113", on("XQ47113", maker="", model=""))
    assert answered.candidates[0].likelihood > 0.8
    assert answered.case == ()


@pytest.mark.parametrize("text", ["K204117", "Ottrel K204117", "K204117, a Model 9, about 1950?", "It says K 204 117."])
def test_a_settled_number_makes_no_case_and_asks_nothing(text: str) -> None:
    for finding in (on("K204117"), on("K204117", date="1960"), on("K204117", model="", date="1911", kind="opinion")):
        answered = asked(text, finding)
        assert (answered.case, answered.ask_back) == ((), None), finding


def test_a_number_not_all_of_which_could_be_read_is_not_settled_by_one_that_it_may_be() -> None:
    answered = asked("serial number K2???17, I cannot read the rest", on("K204117"), on("K209917", 2, model="m6"))
    assert answered.ask_back is not None or answered.case


def test_who_contradicts_the_finding_makes_a_case() -> None:
    assert asked("K204117, it is a Model 6", on("K204117")).case == ("contradiction",)
    assert asked("Wendel K204117", on("K204117")).case == ("contradiction",)


def test_who_asks_for_a_person_is_heard_although_it_is_settled() -> None:
    assert asked("K204117, please let a real person look at it", on("K204117")).case == ("asked-for-a-person",)


# --- contradictions


@pytest.mark.parametrize(
    ("more", "serial", "contradicts"),
    [
        ({}, "K204117", False),
        ({"date": "1913"}, "K204117", False),  # finished and sold up to three years later
        ({"date": "1914"}, "K204117", True),
        ({"date": "1909"}, "K204117", True),
        ({"date": "1906~"}, "K204117", False),
        ({"date": "1913", "kind": "dated-document"}, "K204117", False),
        ({"date": "1916", "kind": "dated-document"}, "K204117", False),  # sold up to three years after it was made
        ({"date": "1918", "kind": "dated-document"}, "K204117", True),
        ({"date": "", "model": "m6"}, "K204117", True),
        ({"date": "", "model": "", "works": "yard"}, "K204117", True),
        ({"date": "", "model": "", "works": "mill"}, "K204117", False),
        ({"maker": "wendel", "model": "", "date": ""}, "K204117", True),
        ({"maker": "", "model": "", "date": "1911"}, "K204117", False),
        ({"date": "1950"}, "XQ4711", False),
        ({}, "K270000", True),  # the other maker's list has it, ours has not
    ],
)
def test_a_finding_contradicts_the_list_where_both_cannot_be_true(
    more: dict[str, Any], serial: str, contradicts: bool
) -> None:
    finding = on(serial, **more)
    assert bool(contradictions(finding, knowing())) == contradicts
    assert bool(contradictions(finding, knowing(finding))) == contradicts
    assert ("lists-disagree" in codes(asked(f"serial {serial}", finding))) == contradicts


def test_a_contradiction_names_the_list_and_what_it_says() -> None:
    (words,) = contradictions(on("K204117", date="1950", model="m6"), knowing())
    assert words == "the list 'Ottrel's ledger' says Model 9, The Mill, 2 March 1910"


def test_a_finding_that_one_of_several_entries_agrees_with_decides_between_them() -> None:
    pack = two_makers()
    numbers = "K 200001-210000"
    twice = table("allocations", block(numbers, "1910", model="m6"), block(numbers, "1911", model="m9"))
    both = Knowledge.of([Pack.of("small", *(pack.tables[n] for n in ("makers", "models", "registers")), twice)])
    assert contradictions(on("K204117"), both) == ()


def test_two_findings_that_cannot_both_be_true_contradict_each_other() -> None:
    known = knowing(on("XQ4711"))
    assert contradictions(on("XQ4711", 2, date="1930"), known) == (
        "another finding, an expert of the group on 25 November 2026, says Model 9, 1911",
    )
    assert contradictions(on("XQ4711", 2, date="1911-05"), known) == ()


def test_a_finding_on_another_makers_machine_counts_where_the_own_makers_lists_do_not_have_the_number() -> None:
    """Two makers can have the same number; lists count likewise."""
    known = knowing(on("XQ4711"), on("K204117", 2), on("W4711", 3))
    assert contradictions(on("XQ4711", 4, maker="wendel", model="ida"), known) == (
        "another finding, an expert of the group on 25 November 2026, says Ottrel Model 9, 1911",
    )
    assert contradictions(on("XQ4711", 4, maker="unlisted", model=""), known) == ()
    assert contradictions(on("W4711", 4, maker="wendel", model="ida", date="1900"), known) == ()


def test_an_amended_finding_does_not_contradict_what_it_was() -> None:
    assert contradictions(on("XQ4711", date="1930"), knowing(on("XQ4711"))) == ()


def test_a_contradiction_is_shown_with_the_answer_and_makes_no_case_each_time() -> None:
    for findings in ([on("K204117", date="1950")], [on("XQ47113"), on("XQ47113", 2, date="1950")]):
        answered = asked(findings[0].serial, *findings)
        (shown,) = [one.text for one in answered.cautions if one.code == "lists-disagree"]
        assert "25 November 2026" in shown
        assert (answered.case, answered.ask_back) == ((), None)


def test_of_two_findings_the_stronger_evidence_comes_first_then_the_later_one() -> None:
    weaker, stronger = on("XQ47113", kind="opinion"), on("XQ47113", 2, kind="dated-document", date="1930")
    assert [one.date for one in asked("XQ47113", weaker, stronger).candidates] == ["1930", "1911"]
    later = on("XQ47113", 2, date="1930", settled=NOON + timedelta(days=1))
    assert [one.date for one in asked("XQ47113", on("XQ47113"), later).candidates] == ["1930", "1911"]


# --- words


@pytest.mark.parametrize(
    "look", [lambda a: [one.text for one in a.cautions], lambda a: list(a.working), lambda a: [str(as_json(a))]]
)
def test_nothing_that_is_said_calls_a_finding_a_register_or_block(look: Callable[[Answer], list[str]]) -> None:
    answered = asked("serial XQ47113", on("XQ47113"))
    for text in look(answered):
        assert not re.search(r"block (known|that holds)|stands in \d entries|in , ", text), text


def test_the_working_tells_who_settled_it_when_and_by_what() -> None:
    working = asked("XQ47113", on("XQ47113")).working
    assert any("settled by an expert of the group on 25 November 2026: ledger p. 40" in line for line in working)


def test_one_machine_settled_and_listed_does_not_stand_in_several_entries_of_the_registers() -> None:
    assert "several-registers" not in codes(asked("K204117", on("K204117")))


# --- arranging


def test_findings_are_arranged_by_number_and_those_with_one_key_count_once() -> None:
    arranged = Findings.of([on("K1"), on("K2"), on("K3", 2)])
    assert (len(arranged), sorted(arranged.by_serial)) == (2, ["K1", "K3"])
    assert arranged.shapes == {("K", 1, "")}


# --- typed as once before


@pytest.mark.parametrize("typed", ["K294117", "K249711", "X9", "204117"])
def test_a_number_that_experts_put_right_is_answered_from_the_finding_when_it_is_typed_so_again(typed) -> None:
    """One slip away, several slips away, another number altogether, or without its letter: no list has these."""
    answered = asked(f"serial number {typed}, how old?", on("K204117", typed=(typed,)))
    best = answered.candidates[0]
    assert (best.kind, best.serial, best.steps) == ("finding", "K204117", ("put-right",))
    assert best.likelihood > 0.5
    assert answered.case == ()


def test_the_finding_stands_there_once_however_it_is_reached() -> None:
    answered = asked("K204171?", on("K204117", typed=("K204171",)))
    assert len([one for one in answered.candidates if one.kind == "finding"]) == 1


@pytest.mark.parametrize("kind", EVIDENCE)
@pytest.mark.parametrize("typed", ["K204171", "K204717", "K0204117", "W4711"])
def test_where_a_list_has_the_number_as_typed_that_keeps_its_place_however_experts_put_it_right(typed, kind) -> None:
    before = asked(f"serial number {typed}, how old?")
    after = asked(f"serial number {typed}, how old?", on("K204117", kind=kind, typed=(typed,)))
    best, old = after.candidates[0], before.candidates[0]
    assert (best.kind, best.serial, best.date) == ("allocation", typed, old.date)
    (put_right,) = [one for one in after.candidates if one.kind == "finding"]
    assert put_right.likelihood < best.likelihood
    assert after.ask_back is not None


def test_a_put_right_spelling_leaves_the_question_back_that_settles_which_of_two_machines_it_is() -> None:
    """A word about one machine, with no evidence, does not make every other machine that one."""
    word = on("K0204117", kind="opinion", evidence="", model="", date="", typed=("K204117",))
    answered = asked("K204117, how old is it?", word)
    assert answered.ask_back is not None
    assert (answered.ask_back.about, answered.ask_back.choices) == ("digits", ("6 digits", "7 digits"))
    assert asked("K204117, it has 7 digits", word).candidates[0].serial == "K0204117"


def test_a_finding_on_the_number_as_typed_goes_before_one_that_was_only_typed_so() -> None:
    answered = asked("K294117?", on("K204117", 1, typed=("K294117",)), on("K294117", 2, model="m6"))
    assert [one.serial for one in answered.candidates[:2]] == ["K294117", "K204117"]


def test_other_slips_are_read_as_ever() -> None:
    before = asked("K204177?", on("K204117"))
    after = asked("K204177?", on("K204117", typed=("K204171",)))
    assert [(one.serial, one.likelihood) for one in before.candidates] == [
        (one.serial, one.likelihood) for one in after.candidates
    ]
