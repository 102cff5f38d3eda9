"""The scorer itself, on made-up messages and made-up findings."""

from collections.abc import Sequence

import pytest

from tests.corpus.score import Find, Hit, Message, PassedOver, Wanted, score

K204766 = Wanted("K204766", "K", "204766", "", ((10, 17),))
HIT: Hit = ("K", "204766", "", 10, 17)


def a_message(*tokens: Wanted, passed_over: Sequence[PassedOver] = (), ambiguous: bool = False) -> Message:
    return Message(
        place="made-up:1",
        text="Mine says K204766 and more",
        language="en",
        tokens=tokens,
        passed_over=tuple(passed_over),
        why_hard="made up",
        shapes=frozenset(),
        models=(),
        makers=(),
        ambiguous=ambiguous,
    )


def finding(*hits: Hit, passed_over: Sequence[PassedOver] = ()) -> Find:
    return lambda message: (hits, passed_over)


def test_a_token_found_in_its_place_counts_for_precision_and_recall() -> None:
    result = score([a_message(K204766)], finding(HIT))
    assert (result.precision, result.recall, result.found) == (1.0, 1.0, 1)


def test_a_token_not_found_is_a_miss_and_lowers_recall_alone() -> None:
    result = score([a_message(K204766), a_message(K204766)], _only_once())
    assert (result.precision, result.recall) == (1.0, 0.5)
    assert [wanted.text for _, wanted in result.misses] == ["K204766"]


def _only_once() -> Find:
    answers: list[Sequence[Hit]] = [[HIT], []]
    return lambda message: (answers.pop(0), ())


def test_a_token_where_none_is_labelled_is_a_false_hit_and_lowers_precision_alone() -> None:
    result = score([a_message(K204766)], finding(HIT, ("", "1912", "", 20, 24)))
    assert (result.precision, result.recall) == (0.5, 1.0)
    assert [hit[1] for _, hit in result.false_hits] == ["1912"]


@pytest.mark.parametrize(
    "hit",
    [
        ("", "204766", "", 10, 17),
        ("K", "0204766", "", 10, 17),
        ("K", "204766", "K", 10, 17),
        ("K", "204766", "", 17, 24),
    ],
    ids=["prefix lost", "zero added", "suffix added", "elsewhere, only touching"],
)
def test_a_token_of_another_number_or_place_is_both_a_miss_and_a_false_hit(hit: Hit) -> None:
    result = score([a_message(K204766)], finding(hit))
    assert (result.found, len(result.misses), len(result.false_hits)) == (0, 1, 1)


def test_an_overlap_is_enough_because_people_name_the_letter_apart() -> None:
    assert score([a_message(K204766)], finding(("K", "204766", "", 2, 12))).recall == 1.0


def test_a_number_written_twice_may_be_found_at_either_place_but_only_once() -> None:
    twice = Wanted("K204766", "K", "204766", "", ((10, 17), (30, 38)))
    second = ("K", "204766", "", 31, 38)
    assert score([a_message(twice)], finding(second)).recall == 1.0
    assert len(score([a_message(twice)], finding(HIT, second)).false_hits) == 1


def test_a_mixed_code_is_compared_as_a_whole_however_it_is_split() -> None:
    mixed = Wanted("MK7H04512", "MK", "7H04512", "", ((0, 9),), joined=True)
    assert score([a_message(mixed)], finding(("MK7H", "04512", "", 0, 9))).recall == 1.0
    assert score([a_message(mixed)], finding(("MK7H", "04513", "", 0, 9))).recall == 0.0


def test_an_ambiguous_message_is_left_out() -> None:
    result = score([a_message(K204766, ambiguous=True)], finding(("", "1", "", 0, 1)))
    assert (result.found, result.misses, result.false_hits) == (0, [], [])


@pytest.mark.parametrize("said", ["120 euro", "120", "for 120 euro", "120 EURO"])
def test_a_reason_counts_whether_the_unit_was_taken_in_or_not(said: str) -> None:
    message = a_message(passed_over=[("120 euro", "price")])
    assert score([message], finding(passed_over=[(said, "price")])).reason_accuracy == 1.0


@pytest.mark.parametrize("said", ["12 machines", "20", "euro"])
def test_a_piece_with_other_figures_is_another_piece(said: str) -> None:
    message = a_message(passed_over=[("120 euro", "price")])
    result = score([message], finding(passed_over=[(said, "price")]))
    assert (result.reason_accuracy, len(result.not_mentioned)) == (0.0, 1)


def test_a_span_of_years_may_be_passed_over_year_by_year() -> None:
    message = a_message(passed_over=[("1899-1934", "year")])
    result = score([message], finding(passed_over=[("1899", "year"), ("1934", "year")]))
    assert result.reason_accuracy == 1.0


def test_a_wrong_reason_and_an_unsaid_piece_are_told_apart() -> None:
    message = a_message(passed_over=[("14:30", "time"), ("3 machines", "count"), ("1912", "year")])
    result = score([message], finding(passed_over=[("14:30", "price"), ("1912", "year")]))
    assert result.reason_accuracy == pytest.approx(1 / 3)
    assert [(piece[0], got) for _, piece, got in result.other_reasons] == [("14:30", "price")]
    assert [piece for _, piece in result.not_mentioned] == [("3 machines", "count")]


def test_nothing_to_find_and_nothing_found_is_a_full_score() -> None:
    result = score([a_message()], finding())
    assert (result.precision, result.recall, result.reason_accuracy) == (1.0, 1.0, 1.0)


def test_the_score_for_people_names_the_place_of_every_fault() -> None:
    message = a_message(K204766, passed_over=[("14:30", "time"), ("1912", "year")])
    lines = list(score([message], finding(("R", "9", "", 0, 1), passed_over=[("14:30", "price")])).lines())
    assert lines[0] == "precision 0.0000  recall 0.0000  reasons 0.0000"
    assert [line.split()[0] for line in lines[1:]] == ["missed", "false", "reason", "unsaid"]
    assert all("made-up:1" in line for line in lines[1:])
