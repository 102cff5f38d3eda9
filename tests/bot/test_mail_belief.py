"""Why a mail that answers a card is not believed, in words for the experts; and that the honest one is."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from bot.channels.mail_format import read
from bot.mail_belief import Believed, Doubt, believe, claim_of, expert_of
from bot.mail_signing import Kind, Signer
from tests.mail_office import ADA, BEN, PASS, settings

NOW = datetime(2031, 5, 4, 12, tzinfo=UTC)
SIGNER = Signer(b"s" * 32)
CARD = str(SIGNER.sign(Kind.CASE, 12, ADA, NOW))


def judged(
    address: str = CARD, sender: str = ADA, head: str = PASS, body: str = "Model 9", trusted: str = "mx.example.net",
    now: datetime = NOW,
) -> Believed | Doubt | None:  # fmt: skip
    raw = f"{head}From: {sender}\nSubject: Re: Case 12\nIn-Reply-To: <{address}.card1@example.net>\n\n{body}"
    claim = claim_of(read(raw.encode()), settings(trusted), SIGNER, now)
    return believe(claim) if claim else None


def test_an_experts_own_answer_is_believed():
    believed = judged()
    assert isinstance(believed, Believed)
    assert (believed.expert, believed.address.number, believed.address.kind) == (ADA, 12, Kind.CASE)


def test_without_a_trusted_receiver_no_pass_is_needed():
    assert isinstance(judged(head="", trusted=""), Believed)


def test_a_mail_that_answers_no_card_claims_nothing():
    assert judged(address="x") is None


@pytest.mark.parametrize(
    ("doubt", "why"),
    [
        (judged(sender=f"{ADA}, {BEN}"), "more than one way"),
        (judged(sender="eve@example.org"), "not come from an address of an expert"),
        (judged(head=f"{PASS}Sender: eve@example.org\n"), "somebody else sent it"),
        (judged(head=f"{PASS}List-Id: <x.example.org>\n"), "mailing list"),
        (judged(head=""), "mx.example.net does not vouch"),
        (judged(address=CARD[:-3]), "damaged"),
        (judged(address=CARD.upper()), "damaged"),
        (judged(sender=BEN), "made for another expert"),
        (judged(address=CARD.replace("case-12", "case-13")), "not made by me for this case"),
        (judged(now=NOW + timedelta(days=62)), "is over"),
        (judged(body="yes\n\n---------- Forwarded message ---------\nFrom: x\n\nModel 9"), "passes another mail on"),
    ],
)
def test_the_reason_is_told_in_words(doubt, why):
    assert isinstance(doubt, Doubt)
    assert why in doubt.why


def test_the_mail_answered_at_once_decides_and_not_the_rest_of_the_thread():
    other = SIGNER.sign(Kind.CASE, 13, BEN, NOW)
    raw = f"{PASS}From: {ADA}\nIn-Reply-To: <{CARD}.card1@x>\nReferences: <{other}.card1@x> <{CARD}.card1@x>\n\nModel 9"
    claim = claim_of(read(raw.encode()), settings(), SIGNER, NOW)
    assert claim is not None
    assert claim.case == 12


@pytest.mark.parametrize("spelt", ["ADA@EXAMPLE.ORG", "Ada B. <ada@example.org>", '"Ada" <Ada@example.org>'])
def test_how_an_address_is_spelt_does_not_matter(spelt):
    assert expert_of(read(f"From: {spelt}\n\nx".encode()), settings()) == ADA
