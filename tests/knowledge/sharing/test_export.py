"""What is shared with other groups: whole, without anybody's name, and the same bytes each time."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from knowledge.base import Knowledge
from knowledge.findings import EVIDENCE, Finding
from knowledge.packs import Pack, faults_of, load, write
from knowledge.sharing import exported
from knowledge.store import open_store
from tests.knowledge.sharing.groups import KEYS, a_finding, of_theirs, our_pack, ours
from tests.knowledge.small import pack, table


def files(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in sorted(folder.iterdir())}


def rows(made: Pack, name: str, *columns: str) -> list[tuple[str, ...]]:
    return list(made.rows(name, *columns))


def test_a_finding_goes_along_with_the_things_it_names_and_the_pack_loads_by_itself(tmp_path: Path) -> None:
    made, _ = exported(ours(a_finding()), "Hallow circle")
    write(made, tmp_path / "out")
    found, faults = faults_of(tmp_path / "out")
    assert faults == []
    assert rows(found, "findings", "finding", "prefix", "number", "digits", "maker", "model", "works", "date") == [
        (KEYS[0], "K", "204117", "6", "we", "m9", "mill", "1891")
    ]
    assert rows(found, "makers", "maker", "name", "drawing") == [("we", "We & Sons", "")]
    assert rows(found, "models", "model") == [("m9",)]
    assert rows(found, "works", "works") == [("mill",)]
    assert rows(found, "sources", "source", "title") == [("book", "The book")]


def test_the_author_becomes_the_group_and_the_moment_is_told_to_the_second() -> None:
    made, _ = exported(ours(a_finding()), "Hallow circle")
    assert rows(made, "findings", "author", "settled") == [("an expert of Hallow circle", "2026-11-25T12:00:07Z")]
    assert made.title == "Findings of Hallow circle"
    assert made.name == "findings-hallow-circle"


def test_a_group_without_a_name_has_a_pack_that_no_other_groups_export_replaces() -> None:
    one, _ = exported(ours(a_finding()))
    other, _ = exported(ours(a_finding(KEYS[1])))
    later, _ = exported(ours(a_finding(), a_finding(KEYS[2], settled=datetime(2030, 1, 1, tzinfo=UTC))))
    assert one.name != other.name
    assert one.name == later.name


def test_what_others_shared_goes_on_under_their_name() -> None:
    shared, _ = exported(ours(a_finding()), "Hallow circle")
    made, _ = exported(Knowledge.of([our_pack(), shared], [a_finding(KEYS[1])]), "Brack circle")
    assert sorted(rows(made, "findings", "finding", "author")) == [
        (KEYS[0], "an expert of Hallow circle"), (KEYS[1], "an expert of Brack circle"),
    ]  # fmt: skip


def test_the_note_of_our_expert_stays_here_for_it_is_what_they_wrote() -> None:
    made, left = exported(ours(a_finding(note="Ask her for the treadle, it is in her barn")))
    assert rows(made, "findings", "note") == [("",)]
    assert left.notes == 1


def test_a_finding_that_is_nothing_but_a_note_stays_here() -> None:
    bare = a_finding(maker="", model="", works="", date="", note="keep it dry")
    made, left = exported(ours(bare, a_finding(KEYS[1])))
    assert rows(made, "findings", "finding") == [(KEYS[1],)]
    assert left.only_notes == 1


def test_addresses_and_names_in_the_evidence_are_left_out_and_counted() -> None:
    told = "bill of sale, from ada@example.org, tel. 01632 960123, or ask @ada_b"
    made, left = exported(ours(a_finding(evidence=told)))
    ((evidence,),) = rows(made, "findings", "evidence")
    assert evidence.startswith("bill of sale, from (address left out)")
    assert not any(piece in evidence for piece in ("ada", "960123", "@"))
    assert left.masked == 1


def test_a_plain_name_and_a_street_are_left_out_and_what_the_lists_know_stays() -> None:
    told = "according to Ethel Pym's copy of the We & Sons ledger, now at 12 Mill Lane; made by Upper Mill"
    made, _ = exported(ours(a_finding(evidence=told)))
    ((evidence,),) = rows(made, "findings", "evidence")
    assert evidence == (
        "according to (name left out)'s copy of the We & Sons ledger, now at (address left out); made by Upper Mill"
    )
    assert rows(made, "sightings", "evidence") == [(evidence,)]


def test_a_sighting_is_made_of_every_finding_but_an_opinion() -> None:
    made, _ = exported(ours(a_finding(), a_finding(KEYS[1], "K204118", kind="opinion")))
    assert rows(made, "sightings", "sighting") == [(KEYS[0],)]


def test_sightings_of_a_pack_go_on_with_their_source() -> None:
    seen = table("sightings", {"sighting": "seen-1", "prefix": "K", "number": "201000", "maker": "we", "date": "1890",
                               "kind": "ledger", "source": "book"})  # fmt: skip
    with_sighting = Pack.of("ours", *(seen if name == "sightings" else one for name, one in our_pack().tables.items()))
    made, _ = exported(ours(packs=(with_sighting,)))
    assert rows(made, "sightings", "sighting", "number", "source") == [("seen-1", "201000", "book")]


def test_a_maker_that_no_pack_tells_of_goes_along_by_its_id(tmp_path: Path) -> None:
    made, _ = exported(ours(a_finding(maker="gone", model="", works="")))
    write(made, tmp_path / "out")
    assert [one.code for one in faults_of(tmp_path / "out")[1]] == ["no-name"]


def test_what_was_withdrawn_is_not_shared_and_does_not_come_back(tmp_path: Path) -> None:
    with open_store(tmp_path / "a.sqlite", create=True) as store:
        store.save_pack(our_pack())
        store.add_finding(a_finding())
        shared, _ = exported(Knowledge.of(store.sources(), store.findings()), "us")
        store.save_pack(replace(shared, name="back-to-us"))
        store.withdraw_finding(KEYS[0], "expert 3", datetime.now(UTC), "it was another machine")
        known = Knowledge.of(store.sources(), store.findings())
    assert len(known.findings) == 0
    assert known.sighted == {}
    assert not exported(known)[0].shares


START = datetime(2020, 1, 1, tzinfo=UTC)
SERIALS = st.sampled_from(["K204117", "K0204117", "204117", "", "AB12"])
TEXTS = st.sampled_from(
    ["", "ledger p. 40", "by the shuttle,\nsays ada@example.org", 'a "quoted" word; and more', "=1+1"]
)


@st.composite
def findings(draw: st.DrawFn, key: str) -> Finding:
    return a_finding(
        key, draw(SERIALS), maker=draw(st.sampled_from(["we", "", "gone"])), model=draw(st.sampled_from(["m9", ""])),
        works=draw(st.sampled_from(["mill", ""])), date=draw(st.sampled_from(["1891", "1890/1892", "1891~", ""])),
        evidence=draw(TEXTS), note=draw(TEXTS), kind=draw(st.sampled_from(EVIDENCE)),
        author=draw(st.sampled_from(["expert 1", "expert 2"])),
        settled=draw(st.integers(0, 10**9).map(lambda seconds: START + timedelta(seconds=seconds))),
    )  # fmt: skip


ALL = st.lists(st.sampled_from(KEYS), unique=True, max_size=8).flatmap(
    lambda keys: st.tuples(*(findings(key) for key in keys))
)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(ALL)
def test_what_was_exported_and_loaded_is_exported_again_to_the_very_same_bytes(tmp_path: Path, known) -> None:
    made, _ = exported(ours(*known), "Hallow circle")
    if not made.shares:
        return
    write(made, tmp_path / "one")
    again, _ = exported(Knowledge.of([load(tmp_path / "one")]), "Hallow circle")
    write(again, tmp_path / "two")
    assert files(tmp_path / "one") == files(tmp_path / "two")


@given(ALL, st.randoms())
def test_the_order_in_which_things_came_to_be_known_does_not_show(known, random) -> None:
    shuffled = list(known)
    random.shuffle(shuffled)
    assert exported(ours(*known), "us")[0] == exported(ours(*shuffled), "us")[0]


def test_an_empty_pack_shares_nothing() -> None:
    assert not exported(Knowledge.of([pack(table("makers", {"maker": "we"}))]))[0].shares


@pytest.mark.parametrize("group", ["", "Hallow circle", "Кружок"])
def test_the_name_of_a_pack_is_one_that_every_program_takes(group: str) -> None:
    name = exported(ours(a_finding(), of_theirs()), group)[0].name
    assert name.isascii()
    assert set(name) <= set("abcdefghijklmnopqrstuvwxyz0123456789-")
