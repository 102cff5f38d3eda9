"""How well experts' answers are understood.

python -m tests.corpus_experts.measure [-v] [FILE ...]      counts, with -v every answer not understood completely

Every line of the .jsonl files is one answer and what an attentive person reads in it: `kind` (settles when left out)
and whatever was said; a list allows each of its values. `question` is the question it answers, `about` the dating it
agrees with: its place, or number.
"""

from __future__ import annotations

import json
import re
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from bot.wiring import open_library
from knowledge.answer import answer
from knowledge.base import Knowledge
from knowledge.expert_answers import SETTLES, About, Understood, understand
from tests.corpus_experts import small_pack

FOLDER = Path(__file__).parent
FACTS = ("serial", "maker", "model", "works", "date")
COMPLETELY, PARTLY, WRONGLY = VERDICTS = ("completely", "partly", "wrongly")
_PLACES = {"first": 0, "second": 1, "third": 2}


@dataclass(frozen=True)
class Verdict:
    """`wrong` are the fields read otherwise than meant, `missing` those not read."""

    text: str
    understood: Understood
    wrong: tuple[str, ...]
    missing: tuple[str, ...]

    @property
    def name(self) -> str:
        return WRONGLY if self.wrong else PARTLY if self.missing else COMPLETELY


@cache
def knowledge(pack: str) -> Knowledge:
    return small_pack.knowledge() if pack == "small" else open_library().current()


def lines(path: Path) -> Iterator[dict[str, Any]]:
    for line in path.read_text("utf-8").splitlines():
        if line.strip():
            yield json.loads(line)


def verdicts(rows: Sequence[dict[str, Any]] | Iterator[dict[str, Any]]) -> list[Verdict]:
    return [_verdict(row) for row in rows]


def _verdict(row: dict[str, Any]) -> Verdict:
    known = knowledge(row.get("pack", "demo"))
    asked = About.of(answer(row["question"], known)) if "question" in row else None
    understood = understand(row["text"], known, asked)
    meant = _meant(row, asked, understood.kind)
    wrong: list[str] = []
    missing: list[str] = []
    for name, value in meant.items():
        said = getattr(understood, name)
        if not _fits(name, said, value):
            (wrong if said and not (name == "kind" and _is_careful(understood)) else missing).append(name)
    return Verdict(row["text"], understood, tuple(wrong), tuple(missing))


def _meant(row: dict[str, Any], asked: About | None, understood: str) -> dict[str, Any]:
    """Return what the label says of each field; of the kind alone where it may be one that settles nothing."""
    kind = row.get("kind", SETTLES)
    if isinstance(kind, list) and understood != SETTLES:
        return {"kind": kind}
    meant = {"kind": kind, **{name: row.get(name, "") for name in FACTS}}
    if kind == SETTLES or isinstance(kind, list):
        meant["evidence"] = row.get("evidence", "")
        if "evidence_kind" in row:
            meant["evidence_kind"] = row["evidence_kind"]
    if asked is not None and "about" in row:
        agreed = _agreed(row["about"], asked)
        meant |= {name: getattr(agreed, name) for name in ("serial", "maker", "model", "works", "date")}
    return meant


def _fits(name: str, said: str, meant: Any) -> bool:
    """Tell whether something was read as it is meant: as the label says, or as one of several that it allows."""
    if isinstance(meant, list):
        return any(_fits(name, said, one) for one in meant)
    if isinstance(meant, dict):
        return _holds(said.casefold().replace("’", "'"), meant)
    return meant == "any" or said == meant or (name == "evidence" and _alike(said, meant))


def _holds(said: str, meant: dict[str, list[str]]) -> bool:
    """Tell whether evidence holds all words of `has`, one of `any_of` and none of `not`."""
    has, any_of, none = ([one.casefold() for one in meant.get(key, [])] for key in ("has", "any_of", "not"))
    one_of = not any_of or any(one in said for one in any_of)
    return bool(said) and all(one in said for one in has) and one_of and not any(one in said for one in none)


def _agreed(about: str, asked: About) -> Any:
    if about in _PLACES:
        return asked.candidates[_PLACES[about]]
    return next(one for one in asked.candidates if one.serial == about)


def _is_careful(understood: Understood) -> bool:
    """Tell whether nothing was taken for a fact, and the expert is shown what was not clear."""
    return not understood.tells and bool(understood.unclear)


def _alike(said: str, meant: str) -> bool:
    """Tell whether two pieces of evidence differ in no more than a small word or signs at the ends."""
    one, other = set(re.findall(r"\w+", said.casefold())), set(re.findall(r"\w+", meant.casefold()))
    return bool(one and other) and len(one ^ other) <= max(1, len(one | other) // 4)


def main(arguments: Sequence[str]) -> int:
    files = [Path(one) for one in arguments if one != "-v"] or sorted(FOLDER.glob("*.jsonl"))
    for path in files:
        found = verdicts(lines(path))
        if "-v" in arguments:
            for one in found:
                if one.name != COMPLETELY:
                    print(f"{one.name:9} wrong {','.join(one.wrong)} missing {','.join(one.missing)}: {one.text!r}")
                    print(f"          {_short(one.understood)}")
        count = Counter(one.name for one in found)
        print(f"{path.name:20} of {len(found)} answers: " + ", ".join(f"{count[name]} {name}" for name in VERDICTS))
    return 0


def _short(understood: Understood) -> str:
    names = ("kind", *FACTS, "evidence", "evidence_kind", "unclear")
    return ", ".join(f"{name}={value!r}" for name in names if (value := getattr(understood, name)))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
