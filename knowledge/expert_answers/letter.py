"""Which words of a message are the expert's own answer: no greeting, no signature, nothing quoted or repeated.

What is left out becomes spaces, so that everything keeps its place.
"""

from __future__ import annotations

import re

from knowledge.expert_answers.plain import Phrases, plain

_QUOTED_LINE = re.compile(r"^[ \t]*(?:>|\|).*$", re.MULTILINE)
_QUOTE_HEAD = re.compile(
    r"^[^\n]{0,200}(?:wrote|writes|schrieb|a écrit|ecrit|escribió|escribio|ha scritto|"
    r"schreef)[ \t]*:[ \t]*$", re.MULTILINE
)
_PASSED_ON = re.compile(
    r"^[ \t]*-{2,}[ \t]*(?:original message|forwarded message|begin forwarded message|ursprüngliche nachricht|"
    r"weitergeleitete nachricht|message d'origine|message transféré|mensaje original|messaggio originale|"
    r"oorspronkelijk bericht)[ \t]*-*[ \t]*$|^from: .+\n(?:sent|date|to): ",
    re.MULTILINE,
)
_SIGNATURE = re.compile(r"^-- ?$", re.MULTILINE)
_POSTSCRIPT = re.compile(r"^[ \t]*p\.? ?s\.?[ \t:]", re.MULTILINE)
_COUNTED = re.compile(r"(?:(?<=\s)|(?<=^))\(?\d\)(?=\s)|^[ \t]*\d\.(?=[ \t]+[^\W\d_])", re.MULTILINE)
"""'(1)' and '2.' before the points of a list."""
_STRUCK = re.compile(r"~~[^~\n]+~~")
_CLOSING_WORD = Phrases(
    "all the best|cheers|yours|many thanks|thanks|thanks again|thank you|love|take care|best|bw|kr|happy sewing|bye|"
    "ta|hth|hope this helps|danke|merci|gracias|grazie|bedankt"
)
"""What closes a letter when no more than a name follows."""
_CLOSING = Phrases(
    "best wishes|best regards|kind regards|kindest regards|warm regards|warmest regards|regards|with kind regards|"
    "yours sincerely|yours truly|yours faithfully|sincerely|sincerely yours|sent from my *|with best wishes|"
    "with best regards|mit freundlichen grüßen|freundliche grüße|viele grüße|liebe grüße|beste grüße|herzliche grüße|"
    "schöne grüße|grüße|gruß|lg|vg|mfg|cordialement|bien cordialement|bien à vous|amicalement|salutations|à bientôt|"
    "bonne journée|saludos|un saludo|saludos cordiales|atentamente|un abrazo|cordiali saluti|saluti|un saluto|"
    "cordialmente|distinti saluti|groeten|groet|groetjes|met vriendelijke groet|met vriendelijke groeten|"
    "vriendelijke groeten|mvg|hartelijke groet"
)
_GREETING = Phrases(
    "hi|hello|hey|dear|good morning|good evening|good afternoon|morning|evening|hi all|hello all|dear all|"
    "hi everyone|hallo|liebe|lieber|guten tag|guten morgen|guten abend|moin|servus|sehr geehrte*|bonjour|bonsoir|"
    "salut|chère|cher|chers|hola|buenos días|buenas tardes|buenas|estimad*|querid*|ciao|salve|buongiorno|buonasera|"
    "cara|caro|cari|gentile|beste|hoi|dag|goedemorgen|goedemiddag|goedenavond|geachte"
)
_STREET = (
    r"row|street|st\.?|road|rd\.?|lane|avenue|ave\.?|close|drive|court|square|gardens|crescent|terrace|hill|place|park|"
    r"mews|walk|green|way|yard|quay"
)
_ADDRESS_LINE = re.compile(
    rf"^[ \t]*(?:(?!1[789]\d\d )\d{{1,4}}[a-z]?,? (?:[^\W\d_][\w'.-]* ){{1,3}}(?i:{_STREET})(?![^\W_])[^\n]*"
    r"|[^\W\d_][\w'. -]{0,30}(?i:stra(?:ß|ss)e|str\.|gasse|weg|platz|allee|straat|laan|plein|gracht) \d{1,3} ?[a-z]?"
    r"(?:,[^\n]*)?"
    r"|\d{1,3},? (?:bis )?(?i:rue|avenue|boulevard|place|chemin|impasse) [^\n\d:]+"
    r"|(?i:calle|avenida|via|viale|piazza|corso) [^\n\d:]+,? \d{1,3}(?:,[^\n]*)?)[ \t]*$",
    re.MULTILINE,
)
"""A line that is a house in a street and nothing else. Lines of a place with its post code look like numbers."""
_NAME_LINE = re.compile(r"\n[ \t]*\n[ \t]*[A-ZÀ-Ý][\w'’.-]*(?:[ \t]+[A-ZÀ-Ý][\w'’.-]*){0,3},?[ \t]*\n?\Z")
_CLOSING_LINE = re.compile(r"^[^\n]*$", re.MULTILINE)
_INLINE_END = re.compile(r"[.!?;\n][ \t]*(?=\S)")
_GREETED = re.compile(r"[^\n,.!:;]{0,40}[\n,.!:;]")
_LONGEST_END = 500
"""Signs. What stands further from the end than that closes no letter."""
_ASKED_WORDS = 4
"""Words in a row that are the asker's when the asker wrote them too."""


