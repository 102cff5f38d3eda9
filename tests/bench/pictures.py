"""Pictures: how many a second, what the number of blocks costs, and how much of it is Pillow's own share.

`python -m tests.bench.pictures` runs this table alone.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from datetime import date, timedelta
from io import BytesIO

from bot.pictures import lay_out, render
from knowledge.answer import Answer, answer
from knowledge.base import Knowledge
from knowledge.packs.tables import Pack, Table
from tests.bench.measure import each, in_turns, resident, show

ASKED_A_SECOND = 25
_SIZES = (1, 1_000, 3_000, 10_000)
_TURNS = 20


def run() -> bool:
    """Print the table; return whether everything asked for is met."""
    asked = {size: _asked(size) for size in _SIZES}
    calls: dict[str, Callable[[object], object]] = {f"{size} blocks": _drawing(*asked[size]) for size in _SIZES}
    calls["layout alone"] = lambda _: lay_out(*asked[1_000])
    calls["svg"] = lambda _: render(*asked[1_000], "svg")
    calls["empty page"] = lambda _: _empty_page()
    spent = in_turns(calls, {name: range(_TURNS) for name in calls})
    thousand = spent["1000 blocks"]
    slow = each(lambda _: render(*asked[1_000]), range(100)).percentile(0.99)
    before = resident()
    for _ in range(100):
        render(*asked[10_000])
    grown = resident() - before
    return show(
        "Pictures (PNG of 1000 by 640, two works in turn, on one core)",
        [
            ("pictures a second at 1,000 blocks", f"{1 / thousand:.0f}", f">= {ASKED_A_SECOND}", thousand <= 0.04),
            ("milliseconds at 1,000 blocks, median", f"{thousand * 1e3:.1f}", "<= 40", thousand <= 0.04),
            ("milliseconds at 1,000 blocks, 99th percentile", f"{slow * 1e3:.1f}", "", None),
            *(
                (f"{size:,} blocks to 1,000 blocks", f"{spent[f'{size} blocks'] / thousand:.2f}", "", None)
                for size in _SIZES
                if size != 1_000
            ),
            ("1,000 blocks to an empty page by Pillow alone", f"{thousand / spent['empty page']:.2f}", "", None),
            ("the layout's share of it", f"{spent['layout alone'] / thousand:.2f}", "", None),
            ("SVG to PNG", f"{spent['svg'] / thousand:.2f}", "", None),
            ("kilobytes of the PNG at 10,000 blocks", f"{len(render(*asked[10_000])) / 1e3:.0f}", "< 60", None),
            ("megabytes grown over 100 pictures of 10,000 blocks", f"{grown:.1f}", "<= 5", grown <= 5),
        ],
    )


def _drawing(found: Answer, knowledge: Knowledge) -> Callable[[object], object]:
    return lambda _: render(found, knowledge)


def _asked(size: int) -> tuple[Answer, Knowledge]:
    rows = [_row(place) for place in range(size)]
    columns = ("register", "order", "prefix", "first", "last", "date", "model", "works")
    pack = Pack.of(
        "bench",
        Table.of("makers", {"maker": ["m"], "name": ["Tillerby & Sons"]}),
        Table.of("works", {"works": ["a", "b"], "name": ["Lower Mill", "Quayside Works"]}),
        Table.of("registers", {"register": ["r"], "maker": ["m"], "kind": ["allocations"]}),
        Table.of("allocations", {column: [row[place] for row in rows] for place, column in enumerate(columns)}),
    )
    knowledge = Knowledge.of([pack])
    return answer(f"serial number Q{10_000_000 + size * 500}", knowledge), knowledge


def _row(place: int) -> tuple[str, ...]:
    first = 10_000_000 + place * 1_000
    day = date(1870, 1, 1) + timedelta(days=3 * place)
    return "r", str(place), "Q", str(first), str(first + 999), day.isoformat(), "", "ab"[place % 2]


def _empty_page() -> bytes:
    from PIL import Image

    file = BytesIO()
    page = Image.new("RGB", (2000, 1280), "#ffffff").reduce(2)
    page.quantize(16).save(file, "PNG", compress_level=6)
    return file.getvalue()


if __name__ == "__main__":
    sys.exit(0 if run() else 1)
