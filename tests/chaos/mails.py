"""Mail while everything fails: `python -m tests.chaos.mails [MAILS KILLS]` prints its counts, 1 when any is wrong.

Mails arrive at a real mailbox while the program is killed (kill -9) at random moments, Dovecot and Postfix are stopped
and started, the disk is full for a while (to the program: no file may grow), and the clock jumps a day to and fro.
Then everything is left in peace, and each question must have been answered under one identifier, once.
"""

from __future__ import annotations

import json
import random
import sys
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Callable
from email import message_from_bytes
from pathlib import Path
from typing import Any

from bot.journal import open_journal
from tests.chaos.harness import Program
from tests.mail_bot import DESK, question
from tests.mail_servers import MailServers, mail_servers, missing

SENDERS = 30
PEACE = 300.0  # seconds for all that is left
FULL = 40_000  # bytes that no file may grow beyond while the disk is full: less than the store has
_script = str(Path(__file__).with_name("mail_program.py"))


class Chaos:
    """One run. `tally` counts what was done."""

    def __init__(self, servers: MailServers, folder: Path, mails: int, kills: int, seed: int) -> None:
        self.servers, self.folder, self.mails, self.kills = servers, folder, mails, kills
        self.random = random.Random(seed)
        self.tally: Counter[str] = Counter()
        self.memory = 0
        (folder / "clock").write_text("0")
        (folder / "settings.toml").write_text(
            servers.settings(folder / "bedstamp.sqlite", DESK, "answers_per_day = 10000")
        )
        command = [sys.executable, _script, str(folder / "clock"), str(folder / "settings.toml")]
        self.program = Program(command, folder / "log.jsonl")

    def run(self) -> None:
        arriving = threading.Thread(target=self._deliver)
        self.program.start()
        arriving.start()
        while self.tally["kills"] < self.kills:
            time.sleep(self.random.uniform(0.2, 2.5))
            self._harm()
            self.program.kill()
            self.tally["kills"] += 1
            self._heal()
            self.program.start()
        arriving.join()
        self._rest()
        self.program.terminate()

    def _deliver(self) -> None:
        """Deliver one mail after the other; what the server cannot take now is delivered again, as servers do."""
        for number in range(self.mails):
            sender = f"member{number % SENDERS}"
            mail = question(f"K{204001 + number}", sender, f"Machine {number}")
            mail = mail.replace(f"<{sender}.q@".encode(), f"<{number}.q@".encode())
            while not self._delivered(mail):
                time.sleep(0.3)
            self.tally["delivered"] += 1
            time.sleep(self.random.expovariate(6))

    def _delivered(self, mail: bytes) -> bool:
        try:
            self.servers.deliver(mail, DESK)
        except OSError:
            return False
        return True

    def _harm(self) -> None:
        """Do one harm in three rounds out of four, and let the program go on with it for a moment."""
        harms: list[tuple[str, Callable[[], Any]]] = [
            ("dovecot stopped", lambda: self.servers.stop_dovecot(hard=self.random.random() < 0.5)),
            ("postfix stopped", self.servers.stop_postfix),
            ("disk full", self._fill_the_disk),
            ("clock jumped", self._jump),
        ]
        if self.random.random() < 0.75:
            name, harm = self.random.choice(harms)
            self.tally[name] += 1
            harm()
            self.memory = max(self.memory, self._memory())
            time.sleep(self.random.uniform(0.1, 1.5))

    def _heal(self) -> None:
        if not self.servers.dovecot_runs:
            self.servers.start_dovecot()
        if not self.servers.postfix_runs:
            self.servers.start_postfix()

    def _fill_the_disk(self) -> None:
        if self.program.is_running:
            self.program.limit_files_to(FULL)

    def _jump(self) -> None:
        (self.folder / "clock").write_text(str(self.random.choice([86_400, -86_400, 3_600, 0])))

    def _memory(self) -> int:
        """The program's memory now, in kB; 0 when it does not run."""
        process = self.program._process
        try:
            status = Path(f"/proc/{process.pid if process else 0}/status").read_text()
        except OSError:
            return 0
        return next((int(line.split()[1]) for line in status.splitlines() if line.startswith("VmRSS")), 0)

    def _rest(self) -> None:
        """Wait until nothing waits any more."""
        (self.folder / "clock").write_text("0")
        end = time.monotonic() + PEACE
        while time.monotonic() < end and not self._is_done():
            self.memory = max(self.memory, self._memory())
            time.sleep(0.5)

    def _is_done(self) -> bool:
        with open_journal(self.folder / "bedstamp.sqlite") as journal:
            counts = journal.counts()
            for one in journal.list_outgoing("queued", "uncertain", limit=1000):
                if journal.next_try(one.id, outgoing=True) > time.time():
                    journal.send_again(one.id)  # do not wait for minutes
        open_ = sum(counts.get(state, 0) for state in ("waiting", "queued", "sending", "uncertain"))
        return not open_ and counts.get("handled", 0) + counts.get("aside", 0) >= self.mails

    def answers(self) -> dict[str, list[str]]:
        """For each question the identifiers of the answers that arrived."""
        found: dict[str, list[str]] = {f"<{number}.q@example.org>": [] for number in range(self.mails)}
        for number in range(SENDERS):
            for raw in self.servers.mails(f"member{number}@example.org"):
                answer = message_from_bytes(raw)
                found.setdefault(str(answer["In-Reply-To"]), []).append(str(answer["Message-ID"]))
        return found


def main() -> int:
    """Run, print the counts, and return 1 when a question was lost or answered twice."""
    mails, kills = (int(one) for one in (sys.argv[1:] or ["300", "40"]))
    if missing():
        print(f"The mail servers are missing: {missing()}")
        return 2
    seed = int(time.time())
    print(f"{mails} mails, {kills} kills, seed {seed}")
    with mail_servers() as servers, tempfile.TemporaryDirectory() as folder:
        chaos = Chaos(servers, Path(folder), mails, kills, seed)
        with chaos.program:
            chaos.run()
        return _report(chaos)


def _report(chaos: Chaos) -> int:
    answers = chaos.answers()
    with open_journal(chaos.folder / "bedstamp.sqlite") as journal:
        counts = journal.counts()
        keys = [one.key for one in journal.list_outgoing("sent", "failed", "queued", "uncertain", limit=100_000)]
    lost = [name for name, ids in answers.items() if not ids]
    twice = [name for name, ids in answers.items() if len(set(ids)) > 1]
    copies = sum(len(ids) - len(set(ids)) for ids in answers.values())
    for name, count in [
        *sorted(chaos.tally.items()),
        ("questions without an answer", len(lost)),
        ("questions with two different answers", len(twice)),
        ("answers that came more than once, under one identifier", copies),
        ("replies in the journal", len(keys)),
        ("different ones among them", len(set(keys))),
        ("most memory, MB", chaos.memory // 1024),
    ]:
        print(f"{count:>7,}  {name}")
    print(f"journal: {json.dumps(counts)}")
    return 1 if lost or twice or len(keys) != len(set(keys)) else 0


if __name__ == "__main__":
    sys.exit(main())
