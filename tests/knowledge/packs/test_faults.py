"""Every code of the table of faults is provoked here, by one change to a sound pack, and found in its place."""

import json

import pytest

from knowledge.packs import PackFaults, faults_of, load
from knowledge.packs.faults import KINDS, Fault, fault, quoted

A, Y, D, R, F = "allocations.csv", "year-starts.csv", "date-codes.csv", "registers.csv", "findings.csv"
TWO_MAKERS = "maker,name\nara,Ara & Sons\nbel,Bel"
# code, then file, old text and new text of the change, then row and column of the fault in the same file
CHANGES = [
    ("not-csv", "works.csv", "works,maker", b"PK\x03\x04\x14\x00", None, None),
    ("wrong-encoding", "makers.csv", "Ara & Sons", "Ära".encode("latin-1"), 2, None),
    ("nul-bytes", "makers.csv", "Ara & Sons", b"Ar\0a", 2, None),
    ("half-written", "sources.csv", "book,The book,1950~\n", "book,The b", 2, None),
    ("broken-quotes", "makers.csv", "bel,Bel", 'bel,"Bel', 3, None),
    ("wrong-delimiter", "makers.csv", "maker,name\nara,Ara & Sons", "maker;name\nara;Ara", None, None),
    ("unknown-column", "makers.csv", TWO_MAKERS, "maker,name,hue\nara,A,r\nbel,B,g", 1, "hue"),
    ("missing-column", A, "last", "lst", 1, "last"),
    ("double-column", A, "note", "date", 1, "date"),
    ("nameless-column", "makers.csv", TWO_MAKERS, "maker,name,\nara,A,\nbel,B,x", 3, None),
    ("too-many-cells", A, "1905,m1", "1,905,m1", 2, None),
    ("too-few-cells", A, "1905,m1,", "1905,", 2, None),
    ("no-rows", "makers.csv", "\nara,Ara & Sons\nbel,Bel\n", "\n", None, None),
    ("missing-cell", A, "1906", "", 3, "date"),
    ("no-name", "models.csv", "Bel 1", "", 3, "name"),
    ("unknown-word", R, "year-starts", "year starts", 3, "kind"),
    ("bad-number", A, "980001", "K980001", 2, "first"),
    ("spreadsheet-number", A, "980001", "9.80E+05", 2, "first"),
    ("number-separators", A, "980001", '"980,001"', 2, "first"),
    ("foreign-digits", A, "980001", "٩٨٠٠٠١", 2, "first"),
    ("long-number", A, "980001", "9" * 19, 2, "first"),
    ("bad-letters", A, "ledger,1,K", "ledger,1,K-", 2, "prefix"),
    ("lower-case", A, "ledger,1,K", "ledger,1,k", 2, "prefix"),
    ("foreign-letters", A, "ledger,1,K", "ledger,1,К", 2, "prefix"),
    ("bad-date", A, "1905,", "c. 1905,", 2, "date"),
    ("unused-edtf", A, "1905,", "1905-21,", 2, "date"),
    ("odd-year", "sources.csv", "1950~", "about 1950", 2, "year"),
    ("from-after-to", "works.csv", "North Works,1900,1950", "North Works,1950,1900", 2, "from"),
    ("duplicate-key", "models.csv", "b1,bel", "m1,bel", 3, "model"),
    ("double-row", A, "2,K,990001,999999,,1906,m1,north,9999", "2,K,980001,990000,,1905,m1,north,10000", 3, None),
    ("unknown-register", A, "ledger,1", "lodger,1", 2, "register"),
    ("unknown-maker", R, "ledger,ara", "ledger,arra", 2, "maker"),
    ("unknown-table", D, "months", "moons", 4, "table"),
    ("unknown-model", A, "1905,m1", "1905,m9", 2, "model"),
    ("unknown-works", A, "m1,north,10000", "m1,south,10000", 2, "works"),
    ("unknown-source", A, "north,10000,book", "north,10000,bok", 2, "source"),
    ("other-maker", A, "1905,m1", "1905,b1", 2, "model"),
    ("other-kind", Y, "years,,900", "ledger,,900", 3, "register"),
    ("empty-register", R, "code,bel", "spare,bel,allocations,allocation,,,\ncode,bel", 4, None),
    ("no-object", R, "date-code,manufacture", "date-code,", 4, "object"),
    ("no-years", R, "1920,1949", "1920,", 4, "to"),
    ("missing-drawing", "makers.csv", TWO_MAKERS, "maker,drawing,name\nara,arm,Ara\nbel,,Bel", 2, "drawing"),
    ("open-end", R, "1900,1915", "1900,", 3, "to"),
    ("outside-register", R, "1900,1950", "1906,1950", None, "date"),
    ("first-after-last", A, "980001,990000", "990000,980001", 2, "first"),
    ("unequal-digits", A, "0020001,0030000", "0020001,10030000", 7, "first"),
    ("lost-zero", A, "0020001,", "20001,", 7, "first"),
    ("perhaps-lost-zero", A, "0010001,0020000", "510001,520000", 6, "first"),
    ("overlap", A, "990001", "989001", 3, "first"),
    ("gap", A, "0020001", "0021001", 7, "first"),
    ("quantity-differs", A, "9999,book", "9000,book", 3, "quantity"),
    ("part-order", A, "ledger,3", "ledger,", 4, "order"),
    ("double-order", A, "ledger,3", "ledger,2", 4, "order"),
    ("dates-backwards", A, "1909", "1905", 6, "date"),
    ("model-withdrawn", A, "1910", "1931", 7, "model"),
    ("model-not-introduced", A, "1905,m1", "1901,m1", 2, "model"),
    ("works-closed", A, "1910", "1951", 7, "works"),
    ("numbers-backwards", Y, "900", "90000", 4, "first"),
    ("years-backwards", Y, "1903", "1900", 4, "date"),
    ("to-before-last", R, "1900,1915", "1900,11999", 3, "to"),
    ("missing-part", D, "code,3", "code,5", 5, "part"),
    ("bad-length", D, "1-3", "up to 3", 5, "length"),
    ("code-length", "code-tables.csv", "months,01", "months,JAN", 2, "code"),
    ("code-characters", D, "2,any", "2,digits", None, "code"),
    ("bad-constant", D, ",C,", ",CC,", 2, "constant"),
    ("missing-table", D, "any,month,months", "letters,month,", 4, "table"),
    ("unused-table", "code-tables.csv", "months,01,1,,", "months,01,1,,\nmoons,01,1,,", 3, "table"),
    ("bad-value", "code-tables.csv", "months,01,1", "months,01,13", 2, "value"),
    ("means-twice", D, "digits,sequence", "digits,month", 5, "means"),
    ("day-without-month", D, "any,month,months", "any,day,months", 4, "means"),
    ("no-year", D, "digits,year", "digits,sequence", 2, None),
    ("bad-key", F, "a" * 32, "A" * 32, 2, "finding"),
    ("bad-author", F, "an expert of the North circle,2026-11-25", "expert 3,2026-11-25", 2, "author"),
    ("bad-time", F, "2026-11-25T14:03:00Z", "2026-11-25", 2, "settled"),
    ("digits-differ", F, "0000117,,7", "0000117,,6", 2, "number"),
    ("names-somebody", F, "ledger p. 40", "ada@example.org has the bill", 2, "evidence"),
    ("says-nothing", "prefixes.csv", "1905/1910,north", ",", 2, None),
]  # fmt: skip
IN_THE_OTHER_FILE = {
    "outside-register": (A, 2),
    "code-characters": ("code-tables.csv", 3),
}


