"""Reading a pack folder: what is accepted, what is refused, and that all faults of all files come at once."""

import json
import os

import pytest

from knowledge.packs import read
from knowledge.packs.descriptor import PROFILE

A = "allocations.csv"


def codes(faults):
    return [one.code for one in faults]


def test_a_pack_is_read_whole(folder, sound):
    resources = [{"name": name[:-4], "path": name} for name in sound]
    said = {"name": "ours", "title": "Our pack", "version": 2, "licenses": [{"name": "x"}]}
    folder.write(sound, {"$schema": PROFILE, **said, "resources": resources})
    pack, faults = read(folder.path)
    assert faults == []
    assert (pack.name, pack.title, pack.version, pack.folder) == ("ours", "Our pack", "2", folder.path)
    assert pack.more == {"licenses": [{"name": "x"}]}
    assert list(pack.rows("makers", "maker", "country", "name")) == [("ara", "", "Ara & Sons"), ("bel", "", "Bel")]
    assert next(pack.rows(A[:-4], "first", "last")) == ("980001", "990000")


@pytest.mark.parametrize("profile", [{"$schema": PROFILE}, {"profile": "tabular-data-package"}, {}])
def test_version_1_and_version_2_descriptors_read_the_same(folder, sound, profile):
    folder.write(sound, profile | {"name": "ours", "resources": [{"name": n[:-4], "path": n} for n in sound]})
    assert folder.faults() == []


def test_byte_order_mark_and_windows_line_ends_are_no_fault(folder, sound):
    folder.write({name: b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode() for name, text in sound.items()})
    assert folder.faults() == []
    assert read(folder.path)[0].tables["makers"].columns["name"] == ["Ara & Sons", "Bel"]


def test_old_line_ends_and_a_last_line_without_one_are_no_fault(folder, sound):
    folder.write({name: text.rstrip("\n").replace("\n", "\r") for name, text in sound.items()})
    assert folder.faults() == []


def test_blank_rows_are_skipped_but_counted(folder, sound):
    rows = sound[A].split("\n")
    rows[1:1] = ["", ",,,,,,,,,,,", " , ,,,,,,,,,, "]
    folder.write(sound | {A: "\n".join(rows)})
    assert folder.faults() == []
    assert list(read(folder.path)[0].tables[A[:-4]].row_numbers) == [5, 6, 7, 8, 9, 10]


def test_blank_rows_before_the_head_are_counted_too(folder, sound):
    folder.write(sound | {A: "\n\n" + sound[A].replace("1905,", "soon,")})
    assert [(one.row, one.column) for one in folder.faults()] == [(4, "date")]


def test_a_cell_with_line_breaks_is_one_row_as_in_a_spreadsheet(folder, sound):
    rows = sound[A].split("\n")
    rows[1] += '"one\ntwo\r\nthree"'
    rows[2] = rows[2].replace("1906", "soon")
    folder.write(sound | {A: "\n".join(rows)})
    assert [(one.code, one.row) for one in folder.faults()] == [("bad-date", 3)]
    assert read(folder.path)[0].tables[A[:-4]].columns["note"][0] == "one\ntwo\r\nthree"


def test_cells_are_stripped(folder):
    assert folder.spoiled(A, "980001,990000", " 980001 ,\u00a0990000\t") == []


def test_quoted_quote_marks_and_commas_are_kept(folder):
    assert folder.spoiled("makers.csv", "Ara & Sons", '"Ara ""the Elder"", Sons"') == []
    assert read(folder.path)[0].tables["makers"].columns["name"][0] == 'Ara "the Elder", Sons'


def test_unknown_columns_are_kept_beside_those_of_the_format(folder):
    folder.spoiled("makers.csv", "maker,name\nara,Ara & Sons\nbel,Bel", "maker,name,hue\nara,Ara,red\nbel,Bel,")
    table = read(folder.path)[0].tables["makers"]
    assert table.extra == ("hue",)
    assert list(table.rows("maker", "hue", "nowhere")) == [("ara", "red", ""), ("bel", "", "")]


def test_a_column_that_is_written_a_little_differently_is_recognised_in_the_advice(folder):
    found = folder.spoiled("works.csv", "works,maker,name,from", "works,maker,Name,from")
    assert "Did you mean 'name'?" in next(one.text for one in found if one.code == "unknown-column")


