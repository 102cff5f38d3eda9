"""One mail after the other at the desk: threads, questions back, limits, and loops that end after one answer."""

from __future__ import annotations

import email
import email.policy
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from email.message import Message

import pytest

from bot.handling import Outcome, SetAside
from bot.journal import Incoming
from bot.mail_desk import MailDesk
from bot.mail_talk import MailTalk
from bot.replies.mail import FORMER_OPENING, OPENING
from bot.setting_values import Secret
from bot.settings import MailSettings, ServerSettings
from knowledge.base import Knowledge

SERVER = ServerSettings("127.0.0.1", 1, "none", "", Secret(""))
SETTINGS = MailSettings("desk@example.net", SERVER, "INBOX", SERVER, "", (), 20)


class Correspondence:
    """Mails to one desk, with what it remembers."""

    def __init__(self, knowledge: Knowledge) -> None:
        self.now = datetime(2031, 5, 4, 10, tzinfo=UTC)
        self._desk = MailDesk(SETTINGS, "the circle of old needles", lambda: self.now)
        self._knowledge = knowledge
        self._states: dict[str, str] = {}
        self._count = 0

    def mail(
        self, body: str, subject: str = "My machine", head: str = "", sender: str = "hattie@example.org"
    ) -> Outcome:
        self._count += 1
        own = f"Message-ID: <{self._count}@example.org>\n{head}"
        raw = f"From: {sender}\nTo: desk@example.net\nSubject: {subject}\n{own}\n{body}"
        return self.raw(raw.encode())

    def answer(self, outcome: Outcome, body: str, subject: str | None = None) -> Outcome:
        """Mail an answer to a reply, as mail programs do."""
        sent = reply_of(outcome)
        head = f"In-Reply-To: {sent['Message-ID']}\nReferences: {sent['References']} {sent['Message-ID']}\n"
        return self.mail(body, subject or str(sent["Subject"]), head)

    def raw(self, raw: bytes) -> Outcome:
        self.now += timedelta(seconds=30)
        message = Incoming(self._count, "mail", f"key {self._count}", "", self.now, 1, "waiting", 0, 0, "", "", "", "")
        outcome = self._desk(message, raw, lambda key, _: self._states.get(key), self._knowledge)
        if outcome.talk:
            self._states[outcome.talk.key] = outcome.talk.state
        return outcome


@pytest.fixture
def letters(knowledge: Knowledge) -> Correspondence:
    return Correspondence(knowledge)


def reply_of(outcome: Outcome) -> Message:
    (sent,) = outcome.replies
    return email.message_from_bytes(sent.body, policy=email.policy.default)


def text_of(outcome: Outcome) -> str:
    part = next(part for part in reply_of(outcome).walk() if part.get_content_type() == "text/plain")
    return part.get_payload(decode=True).decode().replace("\r", "")  # type: ignore[union-attr]


def html_of(outcome: Outcome) -> str:
    part = next(part for part in reply_of(outcome).walk() if part.get_content_type() == "text/html")
    return part.get_payload(decode=True).decode()  # type: ignore[union-attr]


def test_a_question_is_answered_in_its_thread(letters):
    sent = reply_of(letters.mail("How old is K204117?", head="References: <0@example.org>\n"))
    assert (sent["To"], sent["Subject"]) == ("hattie@example.org", "Re: My machine")
    assert sent["In-Reply-To"] == "<1@example.org>"
    assert sent["References"].split() == ["<0@example.org>", "<1@example.org>"]


def test_both_forms_say_the_same_and_name_the_source(letters):
    outcome = letters.mail("How old is K204117?")
    for form in (text_of(outcome), html_of(outcome)):
        assert "2 March 1890" in form
        assert "Ledger of the Upper Mill" in form


def test_the_picture_is_told_in_words_too(letters):
    outcome = letters.mail("How old is K204117?")
    assert "The picture in words" in text_of(outcome)
    assert 'src="cid:picture"' in html_of(outcome)
    assert "image/png" in [part.get_content_type() for part in reply_of(outcome).walk()]


def test_plain_text_is_no_wider_than_72_columns(letters):
    text = text_of(letters.mail("How old are K204117, 0204117, and 45000? One is a Tollgate. K2O4117"))
    assert max(map(len, text.split("\n"))) <= 72


def test_several_questions_in_one_mail_are_all_answered(letters):
    text = text_of(letters.mail("How old is K204117?\n\nAnd what about K230000?"))
    assert "2 March 1890" in text
    assert "1891" in text


def test_a_number_in_the_subject_counts(letters):
    assert "K204117" in text_of(letters.mail("How old is it?", subject="Machine K204117"))


def test_a_passed_on_question_counts_when_nothing_else_asks(letters):
    passed_on = (
        "---------- Forwarded message ---------\nFrom: a@x.example\nDate: x\nSubject: y\n\nHow old is K204117?\n"
    )
    assert "2 March 1890" in text_of(letters.mail(f"From my aunt.\n\n{passed_on}"))
    assert "K204117" not in text_of(letters.mail(f"And K230000?\n\n{passed_on}")).split("Please check")[0]


def test_the_question_back_is_answered_by_replying(letters):
    first = letters.mail("How old is 204117?")
    assert "Just reply to this mail" in text_of(first)
    second = letters.answer(first, "there is a K in front\n\nOn Sunday, 4 May 2031 at 10:00 desk wrote:\n> How old?\n")
    assert "K204117" in text_of(second)
    assert reply_of(second)["References"].split()[-1] == reply_of(second)["In-Reply-To"]


