"""Tests of reading files: importing/files.py, workbook.py, xlsx_formats.py, ods.py and delimited.py."""

from __future__ import annotations

import os
import random
import zipfile
from pathlib import Path

import pytest

from knowledge.packs.importing import SheetError, WhichSheetError, read_sheet
from tests.knowledge.packs.importing.making import Cell, Number, ods, xlsx

HEAD = ["From", "To", "Year"]


# --- .xlsx


def test_the_zeros_and_letters_that_a_number_format_shows_are_read(tmp_path: Path) -> None:
    rows: list[list[Cell]] = [[*HEAD], [Number(200001, "0000000"), Number(225000, '"K"0000000'), Number(1912)]]
    sheet = read_sheet(xlsx(tmp_path / "a.xlsx", {"List": rows}))
    assert sheet.rows == [HEAD, ["0200001", "K0225000", "1912"]]


def test_a_date_cell_is_read_as_far_as_it_is_shown(tmp_path: Path) -> None:
    # Day 4391 of the 1900 date system is 8 January 1912 (ECMA-376 part 1, 18.17.4.1; section from memory).
    shown = [[Number(4391, code)] for code in ("dd/mm/yyyy", "mmm-yy", "yyyy", "d.m.yyyy hh:mm")]
    sheet = read_sheet(xlsx(tmp_path / "a.xlsx", {"List": shown}))
    assert [row[0] for row in sheet.rows] == ["1912-01-08", "01/1912", "1912", "1912-01-08"]


def test_a_merged_cell_counts_for_each_of_its_rows_and_that_is_said(tmp_path: Path) -> None:
    rows = [HEAD, ["1", "9", "1912"], ["10", "19", ""], ["20", "29", ""], ["30", "39", ""]]
    sheet = read_sheet(xlsx(tmp_path / "a.xlsx", {"List": rows}, merged="C2:C4"))
    assert [sheet.cell(row, 2) for row in range(1, 5)] == ["1912", "1912", "1912", ""]
    assert any("Merged cells" in note for note in sheet.notes)


def test_row_numbers_stay_those_of_the_spreadsheet(tmp_path: Path) -> None:
    sheet = read_sheet(xlsx(tmp_path / "a.xlsx", {"List": [[], [], ["", "x"]]}))
    assert sheet.cell(2, 1) == "x"


def test_of_several_filled_sheets_one_must_be_named(tmp_path: Path) -> None:
    path = xlsx(tmp_path / "a.xlsx", {"One": [["1"]], "Empty": [], "Two": [["2"]], "Secret": [["3"]]}, hidden="Secret")
    with pytest.raises(WhichSheetError, match=r"'One', 'Two'") as caught:
        read_sheet(path)
    assert caught.value.names == ["One", "Two"]
    assert read_sheet(path, "Two").rows == [["2"]]
    with pytest.raises(SheetError, match=r"no sheet 'Three'. It has: One"):
        read_sheet(path, "Three")


def test_a_workbook_without_content_says_so(tmp_path: Path) -> None:
    with pytest.raises(SheetError, match=r"is empty: no sheet"):
        read_sheet(xlsx(tmp_path / "a.xlsx", {"One": []}))


# --- .ods


def _ods_cell(text: str, **more: str) -> str:
    attributes = "".join(f' {name.replace("_", ":", 1).replace("_", "-")}="{value}"' for name, value in more.items())
    return f"<table:table-cell{attributes}><text:p>{text}</text:p></table:table-cell>"


def test_of_an_ods_file_the_shown_text_is_read(tmp_path: Path) -> None:
    number = _ods_cell("0200001", office_value_type="float", office_value="200001")
    dates = "".join(
        f"<table:table-row>{_ods_cell(shown, office_value_type='date', office_date_value=day)}</table:table-row>"
        for shown, day in (("08.01.12", "1912-01-08"), ("Feb 12", "1912-02-01"), ("1913", "1913-01-01"))
    )
    blank = '<table:table-row table:number-rows-repeated="2"><table:table-cell/></table:table-row>'
    end = '<table:table-row table:number-rows-repeated="1048000"><table:table-cell/></table:table-row>'
    table = f'<table:table table:name="T"><table:table-row>{number}</table:table-row>{blank}{dates}{end}</table:table>'
    sheet = read_sheet(ods(tmp_path / "a.ods", table))
    assert sheet.rows == [["0200001"], [], [], ["1912-01-08"], ["02/1912"], ["1913"]]


