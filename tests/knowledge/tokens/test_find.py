"""Serial numbers are read out of ordinary sentences, and what only looks like one is passed over with its reason."""

from __future__ import annotations

import pytest

from knowledge.names import Names
from knowledge.tokens import find

NAMES = Names(
    shapes=frozenset({("K", 6, ""), ("K", 7, ""), ("M", 5, "")}),
    models={"model 9": ("model-9",), "27-a": ("model-27",)},
    introducers={"patent": ("patents",), "rd no": ("designs",)},
)


@pytest.mark.parametrize(
    ("message", "serial"),
    [
        ("my gran's machine says K 0 204 117, how old is it?", "K0204117"),
        ("K-204.117", "K204117"),
        ("204117, with a K in front", "K204117"),
        ("letter K, digits 204117", "K204117"),
        ("kay, zero two oh four one one seven", "K0204117"),
        ("K2O4ll7", "K204117"),
        ("is it VI696402?", "VI696402"),
        ("K20?1_7", "K20?1?7"),
        ("serial K204*17 is what I read", "K204?17"),
        ("**K204117**", "K204117"),
        ("_K204117_", "K204117"),
        ("#204117", "204117"),
        ("numéro de série 204 117", "204117"),
        ("номер машины 204117, какого года?", "204117"),
    ],
)
def test_a_number_is_read_as_it_is_stamped(message: str, serial: str) -> None:
    assert [token.serial for token in find(message, NAMES).tokens] == [serial]
