"""A list by first numbers holds only when dates follow numbers. Those of the RFC series do not.

Source: the index of the RFC Editor, https://www.rfc-editor.org/rfc-index.html; the three dates here are
from memory.
"""

import json

import pytest

from knowledge.packs import PackFaults, faults_of, load

IN_ORDER = ["requests,,999,1987-04", "requests,,1010,1987-05"]
OUT_OF_ORDER = ["requests,,999,1987-04", "requests,,1000,1987-08", "requests,,1001,1987-03"]


@pytest.fixture
def folder(tmp_path):
    """Return a function that writes a pack of year starts and gives its folder."""

    def write(rows):
        tables = ("makers", "registers", "year-starts")
        described = {"name": "requests", "resources": [{"name": name, "path": f"{name}.csv"} for name in tables]}
        (tmp_path / "datapackage.json").write_text(json.dumps(described), encoding="utf-8")
        (tmp_path / "makers.csv").write_text("maker,name\nm,Any\n", encoding="utf-8")
        register = "register,maker,kind,from,to\nrequests,m,year-starts,1969,9999999\n"
        (tmp_path / "registers.csv").write_text(register, encoding="utf-8")
        rows = "\n".join(["register,prefix,first,date", *rows, ""])
        (tmp_path / "year-starts.csv").write_text(rows, encoding="utf-8")
        return tmp_path

    return write


def faults_in_years(folder):
    return [fault for fault in faults_of(folder)[1] if fault.file == "year-starts.csv"]


def test_a_year_list_whose_dates_do_not_follow_its_numbers_is_named_with_the_row(folder):
    faults = faults_in_years(folder(OUT_OF_ORDER))
    assert 4 in {fault.row for fault in faults}
    assert any(fault.column == "date" for fault in faults)


def test_such_a_list_is_refused(folder):
    with pytest.raises(PackFaults):
        load(folder(OUT_OF_ORDER))


def test_a_list_in_order_is_no_fault(folder):
    assert faults_in_years(folder(IN_ORDER)) == []
