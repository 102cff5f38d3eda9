"""Date codes: the number itself tells the date, and one code may stand for several years."""

from __future__ import annotations

from typing import Any

from knowledge.base import Knowledge
from tests.knowledge.small import pack, register, table


def code(*parts: str, tables: tuple[str, ...] = (), **cells: str) -> Knowledge:
    """Make a code from parts 'length characters means [table]' and table rows 'table code value [from to]'."""
    rows = []
    for place, part in enumerate(parts, 1):
        length, characters, means, *more = part.split()
        told = {"constant": more[0]} if means == "constant" else {"rule": more[0]} if means == "week" and more else {}
        named = more[0] if more and not told else ""
        rows.append(
            {"register": "list", "part": str(place), "length": length, "characters": characters, "means": means}
            | {"table": named} | told
        )  # fmt: skip
    values = [dict(zip(("table", "code", "value", "from", "to"), row.split(), strict=False)) for row in tables]
    registers = table("registers", register("date-code", **cells))
    return Knowledge.of([pack(registers, table("date-codes", *rows), table("code-tables", *values))])


def dates(known: Knowledge, serial: str) -> list[str]:
    return [dating.span.text for code in known.codes for dating in code.covering(serial)]


YEARS = ("years A 1910", "years A 1936", "years B 1911")


def test_a_letter_that_stands_for_several_years_gives_them_all() -> None:
    assert dates(code("1 letters year years", "4 digits sequence", tables=YEARS), "A0123") == ["1910", "1936"]


def test_a_code_of_another_length_or_an_unknown_letter_is_no_code() -> None:
    known = code("1 letters year years", "4 digits sequence", tables=YEARS)
    assert dates(known, "A123") == dates(known, "C0123") == dates(known, "10123") == []


def test_one_and_two_digit_years_stand_for_every_year_that_ends_so() -> None:
    spans: dict[str, Any] = {"from": "1948", "to": "1967"}
    assert dates(code("1 digits year", **spans), "8") == ["1948", "1958"]
    assert dates(code("2 digits year", **spans), "08") == []
    assert dates(code("2 digits year", **spans), "67") == ["1967"]


def test_month_and_day_narrow_the_year() -> None:
    known = code("4 digits year", "2 digits month", "2 digits day")
    assert dates(known, "19120229") == ["1912-02-29"]
    assert dates(known, "19130229") == []
    assert dates(code("4 digits year", "2 digits month"), "191202") == ["1912-02"]


def test_a_day_of_the_year_counts_from_the_first_of_january() -> None:
    known = code("4 digits year", "3 digits day-of-year")
    assert dates(known, "1912366") == ["1912-12-31"]
    assert dates(known, "1913366") == dates(known, "1913000") == []


def test_weeks_are_those_of_iso_8601_unless_the_code_counts_full_weeks() -> None:
    """ISO 8601: week 1 has the first Thursday. 49 CFR 574.5: week 1 is the first full week, from Sunday."""
    assert dates(code("4 digits year", "2 digits week"), "200103") == ["2001-01-15/2001-01-21"]
    assert dates(code("4 digits year", "2 digits week first-full-week"), "200103") == ["2001-01-21/2001-01-27"]


def test_a_meaning_that_was_in_use_for_a_time_only_counts_then() -> None:
    known = code(
        "1 letters year years", "1 letters month months",
        tables=(*YEARS, "months R 08", "months R 09 1936-09 1936-09"),
    )  # fmt: skip
    assert dates(known, "AR") == ["1910-08", "1936-08", "1936-09"]


def test_constants_must_stand_as_they_are() -> None:
    known = code("2 letters constant VX", "4 digits year")
    assert dates(known, "VX1912") == ["1912"]
    assert dates(known, "VY1912") == []


def test_parts_of_varying_length_are_cut_in_every_way() -> None:
    known = code("4 digits year", "1-2 digits month", "1-2 digits day")
    assert dates(known, "1912311") == ["1912-03-11"]
    assert set(dates(known, "1912112")) == {"1912-11-02", "1912-01-12"}


def test_about_stays_about_when_a_month_narrows_it() -> None:
    known = code("1 letters year years", "2 digits month", tables=("years A 1938~", "years B 1942/1943"))
    assert dates(known, "A05") == ["1938-05~"]
    assert dates(known, "B05") == ["1942-05", "1943-05"]


def test_unreadable_places_of_the_sequence_date_nothing_and_others_are_filled() -> None:
    known = code("1 letters year years", "2 digits month", "5 digits sequence", tables=YEARS)
    assert dates(known, "A03?????") == ["1910-03", "1936-03"]
    assert set(known.codes[0].fillings("A0?1????")) == {f"A0{digit}1????" for digit in range(10)}


def test_works_and_model_are_told_by_their_parts() -> None:
    known = code(
        "1 digits works places", "1 letters model kinds", "4 digits year", tables=("places 1 mill", "kinds A m9")
    )
    (dating,) = known.codes[0].covering("1A1912")
    assert (dating.works, dating.model) == ("mill", "m9")
