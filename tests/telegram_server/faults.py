"""What the server can be told to do instead of answering well."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Fault:
    """`kind`: '429', '500', 'hang' (accepts and never answers), 'hang-before' (neither), 'vanish' (accepts and closes
    the connection), 'drop' (closes it at once), 'refuse' (400 with `text`), 'forbid' (403)."""

    kind: str
    seconds: int = 1
    text: str = ""


class ApiError(Exception):
    """An answer that is no success, as the API gives it."""

    def __init__(self, code: int, text: str, **parameters: int) -> None:
        super().__init__(text)
        self.code, self.text, self.parameters = code, text, parameters

    def as_json(self) -> dict[str, object]:
        plain: dict[str, object] = {"ok": False, "error_code": self.code, "description": self.text}
        return plain | ({"parameters": self.parameters} if self.parameters else {})


def bad(text: str) -> ApiError:
    return ApiError(400, f"Bad Request: {text}")
