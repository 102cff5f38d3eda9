"""Shared by the checks against published sources: packs made on the spot, and what is answered from them."""

from __future__ import annotations

import csv
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from knowledge.answer import answer, as_json
from knowledge.base import Knowledge
from knowledge.packs import load
from knowledge.shipped import folders


@pytest.fixture(scope="session")
def marks() -> Knowledge:
    """What the shipped pack of published marks knows."""
    return Knowledge.of([load(folder) for folder in folders() if folder.name == "marks"])


@pytest.fixture
def knowledge_of(tmp_path: Path) -> Callable[..., Knowledge]:
    """Return a function that loads tables as a pack and gives what it knows; `year_starts` is year-starts.csv."""

    def build(**tables: list[list[str]]) -> Knowledge:
        tables.setdefault("makers", [["maker", "name"], ["m", "Any"]])
        names = {table: table.replace("_", "-") for table in tables}
        for table, name in names.items():
            with (tmp_path / f"{name}.csv").open("w", encoding="utf-8", newline="") as file:
                csv.writer(file).writerows(tables[table])
        resources = [{"name": name, "path": f"{name}.csv"} for name in names.values()]
        described = {"name": "outside", "resources": resources}
        (tmp_path / "datapackage.json").write_text(json.dumps(described), encoding="utf-8")
        return Knowledge.of([load(tmp_path)])

    return build


@pytest.fixture(scope="session")
def as_typed() -> Callable[[str, Knowledge], list[dict[str, Any]]]:
    """Return a function that gives the candidates which take the number in a text just as it was typed."""

    def ask(text: str, knowledge: Knowledge) -> list[dict[str, Any]]:
        found = as_json(answer(text, knowledge))["candidates"]
        return [one for one in found if one["steps"] == ["as-typed"]]

    return ask
