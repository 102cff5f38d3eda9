"""What a mail asks: the words that are handed to the conversation, and why it is left alone when it asks nothing.

The subject counts in a new mail when it adds something. In an answer it only repeats what was asked, so that it counts
only when nothing else is there. What is passed on counts when the sender's own words hold no number.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from bot.channels.mail_format import MailIn
from bot.channels.mail_headers import bare_subject
from bot.conversation import is_question, is_search, search_words
from bot.replies import mail_cards
from bot.replies.mail import CLOSING, FORMER_OPENING, OPENING, TOLD_OPENING
from knowledge.base import Knowledge
from knowledge.said import Said, hear
from knowledge.tokens import find

LONGEST = 20_000  # characters of one question; more than a letter of ten pages
_SAYS_AUTOMATIC = re.compile(
    r"\b(?:this is an auto(?:mated|matic|matically generated) (?:reply|response|message|e-?mail|answer)|"
    r"(?:automatically|auto-?)\s?generated|please do not reply to this|do not reply to this (?:e-?mail|message)|"
    r"i am (?:currently )?out of (?:the )?office|dies ist eine automatische|automatisch (?:generiert|erstellt|erzeugt)|"
    r"réponse automatique|ceci est un message automatique|respuesta automática|mensaje automático|"
    r"risposta automatica|messaggio automatico|dit is een automatisch|"
    r"wiadomość (?:została )?wygenerowana automatycznie|"
    r"это автоматическ|detta är ett automatiskt)",
    re.IGNORECASE,
)


def _however_set(*sentences: str) -> re.Pattern[str]:
    """Match one of the sentences with its words anyhow apart: lines broken anew, or marks in front of them."""
    return re.compile("|".join(r"[\s>|*_]+".join(map(re.escape, sentence.split())) for sentence in sentences))


_OURS_BEGINS = _however_set(OPENING, FORMER_OPENING, TOLD_OPENING, mail_cards.OPENING)
_OURS_ENDS = _however_set(CLOSING, mail_cards.CLOSING)


_ACKNOWLEDGES = re.compile(
    r"\b(?:thank(?:s| you) for (?:contacting|your (?:message|e-?mail|mail|inquiry|enquiry|request|interest))|"
    r"(?:message|mail|e-?mail|request|inquiry|enquiry) (?:has been|was|is) (?:received|registered|forwarded)|"
    r"(?:we|i) (?:have )?received your|will (?:get|come) back to you|(?:we|i) will (?:reply|respond|answer)|"
    r"(?:office|opening|business) hours|(?:on|am on|until) (?:holiday|vacation|leave)|"
    r"dank für ihre (?:nachricht|anfrage|mail|e-mail)|wir haben ihre|im urlaub|nicht im (?:büro|haus)|"
    r"nous avons bien reçu|merci pour votre message|en vacances|gracias por su (?:mensaje|correo)|"
    r"grazie per (?:averci|il suo messaggio)|bedankt voor uw (?:bericht|e-mail)|dziękujemy za)",
    re.IGNORECASE,
)


def acknowledges(text: str) -> bool:
    """Whether a text has the phrases by which an office, or a program, says that a mail has come."""
    return _ACKNOWLEDGES.search(text) is not None


def says_automatic(text: str) -> bool:
    """Whether a text says of itself that a program wrote it."""
    return _SAYS_AUTOMATIC.search(text) is not None


@dataclass(frozen=True, slots=True)
class Question:
    """`text` is what is asked; `sources` says which parts of the mail it is made of; `rule` why it is no question."""

    text: str
    sources: tuple[str, ...]
    rule: str | None = None
    why: str = ""


def question(mail: MailIn, knowledge: Knowledge, in_known_thread: bool = False) -> Question:
    """Return what a mail asks. `in_known_thread` tells that it goes on with a conversation that is remembered."""
    text, sources = _text(mail, knowledge, in_known_thread)
    rule, why = _no_question(text, mail, knowledge, in_known_thread)
    return Question(text[:LONGEST], sources, rule, why)


def _text(mail: MailIn, knowledge: Knowledge, in_known_thread: bool) -> tuple[str, tuple[str, ...]]:
    own = without_ours(mail.words.own)
    pieces = [("own words", own)]
    if not _has_number(own, knowledge):
        pieces.append(("forwarded", without_ours(mail.words.forwarded)))
        if not in_known_thread:
            pieces.append(("quoted", without_ours(mail.words.quoted)))
    body = "\n\n".join(text for _, text in pieces if text)
    subject = bare_subject(mail.subject)
    if subject and _subject_counts(subject, body, mail, knowledge, in_known_thread):
        pieces.insert(0, ("subject", subject))
    filled = [(name, text) for name, text in pieces if text]
    return "\n\n".join(text for _, text in filled), tuple(name for name, _ in filled)


def without_ours(text: str) -> str:
    """Return a text without an answer of ours that came back in it without any mark."""
    start = _OURS_BEGINS.search(text)
    if start is None:
        return text
    end = _OURS_ENDS.search(text, start.end())
    return f"{text[: start.start()]}\n{text[end.end() :] if end else ''}".strip()


def _subject_counts(subject: str, body: str, mail: MailIn, knowledge: Knowledge, in_known_thread: bool) -> bool:
    if mail.is_reply:
        return not in_known_thread and not _has_number(body, knowledge) and _has_number(subject, knowledge)
    if _has_number(subject, knowledge):
        return not {token.serial for token in find(subject, knowledge.names).tokens} <= _serials(body, knowledge)
    heard, said = _heard(subject, knowledge), _heard(body, knowledge)
    return bool(heard.bears_on_datings or (heard.asks - said.asks) or (heard.person and not said.person))


def _no_question(text: str, mail: MailIn, knowledge: Knowledge, in_known_thread: bool) -> tuple[str | None, str]:
    """Return the rule that stops a mail for what it says, and why; None and '' for a question."""
    if mail.fault:
        return "unreadable", mail.fault
    has_number = _has_number(text, knowledge)
    if says_automatic(text) and (mail.is_reply or not has_number):
        return "says-it-is-automatic", "it says of itself that a program wrote it"
    if not text and not mail.has_picture:
        unreadable = ("unreadable", "there is no text in it that can be read")
        return unreadable if mail.attachments else ("empty", "it is empty")
    if in_known_thread or has_number or is_question(text, knowledge) or _is_about_a_photo(text, mail):
        return None, ""
    heard = _heard(text, knowledge)
    is_described = is_search(text, knowledge) and not search_words(text)
    if heard.person or ("?" in text and (heard.makers or heard.models)) or is_described:
        return None, ""
    return "no-question", "there is no serial number in it, and nothing is asked about a machine"


def _is_about_a_photo(text: str, mail: MailIn) -> bool:
    """A picture with next to no words asks by itself; one below a letter may be a letterhead."""
    return mail.has_picture and len(text) < 200 and not mail.is_reply


def _has_number(text: str, knowledge: Knowledge) -> bool:
    found = find(text[:LONGEST], knowledge.names)
    return bool(found.tokens) or any(one.registers for one in found.passed_over)


def _serials(text: str, knowledge: Knowledge) -> set[str]:
    return {token.serial for token in find(text[:LONGEST], knowledge.names).tokens}


def _heard(text: str, knowledge: Knowledge) -> Said:
    text = text[:LONGEST]
    return hear(text, knowledge.names, find(text, knowledge.names))