def test_small_letters_of_a_prefix_are_read_as_capitals(folder):
    assert codes(folder.spoiled(A, "ledger,1,K", "ledger,1,k")) == ["lower-case"]
    assert set(read(folder.path)[0].tables[A[:-4]].columns["prefix"]) == {"K"}


@pytest.mark.parametrize(("letters", "plain"), [("\u041a", "K"), ("\u039a", "K"), ("\u00c9", "E"), ("\uff2b", "K")])
def test_letters_that_look_latin_are_read_as_those_that_typed_numbers_have(folder, letters, plain):
    # Typed letters are folded the same way, so that the numbers would never be found otherwise.
    found = folder.spoiled(A, "ledger,1,K", f"ledger,1,{letters}")
    told = next(one for one in found if one.code == "foreign-letters")
    assert (told.row, told.column, told.severity) == (2, "prefix", "warning")
    assert f"Write {plain}." in told.text
    assert read(folder.path)[0].tables[A[:-4]].columns["prefix"][0] == plain


def test_letters_that_look_like_none_from_a_to_z_are_kept_with_a_warning(folder):
    found = folder.spoiled(A, "ledger,1,K", "ledger,1,\u0416")
    assert "as if the letters had been left out" in next(one.text for one in found if one.code == "foreign-letters")
    assert read(folder.path)[0].tables[A[:-4]].columns["prefix"][0] == "\u0416"


@pytest.mark.parametrize("declared", [{"delimiter": ";"}, {"csv": {"delimiter": ";"}}])
def test_a_delimiter_that_is_declared_is_honoured(folder, sound, declared):
    resources = [{"name": name[:-4], "path": name} for name in sound]
    resources[0]["dialect"] = declared
    folder.write(
        sound | {"makers.csv": "maker;name\nara;Ara, Sons\nbel;Bel\n"}, {"name": "ours", "resources": resources}
    )
    assert folder.faults() == []
    assert read(folder.path)[0].tables["makers"].columns["name"][0] == "Ara, Sons"


@pytest.mark.parametrize("delimiter", [";", "\t", "|"])
def test_a_delimiter_that_is_not_declared_is_one_error_and_the_rest_is_still_read(folder, sound, delimiter):
    folder.write(sound | {A: sound[A].replace(",", delimiter).replace("1905", "soon")})
    assert codes(folder.faults()) == ["wrong-delimiter", "bad-date"]


@pytest.mark.parametrize("dialect", ["dialect.json", {"delimiter": ";;"}, {"delimiter": '"'}, {"header": False}])
def test_a_dialect_that_cannot_be_followed_is_refused(folder, sound, dialect):
    resources = [{"name": name[:-4], "path": name} for name in sound]
    resources[0]["dialect"] = dialect
    folder.write(sound, {"name": "ours", "resources": resources})
    assert "bad-descriptor" in codes(folder.faults())


def test_a_resource_is_known_by_its_name_or_by_its_file(folder, sound):
    files = dict(sound)
    files["data/blocks.csv"] = files.pop(A).replace("1905", "soon")
    files["year_starts.csv"] = files.pop("year-starts.csv")
    resources = [{"name": name[:-4].replace("/", "-"), "path": name} for name in files if "blocks" not in name]
    folder.write(
        files, {"name": "ours", "resources": [*resources, {"name": "allocations", "path": ["data/blocks.csv"]}]}
    )
    assert [(one.file, one.row, one.code) for one in folder.faults()] == [("data/blocks.csv", 2, "bad-date")]
    assert len(read(folder.path)[0].tables["year-starts"]) == 3


@pytest.mark.parametrize("path", ["../makers.csv", "/etc/passwd", "a/../../makers.csv", "https://example.org/makers.csv",
                                  "..\\makers.csv", "file:///etc/passwd", "makers\0.csv"])  # fmt: skip
def test_a_path_that_leads_out_of_the_folder_is_refused(folder, sound, path):
    (folder.path.parent / "makers.csv").write_text("maker,name\nsecret,Secret\n")
    folder.write(sound, {"name": "ours", "resources": [{"name": "makers", "path": path}]})
    (folder.path / "makers.csv").unlink()
    pack, faults = read(folder.path)
    assert "unsafe-path" in codes(faults)
    assert len(pack.tables["makers"]) == 0


