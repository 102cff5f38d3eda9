"""Experts change lists by mail: proposed by one, agreed to by another, and nothing by anybody else in any way."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from email.message import EmailMessage
from urllib.parse import unquote

import pytest

from bot.mail_changes import MOST_MAILS
from tests.mail_office import ADA, BEN, OWN_LIST, PASS, MailOffice, mail_office, text_of, to

MALLORY = "mallory@example.com"
CHANGE = "change K 200001-225000 date 1891"


@pytest.fixture
def office(tmp_path, pack) -> Iterator[MailOffice]:
    with mail_office(tmp_path, pack) as one:
        yield one


@pytest.fixture
def untrusting(tmp_path, pack) -> Iterator[MailOffice]:
    with mail_office(tmp_path, pack, trusted="") as one:
        yield one


def date_of(office: MailOffice) -> str:
    rows = office.journal.store().source("tollgate").rows("allocations", "first", "date")
    return next(date for first, date in rows if first == "200001")


def states(office: MailOffice) -> list[str]:
    return [one.state for one in office.journal.store().register_changes()]


def one_line(mail: EmailMessage) -> str:
    return " ".join(text_of(mail).split())


def writes(office: MailOffice, words: str = CHANGE, sender: str = ADA, **more: str) -> list[EmailMessage]:
    return office.mail(words, sender, head=more.pop("head", PASS), **more)


def offered(office: MailOffice, words: str = CHANGE, sender: str = ADA) -> EmailMessage:
    (mail,) = writes(office, words, sender)
    return mail


def proposed(office: MailOffice, words: str = CHANGE) -> tuple[EmailMessage, ...]:
    """Let Ada propose a change; return her mail about it, and Ben's."""
    went_out = office.answer(offered(office, words), "yes")
    return (*to(went_out, ADA), *to(went_out, BEN))


# --- one proposes, another agrees


def test_what_an_expert_writes_is_shown_to_them_alone_and_nothing_is_kept_before_their_yes(office):
    (mail,) = writes(office)
    assert mail["To"] == ADA
    assert "In the list 'Tollgate ledger', K200001 to K225000" in one_line(mail)
    assert "date: 1890-03-02 becomes 1891" in one_line(mail)
    assert states(office) == []


def test_after_the_yes_every_expert_gets_it_with_an_address_of_their_own(office):
    for_ada, for_ben = proposed(office)
    assert states(office) == ["proposed"]
    assert for_ada["Subject"] != for_ben["Subject"]
    assert for_ben["Auto-Submitted"] == "auto-generated"
    for form in ("plain", "html"):
        words = " ".join(text_of(for_ben, form).split())
        assert "date: 1890-03-02 becomes 1891" in words
        assert "Nothing is changed before another expert agrees" in words
    assert "ada" not in for_ben.as_string().lower()
    assert date_of(office) == "1890-03-02"


def test_the_yes_of_another_puts_it_in_force_everybody_hears_and_the_next_answer_follows_it(office):
    _, for_ben = proposed(office)
    told = office.answer(for_ben, "Yes, I agree.\n\nBest wishes,\nBen", BEN)
    assert [one["To"] for one in told] == [ADA, BEN]
    assert all("Change 1 is in force" in one_line(one) for one in told)
    assert date_of(office) == "1891"
    (answer,) = office.mail("How old is K 204117?")
    assert "1891" in text_of(answer)
    assert "March 1890" not in text_of(answer)


def test_the_link_on_yes_is_a_mail_that_counts(office):
    _, for_ben = proposed(office)
    press = text_of(for_ben, "html").split('href="mailto:')[1].split('"')[0].replace("&amp;", "&")
    subject = unquote(press.split("subject=")[1].split("&")[0])
    office.mail("yes", BEN, subject, PASS)
    assert states(office) == ["in force"]


@pytest.mark.parametrize("words", ["yes", "Agreed!", "I agree", "Ja", "ok, please do"])
def test_who_proposed_it_cannot_agree(office, words):
    for_ada, _ = proposed(office)
    (told,) = office.answer(for_ada, words)
    assert "You proposed change 1 yourself" in one_line(told)
    assert date_of(office) == "1890-03-02"


