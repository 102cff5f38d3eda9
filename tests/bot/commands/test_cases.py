"""Tests of `bedstamp cases`: everything that experts do, in the terminal alone."""

from __future__ import annotations

import io
import json
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bot.__main__ import main
from bot.cases import Asker, Picture
from bot.conversation import Incoming, reply
from bot.expert_desk import Desk, desk_for
from bot.expert_desk.tables import DESK
from bot.journal import open_journal
from bot.state import State
from knowledge.base import Knowledge
from knowledge.store import open_store

KNOWN = "Model 9, about 1911, by the shuttle; see ledger p. 40"


@pytest.fixture
def store(tmp_path: Path, pack, knowledge) -> Path:
    """Case 1: Z4711, two people; case 2: Z4720; case 3: a picture; case 4: words that would move a cursor."""
    path = tmp_path / "group.sqlite"
    began = datetime.now(UTC) - timedelta(days=3)
    with open_journal(path, create=True) as journal:
        journal.store().save_pack(pack)
        for place, (person, text) in enumerate(
            [
                ("ann", "How old is number Z 4711? It has a long shuttle and was my grandmother's, I am told"),
                ("ben", "Z4711, what year?"),
                ("cat", "Z 4720, how old?"),
                ("dan", ""),
                ("eli", "How old is my \x1b[2J treadle machine?\nSecond line"),
            ]
        ):
            ask(journal, knowledge, person, text, began + timedelta(minutes=place))
    return path


def ask(journal, knowledge: Knowledge, person: str, text: str, at: datetime) -> None:
    pictures = () if text else (Picture("chat", "file-4", "image/png", b"png"), Picture("chat", "file-5"))
    state, said = reply(Incoming(text, not text), State(), knowledge)
    answer = next((one.answer for one in said if one.answer is not None), None)
    asker = Asker("chat", f"chat:{person}", "{}")
    opening = desk_for(answer, state, asker, knowledge, text=text, pictures=pictures)
    assert opening is not None, text
    Desk(journal).open(opening, knowledge, at)


@pytest.fixture
def call(capsysbinary, monkeypatch, store):
    """Runs `bedstamp cases`; `typed` is what the expert types when asked."""
    monkeypatch.setenv("COLUMNS", "60")

    def called(name: str, *arguments: str, typed: str = "") -> tuple[int, str, str]:
        monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(typed.encode())))
        code = main(["cases", name, *arguments, "--db", str(store)])
        out, err = (stream.decode() for stream in capsysbinary.readouterr())
        assert "Traceback" not in err
        return code, out, err

    return called


def findings(store: Path):
    with open_journal(store) as journal:
        return journal.store().findings()


def errands(store: Path) -> list[str]:
    with open_journal(store) as journal:
        return [kind for (kind,) in Desk(journal)._all("SELECT kind FROM desk_errands WHERE kind = 'tell'")]


# --- seeing


def test_the_list_shows_what_waits_those_for_whom_most_people_wait_first(call) -> None:
    code, out, _ = call("list")
    assert code == 0
    assert out.startswith("4 open.")
    places = [out.index(shown) for shown in ("Z4711, open", "Z4720, open", "a machine without a number, open")]
    assert places == sorted(places)
    assert "2 people wait" in out
    assert "lies outside" in out


@pytest.mark.parametrize("width", [60, 100])
@pytest.mark.parametrize("arguments", [("list",), ("show", "1"), ("show", "4"), ("settle", "1", KNOWN)])
def test_no_line_is_wider_than_the_screen_and_nothing_in_it_moves_the_cursor(
    call, monkeypatch, arguments, width
) -> None:
    monkeypatch.setenv("COLUMNS", str(width))
    _, out, _ = call(*arguments)
    assert max(map(len, out.splitlines())) <= width
    assert "\x1b" not in out


def test_a_long_list_is_cut_and_says_how_to_see_the_rest(call) -> None:
    _, out, _ = call("list", "--most", "1")
    assert "Z4720" not in out
    assert "And 3 more: --from 2 shows the next ones." in out
    _, out, _ = call("list", "--most", "1", "--from", "2")
    assert "Z4720" in out
    _, out, _ = call("list", "--from", "9")
    assert "There are 4 of these" in out


