"""The words of evidence, in English, German, French, Spanish, Italian and Dutch."""

from __future__ import annotations

import re

from knowledge.expert_answers.plain import Phrases
from knowledge.findings import DATED_DOCUMENT, FEATURE, LEDGER

NOUNS = {
    DATED_DOCUMENT: Phrases(
        "op de bon|de bon|kassenbon|rekening|"
        "reciept*|handbook*|inscription*|engraving*|engraved|pencilled|penciled|handwritten|dealer's stamp|shop stamp|"
        "date stamp|gravur|inschrift|receipt*|guarantee|guarantee card*|warranty|warranty card*|invoice*|"
        "bill of sale|sales slip|sales ticket|delivery note*|dated manual|manual|instruction book*|"
        "instruction leaflet*|instructions|hire purchase|hire-purchase|agreement|contract|certificate|sales docket|"
        "docket|dated letter|quittung*|garantiekarte|garantieschein*|garantieheft|rechnung*|kaufbeleg|kaufvertrag|"
        "lieferschein*|betriebsanleitung|anleitung|gebrauchsanweisung|reçu*|facture*|garantie|bon de garantie|"
        "carte de garantie|mode d'emploi|recibo*|factura*|garantía|tarjeta de garantía|manual|"
        "manual de instrucciones|ricevut*|fattur*|garanzia|scontrino|libretto|libretto di istruzioni|bonnetje|"
        "kassabon|factuur|garantiebewijs|garantiekaart|koopakte|handleiding|gebruiksaanwijzing|kwitantie|aankoopbon|"
        "aankoopbewijs|koopbewijs"
    ),
    LEDGER: Phrases(
        "card|minutes|gazette|newspaper*|newsletter*|journal|magazine|article|advert*|brochure*|leaflet*|diary|"
        "notebook*|bulletin|inventory|zeitung|zeitschrift|anzeige|prospekt|dépliant|folleto|anuncio|opuscolo|krant|"
        "folder|ledger*|page|pages|pg|pg.|p.|pp.|p|pp|register*|list|lists|listing|book|books|book of numbers|"
        "number book|letter book|letterbook|day book|daybook|yearbook*|catalogue*|catalog*|price list*|card index|"
        "index card*|records|works records|factory records|entry|volume|vol.|vol|folio|table|database|archive*|"
        "circular|production cards|cards|sheet|column|row|line|drawer|*buch|*bücher|seite|s.|verzeichnis|*liste|"
        "listen|blatt|spalte|schublade|*katalog|katalog*|kartei|karteikarte*|archiv|registre*|livre|feuille|colonne|"
        "hoja|columna|foglio|colonna|blad|kolom|grand livre|grand-livre|catalogue|archives|fichier|registro|página|"
        "libro|libro mayor|lista|catálogo|archivo|pagina|elenco|libro mastro|mastro|catalogo|schedario|archivio|"
        "grootboek|bladzijde|blz.|blz|*lijst|*boek|catalogus|archief"
    ),
    FEATURE: Phrases(
        "label*|sticker*|etikett*|étiquette*|etiqueta*|etichetta*|etiket*|three-quarter*|three quarter|3/4 size|"
        "patent*|brevet*|octrooi*|wooden case|bentwood case|*wheel|*wheels|gear*|spoke*|lever*|lid|boss|tray|legs|"
        "plaque|nameplate|paintjob|shuttle*|shutle*|shuttel*|bobin*|bobbin*|decal*|bed|needle*|tension|tensioner|"
        "presser|foot|badge|handwheel|hand wheel|balance wheel|flywheel|spool pin*|faceplate|face plate|slide plate*|"
        "cover plate|stitch plate|gold*|ornament*|transfer*|lettering|paint|paintwork|finish|pillar|arm|crank|"
        "treadle|base|motor|hook|feed dog*|bobbin winder|winder|plate|castings|casting|stitch lever|stitch length|"
        "stitch regulator|regulator|knob|stamping*|digits|leading zero|prefix|letter|screw*|thread guide|"
        "thread take-up|take-up|shank|reverse lever|zigzag|bett|schiffchen*|spule*|spulenkapsel|abziehbild*|nadel*|"
        "spannung|grundplatte|handrad|*greifer|greifer|verzierung*|dekor*|plakette|stichplatte|stellig|buchstabe*|"
        "navette|canette|décor*|aiguille|socle|volant|plaque|plateau|lanzadera|canilla|bobina|aguja|calcomanía*|"
        "decoración|volante|navetta|spolina|ago|decoraz*|decalcomani*|volantino|basamento|placchetta|schuitje|spoel*|"
        "*plaat|*plaatje|naald*|versiering*|handwiel|grijper|voetplaat|embleem"
    ),
}
CUE = Phrases(
    "stamped|engraved|printed|painted|scratched|cast|moulded|embossed|marked|it says|eingraviert|eingeschlagen|"
    "aufgedruckt|gravé*|grabad*|incis*|gegraveerd|"
    "by|judging by|judging from|going by|to judge by|according to|as per|per|see|seen in|see also|look at|from|"
    "because|because of|since|as|given|based on|on the basis of|thanks to|on account of|due to|with|going on|"
    "confirmed by|proved by|proven by|shown by|cf|cf.|ref|ref.|source|evidence|proof|it has|has|in|on|says|"
    "in view of|for it has|going off|from what|laut|nach|wegen|siehe|anhand|aufgrund|gemäß|aus|weil|da|mit|steht im|"
    "steht in|im|in der|im|vgl.|vgl|denn|dank|d'après|selon|voir|vu|grâce à|à cause|car|parce que|puisque|avec|dans|"
    "cf|según|por|véase|ver|vea|porque|ya que|con|en|secondo|dal|dalla|dai|dalle|vedi|perché|poiché|con|nel|nella|"
    "in base a|visto|data|volgens|zie|aan|gezien|wegens|omdat|want|met|op grond van|blijkens|vanwege|door"
)
"""What leads to the evidence behind a statement: 'Model 9 by the shuttle'."""
CHANGED = re.compile(
    r"(?<![^\W_])(?:went|disappeared|was dropped|came|come|comes|moved|changed|changes|introduced|"
    r"appeared|appears|added|started|began|arrived|"
    r"ended|stopped|"
    r"replaced|was new|were new|kam|kamen|wechselte|eingefuhrt|apparu\w*|introduit\w*|aparecio|introduj\w*|comparve|"
    r"kwam|"
    r"veranderde)(?![^\W_])[^,;]*\Z"
)
"""Before a time: it is when the feature changed, not when this machine was made."""
FOLLOWS = re.compile(
    r"[\s,]+(?:(?:and|und|et|y|e|en) )?(?:(?:is|are|ist|est|es|e|was) )?(?:therefore|hence|thus|daher|deshalb|donc|"
    r"quindi|"
    r"por tanto|dus)(?![^\W_])"
)
"""What follows from evidence is none of it."""
MISTAKEN = Phrases(
    "reground|repainted|sanded|swapped|transposed|mixed up|add|dropped a|left out|misread|overlooked|wrong page|"
    "wrong line|verlesen|mal lu|leí mal|letto male|verkeerd gelezen"
)
"""A clause that speaks of a slip is no evidence."""
_AGAINST = (
    "unlike|unlike what|contrary to|contrary to what|different from|different from what|anders als|"
    "anders als in|im gegensatz zu|im gegensatz zum|entgegen|contrairement à|contrairement au|à l'inverse de|"
    "a diferencia de|a diferencia del|al contrario de|contrariamente a|a differenza di|a differenza del|"
    "in tegenstelling tot|anders dan|anders dan in"
)
AGAINST = Phrases(_AGAINST, "against|gegen|contre|contra|contro|tegen")
"""A clause that begins with these tells what says otherwise."""
NO_EVIDENCE = Phrases(
    _AGAINST,
    "no|not by|not the|without|despite|in spite of|replaced|replacement|missing|non-original|reproduction|never mind|"
    "don't trust|do not trust|ignore|disregard|regardless of|forget|ohne|trotz|kein|keine|sans|malgré|pas de|sin|"
    "a pesar de|senza|nonostante|zonder|ondanks|geen"
)
"""A noun behind these is nothing that the expert goes by."""
SURE_CUE = Phrases(
    "by|according to|as per|per|judging by|see|because of|because|por|par|durch|door|laut|d'après|selon|según|"
    "secondo|volgens"
)
GOES_BY = Phrases(
    "going by|go by|goes by|going on|judging by|judging from|to judge by|to judge from|according to|as per|based on|"
    "on the basis of|on the strength of|because of|on account of|in view of|by the|by its|by their|by this|by that|"
    "by these|by those|by her|by his|laut|anhand|aufgrund|auf grund|wegen|gemäß|erkennbar an|erkennbar am|"
    "zu erkennen an|zu erkennen am|zu sehen an|zu sehen am|d'après|selon|vu le|vu la|vu les|à cause de|à cause du|"
    "reconnaissable à|reconnaissable au|se reconnaît à|por el|por la|por los|por las|según|a juzgar por|"
    "se reconoce por|secondo|in base a|a giudicare da*|dal tipo di|si riconosce da*|visto il|vista la|viste le|"
    "visti i|volgens|gezien|op grond van|blijkens|te zien aan|te herkennen aan|vanwege"
)
"""What stands behind these is what the expert goes by, whatever it is called: see NO_REASON."""
ACCORDING_TO = Phrases("according to|as per|laut|gemäß|d'après|selon|según|secondo|volgens")
"""Of these, what follows may be anybody's word."""
NO_REASON = Phrases(
    "way|look of it|looks of it|end of|end|time|middle of|beginning of|start of|then|war|same|works at|works in|"
    "works|firm|company|factory|makers|seller|bot|asker|owner|people|year*|summer|winter|spring|autumn|early|late|"
    "mid|turn of|him|her|me|you|them|us|lui|elle|mir|ihm|ihr|fin de|final de|mí|me|lei|hem|haar|mij"
)
"""Behind GOES_BY these are none."""
GIVES_AWAY = Phrases(
    "gives it away|give it away|gives them away|gave it away|says so|say so|proves it|prove it|settles it|decides it|"
    "is the clue|are the clue|is the giveaway|tells me|told me|is typical|are typical|verrät es|verrät sie|la trahit|"
    "le trahit|la delata|lo delata|la tradisce|lo tradisce|verraadt het"
)
"""What stands before these is what the expert goes by."""
RESULT = re.compile(
    r"(?<![^\W_])(?:so|therefore|hence|thus|it's|it is|its an?|this is|that's|that is|i'd say|i would say|i make it|"
    r"makes it|it has to be|it must be|must be|has to be|"
    r"make it|which makes|which puts|puts it|put it|points to|point to|means|mean|tells me|says it|is an?|are from|"
    r"are of|"
    r"ist es|ist sie|ist das|also|ist die|handelt es|es ist|c'est|donc|il s'agit|es una?|è una?|e una?|e del|"
    r"si tratta|quindi|dus|is het|het is)"
    r"(?![^\W_])"
)
"""What leads from evidence to what follows from it: 'boat shuttle so it's a Model 3'."""

