"""What is built from the tree is whole: code, shipped packs and drawings."""

import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PARTS = ["bot", "knowledge"]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory) -> list[str]:
    """Names of the files in the built package, made offline from a copy of the tree."""
    copy = tmp_path_factory.mktemp("tree")
    for name in ["pyproject.toml", "README.md", "LICENSE"]:
        shutil.copy(ROOT / name, copy)
    for name in PARTS:
        shutil.copytree(ROOT / name, copy / name, ignore=shutil.ignore_patterns("__pycache__"))
    pip = [sys.executable, "-m", "pip"]
    build = [*pip, "wheel", "--quiet", "--no-index", "--no-deps", "--no-build-isolation"]
    subprocess.run([*build, "--wheel-dir", "out", "."], cwd=copy, check=True)
    return zipfile.ZipFile(next((copy / "out").glob("*.whl"))).namelist()


def test_every_file_of_bot_and_knowledge_is_in_the_package(wheel):
    here = {
        path.relative_to(ROOT).as_posix()
        for part in PARTS
        for path in (ROOT / part).rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }
    assert here - set(wheel) == set()


def test_tests_and_tools_stay_out_of_the_package(wheel):
    assert {name.split("/")[0] for name in wheel if ".dist-info/" not in name} == set(PARTS)


def test_the_licence_goes_with_it(wheel):
    assert any(name.endswith("licenses/LICENSE") for name in wheel)
