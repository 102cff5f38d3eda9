"""The words with which people name the letter of a number apart from its digits, by meaning and language.

Words are written as people write them and folded by `named_letters`.
"""

from __future__ import annotations

from typing import Final

FRONT: Final[dict[str, str]] = {  # the letter stands before the digits
    "English": "in front of|in front|before|ahead of|ahead|at the front|at the start|at the beginning|as prefix|"
    "as a prefix|prefix|prefixed|first|to the left of|on the left|leading|preceding|initial|just ahead of",
    "German": "davor|vorne|vorn|vorne dran|vorweg|am anfang|vorangestellt|vorangestelltem|vorangestelltes|voran|"
    "vorab|"
    "zuvor|zuerst|vor|links davon|links",
    "French": "devant|avant|au début|en tête|au commencement|d'abord|à gauche",
    "Spanish": "delante|delante de|delante del|antes|antes de|antes del|al principio|al comienzo|al inicio|primero|"
    "a la izquierda",
    "Italian": "davanti|davanti al|davanti a|prima|prima di|prima del|all'inizio|in testa|a sinistra",
    "Dutch": "ervoor|vooraan|voorop|ervóór|aan het begin|vooraf|voor|eerst|links",
    "Polish": "z przodu|na początku|przed|przed nim|na przedzie|najpierw",
    "Russian": "впереди|перед ними|перед цифрами|спереди|в начале|перед|перед ним|вначале|сначала",
    "Swedish": "framför|före|i början|först",
    "Danish, Norwegian": "foran|først|i begyndelsen|i begynnelsen",
    "Portuguese": "na frente|à frente|no início|antes|antes do",
    "Czech": "vpředu|před|na začátku|nejdřív",
}
BACK: Final[dict[str, str]] = {  # the letter stands after the digits
    "English": "at the end|behind|after|after it|at the back|on the end|as suffix|as a suffix|suffix|to the right of|"
    "on the right|at the tail|trailing|last comes|at the very end",
    "German": "dahinter|hinten|am ende|danach|hintendran|hinter|am schluss|zum schluss|rechts davon",
    "French": "derrière|après|à la fin|à droite",
    "Spanish": "detrás|detrás de|detrás del|después|después de|después del|al final|a la derecha",
    "Italian": "dietro|dopo|dopo il|alla fine|in fondo|a destra",
    "Dutch": "erachter|achteraan|aan het eind|aan het einde|op het einde|erna|achter|op het eind",
    "Polish": "na końcu|z tyłu|po nim",
    "Russian": "в конце|после|сзади|за ним",
    "Swedish": "efter|efteråt|i slutet|bakom|på slutet|sist",
    "Danish, Norwegian": "bagefter|til sidst|bak|etter|bagved|efter",
    "Portuguese": "no fim|no final|atrás|depois",
    "Czech": "na konci|za ním|vzadu",
}
FOLLOWED: Final[dict[str, str]] = {  # what is named first stands first
    "English": "followed by|then|and then|next|after that|precedes|before the letter|before a letter",
    "German": "dann|geht voraus|gefolgt von|gefolgt vom|anschließend|danach",
    "French": "puis|ensuite|précède|suivi de|suivi d'|suivie de|suivie d'|suivis de|suivi du|suivi par",
    "Spanish": "luego|precede|precede a|seguido de|seguida de|seguidos de|seguido por|seguida por|después|y luego",
    "Italian": "poi|precede|precede il|seguito da|seguita da|seguiti da|seguito dalla|quindi",
    "Dutch": "dan|gevolgd door|daarna",
    "Polish": "potem|a po nim|po czym|następnie|a potem",
    "Russian": "затем|потом|далее|дальше|за ним",
    "Swedish": "sedan|följt av|därefter|och sedan",
    "Danish, Norwegian": "derefter|efterfulgt af|etterfulgt av",
    "Portuguese": "seguido de|seguida de|depois",
    "Czech": "pak|potom|následuje|následuje číslo",
}
PRECEDED: Final[dict[str, str]] = {  # what is named second stands first
    "English": "follows|after the letter|after a letter|preceded by|prefixed by|prefixed with|led by|with prefix",
    "German": "folgt auf|nach dem buchstaben|angeführt von|eingeleitet von|mit vorangestelltem",
    "French": "suit|après la lettre|précédé de|précédé d'|précédé par|précédée de|précédée d'|précédés de|précédé du",
    "Spanish": "sigue a|después de la letra|precedido de|precedido por|precedida de|precedida por|precedidos de",
    "Italian": "segue|segue il|dopo la lettera|preceduto da|preceduto dalla|preceduta da|preceduti da|preceduto dal",
    "Dutch": "na de letter|voorafgegaan door|vooraf gegaan door",
    "Polish": "po literze|poprzedzony|poprzedzone|poprzedzona|poprzedzony przez|poprzedza go|poprzedza je",
    "Russian": "после буквы|предваряется|предшествует|ему предшествует",
    "Swedish": "efter bokstaven|föregånget av|föregås av|föregått av|inleds med",
    "Danish, Norwegian": "forudgået af|indledt med",
    "Portuguese": "sigue a|después de la letra|precedido de|precedido por|precedida de",
    "Czech": "předchází|předchází mu",
}
STARTS: Final[dict[str, str]] = {
    "English": "starts with|begins with|starts|begins|starting with|beginning with|starts on|the first character is|"
    "first character|the first letter is|first letter|start with|begin with|started with",
    "German": "beginnt mit|fängt mit|anfangend mit|beginnend mit|fängt an mit|anfangsbuchstabe|kennbuchstabe|"
    "vorbuchstabe|das erste zeichen ist",
    "French": "commence par|commençant par|débute par|première lettre",
    "Spanish": "empieza con|empieza por|comienza con|comienza por|la primera letra es|empezando por",
    "Italian": "inizia con|comincia con|comincia per|inizia per|la prima lettera è",
    "Dutch": "begint met|beginnend met|beginletter|de eerste letter is|start met",
    "Polish": "zaczyna się od|zaczyna się na|zaczyna się literą|pierwsza litera to|zaczynający się na",
    "Russian": "начинается с|начинается на|начинается с буквы|первая буква",
    "Swedish": "börjar med|börjar på|inledande|första bokstaven är",
    "Danish, Norwegian": "starter med|begynder med|starter på|begynner med|begynder på",
    "Portuguese": "começa com|começa por",
    "Czech": "začíná|začíná na|začíná písmenem",
}
ENDS: Final[dict[str, str]] = {
    "English": "ends in|ends with|ends on|ending in|ending with|the last character is|last character|last letter|"
    "the last letter is|finishes with|finishing with|end in|end with",
    "German": "endet auf|endet mit|hört auf mit|endbuchstabe|endend auf",
    "French": "se termine par|finit par|terminé par|se terminant par|dernière lettre",
    "Spanish": "termina en|termina con|acaba en|acaba con|terminado en|la última letra es",
    "Italian": "finisce con|finisce per|termina con|termina per|termina in",
    "Dutch": "eindigt op|eindigt met|de laatste letter is|eindigend op",
    "Polish": "kończy się na|kończy się literą|kończy się|ostatnia litera to",
    "Russian": "заканчивается на|кончается на|оканчивается на|последняя буква",
    "Swedish": "slutar på|slutar med|sista bokstaven är",
    "Danish, Norwegian": "slutter med|ender på|slutter på|ender med",
    "Portuguese": "termina em|termina com|acaba em",
    "Czech": "končí|končí na|končí písmenem",
}
LETTER: Final = (
    "letter|capital|capital letter|letters|upper case|uppercase|initial|series|buchstabe|buchstaben|großes|großem|"
    "großen|großer|großbuchstabe|vorsatzbuchstabe|kennbuchstabe|zusatzbuchstabe|großgeschrieben|lettre|letra|"
    "lettera|hoofdletter|litera|literą|litery|literka|буква|"
    "буквой|букву|буквы|литера|литерой|латинская|латинской|русская|latin|lateinisches|bokstaven|bokstav|bogstavet|"
    "bogstav|písmeno|písmenem|písmeno velké|majuscule|mayúscula|maiuscola|stor|stort|serie|série|serii|серии|серия"
)
GLUE: Final = (  # may stand between a number and its letter, or between both and the word that says where
    "a|an|the|ein|eine|einem|einen|einer|der|dem|den|das|un|une|la|le|l'|d'|una|el|il|een|de|ett|en|um|uma|jest|to|"
    "there|there's|there is|there are|there stands|it's|it|that|this|them|him|these|those|its|with|has|have|and|plus|"
    "having|it has|is|are|was|of|on|stands|stand|comes|come|goes|just|right|only|also|another|immediately|directly|"
    "straight|still|little|big|you can see|i can see|one sees|sieht man|on voit|se ve|si vede|zie je|widać|"
    "видно|ser man|tiny|bit|a bit|separate|single|lone|faint|own|its own|on its own|stamped|"
    "engraved|printed|gap|space|about|as|wide|thumb|finger|"
    "large|small|in|but|mit|und|ist|steht|sind|kommt|kommen|noch|auch|ganz|direkt|gleich|"
    "dran|an|der nummer|avec|et|il y a|est|on voit|y|con|e|lleva|hay|va|c'è|ha|poi c'è|met|staat|komt|er|nog|z|ze|"
    "i|oraz|stoi|jeszcze|с|со|и|стоит|идёт|идет|идут|ещё|он|оно|он начинается|med|och|står|det|det är|kommer|og|der "
    "står|com|tem|s|je|stojí|encore|ook nog|ahead|serial|serial number|seriennummer|numéro de série|von|vom|di|del|"
    "van|digits|digit|number|numbers|number is|the number|number's|letter's|figures|figure|numerals|numeral|"
    "remaining|the rest|rest|rest is|ziffern|ziffer|nummer|zahl|zahlen|chiffres|numéro|número|numero|cifras|cifre|"
    "cijfers|cyfry|cyfr|numer|numerem|цифры|цифрами|цифр|номер|номером|номера|siffror|siffrorna|tal|tall|čísla|"
    "číslo|número es|lautet|son|sono|zijn|są|är|four|five|six|seven|eight|vier|fünf|sechs|sieben|cinq|sept|seis|"
    "siete|"
    "sei|sette|zes|zeven|sześć|siedem|шесть|семь|sex|sju|die|les|los|las|i|nr|n°|dalej|reszta|der rest|gefolgt|w|"
    "что|это|у неё|u|przodu|et ensuite|og så|så"
)
NOT_A_NUMBER_OF_DIGITS: Final = (
    "digits|figures|numerals|numbers|ziffern|stellen|chiffres|cifras|cifre|cijfers|cyfr|цифр|siffror"
)
AS_IN: Final = (
    "for|as in|like|wie|wie in|comme|comme dans|come|come in|como|como en|de|als|als in|jak|jak w|как|как в|som|"
    "som i|"
    "como em|jako|от слова|is for"
)
NO_SUCH: Final = (  # 'no K in front', 'without a K'
    "no|not|without|isn't|never|nor|neither|kein|keine|keinen|ohne|nicht|pas|sans|aucun|aucune|sin|ningún|ninguna|"
    "senza|nessuna|nessun|zonder|geen|niet|bez|nie ma|żadnej|без|нет|не|inget|ingen|"
    "utan|inte|uden|ikke|uten|sem|ne|není"
)
