"""What the words around a number are after: the machine's age or identity, some knowledge of it, or something else.

Beside what `knowledge.hearing` hears (how old, which model, who made it) people ask in vaguer words: 'any info?',
'what have I got?'. And many a message with a number and a question mark is about buying, parts or who brings it on
Saturday. Patterns look at small letters without accents, with `#` where a number stands; nine languages.
"""

from __future__ import annotations

import re

from knowledge.hearing.words import lower


def _any_of(*patterns: str) -> re.Pattern[str]:
    """Return one pattern of many, each from the beginning of a word on."""
    return re.compile(rf"\b(?:{'|'.join(patterns)})")


_SMALL = (
    r"(?:(?:an?|the|my|this|our|your|her|his|its|old|number|serial|no|die|der|das|den|meine?r?|diese?r?|nummer|la|le|"
    r"el|il|ma|mi|mia|een|mijn|de|numer|номер|min|nr|n°)[\s.:]+)*"
)
_IT = rf"{_SMALL}(?:[\w&]+\s+){{0,2}}{_SMALL}#"
"""The number, with its article, and perhaps the name of its maker before it."""
_QUALITY = (
    r"(?:age|year|date|decade|century|era|model|maker|history|alter|baujahr|modell|jahr|annee|modele|ano|edad|modelo|antiguedad|anno|eta|"
    r"modello|bouwjaar|leeftijd|rok|rocznik|wiek|год|возраст|модель|alder)"
)
_OF = r"(?:for|of|on|von|der|de|di|du|da|van|av|z)"

_NO_PERSON = r"\b(?!\s+(?:was|am|is|are|were|do)\s+(?:i|we|you|he|they|your|his)\b)"

