"""`bedstamp search`, as it is called."""

import json

from bot.__main__ import main

DEMO_MODEL = "Model 9H"


def call(capsys, *arguments: str) -> tuple[int, str, str]:
    code = main(["search", *arguments])
    out, err = capsys.readouterr()
    return code, out, err


def test_plain_words_find_the_model_they_describe(capsys):
    code, out, _ = call(capsys, "three-quarter size with a vibrating shuttle")
    assert code == 0
    assert out.splitlines()[0].startswith(f"{DEMO_MODEL}. ")


def test_the_words_may_be_several_arguments_and_misspelt(capsys):
    code, out, _ = call(capsys, "three-quater", "vibratng", "shutle")
    assert code == 0
    assert "vibratng for vibrating" in out
    assert f"{DEMO_MODEL}. " in out


def test_nothing_found_is_said_and_told_by_the_exit_code(capsys):
    code, out, _ = call(capsys, "qqqqq")
    assert code == 1
    assert "'qqqqq'" in out


def test_json_tells_the_hits_and_how_the_words_were_read(capsys):
    code, out, _ = call(capsys, "--json", "shutle", "qqqqq", "transverse")
    told = json.loads(out)
    assert code == 0
    assert {hit["kind"] for hit in told["hits"]} == {"model"}
    assert told["taken"] == [{"typed": "shutle", "taken_for": "shuttle"}]
    assert told["nowhere"] == ["qqqqq"]


def test_no_words_are_refused_with_an_example(capsys):
    code, _, err = call(capsys, " ")
    assert code == 2
    assert "bedstamp search" in err


def test_a_pack_is_searched_alone(capsys, pack_folder):
    code, out, _ = call(capsys, "--pack", str(pack_folder), "Tollgate")
    assert code == 0
    assert "Tollgate & Sons" in out
    assert call(capsys, "--pack", str(pack_folder), "Hallowmere")[0] == 1
