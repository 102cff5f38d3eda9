"""Mails that were not believed are reported to the experts: each kind once a day, and few in all."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.channels import mail_headers as headers
from bot.channels.mail_bounces import CameBack
from bot.channels.mail_format import MailIn
from bot.journal import Journal, Reply
from bot.mail_experts import MailExperts
from bot.mail_identity import CHANNEL
from bot.mail_signing import claimed_in
from bot.mail_talk import digest

MOST_A_DAY = 5
"""Reports to each expert in a day."""
_NOTE = "reports of the day"
_LEAD = "A mail that I did not believe"
_CAME_BACK_LEAD = "A mail to an expert came back"
_CAME_BACK = (
    "What I sent to {address} did not arrive: {reason}\nIf the address is out of use, whoever keeps the settings of "
    "the bot should take it out of the experts.\nThe report is kept: bedstamp journal show in-{id}"
)
_BEGINNING = 150  # characters of it that are shown


@dataclass(frozen=True, slots=True)
class Report:
    """What to report: `rule` and `why` of the doubt, `about` what the mail claims to do, `id` its journal number.

    `case` is the case that it claims to be about, 0 for none.
    """

    rule: str
    why: str
    about: str
    id: int
    case: int = 0


def reported(report: Report, mail: MailIn, experts: MailExperts, journal: Journal, now: datetime) -> Sequence[Reply]:
    """Return the report to each expert, none when there was one of its kind today. In the transaction that is open."""
    count = _counted(f"{report.rule}\n{report.about}\n{mail.sender.lower()}", journal, now)
    if not count:
        return ()
    text = _text(report, mail, is_last=count == MOST_A_DAY)
    key = f"report in-{report.id} {mail.message_id}"
    return tuple(experts.told(expert, key, _LEAD, text, about=report.case) for expert in experts.settings.experts)


def card_came_back(
    returned: CameBack, report: int, experts: MailExperts, journal: Journal, now: datetime
) -> Sequence[Reply]:
    """Tell the other experts that a mail to one of them did not arrive, by the report in-`report`."""
    cards = (one for one in returned.message_ids if claimed_in(one))
    sent = next((one for id_ in cards if (one := journal.outgoing_of(CHANNEL, id_))), None)
    if sent is None or sent.recipient not in experts.settings.experts:
        return ()
    if not _counted(f"came back\n{sent.recipient}", journal, now):
        return ()
    text = _CAME_BACK.format(address=sent.recipient, reason=_not_a_link(returned.reason), id=report)
    others = (expert for expert in experts.settings.experts if expert != sent.recipient)
    return tuple(experts.told(expert, f"came back in-{report}", _CAME_BACK_LEAD, text) for expert in others)


def _not_a_link(text: str) -> str:
    """Return text that mail programs make no link of: a forger's words are not to be pressed."""
    return text.replace("://", ": // ").replace("www.", "www ")


def _counted(kind: str, journal: Journal, now: datetime) -> int:
    """Return how many reports there are today with this one; 0 when it was told today, or there were too many."""
    day = now.date().isoformat()
    kept = json.loads(journal.noted(CHANNEL, _NOTE) or "{}")
    told = kept["told"] if kept.get("day") == day else []
    if digest(kind) in told or len(told) >= MOST_A_DAY:
        return 0
    told.append(digest(kind))
    journal.note(CHANNEL, _NOTE, json.dumps({"day": day, "told": told}))
    return len(told)


def _text(report: Report, mail: MailIn, is_last: bool) -> str:
    sender = headers.field(mail.head, "From")[:100] or "(nobody)"
    words = " ".join((mail.words.own or mail.words.quoted).split())[:_BEGINNING]
    lines = [
        f"A mail that says it comes from {_not_a_link(sender)} {report.about}. It changed nothing: {report.why}.",
        f"It begins: {_not_a_link(words)}" if words else "It holds no words of its own.",
        "If it was yours: please answer the mail about it from your own mailbox, in words of your own.",
        f"It is kept: bedstamp journal show in-{report.id}",
    ]
    if is_last:
        lines.append("This is the last report of today; further mails of this kind are kept, but not reported.")
    return "\n".join(lines)
