"""All faults of a pack at once: in order, without end, and without a crash on any content."""

from hypothesis import given
from hypothesis import strategies as st

from knowledge.packs import SCHEMAS, Pack, Table, check
from knowledge.packs.faults import KINDS

A = "allocations.csv"


def test_faults_come_by_file_and_row(folder, sound):
    spoiled = sound[A].replace("1910", "soon").replace("1905", "then")
    folder.write(sound | {A: spoiled, "makers.csv": sound["makers.csv"] + "ara,Again\n", "sources.csv": b""})
    found = [(one.file, one.row) for one in folder.faults()]
    assert found == [("makers.csv", 4), (A, 2), (A, 7), ("sources.csv", None)]


def test_ten_thousand_faults_are_all_told(folder):
    rows = (f"ledger,{n},K,{n}0,{n}9,,c. 1905,m{n},north,11,bok{n}," for n in range(1, 10_001))
    found = folder.with_rows(A, *rows)
    counts = {code: sum(one.code == code for one in found) for code in {one.code for one in found}}
    assert counts == dict.fromkeys(("bad-date", "unknown-source", "quantity-differs"), 10_000) | {
        "unknown-model": 9_999
    }


CELLS = st.sampled_from(["", "a", "K", "1", "01", "10", "1910", "1900/1910", "soon", "year-starts", "date-code", "year",
                         "month", "digits", "²", "-", "1-2", "9" * 30])  # fmt: skip


@st.composite
def packs(draw):
    made = []
    for name, schema in SCHEMAS.items():
        size = draw(st.integers(0, 4))
        made.append(
            Table.of(name, {column: draw(st.lists(CELLS, min_size=size, max_size=size)) for column in schema.columns})
        )
    return Pack.of("any", *made)


@given(packs())
def test_any_content_is_checked_without_a_crash(pack):
    for fault in check(pack):
        table = pack.tables[fault.file.removesuffix(".csv")]
        assert fault.row is None or fault.row in table.row_numbers
        assert fault.column is None or fault.column in table.columns
        assert fault.code in KINDS
        assert fault.text.endswith((".", "?"))
