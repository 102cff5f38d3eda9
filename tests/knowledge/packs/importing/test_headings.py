"""Tests of importing/headings.py and number_formats.py."""

from __future__ import annotations

from datetime import date

import pytest

from knowledge.packs.importing.headings import find_head, meaning
from knowledge.packs.importing.number_formats import shown_date, shown_number
from knowledge.packs.importing.sheet import Sheet

KNOWN = {
    "first": "From|First no.|Serial from|Start Serial|Von|von Nr.|De|Du|Desde|Da|Van|Od|С|Från|first_number",
    "last": "To|LAST NO.|Serial to|Ending number|bis|à|Au|Hasta|A|Tot|Do|По|Till",
    "numbers": "Serial numbers|Number|Numéros de série|Nummern|Номера|Machine number|Serienummer",
    "date": "Date|Year|Date allocated|Year of manufacture|Jahr|Année|Fecha|Anno|Jaar|Rok|Год|År|Date (approx)",
    "model": "Model|Modell|Modèle|Modelo|Machine type|Модель|Model / Class",
    "works": "Works|Factory|Werk|Usine|Fábrica|Stabilimento|Fabriek|Zakład|Завод",
    "quantity": "Quantity|Qty.|Number of machines|No. of machines|Anzahl|Stückzahl|Quantité|Ilość|Количество|Antal",
    "prefix": "Prefix|Letter(s)|Buchstabe|Lettre|Prefijo|Буква|Bokstav",
    "source": "Source|Quelle|Źródło|Källa",
    "note": "Notes|Bemerkung|Remarques|Uwagi|Примечания|Anmärkning",
    "": "Colour|Price|#|Date from|Year to|",
}


@pytest.mark.parametrize(("heading", "target"), [(h, t) for t, hs in KNOWN.items() for h in hs.split("|")])
def test_headings_of_many_languages_are_known_and_others_are_not_guessed(heading: str, target: str) -> None:
    assert meaning(heading) == target


def test_the_head_is_found_below_titles() -> None:
    rows = [
        ["Numbers of the Hallowmere works"],
        [],
        ["copied from the ledger, 1999"],
        ["From", "To", "Year"],
        ["1", "9", "1912"],
    ]
    head = find_head(Sheet(rows))
    assert head.row == 3
    assert [heading.target for heading in head.headings] == ["first", "last", "date"]


def test_a_heading_in_the_row_above_counts_where_the_head_row_is_blank() -> None:
    head = find_head(Sheet([["Serial numbers", "", "Year"], ["from", "to", ""], ["1", "9", "1912"]]))
    assert [heading.target for heading in head.headings] == ["first", "last", "date"]


def test_of_two_columns_with_one_meaning_the_second_is_unknown() -> None:
    head = find_head(Sheet([["From", "To", "Year", "Date"], ["1", "9", "1912", "1912"]]))
    assert [heading.target for heading in head.headings] == ["first", "last", "date", ""]


# The codes and what they show: ECMA-376 part 1, 18.8.31 (number of the section from memory).
@pytest.mark.parametrize(
    ("number", "code", "shown"),
    [(200001, "0000000", "0200001"), (200001, '"K"0000000', "K0200001"), (200001, "0 000 000", "0 200 001"),
     (200001, r"\K0000000;[Red]-0", "K0200001"), (12345678, "000-0000", "1234-5678"), (200001, "General", "200001"),
     (200001, "#,##0", "200001"), (200001, "0", "200001"), (5, "0.00", "5"), (-5, "0000", "-5")],
)  # fmt: skip
def test_a_number_is_shown_as_its_format_says(number: int, code: str, shown: str) -> None:
    assert shown_number(number, code) == shown


@pytest.mark.parametrize(
    ("code", "shown"),
    [("dd/mm/yyyy", "1912-02-01"), ("", "1912-02-01"), ("[$-407]d. mmmm yyyy", "1912-02-01"), ("mmm-yy", "02/1912"),
     ("mmmm yyyy", "02/1912"), ("yyyy", "1912")],
)  # fmt: skip
def test_a_date_is_shown_as_far_as_its_format_goes(code: str, shown: str) -> None:
    assert shown_date(date(1912, 2, 1), code) == shown
