"""An expert's words are shown, stored at the press, told to everybody, and can be changed and taken back."""

from __future__ import annotations

import pytest

from bot.cases import CLOSED, OPEN, SETTLED, TAKEN, Asker
from bot.conversation import Incoming, reply
from bot.expert_desk import DeskError, desk_for
from bot.state import State
from knowledge.base import Knowledge
from tests.bot.conftest import PACK
from tests.bot.expert_desk.conftest import DAY

HARD = "How old is number Z 4711?"
EVA, FIN = "chat:eva", "chat:fin"


@pytest.fixture
def case(office) -> int:
    number: int = office.ask(HARD).case.id
    return number


def findings(office):
    return office.journal.store().findings()


# --- shown


def test_what_was_understood_is_shown_and_nothing_is_known_before_the_press(office, case) -> None:
    proposal = office.propose(case, "Model 9, about 1911, by the shuttle; see ledger p. 40")
    assert proposal.can_settle
    assert not proposal.amends
    for shown in ("Z4711", "Tollgate & Sons Model 9", "about 1911", "shuttle", "ledger p. 40"):
        assert shown in proposal.text
    assert findings(office) == ()
    assert office.told() == []


def test_writing_about_an_open_case_takes_it(office, case) -> None:
    office.propose(case, "Model 9")
    assert (office.case(case).state, office.case(case).expert) == (TAKEN, "expert 1")


def test_writing_again_takes_the_place_of_what_was_understood_before(office, case) -> None:
    wrong = office.propose(case, "Model 6")
    right = office.propose(case, "No, Model 9")
    with pytest.raises(DeskError, match="You wrote again since"):
        office.desk.settle(wrong.id, EVA, office.now)
    assert office.desk.settle(right.id, EVA, office.now).is_done
    assert [one.model for one in findings(office)] == ["t9"]


def test_another_experts_words_cannot_be_pressed(office, case) -> None:
    proposal = office.propose(case, "Model 9")
    with pytest.raises(DeskError, match="another expert"):
        office.desk.settle(proposal.id, FIN, office.now)
    with pytest.raises(DeskError, match="do not have that any more"):
        office.desk.settle(4_711, EVA, office.now)
    assert findings(office) == ()


@pytest.mark.parametrize("words", ["Hello there", "I have no idea, sorry", ""])
def test_words_that_say_nothing_of_the_machine_cannot_be_pressed(office, case, words) -> None:
    proposal = office.propose(case, words)
    assert not proposal.can_settle
    with pytest.raises(DeskError):
        office.desk.settle(proposal.id, EVA, office.now)
    assert office.case(case).state == OPEN


def test_not_ours_and_a_question_are_carried_out_by_the_same_press(office, case) -> None:
    question = office.propose(case, "Is the shuttle long or round?")
    assert office.desk.settle(question.id, EVA, office.now).case.state == "asked back"
    not_ours = office.propose(case, "Not for us, this is no sewing machine")
    assert office.desk.settle(not_ours.id, EVA, office.now).case.state == CLOSED
    assert office.kinds_told() == ["question", "not-ours"]


# --- stored


def test_the_maker_that_the_asker_named_is_taken_and_shown_where_the_expert_names_none(office) -> None:
    case = office.ask("My Ambersee has number ZQ 4711, how old?").case.id
    proposal = office.propose(case, "about 1911")
    assert "Machine: Ambersee" in proposal.text
    office.desk.settle(proposal.id, EVA, office.now)
    assert findings(office)[0].maker == "ambersee"


def test_a_number_that_is_stamped_otherwise_is_shown_stored_and_told(office, case) -> None:
    proposal = office.propose(case, "It is really stamped K204711, Model 6, 1890")
    assert "stamped K204711 (it was typed Z4711)" in proposal.text
    office.desk.settle(proposal.id, EVA, office.now)
    assert findings(office)[0].serial == "K204711"
    assert "really stamped K204711" in office.told()[0]


