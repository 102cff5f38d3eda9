"""What is found in a message: serial tokens, and the pieces that only look like one."""

from __future__ import annotations

from dataclasses import dataclass


def count_digits(serial: str) -> int:
    """Return the number of digits of a cleaned serial; `?` is one that could not be read."""
    return sum(sign.isdecimal() or sign == "?" for sign in serial)


@dataclass(frozen=True, slots=True)
class SerialToken:
    """A piece of the text that may be a serial number.

    `start` and `end` count characters of the text as given, and `text` is what stands there. `prefix`, `digits` and
    `suffix` are cleaned: no separators, upper case, ASCII digits, `?` for a digit that could not be read.
    `introduced` says that words of the message call it a number of a machine. `letters` are the places in `digits`
    where a look-alike letter was typed and taken for a digit.
    """

    text: str
    start: int
    end: int
    prefix: str
    digits: str
    suffix: str
    introduced: bool
    letters: tuple[int, ...] = ()

    @property
    def digit_count(self) -> int:
        """How many digits it has, unreadable ones too; those of a code stand apart from each other."""
        return count_digits(self.serial)

    @property
    def serial(self) -> str:
        """The whole number as it is stamped, without separators."""
        return self.prefix + self.digits + self.suffix


@dataclass(frozen=True, slots=True)
class PassedOver:
    """A piece of the text that looks like a number and is no serial, `because` naming one of the reasons of the design.

    For registers whose numbers need words before them (patents, designs) `number` is the cleaned number and
    `registers` the ids of all registers those words belong to; `register` is the first of them.
    """

    text: str
    start: int
    end: int
    because: str
    number: str = ""
    register: str = ""
    registers: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Found:
    """Everything found in one message, in the order of the text; no two pieces overlap."""

    tokens: tuple[SerialToken, ...] = ()
    passed_over: tuple[PassedOver, ...] = ()
