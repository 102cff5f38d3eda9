"""Writing a pack: the same pack comes back, whatever it holds."""

import json
import tempfile
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from knowledge.packs import SCHEMAS, Pack, Table, faults_of, read, write

# White space at the ends of a cell does not survive reading, nor do NUL characters and lone halves of surrogate pairs.
CELLS = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0\ufeff"), max_size=6).map(str.strip)
NAMES = st.text("abcdefghijklmnopqrstuvwxyz -", min_size=1, max_size=8).map(str.strip).filter(bool)


@st.composite
def tables(draw, name):
    schema = SCHEMAS[name].columns
    extra = [column for column in draw(st.lists(NAMES, max_size=2, unique=True)) if column not in schema]
    size = draw(st.integers(0, 4))
    columns = {column: draw(st.lists(CELLS, min_size=size, max_size=size)) for column in [*schema, *extra]}
    for column, spec in schema.items():
        if spec.holds == "letters":
            columns[column] = ["K"] * size
    columns[next(iter(schema))] = [f"id{place}" for place in range(size)]  # a row of empty cells is a blank row
    return Table.of(name, columns)


@st.composite
def packs(draw):
    chosen = draw(st.lists(st.sampled_from(list(SCHEMAS)), unique=True))
    more = draw(st.dictionaries(st.sampled_from(["licenses", "description"]), CELLS))
    return Pack.of(
        draw(NAMES), *(draw(tables(name)) for name in chosen), title=draw(CELLS), version=draw(CELLS), more=more
    )


@given(packs())
def test_what_is_written_reads_back_the_same(pack):
    with tempfile.TemporaryDirectory() as folder:
        write(pack, Path(folder))
        again, faults = read(Path(folder))
    assert again == pack
    assert {one.code for one in faults} <= {"unknown-column"}


def test_a_sound_pack_is_written_without_faults_and_without_empty_columns(folder, sound, tmp_path):
    folder.write(sound)
    pack, _ = read(folder.path)
    write(pack, tmp_path / "new" / "pack")
    again, faults = faults_of(tmp_path / "new" / "pack")
    assert faults == []
    assert again == pack
    assert (tmp_path / "new" / "pack" / "makers.csv").read_bytes() == b"maker,name\nara,Ara & Sons\nbel,Bel\n"


def test_only_tables_with_content_and_the_needed_ones_are_written(tmp_path):
    write(Pack.of("empty"), tmp_path)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["datapackage.json", "makers.csv", "registers.csv"]
    assert (tmp_path / "registers.csv").read_text() == "register,maker,kind\n"


def test_files_of_tables_that_are_gone_are_removed_and_others_stay(folder, sound):
    folder.write(sound | {"letters.txt": "kept"})
    pack, _ = read(folder.path)
    few = [table for name, table in pack.tables.items() if name != "prefixes"]
    write(Pack.of("small", *few), folder.path)
    assert not (folder.path / "prefixes.csv").exists()
    assert (folder.path / "letters.txt").read_text() == "kept"
    assert folder.faults() == []


def test_the_descriptor_gives_keys_only_where_they_hold(folder, sound):
    folder.write(sound | {"allocations.csv": sound["allocations.csv"].replace("1905,m1", "1905,m9")})
    pack, _ = read(folder.path)
    write(pack, folder.path)
    resources = {one["name"]: one for one in json.loads((folder.path / "datapackage.json").read_text())["resources"]}
    assert resources["makers"]["schema"]["primaryKey"] == ["maker"]
    referred = {key["reference"]["resource"] for key in resources["allocations"]["schema"]["foreignKeys"]}
    assert referred == {"registers", "works", "sources"}
    assert {field["type"] for one in resources.values() for field in one["schema"]["fields"]} == {"string"}
