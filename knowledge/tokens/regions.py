"""The parts of a message that its writer did not write now: quoted lines, and the signature below."""

from __future__ import annotations

import re
from typing import Final

from knowledge.tokens.fold import fold_word

Region = tuple[int, int, str]

_QUOTED_LINE: Final = re.compile(r"^[ \t]{0,3}(?:>|\| ?>)[^\n]*", re.MULTILINE)
_WROTE: Final = re.compile(
    r"^[^\n]{0,200}(?:"
    + "|".join(
        fold_word(word)
        for word in (
            "wrote", "writes", "schrieb", "a écrit", "escribió", "ha scritto", "scrisse", "schreef", "napisał",
            "napisała",
            "pisze", "napisał(a)", "написал", "написала", "пишет", "skrev", "escreveu", "napsal", "napsala",
        )
    ).replace("(", r"\(").replace(")", r"\)")
    + r")[^\n]{0,120}:[ \t]*$",
    re.MULTILINE,
)  # fmt: skip
_ORIGINAL: Final = re.compile(
    r"^[-_ ]{3,20}(?:original message|original-?nachricht|ursprungliche nachricht|message d'origine|mensaje original|"
    r"messaggio originale|oorspronkelijk bericht|forwarded message|weitergeleitete nachricht|ursprungligt "
    r"meddelande)\b[^\n]*"
    r"|^(?:from|von|de|da|van|od|fran|ot): [^\n]{1,200}\n(?:[^\n]{1,200}\n){0,2}(?:sent|date|gesendet|datum|envoye|"
    r"enviado|inviato|verzonden|skickat|wyslano|to|an): ",
    re.MULTILINE,
)
_FORWARDED: Final = re.compile("forwarded|weitergeleitet|transfere|reenviado|inoltrato|doorgestuurd|vidarebefordra")
_A_NUMBER: Final = re.compile(r"\d(?:[ .,/-]?\d){3,}")
_HEAD_LINES: Final = re.compile(r"(?:\n(?:[^\W\d_]{2,12}: [^\n]{1,200})?)*")
_SIGNATURE: Final = re.compile(r"^-- ?$", re.MULTILINE)
_CLOSINGS: Final = (
    "yours|yours sincerely|yours faithfully|yours truly|cheers|sincerely|"
    "mit freundlichen grüßen|viele grüße|liebe grüße|"
    "beste grüße|mfg|lg|cordialement|bien à vous|amitiés|saludos|saludos cordiales|un saludo|cordiali saluti|saluti|"
    "met vriendelijke groet|met vriendelijke groeten|groeten|groetjes|pozdrawiam|z poważaniem|с уважением|"
    "med vänliga hälsningar|vänliga hälsningar|mvh|hilsen|med venlig hilsen|atenciosamente|s pozdravem"
)
_CLOSING: Final = re.compile(
    r"^(?:(?:kind|best|warm|many|with kind|with best)? ?(?:regards|wishes|thanks)|"
    + "|".join(map(fold_word, _CLOSINGS.split("|")))
    + r")[,.! ]*$",
    re.MULTILINE,
)


def regions(low: str) -> list[Region]:
    """Return quoted and signed parts of folded text as (start, end, kind), in order and without overlap.

    The kind is `quoted` or `signature`. Below '... wrote:' only the lines marked as quoted are, if there are any.
    """
    if "\n" not in low and not low.lstrip().startswith(">"):
        return []
    quoted = [(m.start(), m.end(), "quoted") for m in _QUOTED_LINE.finditer(low)]
    for match in _WROTE.finditer(low):
        rest = low[match.end() : match.end() + 200].lstrip()
        quoted.append((match.start(), match.end() if rest.startswith(">") else len(low), "quoted"))
        if not rest.startswith(">"):
            break
    original = _ORIGINAL.search(low)
    if original:
        quoted.append((original.start(), _end_of_original(low, original), "quoted"))
    signature = _SIGNATURE.search(low) or _CLOSING.search(low)
    if signature:
        later = [start for start, _, _ in quoted if start > signature.start()]
        quoted.append((signature.start(), min(later, default=len(low)), "signature"))
        quoted += [(end, len(low), "signature") for _, end, _ in quoted[-2:-1] if later]
    return _without_overlap(sorted(quoted))


def _end_of_original(low: str, original: re.Match[str]) -> int:
    """Return where a mail within the message ends; one passed on by somebody with no number of his own is read."""
    if not _FORWARDED.search(original.group()) or _A_NUMBER.search(low, 0, original.start()):
        return len(low)
    head = _HEAD_LINES.match(low, original.end())
    return head.end() if head else original.end()


def _without_overlap(found: list[Region]) -> list[Region]:
    kept: list[Region] = []
    done = 0
    for start, end, kind in found:
        if end > max(start, done):
            kept.append((max(start, done), end, kind))
            done = end
    return kept
