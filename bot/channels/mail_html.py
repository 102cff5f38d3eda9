"""HTML mail to plain text: block quotes become lines with `>`, what is hidden is left out, nothing is loaded."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import lxml.html
from inscriptis import Inscriptis
from inscriptis.css_profiles import CSS_PROFILES
from inscriptis.model.config import ParserConfig
from lxml.etree import LxmlError
from lxml.html import HtmlElement

LONGEST = 1_000_000  # characters of HTML that are looked at
_MOST_QUOTES = 50
_DEEPEST_QUOTE = 5
_CONFIG = ParserConfig(css=CSS_PROFILES["strict"], display_images=False, display_links=False)
_SPACES = re.compile(r"[ \t\u00a0]+")
_MARK = re.compile(r"^[ \t]*\ue000(\d+)\ue001[ \t]*$")
_UNSEEN = ("script", "style", "head", "title", "template", "object", "noscript")
_HIDDEN = re.compile(r"display\s*:\s*none|visibility\s*:\s*hidden|mso-hide\s*:\s*all", re.IGNORECASE)
_BLOCKS = {
    "address", "article", "blockquote", "br", "div", "dd", "dl", "dt", "footer", "form", "h1", "h2", "h3", "h4", "h5",
    "h6", "header", "hr", "li", "ol", "p", "pre", "section", "table", "td", "th", "tr", "ul",
}  # fmt: skip


def html_to_text(html: str) -> str:
    """Return the text of an HTML mail. Never raises; what the converter cannot cope with is read without layout."""
    html = html[:LONGEST].replace("\x00", "").replace("\ue000", "").replace("\ue001", "")
    try:
        text = _with_quotes(lxml.html.document_fromstring(html.encode("utf-8", "replace"), _parser()), 0)
    except (LxmlError, ValueError, RecursionError, AssertionError, TypeError, IndexError, AttributeError, KeyError):
        text = ""
    if not _has_substance(text):
        text = _stripped(html)
    return text


def _parser() -> lxml.html.HTMLParser:
    return lxml.html.HTMLParser(encoding="utf-8", no_network=True, remove_comments=True, remove_pis=True)


def _with_quotes(tree: HtmlElement, depth: int) -> str:
    """Convert a tree; each outermost block quote is converted apart and put back with its lines marked."""
    _remove_unseen(tree)
    quotes: list[str] = []
    while len(quotes) < _MOST_QUOTES and (quote := next(_outermost(tree), None)) is not None:
        mark = lxml.html.Element("div")
        mark.text, mark.tail = f"\ue000{len(quotes)}\ue001", quote.tail
        parent = quote.getparent()
        parent.replace(quote, mark)
        quote.tail, quote.tag = None, "div"
        quotes.append(_with_quotes(quote, depth + 1) if depth < _DEEPEST_QUOTE else quote.text_content())
    lines: list[str] = []
    for line in _plain(tree).split("\n"):
        mark_at = _MARK.match(line)
        if mark_at and int(mark_at[1]) < len(quotes):
            lines.extend(f"> {quoted}".rstrip() for quoted in quotes[int(mark_at[1])].strip("\n").split("\n"))
        else:
            lines.append(line)
    return "\n".join(lines)


def _outermost(tree: HtmlElement):  # type: ignore[no-untyped-def]  # lxml tells no types
    """Yield block quotes in order; the first of them lies in no other."""
    return (one for one in tree.iter("blockquote") if one is not tree)


def _remove_unseen(tree: HtmlElement) -> None:
    for element in list(tree.iter()):
        if not isinstance(element.tag, str) or element is tree or element.getparent() is None:
            continue
        if element.tag in _UNSEEN or _HIDDEN.search(element.get("style") or ""):
            element.drop_tree()


def _plain(tree: HtmlElement) -> str:
    text: str = Inscriptis(tree, _CONFIG).get_text()
    return "\n".join(_SPACES.sub(" ", line).strip() for line in text.split("\n"))


def _has_substance(text: str) -> bool:
    return any(character.isalnum() for character in text)


def _stripped(html: str) -> str:
    """Return the text between the tags, a new line at each block: works at any depth of nesting."""
    stripper = _Stripper()
    try:
        stripper.feed(html)
        stripper.close()
    except (AssertionError, ValueError, RecursionError):
        pass  # what was read so far is better than nothing
    lines = (_SPACES.sub(" ", line).strip() for line in "".join(stripper.pieces).split("\n"))
    return re.sub(r"\n{3,}", "\n\n", "\n".join(lines)).strip()


class _Stripper(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.pieces: list[str] = []
        self._unseen = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in _UNSEEN:
            self._unseen += 1
        elif tag in _BLOCKS:
            self.pieces.append("\n")

    def handle_endtag(self, tag: str) -> None:
        if tag in _UNSEEN:
            self._unseen = max(0, self._unseen - 1)
        elif tag in _BLOCKS and tag != "br":
            self.pieces.append("\n")

    def handle_data(self, data: str) -> None:
        if not self._unseen:
            self.pieces.append(_SPACES.sub(" ", data.replace("\n", " ").replace("\r", " ")))
