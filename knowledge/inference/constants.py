"""Every number that inference rests on, with its origin, in one table."""

from __future__ import annotations

from knowledge.weights import SOLD_LATER, Weight

ALLOWANCES: dict[str, Weight] = {
    "about-a-year": Weight(5.0, "assumed", "years either way that 'about 1912' may be off"),
    "about-a-month": Weight(1.0, "assumed", "the same for 'about May 1912' or 'about 3 May 1912'"),
    "sold-later": Weight(SOLD_LATER.value, SOLD_LATER.origin, "years by which a sale may come after the issue"),
    "coverage": Weight(0.90, "asked for", "share of numbers whose span holds the truth; simulated in tests/bench"),
    "folds": Weight(10.0, "common practice", "parts of which each is left out once, to see how far sightings are off"),
    "gross-years": Weight(10.0, "assumed", "years off the fit from which a sighting is set aside as wrong"),
    "gross-share": Weight(0.25, "assumed", "share of a series up to which sightings are set aside; above it, none is"),
    "around": Weight(10.0, "assumed", "sightings on each side that a finding is compared with"),
}

COVERAGE = ALLOWANCES["coverage"].value
OUTER = (1 - COVERAGE) / 2
"""Share of many pooled sightings that is left out on each side."""
FOLDS = int(ALLOWANCES["folds"].value)
GROSS_DAYS = round(ALLOWANCES["gross-years"].value * 365.25)
AROUND = int(ALLOWANCES["around"].value)
GROSS_SHARE = ALLOWANCES["gross-share"].value
