"""Ways to pretend to be an expert. Each is tried on a desk that is one 'yes' away from storing what an expert wrote.

WAYS is the list for mail: a name, the mail, and whether the experts hear of it. None may change a case, its history or
what is known, nor get anything shown to be said yes to. The honest mail beside them does, so that the test can fail.
The ways by chat are listed in the same form in tests/bot/channels/telegram/test_pretenders.py.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import timedelta
from email.message import EmailMessage

import pytest

from tests.mail_office import ADA, BEN, DESK, OWN_LIST, PASS, TRUSTED, MailOffice, mail_office, text_of, to

KIM = "kim@example.org"
MALLORY = "mallory@example.com"
HER_PASS = f"Authentication-Results: {TRUSTED}; dmarc=pass header.from=example.com\n"
FAIL = f"Authentication-Results: {TRUSTED}; dmarc=fail header.from=example.org\n"
SETTLING = "Model 9, about 1911, by the shuttle"


@dataclass
class Scene:
    """What an impostor may have seen: all mails of the experts. `shown` waits for Ada's yes."""

    office: MailOffice
    card: EmailMessage
    other_card: EmailMessage
    bens_card: EmailMessage
    kims_card: EmailMessage
    shown: EmailMessage
    before: list[tuple[object, ...]]

    def yes(self, sender: str = ADA, head: str = PASS, body: str = "yes", **more: str) -> list[EmailMessage]:
        """Answer what waits for Ada's yes."""
        return self.office.answer(self.shown, body, sender, head, **more)

    def signed(self, address: str, sender: str = ADA, head: str = PASS, body: str = SETTLING) -> list[EmailMessage]:
        """Send a mail with a case address of one's own making, where mail programs put it."""
        thread = f"In-Reply-To: <{address}.card1@example.net>\nReferences: <{address}.card1@example.net>\n"
        return self.office.mail(body, sender, "Re: Case 1", f"{head}{thread}")

    def address(self, mail: EmailMessage) -> str:
        return re.search(r"\[(.*?)\]", str(mail["Subject"]))[1]  # type: ignore[index]


@pytest.fixture
def scene(tmp_path, pack) -> Iterator[Scene]:
    with mail_office(tmp_path, pack, experts=(ADA, BEN, KIM)) as office:
        yield begun(office)


@pytest.fixture
def scene_without_trust(tmp_path, pack) -> Iterator[Scene]:
    with mail_office(tmp_path, pack, experts=(ADA, BEN, KIM), trusted="") as office:
        yield begun(office)


def begun(office: MailOffice) -> Scene:
    first = office.mail("How old is B123456?", "hattie@example.com")
    second = office.mail("How old is QX7654321?", "ida@example.com")
    card, other = to(first, ADA)[0], to(second, ADA)[0]
    (shown,) = to(office.answer(card, SETTLING), ADA)
    return Scene(office, card, other, to(first, BEN)[0], to(first, KIM)[0], shown, office.state_of_all())


def multipart(kind: str, *parts: str) -> tuple[str, str]:
    """Return head and body of a mail made of parts."""
    body = "".join(f"--b\n{part}\n" for part in parts)
    return f'MIME-Version: 1.0\nContent-Type: multipart/{kind}; boundary="b"\n', f"{body}--b--\n"


def as_parts(scene: Scene, kind: str, *parts: str, subject: str = "") -> list[EmailMessage]:
    head, body = multipart(kind, *parts)
    return scene.yes(head=PASS + head, body=body, subject=subject)


def with_quote(scene: Scene, words: str) -> str:
    quoted = "\n".join(f"> {line}" for line in text_of(scene.shown).splitlines())
    return f"{words}\n\nOn Sunday, 4 May 2031 at 12:00, desk wrote:\n{quoted}\n"


def settled(scene: Scene) -> Scene:
    scene.yes(message_id="<honest@example.org>")
    assert scene.office.findings() == [("B123456", "t9", "1911~")]
    scene.before = scene.office.state_of_all()
    return scene