@pytest.mark.parametrize(
    ("code", "file", "old", "new", "row", "column"), CHANGES, ids=[change[0] for change in CHANGES]
)
def test_one_change_to_a_sound_pack_is_found_where_it_was_made(folder, code, file, old, new, row, column):
    found = folder.spoiled(file, old, new)
    place = (*IN_THE_OTHER_FILE.get(code, (file, row)), column)
    assert place in [(one.file, one.row, one.column) for one in found if one.code == code]


def test_a_sound_pack_has_no_fault(folder, sound):
    folder.write(sound)
    assert folder.faults() == []
    assert load(folder.path).name == "small"


def _no_folder(path):
    return path / "nowhere"


def _no_descriptor(path):
    (path / "datapackage.json").unlink()
    return path


def _descriptor(**changes):
    def change(path):
        file = path / "datapackage.json"
        said = json.loads(file.read_text()) | changes
        file.write_text(json.dumps({key: value for key, value in said.items() if value is not None}))
        return path

    return change


def _half_a_descriptor(path):
    text = (path / "datapackage.json").read_text()
    (path / "datapackage.json").write_text(text[: len(text) // 2])
    return path


def _empty_file(path):
    (path / "makers.csv").write_bytes(b"")
    return path


def _a_folder_for_a_file(path):
    (path / "makers.csv").unlink()
    (path / "makers.csv").mkdir()
    return path


def _gone(path):
    (path / "makers.csv").unlink()
    return path


MAKERS = {"name": "makers", "path": "makers.csv"}
OF_THE_FOLDER = [
    ("no-folder", _no_folder, None),
    ("no-descriptor", _no_descriptor, "datapackage.json"),
    ("bad-descriptor", _half_a_descriptor, "datapackage.json"),
    ("no-pack-name", _descriptor(name=None), "datapackage.json"),
    ("unsafe-path", _descriptor(resources=[{"name": "makers", "path": "../makers.csv"}]), "datapackage.json"),
    ("missing-file", _gone, "makers.csv"),
    (
        "number-type",
        _descriptor(resources=[{**MAKERS, "schema": {"fields": [{"name": "maker", "type": "integer"}]}}]),
        "datapackage.json",
    ),
    ("unlisted-file", _descriptor(resources=[MAKERS]), "works.csv"),
    ("unknown-file", _descriptor(resources=[MAKERS, {"name": "photos", "path": "photos.csv"}]), "datapackage.json"),
    ("double-file", _descriptor(resources=[MAKERS, {"name": "makers", "path": "more.csv"}]), "datapackage.json"),
    ("unreadable-file", _a_folder_for_a_file, "makers.csv"),
    ("empty-file", _empty_file, "makers.csv"),
]


@pytest.mark.parametrize(("code", "change", "file"), OF_THE_FOLDER, ids=[case[0] for case in OF_THE_FOLDER])
def test_one_change_to_the_folder_is_found(folder, sound, code, change, file):
    folder.write(sound)
    path = change(folder.path)
    found = [one for one in faults_of(path)[1] if one.code == code]
    assert found
    assert {(one.file, one.row, one.column) for one in found} >= {(file or str(path), None, None)}


def test_every_kind_of_fault_is_provoked_above():
    assert {case[0] for case in CHANGES} | {case[0] for case in OF_THE_FOLDER} == KINDS.keys()


@pytest.mark.parametrize("code", KINDS)
def test_every_kind_says_what_it_means_and_what_to_do(code):
    kind = KINDS[code]
    assert kind.meaning.endswith(".")
    assert kind.todo.endswith(".")
    assert set(code) <= set("abcdefghijklmnopqrstuvwxyz-")


def test_a_fault_is_told_with_its_place():
    one = fault("gap", "Numbers are missing.", "allocations.csv", 7, "first")
    assert str(one) == "allocations.csv, row 7, first: Numbers are missing."
    assert str(fault("empty-file", "It is empty.", "works.csv")) == "works.csv: It is empty."
    assert one.as_json() == {
        "file": "allocations.csv", "row": 7, "column": "first", "code": "gap", "text": "Numbers are missing.",
    }  # fmt: skip


def test_a_pack_with_an_error_is_not_loaded_and_the_message_tells_the_errors(folder):
    folder.spoiled(A, "1906", "soon")
    with pytest.raises(PackFaults, match=r"allocations\.csv, row 3, date: 'soon' is no date") as refused:
        load(folder.path)
    assert [one.code for one in refused.value.faults] == ["bad-date"]
    assert refused.value.exit_code == 1


def test_a_pack_with_warnings_alone_is_loaded(folder):
    assert [one.severity for one in folder.spoiled(A, "1910", "1931")] == ["warning"]
    assert len(load(folder.path).tables["allocations"]) == 6


def test_a_message_about_very_many_errors_is_cut_short_but_carries_all():
    errors = [Fault("a.csv", row, None, "bad-date", "It is wrong.", "error") for row in range(10_000)]
    refused = PackFaults("small", errors)
    assert len(refused.faults) == 10_000
    assert "... and 9980 more" in str(refused)


def test_a_long_cell_is_quoted_short():
    assert len(quoted("x" * 1000)) < 70
