"""What servers may answer to a fetch (the library passes it on as lines), and the names of folders."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from bot.channels.imap import BrokenMail, body_of, quoted

MAIL = b"Subject: x\r\n\r\nK204117"
TOLD = b'1 FETCH (UID 7 FLAGS () INTERNALDATE "04-May-2031 10:00:00 +0000" RFC822.SIZE 21 BODY[] {21}'


def test_one_mail_comes_with_its_date():
    assert body_of(7, [TOLD, MAIL, b")"]) == (MAIL, datetime(2031, 5, 4, 10, tzinfo=UTC))


def test_other_lines_may_come_first():
    assert body_of(7, [b"3 EXISTS", b"2 FETCH (FLAGS (\\Seen) UID 5)", TOLD, MAIL, b")"]) is not None


def test_the_uid_may_follow_the_body():
    lines = [b"1 FETCH (BODY[] {21}", MAIL, b" UID 7 FLAGS (\\Recent))"]
    assert body_of(7, lines) == (MAIL, None)


def test_a_mail_with_another_uid_is_not_taken():
    assert body_of(8, [TOLD, MAIL, b")"]) is None


def test_a_mail_that_was_removed_meanwhile_is_none():
    assert body_of(7, []) is None


def test_a_body_that_is_too_short_is_broken():
    with pytest.raises(BrokenMail, match="20 bytes instead of 21"):
        body_of(7, [TOLD, MAIL[:-1], b")"])


@pytest.mark.parametrize(("told", "body"), [(b'"a \\"b\\""', b'a "b"'), (b'""', b""), (b"NIL", b"")])
def test_a_short_body_may_stand_in_the_line(told, body):
    assert body_of(7, [b"1 FETCH (UID 7 BODY[] " + told + b")"]) == (body, None)


def test_what_is_quoted_cannot_break_out():
    assert quoted('a"b\\c\r\nLOGOUT') == '"a\\"b\\\\cLOGOUT"'
