"""Why a question is one for the group's experts: an ordered table of rules."""

from __future__ import annotations

from collections.abc import Callable

from knowledge.ask_back import AskBack
from knowledge.view import View, differs, is_as_typed, share_of_best

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
    shapes = view.knowledge.shapes
    return bool(view.unlisted()) or any(
        not any(is_as_typed(one, token) for one in candidates)
        and (not candidates or share_of_best(candidates) < SETTLED)
        and (bool(candidates) or (token.prefix, token.suffix) in shapes.widest)
        for token, candidates in view.numbers()
    )


def _undecided(view: View, asked: AskBack | None) -> bool:
    """Several datings as typed, none the likeliest by far, and no question back that could settle it."""
    return asked is None and any(
        candidates
        and is_as_typed(candidates[0], token)
        and share_of_best(candidates) < SETTLED
        and any(is_as_typed(one, token) and differs(one, candidates[0]) for one in candidates)
        for token, candidates in view.numbers()
    )


def _contradiction(view: View, _: AskBack | None) -> bool:
    """The asker names a maker or model that no reading of the number can be."""
    return any(
        candidates
        and (
            (said.models and not any(one.model in said.models for one in candidates))
            or (said.makers and not any(one.maker in said.makers for one in candidates))
        )
        for candidates, said in zip(view.by_token, view.beside, strict=True)
    )


RULES: tuple[tuple[str, Callable[[View, AskBack | None], bool]], ...] = (
    ("no-token", _no_token),
    ("photo-only", _photo_only),
    ("no-register", _no_register),
    ("outside-registers", _outside_registers),
    ("undecided", _undecided),
    ("contradiction", _contradiction),
    ("asked-for-a-person", lambda view, _: view.said.person),
)
