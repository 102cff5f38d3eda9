"""How often people make which mistake, for people to read: what was assumed, what was seen, what is believed."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from rich.box import SIMPLE_HEAD
from rich.console import Console
from rich.table import Table
from rich.text import Text

from knowledge.mistakes import Belief, Learned
from knowledge.packs import counted
from knowledge.weights import MISTAKES, NONE, PRIOR, Weight

WIDEST = 100
_NOTHING = "No settled case shows yet what people get wrong, so answers rest on what is assumed."
_SEEN = (
    "Seen: so many of these cases turned out to be that mistake. Expected: so many would have, were the assumed share "
    f"right. Believed: the share that answers rest on, where what was assumed counts for {PRIOR.value:.0f} cases more. "
    "Easy questions never become cases, so what is expected differs from the share of all questions."
)


class Line(NamedTuple):
    """One mistake: its name, its assumed weight, and what is believed of it."""

    name: str
    weight: Weight
    belief: Belief

    @property
    def believed(self) -> float:
        """The share that answers rest on."""
        return self.weight.value * self.belief.factor


def lines(learned: Learned) -> Iterator[Line]:
    """Yield every mistake of the table of weights, then every kind of 'none of these'."""
    unseen = Belief(0, 0.0, 1.0)
    for name, weight in {**MISTAKES, **NONE}.items():
        yield Line(name, weight, learned.beliefs.get(name, unseen))


def as_json(learned: Learned) -> dict[str, Any]:
    """Return it for programs; shares are within 0 to 1, `expected` a number of cases."""
    return {
        "cases": learned.cases,
        "assumed_counts_for": PRIOR.value,
        "mistakes": [
            {
                "mistake": one.name, "words": one.weight.meaning, "assumed": round(one.weight.value, 6),
                "origin": one.weight.origin, "seen": one.belief.seen, "expected": round(one.belief.expected, 3),
                "believed": round(one.believed, 6),
            }
            for one in lines(learned)
        ],
    }  # fmt: skip


def show(learned: Learned, console: Console) -> None:
    """Print the table, at any width from 60 columns."""
    width = min(console.width, WIDEST)
    head = f"What {counted(learned.cases, 'settled case')} taught about mistakes" if learned else _NOTHING
    console.print(Text(head), width=width)
    console.print()
    console.print(_table(learned), width=width, crop=False)
    if learned:
        console.print()
        console.print(Text(_SEEN), width=width)


def _table(learned: Learned) -> Table:
    table = Table(box=SIMPLE_HEAD, pad_edge=False, padding=(0, 2, 0, 0), show_edge=False)
    table.add_column("Mistake", overflow="fold")
    for head in ("Assumed", "Seen", "Expected", "Believed") if learned else ("Assumed",):
        table.add_column(head, justify="right", no_wrap=True)
    for one in lines(learned):
        if one.name == next(iter(NONE)):
            table.add_section()
        counts = (str(one.belief.seen), f"{one.belief.expected:.1f}", share(one.believed)) if learned else ()
        table.add_row(Text(one.weight.meaning), share(one.weight.value), *counts)
    return table


def share(value: float) -> str:
    """Return a share in percent, with as many digits as tell something.

    >>> share(0.35), share(0.056), share(0.0064)
    ('35 %', '5.6 %', '0.64 %')
    """
    digits = 0 if value >= 0.0995 else 1 if value >= 0.00995 else 2
    return f"{100 * value:.{digits}f} %"
