"""A small invented pack: one maker with letter K in six, seven and zero-led seven digits, one with a plain count."""

from pathlib import Path

import pytest

from knowledge.base import Knowledge
from knowledge.packs import Pack, Table, write


def table(name: str, head: str, *rows: str) -> Table:
    cells = [row.split("|") for row in rows]
    columns = {column: [row[place] for row in cells] for place, column in enumerate(head.split("|"))}
    return Table.of(name, columns)


PACK = Pack.of(
    "tollgate",
    table(
        "makers",
        "maker|name|aliases|where|drawing",
        "tollgate|Tollgate & Sons|Tollgate|Stamped into the bed, near the pillar.|drawings/bed.svg",
        "ambersee|Ambersee||Stamped underneath. Unplug it first.|",
    ),
    table(
        "works",
        "works|maker|name",
        "mill|tollgate|Upper Mill",
        "quay|tollgate|Quay Works",
        "see|ambersee|Werk Ambersee",
    ),
    table(
        "models",
        "model|maker|name|shuttle|needle|drive|source",
        "t6|tollgate|Model 6|boat-shaped|long, No. 2|treadle|ledger",
        "t9|tollgate|Model 9|bullet-shaped|round shank|electric motor|ledger",
        "t23|tollgate|Model 23|round|flat shank|treadle|ledger",
    ),
    table(
        "registers",
        "register|maker|kind|title|object|to|source",
        "t-ledger|tollgate|allocations|Tollgate ledger|allocation||ledger",
        "a-years|ambersee|year-starts|Ambersee years|manufacture|90000|yearbook",
    ),
    table(
        "allocations",
        "register|order|prefix|first|last|date|model|works|quantity|source",
        "t-ledger|1|K|200001|225000|1890-03-02|t6|mill|25000|ledger",
        "t-ledger|2|K|225001|240000|1891|t6|mill|15000|ledger",
        "t-ledger|3|K|3000000|3000999|1910/1919|t23|mill||ledger",
        "t-ledger|4|K|0200001|0225000|1921-03-02|t9|quay|25000|ledger",
    ),
    table(
        "year-starts",
        "register|prefix|first|date|works|source",
        "a-years||1|1880|see|yearbook",
        "a-years||40000|1890|see|yearbook",
        "a-years||80000|1900|see|yearbook",
    ),
    table(
        "sources",
        "source|title|author|year|reliability",
        "ledger|Ledger of the Upper Mill (invented)|The group|1890|good",
        "yearbook|Ambersee yearbook (invented)|Ambersee|1901|fair",
    ),
)


@pytest.fixture(scope="session")
def pack() -> Pack:
    return PACK


@pytest.fixture(scope="session")
def knowledge() -> Knowledge:
    return Knowledge.of([PACK])


@pytest.fixture
def pack_folder(tmp_path: Path) -> Path:
    folder = tmp_path / "tollgate"
    write(PACK, folder)
    (folder / "drawings").mkdir()
    (folder / "drawings" / "bed.svg").write_text("<svg xmlns='http://www.w3.org/2000/svg'/>")
    return folder
