"""Whether a message wants to know something of a machine, or deals in machines: words of nine languages.

Beside what `knowledge.hearing` hears (how old, which model, who made it) people ask in vaguer words: 'any info?',
'what have I got?'. And many a message with a question mark and a number is about buying, selling, parts or repairs.
"""

from __future__ import annotations

import re

from knowledge.hearing.words import lower

_CURIOUS = re.compile(
    r"\b(?:"
    # English
    r"(?:any|some|more|further|get|give|find|for|the|good|much)\s+(?:info|information|details|idea|ideas|clue|clues|history|help)\b"
    r"|know\s+(?:anything|more|about|something|what)|anyone\s+know|does\s+any(?:one|body)|can\s+any(?:one|body)"
    r"|could\s+(?:any|some)(?:one|body)|tell\s+(?:me|us)|what\s+(?:is|have|do|did)\s+(?:it|this|i|we)\b|what's\s+this"
    r"|wonder(?:ing)?|curious|love\s+to\s+know|like\s+to\s+(?:know|find\s+out|learn)|want\s+to\s+know|find\s+out"
    r"|trying\s+to\s+(?:date|identify|find|work|figure)|help\s+(?:me\s+)?(?:date|dating|identify|with\s+(?:this|the|a|dating))"
    r"|please\s+(?:date|identify|help)|date\s+(?:this|it|my|mine)\b|look\s+(?:this|it)\s+up|look\s?up|identify"
    r"|how\s+old|what\s+year|which\s+year|what\s+age|what\s+model|which\s+model|when\s+was|what\s+(?:\w+\s+)?machine"
    # German
    r"|wei(?:ss|ß)\s+(?:jemand|wer|einer)|kann\s+(?:mir\s+)?(?:jemand|wer|einer)|infos?\b|informationen|auskunft"
    r"|wie\s+alt|welches\s+(?:bau)?jahr|baujahr|was\s+(?:ist\s+das|habe?\s+ich)|wuerde?\s+gerne?|wurde?\s+gerne?"
    r"|mochte\s+(?:gerne?\s+)?wissen|interessieren|herausfinden|alter\s+bestimmen|bestimmen"
    # French
    r"|(?:quelqu'?un|qui)\s+(?:sait|connait|peut|pourrait)|des?\s+(?:infos?|informations?|renseignements?)|quel\s+age"
    r"|quelle?\s+(?:annee|est|modele)|aide[rz]?\b|j'?aimerais|je\s+(?:voudrais|cherche\s+a)\s+\w+|dater"
    # Spanish, Italian
    r"|alguien\s+(?:sabe|puede|conoce|me)|(?:alguna|mas)\s+info\w*|informacion|que\s+(?:ano|edad|modelo)|quisiera|me\s+gustaria"
    r"|cuantos\s+anos|de\s+que\s+ano|qualcuno\s+(?:sa|puo|conosce|mi)|informazioni|vorrei\s+sapere|di\s+che\s+anno|che\s+anno|quanti\s+anni"
    r"|che\s+modello|aiut\w+|sapere"
    # Dutch
    r"|weet\s+iemand|kan\s+iemand|wie\s+(?:weet|kan)|iets\s+(?:over|meer)|meer\s+(?:info|weten)|informatie|hoe\s+oud|welk\s+(?:bouw)?jaar|benieuwd"
    # Polish, Russian
    r"|(?:czy\s+)?kto[sś]\s+(?:wie|zna|moze|potrafi|pomoze)|ile\s+(?:ma\s+)?lat|jaki\s+(?:to\s+)?(?:rok|rocznik|model)|z\s+ktorego\s+roku|informacj\w+|prosze\s+o"
    r"|кто[\s-]?(?:нибудь|то)?\s+(?:знает|может|подскаж\w+|помо\w+)|подскажите|помогите|сколько\s+(?:ей\s+)?лет|какого\s+года|какой\s+год|узнать"
    # Swedish
    r"|n[aå]gon\s+(?:som\s+)?(?:vet|kan)|hur\s+gammal|vilket\s+ar|undrar|nyfiken|mer\s+om|veta"
    r")"
)
_TRADE = re.compile(
    r"\b(?:for\s+sale|sell(?:ing)?|sold|sale|buy(?:ing)?|bought\s+for|offer(?:s|ing|ed)?|swap|shipping|postage|asking\s+price|bid(?:ding)?|auction"
    r"|euros?\s+(?:ono|vb|fixed)|reserved|collect(?:ion)?\s+only|pick\s?up\s+only|parts?\s+for|spares?|manual\s+for|looking\s+for"
    r"|wanted|need\s+(?:a|an|the|some)|price|worth|insurance|invoice|tracking|parcel|stolen"
    r"|verkauf\w*|zu\s+verkaufen|suche\b|biete\b|preis|vb\b|versand|ersatzteil\w*|abzugeben|kostet"
    r"|a\s+vendre|vends?|vendu\w*|cherche\s+(?:une?|des|le|la)|prix|vendo|se\s+vende|vendido|precio|venduta?|prezzo|cerco\s+(?:un|una|il|la)"
    r"|te\s+koop|verkocht|prijs|gezocht|sprzeda\w*|kupi\w*|cena|продам|продаю|продал\w*|куплю|цена|saljes|salj\w*|sald\w*|kopes|pris)\b"
)


def is_curious(text: str) -> bool:
    """Whether a message wants to know something, in no matter which of the nine languages.

    >>> is_curious("Any info on this one?"), is_curious("Mine runs like new.")
    (True, False)
    """
    return _CURIOUS.search(lower(text).replace("’", "'")) is not None


def is_about_trade(text: str) -> bool:
    """Whether a message is about buying, selling, or looking for parts.

    >>> is_about_trade("For sale: a treadle, 40 euro"), is_about_trade("How old is my treadle?")
    (True, False)
    """
    return _TRADE.search(lower(text).replace("’", "'")) is not None
