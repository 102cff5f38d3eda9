"""Tests of `bedstamp journal`."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bot.__main__ import main
from bot.journal import Reply, Talk, open_journal

NOW = datetime(2031, 5, 4, 10, 0, tzinfo=UTC)
REFUSAL = "550 5.1.1 <bob@example.org>: Recipient address rejected: User unknown in local recipient table"


@pytest.fixture
def store(tmp_path: Path) -> Path:
    """in-1 answered by out-1, in-2 left by a rule, in-3 aside, in-4 failing, in-5 new; out-2 failed, out-3 put off."""
    path = tmp_path / "group.sqlite"
    with open_journal(path, create=True) as journal:
        for number in range(1, 6):
            raw = f"Subject: machine {number}\n\nHow old is K 0 204 117? \x1b[2J\n".encode()
            journal.receive("mail", f"<k{number}@x>", raw, NOW, place=f"INBOX/17/{number}")
        answer = Reply("mail", "<r1@bot>", "ann@example.org", b"Dear Ann, probably 1921.", "ann@example.org", "talk")
        journal.handled(1, [answer], Talk("talk", "{}"), person="ann@example.org", now=NOW)
        journal.handled(2, rule="list-mail", now=NOW)
        journal.set_aside(3, "There is no text in it: only a picture that could not be opened at all.", now=NOW)
        journal.failed_try(4, "ValueError: month must be in 1..12", now=datetime.now(UTC) + timedelta(hours=1))
        journal.sending(1)
        journal.sent(1, "queued as 4XYZ", now=NOW)
        journal.queue(
            [Reply("mail", "<r2@bot>", "bob@example.org", b"Dear Bob"), Reply("mail", "<r3>", "c", b"")], now=NOW
        )
        journal.failed(2, REFUSAL, now=NOW)
        journal.put_off(3, "451 come back later", now=NOW)
    return path


@pytest.fixture
def call(capsysbinary, monkeypatch, store):
    monkeypatch.setenv("COLUMNS", "60")

    def called(*arguments: str, where: tuple[str, ...] = ("--db", str(store))) -> tuple[int, str, str]:
        code = main(["journal", arguments[0], *where, *arguments[1:]])
        out, err = (stream.decode() for stream in capsysbinary.readouterr())
        assert "Traceback" not in err
        return code, out, err

    return called


def test_the_list_shows_what_is_not_finished_with_its_reason_and_not_what_is(call) -> None:
    code, out, _ = call("list")
    assert code == 0
    for shown in ("in-3", "in-4", "in-5", "out-2", "out-3", "month must be in 1..12", "rejected", "again at"):
        assert shown in out
    for left_out in ("in-1 ", "in-2 ", "out-1 "):
        assert left_out not in out


def test_the_list_of_all_shows_also_what_was_handled_and_the_rule_that_left_it_without_answer(call) -> None:
    _, out, _ = call("list", "--all")
    assert "not answered: list-mail" in out
    assert "answers in-1" in out


@pytest.mark.parametrize("arguments", [("list",), ("list", "--all"), ("show", "in-3"), ("show", "out-2")])
def test_no_line_is_wider_than_60_columns_and_nothing_in_it_moves_the_cursor(call, arguments) -> None:
    _, out, _ = call(*arguments)
    assert max(map(len, out.splitlines())) <= 60
    assert "\x1b" not in out


def test_the_list_is_cut_where_it_is_told_to(call) -> None:
    _, out, _ = call("list", "--most", "1")
    assert "in-5" in out
    assert "in-4" not in out


def test_json_has_one_line_for_each_message(call) -> None:
    _, out, _ = call("list", "--all", "--json")
    found = {one["id"]: one for one in map(json.loads, out.splitlines())}
    assert len(found) == 8
    assert found["in-2"]["rule"] == "list-mail"
    assert (found["out-2"]["state"], found["out-2"]["reason"]) == ("failed", REFUSAL)
    assert found["out-1"]["answers"] == "in-1"


def test_a_message_is_shown_with_all_that_is_known_of_it(call) -> None:
    _, out, _ = call("show", "in-1")
    for shown in ("Handled", "ann@example.org", "INBOX/17/1", "out-1 (sent)", "How old is K 0 204 117?"):
        assert shown in out
    _, out, _ = call("show", "out-1")
    for shown in ("Sent", "answers".title(), "in-1", "queued as 4XYZ", "Dear Ann"):
        assert shown in out


def test_raw_prints_the_bytes_and_nothing_else(call, store) -> None:
    _, out, _ = call("show", "in-3", "--raw")
    assert out == "Subject: machine 3\n\nHow old is K 0 204 117? \x1b[2J\n"


def test_what_was_pruned_says_so(call, store) -> None:
    with open_journal(store) as journal:
        journal.prune(NOW + timedelta(days=1))
    assert "not kept any more" in call("show", "in-1")[1]


def test_retry_lets_messages_be_tried_again_now(call, store) -> None:
    code, out, _ = call("retry", "in-3", "out-2", "in-4")
    assert code == 0
    assert out.splitlines() == [
        "in-3 will be handled again.",
        "out-2 will be sent again.",
        "in-4 will be handled again.",
    ]
    with open_journal(store) as journal:
        assert [one.id for one in journal.waiting(datetime.now(UTC))] == [3, 4, 5]
        assert [one.id for one in journal.due("mail", NOW)] == [2]


def test_retry_all_takes_everything_that_is_aside_or_failed(call) -> None:
    assert call("retry", "all")[1].splitlines() == ["in-3 will be handled again.", "out-2 will be sent again."]
    assert call("retry", "all")[1].splitlines() == ["Nothing is set aside and nothing failed."]


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (("retry", "in-1"), 1, "answer it twice"),
        (("retry", "out-1"), 1, "sent already"),
        (("retry", "in-99"), 1, "no message in-99"),
        (("show", "out-99"), 1, "no message out-99"),
        (("show", "12"), 2, "in-12 or out-7"),
        (("show", "in-99999999999999999999999"), 2, "in-12 or out-7"),
        (("list", "--most", "0"), 2, "at least 1"),
    ],
)
def test_what_cannot_be_done_is_said_plainly(call, arguments, code, said) -> None:
    got, _, err = call(*arguments)
    assert (got, said in " ".join(err.split())) == (code, True), err


def test_the_store_is_found_by_the_settings_too(call, store) -> None:
    (store.parent / "settings.toml").write_text('[store]\npath = "group.sqlite"')
    assert "in-3" in call("list", where=("--config", str(store.parent / "settings.toml")))[1]


def test_without_a_store_it_says_what_to_name(call) -> None:
    assert call("list", where=())[0] == 2
    code, _, err = call("list", where=("--db", "/nowhere/at/all.sqlite"))
    assert (code, "/nowhere/at/all.sqlite" in err) == (2, True)
    assert call("list", where=("--config", "/nowhere.toml"))[0] == 2


def test_an_empty_journal_says_so(call, tmp_path) -> None:
    open_journal(tmp_path / "new.sqlite", create=True).close()
    assert call("list", where=("--db", str(tmp_path / "new.sqlite")))[1] == "The journal is empty.\n"


def test_looking_opens_the_file_for_reading_alone(store, monkeypatch, capsysbinary) -> None:
    monkeypatch.setattr("bot.journal.open_journal", lambda *_, **__: pytest.fail("opened to be written to"))
    for arguments in (["list"], ["show", "in-1"]):
        assert main(["journal", *arguments, "--db", str(store)]) == 0