@pytest.mark.parametrize("words", ["no", "No, it is right as it is.", "take it back", "Please withdraw it"])
def test_who_proposed_it_may_take_it_back(office, words):
    for_ada, for_ben = proposed(office)
    told = office.answer(for_ada, words)
    assert states(office) == ["taken back"]
    assert len(told) == 2
    (late,) = office.answer(for_ben, "yes", BEN)
    assert "taken back already" in one_line(late)
    assert date_of(office) == "1890-03-02"


def test_another_may_turn_it_down_and_everybody_hears_why(office):
    _, for_ben = proposed(office)
    told = office.answer(for_ben, "No, the second ledger has 1890 too, p. 12.", BEN)
    assert states(office) == ["turned down"]
    assert all("Why not: the second ledger has 1890 too, p. 12." in one_line(one) for one in told)
    assert len(told) == 2


@pytest.mark.parametrize(
    "words", ["yes, but only from 210000", "no objections", "Yes?", "perhaps", "yes and no", "date 1892 would be right"]
)
def test_what_is_no_clear_yes_or_no_decides_nothing_and_says_what_to_write(office, words):
    _, for_ben = proposed(office)
    (told,) = office.answer(for_ben, words, BEN)
    assert "Reply with yes alone" in one_line(told)
    assert states(office) == ["proposed"]


def test_yes_once_more_changes_nothing_and_says_that_it_is_in_force(office):
    _, for_ben = proposed(office)
    office.answer(for_ben, "yes", BEN)
    (again,) = office.answer(for_ben, "yes", BEN)
    assert "in force already" in one_line(again)
    assert states(office) == ["in force"]


def test_yes_to_an_offer_proposes_it_once_whatever_became_of_it(office):
    offer = offered(office)
    for_ben = to(office.answer(offer, "yes"), BEN)[0]
    office.answer(for_ben, "no", BEN)
    (again,) = office.answer(offer, "yes")
    assert "turned down" in one_line(again)
    assert states(office) == ["turned down"]


def test_the_same_change_proposed_twice_is_one(office):
    first, second = offered(office), offered(office)
    office.answer(first, "yes")
    (told,) = office.answer(second, "yes")
    assert "waits already" in one_line(told)
    assert states(office) == ["proposed"]


def test_no_to_an_offer_keeps_nothing_and_other_words_are_read_anew(office):
    offer = offered(office)
    (told,) = office.answer(offer, "no")
    assert "nothing is kept" in one_line(told)
    (anew,) = office.answer(offer, "change K 200001-225000 date 1892")
    assert "becomes 1892" in one_line(anew)
    assert states(office) == []


def test_several_changes_in_one_mail_are_shown_each_with_the_reason_that_was_given(office):
    text = f"I went through the ledger again.\n\n{CHANGE}\nremove K 225001-240000\n\nBest wishes,\nAda"
    first, second = writes(office, text)
    assert "becomes 1891" in one_line(first)
    assert "the row is taken out" in one_line(second)
    for_ben = to(office.answer(second, "yes"), BEN)[0]
    assert "Why: I went through the ledger again." in one_line(for_ben)


def test_a_change_that_makes_the_list_wrong_is_refused_with_the_fault(office):
    (told,) = writes(office, "change K 200001-225000 date 18910")
    assert "date" in one_line(told)
    (told,) = writes(office, "change K 200001-225000 first 230000")
    assert "would make the list wrong" in one_line(told)
    assert "You wrote: change K 200001-225000 first 230000" in one_line(told)
    assert states(office) == []


def test_what_the_checks_warn_of_is_shown_with_the_difference(office):
    (mail,) = writes(office, "change K 200001-225000 quantity 20000")
    assert "Look at this:" in one_line(mail)


def test_a_change_in_the_subject_alone_of_a_new_mail_is_shown_too(office):
    (mail,) = office.mail("", ADA, CHANGE, PASS)
    assert "becomes 1891" in one_line(mail)


