"""Structured logs: one line of JSON each, on standard error, without secrets, addresses and what people wrote.

log = Log("mail")
log.info("received", id="in-12", bytes=2048)
{"time": "2031-05-04T10:00:00.000+00:00", "level": "info", "part": "mail", "event": "received", "id": "in-12", ...}
"""

from __future__ import annotations

import json
import logging
import re
import sys
import traceback
from collections.abc import Iterable
from datetime import UTC, datetime
from typing import TextIO

from bot.setting_values import Secret
from knowledge.errors import BedstampError

_LONGEST = 300  # characters of one value: enough for an error, too little for a message
_TALKATIVE = ("httpx", "httpcore", "telegram", "aioimaplib", "asyncio")  # some of them show addresses with a token
_ADDRESS = re.compile(r"[^\s<>\"'(),;:]+@[^\s<>\"'(),;:]+")
_PLACES = 6  # how many places of the program an unexpected error names


class Log:
    """The log of one part of the program. Facts are short: numbers, ids, names of rules; never text of a message."""

    def __init__(self, part: str) -> None:
        self._log = logging.getLogger(f"bedstamp.{part}")

    def info(self, event: str, **facts: object) -> None:
        """Log what goes as it should."""
        self._log.info(event, extra={"facts": facts})

    def warning(self, event: str, **facts: object) -> None:
        """Log what an operator may want to look at."""
        self._log.warning(event, extra={"facts": facts})

    def error(self, event: str, fault: BaseException | None = None, **facts: object) -> None:
        """Log what went wrong, with the places of the program it came through."""
        self._log.error(event, extra={"facts": {**facts, **(told(fault) if fault else {})}})


def told(fault: BaseException) -> dict[str, str]:
    """Return the facts of an error. What it says is left out where it may hold a piece of a message."""
    while isinstance(fault, BaseExceptionGroup):
        fault = fault.exceptions[0]
    frames = traceback.extract_tb(fault.__traceback__)[-_PLACES:]
    places = " < ".join(f"{frame.filename.rsplit('/', 1)[-1]}:{frame.lineno}" for frame in reversed(frames))
    facts = {"error": type(fault).__name__, "at": places}
    if isinstance(fault, (BedstampError, OSError, TimeoutError)):
        facts["text"] = str(fault)
    return facts


def start(secrets: Iterable[Secret] = (), stream: TextIO | None = None) -> None:
    """Send all logs to `stream`, standard error when none is named, with `secrets` blotted out wherever they stand."""
    handler = logging.StreamHandler(stream or sys.stderr)
    handler.setFormatter(_Lines([secret.reveal() for secret in secrets]))
    logging.basicConfig(handlers=[handler], level=logging.INFO, force=True)
    logging.captureWarnings(True)
    for name in _TALKATIVE:
        logging.getLogger(name).setLevel(logging.WARNING)


class _Lines(logging.Formatter):
    """Makes one line of JSON of each record, also of those that libraries write."""

    def __init__(self, secrets: Iterable[str]) -> None:
        super().__init__()
        self._secrets = [secret for secret in secrets if secret]

    def format(self, record: logging.LogRecord) -> str:
        facts = {
            "time": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "part": record.name.removeprefix("bedstamp."),
            "event": self._shown(record.getMessage()),
            **{name: self._shown(value) for name, value in getattr(record, "facts", {}).items()},
        }
        if record.exc_info and record.exc_info[1]:
            facts |= {name: self._shown(value) for name, value in told(record.exc_info[1]).items()}
        return json.dumps(facts)

    def _shown(self, value: object) -> object:
        if value is None or isinstance(value, (bool, int, float)):
            return value
        text = str(value)
        for secret in self._secrets:
            text = text.replace(secret, "...")
        text = _ADDRESS.sub("(address)", text)
        return text if len(text) <= _LONGEST else text[:_LONGEST] + "..."
