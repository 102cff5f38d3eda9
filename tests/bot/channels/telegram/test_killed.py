"""Killed again and again while groups write and the server misbehaves; the table is printed."""

from __future__ import annotations

import os

import pytest

from tests.chaos.chat import kill_and_count
from tests.chaos.experts_chat import kill_and_count as settle


def test_a_program_killed_while_the_server_misbehaves_loses_no_question(tmp_path, pack_folder) -> None:
    counts = kill_and_count(tmp_path, kills=4, questions=40, seed=20310504, packs=pack_folder)
    print(counts.table())
    assert counts.is_well, counts.table()


@pytest.mark.long
def test_killed_forty_times_during_500_questions_in_50_groups_it_loses_none(tmp_path) -> None:
    counts = kill_and_count(tmp_path, kills=40, questions=500, seed=int.from_bytes(os.urandom(3)))
    print(counts.table())
    assert counts.is_well, counts.table()


def test_a_case_that_is_settled_while_the_program_is_killed_is_settled_once_and_told(tmp_path, pack_folder) -> None:
    counts = settle(tmp_path, kills=3, cases=1, seed=20310504, packs=pack_folder)
    print(counts.table())
    assert counts.is_well, counts.table()


@pytest.mark.long
def test_killed_twelve_times_while_experts_work_every_case_is_settled_once_and_everybody_hears(
    tmp_path, pack_folder
) -> None:
    counts = settle(tmp_path, kills=12, cases=8, seed=int.from_bytes(os.urandom(3)), packs=pack_folder)
    print(counts.table())
    assert counts.is_well, counts.table()
