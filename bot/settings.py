"""The settings: one TOML file, read once and checked whole. `deploy/settings.sample.toml` explains every key.

A section of a channel that is missing switches the channel off. Paths are relative to the file. Secrets come from a
file that a `..._file` key names, or else from the environment: BEDSTAMP_IMAP_PASSWORD, BEDSTAMP_SMTP_PASSWORD,
BEDSTAMP_TELEGRAM_TOKEN.
"""

from __future__ import annotations

import os
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeVar

from bot.setting_values import Fault, Secret, Section, is_loopback, unknown, url_fault
from knowledge.errors import BedstampError, UsageError

KEEP_DAYS = 90  # how long whole messages are kept after they were handled
ANSWERS_PER_DAY = 20  # to one person; enough for a long evening of questions, and an end to every loop
_MOST_BYTES = 1024 * 1024
_PORTS = {
    ("imap", "tls"): 993,
    ("imap", "none"): 143,
    ("smtp", "tls"): 465,
    ("smtp", "starttls"): 587,
    ("smtp", "none"): 25,
}

_Read = TypeVar("_Read")


class SettingsError(BedstampError):
    """The settings file has faults; `faults` holds them all."""

    def __init__(self, path: Path, faults: list[Fault]) -> None:
        head = f"{path} has {len(faults)} fault{'s' if len(faults) > 1 else ''}; nothing was started."
        super().__init__("\n".join([head, *(f"  {fault}" for fault in faults)]))
        self.faults = tuple(faults)


@dataclass(frozen=True, slots=True)
class StoreSettings:
    """Where the knowledge base file lies, and for how many days messages are kept whole after they were handled."""

    path: Path
    keep_days: int


@dataclass(frozen=True, slots=True)
class KnowledgeSettings:
    """The folders of the packs that are loaded at the start; none: the packs shipped."""

    packs: tuple[Path, ...]


@dataclass(frozen=True, slots=True)
class GroupSettings:
    """What the group is called, and what the bot speaks to: `addressed`, `questions` or `any-serial`."""

    name: str
    speak: str


@dataclass(frozen=True, slots=True)
class ServerSettings:
    """A server for mail. `security` is `tls`, `starttls` or `none`; no `password` means no login."""

    host: str
    port: int
    security: str
    user: str
    password: Secret | None


@dataclass(frozen=True, slots=True)
class MailSettings:
    """The mailbox. `trusted_authserv_id` is the name under which the own receiver states its checks (RFC 8601).

    `lists` are the mailing lists that are the group's own, by address or List-Id.
    """

    address: str
    imap: ServerSettings
    folder: str
    smtp: ServerSettings
    trusted_authserv_id: str
    experts: tuple[str, ...]
    answers_per_day: int
    lists: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class TelegramSettings:
    """The chat. `base_url` is '' for the usual server; `experts_chat` is None when there is no such chat."""

    token: Secret
    base_url: str
    groups: tuple[int, ...]
    experts_chat: int | None


@dataclass(frozen=True, slots=True)
class Settings:
    """Everything an operator can set. `mail` and `telegram` are None when the channel is off."""

    file: Path
    store: StoreSettings
    knowledge: KnowledgeSettings
    group: GroupSettings
    mail: MailSettings | None
    telegram: TelegramSettings | None


def read(path: Path, environment: Mapping[str, str] | None = None) -> Settings:
    """Read and check the settings. Raises UsageError when the file cannot be read, SettingsError with every fault."""
    file = _File(path, _parsed(path), os.environ if environment is None else environment)
    settings = Settings(
        path,
        file.section("store", _store),
        file.section("knowledge", _knowledge),
        file.section("group", _group),
        file.channel("mail", _mail),
        file.channel("telegram", _telegram),
    )
    file.finish()
    return settings


class _File:
    """The whole file while it is read."""

    def __init__(self, path: Path, values: Mapping[str, Any], environment: Mapping[str, str]) -> None:
        self._path, self._values, self._environment = path, values, environment
        self._known: list[str] = []
        self._faults: list[Fault] = []

    def channel(self, name: str, read_section: Callable[[Section], _Read]) -> _Read | None:
        """Return a section read, None when it is not there."""
        self._known.append(name)
        return self.section(name, read_section) if name in self._values else None

    def section(self, name: str, read_section: Callable[[Section], _Read]) -> _Read:
        """Return a section read; one that is not there has its defaults."""
        self._known.append(name)
        values = self._values.get(name, {})
        if not isinstance(values, dict):
            self._faults.append(Fault(name, f"is a section. Write [{name}] on a line of its own, and its keys below."))
            values = {}
        section = Section(name, values, self._path.absolute().parent, self._environment, self._faults)
        result = read_section(section)
        section.finish()
        return result

    def finish(self) -> None:
        """Find unknown sections; then raise when there is any fault."""
        for name in self._values:
            if name not in self._known:
                self._faults.append(Fault(f"[{name}]", unknown(name, self._known, "section")))
        if self._faults:
            raise SettingsError(self._path, self._faults)