def test_the_old_subject_is_not_asked_again(letters):
    first = letters.mail("How old is it?", subject="Machine 204117")
    assert "K204117" in text_of(letters.answer(first, "the letter is K"))


def test_what_stands_in_the_quote_is_not_asked(letters):
    first = letters.mail("How old is K204117?")
    second = letters.answer(first, "And K230000?\n\nOn 4 May 2031 at 10:00, desk wrote:\n> K204117 has 6 digits.\n")
    assert text_of(second).split("\n\n")[1].startswith("K230000")


@pytest.mark.parametrize("body", ["Thank you so much!", "Danke!", "", "Goodbye"])
def test_thanks_are_not_answered(letters, body):
    assert letters.answer(letters.mail("How old is K204117?"), body).replies == ()


def test_two_people_have_two_conversations(letters):
    letters.mail("How old is 204117?", sender="ada@example.org")
    assert letters.mail("there is a K in front", subject="Re: My machine", sender="ben@example.org").replies == ()


def test_a_mail_that_asks_nothing_gets_no_answer_and_the_rule_is_told(letters):
    assert letters.mail("The next meeting is on Saturday.").rule == "no-question"


def test_a_mail_that_cannot_be_read_is_set_aside(letters):
    with pytest.raises(SetAside, match="cannot be read"):
        letters.mail("xx", head="Content-Type: application/pkcs7-mime; name=smime.p7m\n")


def test_reply_to_is_followed_when_it_names_one_address(letters):
    assert letters.mail("K204117?", head="Reply-To: club@example.org\n").replies[0].recipient == "club@example.org"
    two = letters.mail("K230000?", head="Reply-To: a@example.org, b@example.org\n")
    assert two.replies[0].recipient == "hattie@example.org"


def test_the_identifier_of_an_answer_is_the_same_when_the_mail_is_handled_again(knowledge):
    one, other = (Correspondence(knowledge).mail("How old is K204117?") for _ in range(2))
    assert one.replies[0].key == other.replies[0].key


def test_over_the_limit_there_is_one_notice_and_then_silence(letters):
    outcomes = [letters.mail(f"How old is K{204100 + n}?", subject=f"Machine {n}") for n in range(25)]
    answered = [one for one in outcomes if one.replies]
    assert len(answered) == 21
    assert "20 answers" in text_of(answered[-1])
    assert {one.rule for one in outcomes[20:]} == {"daily-limit"}


def test_the_next_day_there_are_answers_again(letters):
    for n in range(25):
        letters.mail(f"How old is K{204100 + n}?", subject=f"Machine {n}")
    letters.now += timedelta(days=1)
    assert "K230000" in text_of(letters.mail("How old is K230000?"))


def quoted(text: str) -> str:
    return "\n".join(f"> {line}" for line in text.split("\n"))


RESPONDERS: dict[str, Callable[[Outcome], tuple[str, str]]] = {
    "a holiday note": lambda o: (
        f"Re: {reply_of(o)['Subject']}",
        "I am on holiday until 12 January 2032. Call 01632 960123.",
    ),
    "a new ticket": lambda o: (
        f"[Ticket 5620718] {reply_of(o)['Subject']}",
        "Thank you for your message. We will come back to you.",
    ),
    "our answer, quoted": lambda o: (
        str(reply_of(o)["Subject"]),
        f"Received.\n\nOn Monday desk wrote:\n{quoted(text_of(o))}",
    ),
    "our answer, without marks": lambda o: ("Received", f"Your message was received:\n\n{text_of(o)}"),
    "our answer as it began before": lambda o: (
        "Received",
        f"Your message was received:\n\n{text_of(o).replace(OPENING, FORMER_OPENING)}",
    ),
    "nothing but our answer": lambda o: ("Copy", quoted(text_of(o))),
    "our answer, passed on": lambda o: (
        "Fwd: copy",
        f"---------- Forwarded message ---------\nFrom: x\n\n{text_of(o)}",
    ),
    "our subject": lambda o: (f"Away: {reply_of(o)['Subject']}", "I am away."),
    "the question itself": lambda o: ("Question", "How old is K204117?"),
    "a word about machines": lambda o: (
        str(reply_of(o)["Subject"]),
        "Thank you for asking about your machine! Which model is it?",
    ),
    "thanks": lambda o: (str(reply_of(o)["Subject"]), "Thank you for your message."),
}


@pytest.mark.parametrize("kind", RESPONDERS)
@pytest.mark.parametrize("in_thread", [True, False])
def test_a_loop_with_a_program_that_answers_everything_ends_after_one_answer(letters, kind, in_thread):
    first = letters.mail("How old is K204117?", subject="Machine K204117")
    replies = 0
    outcome = first
    while outcome.replies and replies < 10:
        replies += 1
        subject, body = RESPONDERS[kind](outcome)
        try:
            outcome = letters.answer(outcome, body, subject) if in_thread else letters.mail(body, subject)
        except SetAside:
            break
    assert replies == 1


def test_what_is_remembered_of_a_person_goes_to_json_and_back(letters):
    first = letters.mail("How old is 204117? It is a Tollgate from about 1890.")
    assert first.talk is not None
    assert MailTalk.from_text(first.talk.state).as_text() == first.talk.state
