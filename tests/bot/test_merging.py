"""What a bot does with a pack of findings that its settings name."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from bot.expert_desk import Desk
from bot.journal import open_journal
from bot.merging import beside_ours, refuse_loss, take_up_in
from bot.running.packs import load_packs
from knowledge.errors import UsageError
from knowledge.packs import Pack, write
from knowledge.store import open_store
from tests.bot.conftest import PACK
from tests.bot.expert_desk.conftest import NOW
from tests.bot.expert_desk.test_shared import shared


@pytest.fixture
def folders(tmp_path: Path, pack_folder: Path) -> tuple[Path, ...]:
    write(shared(), tmp_path / "theirs")
    return pack_folder, tmp_path / "theirs"


def test_a_bot_makes_cases_of_what_a_named_pack_says_against_its_lists_once(tmp_path, folders) -> None:
    for _ in range(2):
        with open_journal(tmp_path / "group.sqlite", create=True) as journal:
            load_packs(folders, journal)
            assert [case.reasons for case in Desk(journal).cases()] == [("contradiction",)]


def test_a_file_without_a_desk_gets_one_with_its_first_case_and_not_before(tmp_path) -> None:
    path = tmp_path / "group.sqlite"
    with open_store(path, create=True) as store:
        store.save_pack(PACK)
        fine, against = beside_ours(shared("1890", model="t6"), store), beside_ours(shared(), store)
    assert fine is not None
    assert against is not None
    assert take_up_in(fine, path, NOW) == 0
    assert not tables_of_a_desk(path)
    assert [take_up_in(against, path, NOW) for _ in range(2)] == [1, 0]
    assert tables_of_a_desk(path)


def tables_of_a_desk(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as database:
        names = database.execute("SELECT name FROM sqlite_master WHERE name LIKE 'desk%'").fetchall()
    return [name for (name,) in names]


def test_a_pack_without_registers_does_not_replace_one_with_registers(tmp_path) -> None:
    with open_store(tmp_path / "group.sqlite", create=True) as store:
        store.save_pack(PACK)
        bare = Pack.of(PACK.name, *(one for name, one in shared().tables.items() if len(one)))
        with pytest.raises(UsageError, match=r"would be lost"):
            refuse_loss(bare, store)
        refuse_loss(PACK, store)
        refuse_loss(Pack.of("theirs", *shared().tables.values()), store)
