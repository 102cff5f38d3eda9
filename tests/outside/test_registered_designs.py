"""United Kingdom registered designs: the numbers of the shipped pack against one published copy of the table.

Source: first number of each year, one published copy; other copies differ by a few hundred between 1902 and
1910. The guide 'Registered designs 1839-1991' of the National Archives explains the marks. The date is that
of registration: the earliest for what carries the mark.
"""

import pytest


@pytest.mark.parametrize(
    ("number", "year"),
    [("1", 1884), ("19755", 1884), ("19756", 1885), ("351202", 1900), ("594194", 1911), ("594195", 1912),
     ("666128", 1919), ("837520", 1940), ("837519", 1939), ("849730", 1947), ("919607", 1965)],
)  # fmt: skip
def test_a_registered_design_is_dated_to_its_year(number, year, marks, as_typed):
    [found] = as_typed(f"it has Rd No {number} cast in the stand", marks)
    assert (found["date"], found["object"]) == (str(year), "registration")


@pytest.mark.parametrize("number", ["385300", "403200", "471900", "552100"])
def test_a_year_on_which_published_copies_differ_is_given_as_about(number, marks, as_typed):
    [found] = as_typed(f"registered design {number}", marks)
    assert found["date"].endswith("~")


def test_1902_begins_with_385088_or_with_385180_by_the_copy_one_reads(marks, as_typed):
    dates = [as_typed(f"registered design {number}", marks)[0]["date"] for number in (385_087, 385_088, 385_179)]
    assert dates == ["1901", "1901/1902", "1901/1902"]


@pytest.mark.parametrize(
    "text",
    [
        "Rd. No. 594195",
        "RD NO 594195",
        "Reg. Design No. 594195",
        "Regd Design 594195",
        "design number 594,195",
        "englisches Geschmacksmuster 594195",
        "modèle déposé 594195",
        "modello registrato 594195",
        "geregistreerd model 594195",
        "wzór zarejestrowany 594195",
        "registrerat mönster 594195",
    ],
)
def test_the_words_before_a_design_may_be_of_any_language_of_a_mixed_group(text, marks, as_typed):
    """Common practice, no source: how registered designs are marked and spoken of."""
    assert [one["date"] for one in as_typed(text, marks) if one["register"] == "uk-designs"] == ["1912"]


def test_a_number_after_the_end_of_the_table_has_no_year(marks, as_typed):
    assert as_typed("registered design 999999", marks) == []
