"""Tests of bot/running: the real program, with a small channel, killed and stopped and started."""

from __future__ import annotations

import json
import os
import resource
import signal
import sqlite3
import subprocess
import time
from contextlib import ExitStack, closing
from functools import partial
from pathlib import Path

import pytest

from knowledge.packs import Pack, Table, write
from knowledge.store import open_store
from tests.chaos.harness import Program, Upstream, fake_program, until
from tests.chaos.killing import kill_and_count, killed_at_step


@pytest.fixture
def prepared(tmp_path: Path):
    """Makes a program with its upstream; it is ended with the test, whatever became of it."""
    with ExitStack() as at_the_end:

        def prepare(settings: str = "") -> tuple[Program, Upstream]:
            program, upstream = fake_program(tmp_path, settings)
            return at_the_end.enter_context(program), upstream

        yield prepare


@pytest.fixture
def running(prepared):
    return prepared()


def state_of(folder: Path, name: str) -> str:
    with closing(sqlite3.connect(folder / "bedstamp.sqlite")) as file:
        found = file.execute("SELECT state FROM incoming WHERE key = ?", (name,)).fetchone()
    return found[0] if found else ""


# --- killed


def test_a_program_killed_at_random_moments_loses_no_question_and_answers_none_twice(tmp_path) -> None:
    counts = kill_and_count(tmp_path, kills=5, questions=60, seed=20310504)
    print(counts.table())
    assert counts.is_well, counts.table()


def kill_at_every_step(folder: Path, first: int, by: int) -> None:
    step, was_killed = first, True
    while was_killed:
        was_killed, counts = killed_at_step(folder / str(step), step)
        assert counts.is_well, f"killed at step {step}\n{counts.table()}"
        step += by
    assert step > 20


def test_a_program_killed_at_steps_from_the_first_byte_to_the_last_loses_nothing_and_repeats_nothing(tmp_path) -> None:
    kill_at_every_step(tmp_path, 2, 7)


@pytest.mark.long
def test_a_program_killed_at_every_step_loses_nothing_and_repeats_nothing(tmp_path) -> None:
    kill_at_every_step(tmp_path, 1, 1)


@pytest.mark.long
def test_a_program_killed_forty_times_loses_no_question_and_answers_none_twice(tmp_path) -> None:
    counts = kill_and_count(tmp_path, kills=40, questions=300, seed=int.from_bytes(os.urandom(3)))
    print(counts.table())
    assert counts.is_well, counts.table()


def test_a_message_that_ends_the_program_is_set_aside_and_the_others_are_answered(running, tmp_path) -> None:
    program, upstream = running
    poison = upstream.feed("end the program")
    fine = upstream.feed("how old?", talk="another")
    lives = 0
    while state_of(tmp_path, poison) != "aside" if (tmp_path / "bedstamp.sqlite").exists() else True:
        program.start()
        lives += 1
        assert lives < 10
        until(lambda: not program.is_running or program.saw("handled"))
    until(lambda: upstream.answers_to(fine))
    assert lives == 6  # five ends, and a life that knows


# --- stopped


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT])
def test_told_to_stop_it_finishes_what_is_in_hand_and_ends_well(running, tmp_path, number) -> None:
    program, upstream = running
    name = upstream.feed("take your time")
    program.start()
    until((upstream.folder / "in-hand").exists)
    program.signal(number)
    assert program.wait() == 0
    assert state_of(tmp_path, name) == "handled"
    assert program.saw("ended", clean=True)
    program.start()
    until(lambda: upstream.answers_to(name))


def test_a_second_process_on_the_same_store_is_refused_by_name_and_the_first_goes_on(running, tmp_path) -> None:
    program, upstream = running
    program.start()
    until(program.has_begun)
    link = tmp_path / "other-name.sqlite"
    link.symlink_to(tmp_path / "bedstamp.sqlite")
    (tmp_path / "second.toml").write_text('[store]\npath = "other-name.sqlite"')
    second = [*program.command[:2], str(tmp_path / "second.toml"), program.command[3]]
    environment = {**os.environ, "PYTHONPATH": os.getcwd()}
    refused = subprocess.run(second, capture_output=True, text=True, timeout=60, env=environment, check=False)
    assert refused.returncode == 2
    assert "is running with" in refused.stderr
    assert str(program._process.pid) in refused.stderr
    assert "Traceback" not in refused.stderr
    name = upstream.feed()
    until(lambda: upstream.answers_to(name))
    program.kill()  # a lock that outlived its process would be as bad
    program.start()
    name = upstream.feed()
    until(lambda: upstream.answers_to(name))


# --- failing


def test_what_cannot_be_handled_is_set_aside_and_holds_nothing_up(running, tmp_path) -> None:
    program, upstream = running
    unreadable = upstream.feed("unreadable", talk="a")
    failing = upstream.feed("fail", talk="b")
    broken = upstream.feed(name="broken")
    (upstream.folder / "in" / broken).write_text("this is no message")
    fine = upstream.feed(talk="c")
    program.start()
    until(lambda: upstream.answers_to(fine))
    assert state_of(tmp_path, unreadable) == "aside"
    until(lambda: state_of(tmp_path, failing) == state_of(tmp_path, broken) == "waiting")


