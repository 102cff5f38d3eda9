"""What experts settled and what is inferred, in every form in which an answer is shown."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import UTC, datetime
from html import unescape
from typing import Any

import pytest

from bot.pictures import alt_text, can_draw
from bot.replies import chat
from bot.replies.mail import Part, People, compose
from bot.replies.page import as_text
from bot.replies.words import short_answer
from knowledge.answer import Answer, answer
from knowledge.base import Knowledge
from knowledge.findings import Finding
from tests.bot.conftest import PACK

NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)
ON_K204117 = Finding(
    "1" * 32, "K", "204117", "", "tollgate", "t6", "", "1891", "by the shuttle; ledger p. 40", "ledger", "",
    "expert 3", NOON, 12,
)  # fmt: skip


def known(*findings: Finding) -> Knowledge:
    return Knowledge.of([PACK], findings)


def shown(text: str, *findings: Finding) -> dict[str, str]:
    """Return an answer in every form, in words on one line each."""
    knowledge = known(*findings)
    found = answer(text, knowledge)
    mail = compose([Part(answer=found)], knowledge, People("the group"), "Re: a machine")
    forms = {
        "short sentences": " ".join(short_answer(found, knowledge)),
        "narrow terminal": as_text(found, knowledge, 60),
        "wide terminal": as_text(found, knowledge, 100),
        "chat in a group": chat.short(found, knowledge).text,
        "chat in private": chat.whole(found, knowledge).text,
        "mail text": mail.text,
        "mail HTML": mail.html,
    }
    return {name: " ".join(words.split()) for name, words in forms.items()}


def test_every_form_tells_what_was_settled_by_whom_when_by_what_and_what_the_list_says() -> None:
    for name, words in shown("K204117", ON_K204117).items():
        assert "The group knows this machine: Tollgate &" in words, name
        assert "Settled by an expert of the group on 25 November 2026: by the shuttle; ledger p. 40." in words, name
        assert "The list agrees: Tollgate &" in words, name


def test_every_form_tells_a_contradiction() -> None:
    for name, words in shown("K204117", replace(ON_K204117, date="1931")).items():
        assert "The list says otherwise: Tollgate &" in words, name
        if name != "short sentences":
            assert "What is known of K204117 disagrees: an expert of the group on 25 November 2026" in words, name


def test_every_form_names_both_machines_of_an_inference_and_calls_it_no_record() -> None:
    around = (
        replace(ON_K204117, prefix="Q", digits="20400"),
        replace(ON_K204117, key="2" * 32, prefix="Q", digits="20450", date="1893", evidence="bill of sale"),
    )
    for name, words in shown("serial Q20417", *around).items():
        assert "inferred between 1891 and 1893" in words, name
        assert "No record: it lies between two machines the group knows: Q20400" in words, name
        assert "(1891, by the shuttle; ledger p. 40) and Q20450 (1893, bill of sale)." in words, name


def test_what_the_expert_added_is_told_and_ends_like_a_sentence() -> None:
    for name, words in shown("K204117", replace(ON_K204117, evidence="ledger", note="The lid\nis new!")).items():
        assert "25 November 2026: ledger. The lid is new! The list" in words, name


def test_what_an_expert_wrote_is_shown_as_text_and_no_more() -> None:
    sly = replace(ON_K204117, evidence="<script>x</script>\x1b[2J", note="@everyone see https://bad.example")
    forms = shown("K204117", sly)
    assert "<script>" not in forms["mail HTML"]
    assert "&lt;script&gt;" in forms["mail HTML"]
    assert all("\x1b" not in words for words in forms.values() if words != forms["short sentences"])
    assert "@everyone" not in forms["chat in a group"]


def test_a_finding_that_tells_no_date_leaves_it_to_the_list() -> None:
    words = shown("K204117", replace(ON_K204117, date=""))["short sentences"]
    assert "Tollgate & Sons Model 6, no date told. Settled by" in words
    assert "The list agrees: Tollgate & Sons Model 6, Upper Mill, allocated 2 March 1890." in words


def test_a_finding_that_tells_neither_maker_nor_model_says_so() -> None:
    words = shown("XQ47113", replace(ON_K204117, prefix="XQ", digits="47113", maker="", model=""))["short sentences"]
    assert "The group knows this machine: maker and model not told, 1891. Settled by" in words


def test_a_number_one_slip_away_is_not_called_known() -> None:
    words = shown("K0204117 or K204171", ON_K204117)["short sentences"]
    assert "The group knows this machine" not in words


def test_two_findings_that_cannot_both_be_true_are_both_told_with_their_sources() -> None:
    other = replace(ON_K204117, key="2" * 32, model="t9", date="1925", kind="opinion", evidence="")
    for name, words in shown("K204117", ON_K204117, other).items():
        assert "Settled by an expert of the group on 25 November 2026: an opinion." in words, name


def test_two_findings_as_strong_are_not_called_settled_in_one_way() -> None:
    one = replace(ON_K204117, prefix="XQ", digits="47113")
    words = shown("XQ47113", one, replace(one, key="2" * 32, date="1925"))["short sentences"]
    assert "Experts settled this number in more than one way. The likeliest: Tollgate" in words


def test_a_list_that_agrees_has_no_likelihood_of_its_own_and_one_that_does_not_has() -> None:
    assert "agrees K204117 Tollgate" in shown("K204117", ON_K204117)["chat in private"]
    assert "% K204117 Tollgate & Sons Model 6, Upper Mill" in shown("K204117", replace(ON_K204117, date="1931"))[
        "chat in private"
    ]


def drawn(text: str, *findings: Finding) -> Any:
    found: Answer = answer(text, known(*findings))
    return alt_text(found, known(*findings)) if can_draw(found) else None


@pytest.mark.parametrize("text", ["K204117", "40123, an Ambersee", "K2041?7"])
def test_pictures_are_those_of_the_lists_where_these_agree_with_what_was_settled(text: str) -> None:
    assert drawn(text, ON_K204117) == drawn(text)
    assert drawn(text, replace(ON_K204117, kind="dated-document", date="1894")) == drawn(text)
    assert drawn(text, replace(ON_K204117, date="")) == drawn(text)


def test_a_picture_marks_nothing_that_the_answer_does_not_lead_with() -> None:
    assert drawn("K204117", replace(ON_K204117, date="1931")) is None
    assert drawn("K204117", replace(ON_K204117, model="t9", date="")) is None
    assert drawn("serial K9204117", replace(ON_K204117, digits="9204117")) is None


def test_beside_a_number_that_no_picture_can_show_the_other_one_is_drawn() -> None:
    said = drawn("K204117 and K0204117", replace(ON_K204117, date="1931"))
    assert said is not None
    assert "K0204117: allocated" in said


def test_an_opinion_that_a_list_contradicts_does_not_change_the_picture() -> None:
    opinion = replace(ON_K204117, model="t9", date="1950", kind="opinion")
    assert drawn("K204117", opinion) == drawn("K204117")


# --- opinions


def read(words: str) -> str:
    """Return words as people read them, without the marks of HTML."""
    return " ".join(unescape(re.sub(r"<[^>]*>", "", words)).split())


def test_an_opinion_is_called_one_from_the_first_word_on() -> None:
    opinion = replace(ON_K204117, kind="opinion", evidence="")
    for name, words in shown("K204117", opinion).items():
        assert "An expert's opinion, not a record: Tollgate" in read(words), name
        assert "The group knows this machine" not in words, name


def test_an_opinion_that_a_list_contradicts_comes_behind_it_in_every_form() -> None:
    for name, words in shown("K204117", replace(ON_K204117, kind="opinion", evidence="", date="1950")).items():
        assert "Most likely: Tollgate & Sons Model 6, Upper Mill" in read(words), name
        assert "an opinion" in words, name
        assert "The group knows this machine" not in words, name


def test_an_opinion_against_the_machines_around_comes_behind_them_and_is_told() -> None:
    around = [
        replace(ON_K204117, key=f"{at:032x}", prefix="Q", digits=digits, model="", date=date)
        for at, (digits, date) in enumerate((("20400", "1891"), ("20450", "1893")))
    ]
    odd = replace(ON_K204117, prefix="Q", digits="20417", date="1950", kind="opinion")
    words = shown("serial Q20417", *around, odd)["wide terminal"]
    assert "Most likely: Tollgate & Sons, inferred between 1891 and 1893" in words
    assert "An expert says otherwise: Tollgate & Sons Model 6, 1950" in words
    assert "machines before and after it say between 1891 and 1893: Q20400" in words


def test_there_is_no_picture_where_no_list_has_the_number() -> None:
    assert drawn("XQ47113", replace(ON_K204117, prefix="XQ", digits="47113")) is None
