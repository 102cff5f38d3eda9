"""The words by which an answer's clauses do something: ask, promise, quote, speak of another machine.

Phrases are parted by '|' and looked for as `plain.Phrases` says; English, German, French, Spanish, Italian and Dutch.
"""

from __future__ import annotations

from knowledge.expert_answers.plain import Phrases

_THE_ASKER = "him|her|them|the owner|the asker|the lady|the chap|the person|the poster|the member"
ASKS = Phrases(
    "tell me how|tell us how|tell me what|tell us what|tell me whether|tell us whether|tell me if|tell us if",
    "want to see|wants to see|have to see|must see",
    "ask what|ask which|ask where|ask when|ask how|ask who|ask him|ask her|ask them",
    "|".join(f"{one} {must}" for one in f"he|she|they|{_THE_ASKER}".split("|") for must in
             ("should", "ought to", "needs to", "need to", "has to")),
    "then we know|then we'll know|then i can tell|then i'll know|servono|servirebbero",
    "let him|let her|let them|have him|have her|have them|get him|get her|get them|he should|she should|they should|"
    "picture .. from them|photo .. from them|somebody get a|someone get a",
    "if he tell*|if she tell*|if they tell*|if he send*|if she send*|if they send*|if he show*|if she show*|"
    "if he can|if she can|if they can|if he count*|if she count*|if the owner|unless he|unless she|before i commit|"
    "before i can say|before we can say|wenn er uns|wenn sie uns|s'il nous|si elle nous|si nos dice|si nos manda|"
    "se ci dice|se ci manda|als hij ons|als zij ons|request* .. rubbing|request* .. photo|would help|help* to know|"
    "help* to see|good to know|good to see|nice to know|useful to know|useful to see|interesting to know|laat hem|"
    "laat haar|laat ze|que mire|que cuente|que mande|que diga|que nos|il faudrait|faudrait|qu'il compte|"
    "qu'elle compte|qu'il regarde|qu'elle regarde|er soll|sie soll|soll mal|potete far*|fatevi mandare|fatti mandare|"
    "fargli|farsi mandare|vom fragesteller|von der fragestellerin|dall'utente|al propietario",
    "|".join(f"ask {one}|tell {one} to|have {one} count|get {one} to|have {one} look" for one in _THE_ASKER.split("|")),
    "like to know|love to know|want to know|wonder if|wonder whether|curious whether|ask for|ask if|ask whether|"
    "ask about|ask back|please ask|let's ask|i'd ask|we should ask|need* to ask|can you ask|could you ask|could he|"
    "could she|could they|can he|can she|can they|would he|would she|need* .. photo|need* .. photos|need* .. picture|"
    "need* .. pictures|need* .. pic|need* .. pics|need to see|need to know|would need to|i'd like to see|"
    "i would like to see|would like a|could do with|can we have|can we get|can we see|can i see|could we have|"
    "could we see|get a photo|get a picture|send .. photo|send .. picture|a clearer|without a photo|"
    "without a picture|without photos|without pictures|without a better|without seeing|more photos|more pictures|"
    "better photo|better picture|check with the asker|check with the owner|find out|please count|"
    "count the digits again|count again|look again|please check|please look|please send",
    "frag bitte|fragt bitte|fragen sie bitte|merci de|veuillez|prière de|demander .. photo*|demander .. combien|"
    "pedir .. foto*|pide .. foto*|pedidle|pídele|chiedere .. foto|vraag .. om|vraag .. foto*",
    "frag* .. nach|frag* .. ob|fragt .. ob|fragt .. nach|bitte .. fragen|bitte .. nachsehen|bitte .. zählen|"
    "man müsste|frag* ihn|frag* sie|fragt ihn|fragen sie|bitte fragen|bitte frag*|frag* mal|frag* nach|nachfragen|"
    "bitte nachfragen|brauche ein foto|brauchen ein foto|brauche .. foto|brauche .. bild|brauchen .. foto|"
    "brauchen .. bild|bitte .. foto|bitte .. bild|kann er|kann sie|könnte er|könnte sie|soll er|soll sie|ohne foto|"
    "ohne bild",
    "demande*-lui|demande* lui|demande* si|demandez-lui|demandez lui|demande* à|il faudrait une photo|"
    "il faut une photo|il me faut|il nous faut|faudrait savoir|peut-il|peut-elle|sans photo|besoin d'une photo|"
    "une photo de",
    "pregunta*|preguntale|habría que preguntar|falta saber|falta una|necesito saber|necesitamos saber|"
    "necesito .. foto|necesitamos .. foto|hace falta|sin foto|puede mandar|que mande",
    "chiedi*|chiedigli|chiedile|chiedetegli|chiedete*|bisogna chiedere|bisognerebbe|bisogna sapere|serve una foto|"
    "servirebbe|senza foto|potrebbe mandare|può mandare",
    "vraag hem|vraag haar|vraag even|vraag of|vragen of|graag een foto|heb .. foto nodig|foto nodig|zonder foto|"
    "kan hij|kan zij|zou hij",
)
"""The asker is to be asked something."""

