"""The packs that come with the program: an invented demo group, and published marks.

Each is a folder of open formats beside this file, read like any other pack. `demo` is invented from the first maker
to the last number; `marks` holds patents and registered designs as the offices published them.
"""

from __future__ import annotations

from pathlib import Path


def folders() -> list[Path]:
    """Return the folders of the packs shipped, in order of name.

    >>> [folder.name for folder in folders()]
    ['demo', 'marks']
    """
    here = Path(__file__).resolve().parent
    return sorted(path.parent for path in here.glob("*/datapackage.json"))
