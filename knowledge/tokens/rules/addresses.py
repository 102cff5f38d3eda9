"""Addresses on the net, names of people and of files there."""

from __future__ import annotations

import re
from typing import Final

from knowledge.tokens.rules.spot import Spot

_LONGEST: Final = 200  # characters of a word that are looked at on either side
_EDGE: Final = re.compile(r"[\s<>\"]|\]\(")
_MAIL: Final = re.compile(r"[\w.+-]{1,64}@[\w-]{1,64}\.[\w.]")
_WEB: Final = re.compile(
    r"https?:|www\.|ftp:"
    r"|[a-z][a-z0-9-]{0,60}\.(?:com|org|net|info|co|uk|de|at|ch|fr|be|nl|it|es|pt|pl|cz|ru|se|dk|no(?!\.?\d)|fi|eu|us|example)\b"
)
_FILE: Final = re.compile(
    r"[\w()-]{0,80}\.(?:jpe?g|png|gif|heic|pdf|docx?|xlsx?|csv|ods|odt|txt|zip|mp[34]|mov|avi|tiff?|webp|bmp|html?)\b"
    r"|(?:img|dsc|dscn|dscf|pxl|dcim|scan|vid|mvi|wa|screenshot|photo|image)[-_]\d"
)
_TAG: Final = re.compile(r"#(?:[^\W\d_]{2}\w*|\w{0,12}\d[^\W\d_]{3,})")
_NUMBER_SIGN: Final = re.compile(r"#[a-z]{1,3}\d{4,8}$")


def _word_around(spot: Spot) -> tuple[str, int]:
    """Return the word between white space (or the brackets of a link) around the piece, and where it ends."""
    floor = max(spot.start - _LONGEST, spot.floor)
    begin = spot.start
    if begin > floor and not spot.low[begin - 1].isspace():
        begin = floor + max((match.end() for match in _EDGE.finditer(spot.low[floor : spot.start])), default=0)
    match = _EDGE.search(spot.low, spot.end, spot.end + _LONGEST)
    end = match.start() if match else min(len(spot.low), spot.end + _LONGEST)
    return spot.low[begin:end], end


def mail_address(spot: Spot) -> int:
    """'gran1921@example.org'."""
    word, end = _word_around(spot)
    return end if "@" in word and _MAIL.search(word) else 0


def web_address(spot: Spot) -> int:
    """'https://example.org/204117', 'www.example.org/?id=K204117'."""
    word, end = _word_around(spot)
    return end if "." in word and _WEB.search(word) else 0


def handle_or_tag(spot: Spot) -> int:
    """'@sewist204117', '#sewing1912'; '#204117' and '#K204117' are number signs."""
    word, end = _word_around(spot)
    word = word.lstrip("(\"'[*_")
    if word[:1] == "@":
        return end
    return end if _TAG.match(word) and not _NUMBER_SIGN.match(word) else 0


def file_name(spot: Spot) -> int:
    """'IMG_20230412_1021.jpg'."""
    word, end = _word_around(spot)
    return end if _FILE.match(word.lstrip("(\"'[*_./")) else 0
