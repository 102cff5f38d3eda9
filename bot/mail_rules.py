"""Mail that is never answered: an ordered table of small rules, each with a name, and a record of what each said.

A rule sees the mail and what is known of the own desk, and returns why it hits, '' when it does not. The first that
hits decides. The facts are those of RFC 3834 (automatic responses), 2369 and 2919 (lists), 3464 (reports).
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from bot.channels import mail_headers as headers
from bot.channels.mail_format import MailIn

MOST_RECIPIENTS = 50
"""A mail to more people than this asks nobody in particular."""


@dataclass(frozen=True, slots=True)
class Desk:
    """The own side: the addresses mail is received at, and the lists that are the group's own, by address or List-Id.

    Without settings it is what the mail itself says (`desk_of`).
    """

    addresses: frozenset[str]
    lists: frozenset[str] = frozenset()

    @classmethod
    def of(cls, *addresses: str, lists: tuple[str, ...] = ()) -> Desk:
        """Return a desk; how the addresses are spelt (upper or lower case) does not matter."""
        return cls(frozenset(map(_same, addresses)), frozenset(map(_same, (*addresses, *lists))))


@dataclass(frozen=True, slots=True)
class Checked:
    """What one rule said of a mail; `why` is '' when it did not hit."""

    rule: str
    why: str


@dataclass(frozen=True, slots=True)
class Verdict:
    """`rule` is the name of the rule that stops a mail, None when none does; `checked` holds all that were asked."""

    rule: str | None
    checked: tuple[Checked, ...]

    @property
    def why(self) -> str:
        """Why the rule hit, '' when none did."""
        return self.checked[-1].why if self.rule else ""


def judge(mail: MailIn, desk: Desk) -> Verdict:
    """Ask the rules in order until one hits."""
    checked: list[Checked] = []
    for name, rule in RULES:
        checked.append(Checked(name, rule(mail, desk)))
        if checked[-1].why:
            return Verdict(name, tuple(checked))
    return Verdict(None, tuple(checked))


def desk_of(mail: MailIn) -> Desk:
    """Return the desk as the mail itself tells it: where it was delivered, else the one it is to."""
    alone = mail.recipients if len(mail.recipients) == 1 else ()
    return Desk.of(*(mail.delivered_to or alone))


def is_from_own_list(mail: MailIn, desk: Desk) -> bool:
    """Whether a list sent it that is the group's own: named by its posting address or its List-Id."""
    named = {_same(address) for address in _posting_addresses(mail)}
    list_id = _same(headers.field(mail.head, "List-Id"))
    ids = {list_id.rpartition("<")[2].strip("<> "), list_id}
    as_ids = {one.replace("@", ".") for one in desk.lists}
    return bool(named & desk.lists or ids & (desk.lists | as_ids) - {""})


def _from_ourselves(mail: MailIn, desk: Desk) -> str:
    senders = {*headers.addresses(mail.head, "From"), *_others_behind(mail, desk)}
    mine = sorted(desk.addresses & {_same(one) for one in senders if one})
    return f"it says that it comes from {mine[0]}, which is the desk itself" if mine else ""


def _empty_return_path(mail: MailIn, _: Desk) -> str:
    path = headers.field(mail.head, "Return-Path").replace(" ", "")
    return "Return-Path is <>, so nobody wants an answer (RFC 3834, section 2)" if path == "<>" else ""


def _marked_automatic(mail: MailIn, _: Desk) -> str:
    for value in headers.every(mail.head, "Auto-Submitted"):
        word = re.sub(r"\([^()]*\)", " ", value).partition(";")[0].strip().lower()
        if word and word != "no":
            return f"Auto-Submitted is '{word[:40]}' (RFC 3834, section 5)"
    return ""


def _delivery_report(mail: MailIn, _: Desk) -> str:
    kind = mail.head.get_content_type()
    if kind in ("multipart/report", "message/delivery-status", "message/disposition-notification"):
        return f"it is a report, {kind} (RFC 3464, RFC 6522)"
    return "it names failed recipients" if headers.has(mail.head, "X-Failed-Recipients") else ""


def _robot_sender(mail: MailIn, desk: Desk) -> str:
    for address in (mail.sender, *_others_behind(mail, desk)):
        local = address.rpartition("@")[0].lower()
        if _ROBOT.fullmatch(local):
            return f"'{local[:40]}' is the address of a program"
    return ""


