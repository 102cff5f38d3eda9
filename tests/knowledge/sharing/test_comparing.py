"""A pack of another group beside ours: what is new, equal and contradictory. Names, not ids, tell what is what."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from knowledge.base import Knowledge
from knowledge.findings import Finding
from knowledge.packs import Pack
from knowledge.sharing import Comparison, compare, exported
from knowledge.sharing.comparing import CONTRADICTORY, EQUAL, FINDING, NEW, OUTDATED, SIGHTING, WITHDRAWN
from tests.knowledge.sharing.groups import KEYS, NOON, a_finding, our_pack

OURS, THEIRS = KEYS[0], KEYS[1]


def shared(*findings: Finding, base: Pack | None = None, name: str = "theirs") -> Pack:
    """What a group with these findings exports."""
    return exported(Knowledge.of([base or our_pack()], findings), "Hallow circle", name)[0]


def looked_at(theirs: Pack, *findings: Finding, packs: Sequence[Pack] | None = None, **more: object) -> Comparison:
    return compare(theirs, [our_pack()] if packs is None else packs, findings, **more)  # type: ignore[arg-type]


def kinds(found: Comparison, what: str = FINDING) -> list[str]:
    return [one.kind for one in found.sides if one.what == what]


def test_what_nobody_here_knew_is_new() -> None:
    assert kinds(looked_at(shared(a_finding(THEIRS, date="1890~")))) == [NEW]


def test_the_same_said_of_the_same_machine_is_equal_whoever_settled_it() -> None:
    assert kinds(looked_at(shared(a_finding(THEIRS)), a_finding(OURS))) == [EQUAL]


def test_another_date_for_the_same_machine_is_a_contradiction_with_both_sides_told() -> None:
    found = looked_at(shared(a_finding(THEIRS, date="1890")), a_finding(OURS, date="1930", model="m9"))
    (side,) = found.contradictory
    assert "1890" in side.theirs
    assert any("1930" in one for one in side.ours)


def test_a_register_of_ours_that_says_otherwise_is_a_contradiction() -> None:
    (side,) = looked_at(shared(a_finding(THEIRS, model="m6", works="", date="1960"))).contradictory
    assert any("The ledger" in one for one in side.ours)


def test_our_own_finding_that_comes_back_is_equal() -> None:
    assert kinds(looked_at(shared(a_finding(OURS)), a_finding(OURS))) == [EQUAL]


def test_an_earlier_state_of_our_own_finding_is_outdated_and_no_contradiction() -> None:
    later = a_finding(OURS, date="1893", settled=NOON.replace(year=2028))
    assert kinds(looked_at(shared(a_finding(OURS)), later)) == [OUTDATED]


def test_a_later_state_of_our_own_finding_that_we_did_not_make_is_a_contradiction() -> None:
    tampered = a_finding(OURS, date="1893", settled=NOON.replace(year=2028))
    found = looked_at(shared(tampered), a_finding(OURS))
    assert kinds(found) == [CONTRADICTORY]
    assert "our own" in found.contradictory[0].ours[0]


def test_what_was_withdrawn_here_stays_so() -> None:
    assert kinds(looked_at(shared(a_finding(OURS)), withdrawn={OURS})) == [WITHDRAWN]


def test_twice_the_same_brings_nothing_new() -> None:
    theirs = shared(a_finding(THEIRS), a_finding(KEYS[2], "K230000", date="1999", model="m9"))
    first = looked_at(theirs)
    again = looked_at(theirs, packs=[our_pack(), theirs])
    assert kinds(first) == [NEW, CONTRADICTORY]
    assert kinds(again) == [EQUAL, CONTRADICTORY]
    assert [one.name for one in first.contradictory] == [one.name for one in again.contradictory]


def test_one_maker_under_two_ids_is_one_maker() -> None:
    their_base = our_pack("theirs-base", "WE  & sons", "w")
    theirs = shared(a_finding(THEIRS, maker="w"), base=their_base)
    found = looked_at(theirs, a_finding(OURS))
    assert kinds(found) == [EQUAL]
    assert found.sides[0].machine.maker == "we"


def test_one_id_for_two_makers_is_two_makers_and_nothing_is_merged() -> None:
    their_base = our_pack("theirs-base", "Quite Another", "we")
    found = looked_at(shared(a_finding(THEIRS, date="1920"), base=their_base), a_finding(OURS))
    assert kinds(found) == [NEW]
    assert found.sides[0].machine.maker == "theirs/we"
    assert found.knowledge.makers["we"].name == "We & Sons"
    assert found.knowledge.makers["theirs/we"].name == "Quite Another"


def test_two_makers_of_one_name_in_two_countries_are_two() -> None:
    their_base = our_pack("theirs-base", "We & Sons", "we", country="Sweden")
    found = looked_at(shared(a_finding(THEIRS, date="1920"), base=their_base), packs=[our_pack(country="Norway")])
    assert found.sides[0].machine.maker == "theirs/we"


def test_sightings_are_compared_too() -> None:
    theirs = shared(a_finding(THEIRS))
    seen = replace(theirs.tables["sightings"], columns={**theirs.tables["sightings"].columns, "sighting": ["seen-1"]})
    without = Pack.of(
        "theirs", *(one for name, one in theirs.tables.items() if name not in ("findings", "sightings")), seen
    )
    found = looked_at(without)
    assert kinds(found, SIGHTING) == [NEW]
    assert kinds(looked_at(without, packs=[our_pack(), without]), SIGHTING) == [EQUAL]


def test_looking_changes_nothing() -> None:
    ours, theirs = our_pack(), shared(a_finding(THEIRS))
    before = (ours, theirs)
    looked_at(theirs, packs=[ours])
    assert (ours, theirs) == before


def test_loaded_findings_answer_under_their_name_and_ours_come_first() -> None:
    theirs = shared(a_finding(THEIRS, date="1892"))
    known = Knowledge.of([our_pack(), theirs], [a_finding(OURS)])
    assert [one.role for one in known.findings.by_serial["K204117"]] == [
        "an expert of the group",
        "an expert of Hallow circle",
    ]


def test_a_finding_that_came_by_two_ways_counts_once_in_its_latest_state() -> None:
    old, new = (shared(a_finding(THEIRS, date=date, settled=NOON.replace(year=year)), name=name)
                for date, year, name in (("1892", 2027, "one"), ("1893", 2028, "two")))  # fmt: skip
    for packs in ([our_pack(), old, new], [our_pack(), new, old]):
        assert [one.date for one in Knowledge.of(packs).findings.by_key.values()] == ["1893"]