_WE_DO = (
    "do|cover|covered|handle|deal|dealt|collect|follow|treat|touch|keep|look after|work on|work with|concern"
)
_OTHER = "another|a different|different|some other|a foreign|an unknown|unknown|someone else's|somebody else's"
_FIRMS = "brand|make|maker|firm|company|manufacturer|hobby|club|trade"
_OTHERS_TRADE = "people|club|forum|group|crowd|folk|folks|collectors|specialists|museum|enthusiasts"
NOT_OURS = Phrases(
    "not for us|not us|outside what|nothing to do with us|we have nothing to do with",
    "haben wir nichts zu tun|haben wir nichts am hut|nichts mit uns zu tun|wir .. nichts zu tun|rien à voir avec nous|"
    "n'est pas pour nous|pas pour nous|non .. per noi|non per noi|no es para nosotros|nada que ver con nosotros|"
    "niet voor ons|hebben wij niets mee|hebben we niets mee|hebben wij niks mee|hebben we niks mee",
    "no lists for|no lists of|no list for|no list of",
    "|".join(f"not .. {we} {verb}" for we in ("we", ".. we") for verb in _WE_DO.split("|")),
    "out of our|we're .. people|we are .. people",
    "|".join(f"we {no} .. {verb}" for no in ("don't", "do not", "never", "no longer", "only", "just", "aren't")
             for verb in _WE_DO.split("|")),
    "we only know|we specialise in|we specialize in|we do .. only|we cover .. only|we do .. and nothing else|"
    "not .. one we|not .. make we|not .. what we|nothing we|no .. we know|not something we|not a make|not one for us",
    "|".join(f"{one} {what}" for one in _OTHER.split("|") for what in _FIRMS.split("|")),
    "isn't covered|not covered|isn't .. covered|not for this|nothing for this|nobody .. our|never .. ours",
    "outside the .. makers|outside the .. firms|wrong address|an import|embroidery computer|outside our scope|"
    "out of scope|outside our|beyond our|not in our remit|off topic|off-topic|wrong group|wrong club|wrong forum|"
    "belongs elsewhere|belongs to another|belongs to a different|belongs in another|belongs in .. group|"
    "belongs in .. club|belongs in .. forum|belongs to .. group|toys aren't|toys are not|we can't help|"
    "we cannot help|can't help you there|we have nothing on|can't do anything|please close|close this|close it",
    "nicht zuständig|gehört nicht hierher|gehört nicht in unser|gehört nicht zu|falsche gruppe|machen wir nicht|"
    "führen wir nicht|sammeln wir nicht|behandeln wir nicht|kennen wir nicht|andere firma|andere marke|fremdfabrikat|"
    "anderer hersteller",
    "ne nous concerne pas|nous ne .. pas|on ne fait pas|on ne suit pas|hors sujet|pas .. .. chez nous|"
    "inconnue chez nous|inconnu chez nous|n'est pas à nous|autre marque|autre fabricant",
    "no la llevamos|no lo llevamos|no llevamos|no la tratamos|no trabajamos|no nos dedicamos|no es lo nuestro|"
    "no nos corresponde|no es .. nuestr*|otra marca|otro fabricante",
    "non .. trattiamo|non .. occupiamo|non .. seguiamo|non .. copriamo|non .. facciamo|non fa per noi|"
    "non ci riguarda|non di nostra competenza|altra marca|altro fabbricante",
    "gaan .. niet over|doen wij niet|doen we niet|behandelen wij niet|behandelen we niet|volgen we niet|"
    "volgen wij niet|niet .. dat wij|geen .. dat wij|geen .. dat we|hoort niet bij ons|niks voor ons|valt buiten|"
    "ander merk|andere fabrikant",
)
"""The machine is none that the group knows about."""

