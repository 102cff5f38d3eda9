"""Which words of a message tell something of the asker's machine.

'Where would I find it on a Wendelohr?' names a maker, but tells nothing of the machine; nor does 'my neighbour has a
Wendelohr too'. 'Is it a Wendelohr?' only supposes something. What a message tells must not be mixed with these.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence, Set
from typing import NamedTuple

from knowledge.hearing.wishes import asks_where
from knowledge.hearing.words import Lexicon, Word, clauses, sentences

_LEXICON = Lexicon(
    {
        "filler": "so and but or ok okay well also no yes then now hi hello hey please sorry und aber oder "
        "nein ja also bitte et mais ou oui non alors y pero o sí e ma sì allora en maar of nee dus i ale lub "
        "nie tak a czyli и но или нет да och men eller nej",
        "asking": "what how where who when which why whose was wie wo wer wann welche welcher welches warum "
        "que quoi comment où qui quand quel quelle pourquoi qué cómo dónde quién cuándo cuál che cosa come "
        "dove chi quale perché wat hoe waar wie wanneer welke waarom co jak gdzie kto kiedy jaki jaka który "
        "która dlaczego что как где кто когда какой какая почему vad hur var vem när vilken varför",
        "opening": "is are was were do does did can could should would will may might has have had isn't ist "
        "sind war kann könnte hat haben gibt est sont était peut pourrait es-ce avait está era puede podría "
        "tiene hay è sono può potrebbe ha zijn kan kunnen heeft zou czy jest może mógłby разве ли может är "
        "kan kunde skulle har",
        "itself": "it this that these mine my our ours es sie das diese dies meine mein unsere cela ça c ce "
        "cette ma mon elle il esta este esto mi ella la lo questa questo mia essa het deze dit mijn hij ze to "
        "ta ten moja mój ona ono это эта этот моя она он den det denna min",
        "is": "is s was be are has have had got says reads must might could may should ist war hat habe haben "
        "steht est était a ai lit es era tiene tengo dice è era ha ho legge heeft heb staat jest był była mam "
        "ma написано är var har står",
        "mine": "my mine our ours this meine mein unsere diese ma mon cette notre mi nuestra esta mia mio "
        "questa mijn onze deze moja mojej mój moje моя моей мой min mitt vår denna",
        "at": "on at for with bei an für mit sur pour avec en para con su per op voor met na w dla z на в для "
        "с på med",
        "verbless": "это es è jest mam tengo ho",
        "another": "neighbour* neighbor* friend friends colleague* another other others second else besides "
        "nachbar* freund* kolleg* andere anderen anderes andrer zweite zweiten außerdem auch voisin* ami amie "
        "amis collègue* autre autres deuxième vecin* amig* otra otro otras segunda segundo también vicin* "
        "amic* altra altro seconda anche buur* vriend* andere tweede ook sąsiad* koleż* kolega kolegi inna "
        "inny druga drugi też także сосед* подруг* друг* другая другой вторая также тоже granne grannen "
        "grannens väninna kompis annan andra också too also",
        "comparing": "than unlike compared versus vs niż чем rispetto comparé comparado comparada vergleich "
        "verglichen vergeleken jämfört difference unterschied différence diferencia differenza verschil "
        "różnica разница skillnad",
    }
)
_NEAR = 3
"""Words within which 'it' and 'is' stand together."""


class Told(NamedTuple):
    """The words that tell something of the asker's machine, and those that only suppose something of it."""

    stated: list[Word]
    supposed: list[Word]


def told(words: list[Word], names: Set[str]) -> Told:
    """Sort out what is told of the asker's machine from what is asked, and from what is said of other machines.

    `names` are the words of the message that name a maker, a model or works.
    """
    found = Told([], [])
    for sentence in sentences(words):
        if asks_where(sentence, names):
            found.stated.extend(word for clause in clauses(sentence) for word in _before_where(clause))
            continue
        first = _first(sentence)
        is_question = first is not None and _begins_a_question(sentence, first)
        if is_question and not _is_asked_of_it(sentence[first:]):
            continue
        kept = found.supposed if is_question else found.stated
        kept.extend(_of_it(clauses(sentence)))
    return found


def _before_where(clause: list[Word]) -> Iterator[Word]:
    """Yield what is told in a sentence that asks where the number is: 'it's a Model 9, where do I find it?'."""
    asking = next((place for place, word in enumerate(clause) if _means(word, "asking")), len(clause))
    before = clause[:asking]
    if _says_what_it_is(before[:_NEAR]):
        yield from before


def _first(sentence: Sequence[Word]) -> int | None:
    """Return where a sentence begins, after 'so', 'well' and 'yes'."""
    words = (place for place, word in enumerate(sentence) if word.text.isalpha() and not _means(word, "filler"))
    return next(words, None)


def _begins_a_question(sentence: Sequence[Word], first: int) -> bool:
    if sentence[-1].text != "?":
        return _means(sentence[first], "asking")
    return any(_means(sentence[first], meaning) for meaning in ("asking", "opening", "at"))


def _is_asked_of_it(question: Sequence[Word]) -> bool:
    """Tell 'is it a Model 9?' and 'how old is my Model 9?' from 'does a Model 9 show it?'."""
    if _means(question[0], "asking"):
        return any(_means(word, "mine") for word in question)
    near = [word for word in question if word.text.isalpha()][: _NEAR + 1]
    return _means(question[0], "verbless") or any(_means(word, "itself") for word in near)


def _of_it(parts: Iterable[list[Word]]) -> Iterator[Word]:
    """Yield the clauses of the asker's machine. From 'I have another' on the sentence is about that, until 'it is'."""
    elsewhere = False
    for clause in parts:
        says = _says_what_it_is(clause)
        elsewhere = not says and (elsewhere or any(_means(word, "another") for word in clause))
        if not elsewhere and not any(_means(word, "comparing") for word in clause):
            yield from clause


def _says_what_it_is(clause: Sequence[Word]) -> bool:
    """Tell whether 'it is', 'mine has' or 'it also says' stands in a clause."""
    for place, word in enumerate(clause):
        after = clause[place + 1 : place + _NEAR]
        said_of_it = _means(word, "itself") and any(_means(one, "is") for one in after)
        if said_of_it and not any(_means(one, "another") and one.text not in _ALSO for one in after):
            return True
    return bool(clause) and _means(clause[0], "verbless")


_ALSO = frozenset("also too auch aussi tambien anche ook tez takze также тоже ocksa".split())


def _means(word: Word, meaning: str) -> bool:
    return meaning in _LEXICON.meaning(word.text)
