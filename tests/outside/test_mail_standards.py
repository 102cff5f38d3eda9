"""Mail against the published standards, by section: RFC 3834, 3676, 5322, 8601, 3464, 2047."""

from __future__ import annotations

import email
import email.policy
import re
from datetime import UTC, datetime

import pytest

from bot.channels.mail_bounces import came_back
from bot.channels.mail_building import Draft, build, reply_subject, thread
from bot.channels.mail_flowed import unflowed
from bot.channels.mail_format import read
from bot.mail_rules import Desk, judge

DESK = Desk.of("desk@example.net")
DRAFT = Draft(
    "desk@example.net", "The desk", "hattie@example.org", "Re: x", "<1.desk@example.net>",
    datetime(2031, 5, 4, 10, tzinfo=UTC), "K204117\n", "<p>K204117</p>", b"", "<q@example.org>", ("<q@example.org>",),
)  # fmt: skip


def answered(head: str) -> bool:
    return (
        judge(read(f"From: hattie@example.org\nTo: desk@example.net\n{head}\n\nK204117?\n".encode()), DESK).rule is None
    )


class TestRfc3834:
    """RFC 3834, Recommendations for Automatic Responses to Electronic Mail (2004)."""

    def test_section_2_no_response_to_a_null_return_path(self):
        assert not answered("Return-Path: <>")

    @pytest.mark.parametrize(
        "value", ["auto-generated", "auto-replied", "auto-notified", "Auto-Replied; x=y", "new-word"]
    )
    def test_section_2_no_response_where_auto_submitted_is_other_than_no(self, value):
        assert not answered(f"Auto-Submitted: {value}")

    @pytest.mark.parametrize("value", ["no", "NO", " no ", "no (written by hand)"])
    def test_section_5_no_means_that_a_person_wrote_it(self, value):
        assert answered(f"Auto-Submitted: {value}")

    @pytest.mark.parametrize("value", ["list", "junk", "bulk"])
    def test_section_2_no_response_to_these_precedences(self, value):
        assert not answered(f"Precedence: {value}")

    @pytest.mark.parametrize("field", ["List-Id: <x.lists.example>", "List-Post: <mailto:x@lists.example>"])
    def test_section_2_no_response_to_lists(self, field):
        assert not answered(field)

    @pytest.mark.parametrize("sender", ["MAILER-DAEMON@x.example", "owner-list@x.example", "list-request@x.example"])
    def test_section_2_no_response_to_senders_that_are_programs(self, sender):
        mail = read(f"From: {sender}\n\nK204117?\n".encode())
        assert judge(mail, DESK).rule == "robot-sender"

    def test_section_3_1_4_the_response_names_what_it_answers(self):
        mail = email.message_from_bytes(build(DRAFT))
        assert mail["In-Reply-To"] == "<q@example.org>"
        assert "<q@example.org>" in mail["References"]

    def test_section_3_1_5_the_subject_is_kept_and_bounded(self):
        assert reply_subject("How old?") == "Re: How old?"
        assert len(reply_subject("x" * 10_000)) < 998

    def test_section_3_1_7_and_5_the_response_says_auto_replied(self):
        assert email.message_from_bytes(build(DRAFT))["Auto-Submitted"] == "auto-replied"

    def test_section_2_our_own_responses_get_no_response(self):
        assert judge(read(build(DRAFT)), Desk.of("other@example.net")).rule == "marked-automatic"


class TestRfc3676:
    """RFC 3676, The Text/Plain Format and DelSp Parameters (2004)."""

    def test_section_4_1_a_line_that_ends_with_a_space_goes_on(self):
        assert unflowed("one \ntwo\nthree") == "one two\nthree"

    def test_section_4_1_with_delsp_the_space_is_deleted(self):
        assert unflowed("one \ntwo", delsp=True) == "onetwo"

    def test_section_4_3_the_signature_mark_is_never_flowed(self):
        assert unflowed("text \n-- \nname") == "text \n-- \nname"

    def test_section_4_4_a_stuffed_space_is_taken_off(self):
        assert unflowed(" From here\n >no quote") == "From here\n>no quote"

    def test_section_4_5_lines_of_other_depth_are_not_joined(self):
        assert unflowed("> one \n>> two\nthree") == "> one \n>> two\nthree"

    def test_section_5_the_example_of_the_standard(self):
        """The example of section 5 of RFC 3676, its words as printed there."""
        sent = (
            ">> `Take some more tea,' the March Hare said to Alice, \n>> very earnestly.\n>\n"
            "> `I've had nothing yet,' Alice replied in an offended \n> tone, `so I can't take more.'\n"
        )
        lines = unflowed(sent).split("\n")
        assert lines[0] == ">> `Take some more tea,' the March Hare said to Alice, very earnestly."
        assert lines[2] == "> `I've had nothing yet,' Alice replied in an offended tone, `so I can't take more.'"


