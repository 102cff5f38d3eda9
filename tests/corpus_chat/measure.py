"""How the decision when to speak does on group talk and on real questions.

python -m tests.corpus_chat.measure        prints the counts; with -v also every wrong decision

Each line of the text files is one message, as it would be the first one of its writer. `@re ` in front: it answers
another member; `@pic `: a picture comes with it; `@fw `: it is forwarded. All numbers and people are invented.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from bot.when_to_speak import Scene, Verdict, judge
from bot.wiring import open_library
from knowledge.base import Knowledge

FOLDER = Path(__file__).parent
MODES = ("addressed", "questions", "any-serial")
ROUNDS = range(1, 12)
"""Talk and questions as they come."""
CLOSE = range(1, 3)
"""Talk in which every line has a serial number and is a word or two away from a question."""
_MARKS = ("@re", "@pic", "@fw")


@dataclass(frozen=True)
class Line:
    file: str
    text: str
    marks: frozenset[str]

    def scene(self, knowledge: Knowledge, speak: str, addressed: bool = False) -> Scene:
        return Scene(
            self.text, knowledge, speak, addressed=addressed, to_member="@re" in self.marks,
            picture="@pic" in self.marks, forwarded="@fw" in self.marks,
        )  # fmt: skip

    def __str__(self) -> str:
        return " ".join([*sorted(self.marks), self.text])


def talk(pattern: str = "talk_*.txt") -> list[Line]:
    """Lines of ordinary talk: none of them wants an answer of the bot."""
    return [line for path in sorted(FOLDER.glob(pattern)) for line in _lines(path)]


def questions(pattern: str = "questions.txt") -> list[Line]:
    """Real questions: each wants an answer."""
    return [line for path in sorted(FOLDER.glob(pattern)) for line in _lines(path)]


def verdicts(
    lines: list[Line], knowledge: Knowledge, speak: str, addressed: bool = False
) -> list[tuple[Line, Verdict]]:
    return [(line, judge(line.scene(knowledge, speak, addressed))) for line in lines]


def unwanted(lines: list[Line], knowledge: Knowledge, speak: str) -> list[Line]:
    """The lines of talk that would be answered."""
    return [line for line, verdict in verdicts(lines, knowledge, speak) if verdict.speak]


def missed(lines: list[Line], knowledge: Knowledge, speak: str, addressed: bool = False) -> list[Line]:
    """The questions that would stay unanswered."""
    return [line for line, verdict in verdicts(lines, knowledge, speak, addressed) if not verdict.speak]


def without_numbers(lines: list[Line], knowledge: Knowledge) -> list[Line]:
    """The lines in which nothing is taken for a serial number; where any is answered, these are to stay silent."""
    return [line for line in lines if not line.scene(knowledge, "questions").tokens]


def _lines(path: Path) -> Iterator[Line]:
    for line in path.read_text("utf-8").splitlines():
        marks = set()
        words = line
        while (first := words.partition(" ")[0]) in _MARKS:
            marks.add(first)
            words = words.partition(" ")[2]
        if line:
            yield Line(path.stem, words, frozenset(marks))


def sets() -> Iterator[tuple[str, list[Line], list[Line]]]:
    """Yield name, talk and questions of every set, in the order they were written."""
    yield "first", talk(), questions()
    yield "second", talk("second_talk.txt"), questions("second_questions.txt")
    for name in (*(f"round_{number}" for number in ROUNDS), *(f"close_{number}" for number in CLOSE)):
        yield name, talk(f"{name}_talk.txt"), questions(f"{name}_questions.txt")


def main() -> int:
    knowledge = open_library().current()
    for name, said, asked in sets():
        for speak in MODES:
            quiet = without_numbers(said, knowledge) if speak == "any-serial" else said
            wrong, lost = unwanted(quiet, knowledge, speak), missed(asked, knowledge, speak, speak == "addressed")
            if "-v" in sys.argv:
                for what, lines in (("unwanted", wrong), ("missed", lost)):
                    print("".join(f"  {what} ({speak}): {line}\n" for line in lines), end="")
            print(f"{name:8} {speak:11} unwanted {len(wrong):3} of {len(quiet):5}   "
                  f"answered {len(asked) - len(lost):3} of {len(asked)}")  # fmt: skip
    return 0


if __name__ == "__main__":
    sys.exit(main())
