"""Ids that lead nowhere, in every direction, and ids given twice."""

import pytest

from knowledge.packs.tables import SCHEMAS

REFERENCES = [
    (name, column) for name, schema in SCHEMAS.items() for column, spec in schema.columns.items() if spec.refers
]


@pytest.mark.parametrize(("name", "column"), REFERENCES)
def test_an_id_that_is_in_no_file_is_told_wherever_it_stands(folder, sound, name, column):
    head, row, *rest = sound.get(f"{name}.csv").split("\n")
    heads, cells = head.split(","), row.split(",")
    if column not in heads:
        heads.append(column)
        cells.append("")
        rest = [line + "," if line else line for line in rest]
    cells[heads.index(column)] = "nobody"
    folder.write(sound | {f"{name}.csv": "\n".join([",".join(heads), ",".join(cells), *rest])})
    kind = {"makers": "maker", "works": "works", "models": "model", "registers": "register", "sources": "source"}
    code = f"unknown-{kind[SCHEMAS[name].columns[column].refers]}"
    found = [(one.file, one.row, one.column, one.severity) for one in folder.faults() if one.code == code]
    severity = "error" if code in ("unknown-maker", "unknown-register") else "warning"
    assert found == [(f"{name}.csv", 2, column, severity)]


def test_every_row_with_an_unknown_id_is_told(folder, sound):
    folder.write(sound | {"allocations.csv": sound["allocations.csv"].replace("m1", "m9")})
    assert [one.row for one in folder.faults() if one.code == "unknown-model"] == [2, 3, 4, 5, 6, 7]


def test_a_nearly_right_id_is_suggested(folder):
    found = folder.spoiled("allocations.csv", "1905,m1", "1905,M1")
    assert "Did you mean 'm1'?" in found[0].text


def test_a_file_that_is_not_there_is_told_once_for_each_id(folder, sound):
    folder.write({name: text for name, text in sound.items() if name != "models.csv"})
    found = [one for one in folder.faults() if one.code == "unknown-model"]
    assert [(one.row, one.column) for one in found] == [(2, "model")]
    assert "5 more rows say so" in found[0].text


def test_a_file_that_could_not_be_read_raises_no_echo(folder, sound):
    folder.write(sound | {"models.csv": b"PK\x03\x04"})
    assert [one.code for one in folder.faults()] == ["not-csv"]


def test_several_sources_are_separated_by_semicolons(folder, sound):
    sources = sound["sources.csv"] + "letters,Letters,1951\n"
    rows = sound["allocations.csv"].replace("10000,book", "10000,book; letters")
    folder.write(sound | {"sources.csv": sources, "allocations.csv": rows})
    assert folder.faults() == []
    folder.write(sound | {"sources.csv": sources, "allocations.csv": rows.replace("; letters", "; leters", 1)})
    found = folder.faults()
    assert [(one.code, one.row) for one in found] == [("unknown-source", 2)]
    assert "'leters'" in found[0].text


@pytest.mark.parametrize("name", [name for name, schema in SCHEMAS.items() if schema.unique])
def test_a_key_given_twice_is_an_error_in_the_second_row(folder, sound, name):
    head, row, *rest = sound[f"{name}.csv"].split("\n")
    folder.write(sound | {f"{name}.csv": "\n".join([head, row, row, *rest])})
    found = [(one.row, one.column, one.severity) for one in folder.faults() if one.code == "duplicate-key"]
    assert found == [(3, SCHEMAS[name].key[-1], "error")]


@pytest.mark.parametrize("name", ["allocations", "code-tables", "prefixes", "other-marks"])
def test_a_row_given_twice_is_a_warning_in_the_second_row(folder, sound, name):
    head, row, *rest = sound[f"{name}.csv"].split("\n")
    folder.write(sound | {f"{name}.csv": "\n".join([head, row, row, *rest])})
    found = [(one.code, one.row, one.column, one.severity) for one in folder.faults()]
    assert found == [("double-row", 3, None, "warning")]


def test_works_of_another_maker_are_told_once_for_each_register(folder, sound):
    folder.write(sound | {"allocations.csv": sound["allocations.csv"].replace("north", "belworks")})
    found = [(one.row, one.column) for one in folder.faults() if one.code == "other-maker"]
    assert found == [(2, "works")]