NONE_OF_THE_FIRMS = Phrases(
    "the .. makers|the .. firms|the .. makes|any of ours|any of the four", behind="not|none|never|isn't|nothing|nobody"
)
"""The same, where the firms are counted."""
REFERRED = Phrases(
    "|".join(f"{what} for the .. {who}|{what} for .. {who}" for what in
             "question|one|case|job|matter|something|machine".split("|") for who in _OTHERS_TRADE.split("|")),
    "belongs in the|belongs with the|belongs to the|belongs under",
    "|".join(f"try the .. {who}|ask the .. {who}|better ask .. {who}" for who in _OTHERS_TRADE.split("|")
             if who not in ("group", "museum")),
)
"""Others know it; where they are none of a known maker's, the machine is none of ours."""

NOT_OUR = Phrases(
    "not .. .. ours|isn't .. .. ours|none .. ours|no .. ours|not .. our|isn't .. our|none .. our|nothing .. our|"
    "nothing .. us|none .. them",
    "nicht .. unser*|kein* .. unser*|nicht .. uns|kein* .. uns|nichts .. uns",
    "pas .. nôtres|pas .. notre|pas .. nos|pas .. nous|aucun* .. nos|rien .. nous",
    "no .. nuestr*|no .. nosotros|nada .. nosotros",
    "non .. nostr*|nessun* .. nostr*|niente .. noi",
    "niet .. onze|niet .. ons|geen .. onze|geen .. ons|niets .. ons",
)
"""The same, where 'our' is said of the group and not of its books: see EXCEPTED."""

NO_SEWING_MACHINES = Phrases(
    "not .. a sewing machine|isn't .. a sewing machine|no sewing machine|knitting machine*|typewriter*|toy machine*|"
    "a toy|is toy|toy|a clone|chinese clone|japanese clone|overlocker*|serger|a copy by|a fake|an imitation|"
    "a knock-off|a knockoff|it's a copy|is a copy|somebody else's copy",
    "keine nähmaschine|strickmaschine|schreibmaschine|spielzeugmaschine|spielzeug|ein nachbau|eine kopie",
    "pas une machine à coudre|machine à tricoter|machine à écrire|un jouet|une copie|une contrefaçon",
    "no es una máquina de coser|máquina de tejer|máquina de escribir|un juguete|una copia|una imitación",
    "non è una macchina da cucire|macchina da maglieria|macchina da scrivere|un giocattolo|un'imitazione",
    "geen naaimachine|breimachine|typemachine|schrijfmachine|speelgoed*|een kopie|namaak",
)
"""What is no machine for such a group."""

TAKES = Phrases(
    "i'll take|i will take|i can take|taking this|taking it|i take this|leave it to me|leave it with me|"
    "leave this to me|leave this with me|let me|i'm on it|bagsy|dibs|i'll do|i'll look|i'll have a look|i'll check|"
    "i'll dig|i'll see|i'll get back|i'll ask|i'll try|i'll go through|i'll report|i'll search|i'll find|i will look|"
    "i will check|i will see|i will have a look|i will get back|i will dig|i shall|i'm going to|going to look|"
    "going to check|will check|will look|will have a look|will get back|will report|will dig|looking into|"
    "look into it|checking now|checking the|having a look|need to look|need to check|have to check|have to look|"
    "must check|must look|give me|bear with me|working on it|watch this space|back soon|to follow|more later|"
    "later today|tonight|tomorrow|next week|this weekend|at the weekend|when i'm home|when i get home|"
    "when i get back|once i'm home|back to you",
    "übernehme ich|ich übernehme|ich nehme|mach ich|mache ich|ich schau*|schau* ich|ich seh* .. nach|ich kümmer*|"
    "ich guck*|ich prüf*|ich such*|ich melde|melde mich|bin dran|morgen|heute abend|am wochenende|ich werde",
    "je m'en occupe|je prends|je regarde|je vais|je vérifie|je cherche|demain|ce soir|je reviens|je m'en charge",
    "me encargo|lo cojo|lo miro|voy a|lo busco|mañana|esta noche|yo me ocupo|lo compruebo",
    "ci penso io|me ne occupo|guardo io|controllo|vado a|domani|stasera|lo prendo|la prendo|ci guardo|cerco",
    "ik neem|neem ik|ik pak|pak ik|ik kijk|kijk ik|ik zoek|ik ga|zoek het uit|morgen|vanavond|ik kom terug",
)
"""The expert says what they will do."""

