"""The plain nouns of a knowledge base: makers, models, works, sources, and what stands in the second list."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Maker:
    """`where` says in words where the number is found; `drawing` is a file of the pack, empty when there is none."""

    id: str
    name: str
    aliases: tuple[str, ...]
    country: str
    where: str
    drawing: str
    note: str


@dataclass(frozen=True, slots=True)
class Model:
    """A model of a maker; texts are empty when the pack does not tell."""

    id: str
    maker: str
    name: str
    aliases: tuple[str, ...]
    introduced: str
    withdrawn: str
    shuttle: str
    bobbin: str
    needle: str
    bed: str
    drive: str
    where: str
    drawing: str
    note: str
    source: str


@dataclass(frozen=True, slots=True)
class Works:
    """A factory; `from_` and `to` bound its time (EDTF or empty)."""

    id: str
    maker: str
    name: str
    place: str
    from_: str
    to: str


@dataclass(frozen=True, slots=True)
class Source:
    """Where a claim comes from."""

    id: str
    title: str
    author: str
    year: str
    locator: str
    reliability: str


@dataclass(frozen=True, slots=True)
class PrefixEntry:
    """One row of the second list: when and where numbers with a prefix were used."""

    register: str
    prefix: str
    date: str
    works: str
    source: str


@dataclass(frozen=True, slots=True)
class OtherMark:
    """A number on a machine that is no serial number. `digits` is how many it has, 0 when any."""

    maker: str
    prefix: str
    digits: int
    what: str
    where: str
    note: str
