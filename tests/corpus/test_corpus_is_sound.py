"""The labels say of themselves what can be checked without reading: spans, reasons, counts, languages."""

import json
import re
import unicodedata
from collections import Counter
from itertools import pairwise
from pathlib import Path
from typing import Any

from tests.corpus.score import FOLDER, read

FILES = sorted(FOLDER.glob("*.jsonl"))
ROWS: list[tuple[str, dict[str, Any]]] = [
    (f"{file.name}:{number}", json.loads(line))
    for file in FILES
    for number, line in enumerate(file.read_text("utf-8").splitlines(), 1)
]
LANGUAGES = ["en", "de", "fr", "es", "it", "nl", "pl", "ru", "sv"]
REASONS = {
    *("telephone", "price", "date", "year", "time", "measure", "model-name", "part-number", "patent"),
    *(
        "postcode",
        "web-address",
        "mail-address",
        "count",
        "order-number",
        "quoted",
        "taken-back",
        "reference",
    ),
}
NEEDED = {"text", "language", "tokens", "passed_over", "why_hard"}
ALLOWED = NEEDED | {"models", "makers", "prefixes", "ambiguous"}
TOKEN_NEEDED = {"text", "start", "end", "prefix", "digits", "suffix"}
TOKEN_ALLOWED = TOKEN_NEEDED | {"also", "compare"}
# As DESIGN says: after the first digit a look-alike letter is a digit.
LOOK_ALIKES = str.maketrans("OОΟQDILZSGB", "00000112568")
SPOKEN = re.compile(r"[^\W\d_]{3,}")


def test_a_line_has_the_fields_of_the_format_and_no_others() -> None:
    for place, row in ROWS:
        assert NEEDED <= row.keys() <= ALLOWED, place
        assert row["text"].strip(), place
        assert row["why_hard"].strip(), place
        assert all(re.fullmatch("[a-z]{2}", code) for code in row["language"].split("+")), place


def test_a_token_stands_where_its_span_says() -> None:
    for place, row in ROWS:
        for token in row["tokens"]:
            assert TOKEN_NEEDED <= token.keys() <= TOKEN_ALLOWED, place
            assert row["text"][token["start"] : token["end"]] == token["text"], place
        spans = sorted((token["start"], token["end"]) for token in row["tokens"])
        assert all(end <= start for (_, end), (start, _) in pairwise(spans)), place


def test_a_token_is_clean_and_labelled_once() -> None:
    for place, row in ROWS:
        names = [(token["prefix"], token["digits"], token["suffix"]) for token in row["tokens"]]
        assert len(set(names)) == len(names), place
        for token, (prefix, digits, suffix) in zip(row["tokens"], names, strict=True):
            assert re.fullmatch("[A-Z]*", prefix + suffix), place
            assert re.fullmatch("[0-9][0-9A-Z]*" if "compare" in token else "[0-9?]+", digits), place
            assert token.get("compare", "joined") == "joined", place


def test_the_digits_of_the_label_are_the_digits_typed() -> None:
    for place, row in ROWS:
        for token in row["tokens"]:
            for typed in [token["text"], *(row["text"][a:b] for a, b in token.get("also", ()))]:
                if not SPOKEN.search(typed.replace("&nbsp;", "")):
                    figures = re.sub(r"\D", "", typed) if "compare" in token else _digits(typed, token["suffix"])
                    assert figures == re.sub("[A-Z]", "", token["digits"]), place


def _digits(typed: str, suffix: str) -> str:
    """The digits of a token typed in figures: look-alikes after the first digit, `?` for the unreadable."""
    letters = typed.replace("&nbsp;", "").upper()
    figures = "".join(str(unicodedata.decimal(one, one)) for one in letters)
    first = re.search(r"[\d?_*#]", figures)
    assert first
    body = figures[first.start() :]
    if suffix:
        body = re.sub(r"[^\W\d_]+\W*$", "", body)
    return re.sub("[_*#]", "?", re.sub(r"[^\d?_*#]", "", body.translate(LOOK_ALIKES)))


def test_a_piece_passed_over_is_in_the_text_and_has_a_reason_of_the_list() -> None:
    for place, row in ROWS:
        for piece in row["passed_over"]:
            assert set(piece) == {"text", "because"}, place
            assert piece["text"] in row["text"], place
            assert re.search(r"\d", piece["text"]), place
            assert piece["because"] in REASONS, place
            assert piece["text"] not in {token["text"] for token in row["tokens"]}, place


def test_the_corpus_is_large_and_at_least_half_of_it_holds_no_serial_number() -> None:
    messages = [message for message in read() if not message.ambiguous]
    without = sum(not message.tokens for message in messages)
    assert len(messages) >= 450
    assert without >= len(messages) / 2


def test_no_message_is_there_twice() -> None:
    texts = Counter(" ".join(message.text.casefold().split()) for message in read())
    assert [text for text, times in texts.items() if times > 1] == []


def test_every_language_of_the_group_has_messages_with_and_without_a_serial_number() -> None:
    for language in LANGUAGES:
        own = [m for m in read() if language in m.language.split("+")]
        assert sum(bool(m.tokens) for m in own) >= 4, language
        assert sum(not m.tokens for m in own) >= 4, language


def test_every_reason_is_labelled_more_than_once() -> None:
    counts = Counter(because for message in read() for _, because in message.passed_over)
    assert {reason for reason in REASONS if counts[reason] < 2} == set()


def test_the_shared_knowledge_has_the_shapes_the_readme_promises() -> None:
    shapes = read(FILES[0])[0].shapes
    assert {("K", 6, ""), ("K", 7, ""), ("VI", 6, ""), ("", 1, ""), ("", 7, ""), ("", 6, "K")} <= shapes
    assert ("Z", 6, "") not in shapes


def test_a_file_named_by_hand_is_read_alone(tmp_path: Path) -> None:
    line = {
        "text": "T-9 with serial 31",
        "language": "en",
        "tokens": [{"text": "31", "start": 16, "end": 18, "prefix": "", "digits": "31", "suffix": ""}],
        "passed_over": [],
        "why_hard": "short",
        "models": ["T-9"],
        "prefixes": [["", 2, ""]],
    }
    file = tmp_path / "own.jsonl"
    file.write_text(json.dumps(line) + "\n", "utf-8")
    [message] = read(file)
    assert (message.place, message.shapes) == ("own.jsonl:1", frozenset({("", 2, "")}))
    assert "T-9" in message.models
    assert "Veldmark" in message.makers
