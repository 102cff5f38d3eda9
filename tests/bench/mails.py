"""Mail against the barest echo on the same servers, a backlog, and a folder of 10,000 mails.

`python -m tests.bench.mails` prints three tables of one run, and returns 1 when something asked for is not met.
"""

from __future__ import annotations

import contextlib
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path

from tests.mail_bot import DESK, bot_on, empty, journal_of, question, until
from tests.mail_servers import PASSWORD, MailServers, mail_servers, missing
from tests.smtp_with_faults import FaultySmtp, faulty_smtp

ROUND_TRIPS = 60
BACKLOG = 1000
FOLDERS = (2_500, 10_000)
MOST_SECONDS, MOST_TIMES = 0.25, 3.0
LEAST_WITH_PICTURE, LEAST_WITHOUT = 25.0, 60.0
MOST_GROWTH = 1.5  # of the time for one mail, from the small folder to the large one
_echo = str(Path(__file__).with_name("mail_echo.py"))


def main() -> int:
    """Run all three."""
    if missing():
        print(f"The mail servers are missing: {missing()}")
        return 2
    with mail_servers() as servers, tempfile.TemporaryDirectory() as folder:
        met = [latency(servers, Path(folder)), backlogs(servers, Path(folder)), folders(servers, Path(folder))]
    return 0 if all(met) else 1


def latency(servers: MailServers, folder: Path) -> bool:
    """From LMTP accepting a question to the SMTP side accepting the reply."""
    with faulty_smtp() as smtp:
        with bot_on(servers, folder / "latency", smtp_port=smtp.port):
            ours = _round_trips(servers, smtp)
        with _echoing(servers, smtp):
            bare = _round_trips(servers, smtp)
    mine, theirs = statistics.median(ours), statistics.median(bare)
    print(f"One question to its answer, median of {ROUND_TRIPS} (slowest tenth from):")
    for name, times in (("the bare echo", bare), ("the bot", ours)):
        print(
            f"  {name:16} {statistics.median(times) * 1000:8.1f} ms  ({sorted(times)[-len(times) // 10] * 1000:.1f} ms)"
        )
    print(f"  times as long   {mine / theirs:8.2f}  (asked: at most {MOST_TIMES}, and {MOST_SECONDS * 1000:.0f} ms)")
    return mine <= MOST_SECONDS and mine <= MOST_TIMES * theirs


def backlogs(servers: MailServers, folder: Path) -> bool:
    """A thousand mails that waited while nobody ran."""
    with_picture = _rate(servers, folder / "with", lambda number: f"K{204001 + number}")
    without = _rate(servers, folder / "without", lambda number: f"H{618001 + number}")
    print(f"A backlog of {BACKLOG:,} mails, answers a second:")
    print(f"  with the picture {with_picture:7.1f}  (asked: at least {LEAST_WITH_PICTURE:.0f})")
    print(f"  without          {without:7.1f}  (asked: at least {LEAST_WITHOUT:.0f})")
    return with_picture >= LEAST_WITH_PICTURE and without >= LEAST_WITHOUT


def folders(servers: MailServers, folder: Path) -> bool:
    """Folders full of mail that is left alone: time and memory for each mail."""
    per_mail, memory = [], []
    print("A folder full of mail that a rule leaves alone:")
    for count in FOLDERS:
        empty(servers)
        _fill(servers, count, lambda number: question("K204117", f"f{number}", head="Precedence: bulk\r\n"))
        seconds, peak = _read_all(servers, folder / f"folder{count}", count)
        per_mail.append(seconds / count)
        memory.append(peak)
        print(f"  {count:7,} mails  {seconds:7.1f} s  {seconds / count * 1000:6.2f} ms each  {peak / 1024:6.0f} MB")
    growth = per_mail[-1] / per_mail[0]
    print(f"  time for one mail grows {growth:.2f} times (asked: linear, at most {MOST_GROWTH})")
    return growth <= MOST_GROWTH and memory[-1] <= memory[0] * FOLDERS[-1] / FOLDERS[0]


def _round_trips(servers: MailServers, smtp: FaultySmtp) -> list[float]:
    times = []
    with servers.lmtp() as client:
        for number in range(ROUND_TRIPS + 1):
            before = len(smtp.taken)
            mail = question(f"K{204001 + number}", f"l{time.time_ns()}")
            client.sendmail("m@example.org", [DESK], mail)
            began = time.perf_counter()
            while len(smtp.taken) == before:
                time.sleep(0.0005)
            times.append(time.perf_counter() - began)
            time.sleep(0.3)  # both robots are waiting again
    return times[1:]  # the first one reads the knowledge


@contextlib.contextmanager
def _echoing(servers: MailServers, smtp: FaultySmtp) -> Iterator[None]:
    command = [sys.executable, _echo, str(servers.imap_port), str(smtp.port), DESK, PASSWORD]
    with subprocess.Popen(command, stdout=subprocess.PIPE) as echo:
        assert echo.stdout is not None
        echo.stdout.readline()
        yield
        echo.terminate()


def _rate(servers: MailServers, folder: Path, number_of: Callable[[int], str]) -> float:
    empty(servers)
    _fill(servers, BACKLOG, lambda number: question(number_of(number), f"b{number}"))
    with faulty_smtp() as smtp, bot_on(servers, folder, smtp_port=smtp.port):
        until(lambda: smtp.taken, 60)
        first, began = len(smtp.taken), time.perf_counter()
        until(lambda: len(smtp.taken) >= BACKLOG, 200)
        return (BACKLOG - first) / (time.perf_counter() - began)


def _fill(servers: MailServers, count: int, mail_of: Callable[[int], bytes]) -> None:
    with servers.lmtp() as client:
        for number in range(count):
            client.sendmail("m@example.org", [DESK], mail_of(number))


def _read_all(servers: MailServers, folder: Path, count: int) -> tuple[float, int]:
    """Return the seconds until all are handled, and the most memory in kB."""
    peak = 0
    began = time.perf_counter()
    with bot_on(servers, folder) as program, journal_of(folder) as journal:
        while journal.counts().get("handled", 0) < count:
            process = program._process
            status = Path(f"/proc/{process.pid if process else 0}/status").read_text()
            peak = max(peak, next(int(line.split()[1]) for line in status.splitlines() if line.startswith("VmHWM")))
            time.sleep(0.2)
        return time.perf_counter() - began, peak


if __name__ == "__main__":
    sys.exit(main())
