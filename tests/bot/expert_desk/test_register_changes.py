"""A register changes only when two experts agree: promise 4 of the design, and every way around it that we know."""

from __future__ import annotations

import threading
from datetime import timedelta
from pathlib import Path

import pytest

from bot.expert_desk import DeskError
from bot.expert_desk.register_changes import RegisterDesk
from bot.forgetting import forget
from bot.journal import open_journal
from knowledge.base import Knowledge
from knowledge.errors import BedstampError
from knowledge.migrations import StoreError
from knowledge.register_changes.nouns import ChangeError
from tests.bot.expert_desk.conftest import NOW, Office

WORDS = "change K 200001-225000 date 1891"
ADA, BEN = "telegram:u1", "telegram:u2"


@pytest.fixture
def desk(office: Office) -> RegisterDesk:
    return RegisterDesk(office.journal)


def date_of(office: Office) -> str:
    return next(date for first, date in office.journal.store().source("tollgate").rows("allocations", "first", "date")
                if first == "200001")  # fmt: skip


def proposed(office: Office, desk: RegisterDesk, by: str = ADA) -> int:
    return desk.propose_words(by, WORDS, office.knowledge, NOW).change.number


def test_a_change_is_shown_as_a_difference_agreed_by_another_and_then_in_force(office, desk) -> None:
    made = desk.propose_words(ADA, WORDS, office.knowledge, NOW)
    assert "date: 1890-03-02 becomes 1891" in made.text
    assert desk.difference(made.change.number, office.knowledge) == made.text
    assert date_of(office) == "1890-03-02"
    assert "in force" in desk.agree(made.change.number, BEN, NOW).text
    assert date_of(office) == "1891"


@pytest.mark.parametrize(
    ("proposer", "other"),
    [
        (ADA, ADA),
        ("mail:ada@example.org", "mail:ADA@example.org"),
        ("mail:ada@example.org", "mail:ada@example.org "),
        ("terminal:ada", "terminal:ada"),
        ("terminal:ada", "terminal: Ada "),
        ("terminal:zoe", "terminal:zoë"),
        ("terminal:ada b", "terminal:ada-b."),
        ("mail:ada@example.org", "mail:ada+two@example.org"),
        ("terminal", "terminal"),
        ("terminal", "terminal:ada"),
        ("terminal:ada", "terminal"),
        (ADA, "mail:ada@example.org"),
        ("mail:ada@example.org", ADA),
        ("mail:ada@example.org", "terminal:ada"),
        ("terminal:ada", ADA),
    ],
)
def test_one_expert_alone_in_any_way_cannot_change_a_register(office, desk, proposer, other) -> None:
    number = proposed(office, desk, proposer)
    with pytest.raises(BedstampError):
        desk.agree(number, other, NOW + timedelta(days=30))
    assert date_of(office) == "1890-03-02"
    assert office.journal.store().register_change(number).state == "proposed"


def test_whoever_was_forgotten_and_comes_again_cannot_agree_to_what_they_proposed(office, desk) -> None:
    number = proposed(office, desk)
    forget(office.journal, ADA)
    with pytest.raises(DeskError, match=r"not known any more"):
        desk.agree(number, ADA, NOW)
    assert date_of(office) == "1890-03-02"


def test_two_who_write_in_two_ways_are_two_when_whoever_runs_the_bot_says_so(office, desk) -> None:
    number = proposed(office, desk)
    with pytest.raises(DeskError, match=r"knowledge experts --different (\d+) (\d+)") as refused:
        desk.agree(number, "mail:ben@example.org", NOW)
    one, two = map(int, str(refused.value).split()[-2:])
    assert {one, two} == set(desk.experts())
    desk.are_different(one, two)
    desk.agree(number, "mail:ben@example.org", NOW)
    assert date_of(office) == "1891"


def test_to_say_that_one_is_two_needs_two_that_are_there(desk) -> None:
    desk.expert(ADA)
    for pair in ((1, 1), (1, 9)):
        with pytest.raises(DeskError):
            desk.are_different(*pair)


def test_proposing_the_same_again_is_the_same_proposal_and_agreement_of_nobody(office, desk) -> None:
    first = proposed(office, desk)
    assert proposed(office, desk) == first
    assert date_of(office) == "1890-03-02"


def test_the_same_proposed_by_two_is_two_proposals_and_in_force_only_by_a_press(office, desk) -> None:
    assert proposed(office, desk, ADA) != proposed(office, desk, BEN)
    assert date_of(office) == "1890-03-02"


def test_undoing_a_change_takes_two_again(office, desk) -> None:
    desk.agree(proposed(office, desk), BEN, NOW)
    now = "change K 200001-225000 date 1890-03-02"
    known = Knowledge.of(office.journal.store().sources())
    undo = desk.propose_words(BEN, now, known, NOW).change.number
    assert date_of(office) == "1891"
    desk.agree(undo, ADA, NOW)
    assert date_of(office) == "1890-03-02"


def test_what_was_taken_back_or_turned_down_can_not_be_agreed_to(office, desk) -> None:
    one = proposed(office, desk)
    assert "taken back" in desk.turn_down(one, ADA, NOW).text
    with pytest.raises(ChangeError, match=r"taken back already"):
        desk.agree(one, BEN, NOW)
    other = proposed(office, desk)
    assert "turned down" in desk.turn_down(other, BEN, NOW, "see the second ledger").text
    with pytest.raises(ChangeError, match=r"turned down already"):
        desk.agree(other, "telegram:u3", NOW)
    assert date_of(office) == "1890-03-02"


def test_a_change_whose_row_another_change_changed_meanwhile_is_refused(office, desk) -> None:
    one = proposed(office, desk)
    other = desk.propose_words(BEN, "change K 200001-225000 date 1892", office.knowledge, NOW).change.number
    desk.agree(one, BEN, NOW)
    with pytest.raises(ChangeError, match=r"no row any more"):
        desk.agree(other, ADA, NOW)
    assert date_of(office) == "1891"


def test_what_is_not_clear_and_what_would_be_wrong_is_said_and_not_kept(office, desk) -> None:
    with pytest.raises(DeskError, match=r"cannot read"):
        desk.propose_words(ADA, "change K 200001-225000 date soon", office.knowledge, NOW)
    with pytest.raises(ChangeError, match=r"would make the list wrong"):
        desk.propose_words(ADA, "change K 200001-225000 first 999999", office.knowledge, NOW)
    assert office.journal.store().register_changes() == ()


def test_the_file_names_experts_by_numbers_alone(office, desk, store: Path) -> None:
    desk.agree(proposed(office, desk, "terminal:ada lovelace"), "terminal:ben", NOW)
    found = office.journal.store().register_steps(1)
    assert [one.who for one in found] == ["expert 1", "expert 2"]


def test_when_both_agree_at_once_it_is_in_force_once(office, desk, store: Path) -> None:
    number = proposed(office, desk)
    told: list[str] = []

    def press(person: str) -> None:
        with open_journal(store, timeout=20) as journal:
            try:
                told.append(RegisterDesk(journal).agree(number, person, NOW).text)
            except (ChangeError, StoreError) as fault:
                told.append(str(fault))

    threads = [threading.Thread(target=press, args=(person,)) for person in (BEN, "telegram:u3")]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted("in force already" in one for one in told) == [False, True]
    assert date_of(office) == "1891"
