"""`bedstamp run` with a clock that a test can put forward and back: the seconds in the file named first are added."""

from __future__ import annotations

import sys
from contextlib import suppress
from datetime import datetime, timedelta
from pathlib import Path

from bot.__main__ import main
from bot.clerk import Clerk

_right = Clerk.now


def _shifted(clerk: Clerk) -> datetime:
    seconds = 0.0
    with suppress(OSError, ValueError):
        seconds = float(Path(sys.argv[1]).read_text())
    return _right(clerk) + timedelta(seconds=seconds)


if __name__ == "__main__":
    Clerk.now = _shifted  # type: ignore[assignment, method-assign]
    sys.exit(main(["run", "--config", sys.argv[2]]))
