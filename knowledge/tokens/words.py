"""Words that help to read what stands around a number, beside the cues themselves."""

from __future__ import annotations

from typing import Final

from knowledge.tokens import correction_words, letter_words
from knowledge.tokens.fold import fold_word


def folded(words: str) -> frozenset[str]:
    """Return words, with spaces between them, as they stand in folded text."""
    return frozenset(map(fold_word, words.split()))


BELONGING: Final = folded(  # 'needles for 204117', 'photo of K204117': not the needles' or the photo's own number
    "for of in with on für von zu in mit pour para per por voor van bij dla do для от к för till av med for til af pro"
)
LINKS: Final = folded("is was being = ( ist war est es e jest to är var er it's je : lautet")
REFERENCES: Final = folded(
    "ref refs reference réf référence referencia riferimento rif referentie art article artikel artikelnr item"
)
IGNORED: Final = folded(correction_words.IGNORE.replace("|", " "))
THAT: Final = folded(
    "that which das c'est qui esto eso ció questo dat to это det only just nur seulement solo maar tylko bara"
)
CODES: Final = folded("code codes código codice kod код kode kód passcode pin clave")
CODE_OF_A_MACHINE: Final = folded("serial date year machine factory bed letter datums")  # before 'code'
SOLD: Final = folded(
    "sold verkauft vendue vendu vendida vendido venduta venduto verkocht sprzedana sprzedane продана såld"
)
"""Before four digits that may be a year, these tell when, not how much."""
HOLDERS: Final = folded(  # they have a machine, or hold what is written of it: 'record card: No K/204/552'
    "club society group association family record card file collection museum house room garage shed verein gruppe "
    "museum sammlung karte haus musée groupe famille maison museo gruppo famiglia casa grupo familia vereniging groep "
    "familie kaart huis klub grupa muzeum rodzina клуб музей семья förening föreningen grupp familjen huset table "
    "hall side"
)
OPENERS: Final = folded(  # behind a full stop they open a sentence: 'in a case. The number is ...'
    "the my it it's its this there i he she we they her his on der die das es mein meine ich le la les il elle mon ma "
    "je el mi lo het mijn ik det den min jag"
)
CAST: Final = folded("cast gegossen eingegossen fondu fuso fundido gegoten odlany отлит gjuten")
MAKING: Final = folded(  # with 'number' beside it: the number a maker gave
    "factory works maker maker's makers manufacturer's manufacturers manufacturing production build fabrica fábrica "
    "fabbrica usine fabriek fabrieks fabryki завода zakładu fabrik werk werks hersteller fabriks výrobce fabricante "
    "fabricant fabbricante fabrikant fabricage fabbricazione producenta"
)
MACHINES: Final = folded(  # with 'number' beside it: 'number of the machine: 318'
    "machine machine's machines maschine maschinen macchina máquina maszyny maszyna машины машинки машинка maskinen "
    "maskinens maskin symaskin symaskinen symaskinens naaimachine nähmaschine stroje stroj"
)
TALKED_ABOUT: Final = folded(
    "post posts photo photos foto bild picture entry question frage pregunta domanda vraag message item"
)
"""A number with a letter beside these is not theirs: 'correction to my post: K204117'."""
VEHICLE_PLATES: Final = frozenset(
    {("licence", "plate"), ("license", "plate"), ("registration", "plate"), ("car", "plate")}
)
TELLING: Final = frozenset(
    fold_word(word)
    for word in (
        "own owns bought inherited picked acquired got have found see saw think thought believe guess make out made "
        "wrote typed copied noted photographed "
        "answer result "
        "said says tells correct right real full whole complete digits finally again definitely probably likely "
        "gefunden "
        "glaube denke sehe gesehen erkenne lesen lese notiert abgeschrieben trouvé vois crois pense lu visto creo "
        "veo encontrado "
        "trovato vedo penso credo letto gevonden zie denk lees widzę znalazłem znalazłam myślę odczytałem вижу нашёл "
        "нашла думаю "
        "прочитал прочитала hittade ser tror läste black white red green first second third other older newer left "
        "right eldest "
        "not niet nicht pas nie не inte ikke sorry oops correction but sondern maar mais ma pero lecz utan men bed "
        "she he they she's it's elle il ella él lei lui sie er ze zij hij ona on hon han она он "
        "bras plaque socle bâti platte braccio pillar base head arm starts starting begins beginning zero leading "
        "letter prefix end front digit "
    ).split()
) | frozenset(
    fold_word(word)
    for table in (
        correction_words.CORRECTING,
        {"any": correction_words.EITHER},
        {"any": correction_words.NOT},
        letter_words.FRONT,
        letter_words.BACK,
        letter_words.FOLLOWED,
        letter_words.PRECEDED,
        letter_words.STARTS,
        letter_words.ENDS,
    )
    for phrases in table.values()
    for word in phrases.replace("|", " ").split()
)


PLEASANTRIES: Final = frozenset(
    map(
        fold_word,
        "hi hello hey thanks thank please pls help anyone anybody anything know this either maybe perhaps correct "
        "one help "
        "hallo danke bitte hilfe jemand bonjour salut merci svp hola gracias favor ciao grazie prego buongiorno hoi "
        "dank bedankt "
        "graag cześć dzień dobry proszę dziękuję здравствуйте привет спасибо пожалуйста hej tack snälla goddag tak "
        "takk olá obrigado "
        "ahoj dobrý den děkuji can could you look up check find do does what about how old ideas idea any info tell "
        "me who has got "
        "five six seven eight digit digits stellen stellig yes no oui si ja nein nee tak da nej ne and then now "
        "again all all there good morning evening dear group everyone folks".split(),
    )
)