_ASKS_OF_IT = _any_of(
    rf"how\s+(?:old|ancient){_NO_PERSON}", rf"story\s+(?:of|behind)\s+{_IT}",
    r"(?:what|which)\s+(?:year|age|decade|century|era|model|maker|machine|is\s+it|do\s+i\s+have|have\s+i\s+got)",
    rf"what'?s?\s+(?:is\s+)?(?:the|its|her)\s+{_QUALITY}", rf"what'?s?\s+(?:is\s+)?{_SMALL}#",
    rf"{_QUALITY}\s+{_OF}\s+{_IT}", rf"{_QUALITY}\s*[:?]?\s*#", r"when\s+(?:was|were)",
    rf"when\s+(?:would|could|might)\s+(?:it|she|{_SMALL}#)", r"when\s+did\s+they\s+(?:make|build)",
    rf"is\s+(?:that|this|it)\s+the\s+{_QUALITY}", r"does\s+#\s+mean",
    r"what\s+(?:do|does|can|would)\b.{0,40}#\s+(?:tell|mean|say)",
    rf"(?:date|identify|dating|identifying)\s+(?:this|it|mine|my|the|{_SMALL}#)", r"(?:the|its|her)\s+age\b",
    r"who\s+(?:made|built)", r"when\s*\?", rf"{_QUALITY}\s*\?",
    r"how\s+(?:\w+\s+)?(?:can|do|would|could)\s+i\s+date",
    rf"(?:like|want|need|find|know|looking\s+for|have)\s+(?:an?|the|its|her)\s+(?:\w+\s+)?{_QUALITY}",
    r"wie\s+alt", r"welches?\s+(?:bau)?jahr", r"welches\s+modell", r"aus\s+welche[mr]\s+(?:jahr|zeit)",
    r"altersbestimmung", r"von\s+wann", r"datieren", r"dateren", r"datera",
    r"was\s+(?:ist\s+das|habe?\s+ich)", r"wer\s+hat\s+.{0,20}(?:gebaut|hergestellt)", r"quel\s+age",
    r"quelle\s+annee", r"de\s+quand", r"qui\s+a\s+fabrique", r"comme\s+modele", r"quel\s+modele",
    r"cuantos\s+anos", r"de\s+que\s+ano", r"que\s+(?:ano|edad|modelo)", r"quien\s+(?:hizo|fabrico)",
    r"de\s+cuando", r"quanti\s+anni", r"che\s+anno", r"che\s+modello", r"chi\s+ha\s+(?:fatto|costruito)",
    r"di\s+quando", r"hoe\s+oud", r"welk\s+(?:bouw)?jaar", r"uit\s+welk\s+jaar",
    r"wie\s+heeft\s+.{0,20}gemaakt", r"van\s+wanneer", r"ile\s+(?:ma\s+)?lat",
    r"(?:ktorego|jakiego)\s+.{0,12}roku", r"jaki\s+(?:to\s+)?(?:rok|rocznik|model)", r"kto\s+wyproduko\w+",
    r"сколько\s+(?:ей\s+)?лет", r"какого\s+года", r"како[ий]\s+год", r"год\s+выпуска",
    r"кто\s+(?:сделал|выпустил)", r"hur\s+gammal", r"vilket\s+ar", r"vilken\s+modell",
    r"vem\s+(?:gjorde|tillverkade)",
)  # fmt: skip
_NAMED = _any_of(rf"{_QUALITY}\b")
_ENDS_IN_IT = re.compile(rf"#\W*(?:anyone|anybody|old|{_QUALITY})\W*$")
_VAGUE = _any_of(
    r"(?:any|some|more|further|get|give|find)\s+(?:info\w*|details?|ideas?|clues?|history|thoughts)",
    r"info\w*\b", r"any(?:one|body)\s+(?:know|able|help|tell|recogni[sz]e)",
    r"some(?:one|body)\s+(?:know|help|tell)",
    r"(?:does|do|can|could|would)\s+(?:any|some)(?:one|body)\s+(?:please\s+)?(?:know|tell|help|say|recogni[sz]e|look|be)",
    r"tell\s+(?:me|us)\s+(?:more|about|anything|something|what)", r"what'?s\s+this", r"mean\s+anything",
    r"identify", r"what\s+(?:is|have|do|did)\s+(?:it|this|i)\b", r"what\s+can\s+you\s+tell",
    r"wonder(?:ing|ed)?\b", r"curious",
    r"(?:love|like|want|need|keen)\s+to\s+(?:know|hear|find\s+out|learn|identify|date)", r"find\s+out",
    r"(?:find|work\s+out|figure\s+out)\s+(?:the|its|her)", r"trying\s+to", r"please\s+help", r"need\s+help",
    r"help\s+(?:me\s+|us\s+)?(?:with|dating|date|identify\w*|please|appreciated|needed)", r"help\s*[!?.]",
    r"anything\s+(?:known|about)", r"look(?:ed)?\s+(?:it|this|mine|her)?\s*up",
    r"(?:wei(?:ss|ß)|kennt|kann|konnt)\s+.{0,12}(?:jemand|wer|einer|ihr|man)\b.*(?:wei(?:ss|ß)|sagen|helfen|infos?)",
    r"(?:jemand|wer)\s+kann\s+.*(?:sagen|helfen|wissen)", r"hat\s+jemand\s+infos?",
    r"kann\s+wer\s+.*(?:sagen|helfen)", r"wei(?:ss|ß)\s+(?:jemand|wer)\s+(?:etwas|was|mehr)", r"auskunft",
    r"bitte\s+um", r"interessier\w+", r"(?:gerne?\s+)wissen", r"herausfinden", r"wusste\s+gern",
    r"was\s+sagt\s+ihr", r"(?:quelqu'?un|qui)\s+(?:sait|connait|peut|pourrait|me)", r"renseignements?",
    r"aide[rz]?\b", r"j'?aimerais\s+(?:savoir|connaitre)",
    r"je\s+(?:voudrais|cherche\s+a)\s+(?:savoir|connaitre|dater)", r"alguien\s+(?:sabe|puede|conoce|me)",
    r"quisiera\s+saber", r"me\s+gustaria\s+saber", r"qualcuno\s+(?:sa|puo|conosce|mi)", r"vorrei\s+sapere",
    r"aiut\w+", r"weet\s+iemand", r"kan\s+iemand\s+.*(?:vertellen|zeggen|helpen)", r"wie\s+(?:weet|kan)",
    r"benieuwd", r"kto[sś]\s+(?:wie|zna|powie|potrafi)", r"prosze\s+o\s+pomoc",
    r"кто[\s-]*(?:нибудь|то)?\s+(?:знает|подскаж\w+|помо\w+)", r"подскажите", r"помогите", r"узнать",
    r"nagon\s+(?:som\s+)?(?:vet|kan\s+saga)", r"undrar", r"nyfiken", r"mer\s+om", r"veta\s+mer",
)  # fmt: skip
_SOMETHING_ELSE = _any_of(
    r"where(?!\s+(?:was|were|is)\s+.{0,20}(?:made|built))", r"who\s+(?!made|built|knows|can|could)",
    r"whether", r"if\b(?!\s+possible)", r"why",
    r"how\s+(?:heavy|wide|long|fast|much|many|loud|do|to|is|did|big|far|tall)",
    r"which\s+(?:bolt|belt|bobbin|screw|of)", r"wo\b", r"ob\b", r"warum", r"wer\s+(?:hat|holt|nimmt)",
    r"ou\b", r"pourquoi", r"donde", r"por\s+que", r"dove?\b", r"dov'", r"perche", r"waar\b", r"waarom",
    r"gdzie", r"czy\s+(?!kto)", r"dlaczego", r"где", r"почему", r"var\b", r"varfor",
)  # fmt: skip
_ABOUT_IT = _any_of(
    r"(?:about|on|of|for|with|uber|zu|von|sur|sobre|su|over|о|об|про|om|identify|date|dating|up|this|it|mine|help|info|recogni[sz]e)"
    rf"\s*[:,-]?\s*{_IT}"
)
_ABOUT_THE_NAMED = re.compile(r"\bhelp\s*[?!.]*\s*$|#.{0,60}\babout\s+(?:it|this|her|mine|that)\b")
_CONFIRMS = _any_of(
    r"(?:is|was|are|were|can|could|am|ist|war|kann|est|es|e|jest|ar)\b.*?\b(?:right|wrong|true|correct|possible|be|from|"
    r"older|newer|younger|made|built|really|richtig|stimmt)\b",
    r"(?:is|was)\s+.{0,12}#\s+(?:an?|the|from|older|newer|made|built|really)\b",
    rf"is\s+{_SMALL}#\s+(?:victorian|edwardian|pre-?war|antique|that\s+old|very\s+old|old|(?:an?\s+|one\s+of\s+the\s+)?(?:early|late))\b",
    r"stimmt\s+das\b", r"(?:true|right|correct|possible|really|sure|surely)\b[^?]{0,12}\?",
    rf"is\s+(?:that|this|it)\s+the\s+{_QUALITY}", r"is\s+(?:that|it|this)\s+(?:from\s+)?(?:1[89]|20)\d\d",
)
_ELSEWHERE = _any_of(
    r"(?:for\s+sale|asking\s+\d+|sell(?:ing)?|sold|sale|buyer|offers?|swap|shipping|postage|asking\s+price|bid(?:ding)?|auction|"
    r"still\s+available|reserved|collect(?:ion)?\s+only|pick\s?up\s+only|parts?\s+for|spares?|manual\s+for|"
    r"looking\s+for(?!\s+(?:any\s+)?(?:info|help|details|the\s+(?:age|year|date)))|wanted|price|worth|insur\w+|invoice|tracking|parcel|order|stolen|would\s+you\s+(?:take|pay)|belt|"
    r"bobbin|shuttle|needle|oil|bring|saturday|fair|column|sheet|row|newsletter|raffle|queue|"
    r"verkauf\w*|biete|preis|vb|versand|ersatzteil\w*|abzugeben|kostet|a\s+vendre|vends?|vendu\w*|prix|vendo|"
    r"se\s+vende|vendid\w*|precio|vendut\w*|prezzo|te\s+koop|verkocht|prijs|sprzeda\w*|kupi\w*|cena|продам|продаю|"
    r"продал\w*|куплю|цена|saljes|salj\w*|sald\w*|kopes)\b"
)
_PRESENT = _any_of(r"when\s+(?:(?:does|do|will|can|shall)\b|(?:is|are)\s+(?!.{0,12}#\s+from))")
_PEOPLE = _any_of(r"how\s+old\s+(?:was|am|is|are|were)\s+(?:i|we|you|he|they|your|his)\b")
_PAPERWORK = _any_of(r"(?:column|sheet|row|spreadsheet|newsletter)\b")
_AGED = _any_of(
    r"(?:victorian|edwardian|pre-?war|antique|old|early|late)\b",
    r"is\s+(?:that|it|this)\s+(?:from\s+)?(?:1[89]|20)\d\d"
)
_REPORTS = _any_of(
    r"(?:told|asked|wrote|posted|explained|confirmed|looked\s+up|bot|now\s+(?:i|we)\s+know|you\s+(?:can|could)|"
    r"i\s+(?:can|will)|typed)\b"
)


