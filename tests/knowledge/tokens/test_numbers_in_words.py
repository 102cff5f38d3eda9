"""Numbers said in words, digit by digit or in tens and hundreds, in the languages of the group."""

from __future__ import annotations

import pytest

from knowledge.tokens import find
from tests.knowledge.tokens.sample_names import MANY_SHAPES

SAID = [
    ("two hundred and four one one seven", "204117"),
    ("K two oh four double one seven", "K204117"),
    ("K twenty forty-one seventeen", "K204117"),
    ("twenty forty-one seventeen is the number", "204117"),
    ("thirty-one eighty-eight forty-two", "318842"),
    ("K two-zero-four triple one", "K204111"),
    ("three one double eight four two", "318842"),
    ("triple three one eight eight", "333188"),
    ("treble three one eight eight", "333188"),
    ("zweihundertvier eins eins sieben", "204117"),
    ("K zweihundertvier einhundertsiebzehn", "K204117"),
    ("einunddreißig achtundachtzig zweiundvierzig", "318842"),
    ("dreihundertachtzehn achthundertzweiundvierzig", "318842"),
    ("trois cent dix-huit huit cent quarante-deux", "318842"),
    ("vingt quarante et un dix-sept", "204117"),
    ("trente et un quatre-vingt-huit quarante-deux", "318842"),
    ("treinta y uno ochenta y ocho cuarenta y dos", "318842"),
    ("trentuno ottantotto quarantadue", "318842"),
    ("eenendertig achtentachtig tweeënveertig", "318842"),
    ("trzydzieści jeden osiemdziesiąt osiem czterdzieści dwa", "318842"),
    ("тридцать один восемьдесят восемь сорок два", "318842"),
    ("trettioett åttioåtta fyrtiotvå", "318842"),
    ("numret är åtta fem noll tre sex ett", "850361"),
    ("tre ett åtta åtta fyra två", "318842"),
    ("numer to trzy jeden osiem osiem cztery dwa", "318842"),
    ("номер три один восемь восемь четыре два", "318842"),
    ("tre uno otto otto quattro due", "318842"),
    ("tres uno ocho ocho cuatro dos", "318842"),
    ("drie een acht acht vier twee", "318842"),
    ("K null zwo null vier eins eins sieben", "K0204117"),
    ("K zero two 0 four 117", "K0204117"),
    ("318 eight four two", "318842"),
    ("K two zero four 117", "K204117"),
    ("ká dva nula čtyři jedna jedna sedm", "K204117"),
    ("letter K, two oh four one one seven", "K204117"),
    ("double three double eight four two", "338842"),
    ("doppel drei eins acht acht vier", "331884"),
    ("five-O-three-nine-one-eight", "503918"),
    ("K, two, oh, four, one, one, seven", "K204117"),
    ("K. Two. Zero. Four. One. One. Seven.", "K204117"),
    ("kilo two zero four one one seven", "K204117"),
    ("Karl zwo null vier eins eins sieben", "K204117"),
    ("serial number is four four seven one", "4471"),
    ("Seriennummer vier vier sieben eins", "4471"),
    ("zero three one eight eight four two", "0318842"),
    ("nought three one eight eight four two", "0318842"),
]

NOT_SAID = [
    ("deux fois trois, un, huit, huit, quatre", ""),
    ("dos tres cuatro", ""),
    ("I have two or three, maybe four", ""),
    ("eins zwei drei vier Eckstein", ""),
    ("one of the two has four drawers", ""),
    ("two hundred and four of them", ""),
    ("twenty twenty was a bad year", ""),
    ("nineteen twelve it was made", ""),
    ("in nineteen twenty-one", ""),
    ("the machine is from nineteen thirty", ""),
    ("zwei oder drei", ""),
    ("vingt et un ans", ""),
]


@pytest.mark.parametrize(("message", "serials"), SAID)
def test_a_number_in_words_is_read_as_it_is_stamped(message: str, serials: str) -> None:
    assert [token.serial for token in find(message, MANY_SHAPES).tokens] == serials.split()


@pytest.mark.parametrize(("message", "serials"), NOT_SAID)
def test_words_that_count_or_date_are_no_number(message: str, serials: str) -> None:
    assert [token.serial for token in find(message, MANY_SHAPES).tokens] == serials.split()
