"""The HTML of a reply by mail: one column that fits a telephone and a desk, in light and dark, with nothing to load.

Every text is escaped. The picture is the one inside the mail (`cid:picture`). Colours stand in one table; mail programs
that know no style sheets show plain paragraphs and tables in the right order.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape

from bot.replies import words
from bot.replies.cleaning import clean
from bot.replies.datings import Datings, Group, Row, datings
from bot.replies.page import Manner
from knowledge.answer import Answer
from knowledge.base import Knowledge

_LIGHT = {
    "page": "#f4f1ea", "card": "#fffdf8", "ink": "#26221c", "soft": "#665e52", "line": "#ddd5c6", "mark": "#8a3b12",
    "ask": "#fbefd9",
}  # fmt: skip
_DARK = {
    "page": "#1b1916", "card": "#26231f", "ink": "#ece6da", "soft": "#b3a998", "line": "#454036", "mark": "#f0a878",
    "ask": "#3a2f20",
}  # fmt: skip

_COLOURS = """
body, .page {{ background: {page}; color: {ink}; }}
.card {{ background: {card}; border-color: {line}; }}
.soft, .none, dt {{ color: {soft}; }}
h2, .share, a {{ color: {mark}; }}
.dating {{ border-color: {line}; }}
.ask {{ background: {ask}; border-color: {mark}; }}
"""
_SHAPES = """
body { margin: 0; padding: 0; }
.page { font: 16px/1.5 -apple-system, "Segoe UI", Roboto, "Helvetica Neue", Arial, sans-serif; padding: 20px 12px; }
.card { max-width: 640px; margin: 0 auto; border: 1px solid; border-radius: 10px; padding: 22px 26px; }
p { margin: 0 0 12px; overflow-wrap: anywhere; }
.first { font-size: 19px; line-height: 1.45; }
h2 { font-size: 15px; margin: 26px 0 8px; letter-spacing: 0.02em; }
h3 { font-size: 16px; margin: 14px 0 2px; }
ul, ol { margin: 0 0 12px; padding-left: 22px; }
li { margin: 0 0 6px; overflow-wrap: anywhere; }
img { display: block; width: 100%; max-width: 100%; height: auto; border-radius: 6px; }
.dating { width: 100%; border-collapse: collapse; border-top: 1px solid; }
.dating td { padding: 10px 0; vertical-align: top; }
.share { width: 92px; font-size: 19px; font-weight: 700; }
.what { overflow-wrap: anywhere; }
.soft, .none { font-size: 14px; }
.ask { border-left: 4px solid; border-radius: 6px; padding: 14px 18px 6px; margin: 18px 0; }
.ask p { font-weight: 700; }
.ask p.soft { font-weight: 400; }
@media (max-width: 480px) {
  .page { padding: 0; }
  .card { border: 0; border-radius: 0; padding: 18px 16px; }
  .share { width: 76px; font-size: 17px; }
  .first { font-size: 18px; }
}
"""


@dataclass(frozen=True, slots=True)
class Page:
    """A whole mail: `body` is HTML, everything else is text."""

    title: str
    opening: str
    body: tuple[str, ...]
    goes_on: str
    closing: tuple[str, ...]


def page_html(page: Page) -> str:
    """Return the whole HTML document."""
    style = _SHAPES + _COLOURS.format(**_LIGHT)
    dark = f"@media (prefers-color-scheme: dark) {{{_COLOURS.format(**_DARK)}}}"
    goes_on = f"<p>{_text(page.goes_on)}</p>" if page.goes_on else ""
    closing = " ".join(page.closing)
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        '<meta name="color-scheme" content="light dark">\n<meta name="supported-color-schemes" content="light dark">\n'
        f"<title>{_text(page.title)}</title>\n<style>{style}{dark}</style>\n</head>\n<body>\n"
        f'<div class="page"><div class="card">\n<p class="soft">{_text(page.opening)}</p>\n'
        + "\n".join(page.body)
        + f'\n{goes_on}\n<p class="soft">{_text(closing)}</p>\n</div></div>\n</body>\n</html>\n'
    )


def words_html(text: str) -> str:
    """Return paragraphs; single line breaks are kept."""
    paragraphs = (_text(one).replace("\n", "<br>\n") for one in text.split("\n\n"))
    return "\n".join(f"<p>{one}</p>" for one in paragraphs)


def answer_html(answer: Answer, knowledge: Knowledge, manner: Manner, picture_words: str, further: str) -> str:
    """Return an answer: in short, what is asked back, the picture, the datings, what to check, where it comes from."""
    shown = datings(answer, knowledge, manner.everything)
    cautions = [one.text for one in answer.cautions if one.text not in manner.told]
    fittings = _fittings(answer, knowledge) if "parts" in manner.sections else []
    working = answer.working if answer.tokens and "working" in manner.sections else ()
    pieces = [
        *(f'<p class="first"><strong>{_text(line)}</strong></p>' for line in words.short_answer(answer, knowledge)),
        _question(answer, manner),
        _places(answer, knowledge) if answer.places else "",
        picture_html(picture_words),
        _datings(shown),
        _listed("Please check", cautions),
        _listed("Compare with the machine", fittings),
        _listed("How it was found", working, soft=True),
        _sources(shown.sources),
        f"<p>{_text(further)}</p>" if further else "",
    ]
    return "\n".join(piece for piece in pieces if piece)


def _fittings(answer: Answer, knowledge: Knowledge) -> list[str]:
    likely = dict.fromkeys(one.model for one in answer.candidates if one.likelihood >= words.ALSO and one.model)
    models = [knowledge.models[id_] for id_ in list(likely)[:3] if id_ in knowledge.models]
    return [f"{model.name}: {words.parts_of(model)}" for model in models if words.parts_of(model)]


def places_html(answer: Answer, knowledge: Knowledge) -> str:
    """Return only where the number is found."""
    return _places(answer, knowledge) if answer.places else f"<p>{_text(words.NO_PLACE)}</p>"


def _question(answer: Answer, manner: Manner) -> str:
    if answer.ask_back is None:
        return ""
    choices = "".join(f"<li>{_text(choice)}</li>" for choice in answer.ask_back.choices)
    return (
        f'<div class="ask"><p>{_text(answer.ask_back.text)}</p><ol>{choices}</ol>'
        f'<p class="soft">{_text(manner.how_to_answer)}</p></div>'
    )


def picture_html(picture_words: str) -> str:
    """Return the picture inside the mail under its title; '' without words for it."""
    if not picture_words:
        return ""
    return (
        "<h2>Where it stands among the others</h2>\n"
        f'<p><img src="cid:picture" width="588" alt="{_text(picture_words)}"></p>'
    )


def _datings(shown: Datings) -> str:
    if not shown.groups:
        return ""
    titled = len(shown.groups) > 1
    return "\n".join(["<h2>Datings, likeliest first</h2>", *(_group(group, titled) for group in shown.groups)])


def _group(group: Group, titled: bool) -> str:
    title = f"<h3>{_text(group.title)}</h3>" if titled else ""
    more = f"And {group.left_out:,} more, less likely. " if group.left_out else ""
    rest = f'<p class="none">{more}None of these: {group.none_of_these}.</p>'
    return "\n".join([title, *map(_row, group.rows), rest])


def _row(row: Row) -> str:
    named = ", ".join(part for part in (row.model, row.works) if part)
    return (
        f'<table class="dating" role="presentation" width="100%"><tr><td class="share" width="92">'
        f'{_text(row.likelihood)}</td><td class="what"><strong>{_text(row.date)}</strong><br>{_text(named)}<br>'
        f'<span class="soft">{_text(row.serial)}, {_text(row.found)}. {_text(row.block)} {_text(row.source)}</span>'
        "</td></tr></table>"
    )


def _places(answer: Answer, knowledge: Knowledge) -> str:
    found = words.of_machines(answer, knowledge)
    lines = [f"{words.place_words(one.maker, one.model, knowledge)}: {one.text}" for one in found]
    return _listed("Where the number is", lines)


def _sources(sources: Sequence[str]) -> str:
    lines = "<br>".join(_text(f"[{at}] {line}") for at, line in enumerate(sources, 1))
    return f'<h2>Sources</h2>\n<p class="soft">{lines}</p>' if lines else ""


def _listed(title: str, lines: Iterable[str], soft: bool = False) -> str:
    kind = ' class="soft"' if soft else ""
    items = "".join(f"<li{kind}>{_text(line)}</li>" for line in lines)
    return f"<h2>{_text(title)}</h2>\n<ul>{items}</ul>" if items else ""


def _text(text: str) -> str:
    return escape(clean(text))