def plain(text: str) -> str:
    """Return text as the patterns look at it."""
    return lower(text).replace("’", "'")


def asks_of_it(text: str) -> bool:
    """Whether a message asks for the age, the model or the like, in so many words.

    >>> asks_of_it("what year is # please"), asks_of_it("# needs a new belt")
    (True, False)
    """
    seen = plain(text)
    return (_ASKS_OF_IT.search(seen) or _ENDS_IN_IT.search(seen)) is not None


def names_a_quality(text: str) -> bool:
    """Whether an age, a year, a model or the like is named at all.

    >>> names_a_quality("can the year be worked out from #"), names_a_quality("can # be worked on")
    (True, False)
    """
    return _NAMED.search(plain(text)) is not None


def is_vague(text: str) -> bool:
    """Whether a message wants to know something, it does not say what.

    >>> is_vague("Any info on #?"), is_vague("# runs like new")
    (True, False)
    """
    return _VAGUE.search(plain(text)) is not None


def is_about_something_else(text: str) -> bool:
    """Whether what a vague question is after is where, who, why or whether: nothing a number tells.

    >>> is_about_something_else("any idea where # is"), is_about_something_else("any idea about #")
    (True, False)
    """
    return _SOMETHING_ELSE.search(plain(text)) is not None


def is_about_it(text: str) -> bool:
    """Whether it is the number itself that is spoken about: 'anything about #'.

    >>> is_about_it("can anyone help me with my Ottrel #"), is_about_it("can anyone bring # on Saturday")
    (True, False)
    """
    seen = plain(text)
    return (_ABOUT_IT.search(seen) or _ABOUT_THE_NAMED.search(seen)) is not None


