"""Dates as packs write them: what is read, what is refused and with which advice, how spans are said."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knowledge.edtf import DateSpan, EdtfError, in_words, parse, span
from knowledge.errors import BedstampError

DAYS = st.dates(date(1000, 1, 1), date(9998, 12, 31))
BOUNDS = {
    "1912": ("1912-01-01", "1912-12-31"),
    "1912-02": ("1912-02-01", "1912-02-29"),
    "1911-02": ("1911-02-01", "1911-02-28"),
    "1912-01-08": ("1912-01-08", "1912-01-08"),
    "191X": ("1910-01-01", "1919-12-31"),
    "19XX": ("1900-01-01", "1999-12-31"),
    "1912-XX": ("1912-01-01", "1912-12-31"),
    "1912-XX-XX": ("1912-01-01", "1912-12-31"),
    "1912-04-XX": ("1912-04-01", "1912-04-30"),
    "1910/1912": ("1910-01-01", "1912-12-31"),
    "1910-05/1912-06-07": ("1910-05-01", "1912-06-07"),
    "../1912": ("0001-01-01", "1912-12-31"),
    "/1912": ("0001-01-01", "1912-12-31"),
    "1912/..": ("1912-01-01", "9999-12-31"),
    "1912/": ("1912-01-01", "9999-12-31"),
    "../..": ("0001-01-01", "9999-12-31"),
}


@pytest.mark.parametrize(("text", "bounds"), BOUNDS.items())
def test_a_date_is_every_day_it_may_mean(text, bounds):
    when = parse(text)
    assert (when.text, when.earliest.isoformat(), when.latest.isoformat()) == (text, *bounds)
    assert not when.approximate


MARKED = ["1912~", "1912?", "1912%", "1912-01~", "1912-01-08?", "1910~/1912", "1910/1912%", "../1912~"]


@pytest.mark.parametrize("text", MARKED)
def test_a_mark_makes_a_date_approximate_and_leaves_its_bounds(text):
    plain = parse(text.translate(dict.fromkeys(map(ord, "~?%"))))
    assert parse(text) == DateSpan(text, plain.earliest, plain.latest, approximate=True)


@pytest.mark.parametrize(
    ("text", "advice"),
    [
        ("", "Write 1912"),
        ("c. 1912", "1912~"),
        ("1910–1912", "1910/1912"),
        ("8.1.1912", "1912-01-08"),
        ("1912/01/08", "1912-01-08"),
        ("1912-1-8", "1912-01-08"),
        ("19120108", "1912-01-08"),
        ("12", "Write 1912"),
        (" 1912", "Write 1912"),
        ("1912\n", "Write 1912"),
        ("١٩١٢", "Write 1912"),
        ("1912-01-08T10:00:00", "1912-01-08"),
        ("/", "Write 1912"),
        ("1910/1912/1914", "1910/1912"),
        ("1912-21", "Write its months instead, such as 1912-03/1912-05"),
        ("1912-13", "there is no month 13"),
        ("1912-00-10", "there is no month 00"),
        ("1911-02-29", "February 1911 has no day 29"),
        ("1912-04-31", "April 1912 has no day 31"),
        ("1912-04-00", "has no day 0"),
        ("0987", "all four digits"),
        ("-0987", "all four digits"),
        ("Y11912", "all four digits"),
        ("1XXX", "Write the two ends"),
        ("191X-05", "1910/1919"),
        ("191X-05~", "X that stands before the end"),
        ("1912-XX-05", "X that stands before the end"),
        ("191X~", "1910~/1919~"),
        ("191X/192X", "Write the two ends"),
        ("1912/1910", "Put the earlier date first"),
        ("1910-05/1910", "as exactly as each other"),
    ],
)
def test_what_is_no_date_is_refused_with_advice(text, advice):
    with pytest.raises(EdtfError) as refused:
        parse(text)
    assert advice in str(refused.value)
    assert isinstance(refused.value, BedstampError)
    assert isinstance(refused.value, ValueError)


def test_the_message_quotes_the_text_and_cuts_a_long_one_short():
    with pytest.raises(EdtfError, match="'about then'"):
        parse("about then")
    with pytest.raises(EdtfError) as refused:
        parse("9" * 100_000)
    assert len(str(refused.value)) < 300


@pytest.mark.parametrize(
    ("earliest", "latest", "text"),
    [
        ("1912-01-08", "1912-01-08", "1912-01-08"),
        ("1912-02-01", "1912-02-29", "1912-02"),
        ("1912-02-01", "1912-02-28", "1912-02/1912-02-28"),
        ("1912-01-01", "1912-12-31", "1912"),
        ("1910-01-01", "1919-12-31", "191X"),
        ("1900-01-01", "1999-12-31", "19XX"),
        ("1911-01-01", "1920-12-31", "1911/1920"),
        ("1910-01-01", "1912-06-30", "1910/1912-06"),
        ("1910-05-01", "1910-12-31", "1910-05/1910-12"),
        ("1910-05-02", "1910-05-31", "1910-05-02/1910-05-31"),
        ("0001-01-01", "1912-12-31", "../1912"),
        ("1912-05-01", "9999-12-31", "1912-05/.."),
        ("0001-01-01", "9999-12-31", "../.."),
    ],
)
def test_a_span_is_written_as_short_as_the_standard_allows(earliest, latest, text):
    assert span(date.fromisoformat(earliest), date.fromisoformat(latest)).text == text


@given(DAYS, st.integers(0, 40_000), st.booleans())
def test_what_span_writes_reads_back_the_same(earliest, days, approximate):
    latest = earliest + timedelta(min(days, (date(9998, 12, 31) - earliest).days))
    written = span(earliest, latest, approximate)
    assert parse(written.text) == written == DateSpan(written.text, earliest, latest, approximate)


@given(DAYS, st.booleans())
def test_open_spans_read_back_the_same(day, approximate):
    for written in (span(date.min, day, approximate), span(day, date.max, approximate)):
        assert parse(written.text) == written
        assert written.approximate is approximate


def test_a_span_that_ends_before_it_begins_is_refused():
    with pytest.raises(EdtfError, match="1910-01-01 is before 1912-01-01"):
        span(date(1912, 1, 1), date(1910, 1, 1))


@given(st.text(alphabet="0123456789-/X~?%. ", max_size=24))
def test_any_text_is_either_a_date_or_refused(text):
    try:
        when = parse(text)
    except EdtfError:
        return
    assert when.earliest <= when.latest
    assert in_words(when)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("1912-01-08", "8 January 1912"),
        ("1912-01", "January 1912"),
        ("1912-01-XX", "January 1912"),
        ("1912", "1912"),
        ("1912~", "about 1912"),
        ("1912-01-08?", "about 8 January 1912"),
        ("191X", "between 1910 and 1919"),
        ("1910/1912", "between 1910 and 1912"),
        ("1910~/1912~", "about 1910 to 1912"),
        ("1910/1912-06", "between January 1910 and June 1912"),
        ("1910-03/1910-06", "between March and June 1910"),
        ("1910-03-01/1910-03-07", "between 1 March and 7 March 1910"),
        ("1910~/1919~", "about 1910 to 1919"),
        ("../1912", "before the end of 1912"),
        ("../1912-01", "before the end of January 1912"),
        ("../1912-01-08", "up to 8 January 1912"),
        ("1912/..", "from 1912 on"),
        ("1912~/..", "from about 1912 on"),
        ("1912-05-02/..", "from 2 May 1912 on"),
        ("../..", "at an unknown date"),
    ],
)
def test_a_span_is_said_in_plain_english(text, words):
    assert in_words(parse(text)) == words
