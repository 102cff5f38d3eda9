"""The words about cases: to askers, to experts, and on the cards."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from bot.cases import Card, Case, Event, Number, Picture, Words
from bot.replies import card_reading, cards, chat_cards
from bot.state import State
from knowledge.answer import answer
from knowledge.expert_answers import Understood

NOW = datetime(2031, 5, 4, 12, 0, tzinfo=UTC)


def case(**more: object) -> Case:
    told: dict[str, object] = {
        "id": 12, "state": "open", "reasons": ("outside-registers",), "numbers": (Number("Z", "4711", ""),),
        "makers": (), "reading": ("Z4711 has 4 digits.", "1) 24711: Ambersee (3%)"), "text": "How old is Z 4711?",
        "asked": State(), "findings": (), "waiting": 2, "expert": "", "lease": None, "opened": NOW, "changed": NOW,
        "until": NOW, "version": 1,
    }  # fmt: skip
    return Case(**{**told, **more})  # type: ignore[arg-type]


def test_a_card_tells_what_was_asked_read_said_why_it_is_hard_what_is_like_it_and_who_waits() -> None:
    whole = Card(
        case(), (Picture("chat", "x"),), (Words("asked", "Long or round?", NOW), Words("said", "Long", NOW)),
        (case(id=9, waiting=1),), (), (Event(NOW, "asker", "opened"),), "The asker wrote more.",
    )  # fmt: skip
    text = cards.card(whole).text
    for shown in (
        "Case 12: Z4711, open", "How old is Z 4711?", "lies outside the lists", "• Z4711 has 4 digits.",
        "\n1) 24711: Ambersee (3%)", "An expert asked:\nLong or round?", "The asker:\nLong", "1 picture came with it",
        "case 9: Z4711 (1 person waits)", "2 people wait, since 4 May 2031", "The asker wrote more.",
    ):  # fmt: skip
        assert shown in text


def test_what_an_asker_wrote_is_a_quotation_that_calls_and_links_nowhere() -> None:
    shown = cards.card(Card(case(text="/start @ada https://example.org \x1b[2J")))
    (quote,) = [one for one in shown.spans if one.style == "blockquote"]
    quoted = shown.text[quote.start : quote.end]
    assert "\x1b" not in quoted
    assert "@ada" not in quoted
    assert "://" not in quoted


@pytest.mark.parametrize(("count", "words"), [(0, "nobody waits"), (1, "1 person waits"), (3, "3 people wait")])
def test_people_are_counted_as_one_says_it(count, words) -> None:
    assert cards.people(count) == words


def test_the_reasons_are_told_to_experts_as_of_somebody_else() -> None:
    assert "the asker" in cards.why(case(reasons=("contradiction",)))
    assert "you" not in cards.why(case(reasons=("asked-for-a-person", "contradiction")))
    assert "settled" in cards.why(case(reasons=("contradiction",), waiting=0))


def test_the_datings_on_a_card_are_numbered_over_all_numbers_in_the_order_they_are_meant_by(knowledge) -> None:
    found = answer("Ambersee 41000 and K 204117", knowledge)
    lines = [line for line in card_reading.reading(found, knowledge) if line[1:3] == ") "]
    assert [line.split(")")[0] for line in lines] == [str(at) for at in range(1, len(lines) + 1)]
    for line, one in zip(lines, card_reading.shown_on_card(found), strict=True):
        assert one.serial in line


def test_nothing_of_the_asker_s_own_words_is_in_the_reading_that_is_kept(knowledge) -> None:
    found = answer("I am Ann Example, 01632 960123, how old is K 204117?", knowledge)
    reading = " ".join(card_reading.reading(found, knowledge))
    assert "Example" not in reading
    assert "960123" not in reading


def test_a_proposal_shows_every_field_and_what_was_not_understood() -> None:
    understood = Understood(
        "settles", "K", "0204711", "", "tollgate", "t9", "", "1911~", "ledger p. 40", "ledger", note="A rare one",
        unclear=("the second half",),
    )  # fmt: skip
    text = cards.proposal(understood, case(), "Z4711", "Tollgate Model 9, about 1911", "", ("the list says 1890",))
    for shown in (
        "stamped K0204711 (it was typed Z4711)", "Tollgate Model 9, about 1911", "ledger p. 40 (kept as a ledger",
        "A rare one", "But the list says 1890.", "Not understood: the second half",
    ):  # fmt: skip
        assert shown in text


def test_the_words_to_an_asker_name_the_day_and_say_whether_others_wait() -> None:
    by = datetime(2031, 5, 18, 12, 0, tzinfo=UTC)
    assert cards.will_look(by).startswith("People of the group will look at it. You hear from me by 18 May 2031")
    assert "Somebody else asked this too" in cards.will_look(by, others=True)
    assert "already" in cards.will_look(by, again=True)


def test_a_contradiction_of_which_nobody_waits_for_an_answer_says_what_to_do_and_has_no_button_to_ask() -> None:
    contradiction = case(reasons=("contradiction",), waiting=0)
    assert "propose a change" in cards.card(Card(contradiction)).text
    assert "propose a change" not in cards.card(Card(case())).text
    labels = [one.label for row in chat_cards.buttons(contradiction) for one in row]
    assert "Ask the asker" not in labels
    assert "Settle" in labels
