"""Which things that another group names are known here already, whatever ids the two groups gave them.

Makers are the same when they have the same name; models and works when they have the same name and maker. A country or
a place that differs makes two of them. Where a name stands twice in one pack, nothing is taken for the same by it.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import fields, replace
from typing import Any, TypeVar

from knowledge.names import fold
from knowledge.nouns import Maker, Model, Works

Thing = TypeVar("Thing", Maker, Model, Works)
_Name = tuple[str, str]


def same_things(known: Mapping[str, Thing], new: Iterable[Thing]) -> dict[str, str]:
    """Return, for each new thing that is known already, its own id and the id it is known by.

    Makers of models and works must have been renamed before.
    """
    by_name: defaultdict[_Name, list[str]] = defaultdict(list)
    for id_, thing in known.items():
        by_name[_name(thing)].append(id_)
    things = list(new)
    counts = Counter(map(_name, things))
    found = {}
    for thing in things:
        name = _name(thing)
        if name[1] and counts[name] == 1 and name in by_name:
            same = [id_ for id_ in by_name[name] if _may_be_one(known[id_], thing)]
            if len(same) == 1:
                found[thing.id] = same[0]
    return found


def filled(known: Thing, new: Thing) -> Thing:
    """Return what is known, its gaps filled by what is new; what is said in both stays as it was known."""
    if known == new:
        return known
    gaps: dict[str, Any] = {
        field.name: getattr(new, field.name) for field in fields(known) if not getattr(known, field.name)
    }
    aliases = (*getattr(known, "aliases", ()), *getattr(new, "aliases", ()))
    if aliases:
        gaps["aliases"] = tuple(dict.fromkeys(aliases))
    return replace(known, **gaps)


def _name(thing: Maker | Model | Works) -> _Name:
    return ("" if isinstance(thing, Maker) else thing.maker), fold(thing.name)


def _may_be_one(one: Maker | Model | Works, other: Maker | Model | Works) -> bool:
    where, elsewhere = map(_where, (one, other))
    return not (where and elsewhere) or where == elsewhere


def _where(thing: Maker | Model | Works) -> str:
    if isinstance(thing, Model):
        return ""
    return fold(thing.country if isinstance(thing, Maker) else thing.place)
