"""Nothing a stranger wrote reaches a screen as a control sequence, or floods it."""

from __future__ import annotations

import unicodedata

LONGEST_RUN = 60
"""The most characters shown of something a person wrote without a space."""
LONGEST_PATH = 4_096
"""The same for messages that may name a path, which must stay whole."""

_HIDDEN = ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp")
_KEPT = "\n\u200d\ufe0f"


def clean(text: str, longest: int = LONGEST_RUN) -> str:
    """Return text that is safe to print: control, direction and broken characters become '\ufffd', long runs are cut.

    >>> clean("K204\\x1b[2J117")
    'K204\ufffd[2J117'
    """
    if not (text.isascii() and text.isprintable()):
        text = "".join(_shown(character) for character in text)
    return " ".join(_cut(run, longest) for run in text.split(" ")) if len(text) > longest else text


def safe(text: str) -> str:
    """Return text that is safe to print, with paths left whole."""
    return clean(text, LONGEST_PATH)


def _shown(character: str) -> str:
    if character == "\t":
        return " "
    if character in _KEPT or unicodedata.category(character) not in _HIDDEN:
        return character
    return "\ufffd"


def _cut(run: str, longest: int) -> str:
    if len(run) <= longest or max(map(len, run.split())) <= longest:
        return run
    return f"{run[: longest // 2]}… ({len(run):,} characters) …{run[-8:]}"
