"""Text that was sent as `format=flowed` (RFC 3676): lines that were broken for the journey are joined again."""

from __future__ import annotations

_SIGNATURE = "-- "


def unflowed(text: str, delsp: bool = False) -> str:
    """Return flowed text with its paragraphs on one line each, quote marks kept (RFC 3676, sections 4.1 to 4.5).

    >>> unflowed("My number is K204 \\n117.\\n> Which \\n> one?\\n-- \\nHattie")
    'My number is K204 117.\\n> Which one?\\n-- \\nHattie'
    """
    done: list[tuple[int, list[str]]] = []
    flows = False
    for line in text.split("\n"):
        depth = len(line) - len(line.lstrip(">"))
        body = line[depth:].removeprefix(" ")  # space-stuffing
        is_flowed = body.endswith(" ") and body != _SIGNATURE
        kept = body[:-1] if is_flowed and delsp else body
        if flows and done[-1][0] == depth and body != _SIGNATURE:
            done[-1][1].append(kept)
        else:
            done.append((depth, [kept]))
        flows = is_flowed
    return "\n".join(_marked(depth, "".join(parts)) for depth, parts in done)


def _marked(depth: int, line: str) -> str:
    return f"{'>' * depth} {line}" if depth else line