def test_a_change_in_reply_to_the_card_of_a_case_is_one_and_an_answer_to_the_case_stays_an_answer(office):
    card = to(office.mail("How old is B123456?"), ADA)[0]
    (mail,) = office.answer(card, CHANGE)
    assert "becomes 1891" in one_line(mail)
    (shown,) = office.answer(card, "Correct: B123456 is a Model 9, about 1911")
    assert "I understood, for case 1" in one_line(shown)


def test_an_expert_who_names_a_change_without_answering_its_mail_gets_it_again(office):
    proposed(office)
    (again,) = office.mail("change 1: yes, I agree", BEN, head=PASS)
    assert "without replying to its mail" in one_line(again)
    assert states(office) == ["proposed"]
    office.answer(again, "yes", BEN)
    assert states(office) == ["in force"]
    (news,) = office.mail("change 1: yes", BEN, head=PASS)
    assert "in force" in one_line(news)


def test_a_row_that_was_changed_meanwhile_is_not_changed_by_an_old_yes(office):
    _, first = proposed(office)
    _, second = proposed(office, "change K 200001-225000 date 1892")
    office.answer(first, "yes", BEN)
    (told,) = office.answer(second, "yes", BEN)
    assert "propose anew" in one_line(told)
    assert date_of(office) == "1891"


def test_a_mail_that_comes_twice_is_carried_out_once(office):
    _, for_ben = proposed(office)
    office.answer(for_ben, "yes", BEN, message_id="<yes@example.org>")
    office.answer(for_ben, "yes", BEN, message_id="<yes@example.org>")
    assert states(office) == ["in force"]


def test_a_program_that_sends_changes_without_end_is_shown_no_more_than_some_a_day(office):
    shown = [writes(office, f"change K 200001-225000 date 18{number:02}") for number in range(MOST_MAILS + 5)]
    assert sum(map(len, shown)) == MOST_MAILS
    assert office.last() == "daily-limit"


# --- from one channel to another


def test_an_expert_of_another_channel_counts_as_another_only_when_whoever_runs_the_bot_said_so(office):
    made = office.desk.lists.propose_words("telegram:u1", CHANGE, office.knowledge, office.now)
    _, for_ben = office.queue(made.replies)
    assert "It was proposed in the chat, so I cannot know that you are somebody else" in one_line(for_ben)
    (told,) = office.answer(for_ben, "yes", BEN)
    assert "one writes in the chat, the other by mail" in one_line(told)
    assert "bedstamp knowledge experts --different 1 2" in one_line(told)
    assert date_of(office) == "1890-03-02"
    office.desk.lists.are_different(1, 2)
    office.answer(for_ben, "yes", BEN)
    assert date_of(office) == "1891"


# --- nobody else


WAYS = {
    "a stranger writes a change": lambda office, card: office.mail(CHANGE, MALLORY),
    "a stranger answers with a stolen address": lambda office, card: office.answer(card, "yes", MALLORY, ""),
    "Ada answers Ben's mail": lambda office, card: office.answer(card, "yes", ADA),
    "From forged, no pass": lambda office, card: office.answer(card, "yes", BEN, ""),
    "the pass is of another domain": lambda office, card: office.answer(
        card, "yes", BEN, PASS.replace("example.org", "example.com")
    ),
    "two in From": lambda office, card: office.answer(card, "yes", f"{BEN}, {MALLORY}"),
    "yes stands in the quote alone": lambda office, card: office.answer(card, "On Monday, Ben wrote:\n> yes", BEN),
    "yes is forwarded": lambda office, card: office.answer(
        card, f"fyi\n\n---------- Forwarded message ---------\nFrom: {BEN}\nSubject: x\n\nyes", BEN
    ),
    "through a list": lambda office, card: office.answer(card, "yes", BEN, f"{PASS}List-Id: <{OWN_LIST}>\n"),
    "for another change": lambda office, card: office.mail(
        "yes", BEN, str(card["Subject"]).replace("agree-1-", "agree-2-"), PASS
    ),
    "a damaged address": lambda office, card: office.mail("yes", BEN, str(card["Subject"])[:-4] + "]", PASS),
    "the address of a case made of it": lambda office, card: office.mail(
        "yes", BEN, str(card["Subject"]).replace("agree-1-", "offer-1-"), PASS
    ),
    "yes in a new mail": lambda office, card: office.mail("yes", BEN, "Change 1", PASS),
    "out of office": lambda office, card: office.answer(
        card, "I am out of the office. Yes.", BEN, f"{PASS}Auto-Submitted: auto-replied\n"
    ),
    "the card comes back": lambda office, card: office.answer(card, text_of(card), BEN),
}


