"""The one place that builds what the commands work with: the knowledge, and the folders its drawings lie in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from knowledge.base import Knowledge
from knowledge.errors import BedstampError, UsageError
from knowledge.mistakes import fit

if TYPE_CHECKING:
    from bot.clerk import Clerk
    from bot.expert_desk import ExpertChannel
    from bot.mail_experts import MailExperts
    from bot.running import Channel
    from bot.settings import MailSettings, Settings
    from knowledge.packs.tables import Pack
    from knowledge.store import Store


@dataclass(slots=True)
class Library:
    """The knowledge that questions are answered from. `current` gives it as it stands now."""

    folders: tuple[Path, ...]
    _knowledge: Knowledge
    _store: Store | None = field(default=None)
    _revision: int = field(default=0)

    def current(self) -> Knowledge:
        """Return the knowledge; read again when another process changed the knowledge base. Raises StoreError."""
        if self._store is not None:
            revision = self._store.revision()
            if revision != self._revision:
                self._knowledge, self._revision = _stored(self._store), revision
        return self._knowledge

    def close(self) -> None:
        """Close the knowledge base file, if there is one."""
        if self._store is not None:
            self._store.close()


def open_library(packs: Sequence[Path] = (), database: Path | None = None) -> Library:
    """Return the knowledge of these packs, or of a knowledge base, or of the packs shipped when neither is named.

    Raises PackFaults for a pack that cannot be used, StoreError for a knowledge base that cannot be read, and
    UsageError when both are named or the knowledge base is empty.
    """
    if packs and database is not None:
        raise UsageError("Name packs with --pack or a knowledge base with --db, not both.")
    if database is not None:
        return _from_database(database)
    if packs:
        from knowledge.packs import load

        return _of([load(folder) for folder in packs])
    return _of(_shipped())


def _drawings(packs: Sequence[Pack]) -> tuple[Path, ...]:
    """Return where drawings are looked for: in the packs themselves, then among those shipped, which any may name."""
    from knowledge.shipped import folders

    return tuple(dict.fromkeys([*(pack.folder for pack in packs if pack.folder is not None), *folders()]))


def _shipped() -> list[Pack]:
    """Read the packs that come with the program. They are checked when they are made, not each time they are read."""
    from knowledge.packs.read import read
    from knowledge.shipped import folders

    found = [read(folder) for folder in folders()]
    if not found or any(faults for _, faults in found):
        raise BedstampError(
            "The packs that come with Bedstamp cannot be read. Install it again, or name a pack with --pack."
        )
    return [pack for pack, _ in found]


def _of(packs: Sequence[Pack]) -> Library:
    return Library(_drawings(packs), Knowledge.of(packs))


def _from_database(path: Path) -> Library:
    from knowledge.store import open_store

    store = open_store(path, read_only=True)
    try:
        if not store.pack_names():
            raise UsageError(f"{path} holds no packs yet. Load one with: bedstamp pack load FOLDER --db {path}")
        revision = store.revision()
        return Library(_drawings(()), _stored(store), store, revision)
    except BaseException:
        store.close()
        raise


def _stored(store: Store) -> Knowledge:
    with store.unchanging():
        return Knowledge.of(store.sources(), store.findings(), learned=fit(store.mistakes()))


def _as_stored(database: Path) -> Knowledge:
    """Read the knowledge once, for what has to be drawn before the first message of a run was handled."""
    library = open_library(database=database)
    try:
        return library.current()
    finally:
        library.close()


def channels(settings: Settings, clerk: Clerk) -> list[Channel]:
    """Return the channels that the settings switch on, ready to be carried by `bedstamp run`."""
    found: list[Channel] = []
    if settings.mail is not None:
        from bot.channels.mailbox import Mailbox
        from bot.mail_asking import Office
        from bot.mail_desk import MailDesk

        experts = _mail_experts(settings.mail, settings, clerk)
        office = Office(experts, lambda: clerk.journal, lambda: expert_channels(settings, clerk))
        found.append(Mailbox(settings.mail, clerk, MailDesk(settings.mail, settings.group.name, clerk.now, office)))
    if settings.telegram is not None:
        from bot.channels.telegram import Telegram
        from bot.expert_desk import Desk

        def at_the_desk() -> Desk:
            return Desk(clerk.journal, expert_channels(settings, clerk))

        found.append(Telegram(settings, clerk, lambda: _as_stored(settings.store.path), at_the_desk))
    return found


def expert_channels(settings: Settings, clerk: Clerk) -> list[ExpertChannel]:
    """Return the ways by which the desk reaches experts, and those who asked: one for each channel that is on."""
    found: list[ExpertChannel] = []
    if settings.mail is not None:
        found.append(_mail_experts(settings.mail, settings, clerk))
    if settings.telegram is not None:
        from bot.channels.telegram.experts import ChatExperts

        found.append(ChatExperts(clerk, settings.telegram.experts_chat))
    return found


def _mail_experts(mail: MailSettings, settings: Settings, clerk: Clerk) -> MailExperts:
    from bot.mail_experts import MailExperts
    from bot.mail_signing import Signer

    signer, knowledge = lambda: Signer.of(clerk.journal), lambda: _as_stored(settings.store.path)
    return MailExperts(mail, settings.group.name, signer, clerk.now, knowledge)