GIVES_UP = Phrases(
    "no idea|no clue|not a clue|haven't a clue|haven't the faintest|dunno|don't know|do not know|no one knows|"
    "nobody knows|can't say|cannot say|couldn't say|can't tell|cannot tell|couldn't tell|can't help|cannot help|"
    "unable to|beats me|over to|stumped|not sure|unsure|i'm not certain|no record|no records|nothing in|not in the|"
    "not in my|not in any|not listed|never seen|never heard|never come across|pass|i'll pass|could be anything|"
    "impossible to|hard to say|hard to tell|difficult to say|your guess is as good|anyone else|anybody else|"
    "sorry , no|out of ideas|defeated|above my pay",
    "keine ahnung|weiss nicht|weiß nicht|weiss ich nicht|weiß ich nicht|kann ich nicht|nicht sicher|nie gesehen|"
    "schwer zu sagen|leider nein|leider nicht|bin überfragt|da muss ich passen|unbekannt",
    "aucune idée|sais pas|ne sais pas|je l'ignore|jamais vu|difficile à dire|pas sûr|impossible de|je passe|désolé*",
    "ni idea|no sé|no lo sé|ni la menor idea|nunca he visto|no estoy segur*|difícil de decir|lo siento|paso",
    "non so|non saprei|non lo so|nessuna idea|mai vist*|difficile dire|non ho idea|mi dispiace|boh",
    "geen idee|weet niet|weet ik niet|weet het niet|nooit gezien|moeilijk te zeggen|niet zeker|helaas",
)
"""The expert does not know."""

_OTHER_PEOPLE = (
    "he|she|they|owner|asker|seller|dealer|vendor|poster|lady|grandmother|gran|mother|family|somebody|someone|people|"
    "whoever|you|bot|robot|computer|everybody|everyone|wife|husband"
)
_SAYING = (
    "say*|said|think*|thought|believe*|claim*|reckon*|write*|wrote|swear*|swore|insist*|assume*|guess*|suggest*|read|"
    "reads|call*|called|told|typed|type|gave|quote*|state*|hope*|ask*|have it as|have it down|has it down|had it as|"
    "has it as|describe*"
)

SAYING = (
    Phrases(_SAYING, behind=_OTHER_PEOPLE, apart=1),
    Phrases(
        "sagt|sagst|schreibt|schreibst|schrieb|meint|meinst|meinte|glaubt|glaubst|denkt|denkst|behauptet|liest",
        behind="er|sie|du|verkäufer|besitzer|besitzerin|fragesteller|fragestellerin|man", apart=1,
    ),
    Phrases(
        "dit|dites|dis|écrit|écrivez|écris|pense|pensez|croit|croyez|affirme|prétend",
        behind="il|elle|on|vous|tu|vendeur|vendeuse|propriétaire", apart=1,
    ),
    Phrases("dice|cree|piensa|escribe|afirma", behind="él|ella|vendedor|dueño|dueña", apart=1),
    Phrases("dice|crede|pensa|scrive|sostiene", behind="lui|lei|venditore|proprietario|proprietaria", apart=1),
    Phrases("zegt|schrijft|denkt|meent|beweert|leest", behind="hij|zij|ze|je|jij|verkoper|eigenaar|eigenares", apart=1),
)  # fmt: skip
"""Somebody else says something: 'the owner always thought'."""
THEIRS = Phrases(
    "according to him|according to her|according to the owner|according to the seller|according to you|"
    "according to the asker|family story|family legend|was told|on ebay|the advert*|as asked|the question says|"
    "the question was|quoting|his guess|her guess|their guess|typed as|misread as|posted as|read as|laut besitzer*|"
    "laut verkäufer*|d'après lui|d'après elle|selon lui|selon elle|selon le vendeur|dice que|cree que|según él|"
    "según ella|dices|escribes|dice che|crede che|secondo lui|secondo lei|dici|scrivi|volgens hem|volgens haar|"
    "volgens de eigenaar|volgens de verkoper",
)
"""What follows is somebody else's word."""

