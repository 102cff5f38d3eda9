"""Phrases that bound a time, in six languages; single words are those of questions (`knowledge/hearing/years.py`)."""

from __future__ import annotations

import re

from knowledge.expert_answers.plain import Phrases

_NOT = (
    "rule out|rules out|ruled out|excludes|not|no|never|nothing|none|can't|cannot|can not|couldn't|won't|isn't|"
    "hardly|nicht|kaum|nichts|pas|rien|nada|non|niente|niet|niets"
)
_EARLIER = (
    "before|earlier than|older than|prior to|früher als|älter als|vor|avant|antérieur* à|plus ancien* que|"
    "plus vieux que|plus vieille que|antes de|antes del|anterior a|más antigu* que|más viej* que|prima del|prima di|"
    "anteriore al|più vecchi* del|voor|vóór|eerder dan|ouder dan"
)
_LATER = (
    "after|later than|newer than|younger than|past|nach|später als|jünger als|neuer als|après|postérieur* à|"
    "plus récent* que|plus tard que|después de|después del|posterior a|más tarde de|más nuev* que|dopo il|dopo|"
    "posteriore al|oltre il|oltre|più recente del|na|later dan|jonger dan|nieuwer dan"
)
NOT = Phrases(_NOT)

DENIED_BEFORE = Phrases(_EARLIER, behind=_NOT)
DENIED_AFTER = Phrases(_LATER, behind=_NOT)
"""'Can't be older than', 'nothing before'."""
NOT_BEFORE = Phrases(
    "at the earliest in|earliest|earliest possible|from at least|at least|frühestens|ab|au plus tôt|à partir de|"
    "como pronto|a partir de|desde|al più presto|a partire dal|dal|op zijn vroegst|vanaf|sinds"
)
NOT_AFTER = Phrases(
    "at the latest|at the latest in|latest|latest possible|up to and including|by|until|till|up to|up until|"
    "before or in|spätestens|bis|au plus tard|au plus tard en|jusqu'en|jusqu'à|a más tardar|a más tardar en|"
    "como muy tarde en|hasta|al più tardi nel|al più tardi|entro il|fino al|uiterlijk|uiterlijk in|tot|op zijn laatst"
)
BEFORE = Phrases(_EARLIER, "pre|pre-|before the . of|before the . in")
AFTER = Phrases(_LATER, "post|post-|after the . of|after the . in")

_THAT = "that|then|this|it|dem|diesem|cela|ça|eso|esto|quello|dat"
BEFORE_THAT = Phrases(_THAT, behind=_EARLIER, apart=0)
AFTER_THAT = Phrases(_THAT, behind=_LATER, apart=0)
"""The time that is meant was named before."""
EARLIER = Phrases("so .. earlier|so .. older|also .. früher|also .. älter|davor")
LATER = Phrases("so .. later|so .. newer|also .. später|also .. jünger|danach")
"""The same without the word for it."""
OR_LATER = Phrases(
    "or .. later|or .. after|or .. newer|at least|mindestens|au moins|al menos|como mínimo|almeno|minstens|or later|"
    "or after|or newer|onwards|onward|and later|and after|at the earliest|at the very earliest|at earliest|earliest|"
    "upwards|oder später|oder jünger|und später|frühestens|aufwärts|ou plus tard|ou après|au plus tôt|o después|"
    "o más tarde|o posterior|en adelante|como pronto|o dopo|o più tardi|o successiv*|in poi|al più presto|of later|"
    "of erna|op zijn vroegst|en later"
)
OR_EARLIER = Phrases(
    "or .. earlier|or .. before|or .. older|or earlier|or before|or older|and earlier|and before|at the latest|"
    "at the very latest|at latest|latest|oder früher|oder älter|und früher|spätestens|ou plus tôt|ou avant|"
    "au plus tard|o antes|a más tardar|como muy tarde|o prima|al più tardi|of eerder|of vroeger|of ouder|uiterlijk|"
    "op zijn laatst"
)
HEDGES = Phrases(
    "probably|probaly|probly|prob|prob.|likely|most likely|very likely|possibly|poss|perhaps|maybe|presumably|"
    "i'd say|i would say|i'd have said|i'd guess|i would guess|i guess|my guess|best guess|guess|educated guess|"
    "my guess is|gut feeling|somewhere around|somewhere about|somewhere near|something like|sometime around|"
    "in the region of|near enough|more or less|give or take|say|or thereabouts|thereabouts|or so|ish|-ish|or near|"
    "or a bit|approximately|approx|approx.|circa|c|c.|ca|ca.|about|'bout|bout|around|arround|aroud|abuot|roughly|abt|"
    "abt.|estimate|estimated|i estimate|at a guess|within . year|within . year or two of|within .. of|i suppose|"
    "i suspect|i'd put it at|i'd put it around|i'd date it to|i'd date it|might be|may be|could be|wahrscheinlich|"
    "vermutlich|wohl|vielleicht|ich vermute|ich schätze|schätze|schätzungsweise|etwa|ungefähr|um|rund|gegen|"
    "möglicherweise|"
    "dürfte|ich würde sagen|würde sagen|ich tippe auf|tippe auf|könnte|probablement|sans doute|peut-être|je dirais|"
    "vers|environ|autour de|à peu près|sûrement|probablemente|quizás|quizá|tal vez|yo diría|diría|seguramente|hacia|"
    "alrededor de|sobre|aproximadamente|probabilmente|forse|direi|magari|circa|verso il|intorno al|attorno al|"
    "all'incirca|waarschijnlijk|vermoedelijk|misschien|wellicht|ik schat|ik gok|mijn gok|gok|mijn schatting|rond|"
    "omstreeks|ongeveer|ik zou zeggen|zo rond"
)
AND_SO = Phrases(
    "is more likely|is likely|is most likely|more likely|seems likely|is my guess|ish|or so|or thereabouts|"
    "thereabouts|give or take|give or take .. year*|plus/minus|plus or minus|plus minus|plus or minus .. year*|"
    "more or less|approximately|approx|within .. year*|a year or two either way|either way|approx.|roughly|probably|"
    "i guess|maybe|perhaps|at a guess|i'd say|i would say|i'd guess|i would guess|i suppose|or near|or about then|"
    "oder so|herum|rum|ungefähr|vielleicht|wahrscheinlich|vermutlich|schätze ich|würde ich sagen|environ|à peu près|"
    "peut-être|je dirais|probablement|más o menos|aproximadamente|quizás|diría|più o meno|circa|direi|forse|"
    "ongeveer|zoiets|"
    "denk ik|misschien|waarschijnlijk|+/-|+-|±"
)
"""What stands behind a time that is only about right."""

