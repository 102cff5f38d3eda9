"""The words that tell a question for the asker from one that is put to the group.

Phrases are parted by '|' and looked for as `plain.Phrases` says; English, German, French, Spanish, Italian and Dutch.
"""

from __future__ import annotations

from knowledge.expert_answers.plain import Phrases

HOW_MANY = Phrases(
    "how many|how long is|how wide|how big|what colour is|does it|is there a|are there any|has it got|combien de|"
    "wie viele|cuántas|cuántos|quante|quanti|hoeveel"
)
"""A sentence that begins with these is a question, with and without its sign."""
ABOUT_IT = Phrases(
    "is the|are the|is there|are there|is it|are they|does the|does it|do the|has it|has the|what does|what do|"
    "what's on|what is on|what colour|how long|how wide|how big|how many|how does|which way|which side|where is|"
    "where are|where's|where does|ist der|ist die|ist das|hat der|hat die|hat sie|welche|wo ist|est-ce que|y a-t-il|"
    "a-t-elle|¿tiene|tiene|hay|es la|ha la|c'è|è la|zit er|heeft de|is de|is het"
)
"""What begins a question about the machine."""
ITSELF = Phrases("it|there|in front|front|vorne|devant|delante|davanti|ervoor|vooraan")
"""A question with one of these is about the machine too."""

TO_EXPERTS = Phrases(
    "why|the others|others think|all of you|the rest of you|i|we|my|our|mine|your|ledger|day book|number book|books|"
    "meeting|who|who's|can we|anyone|anybody|someone|"
    "somebody|don't you|didn't you|do you|did you|have you|you have|you've|are you|were you|can you|could you|"
    "would you|will you|shall we|shall i|do we|have we|did we|don't we|isn't it|wasn't it|right|no|what do you think|"
    "any ideas|any idea|could it be|might it be|can it be|isn't that|isn't this|help|when is|ok|okay|agreed|agree|"
    "coming|meeting|wer|hat jemand|weiß jemand|hast du|habt ihr|könnte es|qui|quelqu'un|as-tu|avez-vous|quién|"
    "alguien|tienes|tenéis|chi|qualcuno|hai|avete|wie heeft|wie kan|wie weet|iemand|heb je|hebben jullie"
)
"""Asked of the others in the group."""

ASKS_STRAIGHT = Phrases(
    "is|are|was|were|does|do|did|can|could|has|have|had|will|would|any|which|what|what's|where|where's|when|how|"
    "who owned|who bought|who sold|who gave|who made",
    "ist|sind|war|hat|haben|hatte|hast|steht|gibt|kann|kannst|können|könnten|könntest|zeigt|liegt|läuft|sieht|fehlt|"
    "trägt|weiß er|weiß sie|wissen sie|was|welche*|wo|wie|wann|woher|wurde|sitzt|näht",
    "est-ce|y a-t-il|a-t-elle|a-t-il|est-elle|est-il|avez-vous|as-tu|pouvez-vous|pourriez-vous|peux-tu|peut-on|"
    "savez-vous|voyez-vous|quel*|où|comment|combien|qu'est|que dit|de quelle|d'où|quand|reste-t-il|porte-t-elle",
    "heeft|hebt u|heb je|staat|is|zijn|zit|kan|kunt|kun|kunnen|wat|welk|welke|waar|hoe|wanneer|weet u|weet je|ziet|"
    "draagt|loopt",
    "ha|hai|hanno|avete|è|c'è|ci sono|può|puoi|potete|potrebbe|potreste|che|che cosa|cosa|quale|quali|dove|da dove|"
    "come|quando|quant*|sapete|sai",
    "tiene*|hay|es|son|está|lleva|puede*|podría*|qué|cuál*|dónde|de dónde|cómo|cuándo|cuánt*|sabe|sabes|se ve|ve",
)
"""A question that begins with these is put to somebody who knows the machine."""
TO_THE_GROUP = Phrases(
    "a joke|joking|kidding|serious|we|us|our|ours|mine|me|my|shall i|should i|do i|did i|can i|may i|am i|why|"
    "ledger*|day book|number book|books|"
    "list|lists|meeting|anyone|anybody|someone|somebody|who's|who has|who is|who can|who knows|others|all of you|"
    "the rest of you|everyone|everybody|the group|experts|you think|your opinion|your view|you reckon|opinion*|"
    "idea|ideas|you agree|don't you|didn't you|you sure|help|one like this|one like it|this one before|seen this|"
    "seen these|seen such|come across|so what|what now|what's next|what is next|what's up|what's new|how are|"
    "how come|how so|how about|what about|what if",
    "jemand|ihr|wir|uns|unser*|einer von euch|die anderen|was meint|was denkt|meinung|wie geht|wie bitte|warum",
    "quelqu'un|nous|notre|nos|les autres|en pensez|en penses|votre avis|ton avis|pourquoi|ça va",
    "alguien|nosotros|nuestr*|los demás|pensáis|piensan|opináis|opinan|por qué|qué tal",
    "qualcuno|noi|nostr*|gli altri|pensate|ne dite|parere|perché|come va",
    "iemand|wij|we|ons|onze|jullie|de anderen|wat denk|denken|mening|waarom|hoe gaat",
)
"""A question with one of these is put to the other experts, or to nobody."""
OF_THE_NUMBER = Phrases(
    "number*|digit*|figure*|zero|serial|prefix|suffix|nummer*|ziffer*|stellig|null|numéro*|chiffre*|zéro|número*|"
    "cifra*|cero|numero|numeri|cifre|cijfer*|nul"
)
"""What is said with these may be meant as an answer, and is shown where nothing else is understood."""
