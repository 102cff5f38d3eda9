"""Telephone numbers of the world against the reading of serial numbers.

Source: the example numbers of the `phonenumbers` package, the Python port of Google's libphonenumber, one for each
region and kind of number in its metadata.
"""

from __future__ import annotations

from collections.abc import Iterator

import phonenumbers
import pytest
from phonenumbers import PhoneNumber, PhoneNumberFormat, PhoneNumberType

from knowledge.names import Names
from knowledge.tokens import find
from tests.knowledge.tokens.sample_names import NAMES, NOTHING_KNOWN

KINDS = [kind for name, kind in vars(PhoneNumberType).items() if name.isupper() and isinstance(kind, int)]


def examples() -> Iterator[PhoneNumber]:
    """Every example number: of each region by kind, and of the country codes that belong to no region."""
    for region in sorted(phonenumbers.SUPPORTED_REGIONS):
        for kind in KINDS:
            number = phonenumbers.example_number_for_type(region, kind)
            if number is not None:
                yield number
    for code in sorted(phonenumbers.COUNTRY_CODES_FOR_NON_GEO_REGIONS):
        number = phonenumbers.example_number_for_non_geo_entity(code)
        if number is not None:
            yield number


EXAMPLES = list(examples())
NATIONAL = sorted({phonenumbers.format_number(number, PhoneNumberFormat.NATIONAL) for number in EXAMPLES})


def digits_in(text: str) -> int:
    return sum(character.isdigit() for character in text)


@pytest.mark.parametrize("names", [NOTHING_KNOWN, NAMES], ids=["nothing known", "some shapes known"])
@pytest.mark.parametrize("message", ["{}", "my machine, serial number {}", "Call {} about K204117", "Seriennummer: {}"])
def test_no_international_number_is_ever_taken_for_a_serial(message: str, names: Names) -> None:
    for number in EXAMPLES:
        for form in (PhoneNumberFormat.INTERNATIONAL, PhoneNumberFormat.E164):
            text = message.format(phonenumbers.format_number(number, form))
            assert [token.serial for token in find(text, names).tokens if token.serial != "K204117"] == [], text


def test_there_are_as_many_examples_as_the_references_count() -> None:
    assert len(EXAMPLES) >= 1_383


@pytest.mark.parametrize(
    "message", ["Tel. {}", "Call me on {} about my sewing machine", "Telefon: {}, die Maschine steht hier"]
)
def test_a_national_number_with_a_cue_is_no_serial(message: str) -> None:
    taken = [number for number in NATIONAL if find(message.format(number), NOTHING_KNOWN).tokens]
    assert taken == []


def test_without_a_cue_only_numbers_as_short_as_serials_stay_ambiguous() -> None:
    """Up to eight digits in a message about a machine may be either: the token is kept.

    Longer ones are telephones, except those that begin like a year and may be one, with a serial after it.
    """
    taken = [number for number in NATIONAL if find(f"about my sewing machine, {number}", NOTHING_KNOWN).tokens]
    longer = [number for number in taken if digits_in(number) > 8 and not number.startswith(("15", "18", "19"))]
    assert len(longer) <= 0.01 * len(NATIONAL), longer
