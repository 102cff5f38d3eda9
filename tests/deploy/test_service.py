"""The units for systemd: they fit the way the program starts and ends, and leave it no more rights than it needs.

Whether the bot works under them is not tried here: that takes a running systemd.
"""

from __future__ import annotations

import re
import shutil
import subprocess
from collections import defaultdict
from pathlib import Path

import pytest

from bot import running
from bot.__main__ import _parser
from bot.journal.waits import BEGUN_MOST
from bot.running.upkeep import HUNG

ROOT = Path(__file__).parents[2]
UNITS = ["bedstamp.service", "bedstamp-backup.service", "bedstamp-backup.timer"]
SERVICES = UNITS[:2]
HAS_SYSTEMD = shutil.which("systemd-analyze") is not None
WITHOUT = "systemd-analyze is not here (Debian package systemd)"


def unit(name: str) -> dict[str, list[str]]:
    """The values of each key of a unit, in their order."""
    found: dict[str, list[str]] = defaultdict(list)
    for line in (ROOT / "deploy" / name).read_text(encoding="utf-8").splitlines():
        if not line.startswith(("#", "[")) and line.strip():
            key, _, value = line.partition("=")
            found[key].append(value)
    return found


def one(name: str, key: str) -> str:
    (value,) = unit(name)[key]
    return value


def seconds(span: str) -> float:
    number, what = re.fullmatch(r"(\d+)(s|min)", span).groups()  # type: ignore[union-attr]
    return float(number) * {"s": 1, "min": 60}[what]


# --- starting and ending


def test_it_starts_the_program_with_a_command_that_exists() -> None:
    program, *words = one("bedstamp.service", "ExecStart").split()
    assert Path(program).name == "bedstamp"
    assert _parser().parse_args(words).config == Path("/etc/bedstamp/settings.toml")


def test_it_is_given_more_time_to_stop_than_the_program_takes() -> None:
    assert seconds(one("bedstamp.service", "TimeoutStopSec")) >= running.GRACE + running._LAST + 10


def test_it_is_started_again_but_not_for_ever() -> None:
    assert one("bedstamp.service", "Restart") == "on-failure"
    quick_ends = seconds(one("bedstamp.service", "RestartSec")) * int(one("bedstamp.service", "StartLimitBurst"))
    assert quick_ends < seconds(one("bedstamp.service", "StartLimitIntervalSec")) / 2


def test_a_message_that_hangs_is_set_aside_before_systemd_gives_up() -> None:
    """It takes several ends of the program, each no sooner than `HUNG` seconds after the one before."""
    starts_in_one_interval = seconds(one("bedstamp.service", "StartLimitIntervalSec")) / HUNG + 1
    assert starts_in_one_interval < min(BEGUN_MOST, int(one("bedstamp.service", "StartLimitBurst")))


def test_the_program_ends_well_when_told_to_by_the_signal_that_systemd_sends() -> None:
    assert not unit("bedstamp.service")["KillSignal"]  # SIGTERM, as tests/bot/test_running.py tries


# --- rights


@pytest.mark.parametrize("name", SERVICES)
def test_it_runs_as_a_user_of_its_own_without_rights(name) -> None:
    assert one(name, "User") == one(name, "Group") == "bedstamp"
    assert one(name, "CapabilityBoundingSet") == ""
    assert one(name, "NoNewPrivileges") == "yes"


def test_it_writes_to_the_folder_of_its_store_and_nowhere_else() -> None:
    assert one("bedstamp.service", "ProtectSystem") == "strict"
    assert not unit("bedstamp.service")["ReadWritePaths"]
    assert one("bedstamp.service", "StateDirectory") == "bedstamp"
    for page in (ROOT / "deploy" / name for name in ("bedstamp.service", "runbook.md", "Containerfile")):
        assert 'path = "/var/lib/bedstamp/bedstamp.sqlite"' in page.read_text(encoding="utf-8")


def test_making_copies_needs_no_network_and_writes_to_two_folders() -> None:
    assert one("bedstamp-backup.service", "PrivateNetwork") == "yes"
    script, store, folder = one("bedstamp-backup.service", "ExecStart").split()[1:]
    assert (ROOT / script.removeprefix("/opt/bedstamp/")).is_file()
    assert one("bedstamp-backup.service", "ReadWritePaths").split() == [str(Path(store).parent), folder]


@pytest.mark.parametrize("name", UNITS)
def test_no_secret_stands_in_a_unit(name) -> None:
    assert not {"Environment", "SetCredential", "PassEnvironment"} & set(unit(name))


# --- as systemd sees them


@pytest.fixture
def units(tmp_path: Path) -> Path:
    """The units with the program where it is found."""
    program = tmp_path / "bedstamp"
    program.write_text("#!/bin/sh\n")
    program.chmod(0o755)
    for name in UNITS:
        text = (ROOT / "deploy" / name).read_text(encoding="utf-8")
        (tmp_path / name).write_text(text.replace("/opt/bedstamp/.venv/bin/bedstamp", str(program)))
    return tmp_path


def analyze(*words: object) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        ["systemd-analyze", *map(str, words)], capture_output=True, text=True, timeout=60, check=False
    )


@pytest.mark.skipif(not HAS_SYSTEMD, reason=WITHOUT)
def test_systemd_finds_no_fault(units) -> None:
    done = analyze("verify", "--man=no", "--recursive-errors=no", *(units / name for name in UNITS))
    assert [line for line in done.stderr.splitlines() if "bedstamp" in line] == []
    assert done.returncode == 0


@pytest.mark.skipif(not HAS_SYSTEMD, reason=WITHOUT)
def test_systemd_would_find_a_fault(units) -> None:
    service = units / "bedstamp.service"
    service.write_text(service.read_text().replace("ProtectHome=yes", "ProtectHomes=yes"))
    assert "ProtectHomes" in analyze("verify", "--man=no", "--recursive-errors=no", service).stderr


@pytest.mark.skipif(not HAS_SYSTEMD, reason=WITHOUT)
@pytest.mark.parametrize("name", SERVICES)
def test_systemd_counts_little_that_the_service_could_do_to_the_machine(units, name) -> None:
    """An exposure of at most 2 of 10; a service without any of this has 9.6."""
    done = analyze("security", "--offline=true", "--threshold=20", units / name)
    assert done.returncode == 0, done.stdout
