"""Tests of `bedstamp run` as far as it goes without a channel; tests/bot/test_running.py runs the rest."""

from __future__ import annotations

import pytest

from bot.__main__ import main


@pytest.mark.parametrize(
    ("settings", "code", "said"),
    [
        ("", 2, "No channel is on"),
        ("[mial]", 1, "Did you mean mail?"),
        ('[store]\npath = "no/such/folder/x.sqlite"', 1, "[store] path"),
        ("[mail", 1, "cannot be understood"),
    ],
)
def test_settings_that_cannot_be_run_with_say_what_to_do(tmp_path, capsys, settings, code, said) -> None:
    (tmp_path / "settings.toml").write_text(settings)
    assert main(["run", "--config", str(tmp_path / "settings.toml")]) == code
    err = capsys.readouterr().err
    assert said in err
    assert "Traceback" not in err


def test_a_store_of_another_kind_is_left_alone(tmp_path, capsys) -> None:
    (tmp_path / "notes.txt").write_text("These are my notes.")
    (tmp_path / "settings.toml").write_text('[store]\npath = "notes.txt"')
    assert main(["run", "--config", str(tmp_path / "settings.toml")]) == 2
    assert (tmp_path / "notes.txt").read_text() == "These are my notes."
    assert "not a knowledge base" in capsys.readouterr().err
