"""The pages for people say what the code does."""

from deploy import packs_page


def test_the_page_of_pack_columns_is_up_to_date():
    assert packs_page.PAGE.read_text(encoding="utf-8") == packs_page.page(), "run: python -m deploy.packs_page"
