"""The words with which people take a number back, by meaning and language, as people write them."""

from __future__ import annotations

from typing import Final

CORRECTING: Final[dict[str, str]] = {  # stands before the right number, with at most a few fillers between
    "English": "argh|doh|d'oh|hang on|hold on|i now see|now i see|i now read|sorry|oops|oups|ops|whoops|correction|"
    "corrections|i meant|i mean|meant to say|meant|make that|scratch that|strike that|typo|my mistake|mistake|"
    "my bad|should be|should read|should have been|should say|should of course be|should of course have been|"
    "i was wrong|damn|darn|bugger|drat|heck|blast|crap|er|erm|um|uh|hmm|ah no|oh no|duh|scrap that|delete that|"
    "should've been|must be|ought to be|tell a lie|i tell a lie|update|updated|eta|revised|amended|correct is|"
    "the right one is|the right number is|the correct one is|the other way around|slip of the finger|"
    "misread|mistyped|misspelt|no wait|wait|nope|apologies|pardon|pardon me|my eyes|fat fingers|"
    "wrong glasses|corrected|erratum|i misread|edit|edited|instead|no, it's|no it's|no, it is|no, that's|not quite|"
    "but|yet|turns out|it turns out to be|turns out to be|looking again|on closer look|on closer inspection|in fact|"
    "i swapped two|swapped two|transposed|digits swapped|the other way round|read that as|make it|fixed|er no|erm no",
    "German": "quatsch|ähm|äh|hm|verflixt|verdammt|doch nicht|nachtrag|update|zurück|blödsinn|unsinn|ach nein|"
    "ach mist|mist|halt|stopp|moment|entschuldigung|sorry|korrektur|"
    "korrigiere|ich meine|ich meinte|meinte|meine natürlich|nein|nee|tippfehler|schreibfehler|lesefehler|vertippt|"
    "verschrieben|verlesen|verguckt|vertauscht|zahlendreher|richtig ist|richtig wäre|richtig|muss heißen|sondern|"
    "pardon|aber|besser gesagt|vielmehr|es heißt|falsch|irrtum|stimmt nicht|mein fehler|verzeihung|berichtigung",
    "French": "oups|zut|flûte|mince|euh|heu|mise à jour|à corriger|zut|pardon|désolé|désolée|correction|je "
    "voulais dire|je veux dire|plutôt|erreur|non|euh non|euh|"
    "enfin non|mais|excusez-moi|rectification|je me suis trompé|je me suis trompée|me suis trompé|me suis trompée|"
    "au temps pour moi|autant pour moi|faute de frappe|je corrige|il faut lire|mal lu|j'ai mal lu|c'est faux|"
    "chiffres inversés|inversé",
    "Spanish": "digo|vaya|ups|eh|quise poner|actualizo|es decir|uy|ay no|perdón|perdon|corrección|corrijo|"
    "quería decir|quise decir|quiero decir|"
    "mejor dicho|sino|pero|no, es|error|me equivoqué|me he equivocado|disculpa|disculpad|errata|leí mal|lo "
    "correcto es|"
    "está mal|es falso|rectifico|fe de erratas|dedazo|mal escrito|bailé dos cifras|bailado|cambié dos cifras",
    "Italian": "ops|ehm|accidenti|uffa|aggiornamento|anzi no|ma|però|cioè|scusa|scusate|scusi|correzione|"
    "correggo|volevo dire|intendevo|anzi|bensì|errore|"
    "mi sono sbagliato|mi sono sbagliata|sbagliato|sbagliavo|ho sbagliato|pardon|errore di battitura|in realtà|"
    "ho letto male|rettifica|refuso",
    "Dutch": "oeps|eh|ehm|o nee|verdorie|verkeerd overgenomen|o nee toch|of nee|nee wacht|wacht|sorry|correctie|"
    "ik bedoel|ik bedoelde|bedoelde|bedoel|nee|maar|tikfout|"
    "typefout|foutje|fout|excuus|moet zijn|ik heb me vergist|vergist|verkeerd gelezen|klopt niet|vergissing|"
    "juist is|rectificatie|verschreven",
    "Polish": "ups|eee|kurczę|a nie|aktualizacja|wróć|przepraszam|korekta|poprawka|poprawiam|sprostowanie|miało "
    "być|chodziło mi o|nie|lecz|tylko|"
    "literówka|sorry|powinno być|pomyłka|pomyliłem się|pomyliłam się|mój błąd|błąd|źle odczytałem|źle odczytałam|"
    "moment|właściwie",
    "Russian": "ой|эээ|тьфу|чёрт|вру|обновление|но|ой нет|извините|извиняюсь|простите|исправление|исправляю|"
    "поправка|я имел в виду|я имела в виду|"
    "имел в виду|имела в виду|точнее|нет|а|ошибся|ошиблась|ошибка|опечатка|опечатался|опечаталась|вернее|верно|"
    "правильно|перепутал|перепутала|перепутал цифры|перепутала цифры|неверно|неправильно|на самом деле",
    "Swedish": "oj|nä|ähm|attans|öh|uppdatering|hoppsan|förlåt|ursäkta|rättelse|jag menade|jag menar|menade|"
    "menar|nej|nej vänta|vänta|utan|"
    "skrev fel|jag skrev fel|läste fel|fel av mig|ska vara|skall vara|sorry|stavfel|rätt är|stämmer inte|korrigering",
    "Danish, Norwegian": "undskyld|rettelse|beklager|jeg mente|mente|nej|nei|men|skal være|jeg tog fejl|tog fejl|"
    "tok feil|jeg tok feil|skrivefejl|skrivefeil|fejl|feil",
    "Portuguese": "desculpa|desculpe|correção|queria dizer|quis dizer|aliás|não|mas|enganei-me|me enganei|engano|"
    "corrigindo",
    "Czech": "pardon|omlouvám se|oprava|opravuji|myslel jsem|myslela jsem|ne|ale|má být|spletl jsem se|"
    "spletla jsem se|překlep|chyba",
}
AFTER_NOT: Final = "but yet mais sino maar lecz tylko а utan men mas ale sondern bensi ma però pero aber но а a"
"""These correct only after 'not' before the first number, or after 'I wrote'."""