def test_how_a_number_was_misread_is_learned_and_forgotten_when_the_finding_is_taken_back(office) -> None:
    case = office.ask("K 3999999, how old? Could a person look at it?").case.id
    office.settle(case, "It is stamped K3000999, Model 23")
    right = office.ask("K 205000, how old? Could a person look at it?", "ben").case.id
    office.settle(right, "Model 6, 1890")
    store = office.journal.store()
    assert [one.observed for one in store.mistakes()][-1] == "as-typed"
    seen = len(store.mistakes())
    office.desk.withdraw(right, EVA, "It was another one", office.now)
    assert len(store.mistakes()) == seen - 1


def test_a_leading_zero_that_was_left_out_is_learned(office) -> None:
    case = office.ask("K 204117, how old? Could a person look at it?").case.id
    office.settle(case, "It is stamped K0204117, Model 9, 1921")
    assert [one.observed for one in office.journal.store().mistakes()] == ["zero-restored"]


def test_a_machine_without_a_number_is_settled_too(office) -> None:
    case = office.ask("What is this?", picture=True).case.id
    office.settle(case)
    assert findings(office)[0].serial == ""
    assert office.case(case).state == SETTLED
    assert "about 1911" in office.told()[0]


def test_a_number_that_nobody_could_read_whole_is_not_stored_as_a_number(office) -> None:
    case = office.ask("Z 47?1, how old?").case.id
    proposal = office.propose(case, "Model 9, about 1911")
    assert "was not read whole" in proposal.text
    office.desk.settle(proposal.id, EVA, office.now)
    assert findings(office)[0].serial == ""


def test_of_a_case_about_two_numbers_each_is_settled_by_itself(office) -> None:
    case = office.ask("How old are ZQ 4711 and YX 8155?").case.id
    unclear = office.propose(case, "Model 9, about 1911")
    assert not unclear.can_settle
    assert "ZQ4711 and YX8155" in unclear.text
    office.settle(case, "ZQ4711 is a Model 9, about 1911")
    assert office.case(case).is_unsettled
    office.settle(case, "Model 6, about 1890")
    assert office.case(case).state == SETTLED
    assert {one.serial: one.model for one in findings(office)} == {"ZQ4711": "t9", "YX8155": "t6"}
    assert len(office.told()) == 2


def test_every_other_open_case_with_that_number_is_settled_and_its_askers_are_told(office) -> None:
    both = office.ask("How old are ZQ 4711 and YX 8155?", "ben").case.id
    ours = office.ask("My Tollgate has ZQ 4711, how old?", "cat").case.id
    theirs = office.ask("My Ambersee has ZQ 4711, how old?", "dan").case.id
    office.settle(both, "ZQ4711 is a Tollgate Model 9, about 1911")
    assert office.case(both).is_unsettled
    assert office.case(ours).state == SETTLED
    assert "Model 9" in office.told("cat")[0]
    assert "Model 9" in office.told("ben")[0]
    assert office.case(theirs).is_unsettled
    assert office.told("dan") == []


def test_the_stamped_number_settles_the_case_of_whoever_typed_it_right(office, case) -> None:
    right = office.ask("X 4711, how old?", "ben").case.id
    office.settle(case, "It is really stamped X4711, Model 9, about 1911")
    assert office.case(right).state == office.case(case).state == SETTLED
    assert "Model 9" in office.told("ben")[0]


def test_a_case_closed_without_an_answer_is_settled_later_and_then_everybody_is_told(office, case) -> None:
    office.now += 15 * DAY
    office.look()
    assert office.case(case).state == CLOSED
    office.now += 30 * DAY
    office.settle(case)
    assert office.case(case).state == SETTLED
    assert office.kinds_told() == ["nobody-knew", "settled"]


def test_who_is_told_hears_evidence_role_and_day_and_no_name(office, case) -> None:
    office.settle(case, "Model 9, about 1911, by the shuttle; see ledger p. 40")
    (told,) = office.told()
    for shown in ("by the shuttle; see ledger p. 40", "an expert of the group", "4 May 2031"):
        assert shown in told
    assert "eva" not in told


# --- two experts


