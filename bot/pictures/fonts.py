"""The letters of a picture: which font has them, how wide they run, and how a text is made to fit.

The fonts that come with the program hold Latin, Greek and Cyrillic letters, so a picture looks the same on every
machine. A text in another script is set in a font of the system, if one has all its letters.
"""

from __future__ import annotations

from functools import lru_cache
from importlib import resources
from io import BytesIO
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL.ImageFont import FreeTypeFont

_SHIPPED = {False: "DejaVuSans.ttf", True: "DejaVuSans-Bold.ttf"}
_OF_THE_SYSTEM = ("DejaVuSans.ttf", "NotoSansCJK-Regular.ttc", "NotoSans-Regular.ttf", "FreeSans.ttf", "unifont.ttf")
_NO_SUCH_LETTER = "\uffff"
ELLIPSIS = "…"


def clean(text: str) -> str:
    """Return a text with its control characters and line breaks made spaces, runs of spaces made one."""
    return " ".join("".join(c if c.isprintable() else " " for c in text).split())


@lru_cache(maxsize=8192)
def width_of(text: str, size: int, is_bold: bool = False) -> float:
    """Return how many pixels a text is wide at a size in pixels."""
    return font_for(text, size, is_bold).getlength(text)


def fitted(text: str, width: float, size: int, is_bold: bool = False) -> str:
    """Return a text cut to a width, `…` standing for what is left out."""
    text = clean(text)
    if width_of(text, size, is_bold) <= width:
        return text
    low, high = 0, len(text)
    while low < high:
        middle = (low + high + 1) // 2
        if width_of(text[:middle].rstrip() + ELLIPSIS, size, is_bold) <= width:
            low = middle
        else:
            high = middle - 1
    return text[:low].rstrip() + ELLIPSIS


def wrapped(text: str, width: float, size: int, lines: int, is_bold: bool = False) -> list[str]:
    """Return a text broken between words into at most so many lines; the last is cut if it must be."""
    words, broken = clean(text).split(" "), [""]
    for place, word in enumerate(words):
        longer = f"{broken[-1]} {word}".lstrip()
        if not broken[-1] or width_of(longer, size, is_bold) <= width:
            broken[-1] = longer
        elif len(broken) == lines:
            broken[-1] = " ".join((broken[-1], *words[place:]))
            break
        else:
            broken.append(word)
    return [fitted(line, width, size, is_bold) for line in broken]


def font_for(text: str, size: int, is_bold: bool = False) -> FreeTypeFont:
    """Return the font to set a text in: the one shipped, or one of the system where only that has the letters."""
    strange = "".join(letter for letter in text if not letter.isascii())
    if strange and not _has_all(None, strange):
        for name in _OF_THE_SYSTEM:
            font = _system_font(name, size)
            if font is not None and _has_all(name, strange):
                return font
    return _shipped(size, is_bold)


@lru_cache(maxsize=64)
def _shipped(size: int, is_bold: bool) -> FreeTypeFont:
    from PIL import ImageFont

    file = BytesIO(resources.files(__package__).joinpath("typefaces", _SHIPPED[is_bold]).read_bytes())
    return ImageFont.truetype(file, size, layout_engine=ImageFont.Layout.BASIC)


@lru_cache(maxsize=64)
def _system_font(name: str, size: int) -> FreeTypeFont | None:
    from PIL import ImageFont

    try:
        return ImageFont.truetype(name, size)
    except OSError:
        return None


def _has_all(name: str | None, text: str) -> bool:
    return all(_has(name, letter) for letter in text)


@lru_cache(maxsize=4096)
def _has(name: str | None, letter: str) -> bool:
    """Tell whether a font of the system, or the one shipped (None), has a letter: Pillow cannot be asked directly."""
    font = _system_font(name, 16) if name else _shipped(16, False)
    return font is not None and bytes(font.getmask(letter)) != bytes(font.getmask(_NO_SUCH_LETTER))
