"""One thing that an answer states."""

from __future__ import annotations

from dataclasses import dataclass

MAKER, MODEL, WORKS = "makers", "models", "works"


@dataclass(frozen=True, slots=True)
class Stated:
    """One thing stated at a place of the text. `values` are ids (several: one of these), or one EDTF text.

    `kind` is `makers`, `models`, `works`, `date` or `serial`; no values: named, but not known. A `weak` one was only
    thought of at first, or is what the machine looks like; it gives way to any other. `as_such`: the clause is about
    that model or works, or about another machine: 'the 52P was dropped in 1931', 'my Marthe'.
    """

    kind: str
    values: tuple[str, ...]
    start: int
    end: int
    denied: bool = False
    weak: bool = False
    as_such: bool = False
