"""Thanks, greetings and 'I don't know', in nine languages, and a kind word back."""

from __future__ import annotations

from knowledge.hearing.words import Word, folded_set, split

_THANKS = folded_set(
    "thanks thank thankyou thx ty cheers danke dankeschön dank merci gracias grazie bedankt dziękuję dziękuje "
    "dzięki спасибо благодарю tack tackar"
)
_BYE = folded_set(
    "bye goodbye byebye tschüss tschüß wiedersehen revoir adiós adios ciao arrivederci doei ziens widzenia pa "
    "свидания пока hejdå farewell"
)
_HELLO = folded_set(
    "guten hi hello hey hallo moin servus bonjour salut hola buongiorno buonasera salve hoi cześć czesc witam привет "
    "здравствуйте hej hejsan"
)
_AROUND = folded_set(
    "you very much so a lot for your the help all ok okay great perfect super wow nice lovely good day morning "
    "evening night everybody everyone there bot and really kind that's s s' is it to now then again vielen sehr "
    "auf für die hilfe guten tag morgen abend gute nacht schön toll beaucoup pour votre aide au bon bonne soirée "
    "journée et muchas muchísimas por la ayuda buenos días buenas hasta luego molte mille per l aiuto buona "
    "giornata je wel heel erg voor de hulp goed tot bardzo za pomoc do dzień dobry большое за помощь до добрый "
    "день så mycket för hjälpen god dag"
)
_UNSURE = folded_set(
    "know idea tell sure weiß ahnung sais sé so weet wiem pojęcia знаю vet aning sicher seguro sicuro"
)
_NOT = folded_set(
    "don not dont no can cant couldn nicht keine ne pas non ni niet geen nie не inte ingen idk unsure dunno"
)
_UNSURE_ALONE = folded_set("idk unsure dunno")

WELCOME = "You are welcome. Enjoy the machine!"
GOODBYE = "Goodbye, and good sewing."
HELLO = (
    "Hello! Type the number that is stamped on the machine, with its letters and every zero, and I will say how old it "
    "is. The maker or model helps, if you know it. Ask me where to find the number."
)


def kind_word(text: str) -> str:
    """Return a short answer to a message that only thanks, greets or says goodbye; '' for any other message."""
    words = {word.text for word in split(text) if word.text.isalnum()}
    for known, answer in ((_THANKS, WELCOME), (_HELLO, HELLO), (_BYE, GOODBYE)):
        if words & known and words <= _THANKS | _HELLO | _BYE | _AROUND:
            return answer
    return ""


def is_unsure(text: str) -> bool:
    """Tell whether the asker says that they do not know.

    >>> is_unsure("Sorry, I don't know"), is_unsure("not a Model 9")
    (True, False)
    """
    words: list[Word] = list(split(text))
    texts = {word.text for word in words}
    return len(words) < 12 and bool(texts & _UNSURE_ALONE or (texts & _UNSURE and texts & _NOT))
