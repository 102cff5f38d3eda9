"""The files of pictures: sound, small, the same each time, whole or not there."""

from __future__ import annotations

import io
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from bot.pictures import draw, render
from bot.pictures.png import as_png
from bot.pictures.shapes import Box, Line, Mark, Picture
from bot.pictures.svg import as_svg
from knowledge.errors import BedstampError, UsageError
from tests.bot.pictures.small import THREE_SERIES, asked, in_blocks, known, picture_of

SVG = "{http://www.w3.org/2000/svg}"


def test_an_svg_is_sound_xml_and_names_are_only_text_in_it() -> None:
    name = "<script>alert('1')</script> & \"Sons\" ]]> \x07\u2028"
    knowledge = known(THREE_SERIES, maker=name, model="<b>Ida</b>")
    root = ET.fromstring(render(asked("serial Q0204117", knowledge), knowledge, "svg"))
    elements = {element.tag.removeprefix(SVG) for element in root.iter()}
    assert elements <= {"svg", "title", "desc", "rect", "polyline", "polygon", "circle", "text"}
    texts = " ".join(element.text or "" for element in root.iter(f"{SVG}text"))
    assert "<script>alert('1')</script> & \"Sons\" ]]>" in texts
    assert "<b>Ida</b>, Lower Mill" in texts
    title = root.find(f"{SVG}title")
    assert title is not None
    assert title.text == "Q0204117: allocated 15 April 1913"


@settings(max_examples=25)
@given(st.text(max_size=60))
def test_any_name_makes_a_sound_svg_and_png(name: str) -> None:
    knowledge = known([("Q", "100001", "125000", "", "1921", "ida", "a")], maker=name, model=name)
    found = asked("serial Q104117", knowledge)
    ET.fromstring(render(found, knowledge, "svg"))
    assert render(found, knowledge).startswith(b"\x89PNG")


def test_a_png_opens_has_its_size_and_is_small_with_3000_blocks() -> None:
    knowledge = known(in_blocks("Q", 1_000_000, 8, "1890-01-01", 3_000, ("a", "b", "c")))
    content = render(asked("serial Q01204117", knowledge), knowledge)
    with Image.open(io.BytesIO(content)) as image:
        image.load()
        assert image.size == (1000, 640)
        assert image.format == "PNG"
    assert len(content) < 60_000


def test_a_line_of_numbers_does_not_grow_with_the_blocks() -> None:
    def shapes(count: int) -> int:
        knowledge = known(in_blocks("Q", 1_000_000, 8, "1850-01-01", count))
        points = (len(s.points) for s in picture_of("serial Q01004117", knowledge).shapes if isinstance(s, Line))
        return sum(points)

    assert shapes(8_000) < 2 * shapes(2_000)


def test_the_same_question_gives_the_same_bytes() -> None:
    first, second = (known(THREE_SERIES) for _ in range(2))
    for kind in ("png", "svg"):
        one = render(asked("serial Q0204117", first), first, kind)
        assert one == render(asked("serial Q0204117", second), second, kind)


@pytest.mark.parametrize("name", ["a.png", "a.PNG", "a.svg"])
def test_a_file_is_written_by_its_ending(tmp_path, name: str) -> None:
    knowledge = known(THREE_SERIES)
    draw(asked("serial Q0204117", knowledge), knowledge, tmp_path / name)
    begins = (tmp_path / name).read_bytes()[:5]
    assert begins == (b"<?xml" if name.endswith("svg") else b"\x89PNG\r")
    assert [path.name for path in tmp_path.iterdir()] == [name]


@pytest.mark.parametrize("name", ["a.jpg", "a", "a.png.txt"])
def test_another_ending_is_refused_and_the_right_ones_named(tmp_path, name: str) -> None:
    knowledge = known(THREE_SERIES)
    with pytest.raises(UsageError, match=r"\.png or \.svg") as refused:
        draw(asked("serial Q0204117", knowledge), knowledge, tmp_path / name)
    assert refused.value.exit_code == 2
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_is_not_there_is_named(tmp_path) -> None:
    knowledge = known(THREE_SERIES)
    with pytest.raises(BedstampError, match="no-such-folder") as refused:
        draw(asked("serial Q0204117", knowledge), knowledge, tmp_path / "no-such-folder" / "a.png")
    assert "folder that exists" in str(refused.value)


def test_a_write_that_fails_leaves_the_old_picture_and_nothing_else(tmp_path, monkeypatch) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    target = tmp_path / "a.png"
    target.write_bytes(b"the old picture")
    monkeypatch.setattr("os.replace", full)
    knowledge = known(THREE_SERIES)
    with pytest.raises(BedstampError, match="No space left"):
        draw(asked("serial Q0204117", knowledge), knowledge, target)
    assert target.read_bytes() == b"the old picture"
    assert list(tmp_path.iterdir()) == [target]


def test_both_files_are_drawn_from_the_same_shapes() -> None:
    shapes = (
        Box(0, 0, 60, 40, "#ffffff"),
        Mark("disc", 10, 20, 6, "#b3261e"),
        Mark("diamond", 30, 20, 6, "#1f4e79"),
        Line(((45, 5), (45, 35)), "#2a2e35", 4, is_dashed=True),
    )
    picture = Picture(60, 40, shapes, "t", "d")
    with Image.open(io.BytesIO(as_png(picture))) as image:
        drawn = image.convert("RGB")
        assert [drawn.getpixel(at) for at in ((10, 20), (30, 20), (2, 2))] == [
            (179, 38, 30),
            (31, 78, 121),
            (255, 255, 255),
        ]
        column = [drawn.getpixel((45, y)) for y in range(5, 35)]
    assert len(set(column)) > 1, "a dashed line has gaps"
    tags = [element.tag.removeprefix(SVG) for element in ET.fromstring(as_svg(picture))]
    assert tags == ["title", "desc", "rect", "circle", "polygon", "polyline"]
