"""The whole of one answer: its clauses, what each states, and what they come to together."""

from __future__ import annotations

import unicodedata

from knowledge.base import Knowledge
from knowledge.expert_answers import acts, evidence
from knowledge.expert_answers.clauses import clauses
from knowledge.expert_answers.dates import dates_in
from knowledge.expert_answers.names import Stated, names_in
from knowledge.expert_answers.nouns import ASK_BACK, NO_ANSWER, NOT_OURS, SETTLES, About, Understood
from knowledge.expert_answers.plain import plain
from knowledge.findings import OPINION
from knowledge.tokens import find
from knowledge.tokens.nouns import SerialToken


def understand(text: str, knowledge: Knowledge, asked: About | None = None) -> Understood:
    """Return what an expert's answer is understood to say. `asked` is the question it is to.

    Never raises on any text.
    """
    text = unicodedata.normalize("NFC", text)
    found = find(text, knowledge.names)
    told = acts.acts(clauses(text))
    stated: list[Stated] = []
    pieces: list[tuple[int, int]] = []
    for act, clause in told:
        if act != acts.TELLS:
            continue
        said = [*names_in(clause, knowledge.names), *dates_in(clause)]
        piece = evidence.pieces_in(clause, said)
        if piece:
            pieces.append(piece)
        stated += said
    kinds = {act for act, _ in told}
    tokens = [
        token for token in found.tokens
        if any(act == acts.TELLS and c.start <= token.start < c.end for act, c in told)
    ]  # fmt: skip
    one: dict[str, str] = {}
    for kind, name in (("makers", "maker"), ("models", "model"), ("works", "works"), ("date", "date")):
        values = {value for each in stated if each.kind == kind and not each.denied for value in each.values}
        one[name] = values.pop() if len(values) == 1 else ""
    serial = tokens[0] if len(tokens) == 1 else SerialToken("", 0, 0, "", "", "", False)
    shown = evidence.told(text, plain(text), pieces)
    tells = bool(tokens) or any(one.values())
    kind = (
        NOT_OURS if acts.NOT_OURS in kinds
        else ASK_BACK if acts.ASKS in kinds
        else SETTLES if tells
        else ASK_BACK if acts.QUESTION in kinds
        else NO_ANSWER
    )  # fmt: skip
    return Understood(
        kind, serial.prefix, serial.digits, serial.suffix, one["maker"], one["model"], one["works"], one["date"],
        shown, (evidence.kind_of(plain(shown)) or OPINION) if kind == SETTLES else "", question=text.strip() if kind == ASK_BACK else "",
    )  # fmt: skip
