"""What is remembered of one conversation: small, and able to go to JSON and back, so that a journal can keep it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass
from typing import Any

from knowledge import edtf
from knowledge.ask_back import AskBack
from knowledge.said import Said

_NOTHING_SAID = Said()


@dataclass(frozen=True, slots=True)
class State:
    """Where a conversation stands. `text` is the last message with a number, '' when there was none."""

    text: str = ""
    said: Said = _NOTHING_SAID
    asked: AskBack | None = None

    def as_json(self) -> dict[str, Any]:
        """Return the state as plain values; `from_json` reads them back."""
        said = {name: getattr(self.said, name) for name in Said.__slots__ if getattr(self.said, name) not in _EMPTY}
        plain = {name: sorted(value) if isinstance(value, frozenset) else value for name, value in said.items()}
        if self.said.dates:
            plain["dates"] = [span.text for span in self.said.dates]
        return {"text": self.text, "said": plain, "asked": asdict(self.asked) if self.asked else None}

    @classmethod
    def from_json(cls, plain: Mapping[str, Any]) -> State:
        """Return the state that `as_json` told."""
        told = {name: _FROM_JSON.get(name, _same)(value) for name, value in plain["said"].items()}
        asked = plain["asked"]
        question = AskBack(**{**asked, "choices": tuple(asked["choices"])}) if asked else None
        return cls(plain["text"], Said(**told), question)


_EMPTY: tuple[object, ...] = ((), None, frozenset())


def _same(value: Any) -> Any:
    return value


_FROM_JSON: dict[str, Callable[[Any], Any]] = {
    "dates": lambda texts: tuple(edtf.parse(text) for text in texts),
    "asks": frozenset,
    "dangers": frozenset,
    **dict.fromkeys(("makers", "models", "works"), tuple),
}
