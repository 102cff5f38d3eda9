"""A letter to an expert or an asker: plain text of 72 columns and HTML from the same blocks, so that both say the same.

Which words go into it is in bot/replies/cards.py and mail_cards.py. Every text is made harmless and escaped.
"""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from bot.replies.cleaning import clean
from bot.replies.mail import COLUMNS, MailText
from bot.replies.mail_html import Page, page_html, picture_html, words_html


@dataclass(frozen=True, slots=True)
class Block:
    """A piece of a letter, under a title or without one.

    `kind` is 'paragraphs', 'list', 'quote' (somebody else's words), 'picture' (the one inside the mail, and what is to
    be seen on it) or 'link'. A link leads to `address` and is only in the HTML; the words around it say the same.
    """

    lines: tuple[str, ...]
    title: str = ""
    kind: str = "paragraphs"
    address: str = ""


@dataclass(frozen=True, slots=True)
class Letter:
    """A whole letter. `lead` says what it is about; `opening` and the first of `closing` are always the same."""

    opening: str
    lead: str
    blocks: tuple[Block, ...]
    closing: tuple[str, ...]


def listed(title: str, lines: Sequence[str]) -> Block:
    """Return a list under a title."""
    return Block(tuple(lines), title, "list")


def quoted(title: str, text: str) -> Block:
    """Return the words of somebody else."""
    return Block(tuple(text.split("\n")), title, "quote")


def said(*lines: str, title: str = "") -> Block:
    """Return paragraphs; empty ones are left out."""
    return Block(tuple(filter(None, lines)), title)


def link(words: str, address: str) -> Block:
    """Return something to press."""
    return Block((words,), kind="link", address=address)


def picture(words: str) -> Block:
    """Return the picture inside the mail; `words` say what is to be seen on it, '' for none."""
    return Block((words,), kind="picture")


def written(letter: Letter, subject: str) -> MailText:
    """Return both forms of a letter. Blocks without lines are left out."""
    return MailText(_text(letter), _html(letter, subject))


def _text(letter: Letter) -> str:
    blocks = [block for block in _filled(letter.blocks) if block.kind != "link"]
    lead = _wrapped(letter.lead)
    underlined = f"{lead}\n{'-' * max(map(len, lead.split(chr(10))))}"
    signature = "-- \n" + "\n".join(_wrapped(line) for line in letter.closing)
    return "\n\n".join([_wrapped(letter.opening), underlined, *map(_block_text, blocks), signature]) + "\n"


def _block_text(block: Block) -> str:
    between = "\n" if block.kind != "paragraphs" else "\n\n"
    body = between.join(_line_text(line, block.kind) for line in block.lines)
    title = "The picture in words" if block.kind == "picture" else clean(block.title)
    return f"{title}\n{body}" if title else body


def _line_text(line: str, kind: str) -> str:
    first, rest = {"list": ("- ", "  "), "quote": ("    ", "    ")}.get(kind, ("", ""))
    return _wrapped(line, first, rest)


def _wrapped(text: str, first: str = "", rest: str = "") -> str:
    lines = clean(text).split("\n")
    return "\n".join(
        textwrap.fill(
            line, COLUMNS, initial_indent=first if at == 0 else rest, subsequent_indent=rest, break_on_hyphens=False
        )
        for at, line in enumerate(lines)
    )


def _html(letter: Letter, subject: str) -> str:
    lead = f'<p class="first"><strong>{_escaped(letter.lead)}</strong></p>'
    blocks = map(_block_html, _filled(letter.blocks))
    return page_html(Page(subject, letter.opening, (lead, *blocks), "", letter.closing))


def _filled(blocks: Sequence[Block]) -> list[Block]:
    return [block for block in blocks if any(line.strip() for line in block.lines)]


def _block_html(block: Block) -> str:
    title = f"<h2>{_escaped(block.title)}</h2>\n" if block.title else ""
    if block.kind == "list":
        return f"{title}<ul>{''.join(f'<li>{_escaped(line)}</li>' for line in block.lines)}</ul>"
    if block.kind == "picture":
        return picture_html(block.lines[0])
    if block.kind == "link":
        return f'<p><a href="{escape(block.address)}"><strong>{_escaped(block.lines[0])}</strong></a></p>'
    if block.kind == "quote":
        words = "<br>\n".join(map(_escaped, block.lines))
        return f'{title}<div class="ask"><p class="soft">{words}</p></div>'
    return title + "\n".join(words_html(line) for line in block.lines)


def _escaped(text: str) -> str:
    return escape(clean(text))
