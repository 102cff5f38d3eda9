"""Tests of knowledge/between.py: what follows for a number between two machines that are known."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from knowledge.answer import Answer, answer, as_json
from knowledge.base import Knowledge
from knowledge.between import IssueOrder
from knowledge.candidates import Candidate
from knowledge.findings import Finding, Sighting, sighted
from knowledge.packs.tables import Pack
from tests.knowledge.small import block, register, table
from tests.knowledge.test_findings import knowing, on

BEFORE = on("Q20400", 1, date="1911", evidence="ledger p. 40", model="m9")
AFTER = on("Q20450", 2, date="1913", evidence="by the shuttle", kind="feature", model="m9")


def asked(text: str, *findings: Finding) -> Answer:
    return answer(text, knowing(*findings))


def inferred(answered: Answer) -> list[Candidate]:
    return [one for one in answered.candidates if one.kind == "inferred"]


# --- a number between two machines


def test_a_number_between_two_dated_machines_of_one_series_is_dated_between_them_and_both_are_named() -> None:
    (best,) = inferred(asked("How old is Q20417?", BEFORE, AFTER))
    assert (best.span.earliest, best.span.latest) == (date(1911, 1, 1), date(1913, 12, 31))
    assert (best.maker, best.model, best.works, best.register) == ("ottrel", "m9", "", "")
    assert best.source == (
        "between two machines the group knows: Q20400 (1911, ledger p. 40) and Q20450 (1913, by the shuttle)"
    )
    assert best.rests_on == (BEFORE.key, AFTER.key)


def test_it_is_never_presented_as_a_record() -> None:
    answered = asked("How old is Q20417?", BEFORE, AFTER)
    told = as_json(answered)["candidates"][0]
    assert (told["kind"], told["object"]) == ("inferred", "inference")
    (warned,) = [one.text for one in answered.cautions if one.code == "inferred"]
    assert "in no record, but inferred from Q20400 and Q20450" in warned
    assert "outside-registers" in [one.code for one in answered.cautions]


def test_for_all_readings_between_the_same_machines_it_is_said_once() -> None:
    answered = asked("serial Q204?7", BEFORE, AFTER)
    assert [one.text for one in answered.cautions if one.code == "inferred"] == [
        "Q204?7: its date and model are in no record, but inferred from Q20400 and Q20450, in the order of issue."
    ]


def test_it_needs_no_expert() -> None:
    assert asked("How old is Q20417?", BEFORE, AFTER).case == ()


def test_machines_of_which_nobody_told_the_maker_date_a_number_only_where_no_others_do() -> None:
    nobodys = (
        replace(BEFORE, key=f"{3:032x}", maker="", model=""),
        replace(AFTER, key=f"{4:032x}", maker="", model=""),
    )
    assert [one.maker for one in inferred(asked("How old is Q20417?", *nobodys))] == [""]
    both = asked("How old is Q20417?", BEFORE, AFTER, *nobodys)
    assert [one.maker for one in inferred(both)] == ["ottrel"]
    assert both.case == ()


@pytest.mark.parametrize("number", ["Q20399", "Q20451", "Q1", "Q2040", "W20417"])
def test_outside_the_two_nothing_follows(number: str) -> None:
    assert inferred(asked(f"serial {number}", BEFORE, AFTER)) == []


def test_one_machine_alone_dates_no_other() -> None:
    assert inferred(asked("serial Q20417", BEFORE)) == []


def test_machines_of_two_makers_are_no_series() -> None:
    other = replace(AFTER, maker="wendel", model="ida")
    assert inferred(asked("serial Q20417", BEFORE, other)) == []


def test_an_opinion_dates_no_other_machine() -> None:
    assert sighted(replace(AFTER, kind="opinion")) is None
    assert inferred(asked("serial Q20417", BEFORE, replace(AFTER, kind="opinion"))) == []


def test_a_number_with_a_finding_of_its_own_gets_no_inference_of_what_that_tells() -> None:
    own = on("Q20417", 3, date="1912", model="m6")
    assert inferred(asked("Q20417", BEFORE, AFTER, own)) == []
    (model,) = inferred(asked("Q20417", BEFORE, AFTER, replace(own, model="")))
    assert (model.date, model.model) == ("", "m9")


def test_sightings_that_contradict_each_other_give_a_wider_span_and_say_so() -> None:
    wrong = on("Q20410", 3, date="1915", model="m9")
    (best,) = inferred(asked("serial Q20417", BEFORE, wrong, AFTER))
    assert (best.span.latest, best.span.earliest) >= (date(1913, 12, 31), date(1911, 1, 1))
    assert "contradict each other" in best.note


def test_a_bill_of_sale_reaches_back_by_the_years_a_machine_may_stand_unsold() -> None:
    (best,) = inferred(asked("serial Q20417", replace(BEFORE, kind="dated-document"), AFTER))
    assert best.span.earliest == date(1908, 1, 1)


# --- the model


def test_a_model_follows_only_where_it_is_seen_on_both_sides() -> None:
    (best,) = inferred(asked("serial Q20417", BEFORE, replace(AFTER, model="m6")))
    assert (best.model, best.date) == ("", "1911/1913")


def test_a_model_follows_without_dates_too() -> None:
    undated = (replace(BEFORE, date=""), replace(AFTER, date=""))
    (best,) = inferred(asked("serial Q20417", *undated))
    assert (best.model, best.date) == ("m9", "")
    assert best.source == "between two machines of this model: Q20400 (ledger p. 40) and Q20450 (by the shuttle)"


# --- beside registers


def test_where_a_register_dates_the_number_and_tells_its_model_nothing_is_inferred() -> None:
    around = on("K200100", 1, date="1911"), on("K204900", 2, date="1913")
    assert inferred(asked("K204117", *around)) == []


def test_between_the_blocks_of_a_register_a_gap_is_dated_by_machines_on_both_sides() -> None:
    (best,) = inferred(asked("K250000", on("K200100", 1), on("K305000", 2, date="1915")))
    assert (best.serial, best.date) == ("K250000", "1911/1915")


def test_a_list_of_another_maker_does_not_keep_the_number_from_being_dated() -> None:
    (best,) = inferred(asked("K270000", on("K200100", 1), on("K305000", 2, date="1915")))
    assert (best.maker, best.date) == ("ottrel", "1911/1915")


def years_without_models() -> Pack:
    return Pack.of(
        "years",
        table("makers", {"maker": "ottrel", "name": "Ottrel"}),
        table("models", {"model": "m9", "maker": "ottrel", "name": "Model 9"}),
        table("registers", register("year-starts", maker="ottrel", object="manufacture", to="1930")),
        table("year-starts", {"register": "list", "prefix": "Y", "first": "10000", "date": "1910"},
              {"register": "list", "prefix": "Y", "first": "20000", "date": "1911"},
              {"register": "list", "prefix": "Y", "first": "30000", "date": "1912"}),
    )  # fmt: skip


def test_where_a_register_dates_the_number_the_model_alone_is_inferred_and_comes_behind() -> None:
    around = on("Y12000", 1, date="1910"), on("Y13000", 2, date="1910")
    listed, model = answer("Y12500", Knowledge.of([years_without_models()], around)).candidates[:2]
    assert (listed.kind, listed.date) == ("year-start", "1910")
    assert (model.kind, model.model, model.date) == ("inferred", "m9", "")


def test_an_entry_that_is_open_for_decades_is_no_dating_that_nothing_could_be_added_to() -> None:
    around = on("Y40000", 1, date="1920"), on("Y41000", 2, date="1921")
    found = inferred(answer("Y40500", Knowledge.of([years_without_models()], around)))
    assert [one.date for one in found] == ["1920/1921"]


# --- how it was typed


@pytest.mark.parametrize(
    ("typed", "steps"),
    [("20417", ("prefix-missing",)), ("Q204?7", ("unreadable",)), ("Q0020417", ("zero-removed",))],
)
def test_letters_zeros_and_unreadable_places_are_put_right_for_it(typed: str, steps: tuple[str, ...]) -> None:
    found = inferred(asked(f"serial {typed}", BEFORE, AFTER))
    assert {one.steps for one in found} == {steps}
    assert all(one.date == "1911/1913" for one in found)


@pytest.mark.parametrize("typed", ["Q2417", "Q204177", "Q24017"])
def test_no_slip_in_the_digits_is_assumed_for_it(typed: str) -> None:
    assert inferred(asked(f"serial {typed}", BEFORE, AFTER)) == []


def test_where_letters_or_zeros_are_put_right_the_machines_must_have_numbers_of_the_same_form() -> None:
    far = on("Q99999", 1), on("Q1000500", 2, date="1913")
    assert [one.steps for one in inferred(asked("serial Q1000100", *far))] == [("as-typed",)]
    assert inferred(asked("serial 1000100", *far)) == []


# --- the order of issue


def issued(*blocks: str) -> IssueOrder:
    """Return the order of blocks such as '200001-225000'."""
    return IssueOrder([numbers.partition("-")[0] for numbers in blocks])


def in_order(order: IssueOrder, *numbers: str) -> bool:
    places = [order.place(number) for number in numbers]
    return places == sorted(set(places))


def test_without_a_register_the_zero_led_numbers_come_last_and_fewer_digits_first() -> None:
    assert in_order(issued(), "204117", "999999", "1000000", "9999999", "0000001", "0204117")


def test_a_register_has_its_own_order() -> None:
    order = issued("300001-325000", "200001-225000", "0000001-0025000", "1000000-1100000")
    assert in_order(order, "300001", "325000", "200001", "200002", "225000", "0000001", "0025000", "1000000")


def test_a_number_outside_the_blocks_comes_behind_the_block_before_it_or_before_the_first() -> None:
    order = issued("300001-325000", "200001-225000", "1000000-1100000")
    assert in_order(order, "325000", "330000", "200001", "225000", "250000", "1000000", "1200000")
    assert in_order(order, "100", "199999", "200001")


def test_numbers_are_dated_in_the_registers_order_not_in_that_of_the_numbers() -> None:
    pack = Pack.of(
        "turned",
        table("makers", {"maker": "ottrel", "name": "Ottrel"}),
        table("registers", register("allocations", maker="ottrel")),
        table("allocations", block("K 300001-300100", "", order="1"), block("K 200001-200100", "", order="2"),
              block("K 400001-400100", "", order="3")),
    )  # fmt: skip
    around = on("K300050", 1, date="1911"), on("K400050", 2, date="1913")
    found = inferred(answer("K200050", Knowledge.of([pack], around)))
    assert [one.date for one in found] == ["1911/1913"]


# --- sightings that are no findings


def sighting(serial: str, key: str, **more: Any) -> Sighting:
    seen = sighted(on(serial, 1))
    assert seen
    return replace(seen, key=key, **more)


def test_sightings_from_elsewhere_date_numbers_like_findings() -> None:
    seen = sighting("Q20400", "theirs:1"), sighting("Q20450", "theirs:2", date="1913")
    found = inferred(answer("serial Q20417", Knowledge.of([], sightings=seen)))
    assert [(one.date, one.rests_on) for one in found] == [("1911/1913", ("theirs:1", "theirs:2"))]


def test_of_two_sightings_with_one_key_the_first_counts() -> None:
    twice = (sighting("Q20400", "a"), sighting("Q20450", "a", date="1913"))
    assert list(Knowledge.of([], sightings=twice).between.by_key) == ["a"]
