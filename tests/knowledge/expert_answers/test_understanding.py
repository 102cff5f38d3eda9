"""What an expert writes is understood, or shown as not clear; nothing is guessed."""

import pytest

from knowledge.expert_answers import ASK_BACK, NO_ANSWER, NOT_OURS, SETTLES, as_json


def test_model_date_and_evidence_are_read_from_one_line(understood):
    one = understood("Model 12, about 1911, by the shuttle; see ledger p. 40")
    assert (one.kind, one.model, one.date) == (SETTLES, "br-12", "1911~")
    assert (one.evidence, one.evidence_kind) == ("by the shuttle; see ledger p. 40", "ledger")


def test_maker_and_works_are_ids_of_the_pack(understood):
    one = understood("A Brindlecote from the Underhay Mill")
    assert (one.maker, one.works) == ("brindlecote", "underhay")


def test_what_was_not_said_is_null_in_json(understood):
    assert as_json(understood("Model 12")) == {
        "kind": "settles", "serial": None, "maker": None, "model": "br-12", "works": None, "date": None,
        "evidence": None, "evidence_kind": "opinion", "question": None, "note": None, "unclear": [],
    }  # fmt: skip


def test_the_number_is_the_one_the_expert_reads(understood):
    one = understood("It's A 100213, six digits")
    assert (one.prefix, one.digits, one.suffix) == ("A", "100213", "")


def test_of_two_numbers_the_one_that_was_asked_is_not_the_experts(understood):
    assert understood("A100231 is really A100213", "is it A100231?").serial == "A100213"


def test_two_numbers_without_a_word_which_are_shown_as_unclear(understood):
    one = understood("A100231 and B100213")
    assert one.serial == ""
    assert "A100231 or B100213" in one.unclear[0]


@pytest.mark.parametrize(
    "text",
    ["A100213 is running again!", "Same decals as my A100213", "The list is done up to A100213", "A100213? on it",
     "between A100001 and A100213", "A100213 went to a lovely couple"],
)  # fmt: skip
def test_a_number_that_is_only_spoken_of_is_not_given_as_the_one_stamped(understood, text):
    assert understood(text).serial == ""


@pytest.mark.parametrize(
    "text",
    ["A100213", "it's A100213", "Reads A100213 to me", "not A100231 but A100213", "number: A100213",
     "A100213 is correct"],
)  # fmt: skip
def test_a_number_that_is_given_is_read(understood, text):
    assert understood(text).serial == "A100213"


def test_a_number_of_a_model_is_no_serial_number(understood):
    one = understood("No. 12")
    assert (one.serial, one.model) == ("", "br-12")


@pytest.mark.parametrize(
    "text",
    ["No idea, Lottke", "Pinged Lottke about it", "Lottke here, back on Monday", "Thanks Lottke",
     "my Lottke is in the shed", "The Dovelet was dropped in 1911", "I live in Fellbeck", "Hello from Underhay",
     "ask the Fellbeck people"],
)  # fmt: skip
def test_names_of_people_places_and_of_models_as_such_say_nothing_of_this_machine(understood, text):
    assert not understood(text).tells


def test_this_one_machine_is_told_from_the_model_as_such(understood):
    one = understood("This Dovelet was made in 1887")
    assert (one.model, one.date) == ("br-dovelet", "1887")


def test_the_ends_of_a_block_are_no_number_of_the_machine(understood):
    assert understood("1909, the list has A120001-A150000 for that year").serial == ""


@pytest.mark.parametrize(
    "text",
    [
        "Model 4, sorry, Model 12",
        "Model 4 -- no, Model 12",
        "Model 4. EDIT: Model 12",
        "not a Model 4, a Model 12",
        "Model 12, not Model 4",
        "It isn't a Model 4 but a Model 12",
        "Model 4 is wrong. Model 12.",
        "~~Model 4~~ Model 12",
        "At first I thought Model 4, but it is a Model 12",
        "looks like a Model 4 but it is a Model 12",
        "Model 12 rather than Model 4",
        "kein Model 4, sondern Model 12",
        "pas une Model 4 mais une Model 12",
    ],
)
def test_what_is_taken_back_or_denied_does_not_count(understood, text):
    assert understood(text).model == "br-12"


