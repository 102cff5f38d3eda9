"""The words of a search: what was found, what was taken for a slip of the keyboard, and what is nowhere."""

from __future__ import annotations

from collections.abc import Sequence

from knowledge.search import SearchResult
from knowledge.searchable import Hit
from knowledge.wording import listed

_LONGEST = 300
NOTHING = (
    "Nothing that is known here has {words}. Say how the machine is made in a few plain words, such as its shuttle, "
    "bobbin, bed or drive, or name a maker, a model or a works."
)
_KINDS = {
    "maker": "maker", "register": "list", "source": "source", "mark": "a number that is no serial number",
    "finding": "settled by experts",
}  # fmt: skip


def found_words(result: SearchResult) -> str:
    """Return the hits as a short text, each with what is known of it, and how the words were read."""
    if not result.hits:
        return NOTHING.format(words=_named(result.nowhere) or "such words")
    return "\n\n".join((*_how_read(result), *map(_hit, result.hits)))


def _how_read(result: SearchResult) -> list[str]:
    said = []
    if result.taken:
        said.append(f"I took {listed([f'{typed} for {known}' for typed, known in result.taken], 'and')}.")
    if result.nowhere:
        said.append(f"Nothing here has {_named(result.nowhere)}.")
    return [" ".join(said)] if said else []


def _named(words: Sequence[str]) -> str:
    return listed([f"'{word}'" for word in words], "or")


def _hit(hit: Hit) -> str:
    text = hit.text if len(hit.text) <= _LONGEST else f"{hit.text[:_LONGEST].rsplit(' ', 1)[0]} …"
    kind = f" ({_KINDS[hit.kind]})" if hit.kind in _KINDS else ""
    return f"{hit.title}{kind}{f'. {text}' if text else ''}"