def later(scene: Scene, days: int) -> Scene:
    scene.office.now += timedelta(days=days)
    return scene


Way = Callable[[Scene], list[EmailMessage]]

# Stopped by what the own receiving server says of the sender: these need `trusted_authserv_id`.
NEED_TRUST: dict[str, tuple[Way, bool]] = {
    "From is forged, and the receiver says nothing": (lambda s: s.yes(head=""), True),
    "the receiver found a forgery": (lambda s: s.yes(head=FAIL), True),
    "the receiver vouches for another domain": (lambda s: s.yes(head=HER_PASS), True),
    "another server vouches": (lambda s: s.yes(head=PASS.replace(TRUSTED, "mx.example.com")), True),
    "a server with a longer name vouches": (
        lambda s: s.yes(head=PASS.replace(TRUSTED, f"{TRUSTED}.example.com")),
        True,
    ),
    "a forged pass below the receiver's own finding": (lambda s: s.yes(head=FAIL + PASS), True),
    "a forged pass below another server's line": (
        lambda s: s.yes(head=PASS.replace(TRUSTED, "mx.example.com") + PASS),
        True,
    ),
    "another server's pass above the receiver's finding": (
        lambda s: s.yes(head=PASS.replace(TRUSTED, "mx.example.com") + FAIL),
        True,
    ),
    "a pass in a comment": (
        lambda s: s.yes(head=FAIL.replace("dmarc=fail", "dmarc=fail (dmarc=pass header.from=example.org)")),
        True,
    ),
    "a pass in a reason": (
        lambda s: s.yes(head=FAIL.replace("dmarc=fail", 'dmarc=fail reason="; dmarc=pass header.from=example.org"')),
        True,
    ),
    "SPF alone passed": (
        lambda s: s.yes(head=f"Authentication-Results: {TRUSTED}; spf=pass smtp.mailfrom={ADA}\n"),
        True,
    ),
    "a signature of another domain passed": (
        lambda s: s.yes(head=f"Authentication-Results: {TRUSTED}; dkim=pass header.d=example.com\n"),
        True,
    ),
    "a signature of a domain above passed": (
        lambda s: s.yes(head=f"Authentication-Results: {TRUSTED}; dkim=pass header.d=org\n"),
        True,
    ),
}