def test_of_two_experts_one_wins_and_the_other_is_told_what_was_stored_and_may_amend(office, case) -> None:
    first = office.propose(case, "Model 9, about 1911", "eva")
    second = office.propose(case, "Model 6, about 1890", "fin")
    assert office.desk.settle(first.id, EVA, office.now).is_done
    late = office.desk.settle(second.id, FIN, office.now)
    assert (late.is_done, late.may_amend) == (False, True)
    assert "Model 9, about 1911" in late.text
    assert late.finding == findings(office)[0]
    assert [one.model for one in findings(office)] == ["t9"]
    amended = office.desk.amend(second.id, FIN, office.now)
    assert amended.is_done
    (finding,) = findings(office)
    assert (finding.model, finding.author, finding.key) == ("t6", "expert 2", late.finding.key)
    assert office.kinds_told() == ["settled", "changed"]
    assert "corrected" in office.told()[1]


def test_pressing_twice_stores_once(office, case) -> None:
    proposal = office.propose(case, "Model 9, about 1911")
    office.desk.settle(proposal.id, EVA, office.now)
    again = office.desk.settle(proposal.id, EVA, office.now)
    assert (again.is_done, again.may_amend) == (False, False)
    assert len(findings(office)) == 1
    assert office.kinds_told() == ["settled"]


# --- afterwards


def test_a_settled_case_is_amended_in_words_and_both_stand_in_the_history(office, case) -> None:
    office.settle(case)
    proposal = office.propose(case, "Model 6, 1890, dated bill of sale", "fin")
    assert proposal.amends
    assert office.case(case).state == SETTLED
    office.desk.amend(proposal.id, FIN, office.now)
    (finding,) = findings(office)
    assert finding.model == "t6"
    history = office.journal.store().finding_history(finding.key)
    assert [(one.what, one.author) for one in history] == [("added", "expert 1"), ("amended", "expert 2")]
    assert office.happened(case)[-1] == "amended"


def test_what_is_taken_back_counts_no_more_everybody_hears_and_the_case_is_open_again(office, case) -> None:
    office.ask(HARD, "ben")
    office.settle(case)
    done = office.desk.withdraw(case, FIN, "It was the number of the motor.", office.now)
    assert done.case.state == OPEN
    assert findings(office) == ()
    assert office.kinds_told("ann") == office.kinds_told("ben") == ["settled", "withdrawn"]
    with pytest.raises(DeskError, match="nothing to take back"):
        office.desk.withdraw(case, FIN, "", office.now)
    office.now += 15 * DAY
    office.look()
    assert office.kinds_told("ben")[-1] == "nobody-knew"


def test_a_finding_that_contradicts_the_lists_is_shown_as_such_and_becomes_a_case_of_its_own(office) -> None:
    case = office.ask("K 205000, how old? Can a person look at it?").case.id
    proposal = office.propose(case, "Model 23, made in 1951")
    assert "'Tollgate ledger' says" in proposal.text
    office.desk.settle(proposal.id, EVA, office.now)
    assert office.case(case).state == SETTLED
    (left,) = office.desk.cases()
    assert (left.reasons, left.serials, left.waiting) == (("contradiction",), ("K205000",), 0)
    assert any("'Tollgate ledger' says" in line for line in left.reading)
    assert "'Tollgate ledger' says" in office.told()[0]
    answer = office.propose(left.id, "Model 6, 1890", "fin")
    assert answer.amends
    office.desk.amend(answer.id, FIN, office.now)
    assert office.desk.cases() == []
    assert office.kinds_told() == ["settled", "changed"]


def test_a_case_of_a_contradiction_is_over_when_the_finding_is_taken_back(office) -> None:
    case = office.ask("K 205000, how old? Can a person look at it?").case.id
    office.settle(case, "Model 23, made in 1951")
    (contradiction,) = office.desk.cases()
    office.desk.withdraw(case, EVA, "A slip of mine", office.now)
    assert office.case(contradiction.id).state == CLOSED
    assert [one.id for one in office.desk.cases()] == [case]


