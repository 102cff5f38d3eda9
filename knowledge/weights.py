"""Every number that likelihoods are made of, with its origin, in one table.

A likelihood answers: of all machines whose owner could have typed just this, what share is this one? For each reading
that is (a) how often people make the mistake that leads from the stamped number to the typed one, times (b) how many
machines the reading could be, times (c) how well it fits what the asker says; 'none of these' gets a share of its own.

Origins: `published` is Verhoeff, Error Detecting Decimal Codes (1969), as later papers report it: of all errors single
digits 60 to 95 %, an omitted or added digit 10 to 20 %, neighbours swapped 10 to 20 %. `common practice` is what
members of collectors' groups know, no source. `assumed` is our estimate, to be replaced by counts. What settled cases
show moves the weights of MISTAKES and NONE in each group: knowledge/mistakes.py.
"""

from __future__ import annotations

from typing import NamedTuple


class Weight(NamedTuple):
    """A share or factor with where it comes from and what it means."""

    value: float
    origin: str
    meaning: str


SLIP = 0.08
"""Assumed: how many of the numbers people copy off a machine have one slip in their digits. The published shares below
are shares of this."""

MISTAKES: dict[str, Weight] = {
    "digit-misread": Weight(SLIP * 0.70, "published", "one digit taken for another"),
    "digit-missed": Weight(SLIP * 0.08, "published", "one digit left out"),
    "digit-extra": Weight(SLIP * 0.08, "published", "one digit too many"),
    "digits-swapped": Weight(SLIP * 0.14, "published", "two neighbours swapped"),
    "zero-restored": Weight(0.35, "common practice", "leading zeros dropped, where the number has them"),
    "zero-removed": Weight(0.004, "assumed", "leading zeros added that are not stamped"),
    "prefix-missing": Weight(0.15, "common practice", "the letters before the number not told, where it has them"),
    "letter-for-digit": Weight(0.02, "assumed", "a digit taken for a letter"),
    "digit-for-letter": Weight(0.02, "assumed", "a letter taken for a digit"),
    "unreadable": Weight(0.05, "assumed", "a digit that cannot be read, and the asker says so"),
}
"""How often the asker's mistake happens, for each step that undoes it."""

SHARES: dict[str, Weight] = {
    "look-alike": Weight(0.80, "assumed", "misread digits that are taken for a look-alike (the rest: any other)"),
    "doubled": Weight(0.70, "assumed", "digits too many that repeat their neighbour (the rest: any digit)"),
    "second-letter": Weight(0.20, "assumed", "look-alike mistakes that hit a second place too"),
    "some-zeros": Weight(0.10, "assumed", "dropped zeros of which some were kept"),
}

FITS: dict[str, Weight] = {
    "other-maker": Weight(0.03, "assumed", "a dating of another maker than the asker says"),
    "other-model": Weight(0.08, "common practice", "a dating of another model: people often know the model"),
    "no-maker": Weight(0.50, "assumed", "the asker names a maker and the finding tells none"),
    "no-model": Weight(0.50, "assumed", "the asker names a model and the dating tells none"),
    "other-works": Weight(0.20, "assumed", "a dating of another works"),
    "other-count": Weight(0.02, "assumed", "another number of digits than the asker counted when asked"),
    "other-zero": Weight(0.02, "assumed", "another first digit than the asker says"),
    "other-prefix": Weight(0.02, "assumed", "another letter than the asker says"),
    "far-date": Weight(0.12, "assumed", "a dating decades from the time the asker thinks of"),
}
"""Factors for datings that do not fit what the asker says; a dating that fits has 1."""

YEARS_OFF = Weight(8.0, "assumed", "years by which an asker's 'about' is off before it counts against a dating")
SOLD_LATER = Weight(3.0, "common practice", "years a machine may be sold after its number was allocated")

NONE: dict[str, Weight] = {
    "none": Weight(0.06, "assumed", "machines in no register that look just like one, for each number of a register"),
    "none-between": Weight(0.06, "assumed", "the same, for numbers between the blocks of the registers or beyond them"),
    "none-count": Weight(0.01, "assumed", "the same, for known letters with a number of digits that no register has"),
    "none-letters": Weight(0.30, "assumed", "the same, for letters that no register has"),
}
"""'None of these', by what kind of number was typed."""
OUTSIDE_FITS = Weight(0.30, "assumed", "how well a machine in no register fits what the asker says")
CODE_FILL = Weight(0.30, "assumed", "share of the possible date codes that a maker really used")
SEEN_AGAIN = Weight(20.0, "assumed", "how much likelier a machine experts have seen is asked about than another one")
"""Where a register has the number as it was typed, this holds for findings on that very number alone: who was told how
their machine is stamped does not go on to type another one's number, and that other machine must not be lost."""
PUT_RIGHT = Weight(0.5, "assumed", "a number typed as once before, when experts put it right: how often it is so again")
GROUNDS: dict[str, Weight] = {
    "dated-document": Weight(1.0, "assumed", "a finding on a dated document"),
    "ledger": Weight(0.9, "assumed", "a finding on a ledger or list"),
    "feature": Weight(0.7, "assumed", "a finding on a feature of the machine"),
    "opinion": Weight(0.5, "assumed", "a finding on an opinion"),
}
"""What a finding weighs by its evidence, beside one on a dated document: the rest is that it does not hold."""
AGAINST_RECORDS: dict[str, Weight] = {
    "dated-document": Weight(0.9, "assumed", "a finding on a dated document: it tells of one machine, lists of many"),
    "ledger": Weight(0.8, "assumed", "a finding on a ledger or list"),
    "feature": Weight(0.6, "assumed", "a finding on a feature of the machine: parts are changed"),
    "opinion": Weight(0.2, "assumed", "a finding on an opinion: the record has seen the machine"),
}
"""How many of the findings hold that a record of the very number contradicts, or the years of the model, or machines
with numbers on both sides. The rest is the record's: an opinion never outweighs it, and documents do not settle all."""
BETWEEN = Weight(0.5, "assumed", "machines of a series for each number between two known ones that no register dates")
BETWEEN_AGAIN = Weight(0.1, "assumed", "the same, where a register dates the number and the model alone is new")
BY_PREFIX = Weight(0.80, "assumed", "of the machines in no block those with known letters, which the second list dates")

PRIOR = Weight(10.0, "assumed", "settled cases that the weight of each mistake counts for, beside those really seen")
LEAST_FACTOR = Weight(0.1, "assumed", "what is learned makes no weight smaller than by this factor")
MOST_FACTOR = Weight(10.0, "assumed", "what is learned makes no weight greater than by this factor")
MOST_OFTEN = Weight(0.95, "assumed", "no mistake is believed to happen more often than this")

LOOK_ALIKES: dict[str, str] = {
    "0": "689", "1": "47", "2": "37", "3": "2589", "4": "19", "5": "3689", "6": "0589", "7": "129", "8": "03569",
    "9": "0345678",
}  # fmt: skip
"""For each stamped digit those it is taken for. Assumed; 6 and 9 also for plates read upside down."""

LETTERS_FOR_DIGITS: dict[str, str] = {
    "O": "0", "Q": "0", "D": "0", "I": "1", "L": "1", "Z": "2", "S": "5", "G": "6", "B": "8",
}  # fmt: skip
"""For each letter the digit it is taken for. Common practice, no source."""
