"""What the program can log, read from its own code: every event with its level."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

from bot.sending import Verdict

_LEVELS = ("info", "warning", "error")


def events(root: Path) -> set[tuple[str, str]]:
    """Return level and event of every call of a log under a folder. Fails where one cannot be told from the code."""
    found = set()
    for path in root.rglob("*.py"):
        if path.name == "logs.py":  # it hands on what others say
            continue
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for function in ast.walk(tree):
            if isinstance(function, ast.FunctionDef | ast.AsyncFunctionDef):
                for call in ast.walk(function):
                    if isinstance(call, ast.Call) and _is_of_a_log(call.func):
                        assert isinstance(call.func, ast.Attribute)
                        texts = list(_texts(call.args[0], function))
                        assert texts, f"{path}, line {call.lineno}: what is logged cannot be told from the code"
                        found |= {(call.func.attr, text) for text in texts}
    return found


def _is_of_a_log(called: ast.expr) -> bool:
    if not isinstance(called, ast.Attribute) or called.attr not in _LEVELS:
        return False
    owner = called.value
    name = owner.id if isinstance(owner, ast.Name) else owner.attr if isinstance(owner, ast.Attribute) else ""
    return name in ("_log", "log")


def _texts(value: ast.expr, function: ast.AST) -> Iterator[str]:
    if isinstance(value, ast.Constant):
        yield str(value.value)
    elif isinstance(value, ast.IfExp):
        yield from _texts(value.body, function)
        yield from _texts(value.orelse, function)
    elif isinstance(value, ast.JoinedStr):
        start = str(value.values[0].value) if isinstance(value.values[0], ast.Constant) else ""
        yield from (f"{start}{verdict.value}" for verdict in Verdict)
    elif isinstance(value, ast.Name):
        for one in ast.walk(function):
            if isinstance(one, ast.Assign) and any(isinstance(t, ast.Name) and t.id == value.id for t in one.targets):
                yield from _texts(one.value, function)
