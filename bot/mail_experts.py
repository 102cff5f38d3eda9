"""Experts and askers by mail, as the desk sees them: cards, digests, and what is told to those who wait.

Every mail to an expert carries an address that was signed for that expert alone (bot/mail_signing.py), and says that a
program made it (RFC 3834), so that no program answers it. Pictures of askers are attached as they came, within bounds.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from urllib.parse import quote

from bot import pictures
from bot.cases import Asker, Card, Case, Notice, Picture
from bot.changes import ChangeCard
from bot.channels.mail_building import GENERATED, Draft, build, reply_subject
from bot.expert_desk.change_offers import Offer
from bot.expert_desk.nouns import Digest, Proposal
from bot.expert_desk.rows import ASKER
from bot.journal import Reply
from bot.mail_identity import CHANNEL, domain_of, own_id, person_key
from bot.mail_signing import Address, Kind, Signer
from bot.pictures.png import as_png
from bot.replies import cards, changes, mail_cards
from bot.replies.mail import TOLD_OPENING
from bot.replies.mail import closing as closing_to_askers
from bot.replies.mail_letters import Letter, quoted, said, written
from bot.settings import MailSettings
from knowledge.answer import answer_found
from knowledge.base import Knowledge
from knowledge.tokens import find

_LONGEST_TITLE = 100  # characters in a subject, before the signed address
MOST_PHOTOS = 6
MOST_BYTES = 10_000_000
"""Of all photos of one card; a third more on the way (base64), and servers take 20 MB and more."""


@dataclass(frozen=True, slots=True)
class Route:
    """How an asker is reached: their address, and where in which thread an answer belongs."""

    to: str
    subject: str
    in_reply_to: str = ""
    references: tuple[str, ...] = ()

    def as_text(self) -> str:
        """Return it as the desk keeps it."""
        return json.dumps([self.to, self.subject, self.in_reply_to, list(self.references)], ensure_ascii=False)

    @classmethod
    def from_text(cls, text: str) -> Route:
        """Return what `as_text` told."""
        to, subject, in_reply_to, references = json.loads(text)
        return cls(to, subject, in_reply_to, tuple(references))


class MailExperts:
    """The experts' channel of the desk. `signer` is that of the store, `now` tells the time.

    `knowledge` is what the picture of a card is drawn from; without it there is none.
    """

    def __init__(
        self,
        settings: MailSettings,
        group: str,
        signer: Callable[[], Signer],
        now: Callable[[], datetime],
        knowledge: Callable[[], Knowledge] | None = None,
    ) -> None:
        self.settings, self.group = settings, group
        self._signer, self._now, self._knowledge = signer, now, knowledge

    @property
    def name(self) -> str:
        """The name of the channel."""
        return CHANNEL

    @property
    def signer(self) -> Signer:
        """What signs the addresses of the store."""
        return self._signer()

    def card(self, card: Card) -> Sequence[Reply]:
        """Put a case before every expert, with the pictures that came with it."""
        return self._cards(card, self.settings.experts, f"card{card.case.version}", card.case.changed)

    def card_again(self, expert: str, card: Card, message: int) -> Reply:
        """Put a case before one expert once more, because of the message in-`message`."""
        (reply,) = self._cards(card, (expert,), f"again{message}", self._now())
        return reply

    def changed(self, card: Card) -> Sequence[Reply]:
        """Tell nobody, for a mail cannot be changed, and the digest says what is open. What askers add is sent on."""
        is_news = bool(card.note) and card.history[-1:] != () and card.history[-1].who == ASKER
        return self.card(card) if is_news and card.case.is_unsettled else ()

    def tell(self, asker: Asker, notice: Notice, card: Card) -> Sequence[Reply]:
        """Tell somebody who waits, in the thread of their question."""
        route = Route.from_text(asker.route)
        message_id = own_id(notice.key, 1, self.settings.address, about=notice.case)
        subject = reply_subject(route.subject)
        beginning = (quoted("You asked", notice.quoted),) if notice.quoted else ()
        lead = f"About {cards.what_about(card.case)}" if card.case.numbers else "About your machine"
        blocks = (said(*notice.text.split("\n")), *beginning)
        letter = Letter(TOLD_OPENING, lead, blocks, closing_to_askers(self.group))
        mail = written(letter, subject)
        draft = Draft(
            self.settings.address, self.group, route.to, subject, message_id, self._now(), mail.text, mail.html,
            in_reply_to=route.in_reply_to, references=route.references,
        )  # fmt: skip
        key = person_key(route.to)
        return (Reply(CHANNEL, message_id, route.to, build(draft), person=key, conversation=key),)

    def digest(self, digest: Digest) -> Sequence[Reply]:
        """Tell every expert once a day what is new and what waits."""
        letter = mail_cards.digest_letter(
            digest.new, digest.remind, digest.waiting, digest.longest, self.group, digest.changes
        )
        return [self._digest_to(expert, digest, letter) for expert in self.settings.experts]

    def understood(self, expert: str, proposal: Proposal, case: Case, thread: Route) -> Reply:
        """Show an expert what was understood of their answer; a yes to this mail carries it out."""
        kind = Kind.AMEND if proposal.amends else Kind.READ
        signed = self.signer.sign(kind, case.id, expert, self._now(), part=proposal.id)
        subject = f"{mail_cards.title(case)[:_LONGEST_TITLE]} [{signed}]"
        yes = self._yes(subject) if proposal.can_settle else ""
        letter = mail_cards.read_letter(proposal.text, proposal.words, case, self.group, yes, proposal.amends)
        return self._mail(expert, self._id(signed, "read"), subject, letter, thread=thread)

    def change(self, card: ChangeCard) -> Sequence[Reply]:
        """Put a change of a list before every expert, or tell them what became of it."""
        if card.waits:
            at = card.change.at or self._now()
            return [self._change_to(expert, card, "", "change1", at) for expert in self.settings.experts]
        key = f"change{card.number} {card.change.state}"
        told = mail_cards.change_told(card)
        return [self.told(expert, key, changes.title(card), told) for expert in self.settings.experts]

    def change_again(self, expert: str, card: ChangeCard, note: str, message: int) -> Reply:
        """Put a change before one expert once more, because of the message in-`message`."""
        if not card.waits:
            told = mail_cards.change_told(card)
            return self.told(expert, f"change{card.number} again{message}", changes.title(card), told)
        return self._change_to(expert, card, note, f"again{message}", self._now())

    def offered(self, expert: str, offer: Offer, why: str, thread: Route) -> Reply:
        """Show an expert what their words would change; a yes to this mail proposes it."""
        signed = self.signer.sign(Kind.OFFER, offer.id, expert, self._now())
        subject = f"{mail_cards.OFFER_TITLE} [{signed}]"
        letter = mail_cards.offer_letter(offer.text, why, self.group, self._yes(subject))
        return self._mail(expert, self._id(signed, "offer"), subject, letter, thread=thread)

    def _change_to(self, expert: str, card: ChangeCard, note: str, name: str, at: datetime) -> Reply:
        signed = self.signer.sign(Kind.AGREE, card.number, expert, at)
        subject = f"{changes.title(card)} [{signed}]"
        letter = mail_cards.change_letter(card, note, self.group, self._yes(subject))
        return self._mail(expert, self._id(signed, name), subject, letter)

    def _yes(self, subject: str) -> str:
        """Return where a press on yes leads: a mail that is written already."""
        return f"mailto:{quote(self.settings.address, safe='@')}?subject={quote(subject)}&body=yes"

    def told(self, expert: str, key: str, lead: str, text: str, thread: Route | None = None, about: int = 0) -> Reply:
        """Tell an expert something, such as what came of their mail. `about` is the case it is about."""
        letter = mail_cards.told_letter(lead, text, self.group)
        message_id = own_id(f"{key} {expert}", 1, self.settings.address, about)
        return self._mail(expert, message_id, lead, letter, thread=thread)

    def _cards(self, card: Card, experts: Sequence[str], name: str, at: datetime) -> list[Reply]:
        if not experts:
            return []
        photos = _photos(card.pictures)
        told = mail_cards.Pictures(len(photos), len(card.pictures) - len(photos))
        words, picture = self._picture(card.case)
        letter = mail_cards.card_letter(card, self.group, told, words)
        replies = []
        for expert in experts:
            signed = self.signer.sign(Kind.CASE, card.case.id, expert, at)
            subject = f"{mail_cards.title(card.case)[:_LONGEST_TITLE]} [{signed}]"
            replies.append(self._mail(expert, self._id(signed, name), subject, letter, photos, picture))
        return replies

    def _digest_to(self, expert: str, digest: Digest, letter: Letter) -> Reply:
        noon = datetime(digest.day.year, digest.day.month, digest.day.day, 12, tzinfo=UTC)
        signed = self.signer.sign(Kind.DAY, digest.day.toordinal(), expert, noon)
        return self._mail(expert, self._id(signed, "digest"), f"{letter.lead} [{signed}]", letter)

    def _id(self, signed: Address, name: str) -> str:
        return f"<{signed}.{name}@{domain_of(self.settings.address)}>"

    def _mail(
        self,
        expert: str,
        message_id: str,
        subject: str,
        letter: Letter,
        photos: tuple[bytes, ...] = (),
        picture: bytes = b"",
        thread: Route | None = None,
    ) -> Reply:
        mail = written(letter, subject)
        draft = Draft(
            self.settings.address, self.group, expert, subject, message_id, self._now(), mail.text, mail.html, picture,
            photos=photos, automatic=GENERATED,
        )  # fmt: skip
        if thread is not None:
            draft = replace(draft, in_reply_to=thread.in_reply_to, references=thread.references)
        return Reply(CHANNEL, message_id, expert, build(draft), person=person_key(expert))

    def _picture(self, case: Case) -> tuple[str, bytes]:
        """Return the picture of where the number stands, in words and as PNG; empty when there is none to draw."""
        if self._knowledge is None or not case.asked.text:
            return "", b""
        knowledge = self._knowledge()
        answer = answer_found(case.asked.text, find(case.asked.text, knowledge.names), case.asked.said, knowledge)
        if not pictures.can_draw(answer):
            return "", b""
        picture = pictures.lay_out(answer, knowledge)
        return picture.description, as_png(picture)


def _photos(found: Sequence[Picture]) -> tuple[bytes, ...]:
    """Return the pictures that can be attached, within bounds."""
    kept: list[bytes] = []
    for one in found:
        if one.content and len(kept) < MOST_PHOTOS and sum(map(len, kept)) + len(one.content) <= MOST_BYTES:
            kept.append(one.content)
    return tuple(kept)
