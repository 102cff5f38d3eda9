"""Why a question is one for the group's experts: an ordered table of rules."""

from __future__ import annotations

from collections.abc import Callable

from knowledge.ask_back import AskBack
from knowledge.candidates import FINDING, Candidate
from knowledge.said import Said
from knowledge.view import View, differs, is_as_typed, is_settled, registered, share_of_best

SETTLED = 0.5
"""The likelihood from which the best dating counts as settled."""


def reasons(view: View, asked: AskBack | None) -> tuple[str, ...]:
    """Return the reasons for a case, none when the answer stands by itself or the question back can settle it."""
    return tuple(reason for reason, rule in RULES if rule(view, asked))


def _no_token(view: View, _: AskBack | None) -> bool:
    asks = view.said.asks - {"where"} or ("?" in view.text and "where" not in view.said.asks)
    return not view.tokens and not _marks(view) and bool(asks) and not view.said.picture


def _photo_only(view: View, _: AskBack | None) -> bool:
    return not view.tokens and not _marks(view) and view.said.picture


def _marks(view: View) -> bool:
    """Tell whether the text has numbers of registers that are no serials, such as patents."""
    return any(passed.registers for passed in view.passed_over)


def _no_register(view: View, _: AskBack | None) -> bool:
    shapes = view.knowledge.shapes
    return any(
        not candidates and (token.prefix, token.suffix) not in shapes.widest for token, candidates in view.numbers()
    )


def _outside_registers(view: View, _: AskBack | None) -> bool:
    """No list holds the number: none at all, a slip is not likely, or its letters alone tell years and works."""
    shapes = view.knowledge.shapes
    return bool(view.unlisted()) or any(
        not any(is_as_typed(one, token) for one in candidates)
        and (not candidates or share_of_best(candidates) < SETTLED or candidates[0].kind == "prefix")
        and (bool(candidates) or (token.prefix, token.suffix) in shapes.widest)
        for token, candidates in view.numbers()
    )


def _undecided(view: View, asked: AskBack | None) -> bool:
    """Several datings as typed, none the likeliest by far, and no question back that could settle it."""
    return asked is None and any(
        candidates
        and is_as_typed(candidates[0], token)
        and not is_settled(candidates, token)
        and share_of_best(candidates) < SETTLED
        and any(is_as_typed(one, token) and differs(one, candidates[0]) for one in candidates)
        for token, candidates in view.numbers()
    )


def _contradiction(view: View, _: AskBack | None) -> bool:
    """The asker names a maker or model that no reading of the number can be, or that experts settled otherwise.

    That lists and findings contradict each other is no reason here: it makes one case of its own when the finding is
    settled (`contradictions.py`), not one each time somebody asks.
    """
    for (token, candidates), said in zip(view.numbers(), view.beside, strict=True):
        findings = [one for one in candidates if one.kind == FINDING and is_as_typed(one, token)]
        if findings:
            others = [one for one in registered(candidates) if is_as_typed(one, token) and _other_maker(one, findings)]
            if not any(_fits(one, said) for one in (*findings, *others)):
                return True
        elif candidates and (
            (said.models and not any(one.model in said.models for one in candidates))
            or (said.makers and not any(one.maker in said.makers for one in candidates))
        ):
            return True
    return False


def _other_maker(one: Candidate, findings: list[Candidate]) -> bool:
    return all(finding.maker and one.maker != finding.maker for finding in findings)


def _fits(one: Candidate, said: Said) -> bool:
    """Tell whether a dating says nothing against the maker and model the asker names."""
    maker_fits = not (said.makers and one.maker) or one.maker in said.makers
    return maker_fits and (not (said.models and one.model) or one.model in said.models)


RULES: tuple[tuple[str, Callable[[View, AskBack | None], bool]], ...] = (
    ("no-token", _no_token),
    ("photo-only", _photo_only),
    ("no-register", _no_register),
    ("outside-registers", _outside_registers),
    ("undecided", _undecided),
    ("contradiction", _contradiction),
    ("asked-for-a-person", lambda view, _: view.said.person),
)
