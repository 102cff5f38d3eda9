"""What a pack of findings calls by a known name is that thing; what it says more fills the gaps."""

from __future__ import annotations

from knowledge.base import Knowledge
from knowledge.packs import Pack
from tests.knowledge.sharing.groups import our_pack
from tests.knowledge.small import block, pack, register, table

SEEN = table("sightings", {"sighting": "seen-1", "prefix": "K", "number": "201000", "date": "1890", "kind": "ledger"})


def of_findings(name: str, *more: str, **cells: str) -> Pack:
    """A pack like ours, of another group, that shares a sighting."""
    return Pack.of(name, *{**our_pack(name, *more, **cells).tables, "sightings": SEEN}.values())


def test_packs_that_share_nothing_are_told_apart_by_their_ids_as_ever() -> None:
    assert set(Knowledge.of([our_pack(), our_pack("theirs", "We & Sons", "w")]).makers) == {"we", "w"}


def test_it_does_not_matter_which_pack_was_loaded_first() -> None:
    known = Knowledge.of([of_findings("theirs", "We & Sons", "w"), our_pack()])
    assert list(known.makers) == ["we"]


def test_a_maker_of_one_name_is_one_under_the_id_of_the_earlier_pack() -> None:
    known = Knowledge.of([our_pack(), of_findings("theirs", "we & SONS", "w")])
    assert list(known.makers) == ["we"]
    assert {one.maker for one in known.registers.values()} == {"we"}


def test_models_and_works_of_one_maker_and_name_are_one() -> None:
    known = Knowledge.of([our_pack(), of_findings("theirs", "We & Sons", "w")])
    assert set(known.models) == {"m9", "m6"}
    assert set(known.works) == {"mill"}
    assert {known.blocks.block(row).model for row in range(len(known.blocks))} == {"m9", "m6"}


def test_gaps_are_filled_and_what_was_known_first_stays() -> None:
    known = Knowledge.of([our_pack(where="on the bed"), of_findings("theirs", where="underneath", country="Norway")])
    assert (known.makers["we"].where, known.makers["we"].country) == ("on the bed", "Norway")


def test_other_names_are_put_together() -> None:
    known = Knowledge.of([our_pack(aliases="Wee"), of_findings("theirs", aliases="Wee; Wii")])
    assert known.makers["we"].aliases == ("Wee", "Wii")


def test_two_things_of_one_name_in_one_pack_stay_two() -> None:
    twice = pack(
        table("makers", {"maker": "a", "name": "We & Sons"}, {"maker": "b", "name": "We & Sons"}),
        table("registers", register("allocations", maker="a")), table("allocations", block("1-9")), SEEN, name="theirs",
    )  # fmt: skip
    assert set(Knowledge.of([our_pack(), twice]).makers) == {"we", "a", "b"}


def test_things_without_a_name_are_told_apart_by_their_ids_alone() -> None:
    known = Knowledge.of([our_pack(maker=""), of_findings("theirs", maker="", note="another")])
    assert set(known.makers) == {"we", "theirs/we"}


def test_the_pack_and_the_id_of_every_register_are_kept() -> None:
    known = Knowledge.of([our_pack(), of_findings("theirs")])
    assert known.homes == {"list": ("ours", "list"), "theirs/list": ("theirs", "list")}
