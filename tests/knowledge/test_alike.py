"""Two packs' things are one by their name; what one says more fills the gaps of the other."""

from __future__ import annotations

from knowledge.base import Knowledge
from tests.knowledge.sharing.groups import our_pack
from tests.knowledge.small import block, pack, register, table


def test_a_maker_of_one_name_is_one_under_the_id_of_the_earlier_pack() -> None:
    known = Knowledge.of([our_pack(), our_pack("theirs", "we & SONS", "w")])
    assert list(known.makers) == ["we"]
    assert {one.maker for one in known.registers.values()} == {"we"}


def test_models_and_works_of_one_maker_and_name_are_one() -> None:
    known = Knowledge.of([our_pack(), our_pack("theirs", "We & Sons", "w")])
    assert set(known.models) == {"m9", "m6"}
    assert set(known.works) == {"mill"}
    assert {known.blocks.block(row).model for row in range(len(known.blocks))} == {"m9", "m6"}


def test_gaps_are_filled_and_what_was_known_first_stays() -> None:
    known = Knowledge.of([our_pack(where="on the bed"), our_pack("theirs", where="underneath", country="Norway")])
    assert (known.makers["we"].where, known.makers["we"].country) == ("on the bed", "Norway")


def test_other_names_are_put_together() -> None:
    known = Knowledge.of([our_pack(aliases="Wee"), our_pack("theirs", aliases="Wee; Wii")])
    assert known.makers["we"].aliases == ("Wee", "Wii")


def test_two_things_of_one_name_in_one_pack_stay_two() -> None:
    twice = pack(
        table("makers", {"maker": "a", "name": "We & Sons"}, {"maker": "b", "name": "We & Sons"}),
        table("registers", register("allocations", maker="a")), table("allocations", block("1-9")), name="theirs",
    )  # fmt: skip
    assert set(Knowledge.of([our_pack(), twice]).makers) == {"we", "a", "b"}


def test_things_without_a_name_are_told_apart_by_their_ids_alone() -> None:
    known = Knowledge.of([our_pack(maker=""), our_pack("theirs", maker="", note="another")])
    assert set(known.makers) == {"we", "theirs/we"}


def test_the_pack_and_the_id_of_every_register_are_kept() -> None:
    known = Knowledge.of([our_pack(), our_pack("theirs")])
    assert known.homes == {"list": ("ours", "list"), "theirs/list": ("theirs", "list")}
