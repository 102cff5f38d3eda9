"""What a settled case shows: the number as it was typed beside the one that is stamped."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

import pytest

from knowledge.base import Knowledge
from knowledge.candidates import rank
from knowledge.findings import Finding
from knowledge.mistakes import Belief, Learned, Seen
from knowledge.said import Said
from knowledge.seen_mistakes import mistake_of
from tests.knowledge.small import block, blocks, pack, register, table, token

KNOWN = blocks(
    block("K 200001-225000", "1890", model="m6"),
    block("K 1000000-1900000", "1905"),
    block("K 0200001-0225000", "1921"),
    block("300001-325000", "1899"),
    more=(table("prefixes", {"register": "list", "prefix": "K", "date": "1880/1930", "works": "mill"}),),
)


def seen(typed: str, stamped: str, knowledge: Knowledge = KNOWN, **more: Any) -> Seen:
    found = mistake_of(token(typed), stamped, knowledge, **more)
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("typed", "stamped", "observed"),
    [
        ("K 204117", "K204117", "as-typed"),
        ("K 204117", "K0204117", "zero-restored"),
        ("204117", "K204117", "prefix-missing"),
        ("204117", "K0204117", "prefix-missing+zero-restored"),
        ("K 204177", "K204117", "digit-misread"),
        ("K 20417", "K204117", "digit-missed"),
        ("K 2041177", "K204117", "digit-extra"),
        ("K 240117", "K204117", "digits-swapped"),
        ("K 00204117", "K0204117", "zero-removed"),
        ("K 2041?7", "K204117", "unreadable"),
        ("K 2?????", "K204117", "unreadable"),
    ],
)
def test_each_mistake_is_seen_by_its_steps(typed: str, stamped: str, observed: str) -> None:
    assert seen(typed, stamped).observed == observed


def test_the_shares_are_those_of_the_answer_and_add_up_to_1() -> None:
    shares = seen("204117", "K204117").shares
    ranked = rank(token("204117"), 0, KNOWN, Said())
    assert sum(shares.values()) == pytest.approx(1)
    assert shares["prefix-missing"] == pytest.approx(
        sum(one.likelihood for one in ranked if one.steps == ("prefix-missing",))
    )


def test_what_the_asker_said_beside_the_number_counts_in_the_shares() -> None:
    told = seen("K 204117", "K204117", said=Said(models=("m6",)))
    assert told.shares["as-typed"] > seen("K 204117", "K204117").shares["as-typed"]


@pytest.mark.parametrize(
    ("typed", "kind"),
    [("K 204117", "none"), ("K 250117", "none-between"), ("K 20411799", "none-count"), ("W 204117", "none-letters")],
)
def test_a_number_in_no_register_is_told_apart_by_what_was_typed(typed: str, kind: str) -> None:
    typed_rightly = typed.replace(" ", "")
    assert seen(typed, typed_rightly, maker="another").observed == kind
    assert kind in seen(typed, typed_rightly).shares


def test_a_dating_by_the_letters_alone_is_a_share_of_none_of_these() -> None:
    shares = seen("K 250117", "K250117").shares
    ranked = rank(token("K 250117"), 0, KNOWN, Said())
    assert ranked[0].kind == "prefix"
    assert shares["none-between"] > ranked[0].likelihood
    assert "as-typed" not in shares


def test_the_same_number_of_another_maker_is_none_of_these() -> None:
    assert seen("K 204117", "K204117", maker="we").observed == "as-typed"
    assert seen("K 204117", "K204117", maker="they").observed == "none"


def test_a_digit_taken_for_one_that_is_no_look_alike_is_none_of_these() -> None:
    assert seen("K 204117", "K204417").observed == "digit-misread"
    assert seen("K 204117", "K204217").observed == "none"


def test_one_mistake_away_from_a_number_that_no_block_holds_is_none_of_these() -> None:
    assert seen("K 224999", "K229499").observed == "none"


def test_another_number_altogether_shows_nothing() -> None:
    assert mistake_of(token("K 204117"), "K1388250", KNOWN) is None
    assert mistake_of(token("K 250117"), "K1388932", KNOWN) is None
    assert mistake_of(token("204117"), "", KNOWN) is None


def test_two_mistakes_at_once_show_nothing_where_a_register_holds_what_was_typed() -> None:
    assert mistake_of(token("K 204117"), "K0201417", KNOWN) is None


def test_two_mistakes_at_once_are_none_of_these_where_no_register_holds_what_was_typed() -> None:
    assert seen("K 2041179", "K0204177").observed == "none-between"


def test_what_was_learned_before_changes_nothing_in_the_shares() -> None:
    learned = Learned({"zero-restored": Belief(40, 10.0, 2.5)}, 90)
    assert seen("K 204117", "K0204117", replace(KNOWN, learned=learned)) == seen("K 204117", "K0204117")


def test_a_finding_does_not_bear_witness_to_itself() -> None:
    now = datetime(2026, 11, 25, tzinfo=UTC)
    finding = Finding("a" * 32, "K", "0204117", "", "we", "m9", "", "1921", "", "ledger", "", "expert 1", now, 3)
    source = pack(
        table("registers", register("allocations")),
        table("allocations", block("K 200001-225000"), block("K 0200001-0225000")),
    )
    known, without = Knowledge.of([source], [finding]), Knowledge.of([source])
    assert rank(token("K 204117"), 0, known, Said()) != rank(token("K 204117"), 0, without, Said())
    assert seen("K 204117", "K0204117", known) == seen("K 204117", "K0204117", without)


def test_learned_factors_act_in_answers_on_readings_and_on_none_of_these() -> None:
    learned = Learned({"zero-restored": Belief(40, 10.0, 2.0), "none": Belief(0, 5.0, 0.5)}, 90)
    before = {one.serial: one.likelihood for one in rank(token("K 204117"), 0, KNOWN, Said())}
    after = {one.serial: one.likelihood for one in rank(token("K 204117"), 0, replace(KNOWN, learned=learned), Said())}
    ratio = before["K0204117"] / before["K204117"]
    assert after["K0204117"] / after["K204117"] == pytest.approx(2 * ratio)
    none_before, none_after = 1 - sum(before.values()), 1 - sum(after.values())
    assert none_after / after["K204117"] == pytest.approx(0.5 * none_before / before["K204117"])


def test_learned_factors_of_none_of_these_act_on_datings_by_the_letters_alone() -> None:
    learned = Learned({"none-between": Belief(0, 5.0, 0.5), "as-typed": Belief(9, 1.0, 9.0)}, 90)
    typed = token("K 250117")
    before, after = (rank(typed, 0, known, Said()) for known in (KNOWN, replace(KNOWN, learned=learned)))
    others = [one for one in before if one.kind != "prefix"]
    by_letters = [next(one.likelihood for one in found if one.kind == "prefix") for found in (before, after)]
    now = {one.serial: one.likelihood for one in after if one.kind != "prefix"}
    assert by_letters[1] / now[others[0].serial] == pytest.approx(0.5 * by_letters[0] / others[0].likelihood)


def test_answers_are_the_very_same_while_nothing_is_learned() -> None:
    for typed in ("K 204117", "204117", "K 250117", "K 2?????", "W 1"):
        assert rank(token(typed), 0, KNOWN, Said()) == rank(token(typed), 0, replace(KNOWN, learned=Learned()), Said())