def test_repeated_and_merged_cells_of_an_ods_file_are_unfolded(tmp_path: Path) -> None:
    first = _ods_cell("x", table_number_columns_repeated="2") + _ods_cell("1912", table_number_rows_spanned="2")
    second = "<table:table-cell/>" + _ods_cell("y") + "<table:covered-table-cell/>"
    rows = "".join(f"<table:table-row>{row}</table:table-row>" for row in (first, second))
    sheet = read_sheet(ods(tmp_path / "a.ods", f'<table:table table:name="T">{rows}</table:table>'))
    assert sheet.rows == [["x", "x", "1912"], ["", "y", "1912"]]


# --- text tables


@pytest.mark.parametrize("mark", [";", ",", "\t", "|"])
def test_the_mark_between_columns_is_found_and_said(tmp_path: Path, mark: str) -> None:
    path = tmp_path / "list.csv"
    path.write_text("\n".join(mark.join(row) for row in (HEAD, ["1", "9", "1912"], ["10", "19", "1913"])))
    sheet = read_sheet(path)
    assert sheet.rows[:2] == [HEAD, ["1", "9", "1912"]]
    assert any("split at" in note for note in sheet.notes)


def test_commas_inside_numbers_do_not_hide_the_semicolons(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_text("200,001;225,000;1912\n225,001;250,000;1913\n")
    assert read_sheet(path).rows[0] == ["200,001", "225,000", "1912"]


def test_a_first_line_that_names_the_mark_is_obeyed(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_text("sep=|\nFrom|To\n1|9,9,9\n")
    assert read_sheet(path).rows[0] == ["From", "To"]


def test_quoted_cells_may_hold_the_mark_and_line_ends(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes(b'From,Date,Note\r\n1,"Jan. 8, 1912","two\r\nlines"\r\n')
    assert read_sheet(path).rows[1] == ["1", "Jan. 8, 1912", "two lines"]


def test_a_quote_mark_alone_is_a_ditto_mark_and_swallows_nothing(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_text('From;Year;Model\n1;1912;Nine\n2;";Ten\n3;";"\n4;1913;Ten\n')
    sheet = read_sheet(path)
    assert [row[1] for row in sheet.rows[:5]] == ["Year", "1912", "〃", "〃", "1913"]
    assert any("ditto" in note for note in sheet.notes)


# --- what is no table


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", r"is empty"),
        (b" \r\n\n", r"is empty"),
        (b"%PDF-1.7 ...", r"is a PDF"),
        (b"\x89PNG\r\n\x1a\n", r"is a picture"),
        (bytes(range(256)) * 40, r"no text that can be read"),
        (b"PK\x03\x04 and then nothing", r"is damaged"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(2000), r"is damaged"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + "EncryptedPackage".encode("utf-16-le"), r"protected by a password"),
    ],
)
def test_a_file_that_is_no_table_says_what_to_do(tmp_path: Path, content: bytes, words: str) -> None:
    path = tmp_path / "list.xlsx"
    path.write_bytes(content)
    with pytest.raises(SheetError, match=words):
        read_sheet(path)


def test_a_missing_file_and_a_folder_are_named(tmp_path: Path) -> None:
    with pytest.raises(SheetError, match=r"no file .*missing.csv"):
        read_sheet(tmp_path / "missing.csv")
    with pytest.raises(SheetError, match=r"is a folder"):
        read_sheet(tmp_path)


def test_another_zip_file_is_no_spreadsheet(tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "letter.docx", "w") as file:
        file.writestr("word/document.xml", "<document/>")
    with pytest.raises(SheetError, match=r"no spreadsheet"):
        read_sheet(tmp_path / "letter.docx")


def test_an_encrypted_ods_file_says_so(tmp_path: Path) -> None:
    path = ods(tmp_path / "a.ods", "")
    with zipfile.ZipFile(path) as file:
        parts = {name: file.read(name) for name in file.namelist()}
    parts["META-INF/manifest.xml"] = b"<manifest><encryption-data/></manifest>"
    with zipfile.ZipFile(path, "w") as file:
        for name, data in parts.items():
            file.writestr(name, data)
    with pytest.raises(SheetError, match=r"protected by a password"):
        read_sheet(path)


# --- bounds


def test_a_file_that_unpacks_to_too_much_is_refused_before_it_is_unpacked(tmp_path: Path) -> None:
    path = xlsx(tmp_path / "bomb.xlsx", {"List": [["1"]]})
    with zipfile.ZipFile(path, "a", zipfile.ZIP_DEFLATED) as file, file.open("xl/bomb", "w", force_zip64=True) as part:
        for _ in range(401):
            part.write(bytes(1 << 20))
    with pytest.raises(SheetError, match=r"would unpack to more than 400 MB"):
        read_sheet(path)


def test_a_sheet_that_spreads_too_wide_is_refused(tmp_path: Path) -> None:
    path = xlsx(tmp_path / "wide.xlsx", {"List": [["near"]]})
    with zipfile.ZipFile(path) as file:
        parts = {name: file.read(name) for name in file.namelist()}
    far = b'</row><row r="1048576"><c r="XFD1048576"><v>1</v></c></row></sheetData>'
    sheet = parts["xl/worksheets/sheet1.xml"].replace(b"</row></sheetData>", far)
    with zipfile.ZipFile(path, "w") as file:
        for name, data in (parts | {"xl/worksheets/sheet1.xml": sheet}).items():
            file.writestr(name, data)
    with pytest.raises(SheetError, match=r"spreads over more than"):
        read_sheet(path)


def test_an_ods_row_repeated_without_end_is_refused(tmp_path: Path) -> None:
    cell = _ods_cell("x", table_number_columns_repeated="16384")
    row = f'<table:table-row table:number-rows-repeated="1000000">{cell}</table:table-row>'
    with pytest.raises(SheetError, match=r"more than 8,000,000 cells"):
        read_sheet(ods(tmp_path / "a.ods", f'<table:table table:name="T">{row}</table:table>'))


def test_entities_that_unfold_without_end_are_refused(tmp_path: Path) -> None:
    path = tmp_path / "a.ods"
    grown = "".join(f'<!ENTITY e{n + 1} "{f"&e{n};" * 10}">' for n in range(9))
    with zipfile.ZipFile(path, "w") as file:
        file.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
        file.writestr("content.xml", f'<!DOCTYPE a [<!ENTITY e0 "{"x" * 99}">{grown}]><a>&e9;</a>')
    with pytest.raises(SheetError, match=r"is damaged"):
        read_sheet(path)


def test_damage_of_any_kind_is_said_without_a_traceback(tmp_path: Path) -> None:
    whole = xlsx(tmp_path / "whole.xlsx", {"List": [[Number(200001, "0000000"), "x", Number(4391, "yyyy")]] * 20})
    with zipfile.ZipFile(whole) as file:
        parts = {name: file.read(name) for name in file.namelist()}
    chance = random.Random(20)
    damaged = tmp_path / "damaged.xlsx"
    said = 0
    for _ in range(150):
        with zipfile.ZipFile(damaged, "w") as file:
            hit = chance.choice(sorted(parts))
            for name, data in parts.items():
                content = bytearray(data)
                for _ in range(3 if name == hit else 0):
                    content[chance.randrange(len(content))] = chance.choice(b'<>"/&09 aZ')
                file.writestr(name, bytes(content))
        if chance.random() < 0.3:
            os.truncate(damaged, chance.randrange(30, damaged.stat().st_size))
        try:
            read_sheet(damaged)
        except SheetError:
            said += 1
    assert said > 30
