"""Answers in words for people.

    words.py      the sentences, the same wherever they are shown
    datings.py    the datings to be shown, with their sources numbered
    page.py       one answer laid out for a terminal, or as plain text for mail
    cleaning.py   nothing a stranger wrote reaches a screen as a control sequence
"""