def test_a_link_that_leads_out_of_the_folder_is_refused(folder, sound):
    outside = folder.path.parent / "outside.csv"
    outside.write_text("maker,name\nsecret,Secret\n")
    folder.write(sound)
    (folder.path / "makers.csv").unlink()
    (folder.path / "makers.csv").symlink_to(outside)
    pack, faults = read(folder.path)
    assert codes(faults) == ["unsafe-path"]
    assert len(pack.tables["makers"]) == 0


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be"])
def test_a_file_in_utf_16_is_one_error_and_is_still_checked(folder, sound, encoding):
    folder.write(sound | {A: sound[A].replace("1905,", "soon,").encode(encoding)})
    found = folder.faults()
    assert codes(found) == ["wrong-encoding", "bad-date"]
    assert "UTF-16" in found[0].text
    assert "CSV UTF-8" in found[0].text


def test_a_file_in_latin_1_is_one_error_that_names_the_row(folder):
    found = folder.spoiled("models.csv", "Bel 1", "Bél 1".encode("latin-1"))
    assert [(one.code, one.row) for one in found] == [("wrong-encoding", 3)]


def test_the_row_of_a_wrong_letter_is_counted_as_a_spreadsheet_shows_it(folder):
    note = b'a book,"of two\nlines",\n\nbook2,Le '
    found = folder.spoiled("sources.csv", "book,The book,1950~", note + "Livre é,1950".encode("latin-1"))
    assert ("wrong-encoding", 4) in [(one.code, one.row) for one in found]


@pytest.mark.parametrize("old", ["980001", "990000,,1905", "1906", ",2,K,990001"])
def test_a_row_with_nul_characters_is_told_once_and_raises_no_echo(folder, old):
    found = folder.spoiled(A, old, old[:1].encode() + b"\0" * 3 + old[2:].encode())
    row = 2 if old.startswith("9") else 3
    assert [(one.code, one.row) for one in found] == [("nul-bytes", row)]


def test_a_head_with_nul_characters_is_told_once(folder):
    found = folder.spoiled(A, "order,prefix", b"order,pre\0fix")
    assert [(one.code, one.row) for one in found] == [("nul-bytes", 1)]


def test_a_row_that_breaks_off_raises_no_echo(folder, sound):
    whole = sound[A]
    folder.write(sound | {A: whole[: whole.rindex("0020001,0030000") + 3]})
    assert [(one.code, one.row) for one in folder.faults()] == [("half-written", 7)]


def test_a_file_cut_inside_a_letter_is_half_written(folder):
    found = folder.spoiled("sources.csv", "The book,1950~\n", b"The b," + "ö".encode()[:1])
    assert "half-written" in codes(found)


def test_a_file_cut_anywhere_in_its_last_row_is_an_error_or_only_lacks_the_end_of_its_last_cell(folder, sound):
    whole = sound["works.csv"]
    start = whole.rindex("\n", 0, -1) + 1
    for size in range(start + 1, len(whole) - len("1950\n")):
        folder.write(sound | {"works.csv": whole[:size]})
        assert "half-written" in codes(folder.faults()), whole[:size]


def test_a_quote_that_is_never_closed_does_not_raise_echoes_elsewhere(folder, sound):
    folder.write(sound | {"makers.csv": 'maker,name\nara,"Ara\nbel,Bel\n'})
    assert [(one.code, one.row) for one in folder.faults()] == [("broken-quotes", 2)]


@pytest.mark.parametrize("start", [b"PK\x03\x04", b"\xd0\xcf\x11\xe0\xa1\xb1", b"%PDF-1.7", b"\x1f\x8b\x08"])
def test_a_file_that_is_no_text_is_one_error(folder, sound, start):
    folder.write(sound | {"works.csv": start + bytes(range(256))})
    assert codes(folder.faults()) == ["not-csv"]


@pytest.mark.parametrize("content", [b"", b"\n\n", b"\xef\xbb\xbf", b"  \n,,,\n"])
def test_an_empty_file_is_one_error(folder, sound, content):
    folder.write(sound | {"works.csv": content})
    assert codes(folder.faults()) == ["empty-file"]


