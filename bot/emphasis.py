"""'number K 204 117??' asks twice; it does not say that two digits cannot be read. In chats that is how people ask."""

from __future__ import annotations

import re

from knowledge.names import Names
from knowledge.tokens import find

_MARKS = re.compile(r"(?<=\d)\s?[?？](?:\s?[?？!])+(?=\s|$)")


def without_emphasis(text: str, names: Names) -> str:
    """Return the text with a row of question marks behind a number as one, where the number is whole without them.

    A number is whole when it has a shape that is known; else the marks stay, as digits that cannot be read.
    """
    calm = _MARKS.sub(" ?", text)
    if calm == text:
        return text
    unread = [token for token in find(text, names).tokens if "?" in token.digits]
    whole = {(token.prefix, len(token.digits), token.suffix) for token in find(calm, names).tokens}
    return calm if unread and whole and whole <= names.shapes else text
