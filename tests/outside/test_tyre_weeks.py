"""Week and year at the end of a tyre identification number, as a date code of a pack.

Source: 49 CFR 574.5 with 64 FR 36807 (8 July 1999): two figures for the week and two for the year since
2000, before that two for the week and one for the year. Week 01 is the first full week, from Sunday, not
that of ISO 8601. Judges: `%U` of the C library for full weeks, `date.fromisocalendar` for those of ISO
8601.
"""

from datetime import date, timedelta

import pytest

REGISTERS = [
    ["register", "maker", "kind", "object", "from", "to"],
    ["long", "m", "date-code", "manufacture", "2000", "2025"],
    ["short", "m", "date-code", "manufacture", "1980", "1999"],
]
PARTS = ["register", "part", "length", "characters", "means", "rule"]


def parts(register, figures, rule):
    return [
        [register, "1", "8", "any", "sequence", ""],
        [register, "2", "2", "digits", "week", rule],
        [register, "3", str(figures), "digits", "year", ""],
    ]


@pytest.fixture
def tyres(knowledge_of):
    rule = "first-full-week"
    return knowledge_of(registers=REGISTERS, date_codes=[PARTS, *parts("long", 2, rule), *parts("short", 1, rule)])


@pytest.fixture
def iso_tyres(knowledge_of):
    return knowledge_of(registers=REGISTERS[:2], date_codes=[PARTS, *parts("long", 2, "iso")])


def days(one):
    first, last = (date.fromisoformat(one[end]) for end in ("earliest", "latest"))
    return [first + timedelta(days=count) for count in range((last - first).days + 1)]


def test_0301_is_the_third_full_week_of_2001(tyres, as_typed):
    [found] = as_typed("serial number U2LLLMLR0301", tyres)
    assert days(found) == [date(2001, 1, 21) + timedelta(days=count) for count in range(7)]


def test_the_old_031_is_the_third_week_of_1981_or_of_1991(tyres, as_typed):
    found = as_typed("serial number U2LLLMLR031", tyres)
    begun = sorted(days(one)[0] for one in found)
    assert [(day.year, day.strftime("%U")) for day in begun] == [(1981, "03"), (1991, "03")]


@pytest.mark.parametrize("year", range(2000, 2012))
@pytest.mark.parametrize("week", [1, 2, 26, 52])
def test_every_day_of_a_full_week_has_that_week_by_the_c_library(week, year, tyres, as_typed):
    [found] = as_typed(f"serial number U2LLLMLR{week:02d}{year % 100:02d}", tyres)
    assert len(days(found)) == 7
    assert {int(day.strftime("%U")) for day in days(found) if day.year == year} == {week}
    assert days(found)[0].weekday() == 6


@pytest.mark.parametrize("year", range(2000, 2012))
def test_without_a_rule_the_week_is_that_of_iso_8601(year, iso_tyres, as_typed):
    [found] = as_typed(f"serial number U2LLLMLR01{year % 100:02d}", iso_tyres)
    assert days(found) == [date.fromisocalendar(year, 1, day) for day in range(1, 8)]


@pytest.mark.parametrize("week", ["00", "54", "99"])
def test_a_week_that_no_year_has_gives_no_date(week, tyres, as_typed):
    assert as_typed(f"serial number U2LLLMLR{week}01", tyres) == []
