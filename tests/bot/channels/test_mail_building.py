"""The bytes of a reply: whole, readable by an independent parser, and closed against what strangers write."""

from __future__ import annotations

import email
import email.policy
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from bot.channels.mail_building import MOST_REFERENCES, Draft, build, reply_subject, thread
from tests.bot.channels.test_mail_format import png

DRAFT = Draft(
    sender="desk@example.net",
    sender_name="The circle of old needles",
    recipient="hattie@example.org",
    subject="Re: K204117",
    message_id="<abc.desk@example.net>",
    date=datetime(2031, 5, 4, 10, tzinfo=UTC),
    text="K204117 has 6 digits – Grüße.\n",
    html="<p>K204117 has 6 digits</p>",
    picture=png(),
    in_reply_to="<1@example.org>",
    references=("<0@example.org>", "<1@example.org>"),
)


def parsed(draft: Draft) -> email.message.EmailMessage:
    return email.message_from_bytes(build(draft), policy=email.policy.default)


def test_text_and_html_are_alternatives_and_the_picture_lies_inside_the_html():
    mail = parsed(DRAFT)
    kinds = [part.get_content_type() for part in mail.walk()]
    assert kinds == ["multipart/alternative", "text/plain", "multipart/related", "text/html", "image/png"]
    assert list(mail.walk())[-1]["Content-ID"] == "<picture>"
    assert list(mail.walk())[1].get_content().replace("\r", "") == DRAFT.text
    assert list(mail.walk())[-1].get_content() == DRAFT.picture


def test_without_a_picture_there_is_none():
    assert "image" not in [part.get_content_maintype() for part in parsed(replace(DRAFT, picture=b"")).walk()]


def test_it_says_that_a_program_wrote_it_and_what_it_answers():
    mail = parsed(DRAFT)
    assert mail["Auto-Submitted"] == "auto-replied"
    assert mail["In-Reply-To"] == "<1@example.org>"
    assert mail["References"].split() == ["<0@example.org>", "<1@example.org>"]


def test_the_same_draft_gives_the_same_bytes():
    assert build(DRAFT) == build(DRAFT)


@pytest.mark.parametrize(
    "poison", ["x\r\nBcc: all@example.org", "x\nBcc: a", "x\r\n\r\nbody", "x\x00\x0b\x85\u2028Bcc: a"]
)
def test_nothing_a_stranger_writes_begins_a_new_field(poison):
    draft = replace(DRAFT, subject=reply_subject(poison), sender_name=poison, in_reply_to=poison, references=(poison,))
    mail = parsed(draft)
    assert "Bcc" not in mail
    assert mail["To"] == "hattie@example.org"
    assert len(list(mail.walk())) == 5


@pytest.mark.parametrize(
    "address", ["a@b\r\nBcc: x@y.example", "a b@c.example", "<a@b.example>", "no address", "a@b,c@d.example"]
)
def test_what_is_no_address_is_not_written_to(address):
    with pytest.raises(ValueError, match="no mail address"):
        build(replace(DRAFT, recipient=address))


@pytest.mark.parametrize(
    "subject", ["Grüße", "K" * 300, "Wie alt ist meine Nähmaschine? " * 8, "番号 K204117", "a" * 90 + " ü"]
)
def test_subjects_are_kept_and_no_line_is_too_long(subject):
    raw = build(replace(DRAFT, subject=reply_subject(subject)))
    assert max(map(len, raw.split(b"\r\n"))) <= 998
    mail = email.message_from_bytes(raw, policy=email.policy.default)
    assert mail["Subject"] == reply_subject(subject)


@pytest.mark.parametrize("subject", ["K204117", "Re: K204117", "AW: K204117", "SV: K204117", "RE[2]: K204117"])
def test_there_is_one_re_and_the_rest_stays(subject):
    answered = reply_subject(subject)
    assert answered.endswith("K204117")
    assert answered == reply_subject(answered)


def test_references_are_bounded_and_keep_the_first_and_the_last():
    ids = [f"<{n}@example.org>" for n in range(100)]
    found = thread(ids, "<last@example.org>")
    assert len(found) == MOST_REFERENCES
    assert (found[0], found[-1]) == ("<0@example.org>", "<last@example.org>")


def test_long_identifiers_stay_whole():
    long = f"<{'x' * 300}@example.org>"
    assert f"References: {long}".encode() in build(replace(DRAFT, references=(long,)))


def test_an_address_beyond_ascii_stays_as_it_is():
    assert "To: jürgen@example.org".encode() in build(replace(DRAFT, recipient="jürgen@example.org"))
