"""Packs that we write, and those that are shipped, judged by a reader of Data Packages that we did not make.

Source: the package `frictionless` 5, which validates descriptors, Table Schemas, keys and CSV after
https://datapackage.org. It runs offline.
"""

import json
from pathlib import Path

import frictionless
import pytest

from knowledge.packs import Pack, Table, read, write
from knowledge.sharing import exported
from tests.knowledge.sharing.groups import KEYS, a_finding, ours

SHIPPED = sorted(path.parent for path in (Path(__file__).parents[2] / "knowledge/shipped").glob("*/datapackage.json"))


def faults_for_frictionless(folder):
    report = frictionless.validate(str(folder / "datapackage.json"))
    return report.flatten(["rowNumber", "fieldName", "type"])


@pytest.mark.parametrize("folder", SHIPPED, ids=lambda path: path.name)
def test_shipped_packs_are_valid_as_they_are_and_as_we_write_them(folder, tmp_path):
    assert faults_for_frictionless(folder) == []
    pack, _ = read(folder)
    write(pack, tmp_path)
    assert faults_for_frictionless(tmp_path) == []


def test_a_written_pack_with_awkward_cells_is_valid_and_reads_the_same_for_both(tmp_path):
    names = ['Quote " mark', "comma, semicolon; tab\t", "line\nbreak", "Ünïcode Ωμ", "'=1+1"]
    makers = Table.of("makers", {"maker": [f"m{n}" for n in range(5)], "name": [name.strip() for name in names]})
    write(Pack.of("awkward", makers), tmp_path)
    assert faults_for_frictionless(tmp_path) == []
    with frictionless.Package(str(tmp_path / "datapackage.json")).get_resource("makers") as resource:
        theirs = [row["name"] for row in resource.row_stream]
    assert theirs == read(tmp_path)[0].tables["makers"].columns["name"]


def spoil_a_number(folder):
    text = (folder / "allocations.csv").read_text()
    (folder / "allocations.csv").write_text(text.replace("0200001", "2.00E+05", 1))
    return "constraint-error"


def spoil_a_key(folder):
    file = folder / "models.csv"
    head, row, *rest = file.read_text().splitlines(keepends=True)
    file.write_text("".join([head, row, row, *rest]))
    return "primary-key"


def spoil_a_reference(folder):
    file = folder / "registers.csv"
    text = file.read_text()
    file.write_text(text.replace(",ara,", ",nobody,", 1))
    return "foreign-key"


def spoil_a_row(folder):
    with (folder / "makers.csv").open("a") as file:
        file.write("one,two,three,four,five,six,seven,eight\n")
    return "extra-cell"


@pytest.mark.parametrize("spoil", [spoil_a_number, spoil_a_key, spoil_a_reference, spoil_a_row])
def test_what_our_schema_forbids_frictionless_finds_too(tmp_path, spoil):
    makers = Table.of("makers", {"maker": ["ara"], "name": ["Ara"]})
    models = Table.of("models", {"model": ["m1", "m2"], "maker": ["ara", "ara"]})
    registers = Table.of("registers", {"register": ["r"], "maker": ["ara"], "kind": ["allocations"]})
    blocks = {"register": ["r"], "first": ["0200001"], "last": ["0225000"], "date": ["1921"], "model": ["m1"]}
    write(Pack.of("small", makers, models, registers, Table.of("allocations", blocks)), tmp_path)
    assert faults_for_frictionless(tmp_path) == []
    expected = spoil(tmp_path)
    assert expected in [fault[-1] for fault in faults_for_frictionless(tmp_path)]


def test_the_descriptor_names_version_2_and_every_field_is_text(tmp_path):
    write(Pack.of("small", Table.of("makers", {"maker": ["ara"]})), tmp_path)
    said = json.loads((tmp_path / "datapackage.json").read_text())
    assert said["$schema"] == "https://datapackage.org/profiles/2.0/datapackage.json"
    for resource in frictionless.Package(str(tmp_path / "datapackage.json")).resources:
        assert {field.type for field in resource.schema.fields} == {"string"}


def test_an_export_of_findings_is_valid(tmp_path):
    made, _ = exported(ours(a_finding(), a_finding(KEYS[1], "K0204117", evidence='a "bill", of sale')), "Hallow circle")
    write(made, tmp_path)
    assert faults_for_frictionless(tmp_path) == []
