"""Hearing what a message says beside its numbers; `knowledge/said.py` puts the parts together.

    words.py         the message as plain words, sentence by sentence
    name_index.py    makers, models and works as the knowledge base names them
    name_context.py  whether a word is meant as a name
    named.py         makers, models and works that are named
    years.py         when the asker thinks the machine was made
    stamping.py      how the number is stamped: how many digits, a zero in front, which letter
    wishes.py        what is asked for, and subjects that need a warning
    telling.py       which words tell something of the asker's machine, and which only ask

Word lists are in English, German, French, Spanish, Italian, Dutch, Polish, Russian and Swedish; words are written
folded (small letters, no accents), and one that ends in `*` stands for all words that begin so.
"""
