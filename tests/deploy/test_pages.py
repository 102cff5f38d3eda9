"""The pages for people say what the program does: what they tell to type works, what they show loads."""

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from deploy import packs_page

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEMO = (ROOT / "deploy" / "demo.sh").read_text(encoding="utf-8")

# What follows three spaces is an explanation.
SHOWN_COMMAND = re.compile(r"^ *(?:\$ )?(?:\.venv/bin/)?bedstamp (.*?)(?: {3,}.*)?$", re.MULTILINE)
SHOWN_FILE = re.compile(r"^`([\w.-]+)`\n\n```\w+\n(.*?)```", re.MULTILINE | re.DOTALL)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder in which FOLDER is the pack that the README shows."""
    pack = tmp_path / "FOLDER"
    pack.mkdir()
    for name, content in SHOWN_FILE.findall(README):
        (pack / name).write_text(content, encoding="utf-8")
    return tmp_path


def bedstamp(command: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """Run one command as a person would type it, with nothing on standard input."""
    words = [sys.executable, "-m", "bot", *shlex.split(command)]
    environment = os.environ | {"PYTHONPATH": str(ROOT)}
    return subprocess.run(
        words, cwd=folder, env=environment, stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=60
    )


@pytest.mark.parametrize("page", [README, DEMO], ids=["README", "demo"])
def test_every_command_that_is_shown_works_in_the_order_shown(page, folder):
    commands = [found for found in SHOWN_COMMAND.findall(page) if "$" not in found]
    assert len(commands) >= 4
    for command in commands:
        result = bedstamp(command, folder)
        assert (result.returncode, result.stderr) == (0, ""), f"bedstamp {command}"
        is_dated = re.search(r"\d%", result.stdout)
        assert is_dated or not re.match(r"ask .*\d", command), f"no dating: bedstamp {command}"


def test_the_small_pack_that_is_shown_has_no_faults_and_answers(folder):
    assert "0 errors, 0 warnings" in bedstamp("pack check FOLDER", folder).stdout
    assert "2 March 1890" in bedstamp('ask --pack FOLDER "K 204117"', folder).stdout


def test_the_page_of_pack_columns_is_up_to_date():
    assert packs_page.PAGE.read_text(encoding="utf-8") == packs_page.page(), "run: python -m deploy.packs_page"
