"""The last lines of a group's talk."""

from bot.lately import KEPT, Lately, Line


def test_a_line_is_told_those_before_it_the_newest_last():
    lately = Lately()
    assert lately.hear("group", "ann", 100, "how old is it?") == ()
    assert lately.hear("group", "bo", 130, "what is the number?") == (Line("how old is it?", False, 30),)
    assert lately.hear("group", "ann", 140, "K204117") == (
        Line("how old is it?", True, 40),
        Line("what is the number?", False, 10),
    )


def test_groups_do_not_hear_each_other():
    lately = Lately()
    lately.hear("one", "ann", 100, "how old is it?")
    assert lately.hear("two", "ann", 101, "K204117") == ()


def test_only_the_last_lines_are_kept_and_long_ones_are_cut():
    lately = Lately()
    for number in range(20):
        lately.hear("group", "ann", number, f"{number} " + "x" * 5000)
    lines = lately.hear("group", "ann", 21, "now")
    assert len(lines) == KEPT
    assert lines[-1].text.startswith("19 ")
    assert all(len(line.text) < 1000 for line in lines)


def test_the_talk_that_was_quiet_longest_is_forgotten_first():
    lately = Lately()
    for number in range(600):
        lately.hear(f"group {number}", "ann", number, "hello")
        lately.hear("busy", "ann", number, "hello")
    assert lately.hear("group 0", "ann", 700, "hello") == ()
    assert len(lately.hear("group 599", "ann", 700, "hello")) == 1
    assert len(lately.hear("busy", "ann", 700, "hello")) == KEPT