def _other_list(mail: MailIn, desk: Desk) -> str:
    found = next((name for name in _LIST_FIELDS if headers.has(mail.head, name)), "")
    if not found or is_from_own_list(mail, desk):
        return ""
    return f"it came through a list that is not the group's own ({found})"


def _bulk(mail: MailIn, desk: Desk) -> str:
    for value in headers.every(mail.head, "Precedence"):
        word = value.strip().lower()
        if word == "junk" or (word in ("bulk", "list") and not is_from_own_list(mail, desk)):
            return f"Precedence is '{word}'"
    return ""


def _responder(mail: MailIn, _: Desk) -> str:
    """Signs of automatic answers from before RFC 3834, still in use; and what their subjects say."""
    found = next((name for name in _RESPONDER_FIELDS if headers.has(mail.head, name)), "")
    if found and headers.field(mail.head, found).lower() not in ("no", "none", "false", "0"):
        return f"it has the field {found}"
    return "its subject is that of an automatic answer" if _AUTOMATIC_SUBJECT.match(mail.subject) else ""


def _no_sender(mail: MailIn, _: Desk) -> str:
    return "" if mail.sender else "it does not say whom to answer (no usable From)"


def _to_a_crowd(mail: MailIn, _: Desk) -> str:
    count = len(mail.recipients)
    return f"it is addressed to {count:,} people" if count > MOST_RECIPIENTS else ""


Rule = Callable[[MailIn, Desk], str]
RULES: tuple[tuple[str, Rule], ...] = (
    ("from-ourselves", _from_ourselves),
    ("delivery-report", _delivery_report),
    ("empty-return-path", _empty_return_path),
    ("marked-automatic", _marked_automatic),
    ("robot-sender", _robot_sender),
    ("other-list", _other_list),
    ("bulk", _bulk),
    ("responder", _responder),
    ("no-sender", _no_sender),
    ("to-a-crowd", _to_a_crowd),
)
"""In order. The names are shown by `bedstamp mail read` and `bedstamp journal`, and do not change."""

_LIST_FIELDS = ("List-Id", "List-Post", "List-Unsubscribe", "List-Help", "List-Subscribe", "List-Owner", "List-Archive")
_RESPONDER_FIELDS = (
    "X-Autoreply", "X-Autorespond", "X-Autoresponder", "X-Auto-Response-From", "X-Autogenerated", "X-Mail-Autoreply",
    "X-Vacation",
)  # fmt: skip
_ROBOT = re.compile(
    r"mailer-?daemon|(?:.*[-_.+])?(?:no|not|do-?not|donot)[-_.]?(?:reply|respond|answer)(?:[-_.+].*)?|"
    r"(?:auto|automailer)[-_]?(?:reply|responder|mailer)|bounces?(?:[-_+=].*)?|.*[-_+]bounces?(?:[-+=].*)?|"
    r"owner-.*|.*-owner|.*-request|majordomo|listserv|postmaster|nobody|null"
)
_AUTOMATIC_SUBJECT = re.compile(
    r"\s*(?:re:\s*)?(?:auto(?:matic)?[- ]?(?:reply|response|answer)\b|auto:|out of (?:the )?office\b|autoreply\b|"
    r"abwesenheits(?:notiz|nachricht|meldung)|automatische (?:antwort|beantwoording)|réponse automatique|"
    r"respuesta automática|risposta automatica|automatisch antwoord|automatyczna odpowiedź|autosvar|"
    r"automatiskt svar|resposta automática|автоответ|автоматический ответ|automatická odpověď|undeliver(?:ed|able)\b|"
    r"returned mail\b|delivery (?:status notification|failure)|mail delivery (?:failed|system)|read:|gelesen:)",
    re.IGNORECASE,
)


def _posting_addresses(mail: MailIn) -> list[str]:
    return re.findall(r"mailto:([^\s<>?,]+@[^\s<>?,]+)", headers.field(mail.head, "List-Post"))


def _others_behind(mail: MailIn, desk: Desk) -> tuple[str, ...]:
    """Return who else stands behind a mail. A list puts itself there, so for the group's own it tells nothing."""
    if is_from_own_list(mail, desk):
        return ()
    return (*mail.reply_to, *headers.addresses(mail.head, "Sender"), _return_path(mail))


def _return_path(mail: MailIn) -> str:
    return next(iter(headers.addresses(mail.head, "Return-Path")), "")


def _same(address: str) -> str:
    return address.strip().lower()