# Stopped whether or not the receiver is trusted, even by a mail that the receiver vouches for.
WAYS: dict[str, tuple[Way, bool]] = {
    "a lookalike domain": (
        lambda s: s.yes("ada@examp1e.org", HER_PASS.replace("example.com", "examp1e.org")),
        True,
    ),
    "a domain below the expert's": (lambda s: s.yes("ada@mail.example.org"), True),
    "another person of the expert's domain": (lambda s: s.yes("eve@example.org"), True),
    "the address as a display name": (lambda s: s.yes(f'"{ADA}" <{MALLORY}>', HER_PASS), True),
    "the address before the brackets": (lambda s: s.yes(f"{ADA} <{MALLORY}>", HER_PASS), True),
    "the address in an encoded word": (
        lambda s: s.yes(f"=?utf-8?q?ada=40example=2Eorg=2C?= <{MALLORY}>", HER_PASS),
        True,
    ),
    "the address in brackets in an encoded word": (
        lambda s: s.yes(f"=?utf-8?q?=3Cada=40example=2Eorg=3E?= <{MALLORY}>", HER_PASS),
        True,
    ),
    "the whole field encoded": (lambda s: s.yes("=?utf-8?b?QWRhIDxhZGFAZXhhbXBsZS5vcmc+?="), True),
    "two From fields, the expert first": (lambda s: s.yes(f"{ADA}\nFrom: {MALLORY}"), True),
    "two From fields, the expert last": (lambda s: s.yes(f"{MALLORY}\nFrom: {ADA}"), True),
    "two addresses in From": (lambda s: s.yes(f"{ADA}, {MALLORY}"), True),
    "a group in From": (lambda s: s.yes(f"experts: {ADA};"), True),
    "a route in From": (lambda s: s.yes(f"<@mx.example.com:{ADA}>"), True),
    "a comment with another address": (lambda s: s.yes(f"{ADA} ({MALLORY})"), True),
    "a comment inside the address": (lambda s: s.yes("ada(x)@example.org"), True),
    "a local part in quotes": (lambda s: s.yes('"ada"@example.org'), True),
    "a Cyrillic a in the address": (lambda s: s.yes("\u0430da@example.org"), True),
    "the sign for kelvin in the address": (
        lambda s: s.office.answer(s.kims_card, SETTLING, "\u212aim@example.org", PASS),
        True,
    ),
    "Sender is the expert, From is not": (lambda s: s.yes(MALLORY, f"{HER_PASS}Sender: {ADA}\n"), True),
    "From is the expert, Sender is not": (lambda s: s.yes(head=f"{PASS}Sender: {MALLORY}\n"), True),
    "Reply-To is the expert": (lambda s: s.yes(MALLORY, f"{HER_PASS}Reply-To: {ADA}\n"), True),
    "Return-Path is the expert": (lambda s: s.yes(MALLORY, f"{HER_PASS}Return-Path: <{ADA}>\n"), True),
    "sent on by somebody else": (
        lambda s: s.yes(head=f"{PASS}Resent-From: {MALLORY}\nResent-To: {DESK}\n"),
        True,
    ),
    "a copy from a mailing list": (
        lambda s: s.yes(head=f"{PASS}List-Id: <needles.example.org>\nList-Post: <mailto:needles@example.org>\n"),
        True,
    ),
    "a copy from the group's own list": (lambda s: s.yes(head=f"{PASS}List-Id: <{OWN_LIST}>\n"), True),
    "a copy from a list that says little": (lambda s: s.yes(head=f"{PASS}List-Archive: <https://example.org>\n"), True),
    "sent in bulk": (lambda s: s.yes(head=f"{PASS}Precedence: bulk\n"), True),
    "from the desk itself": (lambda s: s.yes(DESK), True),
    "from nobody": (lambda s: s.yes("(nobody)"), True),
    "a member's own mail with the expert's case address": (lambda s: s.yes(MALLORY, HER_PASS), True),
    "a member who settles a card that was shown to them": (
        lambda s: s.office.answer(s.card, SETTLING, MALLORY, HER_PASS),
        True,
    ),
    "the case address in the subject of a member's mail": (
        lambda s: s.office.mail("yes", MALLORY, f"Case 1 [{s.address(s.shown)}]", HER_PASS),
        True,
    ),
    "the expert's address with the signature of another case": (
        lambda s: s.signed(s.address(s.other_card).replace("case-2-", "case-1-")),
        True,
    ),
    "the address of a card made one of a yes": (
        lambda s: s.signed(s.address(s.card).replace("case-1-", "read-1.1-"), body="yes"),
        True,
    ),
    "the address of one proposal made one of the next": (
        lambda s: s.signed(s.address(s.shown).replace("read-1.1-", "read-1.2-"), body="yes"),
        True,
    ),
    "another expert's signature": (lambda s: s.office.answer(s.bens_card, SETTLING), True),
    "another expert says yes to what was shown to the first": (lambda s: s.yes(BEN), True),
    "a truncated signature": (lambda s: s.signed(s.address(s.card)[:-4]), True),
    "an empty signature": (lambda s: s.signed(s.address(s.card)[:-26]), True),
    "a signature with more behind it": (lambda s: s.signed(f"{s.address(s.card)}aa"), True),
    "a signature in capitals": (lambda s: s.signed(s.address(s.card).upper()), True),
    "a guessed signature": (lambda s: s.signed(f"{s.address(s.card)[:-26]}{'a' * 26}"), True),
    "an address whose last day was moved": (lambda s: s.signed(s.address(s.card).replace("-1-2", "-1-3")), True),
    "an address that has run out": (lambda s: later(s, 61).yes(), True),
    "a guessed address for a case that was never shown": (
        lambda s: s.signed(s.address(s.card).replace("case-1-", "case-3-")),
        True,
    ),
    "a yes to a settled case, sent again as a new mail": (lambda s: settled(s).yes(), True),
    "other words under the identifier of a mail that counted": (
        lambda s: settled(s).yes(body="Model 6", message_id="<honest@example.org>"),
        True,
    ),
    "the words that settled it, copied into a new mail": (
        lambda s: settled(s).office.answer(s.card, SETTLING),
        True,
    ),
    "the card passed on, with a yes above": (
        lambda s: s.yes(
            body=f"yes\n\n---------- Forwarded message ---------\nFrom: desk\n\n{text_of(s.shown)}",
            subject=f"Fwd: {s.shown['Subject']}",
        ),
        True,
    ),
    "passed on, as the subject alone says": (lambda s: s.yes(subject=f"Fwd: {s.shown['Subject']}"), True),
    "a yes beside a whole mail that is attached": (
        lambda s: as_parts(s, "mixed", "\nyes\n", f"Content-Type: message/rfc822\n\n{s.shown.as_string()}"),
        True,
    ),
    "a yes in a mail that is attached": (
        lambda s: as_parts(s, "mixed", "\n\n", f"Content-Type: message/rfc822\n\nFrom: {ADA}\nSubject: yes\n\nyes\n"),
        True,
    ),
    "a yes in a file": (
        lambda s: as_parts(
            s, "mixed", "\n\n", "Content-Type: text/plain\nContent-Disposition: attachment; filename=y.txt\n\nyes\n"
        ),
        True,
    ),
    "a yes that is only quoted": (
        lambda s: s.yes(body=with_quote(s, "").replace("> Is that", "> yes\n> Is that")),
        True,
    ),
    "a yes that stands only in the signature": (lambda s: s.yes(body="\n-- \nyes\n"), True),
    "nothing at all": (lambda s: s.yes(body="\n"), True),
    "a program that answers, and says so": (lambda s: s.yes(head=f"{PASS}Auto-Submitted: auto-replied\n"), False),
    "a program that answers with an empty Return-Path": (lambda s: s.yes(head=f"{PASS}Return-Path: <>\n"), False),
    "an old program that answers": (lambda s: s.yes(head=f"{PASS}X-Autoreply: yes\n"), False),
    "a holiday note that nothing marks": (
        lambda s: s.yes(body="Yes, I am out of the office until 12 January 1911. Model 9 will be back."),
        False,
    ),
    "a report that quotes the card": (
        lambda s: s.yes("MAILER-DAEMON@example.org", body=f"yes\n\nIt was delayed.\n{s.shown.as_string()}"),
        False,
    ),
    "a case named in words, without its address": (
        lambda s: s.office.mail(f"Case 1: {SETTLING}", ADA, "An answer", PASS),
        False,
    ),
    "a yes in a thread of one's own": (
        lambda s: s.office.mail("yes", ADA, "Re: Case 1: B123456", f"{PASS}In-Reply-To: <x@example.org>\n"),
        False,
    ),
}


