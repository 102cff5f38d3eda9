"""How long the desk waits for whom. All of it stands here."""

from __future__ import annotations

from datetime import timedelta

HEARS_WITHIN = timedelta(days=14)
"""The stated day: whoever asks hears by then, if only that nobody knew."""
LEASE = timedelta(hours=24)
"""For so long a case belongs to the expert who took it; every word they write about it begins it anew."""
ASKER_ANSWERS_WITHIN = timedelta(days=7)
"""After that a case that was asked back is open for the experts again, with a note."""
REMINDERS = (timedelta(days=2), timedelta(days=6), timedelta(days=10))
"""The ages at which the digest reminds the experts of a case; before and between it is left out."""
DIGEST_HOUR = 9
"""From this hour of the day on (by the clock of the computer) the digest of the day is sent."""
ASKED_AGAIN_WITHIN = timedelta(days=365)
"""A case closed without an answer is opened again, not doubled, when the same is asked within this time."""
NO_END = timedelta(days=365)
"""A case for which nobody waits (a contradiction) is not closed before this."""
MOST_CARDS = 10
"""Of one person in a day so many new cases are put before the experts at once; further ones wait for the digest."""
CLOCK_SLACK = timedelta(minutes=10)
"""By so much the clock may differ from the time that passed, and still be believed."""