def test_other_states_are_listed_when_they_are_asked_for(call) -> None:
    call("settle", "1", KNOWN, "--yes")
    assert "Z4711" not in call("list")[1]
    assert "Z4711, settled" in call("list", "--state", "settled")[1]


def test_an_empty_desk_says_so(call) -> None:
    for case in "1234":
        call("close", case)
    assert call("list")[1] == "Nothing waits for the experts: 4 closed without an answer.\n"


def test_a_case_is_shown_with_what_was_asked_read_why_it_is_hard_cases_like_it_and_its_history(call) -> None:
    code, out, _ = call("show", "1")
    assert code == 0
    for shown in ("  | How old is number Z 4711?", "4 digits", "Why it is hard", "case 2: Z4720", "opened", "settle 1"):
        assert shown in out
    assert call("show", "case 1")[1] == call("show", "case-1")[1] == out


def test_json_holds_everything_and_names_nobody(call) -> None:
    _, out, _ = call("list", "--json")
    found = [json.loads(line) for line in out.splitlines()]
    assert [one["id"] for one in found] == [1, 2, 3, 4]
    assert (found[0]["serials"], found[0]["waiting"], found[0]["state"]) == (["Z4711"], 2, "open")
    _, out, _ = call("show", "1", "--json")
    shown = json.loads(out)
    assert shown["similar"] == [2]
    assert shown["history"][0]["what"] == "opened"
    assert "ann" not in out.replace("grandmother", "")


def test_pictures_are_saved_where_they_are_kept_and_no_file_is_replaced(call, tmp_path) -> None:
    _, out, _ = call("show", "3", "--pictures", str(tmp_path / "shots"))
    assert (tmp_path / "shots" / "case3-1.png").read_bytes() == b"png"
    assert "kept by the channel" in out
    assert "left as it is" not in call("show", "3", "--pictures", str(tmp_path / "others"))[1]
    (tmp_path / "shots" / "case3-1.png").write_bytes(b"mine")
    call("show", "3", "--pictures", str(tmp_path / "shots"))
    assert (tmp_path / "shots" / "case3-1.png").read_bytes() == b"mine"


# --- doing


def test_to_settle_one_sees_what_was_understood_and_says_yes(call, store) -> None:
    code, out, _ = call("settle", "1", KNOWN, typed="y\n")
    assert code == 0
    for shown in ("Z4711", "Model 9", "about 1911", "by the shuttle; see ledger p. 40", "Store this?", "Stored"):
        assert shown in out
    (finding,) = findings(store)
    assert (finding.serial, finding.model, finding.date) == ("Z4711", "t9", "1911~")
    assert errands(store) == ["tell", "tell"]


@pytest.mark.parametrize("typed", ["n\n", "\n", "", "perhaps\n"])
def test_without_a_yes_nothing_is_stored(call, store, typed) -> None:
    code, out, _ = call("settle", "1", KNOWN, typed=typed)
    assert code == 1
    assert "Nothing was stored." in out
    assert findings(store) == ()


def test_with_yes_nothing_is_asked(call, store) -> None:
    assert call("settle", "1", KNOWN, "--yes")[0] == 0
    assert len(findings(store)) == 1


def test_words_can_be_piped_in(call, store) -> None:
    assert call("settle", "1", "--yes", typed=KNOWN)[0] == 0
    assert len(findings(store)) == 1


def test_words_that_say_nothing_are_not_stored_and_it_is_said_what_to_write(call, store) -> None:
    code, out, _ = call("settle", "1", "Good morning", "--yes")
    assert code == 1
    assert "I found nothing in that" in out
    assert findings(store) == ()


def test_a_settled_case_shows_the_evidence_and_who_settled_it(call) -> None:
    call("settle", "1", KNOWN, "--yes")
    shown = " ".join(call("show", "1")[1].split())
    assert "How it was settled • Z4711: Evidence: by the shuttle; see ledger p. 40 (a ledger or list)." in shown
    assert "Settled by expert 1," in shown
    (settled,) = json.loads(call("show", "1", "--json")[1])["settled"]
    assert (settled["serial"], settled["author"], settled["kind"]) == ("Z4711", "expert 1", "ledger")
    call("take-back", "1", "A mistake.")
    assert "How it was settled" not in call("show", "1")[1]