OTHERS = Phrases(
    "we had a|we've had a|i saw a|i once saw|i've seen a|i learnt|i learned|i grew up|on one of these|mine is|"
    "mine was|mine has|mine dates|mine reads|mine says|mine came|mine's|mine from|mine with|my own|my one|i have one|"
    "i've one|i've got one|i have a|i've a|i've got a|i have the same|i've got the same|i own|i had one|i had a|"
    "i once had|my aunt*|my mother*|my gran*|my friend*|my wife*|my neighbour*|my model|my machine|my marthe|"
    "another one|another machine|other machine*|other ones|a friend's|a friend of mine|one sold|a sister machine|"
    "neighbouring number*|the next number|the one in the museum|the museum has|the museum's|our museum|we had one|"
    "we have one|ours is|ours was|ours has|ours dates",
    "meine ist|meine war|meine hat|meine eigene|meine stammt|ich habe eine|ich hab eine|ich besitze|bei meiner",
    "la mienne|le mien|j'en ai une|j'ai une|la nôtre est",
    "la mía|la mia es|tengo una|yo tengo una|la nuestra es",
    "la mia è|la mia e|ne ho una|io ho una|ho una|la nostra è",
    "de mijne|die van mij|ik heb er een|ik heb een|de onze is",
)
"""What follows is about another machine than the asker's."""

I_SAY = Phrases(
    "i think|i'd say|i say|i make it|i'd put|i believe|i reckon|i would say|i read|i see|in my view|to me|for me|"
    "ich denke|ich sage|ich meine|je pense|je dirais|creo|yo diría|penso|direi|ik denk|ik zeg"
)
"""Behind somebody else's words the expert's own begin: 'he thinks 1905, I think 1911'."""
TWIN = Phrases("one of these|one of those|same|identical|twin|gleiche*|même|misma|stessa|zelfde")
"""Where somebody's own machine is such a one, what stands behind a colon is said of the asker's too."""
THIS_ONE = Phrases(
    "this one|this is|this must|this would|this should|so this|yours|your machine|your one|his is|hers is|theirs is|"
    "his one|her one|the asker's|this machine|that one|that makes|which makes|so i'd|so i'd say|so i would|so it|"
    "so yours|so his|so hers|so that|therefore|hence|thus|same year|it's|it is|it must|it should|i'd say|i would say|"
    "i'd put|also daher|also ist|diese ist|dies ist|deine|diese hier|also|celle-ci|donc|la tienne|la vôtre|c'est|"
    "esta es|así que|por tanto|questa è|questa e|quindi|la tua|deze is|dus|die van hem|die van haar"
)
"""From here on it is the asker's machine again."""

IF = Phrases(
    "whether|if|unless|in case|provided|assuming|suppose|supposing|otherwise|or else|depending on|depends on|wenn|"
    "falls es|falls sie|falls er|falls die|falls der|falls das|falls ein*|sofern|sonst|andernfalls|à condition|"
    "selon que|sinon|si c'est|si la|si le|s'il|s'elle|si el|si tiene|si es|si no|si lleva|de lo contrario|se ha|se è|"
    "se il|se la|altrimenti|indien|als de|als het|als hij|als er|anders|mits"
)
"""Said under a condition."""

HISTORY = Phrases(
    "begin in|start in|end in|stop in|go back to|goes back to|stopped *ing|started *ing|began *ing|gave up *ing|"
    "hörte .. auf|hörten .. auf|came out|was introduced|were introduced|introduced in|was launched|launched in|"
    "was withdrawn|withdrawn in|was discontinued|discontinued in|went out of|stopped making|started making|"
    "began making|stopped in|the firm|the company|the factory closed|the works closed|works opened|works closed|"
    "factory opened|was founded|those were|these were|those did*|these did*|they did*|they came|didn't exist|"
    "did not exist|burnt down|burned down|founded in|closed in|closed down|opened in|went bust|bankrupt*|merged|"
    "were made from|were made between|was made until|was built until|were made until|was made till|was sold until|"
    "ran until|was made from|was made between|were built from|were built between|were produced|was in production|"
    "in production from|in production until|changed in|changed from|was changed|were changed|switched to|"
    "switched from|was dropped|dropped in|stops at|stop at|ends at|ends in|ends with|begins in|starts in|goes up to|"
    "only goes|runs from|runs to|only covers|production ran|production started|production began|production ended|"
    "production of|they made|they were made|they built|they started|they stopped|they used|the series|series started|"
    "series began|series starts|series begins|series ran|first number|last number|first used|were first|was first|"
    "wurde eingeführt|kam .. heraus|wurde gegründet|gegründet|geschlossen|die firma|wurde gebaut von|wurden gebaut|"
    "wurden hergestellt|bis .. gebaut|fondée|fermé*|la firme|la maison|sorti en|sortie en|introduit*|a été produit|"
    "ont été|fundada|cerró|la empresa|se fabricaron|se fabricó entre|fondata|chiuse|la ditta|uscì|furono prodott*|"
    "fu prodott*|opgericht|sloot|gesloten|de firma|werden gemaakt|kwam uit|geïntroduceerd"
)
"""Said of the firm, its works or a whole model, not of one machine."""

