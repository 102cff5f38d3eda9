"""Packs of a few blocks, checked for the faults of their numbers alone."""

from knowledge.packs import Pack, Table, check

A = "allocations.csv"


def places(faults, code):
    return [(one.row, one.column) for one in faults if one.code == code]


def of_blocks(*blocks, prefix="K", **more):
    """Return the faults of the numbers of some blocks, (first, last), that stand in one register."""
    firsts, lasts = map(list, zip(*blocks, strict=True))
    size = len(blocks)
    dates = [str(1900 + place) for place in range(size)]
    columns = {"register": ["r"] * size, "prefix": [prefix] * size, "first": firsts, "last": lasts, "date": dates}
    found = check(Pack.of("small", Table.of("allocations", columns | more)))
    return [one for one in found if one.file == A and one.code != "unknown-register"]
