"""Drawings that makers and models name: inside the pack, and there."""

import pytest

from knowledge.packs import Pack, Table, check
from knowledge.shipped import folders

HEAD = "maker,name,drawing"


def of_drawing(folder, sound, drawing):
    """Return the faults of the sound pack whose first maker has a drawing."""
    folder.write(sound | {"makers.csv": f"{HEAD}\nara,Ara,{drawing}\nbel,Bel,\n"})
    (folder.path / "drawings").mkdir()
    (folder.path / "drawings" / "arm.png").write_bytes(b"")
    return [(one.code, one.file, one.row, one.column, one.severity) for one in folder.faults()]


@pytest.mark.parametrize("drawing", ["arm", "arm.png", "drawings/arm.png", ""])
def test_a_drawing_of_the_pack_is_no_fault(folder, sound, drawing):
    assert of_drawing(folder, sound, drawing) == []


def test_the_name_of_a_shipped_drawing_is_no_fault(folder, sound):
    shipped = next(path for one in folders() for path in sorted((one / "drawings").glob("*.png")))
    assert of_drawing(folder, sound, shipped.stem) == []


@pytest.mark.parametrize("drawing", ["leg", "drawings", "drawings/leg.png", "x" * 5_000])
def test_a_drawing_that_is_not_there_is_a_warning(folder, sound, drawing):
    assert of_drawing(folder, sound, drawing) == [("missing-drawing", "makers.csv", 2, "drawing", "warning")]


@pytest.mark.parametrize(
    "drawing", ["../../secret/s.png", "/etc/hostname", "drawings/../../s.png", "https://example.org/s.png", "..\\s.png"]
)
def test_a_drawing_outside_the_pack_is_an_error(folder, sound, drawing):
    assert of_drawing(folder, sound, drawing) == [("unsafe-path", "makers.csv", 2, "drawing", "error")]


def test_a_link_that_leads_out_is_an_error(folder, sound):
    outside = folder.path.parent / "outside.png"
    outside.write_bytes(b"")
    folder.write(sound)
    (folder.path / "link.png").symlink_to(outside)
    assert of_drawing(folder, sound, "link.png") == [("unsafe-path", "makers.csv", 2, "drawing", "error")]


def test_a_pack_in_memory_is_not_asked_for_its_drawings_but_for_safe_paths():
    pack = Pack.of("small", Table.of("models", {"model": ["a", "b"], "drawing": ["arm", "../arm.png"]}))
    found = [(one.code, one.row) for one in check(pack) if one.column == "drawing"]
    assert found == [("unsafe-path", 3)]
