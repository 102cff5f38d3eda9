"""Two groups with knowledge of their own, and findings that both could have settled."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from knowledge.base import Knowledge
from knowledge.findings import Finding
from knowledge.packs import Pack
from tests.knowledge.small import block, pack, register, table

NOON = datetime(2026, 11, 25, 12, 0, 7, 999, UTC)
KEYS = [letter * 32 for letter in "abcdef0123456789"]


def a_finding(key: str = KEYS[0], number: str = "K204117", **more: Any) -> Finding:
    prefix = number.rstrip("0123456789")
    told = Finding(
        key, prefix, number[len(prefix) :], "", "we", "m9", "mill", "1891", "ledger p. 40", "ledger", "", "expert 3",
        NOON, 12,
    )  # fmt: skip
    return replace(told, **more)


def of_theirs(key: str = KEYS[1], number: str = "K204117", **more: Any) -> Finding:
    return a_finding(key, number, **({"author": "an expert of the circle", "case": None} | more))


def our_pack(name: str = "ours", maker: str = "We & Sons", id_: str = "we", **more: str) -> Pack:
    return pack(
        table("makers", {"maker": id_, "name": maker, "drawing": "drawings/bed.svg", **more}),
        table("models", {"model": "m9", "maker": id_, "name": "Model 9", "source": "book"},
              {"model": "m6", "maker": id_, "name": "Model 6"}),
        table("works", {"works": "mill", "maker": id_, "name": "Upper Mill"}),
        table("registers", {**register("allocations"), "maker": id_, "title": "The ledger"}),
        table("allocations", block("K 200001-225000", "1890", model="m9", works="mill"),
              block("K 225001-250000", "1895", model="m6", works="mill")),
        table("sources", {"source": "book", "title": "The book"}),
        name=name,
    )  # fmt: skip


def ours(*findings: Finding, packs: tuple[Pack, ...] | None = None) -> Knowledge:
    return Knowledge.of((our_pack(),) if packs is None else packs, findings)