ON_A_MACHINE: Final = folded(  # where a number stands on a machine
    "handwheel hand-wheel flywheel wheel bed base arm pillar head plate nameplate faceplate badge "
    "plaque brass "
    "underneath underside rim casing treadle lid hinge bracket medallion lever leg spool sticker slide slider "
    "race crank bobbin-race "
    "schlitten schieber kurbel haube deckel handrad grundplatte bodenplatte platte plakette schild typenschild "
    "plättchen sockel arm fuß stirnplatte "
    "unterseite "
    "chapa placa base brazo volante pie bastidor parte debajo "
    "plaque socle bras volant bâti dessous plaquette "
    "targhetta basamento piastra braccio volantino base piede sotto "
    "plaatje bodemplaat plaat arm voet vliegwiel onderkant typeplaatje "
    "tabliczka tabliczce płyta płycie ramię ramieniu kole spodzie podstawie podstawa "
    "табличка табличке станина станине платформа платформе рукав рукаве маховик маховике шильдик шильдике корпусе "
    "skylt skylten plåt plåten bottenplatta bottenplattan armen foten undersidan svänghjulet "
    "pladen skiltet plakette štítek štítku"
)

MACHINE: Final[dict[str, str]] = {  # beginnings of words: the message is about a machine, or asks for a date or a maker
    "English": "machin sewing serial treadle handcrank hand-crank crank on\u00a0the\u00a0bed bed-plate bedplate "
    "underside nameplate pillar bobbin shuttle dating "
    "made built manufactur factory identif stitch",
    "German": "maschin naehmasch nähmasch herstell gebaut baujahr fabrik gefertigt nähm grundplatte typenschild "
    "seriennr alter",
    "French": "machine coudre fabriqu datation dater fabrication socle",
    "Spanish": "máquina coser fabric fechar antigüedad grabad",
    "Italian": "macchin cucire fabbric matricola datare basamento",
    "Dutch": "naaimach machine gebouwd gemaakt bouwjaar fabriek bodemplaat",
    "Polish": "maszyn szyci wyprodukow fabry seryjn rocznik",
    "Russian": "машин швейн выпущ выпуск заводск серийн изготовл произвед табличк платформ",
    "Swedish": "symaskin maskin tillverk gjord byggd serienum plattan bottenplatta",
    "Danish, Norwegian": "symaskine fremstillet laget produser fabrik",
    "Portuguese": "costura fabricada máquina",
    "Czech": "šicí stroj vyrob",
}

ASKS: Final[dict[str, str]] = {  # questions that a machine's number answers, whole phrases
    "English": "how old|what year|which year|when was|what age|how long ago|date this|date it|date mine|can you date|"
    "any idea|anyone know|maker of|who made|what model|which model|from when|year of|age of|info on|information on|"
    "tell me about|"
    "help with|look up|mean anything|know about|anything about|any info|can you tell|what is this|what have i|what "
    "can you",
    "German": "wie alt|welches jahr|welches baujahr|von wann|aus welchem|wann wurde|welches modell|was ist das|"
    "kennt jemand|weiß jemand",
    "French": "quel âge|quelle année|de quand|date de|quel modèle|quelqu'un connaît|qui connaît",
    "Spanish": "cuántos años|qué año|de cuándo|qué edad|qué modelo|alguien conoce|alguien sabe",
    "Italian": "quanti anni|che anno|di quando|quale anno|che modello|quale modello|qualcuno conosce|qualcuno sa",
    "Dutch": "hoe oud|welk jahr|welk jaar|van wanneer|welk model|uit welk|kent iemand|weet iemand",
    "Polish": "ile lat|jak stara|który rok|z którego|jaki model|jaki rok|ktoś zna|ktoś wie",
    "Russian": "сколько лет|какой год|какого года|когда|какая модель|что за|кто знает",
    "Swedish": "hur gammal|vilket år|när är|när blev|när tillverkades|vilken modell|vet någon|känner någon",
    "Danish, Norwegian": "hvor gammel|hvilket år|hvornår",
    "Portuguese": "quantos anos|que idade|que ano|qual a idade",
    "Czech": "jak stará|jak starý|který rok|z jakého",
}

YEARS: Final = folded(  # in a short question they ask for the year of the number: 'anno di 318842?'
    "year dated when jahr jahrgang baujahr wann année millésime quand año cuándo anno quando jaar jaartal bouwjaar "
    "wanneer rok rocznik kiedy roku год года когда årtal årgång år när hvornår årstal ano"
)

COMPARES: Final[dict[str, str]] = {  # machines set side by side, and talk of the digits themselves, whole phrases
    "English": "older|oldest|age?|the age|digit|figure is|figures are",
    "German": "älter|älteste|ziffer",
    "French": "plus ancien|plus vieux|plus vieille|l'aînée|chiffre",
    "Spanish": "más vieja|más antigua|cifra|se lee|no se ve",
    "Italian": "più vecchi|più antic|si legge",
    "Dutch": "ouder|oudste|cijfer",
    "Polish": "starsza|starszy|najstarsz|cyfr",
    "Russian": "старше|старее|цифр",
    "Swedish": "äldre|äldst|siffr",
    "Danish, Norwegian": "ældre|ældst|eldre|eldst",
    "Portuguese": "mais antiga|mais velha",
    "Czech": "starší|číslic",
}