def own_words(text: str, asked: str = "") -> str:
    """Return a message with everything blanked that is not the expert's own answer; `asked` is what the asker wrote.

    >>> own_words("Hi Ada, Model 9.\\nCheers, Bo").strip()
    'Model 9.'
    """
    for pattern in (_QUOTE_HEAD, _QUOTED_LINE, _STRUCK, _COUNTED):
        text = pattern.sub(lambda match: _blank(match[0]), text)
    text = _cut(text, _PASSED_ON.search(text.lower()))
    text = _without_signature(text)
    text = _without_address(text)
    text = _without_greeting(text)
    return _without_repeated(text, asked) if asked else text


def _blank(text: str) -> str:
    return "".join(sign if sign == "\n" else " " for sign in text)


def _cut(text: str, at: re.Match[str] | None) -> str:
    return text if at is None else text[: at.start()] + _blank(text[at.start() :])


def _without_signature(text: str) -> str:
    """Blank from the line that closes the letter to its end, but for a postscript."""
    low = plain(text)
    at = _closing(text, low)
    if at is None:
        return text
    postscript = _POSTSCRIPT.search(low, at)
    end = postscript.end() if postscript else len(text)
    return text[:at] + _blank(text[at:end]) + text[end:]


def _without_address(text: str) -> str:
    """Blank a postal address at the end, with the line above it where that is no more than a name."""
    last = len(text.rstrip())
    for found in _ADDRESS_LINE.finditer(text):
        rest = [line for line in text[found.end() : last].split("\n") if line.strip()]
        if not text[: found.start()].strip() or len(rest) > _LINES_OF_AN_ADDRESS or any(map(_says_more, rest)):
            continue
        name = _NAME_LINE.search(text, 0, found.start())
        start = name.start() if name and text[: name.start()].strip() else found.start()
        return text[:start] + _blank(text[start:])
    return text


_LINES_OF_AN_ADDRESS = 5


def _says_more(line: str) -> bool:
    """Tell a line of text from one that may belong to an address: a place, a country, a telephone number."""
    return len(line.split()) > _LINES_OF_AN_ADDRESS or line.rstrip()[-1:] in ".!?"


def _closing(text: str, low: str) -> int | None:
    if dashes := _SIGNATURE.search(low):
        return dashes.start()
    last = len(low.rstrip())
    for start in [match.end() for match in _INLINE_END.finditer(low)]:
        if (found := _CLOSING.begins(low, start)) and _LETTER_GOES_ON.match(low, found.end()) is None:
            return start
        found = _CLOSING_WORD.begins(low, start) if last - start < _LONGEST_END else None
        if found and _ends_a_letter(low, found.end()):
            return start
    return None


_LETTER_GOES_ON = re.compile(r" (?:to|for|an|für|à|a|aan|voor)(?![^\W_])")


def _ends_a_letter(low: str, end: int) -> bool:
    """Tell 'Thanks, Ada' at the end from 'thanks for the photo, it is a Model 9': only a name may follow."""
    line_end = low.find("\n", end)
    line = low[end : line_end if line_end >= 0 else len(low)]
    rest = low[line_end:] if line_end >= 0 else ""
    name = line.strip(" ,.!-\t")
    short = len(name.split()) <= 3 and not any(sign.isdecimal() for sign in name)
    only_signs = not re.search(r"[:;?]|\.\s+\S", line)
    few_lines = len([one for one in rest.split("\n") if one.strip()]) <= 8
    return short and only_signs and few_lines and (len(rest.strip()) < 400)


def _without_greeting(text: str) -> str:
    low = plain(text)
    start = len(low) - len(low.lstrip())
    found = _GREETING.begins(low, start)
    if found is None or found.start() > start:
        return text
    greeted = _GREETED.match(low, found.end())
    if greeted is None or any(sign.isdecimal() for sign in greeted[0]) or len(greeted[0].split()) > 4:
        return text
    return text[:start] + _blank(text[start : greeted.end()]) + text[greeted.end() :]


def _without_repeated(text: str, asked: str) -> str:
    """Blank sentences that the asker wrote, word for word."""
    theirs = _bare(asked)
    parts = re.split(r"(\n+|(?<=[.!?])\s+)", text)
    return "".join(_blank(part) if _is_repeated(part, theirs) else part for part in parts)


def _is_repeated(part: str, theirs: str) -> bool:
    return len(part.split()) >= _ASKED_WORDS and _bare(part) in theirs


def _bare(text: str) -> str:
    return " ".join(re.findall(r"\w+", plain(text)))
