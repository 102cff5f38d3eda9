"""JSON for programs and for eyes: readable, and safe on a terminal."""

from __future__ import annotations

import json


def as_json_text(value: object, indent: int | None = None) -> str:
    """Return JSON with letters of every script as they are, and everything that does not print escaped."""
    text = json.dumps(value, ensure_ascii=False, indent=indent)
    if text.isascii():
        return text.replace("\x7f", "\\u007f")
    return "".join(_escaped(character) for character in text)


def _escaped(character: str) -> str:
    if character == "\n" or character.isprintable():
        return character
    return json.dumps(character)[1:-1]
