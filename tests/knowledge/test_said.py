"""What is heard beside the number, sentence by sentence, in the nine languages of a mixed group.

The sentences are our own, the makers invented.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knowledge.edtf import parse
from knowledge.names import Names, fold
from knowledge.said import Said, hear, merged
from knowledge.tokens import find


def _named(**ids: str) -> dict[str, tuple[str, ...]]:
    return {fold(name): (id_.replace("_", "-"),) for id_, names in ids.items() for name in names.split(";")}


NAMES = Names(
    shapes=frozenset({("K", 6, ""), ("K", 7, ""), ("SE", 6, ""), ("", 0, "")}),
    makers=_named(
        ottrel="Ottrel & Vane;Ottrel;Оттрел",
        wendelohr="Wendelohr",
        rivolanda="Rivolanda",
        sundrika="Sundrika;Сундрика",
    ),
    models=_named(
        ov_9="Model 9;No. 9;Modell 9",
        ov_9h="Model 9H",
        ov_52p="Model 52P;Patcher 52",
        ov_23="Model 23",
        ov_58="Model 58",
        we_hedel="Hedel",
        we_hedel_z="Hedel Z",
        su_tuva="Tuva",
        su_tuva2="Tuva 2;Tuva II",
        ri_capinera="Capinera",
    ),
    works=_named(
        hallowmere="Hallowmere Works;Hallowmere, England",
        brackwater="Brackwater Works;Brackwater Quay, Scotland",
        klingenried="Stammwerk Klingenried;Klingenried, Germany",
        portolesso="Officina di Portolesso;Portolesso, Italy",
        valdirame="Officina di Valdirame;Valdirame, Italy",
        ekarholm="Ekarholms verk;Ekarholm, Sweden",
    ),
)


def heard(text: str) -> Said:
    return hear(text, NAMES, find(text, NAMES))


@pytest.mark.parametrize(
    ("text", "models"),
    [
        ("it's a Model 9", ("ov-9",)),
        ("It is an Ottrel model 9, K204117", ("ov-9",)),
        ("ours is a no. 9 I think", ("ov-9",)),
        ("Es ist ein Modell 9.", ("ov-9",)),
        ("c'est un modèle 9", ("ov-9",)),
        ("es un modelo 9", ("ov-9",)),
        ("è un modello 9", ("ov-9",)),
        ("het is een model 9", ("ov-9",)),
        ("to jest model 9", ("ov-9",)),
        ("это модель 9", ("ov-9",)),
        ("det är en modell 9", ("ov-9",)),
        ("model no. 9", ("ov-9",)),
        ("Model-9", ("ov-9",)),
        ("Model9", ("ov-9",)),
        ("we have two Model 9s here", ("ov-9",)),
        ("Model 9H", ("ov-9h",)),
        ("model 9 h", ("ov-9h",)),
        ("an 52P patcher", ("ov-52p",)),
        ("my Hedel Z", ("we-hedel-z",)),
        ("my Hedel", ("we-hedel",)),
        ("Tuva 2", ("su-tuva2",)),
        ("Tuva II", ("su-tuva2",)),
        ("Tuva", ("su-tuva",)),
        ("die Capineras meiner Tante", ("ri-capinera",)),
        ("a Capiner", ("ri-capinera",)),
        ("a Cappinera", ("ri-capinera",)),
        ("Model 9 or a 23", ("ov-9", "ov-23")),
        ("I am not sure if it is a Model 9", ("ov-9",)),
    ],
)
def test_a_model_is_heard_however_it_is_written(text, models):
    assert heard(text).models == models


@pytest.mark.parametrize(
    "text",
    [
        "it is not a Model 9",
        "it isn't a Model 9",
        "definitely not the Model 9",
        "I don't believe it is a Model 9",
        "Das ist kein Modell 9",
        "ce n'est pas un modèle 9",
        "no es un modelo 9",
        "non è un modello 9",
        "het is geen model 9",
        "to nie jest model 9",
        "это не модель 9",
        "det är inte en modell 9",
        "Model 95",
        "Model 9X",
        "see photo no. 9",
        "question number 3",
        "house number 9",
        "order no. 23",
        "needle no. 9 please",
        "I have 9 of them",
        "> it's a Model 9",
    ],
)
def test_what_is_denied_or_numbers_something_else_is_no_model(text):
    assert heard(text).models == ()


@pytest.mark.parametrize(
    ("text", "makers"),
    [
        ("an Ottrel & Vane treadle", ("ottrel",)),
        ("an OTTREL AND VANE treadle", ("ottrel",)),
        ("Ottrel und Vane", ("ottrel",)),
        ("Ottrel's number", ("ottrel",)),
        ("two Ottrels", ("ottrel",)),
        ("eine Wendelohr", ("wendelohr",)),
        ("eine alte wendelohr-maschine", ("wendelohr",)),
        ("a Wendlehor", ()),
        ("a Wendelhor", ("wendelohr",)),
        ("a Wendeloh", ("wendelohr",)),
        ("moja Rivolanda", ("rivolanda",)),
        ("numer mojej Rivolandy", ("rivolanda",)),
        ("mam Sundrikę", ("sundrika",)),
        ("у меня Сундрика", ("sundrika",)),
        ("номер моей Сундрики", ("sundrika",)),
        ("швейная машинка Оттрела", ("ottrel",)),
        ("en gammal Sundrika", ("sundrika",)),
        ("Sundrikas nummer", ("sundrika",)),
        ("not an Ottrel but a Sundrika", ("sundrika",)),
        ("the machine of Mrs Rivol", ()),
    ],
)
def test_a_maker_is_heard(text, makers):
    assert heard(text).makers == makers


@pytest.mark.parametrize(
    ("text", "works"),
    [
        ("made at the Hallowmere Works", ("hallowmere",)),
        ("built in Hallowmere", ("hallowmere",)),
        ("gebaut in Klingenried", ("klingenried",)),
        ("from the Brackwater factory", ("brackwater",)),
        ("fabriquée à Portolesso", ("portolesso",)),
        ("tillverkad i Ekarholm", ("ekarholm",)),
        ("I live in Klingenried", ()),
        ("greetings from Valdirame", ()),
    ],
)
def test_a_works_is_heard_where_something_is_made_there(text, works):
    assert heard(text).works == works


@pytest.mark.parametrize(
    ("text", "dates"),
    [
        ("about 1930", ["1930~"]),
        ("c. 1930", ["1930~"]),
        ("around 1930 or so", ["1930~"]),
        ("my 1930 Ottrel", ["1930"]),
        ("I think it was made in 1931", ["1931"]),
        ("it must be from the 1920s", ["192X"]),
        ("the late 1920s", ["1925/1929"]),
        ("early 1930s", ["1930/1934"]),
        ("from the twenties", ["192X"]),
        ("from the 30s", ["193X"]),
        ("between 1920 and 1930", ["1920/1930"]),
        ("1911-12", ["1911/1912"]),
        ("1920-1930", ["1920/1930"]),
        ("made before 1914", ["../1913"]),
        ("pre-1914", ["../1913"]),
        ("after 1945", ["1945/.."]),
        ("it is pre-war", ["../1939"]),
        ("from before the war", ["../1939"]),
        ("built in '31", ["1931"]),
        ("bought in 1931 new", ["1931"]),
        ("my gran bought it new in 1931", ["1931"]),
        ("I bought it in 2019 but it was made in 1930", ["1930"]),
        ("My grandmother, born 1912, got it new in 1931", ["1931"]),
        ("is it 1925 or 1935?", ["1925", "1935"]),
        ("um 1930", ["1930~"]),
        ("Baujahr 1930", ["1930"]),
        ("aus den 30er Jahren", ["193X"]),
        ("aus den zwanziger Jahren", ["192X"]),
        ("vor dem Krieg", ["../1939"]),
        ("1931 neu gekauft", ["1931"]),
        ("vers 1930", ["1930~"]),
        ("des années 30", ["193X"]),
        ("des années vingt", ["192X"]),
        ("d'avant guerre", ["../1939"]),
        ("hacia 1930", ["1930~"]),
        ("de los años 20", ["192X"]),
        ("de los años veinte", ["192X"]),
        ("circa 1930", ["1930~"]),
        ("degli anni '30", ["193X"]),
        ("anni trenta", ["193X"]),
        ("prima della guerra", ["../1939"]),
        ("rond 1930", ["1930~"]),
        ("uit de jaren 30", ["193X"]),
        ("voor de oorlog", ["../1939"]),
        ("ok. 1930 r.", ["1930~"]),
        ("około 1930 roku", ["1930~"]),
        ("z lat 30.", ["193X"]),
        ("z lat trzydziestych", ["193X"]),
        ("przed wojną", ["../1939"]),
        ("около 1930", ["1930~"]),
        ("30-х годов", ["193X"]),
        ("тридцатые годы", ["193X"]),
        ("довоенная", ["../1939"]),
        ("omkring 1930", ["1930~"]),
        ("i 1930", ["1930"]),
        ("från 1930-talet", ["193X"]),
        ("från trettiotalet", ["193X"]),
    ],
)
def test_the_time_an_asker_thinks_of_is_heard(text, dates):
    assert heard(text).dates == tuple(parse(date) for date in dates)


@pytest.mark.parametrize(
    "text",
    [
        "I bought it in 2019",
        "I bought it yesterday",
        "found in 1998 in a barn",
        "inherited in 1985 from my aunt",
        "gran was born in 1930",
        "she died in 1956",
        "In 1956 my gran bought it",
        "I have had it since 1975",
        "ich habe sie 1987 gekauft",
        "meine Oma, geboren 1930",
        "je l'ai achetée en 1987",
        "la compré en 1987",
        "l'ho comprata nel 1987",
        "gekocht in 1987",
        "kupiłem w 1987",
        "купил в 1987",
        "köpt 1987",
        "patented 1892",
        "Pat. Aug 1889",
        "restored in 1999",
        "call me on 01632 961930",
        "she is in her eighties",
        "forty years old",
        "1930 stitches a minute",
        "is it from before or after the thirty",
    ],
)
def test_other_times_are_not_those_of_the_machine(text):
    assert heard(text).dates == ()


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("seven digits", 7),
        ("7 digits", 7),
        ("7", 7),
        ("seven", 7),
        ("it has 7", 7),
        ("it has seven of them", 7),
        ("I counted 7", 7),
        ("six, not seven", 6),
        ("there are 7 figures", 7),
        ("K204117, there are six digits on it", 6),
        ("six digits, not seven", 6),
        ("7 Ziffern", 7),
        ("sieben Stellen", 7),
        ("die Nummer ist siebenstellig", 7),
        ("7-stellig", 7),
        ("ja, sieben", 7),
        ("sept chiffres", 7),
        ("il y en a sept", 7),
        ("siete cifras", 7),
        ("tiene siete dígitos", 7),
        ("sette cifre", 7),
        ("ha 7 cifre", 7),
        ("zeven cijfers", 7),
        ("siedem cyfr", 7),
        ("numer jest siedmiocyfrowy", 7),
        ("семь цифр", 7),
        ("семизначный номер", 7),
        ("sju siffror", 7),
        ("det är sju", 7),
    ],
)
def test_how_many_digits_are_stamped_is_heard(text, count):
    assert heard(text).digit_count == count


@pytest.mark.parametrize(
    "text",
    [
        "K204117 and 7 bobbins",
        "I have 7 machines",
        "the first two digits are worn",
        "the last 3 digits are 117",
        "two digits are missing",
        "is it six or seven digits?",
        "not seven digits",
        "one digit is unreadable",
        "zwei Ziffern sind unleserlich",
        "les deux derniers chiffres",
        "K204117",
        "it has 40 attachments",
    ],
)
def test_other_counts_are_not_the_number_of_digits(text):
    assert heard(text).digit_count is None


@pytest.mark.parametrize(
    ("text", "zero"),
    [
        ("it starts with zero", True),
        ("It begins with a 0", True),
        ("the first digit is a zero", True),
        ("there is a zero in front", True),
        ("a leading zero", True),
        ("no zero in front", False),
        ("it doesn't start with a zero", False),
        ("without a leading zero", False),
        ("mit einer Null vorne", True),
        ("sie fängt mit Null an", True),
        ("keine Null davor", False),
        ("ça commence par un zéro", True),
        ("pas de zéro devant", False),
        ("empieza por cero", True),
        ("no empieza con cero", False),
        ("inizia con lo zero", True),
        ("senza zero davanti", False),
        ("het begint met een nul", True),
        ("geen nul vooraan", False),
        ("zaczyna się od zera", True),
        ("nie ma zera na początku", False),
        ("начинается с нуля", True),
        ("впереди нет нуля", False),
        ("den börjar med noll", True),
        ("ingen nolla först", False),
        ("does it start with a zero?", None),
        ("zero idea how old it is", None),
        ("K204117", None),
    ],
)
def test_a_zero_in_front_is_heard(text, zero):
    assert heard(text).leading_zero is zero


@pytest.mark.parametrize(
    ("text", "letter"),
    [
        ("K", "K"),
        ("k", "K"),
        ("it's a K", "K"),
        ("SE", "SE"),
        ("the letter is K", "K"),
        ("the letter is a K", "K"),
        ("it has the letters SE in front", "SE"),
        ("it starts with a K", "K"),
        ("there is no letter", ""),
        ("no letter", ""),
        ("without any letter", ""),
        ("Der Buchstabe ist K", "K"),
        ("kein Buchstabe", ""),
        ("mit K vorne", "K"),
        ("la lettre K", "K"),
        ("pas de lettre", ""),
        ("la letra es K", "K"),
        ("sin letra", ""),
        ("la lettera è K", "K"),
        ("senza lettera", ""),
        ("geen letter", ""),
        ("litera K", "K"),
        ("bez litery", ""),
        ("буква К", "K"),
        ("без буквы", ""),
        ("bokstaven är K", "K"),
        ("ingen bokstav", ""),
        ("thanks", None),
        ("ok", None),
        ("a nice machine", None),
        ("I wrote a letter to the works", None),
        ("the letter is worn", None),
    ],
)
def test_the_letter_before_the_number_is_heard(text, letter):
    assert heard(text).prefix == letter


@pytest.mark.parametrize(
    ("text", "wish"),
    [
        ("how old is it?", "age"),
        ("What year was my machine made?", "age"),
        ("when was it built", "age"),
        ("can you date K204117 please", "age"),
        ("Wie alt ist meine Maschine?", "age"),
        ("Baujahr von welchem Jahr?", "age"),
        ("quel âge a ma machine ?", "age"),
        ("¿Cuántos años tiene mi máquina?", "age"),
        ("quanti anni ha?", "age"),
        ("hoe oud is mijn machine?", "age"),
        ("ile ma lat ta maszyna?", "age"),
        ("z którego roku jest?", "age"),
        ("сколько лет машинке?", "age"),
        ("какого года машинка?", "age"),
        ("hur gammal är min maskin?", "age"),
        ("which model is this?", "model"),
        ("Welches Modell ist das?", "model"),
        ("quel modèle est-ce ?", "model"),
        ("¿qué modelo es?", "model"),
        ("che modello è?", "model"),
        ("welk model is dit?", "model"),
        ("jaki to model?", "model"),
        ("какая это модель?", "model"),
        ("vilken modell är det?", "model"),
        ("who made it?", "maker"),
        ("where was it made?", "works"),
        ("which factory is it from?", "works"),
        ("Where do I find it?", "where"),
        ("where is the serial number?", "where"),
        ("where is it on the machine?", "where"),
        ("where can I find the number on my Model 58", "where"),
        ("I can't find the serial number", "where"),
        ("Wo finde ich die Nummer?", "where"),
        ("où se trouve le numéro ?", "where"),
        ("¿dónde está el número?", "where"),
        ("dove trovo il numero?", "where"),
        ("waar vind ik het nummer?", "where"),
        ("gdzie jest numer?", "where"),
        ("где найти номер?", "where"),
        ("var hittar jag numret?", "where"),
        ("what is it worth?", "value"),
        ("Was ist sie wert?", "value"),
        ("combien vaut-elle ?", "value"),
        ("¿cuánto vale?", "value"),
        ("quanto vale?", "value"),
        ("wat is hij waard?", "value"),
        ("ile jest warta?", "value"),
        ("сколько она стоит?", "value"),
        ("vad är den värd?", "value"),
    ],
)
def test_what_is_wanted_is_heard(text, wish):
    assert wish in heard(text).asks


@pytest.mark.parametrize(
    "text",
    [
        "where was it made?",
        "where can I buy needles?",
        "where do I find parts for it?",
        "where is the machine?",
        "det var numret jag läste",
        "numéro K ou L",
        "K204117",
    ],
)
def test_other_places_are_not_the_place_of_the_number(text):
    assert "where" not in heard(text).asks


@pytest.mark.parametrize(
    "text",
    [
        "can I talk to a human?",
        "please ask an expert",
        "can I please talk to a real person about it?",
        "K204117, can I please talk to a real person about it?",
        "could somebody pass this on to an expert",
        "ich möchte mit einem Menschen sprechen",
        "je voudrais parler à un expert",
        "quiero hablar con una persona",
        "vorrei parlare con un esperto",
        "kan ik met een mens praten",
        "chcę porozmawiać z człowiekiem",
        "хочу поговорить с человеком",
        "jag vill prata med en människa",
    ],
)
def test_asking_for_a_person_is_heard(text):
    assert heard(text).person


@pytest.mark.parametrize(
    "text",
    ["see the photo", "picture attached", "Foto im Anhang", "photo jointe", "foto adjunta", "zdjęcie", "фото", "bild"],
)
def test_a_photo_is_heard(text):
    assert heard(text).picture


@pytest.mark.parametrize(
    ("text", "danger"),
    [
        ("the motor hums", "wiring"),
        ("the plug has two pins", "wiring"),
        ("der Stecker ist kaputt", "wiring"),
        ("le moteur ne tourne plus", "wiring"),
        ("el motor no anda", "wiring"),
        ("silnik nie działa", "wiring"),
        ("двигатель не работает", "wiring"),
        ("motorn luktar", "wiring"),
        ("how do I take it apart", "opening"),
        ("kann ich sie zerlegen", "opening"),
        ("puis-je la démonter", "opening"),
        ("как её разобрать", "opening"),
        ("it is too heavy to lift", "casting"),
        ("I want to repaint it", "paint"),
        ("how do I change the needle", "needle"),
    ],
)
def test_subjects_that_can_hurt_are_heard(text, danger):
    assert danger in heard(text).dangers


def test_a_plain_question_warns_of_nothing():
    assert heard("K204117, it takes needle 130/705, how old is it?").dangers == frozenset()


def test_what_is_said_later_counts_more():
    both = merged(heard("an Ottrel Model 9 about 1930, seven digits"), heard("sorry, a Model 23, six digits"))
    assert (both.makers, both.models, both.digit_count) == (("ottrel",), ("ov-23",), 6)
    assert both.dates == (parse("1930~"),)


def test_where_the_number_is_is_not_told_again():
    assert merged(heard("where is the number, and how old is it?"), heard("K")).asks == {"age"}


def test_a_name_is_found_in_any_case_and_in_full_width_letters():
    assert heard("ＯＴＴＲＥＬ").makers == ("ottrel",)


@given(st.text(max_size=300))
def test_any_text_can_be_heard(text):
    heard(text)


@pytest.mark.parametrize(
    "unit",
    [
        "x", "ottrel", "wendelohr ", "Capinerra ", "model ", "model-", "no. 9 ", "model 9 or 23 ", "1930 ", "1930, ",
        "'31 ", "30s ", "1920-1930 ", "before the war ", "zero ", "starts with k ", "no letter ", "7 digits ",
        "siebenstellig", "seven or digits ", "where ", "- ", "'", "? ", "> \n", "a\u0301", "\ufdfa", "привет ", "1",
        "1 ",
    ],
)  # fmt: skip
def test_very_long_messages_are_heard(unit):
    """With time that grows as the square of the length, each of these would take minutes. tests/bench measures it."""
    hear(unit * (100_000 // len(unit)), NAMES, find("", NAMES))
