"""What another group says against us becomes a case, once."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bot.expert_desk.shared import SharedContradictions
from knowledge.base import Knowledge
from knowledge.packs import Pack
from knowledge.sharing import Comparison, compare, exported
from tests.bot.conftest import PACK
from tests.bot.expert_desk.conftest import NOW
from tests.knowledge.sharing.groups import KEYS, a_finding


def shared(date: str = "1960", model: str = "t9") -> Pack:
    finding = a_finding(KEYS[1], "K204117", maker="tollgate", model=model, works="", date=date)
    return exported(Knowledge.of([PACK], [finding]), "Hallow circle")[0]


def compared(office, pack: Pack) -> Comparison:
    store = office.journal.store()
    return compare(pack, store.sources(), store.findings(), store.withdrawn_findings())


@pytest.fixture
def desk(office) -> SharedContradictions:
    return SharedContradictions(office.journal, [office.channel])


def test_a_contradiction_becomes_a_case_with_both_sides_before_the_experts(office, desk) -> None:
    count, replies = desk.take_up(compared(office, shared()), NOW)
    assert count == len(replies) == 1
    (case,) = office.desk.cases()
    assert (case.reasons, case.serials, case.makers, case.waiting) == (
        ("contradiction",),
        ("K204117",),
        ("tollgate",),
        0,
    )
    assert "an expert of Hallow circle" in case.reading[0]
    assert "1960" in case.reading[0]
    assert any("Tollgate ledger" in line for line in case.reading[1:])


def test_the_same_again_is_no_second_case_loaded_or_not(office, desk) -> None:
    desk.take_up(compared(office, shared()), NOW)
    office.journal.store().save_pack(shared())
    assert desk.take_up(compared(office, shared()), NOW)[0] == 0
    assert len(office.desk.cases()) == 1


def test_what_they_amended_and_still_contradicts_is_a_new_case(office, desk) -> None:
    desk.take_up(compared(office, shared()), NOW)
    assert desk.take_up(compared(office, shared("1970")), NOW)[0] == 1


def test_what_goes_together_becomes_no_case(office, desk) -> None:
    pack = shared("1890")
    assert desk.take_up(compared(office, replace(pack, name="fine")), NOW)[0] == 1  # another model than the list has
    finding = a_finding(KEYS[2], "K204118", maker="tollgate", model="t6", works="", date="1891")
    fine = exported(Knowledge.of([PACK], [finding]), "Other circle")[0]
    assert desk.take_up(compared(office, fine), NOW)[0] == 0


def test_an_expert_settles_such_a_case_and_ours_counts_before_theirs(office, desk) -> None:
    desk.take_up(compared(office, shared()), NOW)
    office.journal.store().save_pack(shared())
    (case,) = office.desk.cases()
    office.settle(case.id, "Model 6, 1890, ledger p. 3")
    store = office.journal.store()
    known = Knowledge.of(store.sources(), store.findings())
    assert [one.is_own for one in known.findings.by_serial["K204117"]] == [True, False]


def test_two_of_their_findings_on_one_number_are_one_case_with_all_that_is_said(office, desk) -> None:
    findings = [
        a_finding(key, "Z4711", maker="tollgate", model="t9", works="", date=date)
        for key, date in ((KEYS[3], "1911"), (KEYS[4], "1950"))
    ]
    pack = exported(Knowledge.of([PACK], findings), "Hallow circle")[0]
    assert desk.take_up(compared(office, pack), NOW)[0] == 1
    (case,) = office.desk.cases()
    assert (case.serials, sum("Another group's finding" in line for line in case.reading)) == (("Z4711",), 2)
    assert desk.take_up(compared(office, pack), NOW)[0] == 0