def test_a_message_that_fails_for_a_while_is_answered_before_the_later_ones_of_its_talk(running) -> None:
    program, upstream = running
    first = upstream.feed("fail until mended", number=1)
    second = upstream.feed(number=2)
    other = upstream.feed(talk="another")
    program.start()
    until(lambda: upstream.answers_to(other))
    until(lambda: program.saw("failed, to be tried again"))
    assert not upstream.answers_to(second)
    (upstream.folder / "mended").touch()
    until(lambda: upstream.answers_to(second))
    assert upstream.answers_to(first)[0]["seen"] == [1]
    assert upstream.answers_to(second)[0]["seen"] == [1, 2]


def test_a_channel_that_breaks_is_started_again(running) -> None:
    program, upstream = running
    upstream.feed(name="break-the-channel")
    program.start()
    until(lambda: program.saw("failed, started again", part="fake", error="ConnectionError"))
    later = upstream.feed()
    until(lambda: upstream.answers_to(later))
    assert upstream.answers_to("break-the-channel")


def test_what_the_other_side_says_to_a_reply_is_kept(running, tmp_path) -> None:
    program, upstream = running
    names = {text: upstream.feed(text, talk=text) for text in ("refuse it", "put it off", "say nothing once")}
    program.start()

    def states() -> dict[str, str]:
        with closing(sqlite3.connect(tmp_path / "bedstamp.sqlite")) as file:
            rows = file.execute(
                "SELECT incoming.key, outgoing.state FROM outgoing JOIN incoming ON answers = incoming.id"
            )
            return dict(rows)

    until(lambda: program.saw("uncertain") and program.saw("put off") and program.saw("failed: refused"))
    found = states()
    assert found[names["refuse it"]] == "failed"
    assert found[names["put it off"]] == "queued"
    assert found[names["say nothing once"]] == "uncertain"


def test_without_a_connection_the_queue_is_held_and_goes_out_when_there_is_one(running) -> None:
    program, upstream = running
    held = upstream.feed("no connection")
    program.start()
    until(lambda: program.saw("not sent, held back"))
    (upstream.folder / "connected").touch()
    until(lambda: upstream.answers_to(held))


def test_no_log_line_holds_what_people_wrote(running) -> None:
    program, upstream = running
    upstream.feed("fail")
    name = upstream.feed("my secret number 204117", talk="ann@example.org")
    program.start()
    until(lambda: upstream.answers_to(name))
    assert program.terminate() == 0
    log = program.log.read_text()
    assert all(line.startswith("{") for line in log.splitlines())
    for word in ("204117", "ann@example.org", "it cannot be done", "Traceback"):
        assert word not in log


# --- knowledge


def pack_of(folder: Path, maker: str) -> Path:
    table = Table.of("makers", {"maker": [maker], "name": [maker.title()]})
    register = Table.of(
        "registers", {"register": ["r"], "maker": [maker], "kind": ["allocations"], "title": ["Ledger"]}
    )
    blocks = {"register": ["r"], "prefix": ["K"], "first": ["200001"], "last": ["225000"], "date": ["1890"]}
    write(Pack.of("ours", table, register, Table.of("allocations", blocks), title="Ours"), folder)
    return folder


def test_the_packs_shipped_are_there_when_none_is_named(running) -> None:
    program, upstream = running
    name = upstream.feed()
    program.start()
    until(lambda: upstream.answers_to(name))
    assert upstream.answers_to(name)[0]["makers"]


def test_the_packs_named_are_loaded_at_the_start_once_and_again_when_they_change(prepared, tmp_path) -> None:
    pack = pack_of(tmp_path / "ours", "quillen")
    program, upstream = prepared('[knowledge]\npacks = ["ours"]')
    for maker, loads in (("quillen", 1), ("quillen", 1), ("marrack", 2)):
        pack_of(pack, maker)
        name = upstream.feed()
        program.start()
        until(partial(upstream.answers_to, name))
        assert program.terminate() == 0
        assert upstream.answers_to(name)[0]["makers"] == [maker]
        assert sum(one["event"] == "loaded" for one in program.events()) == loads


def test_a_pack_that_became_faulty_leaves_its_earlier_state_at_work(prepared, tmp_path) -> None:
    pack = pack_of(tmp_path / "ours", "quillen")
    program, upstream = prepared('[knowledge]\npacks = ["ours"]')
    program.start()
    until(program.has_begun)
    assert program.terminate() == 0
    (pack / "allocations.csv").write_text("register,first,last,date\nr,9,1,1890\n")
    name = upstream.feed()
    program.start()
    until(lambda: upstream.answers_to(name))
    assert program.terminate() == 0
    assert upstream.answers_to(name)[0]["makers"] == ["quillen"]
    assert program.saw("faulty, so the earlier state stays; see: bedstamp pack check", pack="ours")


def test_a_pack_that_is_faulty_from_the_first_stops_the_start_with_its_faults(prepared, tmp_path) -> None:
    pack = pack_of(tmp_path / "ours", "quillen")
    (pack / "allocations.csv").write_text("register,first,last,date\nr,9,1,1890\n")
    program, _ = prepared('[knowledge]\npacks = ["ours"]')
    program.start()
    assert program.wait() == 1
    assert "allocations.csv" in program.log.read_text()


