"""The lock files name exact versions with hashes, and no place to get them from."""

import re
import tomllib
from functools import cache
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
LOCKS = ["lock.txt", "lock-tests.txt"]
PYTHONS = ["3.11", "3.12", "3.13"]


@cache
def locked(lock: str) -> list[Requirement]:
    """Return the pinned requirements of a lock file, without their hashes."""
    return [Requirement(entry.split("--hash")[0]) for entry in entries(lock)]


@cache
def entries(lock: str) -> list[str]:
    """Return each requirement of a lock file with its hashes, on one line."""
    text = (ROOT / "deploy" / lock).read_text(encoding="utf-8")
    whole = re.sub(r"^\s*#.*\n", "", text, flags=re.MULTILINE).replace("\\\n", " ")
    return whole.splitlines()


def versions(lock: str, python: str) -> dict[str, str]:
    """Return {package: version} of a lock file as a Linux machine with this Python sees it."""
    here = {
        "python_version": python,
        "python_full_version": python + ".2",
        "sys_platform": "linux",
        "platform_python_implementation": "CPython",
    }
    fit = [r for r in locked(lock) if r.marker is None or r.marker.evaluate(here)]
    names = [canonicalize_name(r.name) for r in fit]
    assert len(set(names)) == len(names), "one version of each package for one machine"
    return {canonicalize_name(r.name): str(r.specifier).removeprefix("==") for r in fit}


def wanted(lock: str, python: str) -> list[Requirement]:
    """Return what pyproject.toml asks of that lock file."""
    groups = PROJECT["dependency-groups"]
    texts = [*PROJECT["project"]["dependencies"], *groups["build"]]
    if lock == "lock-tests.txt":
        texts += groups["tests"]
    all_of_them = [Requirement(text) for text in texts]
    return [r for r in all_of_them if r.marker is None or r.marker.evaluate({"python_version": python})]


@pytest.mark.parametrize("lock", LOCKS)
def test_every_package_is_pinned_and_has_a_hash(lock):
    assert entries(lock)
    for entry in entries(lock):
        assert re.match(r"[a-z0-9-]+==[^ ]+ .*--hash=sha256:[0-9a-f]{64}", entry), entry


@pytest.mark.parametrize("lock", LOCKS)
def test_no_index_host_or_folder_is_named(lock):
    text = (ROOT / "deploy" / lock).read_text(encoding="utf-8")
    assert not re.search(r"://|--index|--extra-index|--find-links|--trusted-host| @ |\s/", text)


@pytest.mark.parametrize("python", PYTHONS)
@pytest.mark.parametrize("lock", LOCKS)
def test_the_lock_holds_what_the_project_asks_for(lock, python):
    found = versions(lock, python)
    for requirement in wanted(lock, python):
        name = canonicalize_name(requirement.name)
        assert name in found, f"{name} is not in {lock}: run deploy/lock.sh"
        assert requirement.specifier.contains(found[name]), f"{lock} has {name} {found[name]}"


@pytest.mark.parametrize("python", PYTHONS)
def test_the_tests_run_against_the_versions_that_people_get(python):
    for_people, for_tests = versions("lock.txt", python), versions("lock-tests.txt", python)
    assert for_people == {name: for_tests.get(name) for name in for_people}
