"""The container file: what it takes in is there and is enough, what it starts exists, no secret is in it.

No image is built here: that takes a builder and the network.
"""

from __future__ import annotations

import os
import re
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from bot.__main__ import _parser

ROOT = Path(__file__).parents[2]
TEXT = (ROOT / "deploy" / "Containerfile").read_text(encoding="utf-8")


def steps() -> list[tuple[str, str]]:
    """The instructions with what stands behind them, lines put together."""
    lines = "\n".join(line for line in TEXT.splitlines() if not line.startswith("#")).replace("\\\n", " ")
    found = (line.partition(" ") for line in lines.splitlines())
    return [(word, " ".join(rest.split())) for word, _, rest in found if word]


def last_stage() -> list[tuple[str, str]]:
    start = max(place for place, (word, _) in enumerate(steps()) if word == "FROM")
    return steps()[start:]


def copied() -> list[tuple[list[str], str]]:
    """What comes from the project: sources and where to."""
    found = [rest.split() for word, rest in steps() if word == "COPY" and not rest.startswith("--from")]
    return [(words[:-1], words[-1]) for words in found]


@pytest.fixture
def taken_in(tmp_path: Path) -> Path:
    """A folder with what the image takes in from the project, and nothing else."""
    for sources, target in copied():
        for source in sources:
            path = ROOT / source
            if path.is_dir():
                shutil.copytree(path, tmp_path / target, ignore=shutil.ignore_patterns("__pycache__"))
            else:
                (tmp_path / target).mkdir(parents=True, exist_ok=True)
                shutil.copy(path, tmp_path / target)
    return tmp_path


def run(command: list[str], folder: Path, **settings: str) -> subprocess.CompletedProcess[str]:
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"} | settings
    return subprocess.run(
        command, cwd=folder, env=environment, capture_output=True, text=True, timeout=120, check=False
    )


def test_every_instruction_is_one_that_the_format_has() -> None:
    known = {"FROM", "RUN", "COPY", "WORKDIR", "ENV", "USER", "VOLUME", "STOPSIGNAL", "ENTRYPOINT", "CMD"}
    assert {word for word, _ in steps()} <= known


def test_what_it_takes_in_is_there_and_is_no_more_than_is_named() -> None:
    for sources, _ in copied():
        for source in sources:
            assert (ROOT / source).exists(), source
            assert source != "."


def test_packages_are_installed_from_the_lock_alone_with_their_hashes() -> None:
    (locked,) = [rest for word, rest in steps() if word == "RUN" and "-r deploy/lock.txt" in rest]
    assert "--require-hashes --only-binary=:all:" in locked
    for _, rest in steps():
        for command in re.findall(r"pip install ([^&]+)", rest):
            assert "-r deploy/lock.txt" in command or "--no-index --no-deps" in command


def test_what_it_takes_in_is_enough_to_install_the_program(taken_in) -> None:
    pip = [sys.executable, "-m", "pip", "wheel", "--quiet", "--no-index", "--no-deps", "--no-build-isolation"]
    done = run([*pip, "--wheel-dir", "out", "."], taken_in)
    assert done.returncode == 0, done.stderr
    assert list((taken_in / "out").glob("bedstamp-*.whl"))


def test_what_it_takes_in_is_enough_to_answer_and_to_make_copies(taken_in, tmp_path) -> None:
    outside = tmp_path / "outside"
    outside.mkdir()
    answer = run([sys.executable, "-m", "bot", "ask", "K204117, how old?"], taken_in)
    assert (answer.returncode, answer.stderr) == (0, "")
    assert "1889" in answer.stdout
    store = outside / "a.sqlite"
    pack = "knowledge/shipped/demo"
    assert run([sys.executable, "-m", "bot", "pack", "load", pack, "--db", str(store)], taken_in).returncode == 0
    for words in (["backup.sh", store, outside / "copies"], ["restore.sh", store, outside / "b.sqlite"]):
        script, *rest = map(str, words)
        done = run(["bash", str(taken_in / "deploy" / script), *rest], outside, BEDSTAMP_VENV=sys.prefix)
        assert (done.returncode, done.stderr) == (0, "")


def test_it_runs_as_a_user_without_rights_who_cannot_change_the_program() -> None:
    words = [word for word, _ in last_stage()]
    (user,) = [rest for word, rest in last_stage() if word == "USER"]
    assert re.fullmatch(r"[1-9]\d{3,}:[1-9]\d{3,}", user)
    assert words.index("USER") < words.index("ENTRYPOINT")
    assert "RUN" not in words[words.index("USER") :]
    (given,) = re.findall(r"install -d -o bedstamp (?:-\w \S+ )*(.+)", dict(last_stage())["RUN"])
    assert "/opt" not in given


def test_the_store_and_its_copies_outlive_the_container() -> None:
    told = dict(last_stage())
    assert told["VOLUME"] == '["/var/lib/bedstamp", "/var/backups/bedstamp"]'
    assert 'path = "/var/lib/bedstamp/bedstamp.sqlite"' in TEXT


def test_it_starts_the_program_and_stops_it_by_the_signal_that_the_program_knows() -> None:
    told = dict(last_stage())
    assert shlex.split(told["ENTRYPOINT"].strip("[]")) == ["bedstamp"]
    words = [word.strip(",") for word in shlex.split(told["CMD"].strip("[]"))]
    assert _parser().parse_args(words).config == Path("/etc/bedstamp/settings.toml")
    assert told["STOPSIGNAL"] == "SIGTERM"


def test_no_secret_is_in_it() -> None:
    for word, rest in steps():
        assert word != "ARG"
        assert not re.search(r"(?i)token|password|secret", rest)
