"""An expert's own words in a mail: without greeting, signing off and our own sentences; and whether they say yes."""

from __future__ import annotations

import re
from email.utils import parseaddr

from bot.channels import mail_headers as headers
from bot.channels.mail_format import MailIn
from bot.mail_reading import acknowledges, says_automatic, without_ours
from knowledge.base import Knowledge
from knowledge.expert_answers import NO_ANSWER, understand
from knowledge.hearing.words import folded_set, split

LONGEST = 5_000  # characters of one answer
_LAST_LINES = 5  # that signing off and a name may take
_GREETING = re.compile(
    r"(?:dear|hello|hi|hey|good (?:morning|afternoon|evening)|hallo|moin|guten (?:tag|morgen|abend)|liebe[rs]?|"
    r"bonjour|salut|cher|chère|hola|buenos días|buongiorno|ciao|salve|beste|dag|hej|cześć|witam|dzień dobry|"
    r"здравствуйте|привет)"
    r"\b[^\n\d?:;]{0,40}[,!.]?",
    re.IGNORECASE,
)
_SIGNING_OFF = re.compile(
    r"(?:(?:with |my |all )?(?:best|kind|kindest|warm|warmest|many)(?: (?:regards|wishes|greetings|thanks))?|regards|"
    r"cheers|thanks|many thanks|thank you|yours(?: \w+)?|sincerely(?: yours)?|all the best|br|"
    r"(?:viele|liebe|beste|freundliche|mit (?:freundlichen|besten|lieben)|schöne|herzliche)n? grü(?:ß|ss)en?|"
    r"gru(?:ß|ss)|lg|mfg|vg|danke|"
    r"cordialement|amicalement|bien à vous|merci|saludos|un saludo|gracias|(?:cordiali )?saluti|"
    r"grazie|(?:met )?(?:vriendelijke |hartelijke )?groet(?:en|jes)?|bedankt|pozdrawiam|pozdrowienia|z poważaniem|"
    r"с уважением|hälsningar|(?:med )?vänliga hälsningar|mvh)\b[,.! ]*(?:from )?[^\n\d?:;,]{0,30}",
    re.IGNORECASE,
)
_YES = folded_set(
    "yes yeah yep yup agree ja jawohl oui sí si sì tak да jo ok okay correct right agreed confirm confirmed exactly "
    "stimmt richtig genau exact exacto esatto juist klopt"
)
_AROUND_YES = folded_set(
    "that that's s ' is it it's this so quite all perfectly please store save keep do go ahead thanks thank you i the "
    "case das ist so bitte speichern c est bien va bene dat well good fine perfect indeed absolutely sure"
)
_TAKES_BACK = folded_set(
    "no not n't but except only though however instead wrong rather or correction ps aber nicht nur doch statt mais "
    "pas sauf pero no sino ma non però maar niet ale nie но не men inte"
)
_TURNS_DOWN = re.compile(
    r"(?:please |i )?(?:(?:turn|turned) (?:(?:it|this|that) )?down|(?:take|taken) (?:(?:it|this|that) )?back|"
    r"(?:reject|withdraw)(?: (?:it|this|that))?|rejected|withdrawn|disagree)",
    re.IGNORECASE,
)
_AFTER_NO = re.compile(r"[,.:;!–—\n]+|\s-\s|\bbecause\b|\bfor\b|\bas\b")
_NO = folded_set("no nope wrong nein falsch non nee nie нет nej incorrect false")


def own_words(mail: MailIn) -> str:
    """Return what an expert wrote now and nothing else, '' when that is nothing."""
    lines = without_ours(mail.words.own)[:LONGEST].strip().split("\n")
    if len(lines) > 1 and _GREETING.fullmatch(lines[0].strip()):
        lines = lines[1:]
    return "\n".join(lines[: _end(lines, _names(mail))]).strip()


def wrote_by_itself(mail: MailIn) -> bool:
    """Whether the words read as if a program had written them: out of office, received with thanks."""
    return says_automatic(mail.words.own) or acknowledges(mail.words.own)


def first_line(text: str) -> tuple[str, str]:
    """Return the first line that says something, and the rest, which may be a letterhead."""
    line, _, rest = text.strip().partition("\n")
    return line, rest.strip()


def may_be_letterhead(text: str) -> bool:
    """Whether lines below a yes may be what somebody signs with: nothing is asked in them, and nothing taken back."""
    words = {word.text for word in split(text)}
    return "?" not in text and not words & _TAKES_BACK


def is_yes(text: str) -> bool:
    """Whether a text says yes, and nothing else that might be meant otherwise.

    >>> is_yes("Yes, that's right."), is_yes("yes, but about 1912"), is_yes("Yes?")
    (True, False, False)
    """
    words = {word.text for word in split(text) if word.text.isalnum()}
    return "?" not in text and bool(words & _YES) and words <= _YES | _AROUND_YES


def says_yes(text: str, knowledge: Knowledge) -> bool:
    """Whether words are a yes, alone or above lines that say nothing of a machine, as a letterhead does not."""
    line, rest = first_line(text)
    if not is_yes(line):
        return False
    return not rest or is_yes(text) or (may_be_letterhead(rest) and understand(rest, knowledge).kind == NO_ANSWER)


def turned_down(text: str) -> str | None:
    """Return why somebody turns something down, '' for no reason; None when it is not clear that they do.

    >>> turned_down("No, the second ledger has 1890."), turned_down("take it back"), turned_down("no objections")
    ('the second ledger has 1890.', '', None)
    """
    text = text.strip()
    mark = _AFTER_NO.search(text)
    first, rest = (text[: mark.start()], text[mark.end() :].strip()) if mark else (text, "")
    says_no = is_no(first) or _TURNS_DOWN.fullmatch(first.strip()) is not None
    return " ".join(rest.split()) if says_no and not is_yes(rest) else None


def is_no(text: str) -> bool:
    """Whether a text says no, and nothing of how it is.

    >>> is_no("No, that's wrong!"), is_no("no, it is a Model 9")
    (True, False)
    """
    words = {word.text for word in split(text) if word.text.isalnum()}
    return bool(words & _NO) and words <= _NO | _AROUND_YES


def _end(lines: list[str], names: set[str]) -> int:
    """Return at which line the answer ends, and signing off or a mere name begins."""
    end = len(lines)
    for at in range(len(lines) - 1, max(0, len(lines) - 1 - _LAST_LINES), -1):
        line = lines[at].strip()
        if _SIGNING_OFF.fullmatch(line) or (at == end - 1 and (not line or _is_name(line, names))):
            end = at
    return end


def _is_name(line: str, names: set[str]) -> bool:
    words = {word.text for word in split(line) if word.text.isalpha()}
    return bool(words & names) and all(word in names or len(word) == 1 for word in words)


def _names(mail: MailIn) -> set[str]:
    """Return the words of the sender's name, and of the local part of their address."""
    shown = parseaddr(headers.field(mail.head, "From"))[0]
    local = mail.sender.partition("@")[0].replace(".", " ").replace("_", " ")
    return {word.text for word in split(f"{shown} {local}") if word.text.isalpha()}