def _store(section: Section) -> StoreSettings:
    path = section.path("path", "bedstamp.sqlite")
    if not path.parent.is_dir():
        section.fault("path", f"the folder {path.parent} does not exist. Make it first.")
    elif path.is_dir():
        section.fault("path", f'is a folder. Name a file in it, like "{path.name}/bedstamp.sqlite".')
    return StoreSettings(path, section.number("keep_days", KEEP_DAYS, 1, 36_500))


def _knowledge(section: Section) -> KnowledgeSettings:
    packs = tuple(section.folder / one for one in section.items("packs", str, '"packs/ours"'))
    for pack in packs:
        if not (pack / "datapackage.json").is_file():
            section.fault("packs", f"{pack} is no pack: there is no datapackage.json in it. Correct the path.")
    return KnowledgeSettings(packs)


def _group(section: Section) -> GroupSettings:
    return GroupSettings(
        section.text("name", "our group"),
        section.text("speak", "questions", one_of=("addressed", "questions", "any-serial")),
    )


def _mail(section: Section) -> MailSettings:
    address = section.address("address")
    settings = MailSettings(
        address,
        _server(section, "imap", address),
        section.text("folder", "INBOX"),
        _server(section, "smtp", ""),
        section.text("trusted_authserv_id", ""),
        section.addresses("experts"),
        section.number("answers_per_day", ANSWERS_PER_DAY, 1, 10_000),
        section.items("lists", str, '"needles.lists.example.org"'),
    )
    if address.lower() in (expert.lower() for expert in settings.experts):
        section.fault("experts", f"{address} is the bot's own address, so it would write to itself. Take it out.")
    return settings


def _server(section: Section, kind: str, default_user: str) -> ServerSettings:
    """Read one of the two servers. The mailbox needs a login; sending without one is for a server that wants none."""
    host = section.host(f"{kind}_host")
    security = section.text(f"{kind}_security", "tls", one_of=[name for of, name in _PORTS if of == kind])
    if security == "none" and not is_loopback(host):
        section.fault(
            f"{kind}_security", 'is "none", which sends mail and password readable for everybody on the way. It is '
            'taken only when the host is this computer (127.0.0.1). Write "tls".',
        )  # fmt: skip
    port = section.number(f"{kind}_port", _PORTS.get((kind, security), 1), 1, 65_535)
    user = section.text(f"{kind}_user", default_user)
    variable = f"BEDSTAMP_{kind.upper()}_PASSWORD"
    faults = len(section.faults)
    password = section.secret(f"{kind}_password_file", variable)
    if user and password is None and len(section.faults) == faults:
        section.fault(f"{kind}_password_file", f"is missing. Name a file that holds the password, or set {variable}.")
    if password is not None and not user:
        section.fault(f"{kind}_user", "is missing, and there is a password for it. Add it, or leave both out.")
    return ServerSettings(host, port, security, user, password)


def _telegram(section: Section) -> TelegramSettings:
    base_url = section.text("base_url", "")
    if base_url and (wrong := url_fault(base_url)):
        section.fault("base_url", wrong)
    faults = len(section.faults)
    token = section.secret("token_file", "BEDSTAMP_TELEGRAM_TOKEN")
    if token is None and len(section.faults) == faults:
        section.fault("token_file", "is missing. Name a file that holds the token, or set BEDSTAMP_TELEGRAM_TOKEN.")
    groups = section.items("groups", int, "-1001234567890")
    has_chat = "experts_chat" in section.values
    chat = section.number("experts_chat", 0, -(2**52), 2**52)  # the bounds that the Bot API states for an id
    return TelegramSettings(token or Secret(""), base_url, groups, chat if has_chat else None)


def _parsed(path: Path) -> Mapping[str, Any]:
    """Return what stands in the file. Raises UsageError when it cannot be read, SettingsError when it is no TOML."""
    try:
        with path.open("rb") as file:
            content = file.read(_MOST_BYTES + 1)
    except OSError as fault:
        raise UsageError(
            f"The settings {path} cannot be read ({fault.strerror}). Check the path; deploy/settings.sample.toml is a "
            "file to begin with."
        ) from fault
    if len(content) > _MOST_BYTES:
        raise UsageError(f"{path} is larger than {_MOST_BYTES:,} bytes, so it is no settings file. Check the path.")
    try:
        return tomllib.loads(content.decode("utf-8-sig"))
    except UnicodeDecodeError as fault:
        line = content[: fault.start].count(b"\n") + 1
        raise SettingsError(path, [Fault(f"line {line}", "is not in UTF-8. Save the file again as UTF-8.")]) from fault
    except (tomllib.TOMLDecodeError, RecursionError) as fault:
        text = f"{fault}. The file is written as TOML: sections in [brackets], and key = value below, texts in quotes."
        raise SettingsError(path, [Fault("the file cannot be understood", text)]) from fault
