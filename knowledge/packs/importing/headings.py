"""Which column of a pack a heading means, in nine languages; and which row holds the headings.

The words are those that lists of numbers commonly have (common practice, no source).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from knowledge.names import fold
from knowledge.packs.importing.sheet import LONGEST_TEXT, Sheet

NUMBERS = "numbers"  # one number, or the first and last of a block, in one cell
MONTH, DAY = "month", "day"  # columns beside one with the year
TARGETS = (
    NUMBERS, "first", "last", "prefix", "suffix", "date", MONTH, DAY, "model", "works", "quantity", "register", "order",
    "source", "note",
)  # fmt: skip
LEAVE_OUT = "leave out"

_WORDS = {
    NUMBERS: "numbers|number|serial|serials|serial number|serial numbers|serial no|serial nos|serial range|block|range"
    "|batch|nummer|nummern|nummernkreis|seriennummer|seriennummern|fabriknummer|numero|numeros|numero de serie|numeros"
    " de serie|numeri|numero di serie|numeri di serie|matricola|matricole|nummers|serienummer|serienummers|numer|numery"
    "|numer seryjny|numery seryjne|номер|номера|серийный номер|serienummer|from to|von bis|machine number|machine no"
    "|machine nos|machine numbers",
    "first": "from|first|start|begin|beginning|starting|first number|first no|first serial|from number|from no|start no"
    "|start number|starting number|first number of year|von|ab|erste|erster|anfang|erste nummer|de|du|premier|premiere|"
    "premier numero|debut|desde|del|primero|primer numero|inicio|da|dal|primo|primo numero|inizio|van|vanaf|eerste|"
    "eerste nummer|od|pierwszy|pierwszy numer|с|от|первый|первый номер|начало|from serial|serial from|från|första|"
    "första nummer|fra|første|første nummer|primeiro|primeiro numero|numbers from",
    "last": "to|last|end|ending|until|through|thru|last number|last no|last serial|to number|to no|end no|end number"
    "|bis|letzte|letzter|ende|letzte nummer|a|au|jusqu'a|dernier|derniere|dernier numero|fin|hasta|al|ultimo"
    "|ultimo numero|fine|tot|t/m|tot en met|laatste|laatste nummer|do|ostatni|ostatni numer|до|по|последний"
    "|последний номер|конец|"
    "to serial|serial to|till|t.o.m.|sista|sista nummer|til|siste|sidste|até|último|numbers to",
    "prefix": "prefix|letter|letters|prefix letter|serial letter|prafix|buchstabe|buchstaben|kennbuchstabe|lettre|"
    "lettres|prefixe|letra|letras|prefijo|lettera|lettere|prefisso|voorvoegsel|prefiks|litera|litery|буква|буквы|"
    "префикс|bokstav|bokstaver",
    "suffix": "suffix|suffix letter|ending letter|suffixe|sufijo|suffisso|achtervoegsel|sufiks|суффикс",
    "date": "date|year|years|dated|allocated|date allocated|allocation date|year allocated|when|manufactured|made|built"
    "|year of manufacture|date of manufacture|year made|production year|datum|jahr|jahre|baujahr|jahrgang|date"
    " d'attribution|annee|annees|an|fecha|ano|anos|data|anno|anni|jaar|jaren|bouwjaar|rok|lata|дата|год|годы|ar|artal|"
    "tillverkningsar",
    MONTH: "month|monat|mois|mes|mese|maand|miesiac|месяц|manad",
    DAY: "day|tag|jour|dia|giorno|dag|dzien|день",
    "model": "model|models|type|class|machine|machine model|model no|model number|modell|modelle|typ|klasse|modele|"
    "modeles|classe|modelo|modelos|clase|tipo|modello|modelli|klasa|модель|модели|тип|класс|klass",
    "works": "works|factory|plant|made at|place|where made|place of manufacture|werk|werke|fabrik|ort|usine|fabrique|"
    "lieu|fabrica|lugar|fabbrica|stabilimento|luogo|fabriek|plaats|fabryka|zakład|miejsce|завод|фабрика|место|plats",
    "quantity": "quantity|qty|count|amount|total|number made|number of machines|of machines|how many|units|batch"
    " size|lot size|anzahl|menge|stuckzahl|stuck|quantite|nombre|qte|cantidad|total|quantita|pezzi|aantal|hoeveelheid|"
    "ilość|liczba|sztuk|количество|кол-во|antal",
    "register": "register|list|liste|registre|registro|elenco|lijst|rejestr|lista|реестр|список",
    "order": "order|order of issue|sequence|seq|row|line|reihenfolge|lfd nr|ordre|orden|ordine|volgorde|kolejnosc|lp|"
    "порядок|ordning",
    "source": "source|sources|reference|ref|quelle|quellen|fuente|fuentes|fonte|fonti|bron|bronnen|źródło|źródła|"
    "источник|kalla|kallor",
    "note": "note|notes|remark|remarks|comment|comments|bemerkung|bemerkungen|notiz|anmerkung|anmerkungen|remarque|"
    "remarques|commentaire|observacion|observaciones|nota|notas|commenti|osservazioni|opmerking|opmerkingen|uwagi|"
    "примечание|примечания|anmarkning|anmarkningar|kommentar",
}
_MEANING: dict[str, str] = {}
for _target, _names in _WORDS.items():
    for _name in _names.split("|"):
        _MEANING.setdefault(fold(_name), _target)
_LONGEST = max(len(name.split()) for name in _MEANING)
_SEARCHED = 60  # rows looked at to find the headings


@lru_cache(maxsize=1024)
def meaning(heading: str) -> str:
    """Return the column that a heading means, '' when it is unknown or could mean two.

    >>> meaning("Von Nr."), meaning("Year of manufacture"), meaning("Anzahl"), meaning("Colour")
    ('first', 'date', 'quantity', '')
    """
    if len(heading) > LONGEST_TEXT:
        return ""
    words = _cleaned(heading)
    whole = " ".join(words)
    if whole in _MEANING:
        return _MEANING[whole]
    found = _longest_names(words)
    for strong in ("first", "last"):  # 'Serial from', 'Last number', 'Date from' is not one
        if strong in found and found <= {strong, NUMBERS}:
            return strong
    return found.pop() if len(found) == 1 and len(words) <= 5 else ""


def _cleaned(heading: str) -> list[str]:
    text = re.sub(r"[^\w\s'/-]", " ", fold(heading)).replace("_", " ")
    return [word for word in text.split() if word not in ("nr", "no", "nos", "n", "the", "-", "/")]


def _longest_names(words: list[str]) -> set[str]:
    """Return the meanings of the longest known names inside a heading of several words; single letters are none."""
    found, place = set(), 0
    while place < len(words):
        for size in range(min(_LONGEST, len(words) - place), 0, -1):
            name = " ".join(words[place : place + size])
            if name in _MEANING and (len(name) > 2 or name == "to"):
                found.add(_MEANING[name])
                place += size - 1
                break
        place += 1
    return found


@dataclass(frozen=True, slots=True)
class Heading:
    """One column of the sheet: its place (from 0), what stands above it, and what that means ('' unknown)."""

    column: int
    text: str
    target: str


@dataclass(frozen=True, slots=True)
class Head:
    """The row of the headings (from 0; -1 when there is none) and the columns below it."""

    row: int
    headings: tuple[Heading, ...]


def find_head(sheet: Sheet) -> Head:
    """Find the row with the most headings that are known, at least two; the first of several equals."""
    best, most = -1, 1
    for number, row in enumerate(sheet.rows[:_SEARCHED]):
        known = {meaning(cell) for cell in row if cell and not _is_data(cell)} - {""}
        # Of a head of two rows, the lower one says more: 'Serial numbers' above 'from' and 'to'.
        if len(known) > most or (len(known) == most > 1 and number == best + 1):
            best, most = number, len(known)
    return Head(best, tuple(_headings(sheet, best)))


def _is_data(cell: str) -> bool:
    return sum(char.isdigit() for char in cell) * 2 > len(cell)


def _headings(sheet: Sheet, head: int) -> list[Heading]:
    """Name each column that has something below the head; a blank heading takes the one in the row above."""
    headings = []
    taken: set[str] = set()
    for column in range(max(map(len, sheet.rows), default=0)):
        if not any(sheet.cell(row, column) for row in range(head + 1, len(sheet.rows))):
            continue
        text = sheet.cell(head, column) if head >= 0 else ""
        if not text and head > 0:
            text = sheet.cell(head - 1, column)
        target = meaning(text) if text else ""
        if target in taken:
            target = ""  # two columns of one meaning: asked
        taken.add(target)
        headings.append(Heading(column, text, target))
    return headings
