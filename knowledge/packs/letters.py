"""Letters of prefixes and suffixes, as they are compared with what people type."""


def plain_letters(text: str) -> str:
    """Return letters as a typed number has them: capitals from A to Z, also for those that only look like these.

    Numbers are typed on all kinds of keyboards, so accents go and look-alikes count as the letters they look like;
    a list that kept its own could never be found. Text with other letters, or with more than letters, only becomes
    capitals.

    >>> plain_letters("\\u041a"), plain_letters("\\u00c9"), plain_letters("\\u0436")
    ('K', 'E', '\u0416')
    """
    if text.isascii():
        return text.upper()
    from knowledge.tokens.fold import fold_word  # only lists with such letters wait for it

    folded = fold_word(text).upper()
    return folded if folded.isascii() and folded.isalpha() else text.upper()
