"""EDTF that packs do not use: recognised, with what to write instead."""

import pytest

from knowledge.edtf import EdtfError, UnusedEdtfError, parse
from knowledge.edtf_beyond import instead

INSTEAD = {
    "1912-21": "such as 1912-03/1912-05",
    "1912-23~": "such as 1912-09/1912-11",
    "1912-24": "such as 1912-12/1913-02 or 1911-12/1912-02",
    "1912-29": "such as 1912-09/1912-11",  # spring in the south
    "1912-33": "such as 1912-01/1912-03",
    "1912-36": "such as 1912-10/1912-12",
    "1912-38": "such as 1912-05/1912-08",
    "1912-41": "such as 1912-07/1912-12",
    "1912-21/1913": "Write its months instead",
    "1912-01-08T10:11:12Z": "Leave the time off",
    "[1910,1912..1914]": "the first and the last",
    "{1910, ..1912}": "the first and the last",
    "1910S2": "two ends",
    "0987-05": "all four digits",
    "1912/-0001": "all four digits",
    "Y17E7": "all four digits",
    "1XXX": "two ends",
    "191X/192X": "two ends",
    "1912-XX-05": "two ends",
    "1912~-05": "one mark at the end",
    "1912-05-?08/1913": "one mark at the end",
}


@pytest.mark.parametrize(("text", "advice"), INSTEAD.items())
def test_the_error_says_what_to_write_instead(text, advice):
    assert advice in instead(text)
    with pytest.raises(UnusedEdtfError, match="packs do not use this kind"):
        parse(text)


@pytest.mark.parametrize(
    "text",
    ["", "spring 1912", "1912-13", "1911-02-29", "1911-02-29~", "1912-42", "190x", "1912/1910", "8.1.1912", "c. 1912",
     "1912-1-8", "[]", "[1912", "1912-01-08T25:00:00", "1912-21-05", "1912~~", "0" * 10_000],
)  # fmt: skip
def test_what_is_no_edtf_at_all_is_told_as_before(text):
    assert instead(text) == ""
    with pytest.raises(EdtfError) as refused:
        parse(text)
    assert not isinstance(refused.value, UnusedEdtfError)
