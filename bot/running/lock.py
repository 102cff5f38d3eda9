"""One process at a time works with a store. The lock is let go when the process ends, however it ends."""

from __future__ import annotations

import fcntl
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from knowledge.errors import BedstampError


class AlreadyRunning(BedstampError):  # noqa: N818
    """Another process works with this store."""

    exit_code = 2


@contextmanager
def only_process(store: Path) -> Iterator[None]:
    """Hold the lock beside the store while the block runs. Raises AlreadyRunning when another process holds it.

    The file `<store>.lock` stays when the process ends: a file that is removed can be locked by two.
    """
    path = Path(f"{store.resolve()}.lock")
    try:
        descriptor = os.open(path, os.O_RDWR | os.O_CREAT, 0o644)
    except OSError as fault:
        raise BedstampError(
            f"{path} cannot be made ({fault.strerror}). Give the bot the right to write to the folder of the store."
        ) from fault
    try:
        _lock(descriptor, store)
        os.ftruncate(descriptor, 0)
        os.write(descriptor, f"{os.getpid()}\n".encode())
        yield
    finally:
        os.close(descriptor)


def _lock(descriptor: int, store: Path) -> None:
    try:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError as fault:
        process = os.pread(descriptor, 32, 0).decode("ascii", "replace").strip()
        raise AlreadyRunning(
            f"Bedstamp is running with {store} already{f' (process {process})' if process else ''}, and two would "
            "answer everything twice. Stop the other one first, or give this one a store of its own."
        ) from fault
    except OSError as fault:
        raise BedstampError(
            f"{store} lies where files cannot be locked ({fault.strerror}). Put the store on a local disk."
        ) from fault
