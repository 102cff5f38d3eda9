"""What is known of a machine after one more message: what is told now is added, and takes back what it contradicts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from knowledge.base import Knowledge
from knowledge.said import Facts, Said, merged
from knowledge.tokens.nouns import SerialToken

NEAR = 1
"""By how many digits a count that is told may differ from every number known and still be believed at once."""


def together(earlier: Said, later: Said, tokens: Sequence[SerialToken], knowledge: Knowledge) -> Said:
    """Return what was said in all about the numbers `tokens`; of two things that cannot both be true, the later."""
    kept = earlier
    if _counts_otherwise(earlier, later, tokens):
        kept = replace(kept, digit_count=None, leading_zero=None)
    if later.makers and not _share_a_maker(later, earlier.models, earlier.works, knowledge):
        kept = replace(kept, models=(), works=())
    if not later.makers and earlier.makers and not _share_a_maker(earlier, later.models, later.works, knowledge):
        kept = replace(kept, makers=())
    return merged(kept, later)


def held(earlier: Said, facts: Facts, knowledge: Knowledge) -> Said:
    """Return what a message tells, with what it only supposes where that goes with what was said before."""
    supposed = facts.supposed
    goes_with = _share_a_maker(earlier, supposed.models, supposed.works, knowledge)
    new = replace(
        supposed,
        makers=() if earlier.makers else supposed.makers,
        models=() if earlier.models or not goes_with else supposed.models,
        works=() if earlier.works or not goes_with else supposed.works,
        dates=() if earlier.dates else supposed.dates,
    )
    return merged(new, facts.stated)


def _share_a_maker(said: Said, models: Sequence[str], works: Sequence[str], knowledge: Knowledge) -> bool:
    """Tell whether models and works are those of the makers that were named, or no makers were."""
    theirs = {knowledge.models[id_].maker for id_ in models if id_ in knowledge.models}
    theirs |= {knowledge.works[id_].maker for id_ in works if id_ in knowledge.works}
    return not said.makers or not theirs or bool(theirs & set(said.makers))


def _counts_otherwise(earlier: Said, later: Said, tokens: Sequence[SerialToken]) -> bool:
    """Tell whether a count of digits or a zero in front cannot go with those told before.

    A zero in front needs more digits than the number has without its zeros.
    """
    if (later.digit_count, later.leading_zero) == (None, None):
        return False
    if None not in (earlier.digit_count, later.digit_count) and earlier.digit_count != later.digit_count:
        return True
    if None not in (earlier.leading_zero, later.leading_zero) and earlier.leading_zero != later.leading_zero:
        return True
    both = merged(earlier, later)
    room = min((len(token.digits.lstrip("0")) for token in tokens), default=0)
    return both.leading_zero is True and both.digit_count is not None and both.digit_count <= room


def is_likely_count(count: int, is_bare: bool, tokens: Sequence[SerialToken], knowledge: Knowledge) -> bool:
    """Tell whether a number can have so many digits: as many as it was typed with, or as a list has, or nearly.

    A bare '7', which says nothing of digits, must be one of these numbers; 'nine digits' may be one off.
    """
    known = {length for token in tokens for length in (len(token.digits), token.digit_count)}
    for token in tokens:
        own = {width for prefix, width, _ in knowledge.shapes.series if prefix == token.prefix and token.prefix}
        known |= own or {width for _, width, _ in knowledge.shapes.series}
    off = 0 if is_bare else NEAR
    return any(abs(count - width) <= off for width in known if width)
