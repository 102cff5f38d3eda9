"""Mail while everything fails: `python -m tests.chaos.mails [MAILS KILLS]` prints its counts, 1 when any is wrong.

Mails arrive at a real mailbox while the program is killed (kill -9) at random moments, Dovecot and Postfix are stopped
and started, the disk is full for a while (to the program: no file may grow), and the clock jumps a day to and fro.
Every tenth question is one that no list settles. An expert answers its card by mail all the while, and says yes to what
is shown. Then everything is left in peace: each question must have been answered under one identifier, once; each hard
one must be one case, settled once, and its asker told once more.
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
from contextlib import suppress
from email import message_from_bytes
from email.message import Message
from hashlib import sha256
from imaplib import IMAP4
from pathlib import Path
from typing import Any

from bot.expert_desk import Desk
from bot.journal import open_journal
from tests.chaos.harness import Program
from tests.mail_bot import DESK, question
from tests.mail_servers import MailServers, mail_servers, missing

SENDERS = 30
EXPERT = "expert@example.org"
EVERY = 10  # one question in so many is for experts
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
            servers.settings(folder / "bedstamp.sqlite", DESK, f'answers_per_day = 10000\nexperts = ["{EXPERT}"]')
        )
        command = [sys.executable, _script, str(folder / "clock"), str(folder / "settings.toml")]
        self.program = Program(command, folder / "log.jsonl")
        self.is_over = threading.Event()

    def run(self) -> None:
        arriving, expert = threading.Thread(target=self._deliver), threading.Thread(target=self._answer_cards)
        self.program.start()
        arriving.start()
        expert.start()
        while self.tally["kills"] < self.kills:
            time.sleep(self.random.uniform(0.2, 2.5))
            self._harm()
            self.program.kill()
            self.tally["kills"] += 1
            self._heal()
            self.program.start()
        arriving.join()
        self._rest()
        self.is_over.set()
        expert.join()
        self.program.terminate()

    def _deliver(self) -> None:
        """Deliver one mail after the other; what the server cannot take now is delivered again, as servers do."""
        for number in range(self.mails):
            sender = f"member{number % SENDERS}"
            asked = f"QX{7_000_000 + 1_000 * number}" if number % EVERY == 0 else f"K{204001 + number}"
            mail = question(asked, sender, f"Machine {number}")
            mail = mail.replace(f"<{sender}.q@".encode(), f"<{number}.q@".encode())
            while not self._delivered(mail):
                time.sleep(0.3)
            self.tally["delivered"] += 1
            time.sleep(self.random.expovariate(6))

    def _answer_cards(self) -> None:
        """Answer every card, and say yes to all that is shown, each once; a mailbox that is down is looked at later."""
        answered: set[str] = set()
        while not self.is_over.wait(0.3):
            with suppress(OSError, IMAP4.error):
                for raw in self.servers.mails(EXPERT):
                    mail = message_from_bytes(raw)
                    words = next((words for mark, words in _ANSWERS.items() if f"[{mark}-" in _subject(mail)), "")
                    if words and str(mail["Message-ID"]) not in answered and self._delivered(_reply(mail, words)):
                        answered.add(str(mail["Message-ID"]))
                        self.tally["answers of the expert"] += 1

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
            settled = Desk(journal).counts().get("settled", 0)
        open_ = sum(counts.get(state, 0) for state in ("waiting", "queued", "sending", "uncertain"))
        has_all = counts.get("handled", 0) + counts.get("aside", 0) >= self.mails
        return not open_ and has_all and settled >= self.hard

    @property
    def hard(self) -> int:
        """How many questions are for experts."""
        return len(range(0, self.mails, EVERY))

    def answers(self) -> dict[str, list[str]]:
        """For each question the identifiers of the answers that arrived."""
        found: dict[str, list[str]] = {f"<{number}.q@example.org>": [] for number in range(self.mails)}
        for number in range(SENDERS):
            for raw in self.servers.mails(f"member{number}@example.org"):
                answer = message_from_bytes(raw)
                found.setdefault(str(answer["In-Reply-To"]), []).append(str(answer["Message-ID"]))
        return found


_ANSWERS = {"case": "About 1911, by the shuttle", "read": "yes"}


def _subject(mail: Message) -> str:
    return str(mail["Subject"]).replace("\n ", " ")


def _reply(mail: Message, words: str) -> bytes:
    digest = sha256(str(mail["Message-ID"]).encode()).hexdigest()[:20]
    return (
        f"From: {EXPERT}\r\nTo: {DESK}\r\nSubject: Re: {_subject(mail)}\r\nMessage-ID: <{digest}@example.org>\r\n"
        f"In-Reply-To: {mail['Message-ID']}\r\n\r\n{words}\r\n"
    ).encode()


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
        states, findings = Desk(journal).counts(), journal.store().findings()
        keys = [one.key for one in journal.list_outgoing("sent", "failed", "queued", "uncertain", limit=100_000)]
    lost = [name for name, ids in answers.items() if not ids]
    hard = {f"<{number}.q@example.org>" for number in range(0, chaos.mails, EVERY)}
    twice = [name for name, ids in answers.items() if len(set(ids)) > (2 if name in hard else 1)]
    untold = [name for name in hard if len(set(answers[name])) != 2]
    copies = sum(len(ids) - len(set(ids)) for ids in answers.values())
    for name, count in [
        *sorted(chaos.tally.items()),
        ("questions without an answer", len(lost)),
        ("questions with two different answers", len(twice)),
        ("hard questions whose askers were not told once more", len(untold)),
        ("cases", sum(states.values())),
        ("findings", len(findings)),
        ("answers that came more than once, under one identifier", copies),
        ("replies in the journal", len(keys)),
        ("different ones among them", len(set(keys))),
        ("most memory, MB", chaos.memory // 1024),
    ]:
        print(f"{count:>7,}  {name}")
    print(f"journal: {json.dumps(counts)}")
    is_settled = states == {"settled": chaos.hard} and len(findings) == chaos.hard
    return 1 if lost or twice or untold or not is_settled or len(keys) != len(set(keys)) else 0


if __name__ == "__main__":
    sys.exit(main())
