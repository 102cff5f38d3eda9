"""Mail that others collected: CPython's own test mails, the replies of the talon archive, mail-parser's.

talon and mail-parser are taken as source archives from the package index into scratch/cache (not part of the project).
"""

from __future__ import annotations

import importlib.util
import random
import re
import subprocess
import sys
import tarfile
from functools import cache
from pathlib import Path

import pytest

from bot.channels.mail_format import read
from bot.mail_account import account
from knowledge.base import Knowledge

CACHE = Path(__file__).parents[2] / "scratch" / "cache"
ARCHIVES = {"talon": "/tests/fixtures/standard_replies/", "mail-parser": "/tests/mails/"}
MUTATIONS, MANY_MUTATIONS = 60, 250


@cache
def cpython_mails() -> dict[str, bytes]:
    """The mails of CPython's test.test_email.data, where this Python has its tests."""
    found = importlib.util.find_spec("test")
    folders = [Path(one) / "test_email" / "data" for one in (found.submodule_search_locations or [])] if found else []
    return {path.name: path.read_bytes() for one in folders for path in sorted(one.glob("msg_*.txt"))}


@cache
def archived(package: str) -> dict[str, bytes]:
    """The mails in a source archive, downloaded once; none when it cannot be had."""
    CACHE.mkdir(parents=True, exist_ok=True)
    if not _archive(package):
        command = [
            sys.executable,
            "-m",
            "pip",
            "download",
            "--no-deps",
            "--no-binary",
            ":all:",
            "-d",
            str(CACHE),
            package,
        ]
        subprocess.run(command, capture_output=True, timeout=180, check=False)
    path = _archive(package)
    if path is None:
        return {}
    with tarfile.open(path) as archive:
        members = [one for one in archive if one.isfile() and ARCHIVES[package] in f"/{one.name}"]
        return {Path(one.name).name: archive.extractfile(one).read() for one in members}  # type: ignore[union-attr]


def _archive(package: str) -> Path | None:
    name = package.replace("-", "[-_]")
    return next((one for one in CACHE.iterdir() if re.match(f"{name}-[0-9].*\\.tar\\.gz$", one.name)), None)


def wanted(mails: dict[str, bytes], what: str) -> dict[str, bytes]:
    return mails or pytest.skip(f"{what} could not be had here")


def test_every_mail_of_cpython_is_answered_or_left_by_a_named_rule(marks: Knowledge):
    """Source: CPython, Lib/test/test_email/data."""
    mails = wanted(cpython_mails(), "CPython's test mails (this Python was installed without its tests)")
    assert len(mails) >= 47
    for name, raw in mails.items():
        told = account(name, raw, marks).as_json()
        assert told["reply"] is (told["rule"] is None), name


@pytest.mark.parametrize("package", ARCHIVES)
def test_every_collected_mail_is_answered_or_left_by_a_named_rule(package, marks: Knowledge):
    """Sources: talon, tests/fixtures/standard_replies; mail-parser, tests/mails."""
    for name, raw in wanted(archived(package), f"the source archive of {package}").items():
        told = account(name, raw, marks).as_json()
        assert told["reply"] is (told["rule"] is None), name


def test_the_replies_of_thirteen_mail_programs_are_told_from_their_quotes():
    """Source: talon, tests/fixtures/standard_replies: replies of one line each, to a mail that they quote."""
    mails = {
        name: raw for name, raw in wanted(archived("talon"), "the archive of talon").items() if name.endswith(".eml")
    }
    found = {name: read(raw).words.own for name, raw in mails.items() if name != "reply-quotations-share-block.eml"}
    assert len(found) >= 11
    assert set(found.values()) == {"Hello"}, {name: text for name, text in found.items() if text != "Hello"}


def test_a_report_of_cpython_is_known_as_one(marks: Knowledge):
    """Source: CPython, Lib/test/test_email/data: msg_16 and msg_43 are delivery reports."""
    mails = wanted(cpython_mails(), "CPython's test mails")
    assert account("msg_16.txt", mails["msg_16.txt"], marks).rule == "delivery-report"
    assert account("msg_43.txt", mails["msg_43.txt"], marks).rule == "delivery-report"


def test_mutated_mails_stop_nothing(marks: Knowledge):
    mutated_mails_stop_nothing(MUTATIONS, marks)


@pytest.mark.long
def test_many_mutated_mails_stop_nothing(marks: Knowledge):
    mutated_mails_stop_nothing(MANY_MUTATIONS, marks)


def mutated_mails_stop_nothing(count: int, marks: Knowledge) -> None:
    """Made from the mails above: bytes changed, cut out, doubled, lines shuffled, with a fixed seed."""
    mails = [*cpython_mails().values(), *archived("talon").values(), *archived("mail-parser").values()]
    chance = random.Random(20310504)
    for number in range(count):
        raw = mutated(chance.choice(wanted(dict(enumerate(mails)), "any mail")), chance)  # type: ignore[arg-type]
        told = account(str(number), raw, marks).as_json()
        assert told["reply"] is (told["rule"] is None)


def mutated(raw: bytes | int, chance: random.Random) -> bytes:
    content = bytearray(raw if isinstance(raw, bytes) else b"")[:60_000]
    for _ in range(chance.randint(1, 20)):
        at = chance.randrange(len(content) + 1)
        kind = chance.randrange(5)
        if kind == 0 and content:
            content[at % len(content)] = chance.randrange(256)
        elif kind == 1:
            del content[at : at + chance.randint(1, 200)]
        elif kind == 2:
            content[at:at] = content[at : at + chance.randint(1, 500)]
        elif kind == 3:
            content[at:at] = chance.choice(
                [b"\0", b"\r\n\r\n", b"--", b"=?x?q?", b"\xff\xfe", b"multipart/mixed", b"<", b">"]
            )
        else:
            lines = content.split(b"\n")
            chance.shuffle(lines)
            content = bytearray(b"\n".join(lines))
    return bytes(content)