@pytest.mark.parametrize("way", WAYS)
def test_nobody_else_agrees_in_any_way(office, way):
    _, for_ben = proposed(office)
    WAYS[way](office, for_ben)
    assert states(office) == ["proposed"], way
    assert date_of(office) == "1890-03-02"


@pytest.mark.parametrize("way", WAYS)
def test_nobody_else_agrees_where_no_receiver_is_trusted_but_who_has_the_experts_mail(untrusting, way):
    _, for_ben = proposed(untrusting)
    WAYS[way](untrusting, for_ben)
    had_bens_mail = way in ("From forged, no pass", "the pass is of another domain")
    assert states(untrusting) == (["in force"] if had_bens_mail else ["proposed"]), way


def test_an_address_whose_time_is_over_agrees_to_nothing(office):
    _, for_ben = proposed(office)
    office.now += timedelta(days=61)
    office.answer(for_ben, "yes", BEN)
    assert states(office) == ["proposed"]


@pytest.mark.parametrize(
    ("head", "words"),
    [
        ("", CHANGE),
        (f"Sender: {MALLORY}\n{PASS}", CHANGE),
        (PASS, f"see below\n\n---------- Forwarded message ---------\nFrom: {BEN}\nSubject: x\n\n{CHANGE}"),
        (PASS, f"Ben says:\n> {CHANGE}"),
        (f"{PASS}Auto-Submitted: auto-replied\n", CHANGE),
        (f"{PASS}List-Id: <{OWN_LIST}>\n", CHANGE),
    ],
)
def test_what_may_not_be_an_experts_own_words_is_not_even_offered(office, head, words):
    went_out = writes(office, words, head=head)
    assert not any("offer-" in str(one["Subject"]) for one in went_out)
    assert states(office) == []


def test_a_forged_proposal_reaches_the_expert_alone_and_is_none_without_their_yes(untrusting):
    (mail,) = untrusting.mail(CHANGE, ADA)
    assert mail["To"] == ADA
    assert states(untrusting) == []


def test_the_experts_hear_of_forged_changes_and_forged_yeses(office):
    _, for_ben = proposed(office)
    reports = office.answer(for_ben, "yes", MALLORY, "")
    assert [mail["To"] for mail in reports if "did not believe" in mail["Subject"]] == [ADA, BEN]
    assert "answers change 1" in one_line(reports[-1])
    reports = writes(office, head="")
    assert [mail["To"] for mail in reports] == [ADA, BEN]
    assert "wants a list to be changed" in one_line(reports[0])


def test_who_is_no_expert_gets_an_answer_about_the_number_and_changes_nothing(office):
    went_out = office.mail(CHANGE, MALLORY)
    assert [one["To"] for one in went_out] == [MALLORY]
    assert "K200001" in text_of(went_out[0])
    assert states(office) == []


# --- when nobody agrees


def test_the_digest_reminds_of_what_waits_and_a_reply_that_names_it_brings_it_again(office):
    proposed(office)
    office.now += timedelta(days=2)
    digest = to(office.due(), BEN)[0]
    assert "Changes of lists that wait for a second expert" in one_line(digest)
    assert "change 1, proposed by expert 1: in the list 'Tollgate ledger', K200001 to K225000" in one_line(digest)
    (again,) = office.answer(digest, "change 1", BEN)
    office.answer(again, "yes", BEN)
    assert states(office) == ["in force"]
