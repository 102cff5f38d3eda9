"""Whether a message asks the room what a machine is: its words are weighed.

    text -> clauses -> the way of asking that weighs most, with all that speaks for and against it -> points

Messages are put in more words than anybody can list. So a table says what single words mean, a way of asking is a set
of meanings in one clause, and a word that the table does not know speaks against: what is not understood is not
answered.

    table.py      what words mean, in nine languages
    terms.py      a text as words with meanings
    clauses.py    a message as clauses
    ways.py       the ways of asking, with their weights
    signs.py      what adds to them and what takes off, with the weights
    weighing.py   the points, and how many are enough
    bare.py       messages that are no sentences: a number alone, or with keywords

All weights are assumed, and set so that the lines of `tests/corpus_chat` come out right.
"""

from bot.curiosity.bare import gives_a_number, is_bare, is_elsewhere, is_keywords, is_shown_with_a_question_mark
from bot.curiosity.clauses import Message, listen
from bot.curiosity.weighing import Weighed, weigh

__all__ = [
    "Message",
    "Weighed",
    "gives_a_number",
    "is_bare",
    "is_elsewhere",
    "is_keywords",
    "is_shown_with_a_question_mark",
    "listen",
    "weigh",
]
