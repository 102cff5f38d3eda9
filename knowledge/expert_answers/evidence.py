"""What an expert goes by: a dated document, a ledger, a feature of the machine. Told in the expert's own words."""

from __future__ import annotations

import re
from collections.abc import Sequence

from knowledge.expert_answers.clauses import Clause
from knowledge.expert_answers.names import Stated
from knowledge.expert_answers.plain import Phrases
from knowledge.findings import DATED_DOCUMENT, FEATURE, LEDGER

_NOUNS = {
    DATED_DOCUMENT: Phrases(
        "receipt*|guarantee|guarantee card*|warranty|warranty card*|invoice*|bill of sale|sales slip|sales ticket|"
        "delivery note*|dated manual|manual|instruction book*|instruction leaflet|hire purchase|agreement|contract|"
        "letter|certificate|"
        "quittung*|garantiekarte|garantieschein*|garantieheft|rechnung*|kaufbeleg|kaufvertrag|lieferschein*|"
        "betriebsanleitung|anleitung|reçu*|facture*|garantie|bon de garantie|carte de garantie|mode d'emploi|"
        "recibo*|factura*|garantía|tarjeta de garantía|manual|ricevut*|fattur*|garanzia|scontrino|libretto|"
        "bonnetje|kassabon|factuur|garantiebewijs|garantiekaart|koopakte|handleiding|kwitantie|bon"
    ),
    LEDGER: Phrases(
        "ledger*|page|pages|p.|pp.|register*|list|lists|listing|book|books|book of numbers|number book|letter book|"
        "letterbook|day book|daybook|yearbook*|catalogue*|catalog*|price list*|card index|index card*|records|entry|"
        "volume|vol.|folio|table|database|archive*|circular|cards|"
        "hauptbuch|seite|verzeichnis|liste*|buch|jahrbuch|nummernbuch|katalog*|kartei|archiv|lieferbuch|"
        "registre*|page|livre|grand livre|catalogue|archives|fichier|registro|página|libro|libro mayor|lista|catálogo|"
        "pagina|elenco|libro mastro|catalogo|schedario|archivio|grootboek|bladzijde|blz.|blz|lijst|boek|register|"
        "jaarboek|catalogus|archief"
    ),
    FEATURE: Phrases(
        "shuttle*|bobbin*|decal*|bed|needle*|tension*|presser|foot|badge|handwheel|hand wheel|balance wheel|spool pin*|"
        "faceplate|face plate|slide plate*|cover plate|stitch plate|gold*|ornament*|transfer*|lettering|paint|finish|"
        "pillar|arm|crank|treadle|base|case|motor|hook|feed dog*|bobbin winder|winder|plate|castings|casting|"
        "stitch lever|stitch length|knob|stampings|stamping|digits|leading zero|prefix|letter k|screw*|thread guide|"
        "schiffchen|spule*|spulenkapsel|abziehbild*|nadel*|spannung|grundplatte|handrad|greifer|verzierung*|dekor|"
        "plakette|stichplatte|navette|canette|décor*|aiguille|socle|volant|plaque|lanzadera|canilla|bobina|aguja|"
        "calcomanía*|decoración|base|volante|navetta|spolina|bobina|ago|decor*|decalcomanie|volantino|basamento|"
        "schuitje|spoel*|naald|versiering*|handwiel|grijper|transfers|voetplaat|embleem"
    ),
}
_CUE = Phrases(
    "by|by the|judging by|judging from|going by|to judge by|according to|per|as per|see|seen in|from the|from my|"
    "from our|because|because of|since|as the|as it|as in|given|based on|on the basis of|thanks to|on account of|due to|"
    "with|going on|confirmed by|cf|cf.|ref|ref.|source|source:|evidence|evidence:|proof|it has|has the|has a|has|"
    "in the|in my|in our|on the|"
    "laut|nach dem|nach der|nach den|wegen|siehe|s.|anhand|aufgrund|gemäß|aus dem|aus der|weil|da|mit|steht im|"
    "d'après|selon|voir|vu|grâce à|à cause|car|parce que|puisque|avec|dans le|dans la|"
    "según|por el|por la|por los|por las|véase|ver|vea|porque|ya que|con|en el|en la|"
    "secondo|dal|dalla|dai|dalle|vedi|v.|perché|poiché|con|nel|nella|in base a|"
    "volgens|zie|aan de|aan het|gezien|wegens|omdat|want|met|op grond van|in het|blijkens"
)
_RESULT = re.compile(
    r"(?:[\s,]|\b)(?:so|therefore|hence|thus|it's|it is|its a|this is|that's|that is|i'd say|i would say|i make it|makes it|"
    r"which makes|which puts|puts it|ist es|ist sie|ist das|also|c'est|donc|es una|es un|è una|è un|quindi|dus|is het)\b"
)
_CONNECTING = re.compile(r"[\s,;:()\-–—.&+]*(?:(?:and|also|und|et|y|e|en)\s+)?[\s(]*")


def kind_of(text: str) -> str:
    """Return the strongest kind of evidence that a plain text names, '' for none."""
    return next((kind for kind, nouns in _NOUNS.items() if nouns.search(text)), "")


def pieces_in(clause: Clause, stated: Sequence[Stated]) -> tuple[int, int] | None:
    """Return where a clause tells evidence; None where it tells none."""
    nouns = [match for phrases in _NOUNS.values() for match in phrases.all(clause.low, clause.start, clause.end)]
    if not nouns:
        return None
    if not stated:
        return clause.start, clause.end
    first, last = min(noun.start() for noun in nouns), max(noun.end() for noun in nouns)
    before = [one for one in stated if one.end <= first]
    after = [one for one in stated if one.start >= last]
    start = _begin(clause, max((one.end for one in before), default=clause.start), first)
    if start is None:
        return clause.start, clause.end
    result = _RESULT.search(clause.low, last, clause.end) if after else None
    return start, result.start() if result else clause.end


def _begin(clause: Clause, since: int, noun: int) -> int | None:
    """Return where the words for 'because of' begin that lead to a noun."""
    cues = [match.start() for match in _CUE.all(clause.low, since, noun)]
    return cues[0] if cues else None


def told(text: str, low: str, pieces: Sequence[tuple[int, int]]) -> str:
    """Return pieces of evidence in the expert's words; what stands between two is kept where it only joins them."""
    joined: list[list[int]] = []
    for start, end in sorted(pieces):
        if joined and _CONNECTING.fullmatch(low, joined[-1][1], start):
            joined[-1][1] = max(end, joined[-1][1])
        else:
            joined.append([start, end])
    return "; ".join(" ".join(text[start:end].split()) for start, end in joined)
