"""Experts who answer by mail, and askers who wait by mail: cards, a yes, questions back, the digest, and no loops."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from datetime import timedelta
from email.message import EmailMessage
from urllib.parse import unquote

import pytest
from PIL import Image

from bot.cases import Asker, Picture
from bot.expert_desk import Opening
from bot.mail_experts import MOST_PHOTOS, Route
from bot.mail_settling import MOST_TURNS
from bot.replies.mail import OPENING
from bot.state import State
from tests.bot.channels.test_mail_format import png, with_attachments
from tests.mail_office import ADA, BEN, DESK, PASS, MailOffice, mail_office, parsed, text_of, to

HATTIE, IDA = "hattie@example.com", "ida@example.com"
SETTLING = "Model 9, about 1911, by the shuttle; see ledger p. 40"
KNOWN = ("B123456", "t9", "1911~")


@pytest.fixture
def office(tmp_path, pack) -> Iterator[MailOffice]:
    with mail_office(tmp_path, pack) as one:
        yield one


def asked(office: MailOffice, text: str = "How old is B123456?", sender: str = HATTIE) -> tuple[EmailMessage, ...]:
    """Ask something hard; return the answer to the asker, and the cards for Ada and Ben."""
    went_out = office.mail(text, sender)
    return (*to(went_out, sender), *to(went_out, ADA), *to(went_out, BEN))


def with_photo(*photos: bytes, text: str = "How old is B123456?", number: int = 1) -> bytes:
    raw = with_attachments(*((f"{at}.png", "image/png", one) for at, one in enumerate(photos)), text=text)
    head = f"From: {HATTIE}\nTo: {DESK}\nSubject: My machine\nMessage-ID: <photo{number}@example.com>"
    return raw.replace(b"From: hattie@example.org", head.encode())


def one_line(mail: EmailMessage) -> str:
    return " ".join(text_of(mail).split())


def shown(office: MailOffice, card: EmailMessage, words: str = SETTLING, sender: str = ADA) -> EmailMessage:
    """Let an expert answer a card; return what was shown to them."""
    (mail,) = to(office.answer(card, words, sender), sender)
    return mail


# --- cards


def test_every_expert_gets_a_card_with_an_address_of_their_own(office):
    _, for_ada, for_ben = asked(office)
    assert for_ada["Auto-Submitted"] == "auto-generated"
    assert for_ada["Message-ID"] != for_ben["Message-ID"]
    assert for_ada["Subject"] != for_ben["Subject"]
    assert text_of(for_ada) == text_of(for_ben)


def test_a_card_says_what_was_asked_and_why_it_is_hard_in_both_forms_and_names_nobody(office):
    _, card, _ = asked(office)
    for form in ("plain", "html"):
        words = " ".join(text_of(card, form).split())
        for told in ("How old is B123456?", "Why it is hard", "B123456 has 6 digits", "How to answer"):
            assert told in words
        assert "hattie" not in card.as_string().lower()
    assert max(map(len, text_of(card).split("\n"))) <= 72


def test_a_card_shows_where_the_number_stands_when_that_can_be_drawn(office):
    _, card, _ = asked(office, "How old is K230000? It is an Ambersee.")
    assert 'src="cid:picture"' in text_of(card, "html")
    assert "The picture in words" in text_of(card)


def test_photos_go_to_the_experts_as_they_came(office):
    photo = png(40, 30)
    card = to(office.raw(with_photo(photo, png(50, 30))), ADA)[0]
    attached = [part for part in card.walk() if part.get_content_disposition() == "attachment"]
    assert [part.get_filename() for part in attached] == ["photo-1.png", "photo-2.png"]
    assert attached[0].get_content() == photo
    assert "2 photos are attached." in text_of(card)


def test_a_mail_with_a_photo_and_no_number_is_a_case(office):
    went_out = office.raw(with_photo(png(40, 30), text="What is this?"))
    assert "People of the group will look at it" in one_line(to(went_out, HATTIE)[0])
    card = to(went_out, ADA)[0]
    assert "a machine without a number" in str(card["Subject"])
    assert "A photo is attached." in text_of(card)


def test_no_more_than_some_photos_are_kept_of_one_mail(office):
    card = to(office.raw(with_photo(*(png(40 + at, 30) for at in range(MOST_PHOTOS + 3)))), ADA)[0]
    attached = [part for part in card.walk() if part.get_content_disposition() == "attachment"]
    assert len(attached) == MOST_PHOTOS


def test_a_photo_that_came_in_a_chat_is_not_attached_but_counted(office):
    asker = Asker("chat", "chat:ann", "{}")
    opening = Opening(("photo-only",), "What is this?", State(), (), asker, 7, (Picture("chat", "file-1"),))
    card, _ = office.queue(office.desk.open(opening, office.knowledge, office.now).replies)
    assert "One photo came with it that I cannot attach here." in text_of(card)


def test_the_photos_of_a_card_stay_within_what_mail_servers_take(office):
    noise = io.BytesIO()
    Image.effect_noise((1500, 1500), 90).save(noise, "PNG")
    card = to(office.raw(with_photo(*[noise.getvalue()] * 6)), ADA)[0]
    assert len(card.as_bytes()) < 16_000_000


# --- settling


def test_nothing_is_kept_before_the_expert_said_yes_to_what_was_shown(office):
    _, card, _ = asked(office)
    mail = shown(office, card)
    assert "Tollgate & Sons Model 9, about 1911" in one_line(mail)
    assert office.findings() == []
    told = office.answer(mail, "Yes, that's right.\n\nBest wishes,\nAda")
    assert office.findings() == [KNOWN]
    assert [one["To"] for one in told] == [HATTIE, ADA]


def test_the_asker_hears_in_the_thread_of_their_question(office):
    answer, card, _ = asked(office)
    told = to(office.answer(shown(office, card), "yes"), HATTIE)[0]
    assert told["In-Reply-To"] == answer["In-Reply-To"]
    assert told["References"].split() == [answer["In-Reply-To"], answer["Message-ID"]]
    assert told["Subject"] == answer["Subject"]
    assert "Tollgate & Sons Model 9, about 1911" in one_line(told)


def test_everybody_who_asked_is_told_each_in_their_own_thread(office):
    first, card, _ = asked(office)
    (second,) = office.mail("Please, how old is B123456?", IDA, "Another machine")
    assert "Somebody else asked this too" in one_line(second)
    told = office.answer(shown(office, card), "yes")
    for person, answer in ((HATTIE, first), (IDA, second)):
        (mail,) = to(told, person)
        assert mail["In-Reply-To"] == answer["In-Reply-To"]


def test_the_next_who_asks_is_answered_at_once_from_what_the_expert_said(office):
    _, card, _ = asked(office)
    office.answer(shown(office, card), "yes")
    (answer,) = office.mail("How old is B123456?", "third@example.com")
    assert "Settled by an expert of the group" in one_line(answer)
    assert "ledger p. 40" in one_line(answer)


def test_writing_again_takes_the_place_of_what_was_understood_and_an_old_yes_stores_nothing(office):
    _, card, _ = asked(office)
    first = shown(office, card)
    second = to(office.answer(first, "No, Model 6, about 1890"), ADA)[0]
    assert "Model 6, about 1890" in one_line(second)
    (refused,) = office.answer(first, "yes")
    assert "wrote again since" in one_line(refused)
    assert office.findings() == []
    office.answer(second, "ok")
    assert office.findings() == [("B123456", "t6", "1890~")]


def test_over_an_answer_from_what_experts_found_nothing_says_that_the_lists_tell_it(office):
    _, card, _ = asked(office)
    office.answer(shown(office, card), "yes")
    (answer,) = office.mail("How old is B123456?", IDA)
    assert "1911" in one_line(answer)
    for form in ("plain", "html"):
        assert "lists say" not in text_of(answer, form)


def test_a_press_on_the_link_is_a_mail_without_a_thread_and_counts(office):
    _, card, _ = asked(office)
    mail = shown(office, card)
    link = re.search(r'href="(mailto:[^"]+)"', text_of(mail, "html"))
    assert link is not None
    address, _, fields = link[1].removeprefix("mailto:").partition("?")
    subject, body = (unquote(one.partition("=")[2]) for one in fields.replace("&amp;", "&").split("&"))
    assert address == DESK
    office.mail(body, ADA, subject, PASS)
    assert office.findings() == [KNOWN]


def test_a_mail_program_that_loses_the_thread_still_has_the_subject(office):
    _, card, _ = asked(office)
    mail = to(office.mail(SETTLING, ADA, f"AW: {card['Subject']}", PASS), ADA)[0]
    assert "Model 9, about 1911" in one_line(mail)


@pytest.mark.parametrize(
    "letter",
    [
        "Yes\n\nAda Byron\nKeeper of ledgers\nTel. 01632 960123\nada.example",
        "yes\nThis mail is meant for its recipient alone.",
        "Dear desk,\nyes, please keep it\n\nAda",
    ],
)
def test_a_yes_above_a_letterhead_is_a_yes(office, letter):
    _, card, _ = asked(office)
    office.answer(shown(office, card), letter)
    assert office.findings() == [KNOWN]


@pytest.mark.parametrize(
    "letter", ["yes\nbut about 1912", "Yes.\n\nIt is a Model 6.", "yes\n\nor not?", "yes\nno", "Yes\n\nPS: 1890"]
)
def test_a_yes_with_more_below_is_shown_anew(office, letter):
    _, card, _ = asked(office)
    office.answer(shown(office, card), letter)
    assert office.findings() == []


def test_who_answers_a_report_about_a_case_gets_its_card_again(office):
    _, card, _ = asked(office)
    (report, _) = office.answer(card, SETTLING, head="")
    assert "did not believe" in str(report["Subject"])
    (again,) = office.answer(report, "That was me. B123456 is a Model 9.")
    assert "without replying to its mail" in one_line(again)


def test_a_subject_stays_short_however_many_numbers_a_case_has(office):
    numbers = ", ".join(f"QX{7654321 + 1000 * at}" for at in range(20))
    card = to(office.mail(f"How old are {numbers}?"), ADA)[0]
    assert len(str(card["Subject"])) < 160
    assert "Model 9" in one_line(shown(office, card, "QX7655321 is a Model 9, about 1911"))


def test_after_many_mails_about_one_case_in_a_day_an_expert_is_told_to_wait(office):
    _, card, _ = asked(office)
    for number in range(MOST_TURNS):
        shown(office, card, f"Model 9, {1880 + number}")
    (told,) = office.answer(card, "Model 9, 1911")
    assert "write again tomorrow" in one_line(told)
    assert office.answer(card, "Model 9, 1912") == []
    office.now += timedelta(days=1)
    assert "1913" in one_line(shown(office, card, "Model 9, 1913"))


def test_a_bare_no_keeps_nothing_and_says_what_to_do(office):
    _, card, _ = asked(office)
    (mail,) = office.answer(shown(office, card), "No, that's wrong.")
    assert "nothing is kept" in one_line(mail)
    assert office.findings() == []


@pytest.mark.parametrize("words", ["How old is K204117?", "Hm, let me think about it.", "I will ask my uncle."])
def test_an_answer_of_an_expert_is_never_taken_for_a_question(office, words):
    _, card, _ = asked(office)
    went_out = office.answer(card, words)
    assert office.last() == "experts-answer"
    assert OPENING not in " ".join(map(one_line, went_out))


HTML = "MIME-Version: 1.0\nContent-Type: text/html; charset=utf-8\n"


@pytest.mark.parametrize(
    "page",
    [
        "<div>{}</div><br><div class=q>On 4 May 2031, desk wrote:<blockquote>{card}</blockquote></div>",
        "<p>{}</p><hr><p><b>From:</b> desk<br><b>Sent:</b> today<br><b>To:</b> Ada<br><b>Subject:</b> Case 1</p>{card}",
        "<p>{}</p><p>Ada</p><p>{card}</p>",
    ],
)
def test_an_answer_in_html_alone_is_read_without_what_it_quotes(office, page):
    _, card, _ = asked(office)
    body = page.format("About 1890, dated bill of sale", card=text_of(card, "html"))
    (mail,) = to(office.answer(card, body, head=PASS + HTML), ADA)
    assert "about 1890" in one_line(mail).split("You wrote")[0]
    assert "1911" not in one_line(mail)


def test_a_card_quoted_without_marks_is_no_part_of_the_answer(office):
    _, card, _ = asked(office)
    mail = shown(office, card, f"About 1890, dated bill of sale\n\n{text_of(card)}")
    assert "about 1890" in one_line(mail).split("You wrote")[0]
    assert "Model 9" not in one_line(mail)


def test_the_second_of_two_experts_is_told_what_is_stored_and_may_put_theirs_in_its_place(office):
    _, for_ada, for_ben = asked(office)
    adas, bens = shown(office, for_ada), shown(office, for_ben, "Model 6, 1890, dated bill of sale", BEN)
    office.answer(adas, "yes")
    (told,) = office.answer(bens, "yes", BEN)
    assert "Somebody was quicker" in one_line(told)
    assert office.findings() == [KNOWN]
    again = shown(office, for_ben, "I am sure: Model 6, 1890, dated bill of sale", BEN)
    assert "takes the place of what is kept" in one_line(again)
    corrected = office.answer(again, "yes", BEN)
    assert office.findings() == [("B123456", "t6", "1890")]
    assert "corrected by an expert" in one_line(to(corrected, HATTIE)[0])


def test_an_expert_may_settle_a_question_of_their_own(office):
    went_out = office.mail("How old is B123456?", ADA, "My own", PASS)
    assert [one["To"] for one in went_out] == [ADA, ADA, BEN]
    office.answer(shown(office, went_out[1]), "yes")
    assert office.findings() == [KNOWN]


def test_what_is_settled_elsewhere_is_told_to_those_who_asked_by_mail_too(office):
    answer, *_ = asked(office)
    proposal = office.desk.propose(1, "terminal", SETTLING, office.knowledge, office.now)
    told = office.queue(office.desk.settle(proposal.id, "terminal", office.now).replies)
    assert [(one["To"], one["In-Reply-To"]) for one in told] == [(HATTIE, answer["In-Reply-To"])]


def test_a_card_of_a_case_that_is_settled_meanwhile_says_so_before_anything_is_kept(office):
    _, for_ada, for_ben = asked(office)
    office.answer(shown(office, for_ada), "yes")
    assert "settled before" in one_line(shown(office, for_ben, "Model 6, about 1890", BEN))
    assert office.findings() == [KNOWN]


def test_when_nobody_who_asked_is_known_any_more_a_question_back_is_answered_with_that(office):
    _, card, _ = asked(office)
    office.journal.forget(f"mail:{HATTIE}")
    (told,) = office.answer(card, "Ask whether there is a plate with a name?")
    assert "nobody can be asked" in one_line(told)


# --- asking back, and closing


def test_a_question_back_goes_to_the_asker_in_their_thread_and_the_answer_to_the_experts(office):
    answer, card, _ = asked(office)
    went_out = office.answer(card, "Ask whether there is a plate with a name under the bed.")
    (question,) = to(went_out, HATTIE)
    assert question["References"].split()[-1] == answer["Message-ID"]
    assert "plate with a name under the bed" in one_line(question)
    assert office.desk.case(1).state == "asked back"
    back = office.answer(question, "Yes, it says OTTO.\n\nHattie", HATTIE, "")
    assert "passed that on" in one_line(to(back, HATTIE)[0])
    assert "it says OTTO" in one_line(to(back, ADA)[0])
    assert office.desk.case(1).state == "taken"


def test_a_photo_that_answers_a_question_back_reaches_the_experts(office):
    _, card, _ = asked(office)
    (question, _) = office.answer(card, "Ask for a photo of the plate?")
    head = f"In-Reply-To: {question['Message-ID']}\nReferences: {question['Message-ID']}\n"
    back = office.raw(head.encode() + with_photo(png(60, 40), text="Here it is.", number=2))
    again = to(back, ADA)[0]
    assert "photo-1.png" in [part.get_filename() for part in again.walk()]


def test_somebody_else_cannot_answer_for_the_asker(office):
    _, card, _ = asked(office)
    (question, _) = office.answer(card, "Ask whether there is a plate with a name?")
    office.answer(question, "Yes, it says OTTO.", IDA, "")
    assert office.desk.case(1).state == "asked back"
    assert [one.kind for one in office.desk.words(1)] == ["asked"]


def test_a_new_question_of_the_asker_is_not_taken_for_the_answer_to_the_experts(office):
    _, card, _ = asked(office)
    office.answer(card, "Ask whether there is a plate with a name?")
    (answer,) = office.mail("And how old is K204117?", HATTIE, "Another one")
    assert "K204117" in text_of(answer)
    assert office.desk.case(1).state == "asked back"


def test_not_for_us_closes_the_case_and_the_asker_hears(office):
    _, card, _ = asked(office)
    told = office.answer(card, "Not for us.\n\nAda")
    assert office.desk.case(1).state == "closed without an answer"
    assert "not a machine they know about" in one_line(to(told, HATTIE)[0])


def test_when_the_stated_day_is_over_the_asker_hears_that_nobody_knew(office):
    answer, *_ = asked(office)
    office.now += timedelta(days=15)
    (told,) = to(office.due(), HATTIE)
    assert told["References"].split()[-1] == answer["Message-ID"]
    assert "nobody of the group knows more" in one_line(told)


# --- the digest


def test_there_is_one_digest_a_day_and_only_when_there_is_something(office):
    assert office.due() == []
    _, card, _ = asked(office)
    assert [one["To"] for one in office.due()] == [ADA, BEN]
    assert office.due() == []
    office.now += timedelta(days=1)
    assert office.due() == []
    office.now += timedelta(days=1)
    (reminder, _) = office.due()
    assert "Waiting long" in text_of(reminder)
    office.answer(shown(office, card), "yes")
    office.now += timedelta(days=5)
    assert office.due() == []


def test_a_reply_to_the_digest_counts_for_the_case_that_it_names(office):
    asked(office)
    asked(office, "How old is QX7654321?", IDA)
    digest = to(office.due(), ADA)[0]
    (unclear,) = office.answer(digest, SETTLING)
    assert "which case" in one_line(unclear).lower()
    mail = shown(office, digest, f"Case 2: {SETTLING}")
    office.answer(mail, "yes")
    assert office.findings() == [("QX7654321", "t9", "1911~")]


# --- what cannot be read, and loops


def test_a_mail_that_cannot_be_read_is_set_aside_and_becomes_a_case_and_its_sender_hears(office):
    encrypted = "Content-Type: application/pkcs7-mime; name=smime.p7m\n"
    went_out = office.mail("xx", HATTIE, "My gran's machine", encrypted)
    assert office.last().startswith("aside: This mail cannot be read")
    assert office.desk.case(1).reasons == ("unreadable-mail",)
    assert "My gran's machine" in text_of(to(went_out, ADA)[0])
    (notice,) = to(went_out, HATTIE)
    assert "as plain text" in one_line(notice)
    assert to(office.mail("xx", HATTIE, "Another", encrypted), HATTIE) == []


TOO_LARGE = "it has 70,000,000 bytes, more than 60,000,000, and only its head was read"


def came_unread(office: MailOffice, raw: bytes, why: str = TOO_LARGE) -> list[EmailMessage]:
    """Let a mail come in as the mailbox keeps one that it could not give whole."""
    key = f"place INBOX/7/{office.count}"
    office.count += 1
    before = {one.id for one in office.journal.list_outgoing("queued", limit=1000)}
    office.journal.receive("mail", key, raw, office.now, place=key, notes={key: why})
    office.handle_waiting()
    new = [one.id for one in office.journal.list_outgoing("queued", limit=1000) if one.id not in before]
    return [parsed(whole.body) for id_ in reversed(new) if (whole := office.journal.outgoing(id_))]


def test_a_mail_that_is_too_large_becomes_a_case_and_its_sender_hears_why(office):
    head = f"From: {HATTIE}\nTo: {DESK}\nSubject: My gran's machine\nMessage-ID: <big@example.com>\n\n"
    went_out = came_unread(office, head.encode())
    assert office.last().startswith("aside: This mail was not read: it has 70,000,000 bytes")
    assert office.desk.case(1).reasons == ("unreadable-mail",)
    assert "My gran's machine" in text_of(to(went_out, ADA)[0])
    (notice,) = to(went_out, HATTIE)
    assert "it has 70,000,000 bytes" in one_line(notice)
    assert notice["In-Reply-To"] == "<big@example.com>"


def test_a_mail_that_could_not_be_fetched_becomes_a_case_without_an_asker_once(office):
    went_out = came_unread(office, b"", "it could not be fetched 3 times (two bodies in one answer)")
    assert [one["To"] for one in went_out] == [ADA, BEN]
    assert "could not be fetched 3 times" in one_line(went_out[0])
    assert office.desk.case(1).waiting == 0
    (aside,) = office.journal.list_incoming("aside")
    office.journal.handle_again(aside.id)
    office.handle_waiting()
    assert len(office.desk.cases()) == 1


def test_a_large_mail_that_no_person_wrote_is_set_aside_and_no_case(office):
    head = f"From: news@example.com\nTo: {DESK}\nSubject: News\nPrecedence: bulk\nList-Id: <news.example.com>\n\n"
    assert came_unread(office, head.encode()) == []
    assert office.last().startswith("aside: This mail was not read")
    assert office.desk.cases() == []


def test_a_mail_set_aside_that_is_handled_again_makes_no_second_case(office):
    office.mail("xx", HATTIE, head="Content-Type: application/pkcs7-mime; name=smime.p7m\n")
    (aside,) = office.journal.list_incoming("aside")
    before = office.desk.counts()
    office.journal.handle_again(aside.id)
    office.handle_waiting()
    assert office.desk.counts() == before


def test_what_the_lists_cannot_answer_in_a_talk_becomes_a_case(office):
    (answer,) = office.mail("How old is K204117? It has 6 digits and a K in front.", HATTIE)
    went_out = office.answer(answer, "Lovely! Was it painted green or black at first?", HATTIE, "")
    assert office.last().startswith("aside: This mail asks something more")
    assert "painted green or black" in one_line(to(went_out, ADA)[0])


RESPONDERS = {
    "a holiday note": lambda n: "I am on holiday until 12 January 2032. Model 9 of my telephone is 01632 960123.",
    "a holiday note that counts": lambda n: f"I am away for {n} days, until 1911. Ask Model 9.",
    "words that settle": lambda n: f"Model 9, {1880 + n}, by the shuttle",
    "a question": lambda n: f"Can you ask for photo {n}?",
    "yes": lambda n: "yes",
    "nothing": lambda n: "",
    "thanks": lambda n: f"Thank you for your message no. {n}. We will come back to you.",
}


@pytest.mark.parametrize("kind", RESPONDERS)
def test_a_loop_with_a_program_that_answers_every_mail_to_an_expert_comes_to_its_end(office, kind):
    """Nothing marks these mails as automatic; the receiver vouches for them, and each answers the mail before."""
    waiting = [asked(office)[1]]
    for number in range(200):
        if not waiting:
            break
        waiting += to(office.answer(waiting.pop(0), RESPONDERS[kind](number)), ADA)
    assert number <= 3 * MOST_TURNS


def test_how_an_asker_is_reached_goes_to_text_and_back():
    route = Route("jürgen@example.org", "Grüße", "<1@x>", ("<0@x>", "<1@x>"))
    assert Route.from_text(route.as_text()) == route
