"""A second opinion on where a quote begins, for mail programs and languages that our own words do not cover."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from mailparser_reply import EmailReplyParser
from mailparser_reply.constants import MAIL_LANGUAGES

_LONGEST = 10_000  # characters; the library's patterns look at every line from every place
_LONGEST_LINE = 200
_BLANKS = re.compile(r"\n{4,}")  # the library's patterns take the square of the time of such a gap
_parser: Any = EmailReplyParser(languages=list(MAIL_LANGUAGES))


def hinted_cut(lines: Sequence[str]) -> int | None:
    """Return the line at which the library sees the first quote begin, when something is said above it; else None."""
    if sum(map(len, lines)) > _LONGEST or max(map(len, lines), default=0) > _LONGEST_LINE:
        return None
    text = _BLANKS.sub("\n\n\n", "\n".join(line.strip() for line in lines))
    try:
        replies = _parser.read(text).replies
    except Exception:  # noqa: BLE001  # it is only a hint
        return None
    head = next((reply.headers for reply in replies if reply.headers.strip()), "")
    first = head.strip().split("\n")[0].strip()
    if not first:
        return None
    at = next((place for place, line in enumerate(lines) if line.strip() == first), 0)
    return at if any(line.strip() for line in lines[:at]) else None
