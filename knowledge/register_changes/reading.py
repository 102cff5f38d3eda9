"""An expert's words -> the change of a register they mean. What is not wholly clear is asked back, never guessed.

    change K 200001-225000 date 1891            a correction of a block
    change K 200001-225000 model Model 9, works Quay Works
    change 4409 date 1875                       a row of a list by first numbers
    add K 240001-250000 date 1892 model Model 9
    remove K 200001-225000
    change K 200001-225000 date 1891 list Tollgate ledger        where several lists have the number

Pure: it knows the knowledge in memory, and no file. `finding_rows.py` finds the row that is meant.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from knowledge import edtf
from knowledge.base import Knowledge
from knowledge.edtf import EdtfError
from knowledge.expert_answers import understand
from knowledge.names import fold
from knowledge.registers import Block, Register, allocations, year_starts

CHANGE, ADD, REMOVE = "change", "add", "remove"
_VERBS = {"change": CHANGE, "correct": CHANGE, "add": ADD, "remove": REMOVE, "take out": REMOVE}
_HEAD = re.compile(
    r"\s*(?:please,?\s+)?(change|correct|add|remove|take out)\b:?\s*(?:the\s+)?(?:block|row|numbers?)?\s*",
    re.IGNORECASE,
)
_FIGURES = r"[0-9]+(?:[ ,.'’][0-9]{3})*"
_NUMBERS = re.compile(
    rf"(?P<prefix>[A-Za-z]{{0,3}})[ -]?(?P<first>{_FIGURES})"
    rf"(?:\s*(?:-|–|—|\.\.|to)\s*(?P<again>[A-Za-z]{{0,3}})[ -]?(?P<last>{_FIGURES}))?"
    r"(?:[ ]?(?P<suffix>[A-Z]{1,2})(?![\w-]))?(?!\w)[\s:,;]*"
)
_COLUMNS = ("date", "model", "works", "quantity", "source", "order", "note", "first", "last", "prefix", "suffix")
_NAMED = re.compile(rf"\b({'|'.join(_COLUMNS)}|list|register)\b\s*[:=]?\s*", re.IGNORECASE)
_SHORTEST = 4  # digits of a number that is surely no piece of another one
_NOTHING = ("nothing", "none", "empty", "-")
_SPACING = re.compile(r"[ ,.'’]")
HOW = (
    "Write it so: change K 200001-225000 date 1891. Or: add K 240001-250000 date 1892 model Model 9. "
    "Or: remove K 200001-225000."
)


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is to be changed: `verb` is 'change', 'add' or 'remove'; `register`, and ids in `cells`, are our own.

    `last` is '' for a row of a list by first numbers.
    """

    verb: str
    register: str
    prefix: str
    first: str
    last: str
    suffix: str
    cells: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Unclear:
    """Why nothing can be made of the words, and how to write it; for the expert to read."""

    text: str


class _NotClearError(Exception):
    """Ends the reading; the text is for the expert."""


def is_change(text: str) -> bool:
    """Tell whether a text begins like a change of a register: a word for it, then a number."""
    head = _HEAD.match(text)
    return head is not None and _NUMBERS.match(text, head.end()) is not None


def names_a_block(text: str) -> bool:
    """Tell whether a text begins like a change of a block, which is told by two numbers; 204-117 is one machine."""
    head = _HEAD.match(text)
    numbers = _NUMBERS.match(text, head.end()) if head else None
    if numbers is None or numbers["last"] is None:
        return False
    first, last = (_SPACING.sub("", numbers[name]) for name in ("first", "last"))
    return len(last) >= _SHORTEST and int(first) < int(last)


def read_change(text: str, knowledge: Knowledge) -> Wanted | Unclear:
    """Return what change of a register an expert's words mean, or what is not clear about it."""
    try:
        return _read(" ".join(text.split()), knowledge)
    except _NotClearError as fault:
        return Unclear(str(fault))


def _read(text: str, knowledge: Knowledge) -> Wanted:
    head = _HEAD.match(text)
    numbers = _NUMBERS.match(text, head.end()) if head else None
    if head is None or numbers is None:
        raise _NotClearError(f"I cannot read a change in that. {HOW}")
    verb = _VERBS[head[1].lower()]
    prefix, again = (numbers[name] or "" for name in ("prefix", "again"))
    if again and again.upper() != prefix.upper():
        raise _NotClearError(f"The two numbers have different letters, {prefix or 'none'} and {again}. {HOW}")
    first, last = (_SPACING.sub("", numbers[name] or "") for name in ("first", "last"))
    said = dict(_said(text[numbers.end() :]))
    listed = said.pop("list", "") or said.pop("register", "")
    wanted = Wanted(verb, "", prefix.upper(), first, last, (numbers["suffix"] or "").upper())
    register = _register(wanted, listed, knowledge)
    _must_have(verb, said)
    cells = {column: _value(column, words, register, knowledge) for column, words in said.items()}
    return Wanted(verb, register.id, wanted.prefix, first, last, wanted.suffix, cells)


def _said(rest: str) -> Iterator[tuple[str, str]]:
    """Yield the columns named and what is said of each.

    A column's name that comes again belongs to what is said: 'model Model 9', 'works Quay Works'.
    """
    marks: dict[str, re.Match[str]] = {}
    for one in _NAMED.finditer(rest):
        marks.setdefault(one[1].lower(), one)
    starts = [*(one.start() for one in marks.values()), len(rest)]
    before = rest[: starts[0]].strip(" ,;.")
    if before:
        raise _NotClearError(f"I do not know what to do with '{before}'. {HOW}")
    for (name, one), end in zip(marks.items(), starts[1:], strict=True):
        yield name, rest[one.end() : end].strip(" ,;")


