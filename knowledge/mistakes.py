"""What people really got wrong, learned from settled cases, as factors on the assumed weights of mistakes.

For a settled case it is known which number was typed and which is stamped. `Seen` keeps what that shows: which mistake
it was, and which share the assumed weights gave to each that it could have been. What could have been is a class: the
steps of a reading, joined by '+', or one of the names of NONE.

Cases are no fair sample: a question that is easily answered never becomes one, so that of all cases far more show a
mistake than of all questions. But what becomes a case depends on what was typed (and said), not on what is stamped, and
the shares are those for just that. So seen mistakes are set against expected ones, case by case:

    share of a class in a case = assumed share x factors of its steps / sum of that over the classes of the case
    expected of a mistake      = sum of its shares over all cases

`fit` finds the factors that make what was seen likeliest, 'as typed' having the factor 1. With a prior (a gamma
distribution about 1 for each factor, worth PRIOR cases) there is exactly one best set, and each round comes nearer:

    factor <- factor x ((seen + PRIOR) / (expected + PRIOR x factor)) ^ (1 / most)

where `most` is the number of steps of the longest reading (after Darroch and Ratcliff, Generalized iterative scaling
for log-linear models, 1972; from memory). Were PRIOR not multiplied by the factor it would slow the rounds and count
for nothing in the end: they would still halt where seen = expected.

A case with a single class tells nothing. 'None of these' has several names in NONE, because numbers that no register
holds nearly always become cases and others hardly ever do: what is learned of the one says nothing of the other.
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from knowledge.weights import LEAST_FACTOR, MISTAKES, MOST_FACTOR, MOST_OFTEN, PRIOR

AS_TYPED = "as-typed"
_ROUNDS = 300
_NEAR = 1e-4
"""No factor changes by more than this share of itself: the rounds end."""


@dataclass(frozen=True, slots=True)
class Seen:
    """What one settled case shows: the class it was, and the share (0 to 1) of each class by the assumed weights."""

    observed: str
    shares: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Belief:
    """How often a mistake was seen, how often it was expected by the assumed weight, and the factor learned for it."""

    seen: int
    expected: float
    factor: float


@dataclass(frozen=True, slots=True)
class Learned:
    """What was learned: a belief for each mistake that could have been seen, from so many `cases`. Empty: nothing."""

    beliefs: Mapping[str, Belief] = field(default_factory=dict)
    cases: int = 0

    def __bool__(self) -> bool:
        return bool(self.beliefs)

    def factor(self, names: Iterable[str]) -> float:
        """Return the factor of a reading with these steps, or of a 'none of these'; 1 where nothing was learned."""
        product = 1.0
        for name in names:
            belief = self.beliefs.get(name)
            if belief is not None:
                product *= belief.factor
        return product


_Case = Sequence[tuple[tuple[str, ...], float]]


def fit(seen: Iterable[Seen]) -> Learned:
    """Return what settled cases teach; nothing where there are none that could have been something else."""
    telling = [one for one in seen if len(one.shares) > 1]
    cases = [[(names(class_), share) for class_, share in one.shares.items()] for one in telling]
    counted = Counter(name for one in telling for name in names(one.observed))
    factors = {name: 1.0 for case in cases for its_names, _ in case for name in its_names}
    most = max((len(its_names) for case in cases for its_names, _ in case), default=1)
    expected = at_first = _expected(cases, factors)
    for _ in range(_ROUNDS):
        better = {name: _nearer(name, factor, counted[name], expected[name], most) for name, factor in factors.items()}
        moved = max((abs(better[name] / factor - 1) for name, factor in factors.items()), default=0.0)
        factors, expected = better, _expected(cases, better)
        if moved < _NEAR:
            break
    beliefs = {name: Belief(counted[name], at_first[name], factor) for name, factor in factors.items()}
    return Learned(beliefs, len(telling))


def names(class_: str) -> tuple[str, ...]:
    """Return the names of a class that have a weight of their own: none for what was typed rightly.

    >>> names("prefix-missing+zero-restored"), names("none"), names("as-typed")
    (('prefix-missing', 'zero-restored'), ('none',), ())
    """
    return tuple(name for name in class_.split("+") if name != AS_TYPED)


def _expected(cases: Iterable[_Case], factors: Mapping[str, float]) -> defaultdict[str, float]:
    """Return how often each mistake is expected in the cases."""
    found: defaultdict[str, float] = defaultdict(float)
    for case in cases:
        weights = [share * math.prod(map(factors.__getitem__, its_names)) for its_names, share in case]
        total = math.fsum(weights)
        for (its_names, _), weight in zip(case, weights, strict=True):
            for name in its_names:
                found[name] += weight / total
    return found


def _nearer(name: str, factor: float, seen: int, expected: float, most_steps: int) -> float:
    """Return a factor nearer to the best one, within its bounds."""
    prior = PRIOR.value
    nearer: float = factor * ((seen + prior) / (expected + prior * factor)) ** (1 / most_steps)
    assumed = MISTAKES.get(name)
    most = min(MOST_FACTOR.value, MOST_OFTEN.value / assumed.value) if assumed else MOST_FACTOR.value
    return min(most, max(LEAST_FACTOR.value, nearer))