def asks_to_confirm(text: str) -> bool:
    """Whether a message asks if something is so: 'is # from 1921 or is that wrong?'."""
    return _CONFIRMS.search(plain(text)) is not None


def is_elsewhere(text: str) -> bool:
    """Whether a message is about buying, selling, parts, or who brings what.

    >>> is_elsewhere("For sale: #, 40 euro"), is_elsewhere("How old is #?")
    (True, False)
    """
    return _ELSEWHERE.search(plain(text)) is not None


def is_about_people(text: str) -> bool:
    """Whether the age of somebody is asked for.

    >>> is_about_people("How old was I here?"), is_about_people("How old is it?")
    (True, False)
    """
    return _PEOPLE.search(plain(text)) is not None


def is_of_now(text: str) -> bool:
    """Whether 'when' asks for something to come, not for when a machine was made.

    >>> is_of_now("when does # come back"), is_of_now("when is # from")
    (True, False)
    """
    return _PRESENT.search(plain(text)) is not None


def is_paperwork(text: str) -> bool:
    """Whether lists and sheets are spoken about, in which numbers and years stand."""
    return _PAPERWORK.search(plain(text)) is not None


def is_aged(text: str) -> bool:
    """Whether an age is named in a word: 'Victorian', 'that old', or a bare 'is that 1921'."""
    return _AGED.search(plain(text)) is not None


def only_reports(text: str) -> bool:
    """Whether a message tells what was asked or answered elsewhere."""
    return _REPORTS.search(plain(text)) is not None