def _must_have(verb: str, said: Mapping[str, str]) -> None:
    if verb == REMOVE and said:
        raise _NotClearError("To take a block out, write its numbers alone. To correct it, begin with 'change'.")
    if verb == CHANGE and not said:
        raise _NotClearError(f"What is to become of it? {HOW}")
    if verb == ADD and "date" not in said:
        raise _NotClearError("A new row needs a date. " + HOW)


def _register(wanted: Wanted, listed: str, knowledge: Knowledge) -> Register:
    """Return the list that is meant: the one named, or the only one that has the row or goes with it."""
    fitting = list(_fitting(wanted, knowledge))
    if listed:
        named = [one for one in _lists(knowledge) if fold(listed) in _names_of(one, knowledge)]
        named = named or [one for one in _lists(knowledge) if fold(listed) in fold(one.title)]
        if len(named) != 1:
            how_many = "Several lists go" if named else "No list goes"
            raise _NotClearError(f"{how_many} by the name '{listed}'. {_lists_are(knowledge)}")
        if wanted.verb != ADD and named[0] not in fitting:
            raise _NotClearError(_no_row(wanted, knowledge))
        return named[0]
    if len(fitting) != 1:
        if not fitting and wanted.verb != ADD:
            raise _NotClearError(_no_row(wanted, knowledge))
        raise _NotClearError(f"Which list is meant? Add it behind: list NAME. {_lists_are(knowledge)}")
    return fitting[0]


def _fitting(wanted: Wanted, knowledge: Knowledge) -> Iterator[Register]:
    """Yield the lists that have the row; for a new row those with numbers of the same letters."""
    kind = allocations.KIND if wanted.last else year_starts.KIND
    for one in _lists(knowledge):
        if one.kind != kind:
            continue
        blocks = _blocks(one, wanted, knowledge)
        if wanted.verb == ADD:
            if blocks:
                yield one
        elif any(block.first == wanted.first and block.last == (wanted.last or block.last) for block in blocks):
            yield one


def _blocks(register: Register, wanted: Wanted, knowledge: Knowledge) -> list[Block]:
    blocks = knowledge.blocks if register.is_of_serials else knowledge.introduced.get(register.id, knowledge.blocks)
    return blocks.in_issue_order(register.id, wanted.prefix, wanted.suffix)


def _no_row(wanted: Wanted, knowledge: Knowledge) -> str:
    ends = f"{wanted.prefix}{wanted.first}{wanted.suffix}"
    near = knowledge.covering(wanted.prefix, wanted.first, wanted.suffix)
    if wanted.last:
        text = f"No list has a block from {ends} to {wanted.prefix}{wanted.last}{wanted.suffix}."
    else:
        text = f"No list by first numbers has a row that begins with {ends}."
    told = [f"{one.prefix}{one.first}{one.suffix} to {one.prefix}{one.last}{one.suffix}" for one in near]
    return f"{text} There is {', and '.join(told)}." if told else f"{text} For a new one begin with 'add'."


def _lists(knowledge: Knowledge) -> list[Register]:
    return [one for one in knowledge.registers.values() if one.kind in (allocations.KIND, year_starts.KIND)]


def _names_of(register: Register, knowledge: Knowledge) -> set[str]:
    maker = knowledge.makers.get(register.maker)
    names = (register.id, register.title, register.maker, maker.name if maker else "")
    return {fold(name) for name in names if name}


def _lists_are(knowledge: Knowledge) -> str:
    return f"The lists are: {'; '.join(one.title or one.id for one in _lists(knowledge)[:20])}."


def _value(column: str, words: str, register: Register, knowledge: Knowledge) -> str:
    if not words:
        raise _NotClearError(f"The {column} is not told. For none write: {column} nothing.")
    if fold(words) in _NOTHING:
        return ""
    if column == "date":
        return _date(words, knowledge)
    if column in ("model", "works", "source"):
        return _id(column, words, register, knowledge)
    if column in ("quantity", "order", "first", "last"):
        figures = _SPACING.sub("", words)
        if not (figures.isascii() and figures.isdigit()):
            raise _NotClearError(f"'{words}' is no number for {column}. Write figures only.")
        return figures
    return words.upper() if column in ("prefix", "suffix") else words


def _date(words: str, knowledge: Knowledge) -> str:
    try:
        return edtf.parse(words).text
    except EdtfError:
        understood = understand(f"made {words}", knowledge)
    if not understood.date or understood.unclear:
        raise _NotClearError(f"I cannot read '{words}' as a date. Write it as 1891, 1891-03-02, 1891~ or 1890/1892.")
    return understood.date


def _id(column: str, words: str, register: Register, knowledge: Knowledge) -> str:
    """Return the id of what is named: by its id, or by a name that only one thing of the list's maker has."""
    things: Mapping[str, Any] = getattr(knowledge, {"model": "models", "works": "works", "source": "sources"}[column])
    if words in things:
        return words
    by_name = _titles(knowledge) if column == "source" else getattr(knowledge.names, f"{column.rstrip('s')}s")
    ids = by_name.get(fold(words)) or by_name.get(fold(f"{column} {words}")) or ()
    of_maker = [id_ for id_ in ids if getattr(things.get(id_), "maker", register.maker) == register.maker]
    if len(of_maker) != 1:
        how_many = "Several go" if of_maker else "None goes"
        raise _NotClearError(f"{how_many} by the name '{words}' ({column}). Write its id as in the pack.")
    return of_maker[0]


def _titles(knowledge: Knowledge) -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for id_, source in knowledge.sources.items():
        found[fold(source.title)] = (*found.get(fold(source.title), ()), id_)
    return found
