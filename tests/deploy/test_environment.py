"""deploy/environment.sh makes, keeps and mends the environment, and says what to do when it cannot.

Tried on a small project of its own, with a package of its own, so that no network is needed.
"""

import hashlib
import os
import shutil
import subprocess
import zipfile
from dataclasses import dataclass
from pathlib import Path

import pytest

ENVIRONMENT = Path(__file__).parents[2] / "deploy" / "environment.sh"

# Builds an editable package without any build tool.
BACKEND = '''
import zipfile
from pathlib import Path

def build_editable(folder, config_settings=None, metadata_directory=None):
    name = "small-1-py3-none-any.whl"
    with zipfile.ZipFile(Path(folder, name), "w") as wheel:
        wheel.writestr("small.pth", str(Path.cwd()))
        wheel.writestr("small-1.dist-info/METADATA", METADATA)
        wheel.writestr("small-1.dist-info/WHEEL", WHEEL)
        wheel.writestr("small-1.dist-info/RECORD", "")
    return name
'''
METADATA = "Metadata-Version: 2.1\nName: {}\nVersion: {}\n"
WHEEL = "Wheel-Version: 1.0\nRoot-Is-Purelib: true\nTag: py3-none-any\n"


@dataclass
class Project:
    root: Path
    shelf: Path  # where pip finds packages

    @property
    def venv(self) -> Path:
        return self.root / ".venv"

    @property
    def lock(self) -> Path:
        return self.root / "deploy" / "lock.txt"

    def put_on_shelf(self, version: str) -> str:
        """Make version `version` of the package `thimble`; return its line for the lock."""
        wheel = self.shelf / f"thimble-{version}-py3-none-any.whl"
        info = f"thimble-{version}.dist-info"
        with zipfile.ZipFile(wheel, "w") as files:
            files.writestr("thimble.py", f"version = {version!r}\n")
            files.writestr(f"{info}/METADATA", METADATA.format("thimble", version))
            files.writestr(f"{info}/WHEEL", WHEEL)
            files.writestr(f"{info}/RECORD", "")
        return f"thimble=={version} --hash=sha256:{hashlib.sha256(wheel.read_bytes()).hexdigest()}\n"

    def bash(self, command: str, **settings: str) -> subprocess.CompletedProcess[str]:
        """Run `command` after sourcing the script, with pip knowing no index but the shelf."""
        shelf = {"PIP_NO_INDEX": "1", "PIP_FIND_LINKS": self.shelf.as_uri(), "PIP_CONFIG_FILE": os.devnull}
        ours = ("PIP_", "BEDSTAMP_", "PYTHON")
        kept = {name: value for name, value in os.environ.items() if not name.startswith(ours)}
        script = self.root / "deploy" / "environment.sh"
        return subprocess.run(
            ["bash", "-c", f'. "$0"; {command}', script],
            env=kept | shelf | settings,
            cwd="/",
            capture_output=True,
            text=True,
            timeout=120,
        )

    def prepare(self, **settings: str) -> subprocess.CompletedProcess[str]:
        return self.bash('prepare_environment "$root/deploy/lock.txt"', **settings)

    def is_sound(self) -> bool:
        return self.bash("environment_is_sound").returncode == 0

    def installed(self) -> str:
        """Version of `thimble` in the environment."""
        ask = [str(self.venv / "bin" / "python"), "-c", "import thimble; print(thimble.version)"]
        return subprocess.run(ask, capture_output=True, text=True, check=True).stdout.strip()


def project_in(folder: Path) -> Project:
    """Lay out a small project in a folder whose name has a space and a quote mark."""
    project = Project(folder / "gran's list" / "small", folder / "shelf")
    (project.root / "deploy").mkdir(parents=True)
    project.shelf.mkdir()
    shutil.copy(ENVIRONMENT, project.root / "deploy")
    constants = f"METADATA = {METADATA.format('small', 1)!r}\nWHEEL = {WHEEL!r}\n"
    (project.root / "backend.py").write_text(constants + BACKEND)
    (project.root / "pyproject.toml").write_text(
        '[build-system]\nrequires = []\nbuild-backend = "backend"\nbackend-path = ["."]\n'
    )
    project.lock.write_text(project.put_on_shelf("1.0"))
    return project


@pytest.fixture(scope="module")
def ready(tmp_path_factory) -> Project:
    """A project whose environment is made; tests that harm it put it right again."""
    project = project_in(tmp_path_factory.mktemp("ready"))
    result = project.prepare()
    assert result.returncode == 0, result.stdout + result.stderr
    assert "Making a Python environment" in result.stdout
    return project


@pytest.fixture
def bare(tmp_path) -> Project:
    """A project that has no environment yet."""
    return project_in(tmp_path)


@pytest.fixture
def lock(ready):
    """The lock of `ready`, to be changed: it is as before when the test is over."""
    before = ready.lock.read_text()
    yield ready.lock
    ready.lock.write_text(before)


def test_a_fresh_folder_gets_what_the_lock_names(ready):
    assert ready.installed() == "1.0"


def test_a_second_run_fetches_nothing_and_says_nothing(ready):
    before = (ready.venv / "lock.txt.installed").stat().st_mtime_ns
    result = ready.prepare(PIP_FIND_LINKS="file:///nowhere")
    assert (result.returncode, result.stdout, result.stderr) == (0, "", "")
    assert (ready.venv / "lock.txt.installed").stat().st_mtime_ns == before