_BOOKS = (
    r"(?:handbook|catalogue|catalog|price ?list|brochure|leaflet|booklet|circular|edition|meeting|auction|exhibition|"
    r"survey|letter|book|magazine|article|advert\w*|ad|"
    r"newsletter|list|register|directory|yearbook|katalog|preisliste|prospekt|jahrbuch|buch|tarif|prospectus|libro|"
    r"listino|catalogo|catalogus|prijslijst|boek)"
)
BOOK = re.compile(rf"\s*(?:[^\W\d_]+ ){{0,2}}?{_BOOKS}(?![^\W_])")
BEFORE_A_BOOK = re.compile(
    r"(?:^|(?<![^\W_]))(?:the|a|an|my|our|his|this|in|see|from|per|im|der|dem|den|die|siehe|laut|le|la|du|au|el|del|"
    r"il|nel|"
    r"de|het|een|uit|by)\s*\Z"
)
BOOK_OF = re.compile(
    rf"(?<![^\W_]){_BOOKS}(?: (?:of|from|for|by [^\W\d_]+|dated|printed|published|in|von|aus|vom|de|du|del|van|uit))?"
    r"[ ,(]*\Z"
)
"""'catalogue of', with a year behind it."""
WRITTEN_BY = re.compile(rf"(?<![^\W_]){_BOOKS} (?:by|von|par|de|di|van) [^\d,;]+\Z")
DATED = re.compile(
    r"(?:it is |is |also )?(?:dated|from|of|for|vom|datiert|von|datee?s?|du|de|fechad[oa]|del|datat[oa]|gedateerd|van)"
    r"(?![^\W_])"
)
"""What begins the words that only give the day of a document."""
_OWN_BOOKS = (
    r"(?:collection|yearbook|minutes|notebook|diary|ledger|register|book|daybook|letterbook|list|records?|catalogue|catalog|cards?|"
    r"card index|archives?|manual|receipt|circular|museum|people|group|club|collectors?|experts?|numbers|"
    r"machines|dealers?|hauptbuch|katalog|liste|registre|catalogo|grootboek|boek|lijst|registr[oi]|libr[oi]|lista|elenco|livre)"
)
NAMED_AFTER = re.compile(
    r"(?:'s?)? (?:works'? |factory |firm's |dealers?'? |price |number |day |letter |"
    rf"(?!see |the |by |per |in |from |and |says |on )[^\W\d_]+ )*{_OWN_BOOKS}s?(?![^\W_])"
)
"""What follows a name that is the name of a book: 'the Brackwater day book'."""
NAMED_BEFORE = re.compile(
    rf"(?<![^\W_]){_OWN_BOOKS}s? (?:of|at|in|from|for|von|vom|der|du|de la|de|des|del|della|di|van)(?: the| het| de)?"
    r" *\Z"
)
"""What stands before such a name: 'register of the'."""
