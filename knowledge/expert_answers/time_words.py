"""Phrases that bound a time, in six languages; single words are those of questions (`knowledge/hearing/years.py`)."""

from __future__ import annotations

import re

from knowledge.expert_answers.plain import Phrases

NOT_BEFORE = Phrases(
    "not before|not .. before|no way before|never .. before|nicht .. vor|no earlier than|not earlier than|"
    "not older than|no older than|never before|isn't before|"
    "at the earliest in|"
    "certainly not before|can't be before|cannot be before|can't be earlier than|cannot be earlier than|"
    "not much before|hardly before|nicht vor|nicht früher als|nicht älter als|frühestens|kaum vor|ab|"
    "pas plus ancien* que|no más antigu* que|no más viej* que|non più vecchi* del|pas avant|"
    "pas antérieur* à|"
    "au plus tôt|à partir de|no antes de|no antes del|no anterior a|como pronto|a partir de|desde|non prima del|"
    "non prima di|al più presto|a partire dal|dal|niet voor|niet vóór|niet ouder dan|niet eerder dan|op zijn vroegst|"
    "vanaf|sinds|"
    "from at least|at least|earliest"
)
NOT_AFTER = Phrases(
    "not .. after|no way after|no later than|not later than|not after|not newer than|no newer than|not younger than|"
    "no younger than|"
    "certainly not after|can't be after|"
    "cannot be after|can't be later than|cannot be later than|never after|at the latest|at the latest in|latest|"
    "up to and including|"
    "by|until|till|up to|up until|before or in|nicht nach|nicht später als|nicht jünger als|"
    "spätestens|bis|pas après|pas plus tard que|au plus tard|au plus tard en|jusqu'en|jusqu'à|no después de|"
    "no más tarde de|a más tardar|a más tardar en|como muy tarde en|hasta|non dopo il|non oltre il|non oltre|"
    "al più tardi nel|al più tardi|entro il|fino al|niet na|niet later dan|uiterlijk|uiterlijk in|tot|op zijn laatst"
)
BEFORE = Phrases(
    "before|earlier than|older than|prior to|pre|pre-|früher als|älter als|vor|avant|antérieur* à|plus ancien* que|"
    "antes de|antes del|anterior a|prima del|prima di|anteriore al|voor|vóór|eerder dan|ouder dan"
)
AFTER = Phrases(
    "after|later than|newer than|post|post-|some time after|nach|später als|jünger als|après|postérieur* à|después de|"
    "después del|posterior a|dopo il|dopo|posteriore al|na|later dan|jonger dan"
)
OR_LATER = Phrases(
    "or later|or after|or newer|onwards|onward|and later|and after|at the earliest|at the very earliest|at earliest|"
    "earliest|upwards|"
    ""
    "oder später|oder jünger|und später|frühestens|aufwärts|ou plus tard|ou après|au plus tôt|o después|o más tarde|"
    "o posterior|en adelante|como pronto|o dopo|o più tardi|o successiv*|in poi|al più presto|of later|of erna|"
    "op zijn vroegst|en later"
)
OR_EARLIER = Phrases(
    "or earlier|or before|or older|and earlier|and before|at the latest|at the very latest|at latest|latest|"
    "oder früher|oder älter|"
    "und früher|spätestens|ou plus tôt|ou avant|au plus tard|o antes|a más tardar|como muy tarde|o prima|al più tardi|"
    "of eerder|of vroeger|of ouder|uiterlijk|op zijn laatst"
)
HEDGES = Phrases(
    "probably|prob|prob.|likely|most likely|very likely|possibly|poss|perhaps|maybe|presumably|i'd say|i would say|"
    "i'd have said|i'd guess|i would guess|i guess|my guess|best guess|guess|educated guess|my guess is|gut feeling|"
    "somewhere around|somewhere about|somewhere near|something like|sometime around|in the region of|near enough|"
    "more or less|give or take|say|or thereabouts|thereabouts|or so|ish|-ish|or near|or a bit|approx|approx.|circa|"
    "c|c.|ca|ca.|about|around|roughly|abt|abt.|estimate|estimated|i estimate|at a guess|within . year|"
    "within . year or two of|within .. of|i suppose|i suspect|"
    "i'd put it at|i'd put it around|i'd date it to|i'd date it|might be|may be|could be|"
    "wahrscheinlich|vermutlich|wohl|vielleicht|ich vermute|ich schätze|schätze|schätzungsweise|etwa|ungefähr|um|rund|"
    "gegen|möglicherweise|dürfte|ich würde sagen|würde sagen|ich tippe auf|tippe auf|könnte|"
    "probablement|sans doute|peut-être|je dirais|vers|environ|autour de|à peu près|"
    "sûrement|probablemente|quizás|quizá|tal vez|yo diría|diría|seguramente|hacia|alrededor de|sobre|aproximadamente|"
    "probabilmente|forse|direi|magari|circa|verso il|intorno al|attorno al|all'incirca|"
    "waarschijnlijk|vermoedelijk|misschien|wellicht|ik schat|ik gok|mijn gok|gok|mijn schatting|rond|omstreeks|"
    "ongeveer|ik zou zeggen|zo rond"
)
AND_SO = Phrases(
    "is more likely|is likely|is most likely|more likely|seems likely|is my guess|ish|or so|or thereabouts|"
    "thereabouts|give or take|plus/minus|plus or minus|plus minus|more or less|approx|"
    "approx.|roughly|"
    "probably|i guess|maybe|"
    "perhaps|at a guess|i'd say|i would say|i'd guess|i would guess|i suppose|or near|or about then|oder so|herum|"
    "rum|ungefähr|"
    "vielleicht|wahrscheinlich|vermutlich|schätze ich|würde ich sagen|environ|à peu près|peut-être|je dirais|"
    "probablement|más o menos|aproximadamente|quizás|diría|più o meno|circa|direi|forse|ongeveer|zoiets|denk ik|"
    "misschien|waarschijnlijk|+/-"
)
"""What stands behind a time that is only about right."""