def test_a_finding_that_speaks_of_opening_a_machine_carries_the_usual_cautions(office, case) -> None:
    office.settle(case, "Model 9, about 1911. Note: open the motor to see the date inside.")
    assert "pull the plug" in office.told()[0]


def test_what_an_expert_wrote_goes_with_them_and_the_finding_stays_under_a_number(office, case) -> None:
    office.settle(case, "Model 9, about 1911")
    office.journal.forget(EVA)
    assert findings(office)[0].author == "expert 1"
    assert office.desk._all("SELECT * FROM desk_proposals") == []
    assert office.desk.expert(EVA) == "expert 2"


def test_who_misreads_the_same_plate_in_the_same_way_is_answered_at_once(office, knowledge) -> None:
    """The number was settled as another one than was typed; typed so again, nobody is asked a second time."""
    case = office.ask("Z 5550132, how old is it?").case
    office.settle(case.id, "The number is Z5550123. Model 9, about 1911.")
    office.knowledge = Knowledge.of(office.journal.store().sources(), office.journal.store().findings())
    state, said = reply(Incoming("Z 5550132, how old is it?"), State(), office.knowledge)
    answer = said[0].answer
    assert answer is not None
    assert answer.candidates[0].serial == "Z5550123"
    assert desk_for(answer, state, Asker("chat", "chat:bob", "{}"), office.knowledge) is None


def test_the_maker_of_one_number_keeps_no_other_number_from_being_settled(office) -> None:
    several = office.ask("X 9876543, Ambersee Z 4711, and Y 1234567: how old?", "ben").case.id
    alone = office.ask("X 9876543, how old?", "cat").case.id
    office.settle(alone, "Tollgate Model 9, about 1911")
    x, z, _ = office.case(several).numbers
    assert (x.serial, bool(x.finding)) == ("X9876543", True)
    assert not z.finding
    office.settle(several, "Y1234567 is of about 1911")
    assert [one.maker for one in office.journal.store().findings() if one.serial == "Y1234567"] == [""]


def test_whoever_would_replace_what_is_stored_sees_it_and_whether_it_rests_on_more(office, case) -> None:
    office.settle(case, "Model 9, 1911, see ledger p. 40")
    weaker = office.propose(case, "Model 6, 1950", "fin")
    for shown in ("Stored now:", "Model 9", "1911", "ledger p. 40", "expert 1", "weighs more than an opinion"):
        assert shown in weaker.text
    equal = office.propose(case, "Model 6, 1890, see ledger p. 41", "fin")
    assert "Stored now:" in equal.text
    assert "weighs more" not in equal.text
    done = office.desk.amend(equal.id, "chat:fin", office.now)
    assert "It took the place of: " in done.text
    assert "1911" in done.text


def test_who_comes_second_is_told_on_what_the_first_rests(office, case) -> None:
    mine, theirs = office.propose(case, "Model 9, see ledger p. 40"), office.propose(case, "Model 6, 1950", "fin")
    office.desk.settle(mine.id, "chat:eva", office.now)
    assert "ledger p. 40" in office.desk.settle(theirs.id, "chat:fin", office.now).text


def test_a_finding_of_another_maker_on_the_very_number_is_told_to_the_expert(office) -> None:
    first = office.ask("X 9876543, how old?").case.id
    office.settle(first, "Ambersee, 1911")
    findings = office.journal.store().findings()
    case = office.ask("QX 815, how old?", "ben").case.id
    known = Knowledge.of([PACK], findings)
    proposal = office.desk.propose(case, "chat:fin", "X9876543 is a Tollgate of 1950", known, office.now)
    assert "But a finding on this very number" in proposal.text
    assert "1911" in proposal.text


def test_an_expert_who_writes_is_told_that_the_case_is_theirs_unless_it_is_not_taken(office, case) -> None:
    quiet = office.desk.propose(case, "terminal:eva", "Model 9, 1911", office.knowledge, office.now, takes=False)
    assert office.case(case).state == "open"
    assert "is yours" not in quiet.text
    assert "is yours until" in office.propose(case, "Model 9, 1911").text
    assert office.case(case).state == "taken"
