"""What an expert is shown of their own words before anything is stored."""

from __future__ import annotations

import pytest

from knowledge.personal import WRITE_IT_WITHOUT

HARD = "Z 4711, how old is it?"


@pytest.mark.parametrize(
    ("words", "warned"),
    [
        ("Model 9, 1911, according to Ethel Pym's ledger", True),
        ("Model 9, 1911, see the receipt kept at 12 Mill Lane", True),
        ("Model 9, 1911, ledger in the hands of Mrs Pym", True),
        ("Model 9, 1911, by the shuttle; Tollgate ledger p. 40", False),
        ("Model 9, about 1911, bill of sale", False),
        ("Can you ask whether Ethel Pym has the receipt?", False),
    ],
)
def test_an_expert_who_names_somebody_is_told_before_it_is_stored(office, knowledge, words: str, warned: bool) -> None:
    case = office.ask(HARD).case.id
    shown = office.desk.propose(case, "chat:eva", words, knowledge, office.now).text
    assert (WRITE_IT_WITHOUT in shown) == warned, shown
