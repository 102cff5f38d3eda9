"""Findings and sightings from group to group: a pack of them is made, and what others made is compared with ours.

export.py       knowledge -> a pack with findings.csv, sightings.csv and the things they name
comparing.py    a pack beside our knowledge -> what is new, equal and contradictory
"""

from __future__ import annotations

from knowledge.sharing.comparing import Comparison, Side, compare
from knowledge.sharing.export import Left, exported

__all__ = ["Comparison", "Left", "Side", "compare", "exported"]
