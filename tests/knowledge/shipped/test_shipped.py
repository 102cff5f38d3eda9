"""What every pack shipped must be: whole, valid for others, and with drawings that can be sent."""

import pytest
from frictionless import Package
from PIL import Image

from knowledge.packs import load
from knowledge.shipped import folders


def test_the_demo_group_and_the_published_marks_are_shipped():
    assert [folder.name for folder in folders()] == ["demo", "marks"]


@pytest.mark.parametrize("folder", folders(), ids=lambda folder: folder.name)
def test_each_is_a_valid_data_package_for_a_library_of_others(folder):
    """Judge from outside: `frictionless`, which reads Data Packages of version 2, https://datapackage.org."""
    report = Package(str(folder / "datapackage.json")).validate()
    assert report.flatten(["title", "message"]) == []


PICTURES = [picture for folder in folders() for picture in sorted(folder.glob("drawings/*.png"))]


@pytest.mark.parametrize("picture", PICTURES, ids=lambda picture: picture.stem)
def test_each_drawing_is_a_small_picture_with_its_source_beside_it(picture):
    with Image.open(picture) as image:
        assert image.format == "PNG"
        assert 800 <= image.width <= 1000
    assert picture.stat().st_size < 60_000
    assert picture.with_suffix(".svg").stat().st_size < 60_000


@pytest.mark.parametrize("folder", folders(), ids=lambda folder: folder.name)
def test_every_drawing_named_is_there_and_none_lies_about_unused(folder):
    pack = load(folder)
    named = {drawing for table in ("makers", "models") for (drawing,) in pack.rows(table, "drawing") if drawing}
    assert named == {f"drawings/{picture.name}" for picture in folder.glob("drawings/*.png")}
