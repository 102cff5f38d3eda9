"""The whole way of a case: asked, put before the experts, answered, and everybody who asked is told."""

from __future__ import annotations

HARD = "How old is my machine, number Z 4711?"


def test_a_question_becomes_a_case_is_settled_in_an_experts_words_and_everybody_who_asked_is_told(office) -> None:
    first = office.ask(HARD, "ann")
    second = office.ask("Z4711, what year?", "ben")
    assert first.is_new
    assert second.joined
    assert [one.id for one in office.desk.cases()] == [first.case.id]

    proposal = office.propose(first.case.id, "Model 9, about 1911, by the shuttle; see ledger p. 40")
    assert "about 1911" in proposal.text
    assert office.journal.store().findings() == ()

    done = office.desk.settle(proposal.id, "chat:eva", office.now)
    assert done.is_done
    assert office.case(first.case.id).state == "settled"
    (finding,) = office.journal.store().findings()
    assert (finding.serial, finding.model, finding.maker, finding.author) == ("Z4711", "t9", "tollgate", "expert 1")
    for person in ("ann", "ben"):
        (told,) = office.told(person)
        assert "about 1911" in told
        assert "shuttle" in told