FILLER: Final = (  # may stand between a correcting word and the right number
    "it|it's|its|is|was|that|that's|the|this|number|no|nr|should|be|read|reads|say|says|i|meant|mean|serial|correct|"
    "right|one|of course|actually|actual|a|an|my|me|to be|have been|wait|here|now|again|looked|checked|there|clearly|"
    "in my|post|above|last|two|digits|digit|of|i've|i have|just|turns out|yes|must|try|typed|wrong|way round|on|"
    "wrote|it turns out|correction|for|machine|the machine|of mine|part|"
    "es|ist|war|die|der|das|da|steht|nummer|richtig|lautet|natürlich|heißt|muss|sein|ich|meinte|zwei|ziffern|hab|"
    "habe|mich|doch|ja|also|abgelesen|seriennummer|"
    "c'est|le|la|numéro|bon|deux|chiffres|il faut lire|était|de|ma|part|il|fallait|lire|oui|je|"
    "correcto|el|era|número|dos|cifras|lo|al|escribir|"
    "e|è|giusto|corretto|numero|due|cifre|quello|no|scusate|scusa|"
    "het|nummer|juiste|moet|zijn|goede|wacht|heb|ik|"
    "to|numer|jest|być|powinno|cyfry|dwie|się|ma|"
    "это|номер|правильно|цифры|две|верно|такой|"
    "det|är|ska|vara|numret|siffror|två|vänta|står|"
    "skal|være|o|je|číslo|er|jeg"
)
NOT: Final = (
    "not|cancel|delete|remove|scrap|streiche|streicht|supprimez|verwijder|usuń|удалите|ta bort|misread it as|"
    "misread as|misread this as|mistook it for|took it for|"
    "isn't|is not|wasn't|was not|instead of|rather than|strike|scratch|forget|forget about|forget what i said about|"
    "forget what i wrote about|ignore|please ignore|disregard|never mind|not the|sorry about|sorry for|apologies for|"
    "nicht|kein|keine|statt|anstatt|anstelle von|vergiss|vergesst|vergessen sie|ignoriert|ignoriere|pas|au lieu de|"
    "oubliez|oublie|ignorez|no es|no era|en vez de|en lugar de|olvida|olviden|olvidad|ignora|ignorad|non|invece di|"
    "al posto di|dimenticate|dimentica|ignorate|niet|in plaats van|vergeet|negeer|nie|zamiast|zapomnij o|"
    "zignorujcie|не|вместо|забудьте|забудь|проигнорируйте|inte|istället för|i stället för|glöm|ikke|i stedet for|"
    "glem|não|em vez de|esqueça|ne|místo|zapomeňte|zapomeň"
)
IGNORE: Final = (  # takes a number back though no other is given
    "cancel|delete|remove|scrap|streiche|streicht|supprimez|borrad|cancellate|verwijder|usuń|удалите|ta bort|"
    "ignore|disregard|forget about|ignoriert|ignoriere|ignorez|ignorad|ignorate|negeer|zignorujcie|проигнорируйте"
)
AFTER_ANY: Final = "no"
"""It takes the number back only behind another: 'es K204171, no K204117'."""
NOT_FILLER: Final = (
    "the|a|die|der|das|den|de|la|el|il|le|les|het|it|it's|number|nummer|numéro|numero|número|numer|номер|serial|e|es|"
    "est|is|ist|jest|är|er|my|earlier|first|that|o|dem|what|c'est|è|à|как|to"
)
AND_NOT: Final = (  # 'it is K204171, and not K204117'
    "and not|und nicht|et non|et pas|y no|e non|en niet|a nie|а не|och inte|og ikke|e não|a ne"
)
LOCKS: Final = (  # things with numbers of their own: 'that was the drawer lock'
    "lock|drawer|key|lid|case|box|cabinet|table|motor|stand|invoice|receipt|manual|cover|pedal|lamp"
)
EARLIER: Final = (  # 'I first typed': the number after it is the wrong one
    "first|earlier|previously|originally|wrongly|mistakenly|before|at first|zuerst|vorhin|vorher|zunächst|d'abord|"
    "yesterday|last week|this morning|last time|gestern|heute morgen|hier|ce matin|ayer|ieri|gisteren|wczoraj|вчера|"
    "igår|i går|eerst|eerder|antes|prima|najpierw|wcześniej|раньше|сначала|först|tidigare|først"
)
WROTE: Final = (  # of a number that may be wrong: a 'but' after it corrects
    "read|wrote|said|thought|typed|posted|gave|written|had|have it down as|had it down as|put|misread|misread it as|"
    "took it for|"
    "gelesen|geschrieben|las|schrieb|getippt|dachte|hatte|lu|écrit|tapé|j'avais|j'ai lu|j'ai écrit|escribí|puse|leí|"
    "ho scritto|avevo scritto|ho letto|scrivevo|odczytałem|odczytałam|odczytał|letto|avevo letto|leído|había "
    "leído|прочёл|getypt|schreef|las|geschreven|had|ik had|dacht|napisałem|napisałam|"
    "pisałem|pisałam|miałem|писал|писала|написал|написала|прочитал|прочитала|skrev|läste|trodde|hade|mente"
)
WRONG: Final = (  # said of the number before it
    "a guess|guesswork|geraten|wrong|typo|mistake|mistaken|incorrect|not right|not correct|not it|misread|off "
    "by one|off|a slip|slip|false|"
    "an error|error|the box|the lid|the case|the cabinet|the motor|the table|the cover|the invoice|someone else's|"
    "falsch|verkehrt|tippfehler|irrtum|stimmt nicht|nicht richtig|ein fehler|fehler|der deckel|der koffer|der kasten|"
    "der schrank|der motor|faux|fausse|erroné|erronée|inexact|le coffret|le couvercle|le moteur|une erreur|"
    "incorrecto|equivocado|mal|falso|erróneo|la caja|la tapa|el motor|un error|sbagliato|errato|un errore|la scatola|"
    "il coperchio|il motore|fout|verkeerd|klopt niet|niet goed|niet juist|de kist|het deksel|de motor|błędny|zły|"
    "błąd|pomyłka|nieprawidłowy|skrzynka|неверно|неправильно|неверный|ошибка|ошибочный|не тот|крышка|fel|"
    "stämmer inte|"
    "fel nummer|lådan|locket|forkert|feil|æsken|errado|engano|špatně|chyba|špatné"
)
CONTRAST: Final = (  # between what was first read or written and what is right
    "but|yet|now|actually|in fact|turns out|turned out|however|instead|aber|jetzt|nun|doch|tatsächlich|mais|"
    "maintenant|"
    "en fait|en réalité|pero|ahora|en realidad|ma|però|ora|invece|in realtà|maar|nu|eigenlijk|ale|teraz|naprawdę|но|"
    "теперь|оказалось|на самом деле|men|egentligen|mas|agora"
)
IT_IS: Final = "it is|it's|its|that is|es ist|sie ist|c'est|es|è|het is|to|to jest|это|det är|é|je to"
WAS: Final = "was|were|war|était|fut|era|fu|byl|był|była|было|был|var|estava"
"""After a number that another is like: it is the one that was thought to be."""
WRONG_FILLER: Final = (
    "is|was|were|that|that's|which|it|it's|he|she|they|but|seems|to be|to|be|had|got|all|obviously|clearly|a|an|the|"
    "of|course|i|posted|wrote|gave|typed|earlier|said|yesterday|has|turned|out|apparently|i think|"
    "ist|war|aber|das|die|es|leider|ein|eine|hat|hatte|wohl|sie|er|sich|"
    "est|était|mais|c'est|c'était|ce|il|elle|s'est|qui|une|un|"
    "es|era|está|estaba|pero|eso|la|el|"
    "è|ma|quello|"
    "maar|dat|was|het|hij|zij|ze|een|"
    "jest|był|była|było|to|ale|"
    "это|был|была|было|но|оказался|"
    "är|var|men|det|er|"
    "o|estava|je|bylo"
)
FORGET: Final = (  # after a number: it is taken back though no other is given
    "zurück|forget that|forget it|forget this|scratch that|ignore that|ignore this|ignore it|strike that|never mind|"
    "nevermind|disregard|disregard that|vergiss das|vergiss es|vergesst das|vergesst es|vergessen sie|oubliez|oublie|"
    "olvida|olviden|olvidad|lascia perdere|lasciate perdere|vergeet dat|vergeet het|zapomnij|проигнорируй|забудь|"
    "забудьте|glöm det|glem det|esquece|esqueça|zapomeňte"
)
FORGET_FIRST: Final = "please|bitte|no|nein|oh|sorry|ah|but|actually|s'il vous plaît|por favor|per favore"
ACTUALLY: Final = (
    "actually|in fact|eigentlich|tatsächlich|en fait|en réalité|in realtà|en realidad|eigenlijk|właściwie|"
    "na самом деле|на самом деле|egentligen|faktisk"
)
RIGHT_AFTER: Final = (  # after the right number
    "is right|is correct|is the right one|is the one|is what i meant|it is|muss es heißen|ist richtig|"
    "ist die richtige|est le bon|est la bonne|est correct|es el correcto|es lo correcto|è quello giusto|"
    "is de juiste|is goed|it should be|should it be|ska det vara|jest poprawny|skal det være|правильный|moet "
    "het zijn|"
    "right|is meant"
)
CHANGE: Final = (  # 'change K204117 to K204171'
    "change|replace|correct|amend|read|ändere|ändert|ersetze|ersetzt|korrigiere|bitte|remplacez|remplacer|corrigez|"
    "corriger|cambia|cambiad|cambiar|corrige|corregid|sostituite|cambiate|correggete|wijzig|vervang|verander|zmień|"
    "zmieńcie|popraw|исправьте|замените|поменяйте|ändra|ret|endre"
)
INTO: Final = "to|with|by|as|into|in|zu|durch|auf|par|en|por|a|con|naar|door|na|на|till|til|med"
EITHER: Final = (  # before the second of two that may both be right
    "or|nor|neither|maybe|perhaps|possibly|either|whether|could be|might be|may be|alternatively|else|oder|"
    "vielleicht|"
    "möglicherweise|eventuell|bzw|ou|peut-être|soit|o|u|quizás|quizá|tal vez|acaso|oppure|forse|magari|of|misschien|"
    "wellicht|ofwel|albo|lub|czy|może|być może|или|либо|может|может быть|возможно|eller|kanske|möjligen|kanskje|"
    "måske|talvez|nebo|možná|and|und|et|y|e|en|i|и|och|og"
)
UNLESS: Final = "if|unless|wenn|falls|si|se|als|jeśli|если|om|hvis|unless i|if i|in case i"
