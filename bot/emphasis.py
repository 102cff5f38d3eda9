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
    is_unread = any("?" in token.digits for token in find(text, names).tokens)
    read = find(calm, names).tokens
    is_whole = all((token.prefix, len(token.digits), token.suffix) in names.shapes for token in read)
    return calm if is_unread and read and is_whole and not any("?" in token.digits for token in read) else text
