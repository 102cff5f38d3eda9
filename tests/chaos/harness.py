"""What the tests with real processes share: the program under test, its upstream folder, what was delivered."""

from __future__ import annotations

import json
import os
import resource
import signal
import subprocess
import sys
import time
from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
PATIENCE = 60.0  # seconds; how long a loaded machine may take before a test gives up


@dataclass
class Program:
    """A program that is started, killed and started again. Its logs of all lives are kept together."""

    command: list[str]
    log: Path
    environment: dict[str, str] = field(default_factory=dict)
    """What its environment has beside that of the tests."""
    _process: subprocess.Popen[bytes] | None = None

    def __enter__(self) -> Program:
        return self

    def __exit__(self, *_: object) -> None:
        """Leave no process behind, whatever became of the test."""
        if self.is_running:
            self.kill()

    def start(self) -> None:
        with self.log.open("ab") as log:
            self._process = subprocess.Popen(
                self.command,
                stderr=log,
                stdout=log,
                env={**os.environ, "PYTHONPATH": str(ROOT), **self.environment},
            )

    def kill(self) -> None:
        """kill -9: it has no chance to tidy up."""
        self._end(signal.SIGKILL)

    def terminate(self) -> int:
        return self._end(signal.SIGTERM)

    def signal(self, number: int) -> None:
        assert self._process is not None
        self._process.send_signal(number)

    def limit_files_to(self, size: int) -> None:
        """Let every file that the program writes to be no longer than this (bytes): to it, the disk is full."""
        assert self._process is not None
        resource.prlimit(self._process.pid, resource.RLIMIT_FSIZE, (size, resource.RLIM_INFINITY))

    def wait(self) -> int:
        assert self._process is not None
        return self._process.wait(PATIENCE)

    @property
    def is_running(self) -> bool:
        return self._process is not None and self._process.poll() is None

    def has_begun(self) -> bool:
        """Whether the life that was started last has come so far that it carries its channels."""
        return self._process is not None and self.saw("begins", process=self._process.pid)

    def events(self) -> list[dict[str, Any]]:
        """Every whole line of the log that is JSON."""
        lines = self.log.read_text().splitlines() if self.log.exists() else []
        return [json.loads(line) for line in lines if line.startswith("{") and line.endswith("}")]

    def saw(self, event: str, **facts: object) -> bool:
        return any(one["event"] == event and facts.items() <= one.items() for one in self.events())

    def _end(self, number: int) -> int:
        if self.is_running:
            self.signal(number)
        return self.wait()


@dataclass
class Upstream:
    """The folder behind the fake channel."""

    folder: Path
    fed: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        for name in ("in", "out"):
            (self.folder / name).mkdir(parents=True, exist_ok=True)

    def feed(self, text: str = "how old?", talk: str = "talk", number: int = 0, name: str = "") -> str:
        name = name or f"{len(self.fed):05}"
        draft = self.folder / f"draft-{name}"
        draft.write_text(json.dumps({"talk": talk, "number": number, "text": text}))
        draft.rename(self.folder / "in" / name)
        self.fed.append(name)
        return name

    def delivered(self) -> dict[str, dict[str, list[dict[str, Any]]]]:
        """For each question its deliveries, by the key of the reply."""
        found: dict[str, dict[str, list[dict[str, Any]]]] = defaultdict(lambda: defaultdict(list))
        for path in (self.folder / "out").iterdir():
            answer = json.loads(path.read_text())
            found[answer["question"]][path.name.split("~")[0]].append(answer)
        return found

    def answers_to(self, name: str) -> list[dict[str, Any]]:
        return [answer for answers in self.delivered().get(name, {}).values() for answer in answers]


def fake_program(folder: Path, settings: str = "") -> tuple[Program, Upstream]:
    """A program with the fake channel and its upstream, not started yet."""
    upstream = Upstream(folder / "upstream")
    (folder / "settings.toml").write_text(settings)
    script = str(Path(__file__).with_name("fake_channel.py"))
    return Program(
        [sys.executable, script, str(folder / "settings.toml"), str(upstream.folder)], folder / "log"
    ), upstream


def until(condition: Callable[[], object], patience: float = PATIENCE) -> None:
    """Wait until something holds; fail when it does not in time."""
    end = time.monotonic() + patience
    while not condition():
        assert time.monotonic() < end, "it did not come about in time"
        time.sleep(0.01)
