"""Tests of bot/logs.py."""

from __future__ import annotations

import io
import json
import logging

import pytest

from bot import logs
from bot.logs import Log
from bot.setting_values import Secret
from knowledge.errors import BedstampError


@pytest.fixture
def lines():
    stream = io.StringIO()
    before = logging.getLogger().handlers[:], logging.getLogger().level
    logs.start([Secret("hunter2"), Secret("")], stream)
    yield lambda: [json.loads(line) for line in stream.getvalue().splitlines()]
    logging.captureWarnings(False)
    logging.getLogger().handlers[:], level = before
    logging.getLogger().setLevel(level)


def test_a_line_says_when_how_bad_where_what_and_the_facts(lines) -> None:
    Log("mail").info("received", id="in-1", bytes=7, rule=None)
    (line,) = lines()
    assert line.pop("time").endswith("+00:00")
    assert line == {"level": "info", "part": "mail", "event": "received", "id": "in-1", "bytes": 7, "rule": None}


def test_every_entry_is_one_line_whatever_stands_in_it(lines) -> None:
    Log("mail").warning("odd", text='a\nb\r"\u2028{}\x00\udcff')
    assert lines()[0]["text"] == 'a\nb\r"\u2028{}\x00\udcff'


def test_secrets_are_blotted_out_wherever_they_stand_also_in_lines_of_libraries(lines) -> None:
    Log("chat").info("asked https://x/bothunter2/get", url="https://x/bothunter2/get")
    logging.getLogger("some.library").warning("POST %s", "https://x/bothunter2/send")
    assert "hunter2" not in json.dumps(lines())
    assert len(lines()) == 2


def test_addresses_of_people_and_long_texts_are_not_shown(lines) -> None:
    Log("mail").warning("put off", reason="451 <ann.o'hara+x@example.org>: later, " + "x" * 1000)
    (line,) = lines()
    assert "example.org" not in line["reason"]
    assert len(line["reason"]) < 320


def test_an_unexpected_error_names_its_places_but_not_what_it_says(lines) -> None:
    try:
        raise KeyError("dear bot, my number is 204117")
    except KeyError as fault:
        Log("handling").error("broke", ExceptionGroup("several", [fault]))
        logging.getLogger("library").exception("broke too")
    for line in lines():
        assert line["error"] == "KeyError"
        assert "test_logs.py:" in line["at"]
    assert "204117" not in json.dumps(lines())


def test_an_error_for_people_is_told_in_full(lines) -> None:
    Log("run").error("cannot", BedstampError("The disk is full."))
    assert lines()[0]["text"] == "The disk is full."
