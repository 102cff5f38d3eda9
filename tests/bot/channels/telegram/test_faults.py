"""What the real program does when the server or the network fails, and what it says at the start."""

from __future__ import annotations

import sqlite3
import time
from contextlib import closing
from itertools import pairwise

import pytest

from tests.chaos.harness import until
from tests.telegram_server import BotServer, Fault
from tests.telegram_server.running import ADA, BEN, EXPERTS_CHAT, Desk, desk


@pytest.fixture
def own(tmp_path, server: BotServer, pack_folder):
    """A program and a server of the test's own, not started."""
    made = desk(tmp_path, server, pack_folder)
    yield made
    if made.program.is_running:
        made.program.terminate()


def outbox(room: Desk) -> list[tuple[str, int, str]]:
    with closing(sqlite3.connect(room.folder / "bedstamp.sqlite")) as file:
        return file.execute("SELECT state, unsure, reason FROM outgoing ORDER BY id").fetchall()


def once(kind: str, method: str = "sendMessage", **more):
    """A fault for the first call of a method."""
    left = [Fault(kind, **more)]
    return lambda called, params: left.pop() if called == method and left else None


def test_told_to_wait_it_waits_in_that_chat_and_goes_on_in_another(own, server):
    other = server.group(-1001234500009, "Other")
    (own.folder / "settings.toml").write_text((own.folder / "settings.toml").read_text().replace("groups", "#"))
    own.start()
    server.misbehave = lambda method, params: (
        Fault("429", 3) if method == "sendMessage" and params["chat_id"] == own.group.id and not early else None
    )
    early: list[float] = []
    own.group.says(ADA, "K204117, how old is it?")
    own.wait_until(lambda: [code for _, _, code in server.refused if code.code == 429])
    began = time.monotonic()
    other.says(BEN, "K225001, how old is it?")
    own.wait_for(1, other)
    assert time.monotonic() - began < 2
    early.append(0)
    own.wait_for(1)
    assert time.monotonic() - began > 2
    assert len([code for _, _, code in server.refused if code.code == 429]) == 1  # not tried before its time


@pytest.mark.parametrize("kind", ["vanish", "500"])
def test_where_nobody_knows_whether_it_arrived_it_is_sent_once_more_and_that_is_logged(own, server, kind):
    own.start()
    server.misbehave = once(kind)
    own.group.says(ADA, "K225001, how old is it?")
    own.wait_until(lambda: own.program.saw("uncertain"))
    assert outbox(own)[0][:2] == ("uncertain", 1)
    own.program.kill()
    soon(own)  # half a minute later
    own.start()
    until(lambda: own.program.saw("uncertain, sent again"), 15)
    own.wait_until(lambda: outbox(own)[0][0] == "sent")
    assert len(own.answers()) == (2 if kind == "vanish" else 1)


def soon(room: Desk) -> None:
    """Let what waits for another try wait no longer; the program does not run meanwhile."""
    with closing(sqlite3.connect(room.folder / "bedstamp.sqlite")) as file, file:
        file.execute("UPDATE outgoing SET next_try = 0, since = 0")


def test_an_answer_that_nobody_knows_of_twice_is_sent_no_third_time_and_the_experts_are_asked_to_look(own, server):
    experts = server.chats[EXPERTS_CHAT]
    server.misbehave = lambda method, params: (
        Fault("vanish") if method == "sendMessage" and params["chat_id"] == own.group.id else None
    )
    own.start()
    asked = own.group.says(ADA, "K225001, how old is it?")
    for times in (1, 2):
        own.wait_until(lambda: outbox(own) and outbox(own)[0][:2] == ("uncertain", times))  # noqa: B023
        own.program.kill()
        soon(own)
        own.start()
    notice = own.wait_for(1, experts)[0]
    assert "nobody knows whether my answer arrived" in notice["text"]
    (link,) = [one["url"] for row in notice["reply_markup"]["inline_keyboard"] for one in row]
    assert link.endswith(f"/{str(own.group.id)[4:]}/{asked['message_id']}")
    assert len(own.answers()) == 2
    assert outbox(own)[0][0] == "failed"
    assert own.program.saw("uncertain, given up")


def test_an_answer_under_which_somebody_presses_arrived_and_is_not_sent_again(own, server):
    own.start()
    server.misbehave = once("vanish")
    own.group.says(ADA, "K204117, how old is it?")
    own.wait_until(lambda: outbox(own) and outbox(own)[0][:2] == ("uncertain", 1))
    (arrived,) = own.answers()
    server.press(ADA, arrived, "7 digits")
    own.wait_until(lambda: outbox(own)[0][0] == "sent")
    own.wait_until(lambda: "edit_date" in arrived)
    assert own.program.saw("uncertain, but somebody has it before them")


def test_what_surely_was_not_sent_is_sent_when_the_network_is_back(own, server):
    own.start()
    port = server.port
    server.stop()
    own.wait_until(lambda: own.program.saw("no updates"))
    server.start(port)
    own.group.says(ADA, "K225001, how old is it?")
    own.wait_for(1)
    assert [one for one in outbox(own) if one[1]] == []