def test_without_its_stamp_it_is_still_no_download(ready):
    (ready.venv / "lock.txt.installed").unlink()
    assert ready.prepare(PIP_FIND_LINKS="file:///nowhere").returncode == 0
    assert (ready.venv / "lock.txt.installed").exists()


@pytest.mark.parametrize("gone", ["bin/python", "bin/pip", "bin", "pyvenv.cfg", "lib"])
def test_a_half_made_environment_is_not_taken_for_a_whole_one(ready, gone):
    assert ready.is_sound()
    (ready.venv / gone).rename(ready.root / "aside")
    try:
        assert not ready.is_sound()
    finally:
        (ready.root / "aside").rename(ready.venv / gone)
    assert ready.is_sound()


def test_an_interrupted_installation_is_not_taken_for_a_whole_one(ready):
    (ready.venv / "unfinished").touch()
    try:
        assert not ready.is_sound()
    finally:
        (ready.venv / "unfinished").unlink()


def test_an_environment_that_was_moved_is_not_taken_for_a_sound_one(ready):
    elsewhere = ready.root.with_name("moved")
    ready.root.rename(elsewhere)
    try:
        assert not Project(elsewhere, ready.shelf).is_sound()
    finally:
        elsewhere.rename(ready.root)


def test_what_stands_in_the_way_is_replaced(bare):
    bare.venv.write_text("no folder at all")
    assert bare.prepare().returncode == 0
    assert bare.installed() == "1.0"


def test_a_changed_lock_is_installed_and_the_old_one_again(ready, lock):
    first = lock.read_text()
    lock.write_text(ready.put_on_shelf("1.1"))
    assert ready.prepare().returncode == 0
    assert ready.installed() == "1.1"
    lock.write_text(first)
    assert ready.prepare().returncode == 0
    assert ready.installed() == "1.0"


def test_a_package_with_another_hash_is_refused_and_the_environment_kept(ready, lock):
    ready.put_on_shelf("1.2")
    lock.write_text("thimble==1.2 --hash=sha256:" + "0" * 64)
    result = ready.prepare()
    assert result.returncode == 1
    assert "A download is not what it should be. Do not go on" in result.stderr
    assert ready.is_sound()
    assert ready.installed() == "1.0"


def test_without_a_network_it_says_so_and_keeps_the_environment(ready, lock):
    lock.write_text("thimble==9.9 --hash=sha256:" + "0" * 64)
    result = ready.prepare(PIP_NO_INDEX="0", PIP_INDEX_URL="http://127.0.0.1:9/", PIP_RETRIES="1")
    assert result.returncode == 1
    assert "The network could not be reached. Connect, and run this again" in result.stderr
    assert ready.is_sound()
    assert ready.installed() == "1.0"


def test_a_package_not_made_for_this_machine_is_said_to_be_that(ready, lock):
    lock.write_text("thimble==9.9 --hash=sha256:" + "0" * 64)
    result = ready.prepare()
    assert result.returncode == 1
    assert "There is no ready-made package for this machine or this Python" in result.stderr


def test_a_python_that_is_too_old_is_refused_with_what_to_do(bare, tmp_path):
    old = command_in(tmp_path, "python3", '[ "$1" = -V ] && echo "Python 3.9.2" || exit 1')
    result = bare.prepare(PYTHON=str(old))
    assert result.returncode == 1
    assert "Bedstamp needs Python 3.11 or newer; this is Python 3.9.2." in result.stderr
    assert not (bare.venv / "bin").exists()


def test_no_python_at_all_is_said(bare):
    result = bare.prepare(PYTHON="python-of-the-moon")
    assert result.returncode == 1
    assert "There is no python-of-the-moon here." in result.stderr


def test_who_may_not_install_debian_packages_is_told_the_command(bare, tmp_path):
    command_in(tmp_path / "bin", "id", "echo 1000")
    for name in ["sudo", "dpkg-query", "apt-get"]:
        command_in(tmp_path / "bin", name, "exit 1")
    path = f"{tmp_path / 'bin'}:{os.environ['PATH']}"
    result = bare.bash("need_debian_packages needle thread", PATH=path)
    assert result.returncode == 1
    assert "sudo apt-get install needle thread" in result.stderr


def test_debian_packages_that_are_there_are_not_installed_again(bare, tmp_path):
    command_in(tmp_path / "bin", "dpkg-query", "echo -n installed")
    command_in(tmp_path / "bin", "apt-get", "exit 1")
    path = f"{tmp_path / 'bin'}:{os.environ['PATH']}"
    result = bare.bash("need_debian_packages needle thread", PATH=path)
    assert (result.returncode, result.stdout, result.stderr) == (0, "", "")


def test_a_folder_that_cannot_be_written_is_said(bare):
    (bare.root / "build").write_text("in the way")
    result = bare.prepare()
    assert result.returncode == 1
    assert "cannot write in its own folder" in result.stderr


def command_in(folder: Path, name: str, body: str) -> Path:
    """Write a small command that stands in for one of the system's."""
    folder.mkdir(exist_ok=True)
    command = folder / name
    command.write_text(f"#!/bin/sh\n{body}\n")
    command.chmod(0o755)
    return command
