"""The words around what an answer states: what denies it, corrects it, or makes it something else's.

Phrases are parted by '|' and looked for as `plain.Phrases` says; English, German, French, Spanish, Italian and Dutch.
Words for makers, models, times and numbers are those of questions: `knowledge/hearing` and `knowledge/tokens`.
"""

from __future__ import annotations

from knowledge.expert_answers.plain import Phrases

SOLD = Phrases(
    "was taken|taken in|photographed|sold|bought|purchased|purchase|acquired|repaired|restored|serviced|overhauled|"
    "rebuilt|refurbished|inherited|wedding|married|was born|born|died|christmas present|for christmas|repainted|"
    "converted|motor added|motorised|electrified|fitted .. motor|verkauft|gekauft|kaufte|repariert|überholt|geerbt|"
    "umgebaut|vendu*|achet*|réparé*|héritée|vendid*|comprad*|compró|reparad*|vendut*|comprat*|acquistat*|riparat*|"
    "verkocht|gekocht|gerepareerd|omgebouwd"
)
"""A day on which something else was done with the machine than making it."""

DENIES = Phrases(
    "anything but|nobody|no one|niemand|personne|nadie|nessuno|not|isn't|is not|wasn't|was not|can't be|cannot be|"
    "can not be|couldn't be|could not be|won't be|never|rather than|instead of|ruled out|rules out|rule out|nor|"
    "neither|definitely not|certainly not|wrong about|mistaken about|forget|forget about|not convinced by|"
    "nothing to do with|unrelated to|nichts mit|nichts zu tun mit|rien à voir avec|nada que ver con|"
    "niente a che fare con|niets te maken met|not a|not the|not an|no|doubt|i doubt|nicht|kein|keine|keinesfalls|"
    "niemals|statt|anstatt|pas|jamais|plutôt que|au lieu de|n'est pas|no es|nunca|en vez de|en lugar de|non|non è|"
    "mai|invece di|niet|geen|nooit|in plaats van"
)
DENIED = Phrases(
    "is wrong|was wrong|are wrong|is out|is ruled out|is excluded|can be excluded|is impossible|is nonsense|"
    "is too early|is too late|is much too|was a mistake|is a mistake|is incorrect|is not right|isn't right|"
    "can't be right|cannot be right|is not possible|isn't possible|is mistaken|are mistaken|is nonsense|doesn't fit|"
    "does not fit|ist falsch|stimmt nicht|passt nicht|kann nicht sein|ist unmöglich|est faux|est fausse|"
    "est impossible|ne colle pas|es falso|está mal|no puede ser|no encaja|è sbagliat*|non va|non può essere|"
    "non torna|klopt niet|kan niet|past niet|is fout"
)
MEANT = Phrases(
    "anything other than|+1 for|vote for|votes for|vote goes to|go for|going for|plump for|opt for|settle for|"
    "all for|nothing but|nothing else but|nothing else than|nothing other than|no other than|none other than|"
    "not not anything but|never anything but|can't be anything but|cannot be anything but|hardly anything but|"
    "never anything but|can't be anything but|cannot be anything but|hardly anything but|anything else than|"
    "nichts anderes als|rien d'autre que|nada más que|otra cosa que|nient'altro che|niets anders dan"
)
"""A name behind these is that of this machine."""
SURE = Phrases(
    "no doubt|without doubt|without a doubt|no question|kein zweifel|zweifellos|sans aucun doute|sin duda|"
    "senza dubbio|zonder twijfel|geen twijfel"
)
LIVES_IN = Phrases(
    "i'm from|i am from|we're from|ich komme aus|ich bin aus|je suis de|soy de|sono di|ik kom uit|live in|lives in|"
    "living in|near|hello from|greetings from|regards from|born in|trip to|went to|road to|moved to|wohne in|"
    "grüße aus|habite|habito|vivo en|vivo a|woon in|groeten uit"
)
"""Before the name of works: the place is meant."""

SPOKEN_TO = Phrases(
    "pinged|ping|pinging|asked|emailed|mailed|wrote to|called|rang|told|cc|cc'd|spoke to|talked to|over to|"
    "agree with|agrees with|thanks to|wait for|ask|asking|frag|fragt|gefragt|demande à|demander à|pregunta a|"
    "chiedi a|vraag|gevraagd"
)
"""A single word behind these that could be a name is somebody's."""

LIKENESS = Phrases(
    "came with|came in with|introduced with|known from|also on|used on|used for|like|like a|like the|similar to|"
    "as with|as on|same as|the same .. as|unlike|than|than a|than the|compared to|base for|part* for|belt for|"
    "manual for|shuttle for|bobbin* for|needle* for|case for|wanted for|shares .. with|share .. with|shared .. with|"
    "in common with|compared with|compare|compare with|compare to|compared|successor|successor to|successor of|"
    "forerunner of|predecessor of|replaced|replaces|version of|variant of|based on|copy of|cousin of|relative of|"
    "sister of|confused with|mistaken for|mistake it for|parts from|motor from|shuttle from|from a|for a|for the|"
    "fits|fit|also fits|borrowed from|wie|wie eine|ähnlich|als|als die|comme|comme la|que la|como|como la|come|"
    "come la|simile a|zoals|net als|lijkt op|dan de"
)
"""A name behind these is that of another thing: 'shorter than the Model 9'."""