def test_a_group_that_threw_the_bot_out_fails_by_name_and_the_rest_goes_on(own, server):
    own.start()
    own.group.bot_may_write = False
    own.group.says(ADA, "K225001, how old is it?")
    own.wait_until(lambda: any(state == "failed" for state, _, _ in outbox(own)))
    assert "kicked" in outbox(own)[0][2]
    own.group.bot_may_write = True
    own.group.says(BEN, "K225002, how old is it?")
    own.wait_for(1)


def test_a_wrong_token_is_said_and_tried_again_and_never_shown(own, server):
    right, server.token = server.token, "1:other"
    own.program.start()
    own.wait_until(lambda: own.program.saw("cannot begin"))
    server.token = right
    own.group.says(ADA, "K225001, how old is it?")
    own.wait_for(1)
    assert right not in own.program.log.read_text()


def test_group_privacy_is_noticed_and_what_to_do_is_said(own, server):
    server.reads_all = False
    own.start()
    said = " ".join(str(one.get("what_to_do", "")) for one in own.program.events())
    assert "/setprivacy" in said
    assert "add it again" in said


def test_a_group_of_the_settings_without_the_bot_is_named(own, server):
    own.group.bot_may_write = False
    own.start()
    own.wait_until(lambda: own.program.saw("is not in the group, or may not write there: add it", chat=own.group.id))


def test_a_second_process_with_the_same_token_is_told_so_and_the_first_goes_on(own, server, tmp_path, pack_folder):
    own.start()
    (tmp_path / "second").mkdir()
    second = desk(tmp_path / "second", server, pack_folder)
    second.program.start()
    try:
        until(lambda: any("Another process" in str(one.get("text", "")) for one in second.program.events()))
        own.group.says(ADA, "K225001, how old is it?")
        own.wait_for(1)
    finally:
        second.program.terminate()


def test_another_program_that_polls_elsewhere_is_said_clearly(own, server):
    own.start()
    server.misbehave = lambda method, params: Fault("conflict") if method == "getUpdates" else None
    server.wake()
    server.update({"message": {}})
    own.wait_until(lambda: any("Only one may" in str(one.get("why", "")) for one in own.program.events()))
    server.misbehave = lambda method, params: None
    own.group.says(ADA, "K225001, how old is it?")
    own.wait_for(1)


def test_a_web_address_that_takes_the_updates_is_said_clearly(own, server):
    server.webhook = "https://elsewhere.example"
    own.start()
    own.wait_until(lambda: any("deleteWebhook" in str(one.get("why", "")) for one in own.program.events()))


def test_an_answer_that_takes_long_shows_that_the_bot_is_working(own, server):
    own.start()
    server.misbehave = once("429", seconds=4)
    own.group.says(ADA, "@stampdesk_bot K225001, how old is it?")
    own.wait_until(lambda: server.calls("sendChatAction"))
    assert not own.answers()
    own.wait_for(1)
    assert server.calls("sendChatAction")[0].params["action"] == "typing"


def test_in_one_group_no_more_than_twenty_a_minute_go_out_also_over_a_restart(own, server):
    own.start()
    for number in range(24):
        own.group.says(type(ADA)(900 + number, "x"), f"K2250{number:02}, how old is it?")
    own.wait_for(3)
    own.program.kill()
    own.start()
    own.wait_for(8)
    moments = [one.at for one in server.sent if one.method in ("sendMessage", "sendPhoto")]
    gaps = [later - one for one, later in pairwise(moments)]
    assert min(gaps) > 0.9, gaps


def test_a_call_that_hangs_holds_up_no_other_chat(own, server):
    other = server.group(-1001234500009, "Other")
    (own.folder / "settings.toml").write_text((own.folder / "settings.toml").read_text().replace("groups", "#"))
    own.start()
    server.misbehave = once("hang", seconds=8)
    own.group.says(ADA, "K225001, how old is it?")
    own.wait_until(lambda: server.sent and server.sent[-1].method == "sendMessage")
    began = time.monotonic()
    other.says(BEN, "K225002, how old is it?")
    own.wait_for(1, other)
    assert time.monotonic() - began < 3


def test_a_picture_that_was_left_over_is_drawn_in_the_next_run_without_a_new_message(own, server):
    own.start()
    server.misbehave = lambda method, params: Fault("drop") if method == "sendPhoto" else None
    own.group.says(ADA, "K204117, how old is it?")
    own.wait_until(lambda: own.program.saw("uncertain"))
    own.program.kill()
    with closing(sqlite3.connect(own.folder / "bedstamp.sqlite")) as file, file:
        file.execute("UPDATE outgoing SET next_try = 0, since = 0")
    server.misbehave = lambda method, params: None
    own.start()
    own.wait_until(lambda: own.pictures)
