"""Paths that a pack names: never out of its folder, whoever wrote them."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path


def leads_out(folder: Path, path: str) -> bool:
    """Tell whether a path is absolute, a web address or, links followed, outside the folder."""
    if "\0" in path or "\\" in path or "://" in path or Path(path).is_absolute() or ".." in Path(path).parts:
        return True
    try:
        return not (folder / path).resolve().is_relative_to(folder.resolve())
    except (OSError, RuntimeError):  # a loop of links
        return True


def find_drawing(drawing: str, folders: Iterable[Path]) -> Path | None:
    """Return the file of a drawing in one of these packs, by its path there or its name among the drawings.

    None when there is none; what leads out of a pack is no drawing of it.
    """
    names = (drawing, f"drawings/{drawing}", f"drawings/{drawing}.png") if drawing else ()
    for folder in folders:
        for name in names:
            if not leads_out(folder, name) and _is_file(folder / name):
                return folder / name
    return None


def _is_file(path: Path) -> bool:
    try:
        return path.is_file()
    except OSError:  # such as a name that is too long
        return False