CORRECTS = Phrases(
    "that's the|that is the|das ist die|sorry|correction|edit|edited|typo|i mean|i meant|meant|make that|"
    "scratch that|strike that|wait|no wait|hang on|hold on|my mistake|my bad|oops|whoops|rather|or rather|should be|"
    "should read|er|erm|on second thoughts|on second thought|on reflection|actually|no , it's|no it's|apologies|"
    "pardon|quatsch|korrektur|ich meine|ich meinte|vielmehr|besser gesagt|nein|halt|moment|entschuldigung|pardon|"
    "désolé|je veux dire|je voulais dire|plutôt|erreur|euh|perdón|digo|quiero decir|mejor dicho|corrijo|scusate|"
    "scusa|anzi|volevo dire|correggo|oeps|correctie|ik bedoel|nee|of nee|foutje"
)
AS_SUCH = Phrases(
    "burnt|burned|closed|opened|moved|employed|shut|here|said|says|wrote|thinks|thought|knows|would know|might know|"
    "will know|mentioned|was|were|did|didn't|did not|had|hadn't|came|went|only|always|never|used to|appeared|existed|"
    "started|ended|began|stopped|gab es|wurde|wurden|hatte|hatten|kam|existiert*|n'existait|existait|est arrivé*|"
    "no existía|existía|apareció|non esisteva|esisteva|arrivò|bestond|kwam"
)
"""What is said behind the name of a model or works is said of it as such."""

THOUGHT = Phrases(
    "my first answer|first answer|earlier answer|my earlier|my first guess|i said|i had said|i'd said|i wrote|"
    "at first|first thought|i thought|i'd thought|i had thought|i was going to say|was going to say|thought it was|"
    "thought of|i wondered|zuerst|erst dachte|dachte ich|ich dachte|d'abord|j'ai cru|je pensais|al principio|pensaba|"
    "yo pensé|all'inizio|pensavo|eerst dacht|ik dacht"
)
"""What stands behind these was thought once, and is not said now."""

WEAKLY = Phrases(
    "look* like|look* .. like|looked like|looked .. like|first impression|at first sight|at first glance|at a glance|"
    "sieht aus wie|sieht .. aus|ressemble|on dirait|parece|sembra|lijkt op|lijkt .. op"
)
"""A name behind these gives way to another one."""

MORE_EXACTLY = Phrases(
    "more precisely|more exactly|to be exact|to be precise|more like|rather more|better still|genauer|genauer gesagt|"
    "plus précisément|plus exactement|más exactamente|más concretamente|più precisamente|per l'esattezza|"
    "om precies te zijn"
)
"""What stands behind these takes the place of what stands before."""

WOULD_BE = Phrases("would be|would have been|wäre|serait|sería|sarebbe|zou")
"""Behind a number: it is an example."""

THIS = Phrases(
    "this|that|your|his|her|their|diese|dieser|dieses|deine|cette|ce|votre|ta|esta|este|tu|questa|questo|tua|deze|"
    "dit|jouw"
)
"""Before a name: it is this one machine that is spoken of."""
MADE = Phrases(
    "made|built|manufactured|produced|issued|stamped|finished|completed|delivered|shipped|allocated|gebaut|"
    "hergestellt|gefertigt|ausgeliefert|fabriqu*|construit*|fabricad*|hecha|hecho|fabbricat*|costruit*|prodott*|"
    "gemaakt|gebouwd"
)
MINE = Phrases("my|our|mein|meine|meiner|unsere|mon|ma|notre|mi|nuestra|mia|mio|nostra|mijn|onze")
"""Before a name or a number: another machine."""
AND_GIVEN = Phrases(
    "there|here|to me|please|not|and not|instead|it is|is right|is correct|is what|is the|for sure|definitely|on the|"
    "in the|under the|is from|was made|dates from|belongs to|i think|i'd say|according to|as per|then|with|"
    "as stamped|stamped|is stamped|it says|it reads|is the number|as far as|"
    "in full|clearly|stimmt|ist richtig|auf dem|est correct|sur la|es correcto|en la|klopt|"
    "op de|e giusto|sulla|eingeschlagen|steht|frappe|ingeslagen|punzonato"
)
"""Behind a number, where it is given as the one stamped."""
NOT_GIVEN = Phrases(
    "have|has|had|own|owns|sold|bought|saw|seen|look at|looked at|photographed|like|same as|next to|beside|compare*|"
    "done|batch|block|page|case|ask* about|asked|about|between|and|or|for|of|near|before|after|below|above|under|"
    "over|habe|hat|besitzt|verkauft|j'ai|tengo|ho|ha|heb|heeft"
)
"""Before a number: it is spoken of, and not given as the one stamped."""