FIRST_HALF = Phrases(
    "first half|1st half|erste hälfte|erste haelfte|première moitié|primera mitad|prima metà|eerste helft"
)
SECOND_HALF = Phrases(
    "second half|2nd half|latter half|zweite hälfte|seconde moitié|deuxième moitié|segunda mitad|seconda metà|"
    "tweede helft"
)

BETWEEN = Phrases(
    "between|from|somewhere between|zwischen|von|entre|de|desde|tra|fra|dal|tra il|fra il|tussen|van"
)
TO = re.compile(
    r"\s*(?:and|to|until|till|up to|through|und|bis|et|a|jusqu'a|jusqu'en|y|e|al|hasta|fino al|en|tot)\s+"
    r"(?:(?:about|around|c|ca|circa|early|late|etwa|ca|il|el|le|l'|the|in|im|en)\.?\s+)*"
)
"""Between the two years of a span, the words of BETWEEN standing before the first."""

FILLERS = Phrases(
    "from|in|of|the|a|year|years|date|dated|dates|made|built|machine|model|is|be|it|it's|as|to|early|late|"
    "as early as|as late "
    "as|around|about|c|ca|circa|von|aus|im|jahr|jahre|baujahr|den|der|die|des|de|du|la|le|les|l'|en|année|années|año|"
    "años|el|los|del|nel|il|lo|gli|anno|anni|uit|van|het|jaar|bouwjaar|jaren"
)
"""Small words that may stand between a bounding word and its time."""

NAMED_TIMES = (
    (Phrases("before the first war|before the first world war|before the great war|before world war one|"
             "before world war i|before ww1|before wwi|pre-ww1|pre ww1|pre-wwi|vor dem ersten weltkrieg|"
             "avant la première guerre|"
             "antes de la primera guerra|prima della prima guerra|voor de eerste wereldoorlog"), "../1913"),
    (Phrases("before the second war|before the second world war|before world war two|before world war ii|before ww2|"
             "before wwii|pre-ww2|pre ww2|pre-wwii|vor dem zweiten weltkrieg|avant la seconde guerre|avant la deuxième "
             "guerre|antes de la segunda guerra|prima della seconda guerra|voor de tweede wereldoorlog"), "../1939"),
    (Phrases("between the wars|interwar|inter-war|zwischenkriegszeit|entre-deux-guerres|entre deux guerres|"
             "entreguerras|entre guerras|tra le due guerre|interbellum|tussen de oorlogen"), "1919/1938"),
    (Phrases("after ww2|after wwii|post ww2|post-ww2|after the second world war|after world war two|after world war ii|"
             "nach dem zweiten weltkrieg|après la seconde guerre|après la deuxième guerre|después de la segunda guerra|"
             "dopo la seconda guerra|na de tweede wereldoorlog"), "1945/.."),
    (Phrases("turn of the century|jahrhundertwende|tournant du siècle|cambio de siglo|fine secolo|eeuwwisseling|"
             "rond de eeuwwisseling"), "1900~"),
    (Phrases("the teens|the 'teens|nineteen-teens"), "191X"),
)  # fmt: skip
