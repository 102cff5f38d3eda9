"""What an expert's words would change waits for that expert's own yes, and is proposed once."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bot.expert_desk import DeskError
from bot.expert_desk.change_offers import ListDesk
from bot.forgetting import forget
from knowledge.register_changes.nouns import ChangeError
from tests.bot.expert_desk.conftest import NOW, Office

WORDS = "change K 200001-225000 date 1891"
ADA, BEN = "mail:ada@example.org", "mail:ben@example.org"


@pytest.fixture
def lists(office: Office) -> ListDesk:
    return office.desk.lists


def test_an_offer_is_no_proposal_and_shows_the_difference(office, lists) -> None:
    offer = lists.offer_words(ADA, WORDS, office.knowledge, NOW)
    assert "date: 1890-03-02 becomes 1891" in offer.text
    assert office.journal.store().register_changes() == ()
    assert office.channel.lists == []


def test_its_own_expert_accepts_it_once_with_the_reason(office, lists) -> None:
    offer = lists.offer_words(ADA, WORDS, office.knowledge, NOW, "see p. 3")
    made = lists.accept(offer.id, ADA, office.knowledge, NOW)
    assert (made.change.proposer, made.change.why) == ("expert 1", "see p. 3")
    assert [one.number for one in office.channel.lists] == [1]
    with pytest.raises(DeskError, match=r"You said so before: that is change 1, proposed"):
        lists.accept(offer.id, ADA, office.knowledge, NOW)


def test_nobody_accepts_what_was_offered_to_another_or_never_offered(office, lists) -> None:
    offer = lists.offer_words(ADA, WORDS, office.knowledge, NOW)
    for number, person in ((offer.id, BEN), (offer.id + 1, ADA)):
        with pytest.raises(DeskError, match=r"Write the change anew"):
            lists.accept(number, person, office.knowledge, NOW)
    assert office.journal.store().register_changes() == ()


def test_an_offer_whose_row_was_changed_meanwhile_is_refused(office, lists) -> None:
    offer = lists.offer_words(ADA, WORDS, office.knowledge, NOW)
    other = lists.propose_words(ADA, "change K 200001-225000 date 1892", office.knowledge, NOW)
    lists.agree(other.change.number, BEN, NOW)
    with pytest.raises(ChangeError, match=r"propose anew"):
        lists.accept(offer.id, ADA, office.knowledge, NOW)


def test_old_offers_are_dropped(office, lists) -> None:
    offer = lists.offer_words(ADA, WORDS, office.knowledge, NOW)
    lists.offer_words(ADA, WORDS, office.knowledge, NOW + timedelta(days=61))
    with pytest.raises(DeskError):
        lists.accept(offer.id, ADA, office.knowledge, NOW + timedelta(days=61))


def test_what_was_offered_to_somebody_who_was_forgotten_is_nobodys(office, lists) -> None:
    offer = lists.offer_words(ADA, WORDS, office.knowledge, NOW)
    forget(office.journal, ADA)
    with pytest.raises(DeskError):
        lists.accept(offer.id, ADA, office.knowledge, NOW)
    assert lists._all("SELECT * FROM desk_change_offers") == []