@pytest.mark.parametrize("way", WAYS)
def test_by_mail_where_the_receiver_is_trusted(scene, way):
    attempt(scene, *WAYS[way])


@pytest.mark.parametrize("way", NEED_TRUST)
def test_by_mail_against_what_the_receiver_says(scene, way):
    attempt(scene, *NEED_TRUST[way])


@pytest.mark.parametrize("way", WAYS)
def test_by_mail_where_no_receiver_is_trusted(scene_without_trust, way):
    attempt(scene_without_trust, *WAYS[way])


def attempt(scene: Scene, way: Way, is_reported: bool) -> None:
    """Try one way: nothing may change by it, and the experts hear of it or not."""
    went_out = way(scene)
    assert scene.office.state_of_all() == scene.before
    assert not [one for one in went_out if "[read-" in one["Subject"] or "[amend-" in one["Subject"]]
    reports = [one for one in went_out if "did not believe" in one["Subject"]]
    assert [one["To"] for one in reports] == ([ADA, BEN, KIM] if is_reported else [])


def test_the_honest_mail_does_what_the_others_may_not(scene):
    told = scene.yes()
    assert scene.office.findings() == [("B123456", "t9", "1911~")]
    assert scene.office.state_of_all() != scene.before
    assert [one["To"] for one in told] == ["hattie@example.com", ADA]


