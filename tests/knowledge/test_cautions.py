"""Cautions: each warns when it must, says the numbers and dates it is about, and is silent otherwise."""

from __future__ import annotations

from collections.abc import Sequence

from knowledge.answer import answer
from knowledge.base import Knowledge
from knowledge.cautions import RULES
from knowledge.packs.tables import Table
from tests.knowledge.small import block, blocks, table

SERIES = (
    block("K 200001-225000", "1890", model="m6", works="mill"),
    block("K 0200001-0225000", "1921-03-02", model="m9", works="quay"),
)
NAMES = (
    table("makers", {"maker": "we", "name": "Aldersyde"}),
    table(
        "models",
        {"model": "m6", "maker": "we", "name": "Model 6"},
        {"model": "m9", "maker": "we", "name": "Model 9"},
        {"model": "e1", "maker": "we", "name": "Volta", "drive": "electric motor"},
    ),
    table("works", {"works": "mill", "name": "Upper Mill"}, {"works": "quay", "name": "Long Quay"}),
)


def known(*rows: dict[str, str], more: Sequence[Table] = ()) -> Knowledge:
    return blocks(*(rows or SERIES), more=(*NAMES, *more))


def said(text: str, knowledge: Knowledge | None = None) -> dict[str, str]:
    return {one.code: one.text for one in answer(text, knowledge or known()).cautions}


def test_another_count_of_digits_is_named_with_its_model_and_date() -> None:
    text = said("serial K204117")["count-the-digits"]
    assert "6 digits" in text
    assert "with 7 it could be K0204117: Model 9, Long Quay, 2 March 1921" in text


def test_a_count_that_changes_nothing_is_not_warned_of() -> None:
    assert "count-the-digits" not in said("serial K204117", known(SERIES[0]))


def test_a_restored_zero_is_named_and_a_typed_one_explained() -> None:
    assert "With it, it could be K0204117" in said("serial K204117")["leading-zero"]
    assert "Without it, it could be K204117: Model 6" in said("serial K0204117")["leading-zero"]
    assert "counts as one of its 7 digits" in said("serial K0204117", known(SERIES[1]))["leading-zero"]
    assert "leading-zero" not in said("serial K204117", known(SERIES[0]))


def test_a_letter_taken_for_a_digit_is_said() -> None:
    assert "'K2O4117'" in said("serial K2O4117")["letter-or-digit"]


def test_a_missing_letter_is_asked_for_with_what_it_could_be() -> None:
    assert "K204117: Model 6, Upper Mill, 1890" in said("serial 204117")["missing-prefix"]
    assert "missing-prefix" not in said("serial K204117")


def test_an_unreadable_place_is_said_and_how_to_read_it() -> None:
    assert "Chalk" in said("serial K20?117")["unreadable-digit"]


def test_a_number_in_no_block_is_said_to_be_so() -> None:
    assert "K999999" in said("serial K999999")["outside-registers"]
    assert "outside-registers" not in said("serial K204117")


def test_a_model_that_the_number_is_not_of_is_doubted_and_the_fitting_reading_named() -> None:
    text = said("it is a Model 9, serial K204117")["other-model"]
    assert "You say Model 9, but K204117 belongs to Model 6" in text
    assert "K0204117" in text
    assert "other-model" not in said("it is a Model 6, serial K204117")


def test_one_number_in_two_blocks_is_said() -> None:
    twice = known(block("K 1-500", "1890", works="mill"), block("K 400-900", "1891", works="quay"))
    assert "K450 stands in 2 entries" in said("serial K450", twice)["several-registers"]


def test_the_date_of_an_allocation_is_not_that_of_the_machine() -> None:
    assert "allocated" in said("serial K204117")["date-of-allocation"]


def second(date: str, works: str) -> Table:
    return table("prefixes", {"register": "list", "prefix": "K", "date": date, "works": works})


def test_lists_that_disagree_are_both_shown() -> None:
    works = said("serial K204117", known(SERIES[0], more=[second("1889/1925", "quay")]))["lists-disagree"]
    assert "Upper Mill" in works
    assert "Long Quay" in works
    assert (
        "1900 and 1925"
        in said("serial K204117", known(SERIES[0], more=[second("1900/1925", "mill")]))["lists-disagree"]
    )


def test_lists_that_agree_are_not_warned_of() -> None:
    assert "lists-disagree" not in said("serial K204117", known(SERIES[0], more=[second("1889/1925", "mill")]))


def test_a_prefix_of_two_times_disagrees_with_neither() -> None:
    rows = [{"register": "list", "prefix": "K", "date": date, "works": "mill"} for date in ("1885/1891", "1920/1925")]
    assert "lists-disagree" not in said("serial K204117", known(SERIES[0], more=[table("prefixes", *rows)]))


def test_a_number_that_its_letters_alone_date_is_said_to_be_in_no_block() -> None:
    text = said("serial K999999", known(SERIES[0], more=[second("1889/1925", "mill")]))["outside-registers"]
    assert "No block known here holds K999999" in text
    assert "one slip away" not in text


def test_marks_of_parts_are_known_though_they_are_passed_over() -> None:
    marks = table(
        "other-marks",
        {"maker": "we", "prefix": "OV", "digits": "3", "what": "part number", "where": "on the bobbin case"},
    )
    assert (
        "OV 123 may be the part number"
        in said("OV 123 is on the bobbin case, what is it?", known(more=[marks]))["not-a-serial"]
    )


def test_other_numbers_of_a_machine_are_known_for_what_they_are() -> None:
    marks = table("other-marks", {"maker": "we", "digits": "4", "what": "a casting number", "where": "under the bed"})
    text = said("serial 4711", known(more=[marks]))["not-a-serial"]
    assert "4711 may be the casting number (under the bed)" in text


def test_an_electric_machine_and_talk_of_opening_bring_the_usual_cautions() -> None:
    electric = known(block("K 200001-225000", "1950", model="e1"))
    assert "qualified person" in said("serial K204117", electric)["old-wiring"]
    assert "pull the plug" in said("may I open the motor of K204117?")["old-wiring"]
    assert "old-wiring" not in said("serial K204117")


def test_codes_are_those_of_the_design() -> None:
    """DESIGN section 5: the codes that other programs may rely on."""
    codes = (
        "count-the-digits leading-zero letter-or-digit missing-prefix several-makers several-registers "
        "date-of-allocation lists-disagree other-model not-a-serial unreadable-digit outside-registers inferred "
        "old-wiring"
    )
    assert {code for code, _ in RULES} == set(codes.split())