@pytest.mark.parametrize("text", ["Model 4 or Model 12", "either a Model 4 or a Model 12", "Model 4. Model 12."])
def test_two_models_that_both_stand_are_shown_as_unclear(understood, text):
    one = understood(text)
    assert one.model == ""
    assert any("br-12" in piece and "br-4" in piece for piece in one.unclear)


def test_a_model_that_nobody_knows_is_shown_as_unclear(understood):
    one = understood("Model 77, 1911")
    assert (one.model, one.date) == ("", "1911")
    assert "model 77" in one.unclear[0]


def test_what_is_said_under_a_condition_settles_nothing(understood):
    one = understood("If the bobbin is round it's a Model 12, otherwise a Model 4")
    assert one.kind == NO_ANSWER
    assert not one.tells
    assert "under a condition" in one.unclear[0]


@pytest.mark.parametrize(
    "text",
    [
        "He says 1905",
        "the owner thinks it is a Model 4",
        "You wrote A100231",
        "> Model 4, 1905\nno idea",
        "On 3 May, Ada wrote:\n> Model 4\n\nThanks for that!",
    ],
)
def test_somebody_elses_words_are_never_the_experts(understood, text):
    one = understood(text)
    assert one.kind == NO_ANSWER
    assert not one.tells


def test_what_the_asker_wrote_and_the_expert_repeats_is_not_the_experts(understood):
    question = "I have a Model 4 with A100231, is it from 1905?"
    one = understood(f"{question} No, it is a Model 12.", question)
    assert (one.model, one.serial, one.date) == ("br-12", "", "")


@pytest.mark.parametrize(
    "text", ["Mine is from 1920", "My own Dovelet is 1889", "I have one from 1904", "Meine ist von 1920"]
)
def test_what_is_said_of_the_experts_own_machine_is_not_of_the_askers(understood, text):
    assert not understood(text).tells


def test_behind_the_experts_own_machine_comes_the_askers_again(understood):
    assert understood("Mine is from 1920, this one is from 1926").date == "1926"


@pytest.mark.parametrize(
    "text",
    [
        "Ask him whether there's a letter in front",
        "Could she send a photo of the base?",
        "is it six or seven digits?",
        "We need a clearer picture",
        "Frag sie, ob ein Buchstabe davor steht",
        "Demandez-lui combien de chiffres",
        "Pregúntale por la letra",
        "Chiedigli quante cifre ha",
        "Vraag haar om een foto",
    ],
)
def test_what_the_asker_is_to_be_asked_is_put_in_the_experts_words(understood, text):
    one = understood(text)
    assert one.kind == ASK_BACK
    assert one.question.rstrip(".?") == text.rstrip(".?")


def test_only_the_sentence_that_asks_is_put_to_the_asker(understood):
    assert understood("Nice machine. Ask him for the number on the bed.").question == (
        "Ask him for the number on the bed."
    )


@pytest.mark.parametrize(
    "text",
    ["not one of ours", "we don't do toy machines", "keine von unseren", "pas des nôtres", "not our thing at all",
     "non è dei nostri", "no es de las nuestras", "hoort niet bij ons", "That is a knitting machine"],
)  # fmt: skip
def test_a_machine_that_is_none_of_the_groups(understood, text):
    assert understood(text).kind == NOT_OURS


@pytest.mark.parametrize(
    "text",
    ["no idea, sorry", "thanks, looking into it", "I'll take this", "lol nice one", "", "?", "👍👍", "Keine Ahnung",
     "I'll check the 1911 ledger tonight", "Who has the day book?", "not in our records", "None of us knows"],
)  # fmt: skip
def test_small_talk_and_promises_are_no_answer(understood, text):
    one = understood(text)
    assert one.kind == NO_ANSWER
    assert not one.tells
    assert one.evidence == ""


def test_a_letter_of_many_lines_is_read_without_its_greeting_and_signature(understood):
    text = (
        "Dear all,\n\nwhat a lovely find. This is a Dovelet, made at Underhay,\nsome time between 1885 and 1889. "
        "I go by the handwheel.\n\nKind regards\nLottke Fellbeck\nMill Lane 12, 1904 Somewhere"
    )
    one = understood(text)
    assert (one.model, one.works, one.date) == ("br-dovelet", "underhay", "1885/1889")
    assert one.evidence == "I go by the handwheel"


