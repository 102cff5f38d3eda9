"""Mail that is never answered, rule by rule; and mail that looks like it and is."""

from __future__ import annotations

import pytest

from bot.channels.mail_format import read
from bot.mail_rules import MOST_RECIPIENTS, RULES, Desk, desk_of, judge

DESK = Desk.of("desk@example.net", lists=("needles.lists.example.net",))


def rule(head: str, sender: str = "hattie@example.org", desk: Desk = DESK) -> str | None:
    raw = f"From: {sender}\nTo: desk@example.net\nSubject: K204117\n{head}\n\nHow old is K204117?\n".encode()
    return judge(read(raw), desk).rule


STOPPED = [
    ("Auto-Submitted: auto-replied", "marked-automatic"),
    ("Auto-Submitted: AUTO-GENERATED (by a job)", "marked-automatic"),
    ('Auto-Submitted: auto-notified; owner-email="x@y.example"', "marked-automatic"),
    ("Auto-Submitted: something-new", "marked-automatic"),
    ("Return-Path: <>", "empty-return-path"),
    ("Return-Path: < >", "empty-return-path"),
    ("Precedence: bulk", "bulk"),
    ("Precedence: Junk", "bulk"),
    ("Precedence: list", "bulk"),
    ("List-Id: Somebody else's <other.lists.example>", "other-list"),
    ("List-Unsubscribe: <mailto:leave@lists.example>", "other-list"),
    ("List-Post: NO", "other-list"),
    ("Content-Type: multipart/report; report-type=delivery-status; boundary=b", "delivery-report"),
    ("X-Failed-Recipients: orla@example.org", "delivery-report"),
    ("X-Autoreply: yes", "responder"),
    ("Reply-To: desk@example.net", "from-ourselves"),
    ("Sender: DESK@example.net", "from-ourselves"),
    ("Cc: " + ", ".join(f"m{n}@example.org" for n in range(MOST_RECIPIENTS)), "to-a-crowd"),
]


@pytest.mark.parametrize(("head", "name"), STOPPED)
def test_a_mail_is_stopped_by_the_rule_that_says_why(head, name):
    assert rule(head) == name


@pytest.mark.parametrize(
    "sender",
    [
        "MAILER-DAEMON@example.org",
        "no-reply@shop.example",
        "noreply@x.example",
        "do-not-reply@x.example",
        "orders-noreply@x.example",
        "donotreply+12@x.example",
        "bounce-123@x.example",
        "owner-needles@x.example",
        "needles-request@x.example",
        "postmaster@x.example",
    ],
)
def test_programs_get_no_answer(sender):
    assert rule("X-Any: 1", sender) == "robot-sender"


@pytest.mark.parametrize(
    "sender", ["norma.reply@example.org", "auto.smith@example.org", "bouncer@example.org", "nora@example.org"]
)
def test_people_whose_names_look_alike_get_one(sender):
    assert rule("X-Any: 1", sender) is None


@pytest.mark.parametrize(
    "head",
    [
        "Auto-Submitted: no",
        "Auto-Submitted: No (a person wrote this)",
        "Precedence: normal",
        "Precedence: first-class",
        "Return-Path: <hattie@example.org>",
        "List-Id: <needles.lists.example.net>\nPrecedence: list",
        "List-Post: <mailto:desk@example.net>",
        "X-Autoreply: no",
        "X-Priority: 1",
    ],
)
def test_what_says_nothing_of_the_kind_is_answered(head):
    assert rule(head) is None


def test_what_the_own_list_puts_into_its_mails_stops_none_of_them():
    head = (
        "List-Id: <needles.lists.example.net>\nPrecedence: bulk\nSender: needles-bounces@lists.example.net\n"
        "Return-Path: <needles-bounces@lists.example.net>\nReply-To: desk@example.net"
    )
    assert rule(head) is None
    assert rule(f"{head}\nAuto-Submitted: auto-replied") == "marked-automatic"
    assert rule(head, "desk@example.net") == "from-ourselves"


def test_mail_that_claims_to_come_from_the_desk_itself_is_never_answered():
    assert rule("X-Any: 1", "Desk <DESK@example.net>") == "from-ourselves"


def test_an_automatic_subject_is_known_in_several_languages():
    for subject in (
        "Automatic reply: K204117",
        "Out of Office: me",
        "Abwesenheitsnotiz: K204117",
        "Réponse automatique : x",
    ):
        raw = f"From: a@example.org\nSubject: {subject}\n\nK204117\n".encode()
        assert judge(read(raw), DESK).rule == "responder"


def test_a_mail_from_nobody_cannot_be_answered():
    assert rule("X-Any: 1", "") == "no-sender"


def test_every_rule_that_was_asked_is_recorded_up_to_the_one_that_hit():
    raw = b"From: hattie@example.org\nPrecedence: bulk\n\nK204117\n"
    verdict = judge(read(raw), DESK)
    names = [name for name, _ in RULES]
    assert [one.rule for one in verdict.checked] == names[: names.index("bulk") + 1]
    assert [bool(one.why) for one in verdict.checked] == [False] * names.index("bulk") + [True]
    assert "bulk" in verdict.why


def test_every_rule_of_the_table_is_tried_here():
    assert {name for name, _ in RULES} == {name for _, name in STOPPED} | {"robot-sender", "no-sender"}


def test_without_settings_the_desk_is_where_the_mail_was_delivered():
    raw = b"From: desk@example.net\nDelivered-To: desk@example.net\nTo: somebody@example.org\n\nx\n"
    assert judge(read(raw), desk_of(read(raw))).rule == "from-ourselves"


def test_without_settings_a_list_that_posts_to_the_desk_is_its_own():
    raw = (
        b"From: a@example.org\nDelivered-To: n@example.net\nList-Post: <mailto:n@example.net>\nPrecedence: list\n\nx\n"
    )
    assert judge(read(raw), desk_of(read(raw))).rule is None
