"""Writes deploy/packs.md, the page of all tables and columns of a pack, from the format itself.

python -m deploy.packs_page
"""

from pathlib import Path

from knowledge.packs.tables import SCHEMAS, Column, Schema

PAGE = Path(__file__).with_name("packs.md")

INTRODUCTION = """\
# The tables of a pack

Written by `python -m deploy.packs_page`; change `knowledge/packs/tables.py`, not this page.

A pack is a folder with `datapackage.json` and CSV files in UTF-8. Every cell is text, numbers too: a spreadsheet
that takes them for numbers eats their leading zeros. Dates are EDTF: `1912`, `1912-01`, `1912-01-08`, `1912~`
(about), `1910/1912`; a season is written as its months, `1912-03/1912-05`. Lists inside a cell are separated by `;`.
Columns that are not listed here are kept and ignored, with a warning. Columns in **bold** must be filled; the others
may be empty or left out, and so may files unless it says otherwise.
"""


def page() -> str:
    """Return the whole page, in Markdown."""
    return INTRODUCTION + "".join(_table(name, schema) for name, schema in SCHEMAS.items())


def _table(name: str, schema: Schema) -> str:
    needed = " Every pack has this file, but one of findings or sightings alone." if schema.required else ""
    rows = "".join(_row(name, column) for name, column in schema.columns.items())
    return f"\n## {name}.csv\n\n{schema.about}.{needed}\n\n| column | what it holds |\n| --- | --- |\n{rows}"


def _row(name: str, column: Column) -> str:
    shown = f"**{name}**" if column.required else name
    return f"| {shown} | {column.about}{_allowed(column)} |\n"


def _allowed(column: Column) -> str:
    if column.refers:
        return f" (one of {column.refers}.csv)"
    return f" ({', '.join(f'`{word}`' for word in column.words)})" if column.words else ""


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
