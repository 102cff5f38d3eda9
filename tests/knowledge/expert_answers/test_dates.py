"""When an expert says the machine was made, as EDTF."""

import pytest


@pytest.mark.parametrize(
    ("text", "date"),
    [
        ("1911", "1911"),
        ("about 1911", "1911~"),
        ("c1911", "1911~"),
        ("probably 1911", "1911~"),
        ("1911, give or take", "1911~"),
        ("My guess: 1911", "1911~"),
        ("1911 or 1912", "1911/1912"),
        ("1911, possibly 1912", "1911/1912"),
        ("between 1908 and 1912", "1908/1912"),
        ("1908-12", "1908/1912"),
        ("tra il 1908 e il 1912", "1908/1912"),
        ("early 1920s", "1920/1924"),
        ("the twenties", "192X"),
        ("Ende der 20er", "1925/1929"),
        ("années 1930", "193X"),
        ("not before 1910", "1910/.."),
        ("1910 at the earliest", "1910/.."),
        ("1910 or later", "1910/.."),
        ("ab 1910", "1910/.."),
        ("no later than 1890", "../1890"),
        ("spätestens 1890", "../1890"),
        ("before 1910", "../1909"),
        ("after 1910 and before 1914", "1910/1913"),
        ("before the war", "../1939"),
        ("before the Great War", "../1913"),
        ("turn of the century", "1900~"),
        ("May 1911", "1911-05"),
        ("3 May 1911", "1911-05-03"),
        ("May 3rd, 1911", "1911-05-03"),
        ("3.5.1911", "1911-05-03"),
        ("spring 1911", "1911-03/1911-05"),
        ("nineteen twelve", "1912"),
        ("the 1920s, more precisely 1923", "1923"),
        ("can't be older than 1929", "1929/.."),
        ("it cannot be younger than 1936", "../1936"),
        ("nothing before 1936 has this motor", "1936/.."),
        ("The badge came in 1931, so it's after that", "1931/.."),
        ("The badge went in 1931, so before that", "../1930"),
        ("The firm closed in 1962, so it can't be later than that", "../1962"),
        ("1926, give or take two years", "1926~"),
        ("late 1911 or early 1912", "1911/1912"),
        ("between 1898, when it came out, and 1905", "1898/1905"),
        ("1911 but the ledger has 1912", "1912"),
        ("1904 or 1914; the decals say 1914", "1914"),
        ("C'est de 1934", "1934"),
    ],
)
def test_times_are_read_as_they_are_bounded(understood, text, date):
    assert understood(text).date == date


def test_of_a_day_that_two_orders_can_mean_the_year_alone_is_read(understood):
    assert understood("made 3/5/1911").date == "1911"


@pytest.mark.parametrize(
    "text",
    [
        "see the 1935 catalogue",
        "book by Hartlow, 1988, p. 112",
        "the firm closed in 1930",
        "founded in 1871",
        "sold new in 1913",
        "they made it from 1898 to 1936",
        "patent of 1902",
        "I restored it in 1987",
        "The patent is from 1907",
        "the exhibition of 1967 had one",
        "Anything but 1911",
    ],
)
def test_years_of_other_things_are_not_the_machines(understood, text):
    assert understood(text).date == ""


def test_a_year_of_sale_alone_is_shown_and_the_year_of_making_asked_for(understood):
    assert "when was it made?" in understood("sold in 1913").unclear[0]


def test_what_was_built_and_sold_is_dated_by_the_building(understood):
    assert understood("built 1911, sold 1913").date == "1911"


def test_the_day_of_a_document_dates_a_machine_that_nothing_else_does(understood):
    assert understood("The receipt is dated 12 May 1909").date == "1909-05-12"
    assert understood("1908. The receipt is dated 12 May 1909").date == "1908"


def test_times_that_contradict_each_other_are_shown(understood):
    one = understood("1911. Or so. The list: 1926.")
    assert one.date == ""
    assert "several times" in one.unclear[0]


@pytest.mark.parametrize(
    "text", ["not 1911, 1921", "can't be 1911, must be 1921", "1911 is too early: 1921", "1911, no, 1921"]
)
def test_a_year_that_is_denied_does_not_count(understood, text):
    assert understood(text).date == "1921"


@pytest.mark.parametrize("text", ["List of 1909: Dovelet, 1909", "Yearbook and list of 1909, p. 2: Dovelet, 1909"])
def test_a_list_is_no_month(understood, text):
    assert understood(text).date == "1909"


@pytest.mark.parametrize(
    "text",
    ["approximately 1911", "1911 approximately", "roughly 1911", "more or less 1911", "1911 +/- 2", "1911 ± 2 years"],
)
def test_a_year_that_is_only_about_right_is_marked(understood, text):
    assert understood(text).date == "1911~"


@pytest.mark.parametrize(
    "text",
    ["Es handelt sich um eine Lottke von 1926", "Es geht um eine Lottke, 1926",
     "es handelt sich um eine Hasselrieth Lottke aus dem Jahr 1926"],
)  # fmt: skip
def test_what_it_is_about_is_no_about(understood, text):
    assert understood(text).date == "1926"


@pytest.mark.parametrize(
    ("text", "date"),
    [("around WW1", "1914/1918"), ("Lottke, im Zweiten Weltkrieg", "1939/1945"), ("before WW1", "../1913"),
     ("during the Great War", "1914/1918"), ("after the First World War", "1918/.."), ("not after WW1", "")],
)  # fmt: skip
def test_a_war_is_a_time(understood, text, date):
    assert understood(text).date == date