FIRST_HALF = Phrases(
    "first half|1st half|erste hälfte|erste haelfte|première moitié|primera mitad|prima metà|eerste helft"
)
SECOND_HALF = Phrases(
    "second half|2nd half|latter half|zweite hälfte|seconde moitié|deuxième moitié|segunda mitad|seconda metà|"
    "tweede helft"
)

PART = Phrases("early|mid|middle|late")
"""Behind a decade: 'the 1890s, early'."""
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
    "as early as|as late as|around|about|c|ca|circa|von|aus|im|jahr|jahre|baujahr|den|der|die|des|de|du|la|le|les|l'|"
    "en|année|années|año|años|el|los|del|nel|il|lo|gli|anno|anni|uit|van|het|jaar|bouwjaar|jaren"
)
"""Small words that may stand between a bounding word and its time."""

_FIRST_WAR = (
    "ww1|wwi|ww i|world war 1|world war one|world war i|first world war|great war|ersten weltkrieg*|erster weltkrieg|"
    "première guerre mondiale|première guerre|primera guerra mundial|prima guerra mondiale|eerste wereldoorlog"
)
_SECOND_WAR = (
    "ww2|wwii|ww ii|world war 2|world war two|world war ii|second world war|zweiten weltkrieg*|zweiter weltkrieg|"
    "seconde guerre mondiale|deuxième guerre mondiale|segunda guerra mundial|seconda guerra mondiale|"
    "tweede wereldoorlog"
)
_AT_THAT_TIME = (
    "around|about|during|in|circa|c|c.|ca|time of|years of|um|während|im|im laufe|rund um|pendant|durant|vers|"
    "durante|hacia|intorno|tijdens|rond"
)

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
    (Phrases(_FIRST_WAR, behind="after|post|post-|since|nach|nach dem|seit dem|après|depuis|después de|dopo|na|sinds",
             apart=1), "1918/.."),
    (Phrases(_FIRST_WAR, behind=_AT_THAT_TIME, apart=1), "1914/1918"),
    (Phrases(_SECOND_WAR, behind=_AT_THAT_TIME, apart=1), "1939/1945"),
    (Phrases("turn of the century|jahrhundertwende|tournant du siècle|cambio de siglo|fine secolo|eeuwwisseling|"
             "rond de eeuwwisseling"), "1900~"),
    (Phrases("the teens|the 'teens|nineteen-teens"), "191X"),
)  # fmt: skip
