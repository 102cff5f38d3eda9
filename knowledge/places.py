"""Where the serial number is found on a machine, for each maker and model, from the packs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from knowledge.view import View


@dataclass(frozen=True, slots=True)
class Place:
    """Where the number is. `model` is empty when it holds for all models of the maker; `drawing` is a file or empty."""

    maker: str
    model: str
    text: str
    drawing: str


def places(view: View) -> tuple[Place, ...]:
    """Return the places for the makers and models spoken of, all makers when none was named; nothing unless asked."""
    if "where" not in view.said.asks:
        return ()
    return tuple(dict.fromkeys(place for place in _found(view) if place.text or place.drawing))


def _found(view: View) -> Iterator[Place]:
    known = view.knowledge
    models = [known.models[id_] for id_ in view.said.models if id_ in known.models]
    for model in models:
        maker = known.makers.get(model.maker)
        text = model.where or (maker.where if maker else "")
        drawing = model.drawing or (maker.drawing if maker else "")
        yield Place(model.maker, model.id, text, drawing)
    of_serials = {register.maker for register in known.registers.values() if register.is_of_serials}
    wanted = view.said.makers or ([] if models else [id_ for id_ in known.makers if id_ in of_serials])
    for id_ in wanted:
        if id_ in known.makers:
            yield Place(id_, "", known.makers[id_].where, known.makers[id_].drawing)