CHAT = Phrases(
    "happy birthday|congratulations|congrats|well done|well spotted|merry christmas|happy christmas|happy new year|"
    "you could try|try the|why not try|ask the|ask at|write to|contact the|welcome|nice to see|see you|good work|"
    "great work|great find|nice find|good spot|hope you|herzlichen glückwunsch|alles gute|willkommen|bis bald|"
    "bon anniversaire|félicitations|bienvenue|bravo|feliz cumpleaños|enhorabuena|bienvenid*|buon compleanno|"
    "complimenti|benvenut*|gefeliciteerd|welkom|van harte"
)
"""Said to people, not of machines."""

NOT_NEEDED = Phrases("you need|you'll need|anyone|anybody|they need|just need|no need|not needed|i need to go")
NEEDED = Phrases(
    "need|needs|needed|would help|helpful|useful|before i answer|before i can|must know|should know|depends on|"
    "faudrait|il faut|besoin|falta|necesit*|bisogn*|servirebbe|ci serve|müsste*|müssen wir|brauch*|bräucht*|"
    "moeten we|nodig|zou helpen"
)
"""Together with a word of OF_THE_MACHINE: the asker is to tell it."""

WANTED = Phrases(
    "happier with|prefer|rather see|need|needs|needed|want|wanted|would like|i'd like|i'd love|we'd love|like to see|"
    "love to see|could do with|useful|helpful|kindly|pls|plz|please|request*|would settle|would do|would decide|"
    "would be good|would be nice|would be great|would be useful|first|faudrait|serait|utile|besoin|voudrais|aimerais|"
    "falta|necesit*|vendría|querría|por favor|vorrebbe|vorrei|serve|servirebbe|per favore|bitte|brauch*|bräucht*|"
    "wäre|hilfreich|möchte|graag|nodig|nuttig|handig|alsjeblieft|alstublieft"
)
_ONE_MORE = (
    "a another one some more further new better clearer sharper closer other any un une una ein eine een"
).split()
_PICTURES = (
    "photo* picture* pic pics image* rubbing* close-up* closeup* scan* info information details view* look "
    "foto* bild* aufnahme* cliché* imagen* immagin* afbeelding*"
).split()
A_PICTURE = Phrases(
    "ein neues|ein besseres|une meilleure|una mejor|una migliore|een betere|een nieuwe",
    "|".join(f"{what} {of}" for what in _PICTURES for of in "of from von vom van de du di del".split()),
    "|".join(f"{one} one" for one in "another better clearer sharper closer larger bigger".split()),
    *(f"{one} {what}|{one} . {what}" for one in _ONE_MORE for what in _PICTURES))
"""Together with a word of WANTED: the asker is to send one."""

