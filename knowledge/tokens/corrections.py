"""Numbers the asker takes back: 'sorry, it is K204171', 'K204171, not K204117'."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from knowledge.tokens.fold import fold_word
from knowledge.tokens.nouns import SerialToken

CORRECTING: Final[dict[str, str]] = {  # stands before the right number, with at most a few fillers between
    "English": "argh|doh|hang on|hold on|i now see|now i see|sorry|oops|oups|ops|whoops|correction|i meant|i mean|"
    "meant to say|meant|make that|scratch "
    "that|typo|my mistake|"
    "my bad|should be|should read|should have been|should say|i was wrong|misread|mistyped|rather|no wait|wait|"
    "apologies|pardon|"
    "corrected|erratum|i misread|edit|instead|no, it's|no it's|no, it is|no, that's|not quite|but",
    "German": "quatsch|blödsinn|unsinn|ach nein|halt|stopp|moment|entschuldigung|sorry|korrektur|ich meine|ich "
    "meinte|meinte|meine natürlich|nein|tippfehler|vertippt|verschrieben|"
    "verlesen|richtig ist|richtig wäre|muss heißen|sondern|pardon|besser gesagt|es heißt|falsch",
    "French": "oups|zut|pardon|désolé|désolée|correction|je voulais dire|je veux dire|plutôt|erreur|non|mais|"
    "excusez-moi|rectification",
    "Spanish": "digo|es decir|uy|ay no|perdón|perdon|corrección|quería decir|quise decir|quiero decir|mejor dicho|"
    "sino|no, es|error|me equivoqué|disculpa",
    "Italian": "ops|cioè|scusa|scusate|scusi|correzione|volevo dire|intendevo|anzi|bensì|errore|mi sono sbagliato|mi "
    "sono sbagliata|pardon",
    "Dutch": "oeps|of nee|sorry|correctie|ik bedoel|ik bedoelde|bedoelde|nee|maar|tikfout|excuus|moet zijn",
    "Polish": "ups|wróć|przepraszam|korekta|poprawka|miało być|chodziło mi o|nie|lecz|tylko|literówka|sorry|powinno "
    "być|pomyłka",
    "Russian": "ой|извините|простите|исправление|поправка|я имел в виду|я имела в виду|имел в виду|точнее|нет|а|"
    "ошибся|ошиблась|опечатка|вернее",
    "Swedish": "oj|hoppsan|förlåt|ursäkta|rättelse|jag menade|menade|menar|nej|utan|skrev fel|ska vara|skall vara|"
    "sorry",
    "Danish, Norwegian": "undskyld|rettelse|beklager|jeg mente|mente|nej|nei|men|skal være",
    "Portuguese": "desculpa|desculpe|correção|queria dizer|quis dizer|aliás|não|mas",
    "Czech": "pardon|omlouvám se|oprava|myslel jsem|myslela jsem|ne|ale|má být",
}
_NEGATED_ONLY: Final = frozenset(  # these correct only after 'not' before the first number
    "but mais sino maar lecz tylko a utan men mas ale sondern bensi".split()
)
_NEGATING: Final = re.compile(
    r"(?<![^\W_])(?:not|isn't|is not|wasn't|instead of|rather than|strike|scratch|forget|ignore|not the|nicht|kein|"
    r"keine|statt|anstatt|pas|au lieu de|no "
    r"es|no era|en vez de|non|invece di|"
    r"niet|in plaats van|nie|zamiast|he|bmecto|inte|istallet for|ikke|i stedet for|nao|em vez de|ne|misto)"
    r"(?: (?:the|a|die|der|das|de|la|el|il|le|het|a|it|it's|number|nummer|numero|numer|homep|serial|e|es|est|is|ist|"
    r"jest|ar|er|het))*[ \"']*\Z"
)
_AT_FIRST: Final = re.compile(
    r"(?<![^\W_])(?:i|we|ich|je|ik)? ?(?:had )?(?:first|earlier|previously|originally|wrongly|mistakenly|before|at "
    r"first|zuerst|vorhin|d'abord|eerst)"
    r" ?(?:i |we |ich |j'ai |ik )?(?:had )?(?:read|wrote|said|thought|typed|posted|gave|written|gelesen|geschrieben|"
    r"las|schrieb|lu|ecrit|las|schreef)"
    r"(?: (?:it|it was|as|that|number|the number|of))*[ :,\"']*\Z"
)
_FILLER: Final = (
    r"(?:[ ,.:;!/()\"'*\n-]|(?<![^\W_])(?:it|it's|its|is|was|that|that's|the|this|number|no|nr|should|be|read|reads|"
    r"say|says|i|meant|mean|serial|correct|right|"
    r"one|of course|actually|a|es|ist|war|die|der|das|nummer|richtig|lautet|natuerlich|naturlich|heisst|muss|sein|"
    r"ich|meinte|c'est|le|la|numero|bon|correcto|"
    r"el|era|il|e|giusto|corretto|het|nummer|juiste|to|numer|jest|byc|powinno|эto|homep|det|ar|ska|vara|skal|vaere|o|"
    r"je|cislo|to be|have been|wait|here|"
    r"now|again|looked|checked|there)(?![^\W_]))"
)
_MARKERS: Final = "|".join(
    sorted(
        {re.escape(fold_word(m)).replace("\\ ", " ") for ms in CORRECTING.values() for m in ms.split("|")},
        key=lambda m: (-len(m), m),
    )
)
_ACTUALLY: Final = "|".join(
    fold_word(word)
    for word in (
        "actually|in fact|eigentlich|tatsächlich|en fait|en réalité|in realtà|en realidad|eigenlijk|właściwie|на "
        "самом деле|egentligen"
    ).split("|")
)
_CORRECTS: Final = re.compile(
    rf"(?:(?<![^\W_])(?P<marker>{_MARKERS})(?![^\W_])(?!\.)|(?<=[,;:.!(-]) ?(?:{_ACTUALLY}|no(?=[ ,;!-] ?(?!nr|"
    rf"no)[^\W\d_]{{2}}|[,;!-]))){_FILLER}{{0,12}}\Z"
)
_RIGHT_AFTER: Final = re.compile(
    r"[ ,]*(?:is (?:right|correct|the right one)|muss es hei(?:ss|s)en|ist richtig|ist die richtige|est (?:le bon|la "
    r"bonne|correct)|es (?:el correcto|lo correcto)|"
    r"e quello giusto|is (?:de juiste|goed)|it should be|should it be|ska det vara|jest poprawny|skal det vaere|"
    + fold_word("правильный")
    + r")"
)
_FORGET: Final = re.compile(
    r"[ ,.;:!()-]*(?:(?:please|bitte|no|nein|oh|sorry|ah|but|actually)[ ,]*){0,2}(?:forget (?:that|it|this)|scratch "
    r"that|ignore (?:that|this|it)|strike that|never ?mind|disregard|"
    r"vergiss (?:das|es)|vergesst (?:das|es)|vergessen sie|oubliez|oublie|olvid(?:a|en|ad)|lascia(?:te)? perdere|"
    r"vergeet (?:dat|het)|zapomnij|"
    r"" + fold_word("проигнорируй|забудь") + r"|glom det|glem det|esquece)"
)
_IS_WRONG: Final = re.compile(
    r"[ ,(]*(?:(?:is|was|ist|war|est|etait|es|era|e|jest|byl|ar|var|er) )?(?:a |an |ein |une |un )?(?:wrong|typo|"
    r"mistake|incorrect|not right|misread|"
    r"falsch|verkehrt|tippfehler|fau(?:x|sse)|errone|incorrecto|equivocado|sbagliato|errato|fout|verkeerd|bledny|zly|"
    r"fel|forkert|feil|spatne|errado|"
    + "|".join(map(fold_word, ("неверно", "неправильно", "ошибка")))
    + r")(?![^\W_])|~~"
)
_WINDOW: Final = 80


def taken_back(low: str, places: Sequence[tuple[int, int]], tokens: Sequence[SerialToken]) -> set[int]:
    """Return which of the tokens the asker takes back; `places` are where they stand in the folded text `low`."""
    gone: set[int] = set()
    forgotten: set[int] = set()
    for index, (start, end) in enumerate(places):
        floor = places[index - 1][1] if index else 0
        between = low[max(floor, start - _WINDOW) : start]
        negated = _NEGATING.search(between) or _AT_FIRST.search(between) or _IS_WRONG.match(low, end)
        if negated and len(places) > 1 and _has_another(index, tokens):
            gone.add(index)
            continue
        if _FORGET.match(low, end):
            forgotten.add(index)
        if not index:
            continue
        match = _CORRECTS.search(between)
        earlier = index - 1
        if match is None and not _RIGHT_AFTER.match(low, end):
            continue
        if match and match.group("marker") in _NEGATED_ONLY and earlier not in gone:
            continue
        if tokens[earlier].serial != tokens[index].serial:
            gone.add(earlier)
    return (gone if len(gone) < len(places) else gone - {len(places) - 1}) | forgotten


def _has_another(index: int, tokens: Sequence[SerialToken]) -> bool:
    return any(token.serial != tokens[index].serial for place, token in enumerate(tokens) if abs(place - index) == 1)
