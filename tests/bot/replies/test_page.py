"""An answer on a page: what stands there, in which order, and that it fits."""

import io
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.console import Console

from bot.replies.page import Manner, as_text, drawing_path, show
from knowledge.answer import answer
from knowledge.base import Knowledge
from knowledge.packs import load
from knowledge.shipped import folders
from tests.knowledge.small import block, blocks, pack, register, table

UNSOURCED = (table("registers", register("allocations")), table("allocations", block("K 200001-225000")))


def page(knowledge, text, width=80, **manner):
    return as_text(answer(text, knowledge), knowledge, width, Manner(**manner))


def cells(line):
    """Return how many columns a line takes: wide characters two, combining ones none."""
    wide = sum(unicodedata.east_asian_width(character) in "WF" for character in line)
    return len(line) + wide - sum(bool(unicodedata.combining(character)) for character in line)


def test_the_sections_stand_in_the_order_in_which_they_are_needed(knowledge):
    text = page(knowledge, "K204117")
    titles = [
        "K204117 has 6 digits", "Datings, likeliest first", "Please check", "Compare with the machine",
        "How it was found", "Sources", "How many digits",
    ]  # fmt: skip
    places = [text.index(title) for title in titles]
    assert places == sorted(places)


def test_the_choices_of_the_question_back_are_numbered(knowledge):
    text = page(knowledge, "K204117")
    assert "1) 6 digits\n2) 7 digits" in text


@pytest.mark.parametrize("width", [40, 60, 88, 100, 110])
def test_it_fits_the_width_with_wide_characters_too(width):
    knowledge = Knowledge.of([load(folder) for folder in folders()])
    text = page(knowledge, "Оттрел 縫製機械 K2041?7 and 01632 960123 and Pat. 1234567", width)
    assert max(map(cells, text.splitlines())) <= width


def test_a_drawing_is_looked_for_in_packs_alone_never_beside_them(tmp_path):
    pack, beside = tmp_path / "pack", tmp_path / "secret.png"
    (pack / "drawings").mkdir(parents=True)
    (pack / "drawings" / "arm.png").write_bytes(b"")
    (pack / "drawings" / "link.png").symlink_to(beside)
    beside.write_bytes(b"")
    assert drawing_path("arm", [pack]) == pack / "drawings" / "arm.png"
    for path in ("../secret.png", "drawings/../../secret.png", "../../secret.png", str(beside), "link", "link.png"):
        assert drawing_path(path, [pack]) is None
    assert drawing_path("x" * 5_000, [pack]) is None


def test_likelihoods_are_never_rounded_to_certainty(knowledge):
    text = page(knowledge, "K204117", everything=True)
    assert " 0%" not in text
    assert "100%" not in text
    assert "None of these:" in text


def test_what_was_left_out_is_counted(knowledge):
    few, many = page(knowledge, "K204117"), page(knowledge, "K204117", everything=True)
    left = int(few.partition("And ")[2].partition(" more")[0])
    shown = few.count("%  K")
    found = len(answer("K204117", knowledge).candidates)
    assert shown + left == found
    assert many.count("%  K") == found


def test_cautions_told_before_are_left_out(knowledge):
    cautions = [caution.text for caution in answer("K204117", knowledge).cautions]
    assert "Please check" not in page(knowledge, "K204117", told=frozenset(cautions))


def test_an_unreadable_place_is_one_dating_not_ten(knowledge):
    text = page(knowledge, "K2041?7")
    assert text.count("K2041?7\n") == 1
    assert "K204137" not in text.partition("Please check")[0]


def test_the_drawing_is_named_where_it_is_there(knowledge, pack_folder):
    text = page(knowledge, "where is the number on a Tollgate?", folders=(pack_folder,))
    assert str(pack_folder / "drawings" / "bed.svg") in text
    assert drawing_path("drawings/none.svg", (pack_folder,)) is None


@pytest.mark.parametrize(
    "drawing",
    ["../secret.png", "drawings/../../secret.png", "/etc/hostname", "link.png", "drawings", "a\0b", "x" * 999, "o.png"],
)
def test_a_file_outside_the_pack_is_never_named(pack_folder, drawing):
    (pack_folder.parent / "secret.png").write_bytes(b"")
    (pack_folder / "link.png").symlink_to(pack_folder.parent / "secret.png")
    (pack_folder / "o.png").symlink_to(pack_folder / "o.png")
    assert drawing_path(drawing, (pack_folder,)) is None


def test_a_drawing_is_found_in_a_pack_that_is_reached_by_a_link(pack_folder, tmp_path):
    (tmp_path / "here").symlink_to(pack_folder)
    assert drawing_path("bed.svg", (tmp_path / "here",)) == tmp_path / "here" / "drawings" / "bed.svg"


def test_a_list_that_names_no_source_is_said_to_name_none():
    knowledge = Knowledge.of([pack(table("makers", {"maker": "we", "name": "Aldersyde"}), *UNSOURCED)])
    text = page(knowledge, "serial K204117")
    assert "as you typed it [1]" in text
    assert "[1] The list names no source." in text


def test_all_sources_that_one_block_names_are_told():
    sources = table("sources", {"source": "a", "title": "Ledger"}, {"source": "b", "title": "Card index"})
    knowledge = blocks(block("K 200001-225000", source="a;b"), more=[sources])
    assert "[1] Ledger; Card index" in page(knowledge, "serial K204117")


def test_a_motor_is_never_shown_without_its_warning(knowledge):
    assert "pull the plug" in page(knowledge, "K0204117")


def test_there_is_colour_on_a_terminal_and_none_where_it_is_not_wanted(knowledge, monkeypatch):
    def printed():
        out = io.StringIO()
        show(answer("K204117", knowledge), knowledge, Console(file=out, width=80, force_terminal=True))
        return out.getvalue()

    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.delenv("NO_COLOR", raising=False)
    assert "\x1b[1;36m" in printed()
    monkeypatch.setenv("NO_COLOR", "1")
    assert ";36m" not in printed()


@given(st.text(max_size=200))
def test_nothing_that_is_typed_reaches_the_page_raw(knowledge, text):
    printed = page(knowledge, text + " K204117 " + text)
    hidden = [c for c in printed if unicodedata.category(c) in ("Cc", "Cs", "Co") and c != "\n"]
    assert hidden == []