SO = Phrases("so|therefore|hence|thus|which makes|that makes|also|daher|donc|así que|quindi|dus")
ALTHOUGH = Phrases(
    "whatever|although|though|even though|even if|despite what|no matter|never mind|regardless of|contrary to|egal|"
    "obwohl|auch wenn|quoi qu*|bien que|aunque|diga lo que|anche se|qualunque|ook al|hoewel|wat .. ook"
)
"""A clause that begins with these is over with its comma: 'whatever he was told, it is a Cincia'."""
RHETORICAL = Phrases(
    "could it be anything but|can it be anything but|could this be anything but|can this be anything but|"
    "could that be anything but|what else could it be but|what else but|what could it be but|"
    "isn't that|isn't this|isn't it|wouldn't that be|wouldn't it be|surely|ist das nicht|ist es nicht|n'est-ce pas|"
    "¿no es|no es|non è|is dat niet|is het niet"
)
"""A question that begins with these says what it asks: 'isn't that a Model 9?'."""
IT_IS = Phrases(
    "in truth|in fact|in reality|actually it's|it's|it is|it was|this is|that is|that's|should be|must be|it must be|"
    "make it|make that|is|really|actually|no|nonsense|rubbish|wrong|es ist|richtig ist|muss|das ist|c'est|es|è|"
    "het is|moet"
)
"""With these the expert puts right what somebody else said: 'you wrote 1921, it's 1912'."""
CONFIRMS = Phrases(
    "says so|say so|points that way|point that way|points to it|suggests|supports|would explain|explains|proves|fit|"
    "fits|would fit|match|matches|would match|goes with|would go with|speaks for|agrees|agree|yes|yep|right|correct|"
    "passt|würde passen|ja|stimmt|spricht dafür|colle|oui|correspond*|encaja|sí|torna|sì|past|klopt"
)
"""Behind a guess with a question mark: it is meant all the same."""
BUT = Phrases("but|aber|sondern|mais|pero|sino|ma|però|maar|actually|in fact|it's really|whereas|however|though")
EXCEPTED = {
    "theirs": Phrases("you ask me|would you believe|you see|you can see|wenn du mich fragst"),
    "others": Phrases(
        "compar* .. my|compar* .. our|next to my|beside my|against my|like my|same as my|identical to|verglichen mit|"
        "comparé* à la mienne|comparad* con|confrontat* con|vergeleken met"
    ),
    "asks": Phrases(
        "i'll ask my|i'll ask around|i'll ask at|ich frag* .. mein*|je vais demander à|ik vraag .. mijn|"
        "like to know that|like to know too|love to know too|no need to ask|don't ask|needn't ask|do not ask|"
        "didn't ask|i did ask|no need"
    ),
    "takes": Phrases("after checking|having checked|let me know|let me say|let me put it|let me be clear"),
    "if": Phrases(
        "if ever|i suppose|as if|if anything|if you ask me|if i'm not mistaken|if memory serves|if i remember|"
        "if i recall|even if|if not|wenn ich mich|if i had to guess|if pressed|if pushed|if you look|if you zoom"
    ),
    "history": Phrases("came out of|kam aus|sortie de|sorti de|left the works|left the factory"),
    "our books": Phrases(
        "our ledger*|our list*|our book*|our record*|our register*|our archive*|our files|our notes|our card*|"
        "our guess|our database|our pack|our catalogue*|our knowledge|our expert*|none of us|not all of us|one of us|"
        "unser* liste*|unser* buch|unser* verzeichnis|unser* unterlagen|notre registre|nos registres|nos archives|"
        "nuestro registro|nuestros libros|nostro registro|nostri registri|onze lijst*|onze boeken"
    ),
    "other things": Phrases(
        "not a toy|isn't a toy|no toy|kein spielzeug|pas un jouet|no es un juguete|non è un giocattolo|"
        "geen speelgoed|like a toy|toy size*|typewriter shop|toy shop"
    ),
}  # fmt: skip
"""Words that look like those of an act and are not."""

GETS = Phrases("get the|get a|get me|please get")
"""A clause that begins with these asks for what only the asker has."""

MERE_TAKES = Phrases("on it|mine|dibs|bagsy|me|ich|moi|yo|io|ik")
"""What takes a case when nothing else is said."""

OF_THE_MACHINE = Phrases(
    "a . or a .|a . or an .|an . or a .|in the middle|how many|light|lamp|country|number|numbers|digit|digits|letter|"
    "letters|figure|figures|zero|serial|prefix|photo|photos|picture|pictures|pic|pics|shuttle|bobbin|bed|badge|"
    "decal*|motor|needle|plate|underneath|underside|pillar|stamped|start*|begin*|receipt|manual|colour|color|he|she|"
    "they|his|her|their|him|six|seven|five|eight|length|inches|cm|crank|treadle|says|read|wie viele|farbe|steht|"
    "maschine|ziffern|stellen|buchstabe*|nummer|foto|fotos|bild|bilder|schiffchen|spule|er|sie|combien|couleur|"
    "machine|chiffres|lettre|numéro|photo|photos|navette|canette|il|elle|cuántas|color|máquina|cifras|letra|número|"
    "foto|fotos|lanzadera|canilla|él|ella|quante|colore|macchina|cifre|lettera|numero|foto|navetta|spolina|lui|lei|"
    "hoeveel|kleur|machine|cijfers|letter|nummer|foto|foto's|schuitje|spoel|hij|zij"
)
