"""What the importer asks, and the answers it is given."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from knowledge.errors import UsageError
from knowledge.names import fold


@dataclass(frozen=True, slots=True)
class Question:
    """One thing that only a person can say.

    `key` stays the same whatever is answered; `number` counts from 1 in the order in which questions come up. `row`
    (as a spreadsheet shows it) is the first it concerns, None when it concerns the whole. `free`: any text may be
    answered, the choices are proposals. `answer` is '' while the question is open.
    """

    key: str
    row: int | None
    column: str
    text: str
    choices: tuple[str, ...]
    free: bool = False
    answer: str = ""
    number: int = 0


@dataclass(slots=True)
class Interview:
    """Collects questions, and looks up their answers by key."""

    answers: Mapping[str, str]
    questions: list[Question] = field(default_factory=list)

    def ask(
        self,
        key: str,
        text: str,
        choices: tuple[str, ...],
        *,
        row: int | None = None,
        column: str = "",
        free: bool = False,
    ) -> str:
        """Note the question and return its answer, '' when there is none yet. Raises UsageError for a wrong one."""
        question = Question(key, row, column, text, choices, free)
        given = self.answers.get(key, "").strip()
        self.questions.append(replace(question, answer=_chosen(given, question) if given else ""))
        return self.questions[-1].answer

    def reject(self, why: str) -> UsageError:
        """Return the error for the last question, whose free answer cannot be used."""
        question = self.questions[-1]
        return UsageError(f"'{question.answer}' will not do: {why} {question.text}")


def _chosen(given: str, question: Question) -> str:
    """Return the choice that an answer means: the whole of it, or a beginning that fits one choice only."""
    wanted = fold(given)
    exact = [choice for choice in question.choices if fold(choice) == wanted]
    begun = [choice for choice in question.choices if fold(choice).startswith(wanted)]
    if exact or (len(begun) == 1 and not question.free):
        return (exact or begun)[0]
    if question.free:
        return given
    choices = ", ".join(f"'{choice}'" for choice in question.choices)
    raise UsageError(f"'{given}' is no answer to this: {question.text} Choose one of {choices}.")