def test_a_very_long_text_is_read_at_its_beginning_and_that_is_said(understood):
    one = understood("Model 12. " + "bla " * 10_000)
    assert one.model == "br-12"
    assert "was not read" in one.unclear[-1]


@pytest.mark.parametrize(
    "text", ["\x00", "\ud800", "🧵" * 500, "((((((", "not " * 500, "1911 " * 500, "\u202eModel 12"]
)
def test_no_text_breaks_the_reading(understood, text):
    understood(text)


@pytest.mark.parametrize(
    "text",
    ["You wrote 1905, it's 1911.", "He says 1905 but it's 1911", "My wife thinks 1905, I think 1911",
     "1905 is what the seller said, in truth it's 1911", "Whatever the seller told him, it is from 1911"],
)  # fmt: skip
def test_the_expert_puts_right_what_somebody_else_said(understood, text):
    assert understood(text).date == "1911"


def test_what_goes_on_in_somebody_elses_words_stays_theirs(understood):
    assert not understood("He says it's a Model 4, it's from 1905").tells


@pytest.mark.parametrize("text", ["Model 12, 1911? The shuttle would fit.", "Model 12? 1911? Yes."])
def test_a_guess_that_is_borne_out_counts(understood, text):
    one = understood(text)
    assert (one.model, one.date) == ("br-12", "1911")


def test_a_guess_that_is_not_borne_out_does_not(understood):
    assert not understood("Model 12? The shuttle does not fit.").tells


@pytest.mark.parametrize("text", ["Brindlecote 12, 1911", "Brindlecote, 12, 1911", "Brindlecote Bros no. 12 (1911)"])
def test_a_number_beside_the_maker_is_a_model(understood, text):
    one = understood(text)
    assert (one.maker, one.model, one.date) == ("brindlecote", "br-12", "1911")


@pytest.mark.parametrize("text", ["Brindlecote 12 digits", "Brindlecote, 4 of them", "He misread the 4, it's a 12"])
def test_other_numbers_are_no_models(understood, text):
    assert understood(text).model == ""


@pytest.mark.parametrize(
    ("text", "serial"),
    [
        ("There is an A missing, so A100213", "A100213"),
        ("It says 100213 but there is an A missing, so A100213.", "A100213"),
        ("A100213 with six digits", "A100213"),
        ("So 100213 with an A.", "A100213"),
        ("100213 with an A behind", "100213A"),
        ("11: 1866", "11"),
        ("83, about 1866", "83"),
        ("Number 57 is from 1866", "57"),
    ],
)
def test_a_number_given_in_a_sentence_is_read(understood, text, serial):
    assert understood(text).serial == serial


@pytest.mark.parametrize("text", ["2, sorry", "5: no idea", "1904 I believe"])
def test_short_numbers_of_other_things_are_none(understood, text):
    assert understood(text).serial == ""


@pytest.mark.parametrize(
    "text",
    ["Not for us", "Not one we cover.", "We do household machines only.", "This is a question for the loom people",
     "That's a different brand", "It's a copy by somebody else", "We never dealt with this maker",
     "Ce n'est pas une machine de chez nous", "questa marca non la seguiamo"],
)  # fmt: skip
def test_a_machine_of_none_of_the_makers_is_not_ours(understood, text):
    assert understood(text).kind == NOT_OURS


@pytest.mark.parametrize("text", ["It's a Model 12 with the lid of another firm", "We only know it's a Model 12"])
def test_a_model_that_is_known_is_ours_whoever_made_its_parts(understood, text):
    assert understood(text).model == "br-12"


@pytest.mark.parametrize(
    "text", ["Damit haben wir nichts zu tun.", "Non è per noi", "Nothing to do with us", "Daar hebben we niets mee"]
)
def test_what_the_group_has_nothing_to_do_with_is_not_ours(understood, text):
    assert understood(text).kind == NOT_OURS


@pytest.mark.parametrize(
    "text", ["Lottke Super, not the plain Lottke", "Could it be anything but a Lottke S?", "I suppose it's a Lottke S"]
)
def test_a_model_told_from_the_plain_one_is_read(understood, text):
    assert understood(text).model == "ha-lottke-s"


@pytest.mark.parametrize("text", ["It is stamped 999999, a Lottke from 1926", "It reads 999999. A Lottke."])
def test_a_number_that_is_said_to_be_stamped_is_read_whatever_it_looks_like(understood, text):
    assert understood(text).serial == "999999"
