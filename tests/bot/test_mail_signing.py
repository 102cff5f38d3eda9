"""Signed case addresses: made for one expert, one case and a while, and by nobody else."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from bot.journal import open_journal
from bot.mail_signing import LIFE, Kind, Signer, claimed_in, is_over, read, same_case

NOW = datetime(2031, 5, 4, 10, tzinfo=UTC)
SIGNER = Signer(b"x" * 32)
ADA = "ada@example.org"


@pytest.mark.parametrize("kind", Kind)
def test_an_address_goes_through_text_and_back(kind):
    address = SIGNER.sign(kind, 12, ADA, NOW)
    assert read(str(address)) == address
    assert claimed_in(f"Re: Case 12 [{address}]") == str(address)
    assert claimed_in(f"<{address}.card@example.net>") == str(address)


def test_it_is_of_the_one_it_was_made_for_however_the_address_is_spelt():
    address = SIGNER.sign(Kind.CASE, 12, ADA, NOW)
    assert SIGNER.is_of(address, ADA)
    assert SIGNER.is_of(address, "Ada@Example.ORG")
    assert not SIGNER.is_of(address, "ben@example.org")


def test_the_sign_for_kelvin_is_no_k():
    assert "\u212aim@example.org".lower() == "kim@example.org"
    assert not SIGNER.is_of(SIGNER.sign(Kind.CASE, 1, "kim@example.org", NOW), "\u212aim@example.org")
    assert same_case("\u212aim@Example.org") != same_case("kim@example.org")


@pytest.mark.parametrize(
    ("old", "new"),
    [("case-12-", "case-13-"), ("case-12-", "read-12-"), ("case-12-", "agree-12-"), ("-22", "-29"),
     ("case-12-", "case-012-")],
)  # fmt: skip
def test_nothing_in_it_can_be_changed(old, new):
    text = str(SIGNER.sign(Kind.CASE, 12, ADA, NOW))
    changed = read(text.replace(old, new, 1))
    assert old in text
    assert changed is None or not SIGNER.is_of(changed, ADA)


@pytest.mark.parametrize(
    "damage", [str.upper, lambda text: text[:-1], lambda text: text + "a", lambda text: text[:8], lambda text: ""]
)
def test_a_damaged_one_is_none(damage):
    assert read(damage(str(SIGNER.sign(Kind.CASE, 12, ADA, NOW)))) is None


def test_another_secret_makes_others():
    assert not Signer(b"y" * 32).is_of(SIGNER.sign(Kind.CASE, 12, ADA, NOW), ADA)


def test_its_life_is_bounded():
    address = SIGNER.sign(Kind.CASE, 12, ADA, NOW)
    assert not is_over(address, NOW + LIFE)
    assert is_over(address, NOW + LIFE + timedelta(days=1))


def test_the_secret_is_made_once_for_a_store_and_shows_nowhere(tmp_path):
    with open_journal(tmp_path / "store.sqlite", create=True) as journal:
        first, again = Signer.of(journal), Signer.of(journal)
        secret = journal.noted("mail", "secret of the case addresses")
    with open_journal(tmp_path / "other.sqlite", create=True) as other:
        elsewhere = Signer.of(other)
    address = first.sign(Kind.CASE, 12, ADA, NOW)
    assert again.is_of(address, ADA)
    assert not elsewhere.is_of(address, ADA)
    assert secret is not None
    assert len(secret) == 64
    assert secret not in repr(first) + repr(address)


def test_a_secret_that_is_too_short_is_refused():
    with pytest.raises(ValueError, match="too short"):
        Signer(b"short")