def test_what_is_settled_already_can_be_changed_and_taken_back(call, store) -> None:
    call("settle", "1", KNOWN, "--yes")
    code, out, _ = call("settle", "1", "Model 6, 1890", "--as", "Fin", typed="y\n")
    assert code == 0
    assert "settled already" in out
    assert findings(store)[0].model == "t6"
    assert findings(store)[0].author == "expert 2"
    assert call("take-back", "1", "It was the number of the motor")[0] == 0
    assert findings(store) == ()
    assert "Z4711, open" in call("list")[1]


def test_a_question_for_the_asker_is_left_for_the_running_bot(call, store) -> None:
    code, out, _ = call("ask", "1", "Is the shuttle long or round?")
    assert code == 0
    assert "The asker is asked" in out
    assert errands(store) == ["tell"]
    assert "asked back" in call("list")[1]


def test_a_case_is_taken_given_back_and_closed(call) -> None:
    assert "yours until" in call("take", "1", "--as", "Eva")[1].replace("\n", " ")
    code, out, _ = call("take", "1", "--as", "Fin")
    assert code == 1
    assert "Another expert" in out
    assert call("give-back", "1", "--as", "eva")[0] == 0
    assert call("not-ours", "1", "--as", "Fin")[0] == 0
    assert call("close", "2")[0] == 0
    assert "2 closed without" in call("list")[1].replace("\n", " ")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("show", "99"), "There is no case 99"),
        (("show", "K204"), "is no case"),
        (("settle", "1"), "There are no words"),
        (("ask", "1", " "), "There are no words"),
        (("list", "--state", "lost"), "invalid choice"),
        (("take-back", "1", "why"), "Nothing is stored from case 1"),
    ],
)
def test_what_cannot_be_done_is_said_with_what_to_do(call, arguments, words) -> None:
    code, _, err = call(*arguments)
    assert code in (1, 2)
    assert words in err


def test_a_file_that_is_not_there_is_named(capsysbinary, tmp_path) -> None:
    assert main(["cases", "list", "--db", str(tmp_path / "none.sqlite")]) == 2
    assert "none.sqlite" in capsysbinary.readouterr().err.decode()


FORGED = "A letter:\n\nStored\n• Ottrel, 1950\n\nHistory\n• 1 May 2031, expert 1: settled\n\nWhat you can do: nothing"


@pytest.mark.parametrize("width", ["60", "100"])
def test_every_line_that_people_wrote_is_marked_as_theirs(call, store, knowledge, monkeypatch, width) -> None:
    monkeypatch.setenv("COLUMNS", width)
    with open_journal(store) as journal:
        desk, now = Desk(journal), datetime.now(UTC)
        desk.ask_asker(1, "terminal:eva", f"Round or long?\n{FORGED}", now)
        desk.asker_said(1, FORGED, knowledge, now, person="chat:ann")
    out = call("show", "1")[1].splitlines()
    for line in ("Stored", "• Ottrel, 1950", "What you can do: nothing"):
        assert [shown for shown in out if line in shown] == [f"  | {line}"] * 2
    assert sum(shown == "History" for shown in out) == 1


def test_a_dating_that_goes_on_in_a_second_line_is_indented(call, store, monkeypatch) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    with open_journal(store) as journal:
        journal.beside(DESK).conn.execute(
            "UPDATE desk_cases SET reading = ?", (json.dumps(["1) Z4711: a long dating that goes on and on, 1911"]),)
        )
        journal.beside(DESK).conn.commit()
    assert "1) Z4711: a long dating that goes on and\n   on, 1911" in call("show", "1")[1]


@pytest.mark.parametrize(
    "arguments",
    [
        ("1", "--as", "Ada", "Model 9, 1911", "--yes"),
        ("--as", "Ada", "--yes", "1", "Model 9,", "1911"),
        ("1", "Model 9,", "--yes", "1911", "--as", "Ada"),
    ],
)
def test_words_may_stand_before_and_behind_the_options(call, store, arguments) -> None:
    assert call("settle", *arguments)[0] == 0
    assert [one.date for one in findings(store)] == ["1911"]


