"""`bedstamp chat`, fed from a pipe."""

import io

import pytest

from bot.__main__ import main


class Input(io.StringIO):
    def __init__(self, raw: bytes) -> None:
        super().__init__()
        self.raw = raw

    @property
    def buffer(self) -> io.BytesIO:
        return io.BytesIO(self.raw)


@pytest.fixture
def chat(pack_folder, capsys, monkeypatch):
    def call(*lines: str, options: tuple[str, ...] = ()) -> str:
        monkeypatch.setattr("sys.stdin", Input("\n".join(lines).encode() + b"\n"))
        assert main(["chat", "--pack", str(pack_folder), *options]) == 0
        return str(capsys.readouterr().out)

    return call


def test_a_follow_up_changes_the_answer(chat):
    out = " ".join(chat("K204117", "seven digits").split())
    assert "You typed 6 digits in K204117, and say that 7 are stamped." in out
    assert "it is K0204117, with the leading zeros put back" in out


def test_the_drawing_of_the_place_is_named_by_its_path(chat):
    out = chat("K204117", "where do I find it?")
    assert "Tollgate & Sons: Stamped into the bed" in out or "Model 6: Stamped into the bed" in out
    assert "bed.svg" in out


def test_the_working_is_told_once(chat):
    assert chat("K204117", "seven digits", "Model 9").count("How it was found") == 1


def test_thanks_get_a_kind_word(chat):
    assert chat("thanks!").strip() == "You are welcome. Enjoy the machine!"


def test_empty_lines_and_broken_bytes_do_no_harm(chat):
    assert "K204117 has 6 digits" in chat("", "\x00", "K204117", "")


def test_a_loaded_pack_is_seen_without_a_restart(pack_folder, tmp_path, capsys):
    from bot.wiring import open_library

    database = tmp_path / "base.sqlite"
    main(["pack", "load", str(pack_folder), "--db", str(database)])
    library = open_library((), database)
    try:
        before = library.current()
        assert library.current() is before
        path = pack_folder / "models.csv"
        path.write_text(path.read_text().replace("Model 9", "Model 9B"))
        main(["pack", "load", str(pack_folder), "--db", str(database)])
        assert library.current().models["t9"].name == "Model 9B"
    finally:
        library.close()
    capsys.readouterr()
