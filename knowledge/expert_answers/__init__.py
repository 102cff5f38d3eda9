"""What an expert of the group writes in answer to a case -> what is understood of it.

    understanding.py   the way through one answer: read this first
    letter.py          which words of a message are the expert's own
    clauses.py         those words clause by clause, each with its place
    acts.py            what a clause does: tells of the machine, asks, promises, speaks of another machine
    collecting.py      what the clauses state:
      names.py           makers, models and works; model_numbers.py 'a 9H' and 'Model nine'
      unheard.py         makers and models that nobody knows, and letters that changed places
      dates.py           when the machine was made; calendar.py reads days and months, months.py their names
      numbers.py         how the number is stamped
      described.py       the number that is told of and not written
      evidence.py        what the expert goes by
      agreeing.py        that one of the datings shown is right
    resolving.py       what several statements come to: corrections, alternatives, narrower times
    act_words.py, question_words.py, vocabulary.py, time_words.py,
    evidence_words.py  the phrases of all these; plain.py looks for them

What was understood is shown before anything is stored. So a plain statement counts, in however few words, unless
something speaks against it: that it is asked, denied, taken back, somebody else's word, or said of another machine, of
a book, a firm or a condition. Two values that both stand are handed back as unclear, and so is what was asked: nothing
is better than a wrong value, but a value that the expert can look over is better than nothing.
"""

from __future__ import annotations

from knowledge.expert_answers.nouns import (
    ASK_BACK,
    KINDS,
    NO_ANSWER,
    NOT_OURS,
    SETTLES,
    About,
    Understood,
    as_json,
)
from knowledge.expert_answers.understanding import understand

__all__ = [
    "ASK_BACK",
    "KINDS",
    "NOT_OURS",
    "NO_ANSWER",
    "SETTLES",
    "About",
    "Understood",
    "as_json",
    "understand",
]