def test_without_a_trusted_receiver_the_honest_mail_needs_no_pass(scene_without_trust):
    scene_without_trust.yes(head="")
    assert scene_without_trust.office.findings() == [("B123456", "t9", "1911~")]


def test_an_untrusted_receiver_never_makes_a_stolen_card_enough(scene_without_trust):
    """Whoever forges From and caught Ada's card gets an answer shown to Ada: stored is it only with what she gets."""
    s = scene_without_trust
    shown = s.office.answer(s.card, "Model 6, about 1850", ADA, "")
    assert [one["To"] for one in shown] == [ADA]
    s.signed(s.address(s.card).replace("case-1-", "read-1.2-"), head="", body="yes")
    assert s.office.findings() == []


def test_there_are_at_least_thirty_ways_by_mail_alone():
    assert len(WAYS) + len(NEED_TRUST) >= 60


def test_the_very_same_mail_delivered_again_does_nothing_and_is_no_reason_for_a_report(scene):
    raw = f"{PASS}From: {ADA}\nTo: {DESK}\nSubject: Re: {scene.shown['Subject']}\nMessage-ID: <y@example.org>\n\nyes"
    first = scene.office.raw(raw.encode())
    assert len(first) == 2
    assert scene.office.raw(raw.encode()) == []
    assert len(scene.office.journal.list_incoming("handled")) == 4


def test_a_flood_of_forged_answers_is_reported_a_few_times_a_day(scene):
    reports = [one for n in range(40) for one in scene.yes(f"impostor{n}@example.com", HER_PASS) if one["To"] == ADA]
    assert len(reports) == 5
    assert "last report of today" in text_of(reports[-1])
    later(scene, 1)
    assert len(to(scene.yes(MALLORY, HER_PASS), ADA)) == 1


def test_one_kind_of_forgery_is_reported_once_a_day(scene):
    assert len(to(scene.yes(MALLORY, HER_PASS), ADA)) == 1
    assert to(scene.yes(MALLORY, HER_PASS, body="Yes!"), ADA) == []


def test_a_report_tells_who_what_and_why_and_makes_no_link_of_it(scene):
    (report,) = to(scene.yes(MALLORY, HER_PASS, body="yes, see https://example.com/now"), ADA)
    text = " ".join(text_of(report).split())
    assert "mallory@example.com answers case 1" in text
    assert "does not come from an address of an expert" in text
    assert "https://" not in text
    assert report["Auto-Submitted"] == "auto-generated"


def test_an_asker_who_replies_to_a_copy_of_a_card_is_answered_on_what_they_ask_and_nothing_else(scene):
    went_out = scene.office.answer(scene.card, "And how old is K204117?", MALLORY, HER_PASS)
    (answer,) = to(went_out, MALLORY)
    assert "K204117" in text_of(answer)
    assert "B123456" not in text_of(answer)
    assert len(to(went_out, ADA)) == 1


def test_an_expert_who_names_a_case_in_a_new_mail_gets_its_card_again(scene):
    (card,) = scene.office.mail(f"Case 1: {SETTLING}", ADA, "An answer", PASS)
    assert card["To"] == ADA
    assert "without replying to its mail" in " ".join(text_of(card).split())
    scene.office.answer(card, "Model 6, about 1890")
    assert scene.office.last() == "experts-answer"


def test_an_ordinary_question_of_an_expert_is_answered_as_one(scene):
    (answer,) = scene.office.mail("How old is K204117?", ADA, "My own machine", PASS)
    assert "K204117" in text_of(answer)
    assert answer["Auto-Submitted"] == "auto-replied"
