"""The names these tests read with: a few shapes, models and introducers of an invented group."""

from __future__ import annotations

import re
from string import ascii_uppercase

from knowledge.names import Names

NAMES = Names(
    shapes=frozenset({("K", 6, ""), ("K", 7, ""), ("M", 5, ""), ("AB", 5, "C"), ("", 6, ""), ("VI", 6, "")}),
    codes=(re.compile(r"[A-HJ-NPR-Z]{2}(?:0[1-9]|[1-4]\d|5[0-3])"), re.compile(r"[A-Z]{2}\d{2}[A-Z]\d{3}")),
    models={"model 9": ("model-9",), "27-a": ("model-27",), "linnet": ("linnet",), "linnet 3": ("linnet-3",)},
    makers={"harrow & lisle": ("harrow",), "veldhuizen": ("veldhuizen",)},
    introducers={
        "patent": ("patents",),
        "pat": ("patents",),
        "us patent": ("us-patents",),
        "rd no": ("designs",),
        "registered design": ("designs",),
        "registration diamond": ("diamond-1", "diamond-2"),
    },
)
NOTHING_KNOWN = Names()
MANY_SHAPES = Names(
    shapes=frozenset(
        {(letter, count, "") for letter in ["", *ascii_uppercase[:-1]] for count in (6, 7)}
        | {("", 5, ""), ("VI", 6, ""), ("WX", 6, ""), ("", 6, "K"), ("", 6, "R"), ("", 6, "W")}
    ),
    makers={"torvane": ("torvane",), "veldmark": ("veldmark",), "sorvelli": ("sorvelli",)},
)
"""A group whose registers hold numbers of six and seven digits, with and without a letter."""
