"""An expert in a process of its own, for tests that end it or let two of them race. It prints what it did as JSON.

python -m tests.bot.expert_desk.expert_process STORE NAME WORDS HOW CASE...
HOW: `wait` proposes and then waits to be killed; `die` ends itself by kill -9 in the middle of settling; `race` settles
each case as soon as the file STORE.go-CASE is there.
"""

from __future__ import annotations

import json
import os
import signal
import sys
import time
from datetime import UTC, datetime
from pathlib import Path
from typing import NoReturn

from bot.expert_desk import Desk
from bot.journal import open_journal
from knowledge.base import Knowledge
from tests.bot.conftest import PACK


def main(store: Path, name: str, words: str, how: str, cases: list[int]) -> None:
    knowledge, person = Knowledge.of([PACK]), f"chat:{name}"
    with open_journal(store, timeout=30) as journal:
        desk = Desk(journal)
        proposals = [desk.propose(case, person, words, knowledge, datetime.now(UTC)).id for case in cases]
        told(proposals=proposals)
        if how == "wait":
            time.sleep(60)
        if how == "die":
            desk._tell_all = _die  # type: ignore[method-assign]
        for case, proposal in zip(cases, proposals, strict=True):
            while how == "race" and not Path(f"{store}.go-{case}").exists():
                pass
            done = desk.settle(proposal, person, datetime.now(UTC))
            told(case=case, done=done.is_done, may_amend=done.may_amend, text=done.text)


def told(**facts: object) -> None:
    print(json.dumps(facts), flush=True)


def _die(*_: object, **__: object) -> NoReturn:
    os.kill(os.getpid(), signal.SIGKILL)
    raise AssertionError


if __name__ == "__main__":
    _, store, name, words, how, *numbers = sys.argv
    main(Path(store), name, words, how, [int(one) for one in numbers])
