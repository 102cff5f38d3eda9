"""Changes of lists are shown to the experts of every channel, from wherever they were proposed or decided, once."""

from __future__ import annotations

import pytest

from bot.expert_desk.change_offers import ListDesk
from bot.forgetting import forget
from bot.journal import open_journal
from bot.replies import changes
from tests.bot.expert_desk.conftest import DAY, NOW, Office

WORDS = "change K 200001-225000 date 1891"
ADA, BEN, EVA = "telegram:u1", "telegram:u2", "terminal:eva"


@pytest.fixture
def lists(office: Office) -> ListDesk:
    return office.desk.lists


@pytest.fixture
def terminal(office: Office, store):
    """The desk as the terminal has it: no channels."""
    with open_journal(store) as journal:
        yield ListDesk(journal)


def test_the_experts_see_what_is_proposed_and_what_became_of_it(office, lists) -> None:
    made = lists.propose_words(ADA, WORDS, office.knowledge, NOW)
    done = lists.agree(1, BEN, NOW)
    assert [len(made.replies), len(done.replies)] == [1, 1]
    assert [one.change.state for one in office.channel.lists] == ["proposed", "in force"]
    assert [one.difference for one in office.channel.lists] == [made.text, made.text]


def test_the_same_proposed_again_is_not_shown_again(office, lists) -> None:
    lists.propose_words(ADA, WORDS, office.knowledge, NOW)
    again = lists.propose_words(ADA, WORDS, office.knowledge, NOW)
    assert again.already == "That is change 1, and it waits already for another expert to agree."
    assert len(office.channel.lists) == 1


def test_what_is_done_at_the_terminal_is_shown_by_the_running_bot_as_it_stands_then(office, terminal) -> None:
    terminal.propose_words(EVA, WORDS, office.knowledge, NOW)
    assert office.desk.has_errands()
    terminal.turn_down(1, EVA, NOW)
    terminal.propose_words(EVA, "change K 200001-225000 date 1892", office.knowledge, NOW)
    assert office.desk.look(NOW, by_the_clock=False) == 2
    assert [(one.number, one.change.state) for one in office.channel.lists] == [(1, "taken back"), (2, "proposed")]
    assert not office.desk.has_errands()
    assert office.desk.look(NOW, by_the_clock=False) == 0


def test_a_card_says_who_proposed_it_how_and_why_and_names_nobody(office, lists) -> None:
    lists.propose_words(EVA, WORDS, office.knowledge, NOW, "see p. 3")
    (card,) = office.channel.lists
    text = changes.shown(card, "telegram").text
    assert "Proposed by expert 1 at the terminal." in text
    assert "Why: see p. 3" in text
    assert "eva" not in text
    assert "your word counts when whoever runs the bot has said" in text
    assert "your word counts" not in changes.shown(card, "terminal").text


def test_a_card_of_somebody_who_was_forgotten_names_the_number_alone(office, lists) -> None:
    lists.propose_words(ADA, WORDS, office.knowledge, NOW)
    forget(office.journal, ADA)
    assert "Proposed by expert 1." in changes.shown(lists.change_card(1), "telegram").text


def test_what_becomes_of_a_change_is_told_in_short(office, lists) -> None:
    lists.propose_words(ADA, WORDS, office.knowledge, NOW)
    lists.turn_down(1, BEN, NOW, "it is right as it is")
    (_, card) = office.channel.lists
    told = "Change 1 is turned down. Nothing was changed. Proposed by expert 1 in the chat, turned down by expert 2."
    assert changes.news(card) == told
    assert changes.why(card) == "Why not: it is right as it is"


def test_the_digest_reminds_of_a_change_that_waits_after_2_6_and_10_days_and_no_more_when_it_is_decided(
    office, lists
) -> None:
    lists.propose_words(ADA, WORDS, office.knowledge, office.now)
    lists.propose_words(ADA, "remove K 225001-240000", office.knowledge, office.now)
    lists.turn_down(2, BEN, office.now)
    told = []
    for day in range(14):
        if day == 7:
            lists.agree(1, BEN, office.now)
        office.desk.look(office.now, by_the_clock=True)
        told += [(day, [one.number for one in digest.changes]) for digest in office.channel.digests]
        office.channel.digests.clear()
        office.now += DAY
    assert told == [(2, [1]), (6, [1])]