def test_packs_that_are_named_no_more_leave_the_answers(prepared, tmp_path) -> None:
    program, _ = prepared()  # the packs shipped
    program.start()
    until(program.has_begun)
    assert program.terminate() == 0
    pack_of(tmp_path / "ours", "quillen")
    program, upstream = prepared('[knowledge]\npacks = ["ours"]')
    name = upstream.feed()
    program.start()
    until(lambda: upstream.answers_to(name))
    assert program.terminate() == 0
    assert upstream.answers_to(name)[0]["makers"] == ["quillen"]
    with open_store(tmp_path / "bedstamp.sqlite") as store:
        assert store.pack_names() == ("ours",)


def test_a_pack_that_is_named_again_is_loaded_again_though_its_files_are_the_same(prepared, tmp_path) -> None:
    ours, theirs = pack_of(tmp_path / "ours", "quillen"), tmp_path / "theirs"
    theirs.mkdir()
    for file in ours.iterdir():
        (theirs / file.name).write_text(file.read_text().replace('"ours"', '"theirs"').replace("quillen", "marrack"))
    both = (["ours", "theirs"], ["marrack", "quillen"])
    for start, (named, makers) in enumerate((both, (["ours"], ["quillen"]), both)):
        program, upstream = prepared(f"[knowledge]\npacks = {named}")
        name = upstream.feed(name=f"start-{start}")
        program.start()
        until(partial(upstream.answers_to, name))
        assert program.terminate() == 0
        assert sorted(upstream.answers_to(name)[0]["makers"]) == makers


def test_knowledge_that_another_process_changes_is_used_from_the_next_question_on(running, tmp_path) -> None:
    program, upstream = running
    program.start()
    before = upstream.feed()
    until(lambda: upstream.answers_to(before))
    with open_store(tmp_path / "bedstamp.sqlite") as store:
        store.save_pack(Pack.of("more", Table.of("makers", {"maker": ["quillen"]})))
    after = upstream.feed()
    until(lambda: upstream.answers_to(after))
    assert "quillen" not in upstream.answers_to(before)[0]["makers"]
    assert "quillen" in upstream.answers_to(after)[0]["makers"]


# --- a store that others use too


def test_others_may_open_and_close_the_store_at_any_time_and_nothing_is_lost_by_it(running, tmp_path) -> None:
    program, upstream = running
    program.start()
    until(program.has_begun)
    names = []
    for number in range(20):
        names.append(upstream.feed(number=number))
        time.sleep(0.05)
        state_of(tmp_path, names[-1])  # opens the file and closes it, as any other program
    until(lambda: all(upstream.answers_to(name) for name in names))
    program.kill()
    assert {state_of(tmp_path, name) for name in names} == {"handled"}


def test_a_store_held_by_another_program_delays_and_loses_nothing(running, tmp_path) -> None:
    program, upstream = running
    program.start()
    until(program.has_begun)
    with closing(sqlite3.connect(tmp_path / "bedstamp.sqlite")) as other:
        other.execute("BEGIN IMMEDIATE")
        names = [upstream.feed(number=number) for number in range(3)]
        until(lambda: program.saw("failed, started again", error="StoreError"))
        other.rollback()
    until(lambda: all(upstream.answers_to(name) for name in names))
    assert upstream.answers_to(names[-1])[0]["seen"] == [0, 1, 2]


def test_on_a_full_disk_nothing_is_acknowledged_and_all_is_answered_when_there_is_room(running) -> None:
    program, upstream = running
    program.start()
    first = upstream.feed()
    until(lambda: upstream.answers_to(first))
    program.limit_files_to(1000)
    names = [upstream.feed(number=number) for number in range(20)]
    time.sleep(2)
    assert [path.name for path in sorted((upstream.folder / "in").iterdir())] == names
    assert program.is_running
    program.limit_files_to(resource.RLIM_INFINITY)
    until(lambda: all(upstream.answers_to(name) for name in names))
    assert all(len(by_key) == 1 for by_key in upstream.delivered().values())


def test_a_disk_that_is_full_when_the_reply_is_to_be_kept_delays_it_and_loses_nothing(running) -> None:
    program, upstream = running
    names = [upstream.feed("take your time"), upstream.feed(talk="another")]
    program.start()
    until((upstream.folder / "in-hand").exists)
    program.limit_files_to(1000)
    time.sleep(2)
    assert not upstream.delivered()
    program.limit_files_to(resource.RLIM_INFINITY)
    until(lambda: all(upstream.answers_to(name) for name in names))
    assert all(len(by_key) == 1 for by_key in upstream.delivered().values())


def test_every_log_line_is_whole_and_says_when_where_and_what(running) -> None:
    program, upstream = running
    name = upstream.feed()
    program.start()
    until(lambda: upstream.answers_to(name))
    program.terminate()
    for line in program.log.read_text().splitlines():
        assert {"time", "level", "part", "event"} <= json.loads(line).keys()
