"""Whether a mail that answers a card is believed to be that expert's own answer to it.

    mail -> which signed address it carries -> the doubts, an ordered table of rules -> believed, or why not

Only the one who wrote it now counts (From, read in one way only), never who passed it on. An address in `experts` and a
signature made for that very address are always needed. Where `trusted_authserv_id` is set, the own receiving server
must vouch for the sender too (bot/mail_trust.py); without it a stored answer still takes two mails, of which the second
carries what was sent to the expert's own mailbox alone (bot/mail_signing.py).
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from bot import mail_signing as signing
from bot.channels import mail_headers as headers
from bot.channels.mail_format import MailIn
from bot.mail_signing import Address, Kind, Signer, same_case
from bot.mail_trust import is_vouched_for
from bot.settings import MailSettings

_OF_LISTS = (Kind.OFFER.value, Kind.AGREE.value)


@dataclass(frozen=True, slots=True)
class Believed:
    """An expert's own answer. `expert` is the address as the settings have it."""

    expert: str
    address: Address


@dataclass(frozen=True, slots=True)
class Doubt:
    """Why a mail is not believed: the name of the rule, and a sentence for the experts."""

    rule: str
    why: str


@dataclass(frozen=True, slots=True)
class Claim:
    """A mail that carries a signed address, or what looks like one, with all that it is judged by."""

    mail: MailIn
    text: str
    settings: MailSettings
    signer: Signer
    now: datetime

    @property
    def sender(self) -> str:
        """The expert that the mail says it is from, '' for none."""
        return expert_of(self.mail, self.settings)

    @property
    def case(self) -> int:
        """The case that it claims to answer, 0 when it names none."""
        return self._number if self._kind not in (Kind.DAY.value, *_OF_LISTS) else 0

    @property
    def about(self) -> str:
        """What it claims to do, as half a sentence."""
        if not self.text:
            return "wants a list to be changed"
        if self._kind in _OF_LISTS:
            return f"answers change {self._number}" if self._kind == Kind.AGREE.value else "wants a list to be changed"
        return f"answers case {self.case}" if self.case else "answers a digest of cases"

    @property
    def _kind(self) -> str:
        return self.text.lower().partition("-")[0]

    @property
    def _number(self) -> int:
        number = re.search(r"\d{1,9}", self.text)
        return int(number[0]) if number else 0

    @property
    def address(self) -> Address | None:
        """The signed address, None when it is damaged."""
        return signing.read(self.text)


Rules = tuple[tuple[str, Callable[[Claim], str]], ...]


def expert_of(mail: MailIn, settings: MailSettings) -> str:
    """Return the address in `experts` that a mail says it is from, '' for none. Anybody can say so."""
    sole = same_case(headers.sole_sender(mail.head))
    return next((one for one in settings.experts if same_case(one) == sole), "") if sole else ""


def claim_of(mail: MailIn, settings: MailSettings, signer: Signer, now: datetime) -> Claim | None:
    """Return what a mail claims to answer, None for one that answers no card.

    What it answers at once decides; then the subject, then the thread, latest first, then whom it was sent to.
    """
    places = (mail.in_reply_to, mail.subject, *reversed(mail.references), *mail.delivered_to, *mail.recipients)
    text = next((claim for place in places if (claim := signing.claimed_in(place))), "")
    return Claim(mail, text, settings, signer, now) if text else None


def believe(claim: Claim) -> Believed | Doubt:
    """Ask the rules in order until one has a doubt."""
    if doubt := _doubt(claim, DOUBTS):
        return doubt
    address = claim.address
    if address is None:  # the rules see to it that it is not
        return Doubt("damaged-signature", "its case address is damaged")
    return Believed(claim.sender, address)


def doubt_without_address(mail: MailIn, settings: MailSettings, signer: Signer, now: datetime) -> Doubt | None:
    """Return why a mail of an expert that carries no signed address is not taken for theirs, None when it is.

    It is enough for showing something to that expert alone, and for nothing else.
    """
    needs_none = tuple(one for one in DOUBTS if one[0] not in _ABOUT_THE_ADDRESS)
    return _doubt(Claim(mail, "", settings, signer, now), needs_none)


def _doubt(claim: Claim, rules: Rules) -> Doubt | None:
    return next((Doubt(name, why) for name, rule in rules if (why := rule(claim))), None)


def _not_one_sender(claim: Claim) -> str:
    return "" if headers.sole_sender(claim.mail.head) else "its From can be read in more than one way"


def _no_expert(claim: Claim) -> str:
    return "" if claim.sender else "it does not come from an address of an expert"


def _passed_on_by_another(claim: Claim) -> str:
    head = claim.mail.head
    others = {same_case(one) for one in headers.addresses(head, "Sender")} - {same_case(claim.sender)}
    resent = any(name.lower().startswith("resent-") for name in head.keys())  # noqa: SIM118  # a Message is no dict
    return "somebody else sent it, or sent it on, in the expert's name" if others or resent else ""


def _through_a_list(claim: Claim) -> str:
    is_listed = any(name.lower().startswith("list-") for name in claim.mail.head.keys())  # noqa: SIM118
    return "it came through a mailing list, where everybody can read the case address" if is_listed else ""


def _not_vouched_for(claim: Claim) -> str:
    trusted = claim.settings.trusted_authserv_id
    if not trusted or is_vouched_for(claim.mail.head, claim.sender, trusted):
        return ""
    return f"{trusted} does not vouch for its sender (no DMARC pass, and no DKIM pass of that domain)"


def _damaged(claim: Claim) -> str:
    return "its case address is damaged, or was made up" if claim.address is None else ""


def _of_another(claim: Claim) -> str:
    """The signature was made, but for somebody else: an expert who answers a card of a colleague's."""
    address = claim.address
    if address is None or claim.signer.is_of(address, claim.sender):
        return ""
    others = [one for one in claim.settings.experts if claim.signer.is_of(address, one)]
    return "its case address was made for another expert" if others else ""


def _not_signed(claim: Claim) -> str:
    address = claim.address
    is_ours = address is not None and claim.signer.is_of(address, claim.sender)
    return "" if is_ours else "its case address was not made by me for this case and this expert"


def _over(claim: Claim) -> str:
    is_over = claim.address is not None and signing.is_over(claim.address, claim.now)
    return "the time in which its case address could be used is over" if is_over else ""


def _passed_on(claim: Claim) -> str:
    is_passed_on = bool(claim.mail.words.forwarded) or claim.mail.is_passed_on
    return "it passes another mail on, and only what an expert writes in an answer counts" if is_passed_on else ""


_ABOUT_THE_ADDRESS = ("damaged-signature", "signature-of-another", "no-signature", "out-of-time")
DOUBTS: Rules = (
    ("several-senders", _not_one_sender),
    ("no-expert", _no_expert),
    ("sent-by-another", _passed_on_by_another),
    ("through-a-list", _through_a_list),
    ("not-vouched-for", _not_vouched_for),
    ("damaged-signature", _damaged),
    ("signature-of-another", _of_another),
    ("no-signature", _not_signed),
    ("out-of-time", _over),
    ("passed-on", _passed_on),
)
"""In order: the first that has something to say decides. Words that are only quoted, or repeated, are found later."""
