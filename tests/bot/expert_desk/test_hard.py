"""Which answers become a case, and which wait for the asker first."""

from __future__ import annotations

import json

import pytest

from bot.cases import Asker
from bot.conversation import Incoming, reply
from bot.expert_desk import Opening, cannot_say, desk_for
from bot.state import State
from knowledge.base import Knowledge
from tests.knowledge.small import block, pack, register, table

TWO_MAKERS = Knowledge.of(
    [
        pack(
            table("makers", {"maker": "kestrel", "name": "Kestrel"}, {"maker": "dunlin", "name": "Dunlin"}),
            table(
                "registers", register("allocations", "kestrels", maker="kestrel"),
                register("allocations", "dunlins", maker="dunlin"),
            ),
            table(
                "allocations", block("1-9000", "1880", register="kestrels"), block("1-9000", "1920", register="dunlins")
            ),
        )
    ]
)  # fmt: skip
"""Two makers that both count from 1: only the name on the machine tells which date holds."""
ANN = Asker("chat", "chat:ann", json.dumps({"to": "ann"}))


class Talk:
    """One person's talk; `write` returns the case that the last message opens."""

    def __init__(self, knowledge) -> None:
        self.knowledge, self.state = knowledge, State()

    def write(self, text: str, *, picture: bool = False, addressed: bool = True) -> Opening | None:
        before = self.state
        self.state, said = reply(Incoming(text, picture), before, self.knowledge)
        answer = next((one.answer for one in said if one.answer is not None), None)
        unable = cannot_say(before, said)
        return desk_for(
            answer, self.state, ANN, self.knowledge, text=text, unable=unable, addressed=addressed, message=3
        )


@pytest.fixture
def talk(knowledge) -> Talk:
    return Talk(knowledge)


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("How old is my treadle machine?", "no-token"),
        ("ZQ 4711, how old?", "no-register"),
        ("K 999999, how old is it?", "outside-registers"),
        ("K 205000, could a person of the group look at it?", "asked-for-a-person"),
    ],
)
def test_every_reason_opens_a_case_with_the_words_that_were_written(talk, text, reason) -> None:
    opening = talk.write(text)
    assert opening is not None
    assert reason in opening.reasons
    assert (opening.text, opening.message, opening.asker) == (text, 3, ANN)


def test_a_photo_without_a_number_opens_a_case(talk) -> None:
    opening = talk.write("What is this?", picture=True)
    assert opening is not None
    assert opening.reasons == ("photo-only",)
    assert opening.serials == ()


def test_an_answer_that_stands_by_itself_opens_none(talk) -> None:
    assert talk.write("My Ambersee has number 41000, how old is it?") is None


def test_small_talk_opens_none(talk) -> None:
    assert talk.write("Hello everybody!") is None


def test_a_question_back_waits_for_the_asker_and_i_do_not_know_opens_the_case() -> None:
    talk = Talk(TWO_MAKERS)
    assert talk.write("number 5123, how old?") is None
    assert talk.state.asked is not None
    opening = talk.write("I don't know")
    assert opening is not None
    assert opening.reasons == ("undecided",)
    assert [one.serial for one in opening.serials] == ["5123"]


def test_i_do_not_know_opens_none_where_one_dating_is_the_likeliest_by_far(talk) -> None:
    assert talk.write("K 204117, how old?") is None
    assert talk.write("I don't know") is None


def test_a_question_back_that_is_answered_opens_none() -> None:
    talk = Talk(TWO_MAKERS)
    talk.write("number 5123, how old?")
    assert talk.write("it is a Kestrel") is None


def test_an_open_question_and_a_wish_for_a_person_gives_a_person_at_once(talk) -> None:
    opening = talk.write("K 204117, how old? I would rather talk to a human")
    assert opening is not None
    assert opening.reasons == ("asked-for-a-person",)
    assert [one.serial for one in opening.serials] == ["K204117"]


def test_of_several_numbers_only_the_hard_ones_are_for_the_experts(talk) -> None:
    opening = talk.write("Two machines: Ambersee 41000 and ZQ 4711, how old are they?")
    assert opening is not None
    assert [one.serial for one in opening.serials] == ["ZQ4711"]


@pytest.mark.parametrize(("text", "picture"), [("How old is my treadle machine?", False), ("What is this?", True)])
def test_in_a_group_that_did_not_call_the_bot_what_has_no_number_is_too_weak_for_a_case(talk, text, picture) -> None:
    assert talk.write(text, picture=picture, addressed=False) is None


def test_a_number_that_no_list_knows_is_a_case_even_where_nobody_called_the_bot(talk) -> None:
    assert talk.write("ZQ 4711, how old?", addressed=False) is not None


def test_numbers_that_count_only_together_are_all_for_the_experts(talk) -> None:
    opening = talk.write("Serial Q 77, Q78, and ZZ 555555 please date all three")
    assert opening is not None
    assert [one.serial for one in opening.serials] == ["Q77", "Q78", "ZZ555555"]


def test_a_maker_named_for_one_number_is_not_that_of_the_others(talk) -> None:
    opening = talk.write("X 9876543, Ambersee Z 4711, and Y 1234567: how old?")
    assert opening is not None
    assert dict(zip((one.serial for one in opening.serials), opening.makers, strict=True)) == {
        "X9876543": (), "Z4711": ("ambersee",), "Y1234567": (),
    }  # fmt: skip
