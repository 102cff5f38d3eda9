"""What the group's experts changed in a list is called so in every form in which an answer is shown."""

from __future__ import annotations

from bot.replies import chat
from bot.replies.mail import Part, People, compose
from bot.replies.page import as_text
from knowledge.answer import answer
from knowledge.store import Store
from tests.knowledge.test_changed_rows import CORRECTED, changed, kept, row_of

__all__ = ["kept"]


def test_every_form_of_an_answer_names_the_change(kept: Store) -> None:
    knowledge = changed(kept, "allocations", row_of(kept, "allocations", first="200001"), date="1891")
    found = answer("How old is K 204117?", knowledge)
    mail = compose([Part(answer=found)], knowledge, People("the group"), "Re: a machine")
    forms = (as_text(found, knowledge, 100), as_text(found, knowledge, 60), chat.short(found, knowledge).text,
             chat.whole(found, knowledge).text, mail.text, mail.html, " ".join(found.working))  # fmt: skip
    for form in forms:
        words = " ".join(form.replace("&#x27;", "'").split())
        assert f"The ledger, copied twice; {CORRECTED}" in words, words
