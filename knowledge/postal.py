"""Postal addresses in a text: a street with the number of a house, or a box at the post office."""

from __future__ import annotations

import re

_NAME = r"[^\W\d_a-z][\w'’.-]*"
_NUMBER = r"\d{1,4}(?:[ -]?[a-zA-Z]\b)?(?:[/-]\d{1,4})?"
_ANY_CASE = "street|road|lane|avenue|terrace|crescent|boulevard|cottages"
_CAPITALS = "St|Rd|Ave|Blvd|Ln|Drive|Close|Court|Way|Place|Square|Gardens|Row|Hill|Grove|Mews|Parade|Walk|Yard|Gate"
_ENGLISH = (
    rf"\b{_NUMBER},? (?:(?!(?:the|a|of|in|on|by|at|and|to|from|with) )[\w'’.]+ ){{1,3}}(?:(?i:{_ANY_CASE})\b\.?)",
    rf"\b{_NUMBER},? (?:{_NAME} ){{1,3}}(?:{_CAPITALS})\b\.?",
)
_ENDINGS = (
    r"straße|strasse|str\.|gasse|weg|platz|allee|ufer|damm|steig|chaussee|straat|laan|plein|gracht|kade|dreef|singel|"
    r"gatan|gata|vägen|gränd|gade|gaden|vej|vejen|veien|allé|torget"
)
_STREET_BEHIND = (
    rf"\b[^\W\d_a-z]\w+(?:{_ENDINGS}) {_NUMBER}",
    rf"\b{_NAME}[ -](?:Straße|Strasse|Str\.|Gasse|Weg|Platz|Allee|Ufer|Damm|Ring|Straat|Laan|Plein|Gracht) {_NUMBER}",
    rf"\b(?:Straße|Strasse|Platz|Allee|Weg) (?:des|der|vom) {_NAME}(?: {_NAME})? {_NUMBER}",
    rf"\bAm (?:Alten |Neuen )?(?:Markt|Bahnhof|Park|Rathaus|Wall|Berg|Graben|Hang|Bach|See|Wald|Kirch\w*) {_NUMBER}",
)
_WORDS_BEFORE = (
    "rue|avenue|boulevard|bd|allée|impasse|chemin|quai|place|cours|via|viale|piazza|corso|vicolo|largo|calle|c/|"
    "avenida|avda?|plaza|paseo|travesía|rua|travessa|praça|ulica|ulicy|ul|aleja|al|plac|pl|os|"
    "улица|улице|ул|проспект|просп|пр|переулок|пер|площадь|шоссе|наб|бульвар|б-р"
)
_OF = r"(?:(?:de|des|du|del|dell[ae]|dei|degli|dell['’]|do|da|dos|das|la|le|les|el|los|las|l['’]|d['’]|św)\.? ?){0,4}"
_BEFORE = rf"\b(?i:{_WORDS_BEFORE})\b\.? {_OF}{_NAME}(?: {_OF}{_NAME}){{0,3}}"
_NUMBER_SIGN = r"(?:(?:n\.?|nº|n°|no\.?|nr\.?|д\.?|дом|m\.?) ?)?"
_STREET_BEFORE = (
    rf"{_BEFORE},? {_NUMBER_SIGN}{_NUMBER}(?:,? (?:кв|m|lok)\.? ?\d+)?",
    rf"\b\d{{1,4}}(?: ?(?:bis|ter))?,? {_BEFORE}",
)
_BOX = (
    r"(?i:\b(?:p\.? ?o\.? ?box|postfach|boîte postale|b\.p\.|bp|apartado(?: de correos)?|casella postale|"
    r"postbus|skr(?:ytka|\.) poczt(?:owa|\.)|а/я|postboks) ?(?:no\.? ?|nr\.? ?)?\d{2,7}\b)"
)
POSTAL = re.compile("|".join((*_ENGLISH, *_STREET_BEHIND, *_STREET_BEFORE, _BOX)))
"""One address, as far as it names a street and a house, or a box."""
