"""How long to wait before trying again: growing, and jittered so that many do not come back at one moment."""

from __future__ import annotations

import random
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Waits:
    """`first` and `longest` are seconds; each wait is `factor` times the one before; `tries` is when to give up.

    >>> [round(Waits(1, 4, 60, 5, jitter=0).after(tries) or 0) for tries in (1, 2, 3, 4, 5)]
    [1, 4, 16, 60, 0]
    """

    first: float
    factor: float
    longest: float
    tries: int
    jitter: float = 0.2

    def after(self, tries: int) -> float | None:
        """Return the seconds to wait after `tries` failures (1 or more), None when it is time to give up."""
        return None if tries >= self.tries else self.pause(tries)

    def pause(self, tries: int) -> float:
        """Return the seconds to wait after `tries` failures, however many there were."""
        steps = min(tries - 1, 64)  # no overflow, however long it goes on
        return min(self.first * self.factor**steps, self.longest) * random.uniform(1 - self.jitter, 1 + self.jitter)


# A message that cannot be handled is set aside at its 5th failure, after about a minute and a half. What fails here
# is in our own program, so time alone seldom mends it.
HANDLING = Waits(first=1, factor=4, longest=60, tries=5)

# A message that the other side puts off is tried for about five days (RFC 5321, section 4.5.4.1: at least 4 or 5),
# the first few times soon: 1, 3, 9, 27, 81 minutes, then every 4 hours.
SENDING = Waits(first=60, factor=3, longest=4 * 3600, tries=36)

# Sent again because nobody knows whether it arrived (in mail receivers drop the double; a chat may stop sooner). The
# 10th time that it stays unknown, after about four hours, it is given up.
UNCERTAIN = Waits(first=30, factor=3, longest=3600, tries=10)

# The program ended this often while the message was in hand: then the message is set aside.
BEGUN_MOST = 5
