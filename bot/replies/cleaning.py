"""Nothing a stranger wrote reaches a screen as a control sequence, or floods it."""

from __future__ import annotations

import re
import unicodedata

LONGEST_RUN = 60
"""The most characters shown of something written without a space."""

_RUN = re.compile(rf"\S{{{LONGEST_RUN + 1},}}")
_HIDDEN = ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp")
_KEPT = "\n\u200d\ufe0f"


def clean(text: str) -> str:
    """Return text that is safe to print: control, direction and broken characters become '\ufffd', long runs are cut.

    >>> clean("K204\\x1b[2J117")
    'K204\ufffd[2J117'
    """
    if not (text.isascii() and text.isprintable()):
        text = "".join(_shown(character) for character in text)
    return _RUN.sub(_cut, text)


def _shown(character: str) -> str:
    if character == "\t":
        return " "
    if character in _KEPT or unicodedata.category(character) not in _HIDDEN:
        return character
    return "\ufffd"


def _cut(run: re.Match[str]) -> str:
    text = run[0]
    return f"{text[: LONGEST_RUN // 2]}… ({len(text):,} characters) …{text[-8:]}"