def test_a_file_that_may_not_be_read_is_an_error_that_says_so(folder, sound, monkeypatch):
    folder.write(sound)
    read_bytes = type(folder.path).read_bytes

    def refused(path):
        if path.name == "works.csv":
            raise PermissionError(13, os.strerror(13))
        return read_bytes(path)

    monkeypatch.setattr(type(folder.path), "read_bytes", refused)
    found = folder.faults()
    assert [(one.code, one.file) for one in found] == [("unreadable-file", "works.csv")]
    assert "Permission denied" in found[0].text


def test_a_folder_without_a_descriptor_says_what_to_add_and_is_checked_all_the_same(folder, sound):
    folder.write(sound | {A: sound[A].replace("1905,", "soon,")})
    (folder.path / "datapackage.json").unlink()
    found = folder.faults()
    assert codes(found) == ["no-descriptor", "bad-date"]
    assert '"resources"' in found[0].text


BROKEN_DESCRIPTORS = [
    b"",
    b"{",
    b"[]",
    b"null",
    b"{'name': 'x'}",
    b"\xff\xfe{\0}\0",
    b"[" * 100_000,
    b'{"name": ' + b"9" * 5000 + b"}",
    b'{"name": "x", "resources": 3}',
    b'{"name": "x", "resources": [3]}',
    b'{"name": "x", "resources": [{"name": "makers"}]}',
    b'{"name": "x", "resources": [{"name": "makers", "path": ["a.csv", "b.csv"]}]}',
]


@pytest.mark.parametrize("content", BROKEN_DESCRIPTORS)
def test_a_broken_descriptor_is_an_error_not_a_crash(folder, sound, content):
    folder.write(sound)
    (folder.path / "datapackage.json").write_bytes(content)
    assert {"bad-descriptor", "wrong-encoding"} & set(codes(folder.faults()))


def test_a_file_in_place_of_a_folder_and_an_empty_folder_are_told_apart(folder, tmp_path):
    (tmp_path / "file").write_text("x")
    assert "is a file" in read(tmp_path / "file")[1][0].text
    assert "is not there" in read(tmp_path / "nothing")[1][0].text
    folder.path.mkdir()
    found = {(one.code, one.file) for one in folder.faults()}
    assert found >= {
        ("no-descriptor", "datapackage.json"),
        ("missing-file", "makers.csv"),
        ("missing-file", "registers.csv"),
    }


def test_makers_registers_and_one_kind_of_register_are_enough(folder, sound):
    few = {name: sound[name] for name in ("makers.csv", "registers.csv", A)}
    few["registers.csv"] = "register,maker,kind,object\nledger,ara,allocations,allocation\n"
    few[A] = "register,first,last,date\nledger,1,500,1905\nledger,501,1000,1906\n"
    folder.write(few)
    assert folder.faults() == []


def test_a_huge_cell_is_no_crash(folder, sound):
    folder.write(sound | {"makers.csv": "maker,name\nara," + "x" * 200_000 + "\nbel,Bel\n"})
    assert "broken-quotes" in codes(folder.faults())


def test_the_descriptor_may_carry_a_byte_order_mark(folder, sound):
    folder.write(sound)
    file = folder.path / "datapackage.json"
    file.write_bytes(b"\xef\xbb\xbf" + json.dumps(json.loads(file.read_text())).encode())
    assert folder.faults() == []


@pytest.mark.parametrize(
    ("column", "type_", "told"),
    [("first", "integer", True), ("last", "number", True), ("first", "string", False), ("note", "any", False)],
)
def test_a_table_schema_that_makes_numbers_of_text_is_a_warning(folder, sound, column, type_, told):
    resources = [{"name": name[:-4], "path": name} for name in sound]
    allocations = next(one for one in resources if one["name"] == "allocations")
    allocations["schema"] = {"fields": [{"name": column, "type": type_}, "odd", {"name": "ours", "type": "integer"}]}
    folder.write(sound, {"name": "ours", "resources": resources})
    found = folder.faults()
    assert [(one.code, one.file, one.severity) for one in found] == [
        ("number-type", "datapackage.json", "warning")
    ] * told
    assert all(f"'{column}' of allocations" in one.text and '"type": "string"' in one.text for one in found)


@pytest.mark.parametrize("schema", ["schema.json", [], {"fields": "first"}, {"fields": [None, {}]}])
def test_a_table_schema_of_any_shape_is_no_crash(folder, sound, schema):
    resources = [{"name": name[:-4], "path": name, "schema": schema} for name in sound]
    folder.write(sound, {"name": "ours", "resources": resources})
    assert folder.faults() == []