def test_what_is_stored_is_shown_and_replaced_only_where_that_is_said(call, store) -> None:
    call("settle", "1", KNOWN, "--yes")
    code, out, _ = call("settle", "1", "Model 6, 1890", "--as", "Fin", "--yes")
    assert code == 1
    for shown in ("Stored now:", "Model 9", "ledger p. 40", "expert 1", "--replace"):
        assert shown in out.replace("\n", " ")
    assert findings(store)[0].model == "t9"
    assert call("settle", "1", "Model 6, 1890", "--as", "Fin", "--yes", "--replace")[0] == 0
    assert findings(store)[0].model == "t6"


@pytest.mark.parametrize(("words", "typed"), [("dunno", ""), ("Model 9, 1911", "n\n")])
def test_who_does_not_settle_a_case_in_the_end_has_not_taken_it(call, words, typed) -> None:
    call("settle", "1", words, typed=typed)
    assert "Z4711, open" in call("list")[1]


def test_the_reason_why_something_was_taken_back_stands_in_the_history(call) -> None:
    call("settle", "1", KNOWN, "--yes")
    out = call("take-back", "1", "It was the number of the motor")[1].replace("\n", " ")
    assert "All 2 who waited for it are told." in out
    assert "Who asked later and was answered from it is not told" in out
    assert "taken back (It was the number of the motor)" in call("show", "1")[1].replace("\n  ", " ")


def test_what_is_finished_is_listed_with_what_was_found_and_who_asked(call) -> None:
    call("settle", "1", KNOWN, "--yes")
    out = call("list", "--state", "settled")[1]
    assert "2 people asked" in out
    assert "Found: Tollgate & Sons Model 9, about 1911" in out
    assert "wait" not in out.split("\n", 1)[1]
    assert "lies outside" not in out


def test_in_a_case_of_several_numbers_it_is_said_of_which_something_is_stored(call, store, knowledge) -> None:
    with open_journal(store) as journal:
        ask(journal, knowledge, "fay", "QX 8150 and QX 9999, how old?", datetime.now(UTC))
    call("settle", "5", "QX8150 is a Model 9", "--yes")
    assert "• QX8150: Tollgate & Sons Model 9" in call("show", "5")[1]


def test_a_contradiction_says_what_to_do_and_offers_to_ask_nobody(call, store) -> None:
    call("settle", "2", "Z 4720 is really stamped K204117, Model 9, made in 1960", "--yes")
    out = call("show", "5")[1]
    assert "take-back 5" in out
    assert "ask 5" not in out
    assert "not-for-us" not in out
    assert "propose a change" in out.replace("\n  ", " ")


def test_nothing_is_written_into_a_knowledge_base_that_is_only_looked_at(capsysbinary, tmp_path, pack) -> None:
    path = tmp_path / "plain.sqlite"
    with open_store(path, create=True) as store:
        store.save_pack(pack)
    before = path.read_bytes()
    assert main(["cases", "list", "--db", str(path)]) == 0
    assert capsysbinary.readouterr().out == b"Nothing waits for the experts.\n"
    assert main(["cases", "show", "1", "--db", str(path)]) == 1
    assert b"There is no case 1" in capsysbinary.readouterr().err
    assert path.read_bytes() == before


def test_a_file_that_may_only_be_read_is_listed_and_shown_and_nothing_else(call, monkeypatch) -> None:
    monkeypatch.setattr("knowledge.database._may_write", lambda _: False)
    assert call("list")[0] == call("show", "1")[0] == 0
    code, _, err = call("take", "1")
    assert code != 0
    assert "cannot be written to" in err


def test_looking_opens_the_file_for_reading_alone(call, store, monkeypatch) -> None:
    monkeypatch.setattr("bot.journal.open_journal", lambda *_, **__: pytest.fail("opened to be written to"))
    assert call("list")[0] == call("show", "1")[0] == 0


