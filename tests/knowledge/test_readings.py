"""Readings: each is one mistake away, says which, and how often people make it."""

from __future__ import annotations

import pytest

from knowledge.readings import EXPANDED, Reading, readings
from knowledge.registers import LONGEST
from knowledge.shapes import Shapes
from tests.knowledge.small import token

SIX_AND_SEVEN = Shapes.of({("K", 6, ""), ("K", 7, "")})


def found(serial: str, shapes: Shapes = SIX_AND_SEVEN) -> dict[str, Reading]:
    return {reading.serial: reading for reading in readings(token(serial), shapes)}


def steps(serial: str, stamped: str, shapes: Shapes = SIX_AND_SEVEN) -> tuple[str, ...] | None:
    reading = found(serial, shapes).get(stamped)
    return reading.steps if reading else None


@pytest.mark.parametrize(
    ("typed", "stamped", "step"),
    [
        ("K 204117", "K204117", "as-typed"),
        ("K 204117", "K0204117", "zero-restored"),
        ("K 0204117", "K204117", "zero-removed"),
        ("K 204117", "K2041171", "digit-missed"),
        ("K 204117", "K2904117", "digit-missed"),
        ("K 2041177", "K204117", "digit-extra"),
        ("K 204117", "K264117", "digit-misread"),
        ("K 204117", "K240117", "digits-swapped"),
    ],
)
def test_each_mistake_with_digits_is_undone(typed: str, stamped: str, step: str) -> None:
    assert steps(typed, stamped) == (step,)


@pytest.mark.parametrize(
    ("typed", "stamped", "step", "shape"),
    [
        ("VI 696402", "V1696402", "letter-for-digit", ("V", 7, "")),
        ("KO 204117", "K0204117", "letter-for-digit", ("K", 7, "")),
        ("IO 4117", "104117", "letter-for-digit", ("", 6, "")),
        ("204117 S", "2041175", "letter-for-digit", ("", 7, "")),
        ("8204117", "B204117", "digit-for-letter", ("B", 6, "")),
        ("0204117", "Q204117", "digit-for-letter", ("Q", 6, "")),
        ("80204117", "BD204117", "digit-for-letter", ("BD", 6, "")),
        ("2041178", "204117B", "digit-for-letter", ("", 6, "B")),
        ("204117", "K204117", "prefix-missing", ("K", 6, "")),
        ("204117", "KA204117", "prefix-missing", ("KA", 6, "")),
        ("204117 K", "K204117", "prefix-missing", ("K", 6, "")),
    ],
)
def test_each_mistake_with_letters_is_undone(typed: str, stamped: str, step: str, shape: tuple[str, int, str]) -> None:
    assert steps(typed, stamped, Shapes.of({shape})) == (step,)


def test_at_most_two_letters_are_taken_for_digits() -> None:
    assert found("OOO 4117", Shapes.of({("", 7, "")})) == {}


def test_the_letter_and_the_zeros_are_often_missing_together() -> None:
    assert steps("204117", "K0204117") == ("prefix-missing", "zero-restored")


def test_several_zeros_are_restored_at_once() -> None:
    assert steps("K 17", "K0000017") == ("zero-restored",)


def test_a_look_alike_letter_among_the_digits_is_a_step_of_its_own() -> None:
    made = {reading.serial: reading for reading in readings(token("K 204117", letters=(1,)), SIX_AND_SEVEN)}
    assert made["K204117"].steps == ("letter-for-digit",)
    assert made["K0204117"].steps == ("letter-for-digit", "zero-restored")
    assert made["K204117"].chance < found("K 204117")["K204117"].chance


def test_readings_that_no_series_could_hold_are_not_made() -> None:
    assert {len(reading.digits) for reading in found("K 204117").values()} == {6, 7}
    assert found("Q 204117") == {}


def test_a_plain_count_has_readings_of_any_width_and_no_leading_zero() -> None:
    made = found("204117", Shapes.of({("", 0, "")}))
    assert {len(reading.digits) for reading in made.values()} == {5, 6, 7}
    assert not any(reading.digits.startswith("0") for reading in made.values())


def test_a_dropped_zero_is_far_more_common_than_any_other_slip() -> None:
    made = found("K 204117")
    slips = [one.chance for one in made.values() if one.steps not in (("as-typed",), ("zero-restored",))]
    assert made["K204117"].chance > made["K0204117"].chance > 20 * max(slips)


def test_the_chances_of_all_that_could_be_typed_for_one_machine_add_up_to_no_more_than_one() -> None:
    stamped = "K0204117"
    typed = ["K 0204117", "0204117", "K 204117", "204117", *(f"K {n}" for n in _near("0204117"))]
    chances = [found(one)[stamped].chance for one in dict.fromkeys(typed) if stamped in found(one)]
    assert 0.9 < sum(chances) <= 1.0


def _near(digits: str) -> set[str]:
    """Return everything that one slip makes of a number."""
    swapped = {digits[:at] + digits[at : at + 2][::-1] + digits[at + 2 :] for at in range(len(digits) - 1)}
    dropped = {digits[:at] + digits[at + 1 :] for at in range(len(digits))}
    doubled = {digits[:at] + new + digits[at:] for at in range(len(digits) + 1) for new in "0123456789"}
    changed = {digits[:at] + new + digits[at + 1 :] for at in range(len(digits)) for new in "0123456789"}
    return swapped | dropped | doubled | changed


def test_unreadable_places_are_filled_with_every_digit() -> None:
    made = found("K 20?117")
    assert {f"K20{digit}117" for digit in range(10)} <= set(made)
    assert made["K204117"].steps == ("unreadable",)
    assert made["K0204117"].steps == ("unreadable", "zero-restored")


def test_more_unreadable_places_than_can_be_written_out_stay_a_pattern() -> None:
    assert len(found("K 2???17")) >= EXPANDED
    assert set(found("K 2?????")) == {"K2?????", "K02?????"}


def test_an_unreadable_first_place_may_be_the_letter() -> None:
    assert steps("?204117", "K204117") == ("unreadable",)


@pytest.mark.parametrize("digits", ["9" * (LONGEST + 2), "9" * 100_000, "12A4"])
def test_numbers_that_no_block_can_hold_have_no_readings(digits: str) -> None:
    assert found(f"K {digits}") == {}
