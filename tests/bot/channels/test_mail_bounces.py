"""Which mail of ours came back, by reports with a form and by those without one."""

from __future__ import annotations

import pytest

from bot.channels.mail_bounces import came_back

OURS = "<case-12-21534-abc.card@example.net>"
QUOTED = f"Received: from mx.example.net\nFrom: desk@example.net\nSubject: Case 12\nMessage-ID: {OURS}\n\nA machine.\n"


def report(text: str, sender: str = "MAILER-DAEMON@mx.example.org", head: str = "", below: str = QUOTED) -> bytes:
    return f"From: {sender}\nTo: desk@example.net\nSubject: mail\n{head}\n{text}\n\n{below}".encode()


@pytest.mark.parametrize(
    "text",
    [
        "Your message could not be delivered to ada@example.org.",
        "<ada@example.org>: host mx.example.org said: 550 5.1.1 User unknown",
        "Delivery to the following recipient failed permanently: ada@example.org",
        "The mailbox ada@example.org does not exist.",
        "Ihre Nachricht konnte nicht zugestellt werden.",
        "Le message n'a pas pu être remis à son destinataire.",
    ],
)
def test_a_report_without_form_is_matched_by_what_it_quotes(text):
    found = came_back(report(text))
    assert found is not None
    assert OURS in found.message_ids
    assert found.reason in text


@pytest.mark.parametrize(
    "head", ["Return-Path: <>\n", "X-Failed-Recipients: ada@example.org\n", "Return-Path: < >\nAuto-Submitted: yes\n"]
)
def test_who_sent_it_may_be_told_by_its_head_alone(head):
    assert came_back(report("550 no such user", "somebody@example.org", head)) is not None


def test_the_mail_may_be_attached_whole():
    head = 'MIME-Version: 1.0\nContent-Type: multipart/mixed; boundary="b"\n'
    parts = f"--b\n\nIt was not delivered.\n--b\nContent-Type: message/rfc822\n\n{QUOTED}\n--b--\n"
    found = came_back(report("", head=head, below=parts))
    assert found is not None
    assert found.message_ids == (OURS,)


@pytest.mark.parametrize(
    "text",
    [
        "Your message is delayed. It could not be delivered yet; we will keep trying for 4 days.",
        "Your message was delivered.",
        "I am on holiday until Monday.",
        "",
    ],
)
def test_a_delay_a_success_and_a_holiday_are_none(text):
    assert came_back(report(text)) is None


def test_a_person_who_writes_of_a_failure_is_none():
    assert came_back(report("My mail could not be delivered", "ada@example.org")) is None


def test_a_report_that_quotes_nothing_says_nothing():
    assert came_back(report("550 no such user", below="")) is None


def test_a_long_report_is_read_in_bounded_time_and_names_few_mails():
    found = came_back(report("550 no such user " + "x" * 500_000, below=QUOTED * 200))
    assert found is None or len(found.message_ids) <= 20