def test_a_question_heard_by_telephone_is_put_to_the_experts_and_passed_on_by_them(call, store) -> None:
    code, out, _ = call("add", "--asker", "Mrs Fen", "QX 8150, how old is it?")
    assert code == 0
    assert "case 5" in out
    shown = call("show", "5")[1]
    assert "  | QX 8150, how old is it?" in shown
    assert "Asked in person" in shown
    assert "Mrs Fen" in shown
    assert "Mrs" not in call("list", "--json")[1]
    out = call("settle", "5", "Model 9, 1911", "--yes")[1].replace("\n", " ")
    assert "One asked in person: please pass it on." in out
    assert "Nobody waits" not in out
    assert errands(store) == []


def test_a_heard_question_joins_the_case_of_the_same_and_more_can_be_added_to_it(call) -> None:
    assert "belongs to case 1" in call("add", "Z4711, my aunt asks how old it is")[1]
    assert call("add", "QX 8150, how old is it?")[0] == 0
    assert call("add", "--case", "5", "The shuttle is long")[0] == 0
    assert "The asker:\n  | The shuttle is long" in call("show", "5")[1]
    assert call("add", "--case", "5", "The shuttle is long")[0] == 1
    assert "There is no case 99" in call("add", "--case", "99", "x")[2]


def test_a_heard_question_is_a_case_even_where_the_lists_have_an_answer(call) -> None:
    assert "It is case 5" in call("add", "My Ambersee has number 41000, how old is it?")[1]


def test_who_asked_in_person_is_asked_back_and_told_of_the_end_by_an_expert(call, store) -> None:
    call("add", "QX 8150, how old is it?")
    assert "ask them yourself" in call("ask", "5", "Is the shuttle long?")[1].replace("\n", " ")
    assert "please pass it on" in call("close", "5")[1].replace("\n", " ")
    assert errands(store) == []


def test_a_year_that_is_still_to_come_is_left_out_and_that_is_said(call) -> None:
    out = call("settle", "1", "Model 9, 2999", typed="n\n")[1].replace("\n", " ")
    assert "2999 is still to come" in out
    assert "2999 is still to come" in call("settle", "1", "made in 2999")[1].replace("\n", " ")


def test_two_machines_in_one_answer_are_not_called_nothing(call, store) -> None:
    out = call("settle", "1", "Model 9 1905 for the first and Model 6 1931 for the second", "--yes")[1]
    assert "one machine at a time" in out.replace("\n", " ")
    assert "I found nothing" not in out
    assert findings(store) == ()


@pytest.fixture
def settings(store, tmp_path) -> Path:
    path: Path = tmp_path / "settings.toml"
    path.write_text(f'[group]\nname = "The Hallow circle"\n\n[store]\npath = "{store}"\n')
    return path


@pytest.mark.parametrize("command", [["ask", "QX 8150, how old is it?"], ["chat"]])
def test_a_lone_question_in_a_groups_file_says_how_it_is_put_to_its_experts(
    capsysbinary, monkeypatch, store, settings, command
) -> None:
    monkeypatch.setenv("COLUMNS", "500")
    for where in (["--db", str(store)], ["--config", str(settings)]):
        monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(b"QX 8150, how old is it?\n")))
        assert main([*command, *where]) == 0
        out = capsysbinary.readouterr().out.decode()
        assert f'bedstamp cases add "your question", with the same {where[0]}.' in out
        assert "collectors' group" not in out


def test_searching_and_asking_take_the_settings_of_the_bot_but_not_beside_a_file(capsysbinary, store, settings) -> None:
    assert main(["search", "shuttle", "--config", str(settings)]) == 0
    assert b"Model" in capsysbinary.readouterr().out
    assert main(["ask", "K204117", "--config", str(settings), "--db", str(store)]) == 2
    assert b"leave out --db" in capsysbinary.readouterr().err


def test_what_is_not_understood_names_the_help_of_its_own_command(capsysbinary) -> None:
    assert main(["cases", "settle", "2", "--frob", "--db", "x.sqlite"]) == 2
    assert b"--frob" in (told := capsysbinary.readouterr().err)
    assert b"bedstamp cases settle --help" in told
