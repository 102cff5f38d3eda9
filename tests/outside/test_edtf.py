"""Our subset of EDTF against two judges from outside.

Sources: the packages `edtf` (bounds of a date) and `edtf-validate` (syntax and level), both after the
specification of the Library of Congress, https://www.loc.gov/standards/datetime/. `edtf` takes
milliseconds a parse, so it judges a fixed list.
"""

from datetime import date

import edtf
import pytest
from edtf_validate.valid_edtf import is_valid, isLevel0, isLevel1
from hypothesis import given, settings
from hypothesis import strategies as st

from knowledge.edtf import EdtfError, UnusedEdtfError, parse, span

JUDGED_BY_BOUNDS = [
    "1912", "1000", "9998", "1912-02", "1900-02", "2000-02", "1912-01-08", "1912~", "1912?", "1912%",
    "1912-05~", "191X", "19XX", "1912-XX", "1912-04-XX", "1912-XX-XX", "1910/1912", "1910-05/1912-06",
    "1910-05-03/1912-06-07", "1910/1912-06", "1910-05-03/1912", "1910~/1912?",
]  # fmt: skip
YEARS = st.sampled_from(["1912", "1910", "191X", "19XX", "1XXX", "2000", "191", "19120"])
PIECES = st.lists(st.sampled_from(["-01", "-13", "-02", "-30", "-29", "-XX", "-X", "X"]), max_size=2)
MARKS = st.sampled_from(["", "", "", "~", "?", "%"])
ONE_DATE = st.builds("{}{}{}".format, YEARS, PIECES.map("".join), MARKS)
END = st.one_of(ONE_DATE, st.sampled_from(["", ".."]))
DATES = st.one_of(ONE_DATE, st.builds("{}/{}".format, END, END))
DAYS = st.dates(date(1000, 1, 1), date(9998, 12, 31))


@pytest.mark.parametrize("text", JUDGED_BY_BOUNDS)
def test_the_bounds_are_those_of_the_package_edtf(text):
    judged = edtf.parse_edtf(text)
    ours = parse(text)
    assert ours.earliest.timetuple()[:3] == judged.lower_strict()[:3]
    assert ours.latest.timetuple()[:3] == judged.upper_strict()[:3]


@settings(max_examples=200)
@given(DATES)
def test_we_read_a_date_exactly_when_edtf_validate_finds_it_valid_and_of_level_0_or_1(text):
    try:
        parse(text)
        read = True
    except EdtfError:
        read = False
    assert read == (is_valid(text) and (isLevel0(text) or isLevel1(text)))


@settings(max_examples=100)
@given(DAYS, DAYS, st.booleans())
def test_what_we_write_is_valid_for_edtf_validate(one, other, approximate):
    written = span(min(one, other), max(one, other), approximate).text
    assert is_valid(written)
    assert isLevel0(written) or isLevel1(written)


@pytest.mark.parametrize("text", ["1912-21", "0987", "1912-01-08T10:11:12"])
def test_seasons_early_years_and_times_are_valid_edtf_that_we_leave_out(text):
    assert is_valid(text)
    with pytest.raises(EdtfError):
        parse(text)


# Source: the specification of the Library of Congress gives each of these as an example (from memory).
LEVEL_1_AND_2 = [
    "2001-21", "Y170000002", "-1985", "1985-04-12T23:20:30Z", "Y-17E7", "1950S2", "2001-34",
    "[1667,1668,1670..1672]", "{1960,1961-12}", "2004-06~-11", "?2004-06-~11", "156X-12-25", "15XX-12-25",
    "XXXX-12-XX", "1XXX-XX", "1984-XX-23", "2004-06-~01/2004-06-~20", "2004-06-XX/2004-07-03",
]  # fmt: skip


@pytest.mark.parametrize("text", LEVEL_1_AND_2)
def test_what_is_valid_and_left_out_is_told_as_such(text):
    assert is_valid(text)
    with pytest.raises(UnusedEdtfError):
        parse(text)


MARKED = st.builds("{}{}{}".format, st.sampled_from(["", "", "~"]), YEARS, st.sampled_from(["", "~", "-21", "-33"]))
ANY_DATE = st.builds("{}{}{}".format, MARKED, PIECES.map("".join), MARKS)
ANY_EDTF = st.one_of(
    ANY_DATE, st.builds("{}/{}".format, ANY_DATE, ANY_DATE), st.builds("[{},{}]".format, ANY_DATE, ANY_DATE)
)


@settings(max_examples=200)
@given(ANY_EDTF)
def test_whatever_is_valid_is_read_or_told_as_edtf_that_packs_do_not_use(text):
    if is_valid(text):
        try:
            parse(text)
        except UnusedEdtfError:
            return
        except EdtfError:
            pytest.fail(f"{text} is valid")
