"""What experts write about lists is parted into single changes, and told from answers about one machine."""

from __future__ import annotations

import pytest

from knowledge.register_changes.parting import MOST, is_for_a_list, parted
from tests.knowledge.sharing.groups import ours

KNOWN = ours()
CHANGE = "change K 200001-225000 date 1891"


def test_each_change_begins_a_line_and_what_stands_beside_them_is_the_reason() -> None:
    found = parted(f"I looked again.\n\n{CHANGE}\nremove K 1-9\n\nSee the ledger, p. 3.")
    assert found.changes == (CHANGE, "remove K 1-9")
    assert found.why == "I looked again. See the ledger, p. 3."


def test_a_change_that_a_mail_program_broke_into_lines_is_one() -> None:
    assert parted("change K 200001-225000\ndate 1891\n model Model 9").changes == (f"{CHANGE} model Model 9",)


def test_a_text_without_a_change_has_none() -> None:
    assert parted("The date should be 1891.").changes == ()
    assert parted("").changes == ()


def test_of_very_many_changes_the_rest_is_counted() -> None:
    found = parted("\n".join([CHANGE] * (MOST + 3)))
    assert (len(found.changes), found.left) == (MOST, 3)


@pytest.mark.parametrize(
    "text",
    [CHANGE, f"Please {CHANGE}", "remove K 200001-225000", "change 200001-225999 date 1891", f"Hello\n{CHANGE}",
     "add K 240001 to 250000 date 1892", "take out K 200,001 - 225,000"],
)  # fmt: skip
def test_a_block_is_for_a_list(text) -> None:
    assert is_for_a_list(text, KNOWN)


@pytest.mark.parametrize(
    "text",
    ["How old is K 204117?", "Correct: K 204-117, how old?", "Change of plan: we meet on the 12th", "add 204117?",
     "remove the bobbin, then look for the number", "", "K 200001-225000 date 1891"],
)  # fmt: skip
def test_what_is_about_a_machine_or_about_nothing_is_for_no_list(text) -> None:
    assert not is_for_a_list(text, KNOWN)


@pytest.mark.parametrize(
    ("text", "is_for_one"),
    [
        (CHANGE, True),
        (f"Model 9, about 1911.\n{CHANGE}", False),
        ("Correct: B123456 is a Model 9, about 1911", False),
        ("Correct: K 204-117, Model 9", False),
        ("change 200001-225999 datte 1891", True),
    ],
)
def test_where_answers_about_machines_are_written_only_what_is_clear_or_a_block_is_for_a_list(text, is_for_one) -> None:
    assert is_for_a_list(text, KNOWN, beside_a_case=True) == is_for_one
