"""Why a piece that looks like a number is no serial: an ordered table of small rules, the first that fits wins.

`FIRM` rules hold whatever words stand before the piece; `SOFT` rules give way to a word that introduces a serial.
Every rule takes a `Spot`, reads a bounded stretch of the text, and returns where its piece ends, or 0. Words that name
another kind of number ('order no. 204117') are cues: see `knowledge.tokens.cues`.
"""

from __future__ import annotations

from typing import Final

from knowledge.tokens.rules import addresses, amounts, dates, machines, papers, places, telephones
from knowledge.tokens.rules.spot import Rule

Row = tuple[str, Rule]
"""A reason of the design, and the rule that finds it."""

FIRM: Final[tuple[Row, ...]] = (
    ("mail-address", addresses.mail_address),
    ("web-address", addresses.web_address),
    ("reference", addresses.handle_or_tag),
    ("reference", addresses.file_name),
    ("telephone", telephones.telephone_abroad),
    ("telephone", telephones.telephone_with_double_zero),
    ("price", amounts.price_with_sign),
    ("date", dates.date),
    ("date", dates.day_of_a_month),
    ("time", dates.time),
    ("year", dates.dated_year),
    ("model-name", machines.known_model),
    ("part-number", machines.needle_system),
    ("part-number", machines.numbered_part),
    ("measure", amounts.measure),
    ("model-name", machines.called_a_model),
    ("measure", amounts.brief_measure),
    ("count", amounts.count_of_things),
    ("order-number", papers.parcel),
    ("reference", papers.book_number),
    ("reference", papers.standard),
    ("reference", places.place_on_earth),
    ("reference", papers.catalogued),
    ("reference", papers.colour),
    ("reference", papers.tax_number),
    ("telephone", telephones.telephone_by_grouping),
    ("reference", papers.account_or_card),
    ("reference", papers.computer_address),
)

SOFT: Final[tuple[Row, ...]] = (
    ("reference", places.plate),
    ("date", dates.short_date),
    ("year", dates.year),
    ("postcode", places.postcode),
    ("reference", places.street),
    ("reference", papers.version),
    ("count", amounts.count_by_words),
    ("count", amounts.ordinal),
    ("reference", amounts.decimal_or_score),
)
