"""The running bot and the commands answer from the findings in the knowledge base file, as they stand."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from bot.__main__ import main
from bot.journal import Journal, open_journal
from bot.running.packs import Shelf
from bot.wiring import open_library
from knowledge.answer import answer
from knowledge.base import Knowledge
from knowledge.store import open_store
from tests.bot.conftest import PACK
from tests.bot.replies.test_settled import NOON, ON_K204117


@pytest.fixture
def path(tmp_path: Path) -> Path:
    with open_store(tmp_path / "base.sqlite", create=True) as store:
        store.save_pack(PACK)
    return tmp_path / "base.sqlite"


@pytest.fixture
def journal(path: Path) -> Iterator[Journal]:
    with open_journal(path) as opened:
        yield opened


def dates(knowledge: Knowledge) -> list[str]:
    return [one.date for one in answer("K204117", knowledge).candidates if one.kind == "finding"]


def test_a_running_bot_answers_from_a_finding_as_soon_as_it_is_stored(path: Path, journal: Journal) -> None:
    shelf, seen = Shelf(), []
    with open_store(path) as desk:
        for change in (
            lambda: None,
            lambda: desk.add_finding(ON_K204117),
            lambda: desk.amend_finding(ON_K204117.key, replace(ON_K204117, date="1890")),
            lambda: desk.withdraw_finding(ON_K204117.key, "expert 3", NOON, "another machine"),
        ):
            change()
            seen.append(dates(shelf.current(journal)))
    assert seen == [[], ["1891"], ["1890"], []]


def test_commands_with_a_knowledge_base_answer_from_its_findings(
    path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with open_store(path) as desk:
        desk.add_finding(ON_K204117)
    assert main(["ask", "--db", str(path), "--json", "How old is K204117?"]) == 0
    told = json.loads(capsys.readouterr().out)["candidates"][0]
    assert (told["kind"], told["source"]) == (
        "finding", "an expert of the group, 2026-11-25: by the shuttle; ledger p. 40",
    )  # fmt: skip


def test_a_library_that_stays_open_reads_them_anew(path: Path) -> None:
    library = open_library(database=path)
    with open_store(path) as desk:
        assert dates(library.current()) == []
        desk.add_finding(ON_K204117)
        assert dates(library.current()) == ["1891"]
    library.close()


def test_a_package_alone_has_no_findings(pack_folder: Path) -> None:
    assert len(open_library([pack_folder]).current().findings) == 0