class TestRfc5322:
    """RFC 5322, Internet Message Format (2008)."""

    def test_section_2_1_1_no_line_is_longer_than_998_characters(self):
        long = Draft(
            **{
                **{name: getattr(DRAFT, name) for name in DRAFT.__slots__},
                "subject": "Grüße " * 100,
                "text": "ü" * 5000,
            }
        )
        raw = build(long)
        assert max(map(len, raw.split(b"\r\n"))) <= 998
        assert not re.search(rb"(?<!\r)\n|\r(?!\n)", raw)

    def test_section_3_6_1_and_4_the_fields_that_must_be_there(self):
        mail = email.message_from_bytes(build(DRAFT), policy=email.policy.default)
        assert [len(mail.get_all(name, [])) for name in ("From", "Date", "Message-ID", "To", "Subject")] == [1] * 5
        assert mail["Date"].datetime == DRAFT.date

    def test_section_3_6_4_references_are_those_of_the_parent_and_its_identifier(self):
        assert thread(["<a@x>", "<b@x>"], "<c@x>") == ("<a@x>", "<b@x>", "<c@x>")

    def test_section_a_5_white_space_and_comments_in_addresses(self):
        raw = (
            b"From: Pete(A nice \\) chap) <pete(his account)@silly.test(his host)>\n"
            b"To:A Group(Some people)\n     :Chris Jones <c@(Chris's host.)public.example>,\n"
            b"         joe@example.org,\n  John <jdoe@one.test> (my dear friend); (the end of the group)\n\nTesting.\n"
        )
        found = read(raw)
        assert found.sender == "pete@silly.test"
        assert "joe@example.org" in found.recipients
        assert "jdoe@one.test" in found.recipients

    def test_section_a_1_2_quoted_names(self):
        found = read(
            b'From: "Joe Q. Public" <john.q.public@example.com>\nTo: Mary Smith <mary@x.test>, jdoe@example.org\n\nHi\n'
        )
        assert found.sender == "john.q.public@example.com"
        assert found.recipients == ("mary@x.test", "jdoe@example.org")

    def test_section_a_2_a_reply_is_known_as_one(self):
        raw = b"From: m@x.test\nSubject: Re: Saying Hello\nIn-Reply-To: <1234@local.machine.example>\n\nA reply.\n"
        assert read(raw).is_reply


def test_rfc_2047_section_8_the_examples_of_encoded_words():
    """RFC 2047, MIME Part Three (1996), section 8."""
    examples = {
        "=?ISO-8859-1?Q?a?=": "a",
        "=?ISO-8859-1?Q?a?= =?ISO-8859-1?Q?b?=": "ab",
        "=?ISO-8859-1?Q?a_b?=": "a b",
        "=?ISO-8859-1?Q?a?= =?ISO-8859-2?Q?_b?=": "a b",
        "=?ISO-8859-1?B?SWYgeW91IGNhbiByZWFkIHRoaXMgeW8=?= =?ISO-8859-2?B?dSB1bmRlcnN0YW5kIHRoZSBleGFtcGxlLg==?=":
            "If you can read this you understand the example.",
    }  # fmt: skip
    assert {text: read(f"Subject: {text}\n\nx".encode()).subject for text in examples} == examples


RFC_3464_REPORT = """\
From: Mail Delivery Subsystem <MAILER-DAEMON@CS.UTK.EDU>
MIME-Version: 1.0
Content-Type: multipart/report; report-type=delivery-status; boundary="RAA14128.773615765/CS.UTK.EDU"

--RAA14128.773615765/CS.UTK.EDU

The original message was received at Fri, 8 Jul 1994 17:10:07 -0400

--RAA14128.773615765/CS.UTK.EDU
content-type: message/delivery-status

Reporting-MTA: dns; cs.utk.edu

Original-Recipient: rfc822;louisl@larry.slip.umd.edu
Final-Recipient: rfc822;louisl@larry.slip.umd.edu
Action: {action}
Status: 4.0.0
Diagnostic-Code: smtp; 426 connection timed out
Last-Attempt-Date: Thu, 7 Jul 1994 17:15:49 -0400

--RAA14128.773615765/CS.UTK.EDU
content-type: message/rfc822

Message-ID: <1.desk@example.net>
Subject: Re: x

x
--RAA14128.773615765/CS.UTK.EDU--
"""


def test_rfc_3464_appendix_e_1_the_simple_report():
    """RFC 3464, An Extensible Message Format for Delivery Status Notifications (2003), appendix E.1."""
    found = came_back(RFC_3464_REPORT.format(action="failed").encode())
    assert found is not None
    assert found.message_ids == ("<1.desk@example.net>",)
    assert "426 connection timed out" in found.reason


@pytest.mark.parametrize("action", ["delayed", "delivered", "relayed", "expanded"])
def test_rfc_3464_section_2_3_3_only_failed_means_that_it_did_not_arrive(action):
    assert came_back(RFC_3464_REPORT.format(action=action).encode()) is None
