"""deploy/runbook.md tells of what there is: events, commands, files; and leaves out no event that wants a hand."""

from __future__ import annotations

import re
import shlex
import subprocess
from pathlib import Path

import pytest

from bot.__main__ import _parser
from deploy import copies, restoring
from tests.deploy.events import events

ROOT = Path(__file__).parents[2]
RUNBOOK = (ROOT / "deploy" / "runbook.md").read_text(encoding="utf-8")
LOGGED = events(ROOT / "bot")

_BLOCKS = re.findall(r"^```console\n(.*?)^```", RUNBOOK, re.MULTILINE | re.DOTALL)
SHOWN = [line.removeprefix("# ") for block in _BLOCKS for line in block.splitlines()]
INLINE = re.findall(r"`((?:bedstamp|systemctl) [^`]+)`", RUNBOOK)
PLACEHOLDERS = {"FILE": "settings.toml", "PERSON": "ann@example.org", "FOLDER": "packs/ours", "ID": "in-12"}
ORDINARY = ("alias", "apt-get", "chmod", "chown", "cp", "install", "journalctl", "ln", "ls", "systemctl", "useradd")


def table() -> list[tuple[str, str, str]]:
    """The rows of the table of events: event, meaning, what to do."""
    start = RUNBOOK.index("| event |")
    rows = [line.strip("|").split(" | ") for line in RUNBOOK[start:].split("\n\n")[0].splitlines()[2:]]
    return [(event.strip(" `"), *(cell.strip() for cell in rest)) for event, *rest in rows]  # type: ignore[misc]


def meant(words: str) -> list[str]:
    """The words of a command, with something in the place of each placeholder."""
    return [PLACEHOLDERS.get(word, word) for word in shlex.split(words)]


def whole(words: list[str]) -> list[str]:
    """A command of the program that was named inside a sentence without the settings, with them."""
    return words if words[0] == "pack" or "--config" in words else [*words, "--config", "settings.toml"]


# --- events


def test_every_event_that_is_named_is_one_that_the_program_logs() -> None:
    named = {event for event, *_ in table()} | set(re.findall(r'`"([^"`]+)"`', RUNBOOK))
    assert len(named) > 30
    assert named - {event for _, event in LOGGED} == set()


def test_every_warning_and_every_error_of_the_program_stands_in_the_table() -> None:
    wanted = {event for level, event in LOGGED if level != "info"}
    assert len(wanted) > 25
    assert wanted - {event for event, *_ in table()} == set(), "say in deploy/runbook.md what to do about these"


def test_each_event_stands_there_once_with_what_it_means_and_what_to_do() -> None:
    rows = table()
    assert len({event for event, *_ in rows}) == len(rows)
    for event, meaning, to_do in rows:
        assert meaning, event
        assert to_do or "below" in meaning, event


def test_an_event_that_is_logged_nowhere_would_be_found() -> None:
    assert ("warning", "the needle is bent") not in LOGGED
    assert ("error", "failed: refused") in LOGGED
    assert ("warning", "uncertain, given up") in LOGGED


def test_what_is_said_to_stand_below_does() -> None:
    heads = re.findall(r"^(?:\*\*|## )([^*\n]+)", RUNBOOK, re.MULTILINE)
    known = {re.sub(r"[.]$| \(.*", "", head) for head in heads}
    pointed = {one for event, *cells in table() for cell in cells for one in re.findall(r'"([A-Z][^"]+)"', cell)}
    assert len(pointed) >= 4
    assert pointed - known == set()


# --- commands


@pytest.mark.parametrize("command", [line for line in (*SHOWN, *INLINE) if line.startswith("bedstamp ")])
def test_every_command_of_the_program_exists(command) -> None:
    words = meant(command)[1:]
    assert callable(_parser().parse_args(words if command in SHOWN else whole(words)).run)


@pytest.mark.parametrize("command", SHOWN)
def test_every_line_to_type_begins_with_something_known_and_is_whole(command) -> None:
    first, *rest = meant(command.split(" | ")[0])
    if first in ("runuser", "podman"):
        rest = rest[rest.index("--") + 1 :] if first == "runuser" else rest[2:]
        first, *rest = rest
    if first == "bash":
        script, *words = rest
        assert our_file(script).is_file()
        main = {"backup.sh": copies.main, "restore.sh": restoring.main}.get(Path(script).name)
        if main:  # it takes the words, and then misses the store
            assert main(words) == 2
    else:
        assert first in (*ORDINARY, "bedstamp")


def test_units_that_are_started_or_stopped_are_in_the_folder() -> None:
    named = re.compile(r"bedstamp[\w-]*\.(service|timer)")
    units = {word for line in SHOWN for word in shlex.split(line) if named.fullmatch(word)}
    assert units == {"bedstamp.service", "bedstamp-backup.service", "bedstamp-backup.timer"}
    for unit in units:
        assert (ROOT / "deploy" / unit).is_file()


# --- files


def our_file(name: str) -> Path:
    """The file in the project that a path on the machine of the runbook stands for."""
    return ROOT / re.sub(r"^/opt/bedstamp[^/]*/", "", name)


def test_every_file_of_the_project_that_is_named_is_there() -> None:
    named = {*re.findall(r"deploy/[\w.-]+\w", RUNBOOK), *re.findall(r"`([A-Z]+\.md)`", RUNBOOK)}
    assert {"deploy/backup.sh", "deploy/restore.sh", "deploy/Containerfile", "README.md"} <= named
    for name in named:
        assert (ROOT / name).is_file(), name


@pytest.mark.parametrize("page", ["README.md", "DEVELOPERS.md"])
def test_the_pages_lead_to_the_runbook(page) -> None:
    assert "deploy/runbook.md" in (ROOT / page).read_text(encoding="utf-8")


@pytest.mark.parametrize("script", ["backup.sh", "restore.sh"])
def test_the_scripts_say_what_they_take(script) -> None:
    done = subprocess.run(
        ["bash", ROOT / "deploy" / script, "--help"], cwd="/", capture_output=True, text=True, timeout=60, check=False
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert f"usage: {script}" in done.stdout
