"""What is said to a message, and what is remembered for the next one."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.conversation import NEVER_MIND, NOT_UNDERSTOOD, Incoming, Outgoing, is_question, reply
from bot.small_talk import HELLO, WELCOME
from bot.state import State


class Talk:
    """A conversation whose state goes through JSON after each message, as a journal would keep it."""

    def __init__(self, knowledge):
        self.knowledge = knowledge
        self.state = State()

    def __call__(self, text: str) -> Outgoing:
        state, (outgoing,) = reply(Incoming(text), self.state, self.knowledge)
        self.state = State.from_json(json.loads(json.dumps(state.as_json())))
        assert self.state == state
        return outgoing

    def best(self, text: str) -> str:
        answer = self(text).answer
        assert answer is not None
        return answer.candidates[0].serial


@pytest.fixture
def say(knowledge):
    return Talk(knowledge)


def test_a_number_is_answered_and_the_question_back_stays_open(say):
    outgoing = say("K204117, how old is it?")
    assert outgoing.answer.candidates[0].serial == "K204117"
    assert say.state.asked.about == "digits"
    assert say.state.text == "K204117, how old is it?"


@pytest.mark.parametrize(
    "text",
    [
        "seven digits", "7", "7 digits", "it has 7", "seven", "the second one", "2", "the last one", "sieben", "sept",
        "it starts with zero",
    ],
)  # fmt: skip
def test_an_answer_to_the_question_back_brings_the_zero_led_dating_to_the_top(say, text):
    say("K204117")
    assert say.best(text) == "K0204117"


@pytest.mark.parametrize(
    "text", ["six digits", "6", "the first one", "1", "sechs", "no zero in front", "six, not seven"]
)
def test_the_other_answer_leaves_the_number_as_it_was_typed(say, text):
    say("K204117")
    assert say.best(text) == "K204117"


@pytest.mark.parametrize("text", ["it's a Model 9", "Model 9", "a no. 9", "it was made in 1921", "from the Quay Works"])
def test_more_about_the_machine_reorders_the_datings(say, text):
    say("K204117")
    assert say.best(text) == "K0204117"


def test_what_was_said_holds_through_further_messages(say):
    say("K204117")
    say("seven digits")
    say("thanks!")
    assert say.best("it is a Tollgate") == "K0204117"


def test_what_is_said_later_counts_more(say):
    say("K204117")
    say("it's a Model 9")
    assert say.best("no, it is a Model 6") == "K204117"


def test_yes_and_no_answer_a_question_about_the_zero(say):
    say("K204117")
    say("seven")
    if say.state.asked is not None:
        assert say.state.asked.about == "zero"
        assert say.best("yes") == "K0204117"


def test_a_letter_told_afterwards_is_taken(say):
    say("204117")
    assert say.best("K") == "K204117"


def test_no_letter_told_afterwards_is_taken(say):
    say("45000 on my machine")
    answer = say("there is no letter").answer
    assert answer.candidates[0].serial == "45000"


def test_dont_know_closes_the_question_kindly(say):
    say("K204117")
    assert say("I don't know").words == NEVER_MIND
    assert say.state.asked is None
    assert say.state.text == "K204117"


def test_a_new_number_starts_anew(say):
    say("K204117, a Model 9, seven digits")
    answer = say("and my aunt's is 45000").answer
    assert answer.tokens[0].serial == "45000"
    assert answer.said.models == ()
    assert answer.said.digit_count is None


def test_a_corrected_number_keeps_what_was_said_of_the_machine(say):
    say("K214117, it's a Model 9")
    answer = say("sorry, K204117").answer
    assert answer.said.models == ("t9",)
    assert answer.candidates[0].serial == "K0204117"


def test_a_corrected_number_without_its_letter_keeps_the_letter(say):
    say("K214117")
    assert say.best("sorry, 204117").startswith("K")


def test_a_maker_named_before_the_number_is_remembered(say):
    say("I have an Ambersee")
    answer = say("it says 45000").answer
    assert answer.said.makers == ("ambersee",)


def test_the_number_is_asked_for_when_there_is_none(say):
    outgoing = say("how old is my sewing machine?")
    assert outgoing.kind == "answer"
    assert outgoing.answer.tokens == ()
    assert outgoing.answer.case == ("no-token",)


def test_where_to_find_the_number_is_told_for_the_machine_spoken_of(say):
    say("K204117")
    outgoing = say("Where do I find it?")
    assert outgoing.kind == "places"
    assert [place.maker for place in outgoing.answer.places] == ["tollgate"]
    assert say.state.asked.about == "digits"


def test_where_to_find_the_number_is_told_for_every_maker_when_none_was_named(say):
    outgoing = say("where is the number?")
    assert outgoing.kind == "places"
    assert {place.maker for place in outgoing.answer.places} == {"tollgate", "ambersee"}


@pytest.mark.parametrize(
    "text",
    [
        "where would I find it on an Ambersee?",
        "on an Ambersee, where would I find it?",
        "Where is the number on an Ambersee?",
        "wo finde ich sie bei einer Ambersee?",
    ],
)
def test_where_it_is_on_another_machine_is_told_and_changes_nothing_here(say, text):
    say("my Tollgate K0204117")
    before = say.state
    outgoing = say(text)
    assert outgoing.kind == "places"
    assert [place.maker for place in outgoing.answer.places] == ["ambersee"]
    assert say.state == before


@pytest.mark.parametrize(
    "text",
    [
        "does an Ambersee have letters too?",
        "how does an Ambersee show it?",
        "is it older than an Ambersee?",
        "my neighbour has an Ambersee",
        "I have another one, an Ambersee",
        "and on an Ambersee?",
        "could it be an Ambersee?",
        "did Ambersee make a Model 9?",
    ],
)
def test_questions_and_remarks_about_other_machines_change_nothing(say, text):
    say("my Tollgate K0204117")
    before = say.state
    assert "Ambersee" in say(text).words
    assert say.state == before


@pytest.mark.parametrize("text", ["sorry, it's an Ambersee", "no, it says Ambersee", "mine is an Ambersee"])
def test_a_maker_that_is_told_takes_the_place_of_the_one_before(say, text):
    say("my Tollgate Model 9, 45000")
    said = say(text).answer.said
    assert said.makers == ("ambersee",)
    assert said.models == ()


def test_a_model_of_another_maker_takes_back_the_maker(say):
    say("my Ambersee K0204117")
    said = say("no, it is a Model 9").answer.said
    assert (said.makers, said.models) == ((), ("t9",))


def test_a_model_and_where_to_find_the_number_in_one_sentence_are_both_heard(say):
    say("K204117")
    outgoing = say("it's a Model 9, where do I find it?")
    assert outgoing.answer.said.models == ("t9",)
    assert outgoing.answer.places


@pytest.mark.parametrize("last", ["no, six digits", "six", "sorry, 6 digits", "no zero in front", "nein, sechs"])
def test_a_count_or_a_zero_that_contradicts_the_ones_before_replaces_them_all(say, last):
    for text in ("K204117", "seven digits", "it starts with zero"):
        say(text)
    afterwards = say(last).answer
    say.state = State()
    for text in ("K204117", last):
        at_once = say(text).answer
    assert afterwards.candidates == at_once.candidates
    assert afterwards.candidates[0].serial == "K204117"
    assert afterwards.candidates[0].likelihood > 0.8


def test_a_zero_told_after_six_digits_takes_the_count_back(say):
    say("K204117")
    say("six digits")
    answer = say("it starts with zero").answer
    assert answer.said.digit_count is None
    assert answer.candidates[0].serial == "K0204117"


def test_what_goes_together_is_kept_together(say):
    say("K204117")
    say("seven digits")
    said = say("no zero in front").answer.said
    assert (said.digit_count, said.leading_zero) == (7, False)


@pytest.mark.parametrize("text", ["the second one", "the last one", "the one with the K", "2", "second"])
def test_one_of_several_numbers_can_be_pointed_at(say, text):
    say("serial 45000 or serial K0204117")
    say.state = State(say.state.text, say.state.said)
    answer = say(text).answer
    assert [token.serial for token in answer.tokens] == ["K0204117"]


def test_a_number_that_was_passed_over_can_be_pointed_at_too(say):
    say("L123456 or K0204117")
    assert [token.serial for token in say("the second one").answer.tokens] == ["K0204117"]


def test_of_the_number_pointed_at_only_what_was_said_beside_it_holds(say):
    say("an Ambersee, serial 45000, and a Model 9, serial K0204117")
    say.state = State(say.state.text, say.state.said)
    assert say("the second one").answer.said.models == ("t9",)


@pytest.mark.parametrize("text", ["2", "1", "it has 3", "12"])
def test_a_bare_number_that_can_be_no_count_is_asked_about(say, text):
    say("my Tollgate K0204117")
    say.state = State(say.state.text, say.state.said)
    before = say.state
    assert "not sure what you mean" in say(text).words
    assert say.state == before


@pytest.mark.parametrize("text", ["2 digits", "twelve digits", "15 digits"])
def test_a_count_that_no_list_comes_near_is_asked_about(say, text):
    say("my Tollgate K0204117")
    before = say.state
    assert "I read K0204117" in say(text).words
    assert say.state == before


@pytest.mark.parametrize("text", ["a nice day", "blue"])
def test_what_tells_nothing_is_said_to_change_nothing(say, text):
    say("my Tollgate K0204117")
    assert say(text).words == NOT_UNDERSTOOD


@pytest.mark.parametrize("text", ["2 digits", "nine digits", "12"])
def test_where_digits_are_asked_for_such_a_count_gets_the_question_again(say, text):
    say("K204117")
    before = say.state
    words = say(text).words
    assert "I read K204117" in words
    assert "2) 7 digits" in words
    assert say.state == before


def test_a_count_one_off_is_believed(say):
    say("K204117")
    assert say("eight digits").answer.said.digit_count == 8


def test_of_several_numbers_the_answer_goes_to_the_one_that_was_asked_about(say):
    say("one is 45000 and the other K204117")
    asked = say.state.asked
    answer = say("seven digits").answer
    assert asked.about == "digits"
    assert [token.serial for token in answer.tokens] == ["K204117"]


def test_cautions_are_not_repeated(say):
    say("K204117")
    outgoing = say("seven digits")
    assert outgoing.again
    assert {caution.text for caution in outgoing.answer.cautions} & outgoing.told


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("thanks!", WELCOME),
        ("Vielen Dank", WELCOME),
        ("merci beaucoup pour votre aide", WELCOME),
        ("спасибо большое", WELCOME),
        ("tack så mycket", WELCOME),
        ("dziękuję bardzo", WELCOME),
        ("Hello", HELLO),
        ("Guten Tag", HELLO),
    ],
)
def test_thanks_and_greetings_get_a_kind_word(say, text, words):
    say("K204117")
    assert say(text).words == words
    assert say.state.text == "K204117"


def test_thanks_with_news_in_it_is_no_mere_thanks(say):
    say("K204117")
    assert say.best("thanks, it is a Model 9") == "K0204117"


def test_something_else_while_a_question_is_open_gets_the_question_again(say):
    say("K204117")
    words = say("hmm interesting").words
    assert "How many digits" in words
    assert "2) 7 digits" in words


def test_an_empty_state_goes_to_json_and_back():
    assert State.from_json(json.loads(json.dumps(State().as_json()))) == State()


USUAL = ["K204117", "7", "yes", "no", "K", "where is it?", "Model 9", "?", "1", "thanks", "K20411?", "I don't know"]


@given(st.lists(st.sampled_from(USUAL) | st.text(max_size=30), max_size=6))
def test_no_conversation_fails(knowledge, texts):
    talk = Talk(knowledge)
    for text in texts:
        talk(text)


@pytest.mark.parametrize(
    "text",
    [
        "K204117",
        "how old is K204117?",
        "serial number K204117",
        "Wie alt ist meine Nähmaschine?",
        "what model is my Tollgate?",
        "where do I find the serial number?",
    ],
)
def test_questions_are_told(knowledge, text):
    assert is_question(text, knowledge)


@pytest.mark.parametrize(
    "text",
    [
        "good morning everyone",
        "I oiled my machine today",
        "meeting at 10:30 in room 204",
        "how old is your dog?",
        "look at this beauty",
        "thanks, that helps",
        "what is it worth?",
        "",
    ],
)
def test_chatter_is_no_question(knowledge, text):
    assert not is_question(text, knowledge)



@pytest.fixture(scope="module")
def demo():
    from bot.wiring import open_library

    return open_library().current()


@pytest.mark.parametrize(
    "text",
    [
        "search three-quarter vibrating",
        "Search for: three quarter bed, vibrating shuttle",
        "look up three-quarter",
        "suche three-quarter",
    ],
)
def test_search_with_words_behind_it_tells_what_has_them(demo, text):
    outgoing = Talk(demo)(text)
    assert outgoing.kind == "words"
    assert outgoing.words.splitlines()[0].startswith("Model 9H.") or "\nModel 9H." in outgoing.words


@pytest.mark.parametrize(
    "text",
    [
        "Which model has a three-quarter bed and a vibrating shuttle?",
        "what model is it? hand crank, round bobbin 20 mm, rotary hook",
        "Can anybody identify it: free arm, electric, rotary hook",
    ],
)
def test_a_question_that_describes_a_machine_gets_the_models_that_fit_and_is_asked_for_the_number(demo, text):
    outgoing = Talk(demo)(text)
    assert outgoing.kind == "words"
    assert "type it with its letters" in outgoing.words


@pytest.mark.parametrize(
    "text",
    ["what model is it?", "which model is this old hand crank?", "search K204117", "Where do I look up the number?"],
)
def test_too_little_said_or_a_number_is_no_search(demo, text):
    assert Talk(demo)(text).answer is not None


def test_a_search_in_between_changes_nothing_of_the_machine_spoken_of(demo):
    talk = Talk(demo)
    talk("K204117")
    before = talk.state
    assert talk("search vibrating shuttle").kind == "words"
    assert talk.state == before
