"""What a spreadsheet shows for a number: its format may add zeros and letters that the stored number lacks.

The codes are those of ECMA-376 part 1 (Office Open XML), 18.8.30 and 18.8.31; section numbers from memory.
"""

from __future__ import annotations

import re
from datetime import date, datetime
from functools import lru_cache

# Of the formats that have a number instead of a code, those for dates (18.8.30); enough of each to tell its parts.
BUILT_IN = {14: "m/d/yyyy", 15: "d-mmm-yy", 16: "d-mmm", 17: "mmm-yy", 22: "m/d/yyyy h:mm"}
_PART = re.compile(r'"([^"]*)"|\\(.)|\[[^\]]*\]|[_*].|([0#?])|(,)|(.)', re.DOTALL)


def shown_number(number: int, code: str) -> str:
    """Return a whole number as the format `code` shows it; as it is where the format adds neither zeros nor text.

    >>> shown_number(200001, "0000000"), shown_number(200001, '"K"0000000'), shown_number(200001, "#,##0")
    ('0200001', 'K0200001', '200001')
    """
    parts = _parts(code)
    places = sum(part == "0" for part in parts)
    if number < 0 or places == 0 or "." in parts or "%" in parts or "E" in parts:
        return str(number)
    if places == 1 and all(part in "0," for part in parts):
        return str(number)
    digits = list(str(number).zfill(places))
    shown: list[str] = []
    for part in reversed(parts):
        if part != "0":
            shown.append(part if part != "," else "")
        elif digits:
            shown.append(digits.pop())
            places -= 1
            if places == 0:  # the first place takes all the digits that are left
                shown.extend(reversed(digits))
                digits = []
    return "".join(reversed(shown)).strip()


def shown_date(day: date, code: str) -> str:
    """Return a date as far as the format shows it: '1912-01-08', '01/1912' or '1912'.

    >>> shown_date(date(1912, 1, 1), "mmm-yy"), shown_date(date(1912, 1, 1), "yyyy")
    ('01/1912', '1912')
    """
    letters = {part.lower() for part in _parts(code)}
    day = day.date() if isinstance(day, datetime) else day
    if "d" in letters or not code or not letters & {"m", "y"}:
        return day.isoformat()
    return f"{day.month:02}/{day.year}" if "m" in letters else str(day.year)


@lru_cache(maxsize=256)
def _parts(code: str) -> tuple[str, ...]:
    """Split the code for positive numbers into literal texts, and '0' for each place of a digit."""
    parts = []
    for match in _PART.finditer(_first_section(code)):
        text, escaped, place, comma, other = match.groups()
        if place:
            parts.append("0" if place == "0" else "#")
        elif text is not None or escaped or comma or other:
            parts.append(text or escaped or comma or other or "")
    return tuple(part for part in parts if part != "#")


def _first_section(code: str) -> str:
    return re.split(r';(?=(?:[^"]*"[^"]*")*[^"]*$)', code)[0]
