"""What is read out of the bytes of a mail, however they are made."""

from __future__ import annotations

import base64
import io
import zipfile
from email.message import EmailMessage

import pytest
from PIL import Image

from bot.channels.mail_format import read
from bot.channels.mail_headers import sole_sender
from bot.channels.mail_parts import LARGEST_PICTURE, MOST_PARTS, MOST_PICTURES

HEAD = "From: Hattie <hattie@example.org>\nTo: desk@example.net\nSubject: My machine\nMessage-ID: <1@example.org>\n"


def mail(body: str, head: str = "", charset: str = "utf-8") -> bytes:
    return f"{HEAD}{head}\n".encode() + body.encode(charset)


def own(body: str, head: str = "") -> str:
    return read(mail(body, head)).words.own


def png(width: int = 8, height: int = 8) -> bytes:
    file = io.BytesIO()
    Image.new("RGB", (width, height)).save(file, "PNG")
    return file.getvalue()


def with_attachments(*attached: tuple[str, str, bytes], text: str = "See K204117.") -> bytes:
    message = EmailMessage()
    message["From"] = "hattie@example.org"
    message.set_content(text)
    for name, kind, content in attached:
        main, sub = kind.split("/")
        message.add_attachment(content, maintype=main, subtype=sub, filename=name)
    return message.as_bytes()


def test_sender_subject_and_identifiers_are_read():
    found = read(mail("K204117", "In-Reply-To: <0@example.net>\nReferences: <a@x.example> <0@example.net>\n"))
    assert (found.sender, found.subject, found.message_id) == ("hattie@example.org", "My machine", "<1@example.org>")
    assert found.in_reply_to == "<0@example.net>"
    assert found.references == ("<a@x.example>", "<0@example.net>")
    assert found.is_reply


@pytest.mark.parametrize(
    ("charset", "text"),
    [
        ("utf-8", "Wie alt ist K204117? Grüße"),
        ("iso-8859-1", "clé K204117 – déjà"),
        ("windows-1251", "Сколько лет K204117?"),
        ("koi8-r", "номер K204117"),
        ("gb2312", "编号 K204117"),
        ("shift_jis", "番号 K204117"),
        ("utf-16", "K204117 é"),
    ],
)
def test_the_charset_that_is_named_is_used(charset, text):
    raw = f"{HEAD}Content-Type: text/plain; charset={charset}\nContent-Transfer-Encoding: base64\n\n".encode()
    raw += base64.encodebytes(text.encode("cp1252" if charset == "iso-8859-1" else charset))
    assert read(raw).words.own == text


@pytest.mark.parametrize("charset", ["x-nobody-knows", "zlib", "rot13", "", "utf-8\x00", "unknown-8bit", "'utf-8'"])
def test_an_unknown_charset_loses_no_number(charset):
    head = f"Content-Type: text/plain; charset={charset}\n"
    assert "K204117" in read(mail("Schöne Maschine K204117", head)).words.own


def test_utf8_that_is_called_something_else_is_still_utf8():
    assert read(mail("Grüße, K204117", "Content-Type: text/plain; charset=gb2312\n")).words.own == "Grüße, K204117"


def test_flowed_lines_are_joined_before_a_number_is_looked_for():
    text = own("My number is K 0204 \n117, how old?\n", "Content-Type: text/plain; format=flowed\n")
    assert text == "My number is K 0204 117, how old?"


def test_flowed_lines_with_delsp_lose_the_space():
    assert own("K0204 \n117\n", "Content-Type: text/plain; format=flowed; delsp=yes\n") == "K0204117"


def test_html_alone_becomes_text_with_its_quotes_marked():
    html = (
        "<style>p{}</style><p>Seven digits.</p><div style='display:none'>H618233</div>"
        "<div>On 3 May 2031, desk wrote:</div><blockquote><p>K204117?</p></blockquote><p>And a zero in front.</p>"
    )
    assert own(html, "Content-Type: text/html\n") == "Seven digits.\n\nAnd a zero in front."


def test_deeply_nested_html_is_read_all_the_same():
    assert "K204117" in own("<div>" * 5000 + "K204117" + "</div>" * 5000, "Content-Type: text/html\n")


def test_of_plain_text_and_html_the_plain_text_is_read_once():
    message = EmailMessage()
    message.set_content("My number is K204117.")
    message.add_alternative("<p>My number is K204117.</p>", subtype="html")
    assert read(message.as_bytes()).words.own == "My number is K204117."


@pytest.mark.parametrize("stub", ["", "  \n", "This mail is in HTML. Please use another program."])
def test_html_is_read_where_the_plain_text_says_nothing(stub):
    message = EmailMessage()
    message.set_content(stub)
    message.add_alternative("<p>My number is K204117.</p>", subtype="html")
    assert read(message.as_bytes()).words.own == "My number is K204117."


def test_an_attached_mail_counts_as_passed_on():
    inner = EmailMessage()
    inner["Subject"] = "My old machine"
    inner.set_content("It says K204117.")
    message = EmailMessage()
    message["From"] = "hattie@example.org"
    message.set_content("From my aunt:")
    message.add_attachment(inner)
    found = read(message.as_bytes())
    assert found.words.own == "From my aunt:"
    assert found.words.forwarded == "My old machine\n\nIt says K204117."


def test_pictures_are_kept_and_the_rest_is_named():
    raw = with_attachments(("badge.png", "image/png", png()), ("list.pdf", "application/pdf", b"%PDF"))
    kept = {one.name: one.kept for one in read(raw).attachments}
    assert kept == {"badge.png": True, "list.pdf": False}


def test_only_so_many_pictures_are_kept():
    pictures = [(f"{n}.png", "image/png", png()) for n in range(MOST_PICTURES + 3)]
    assert sum(one.kept for one in read(with_attachments(*pictures)).attachments) == MOST_PICTURES


def test_bombs_are_not_unpacked():
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("zeros", b"\0" * 50_000_000)
    huge = png()[:16] + (60_000).to_bytes(4) + (60_000).to_bytes(4) + png()[24:]
    raw = with_attachments(("a.zip", "application/zip", file.getvalue()), ("b.png", "image/png", huge))
    assert [one.kept for one in read(raw).attachments] == [False, False]


def test_a_picture_that_is_too_large_is_not_kept():
    raw = with_attachments(("big.png", "image/png", png() + b"\0" * LARGEST_PICTURE))
    assert [one.note for one in read(raw).attachments] == [f"larger than {LARGEST_PICTURE:,} bytes"]


def test_names_of_files_bring_no_folders_and_no_line_breaks():
    raw = mail("", 'Content-Type: image/png; name="../../etc/a\\r\\nb.png"\nContent-Disposition: attachment\n')
    (one,) = read(raw).attachments
    assert "/" not in one.name
    assert "\n" not in one.name


def test_a_thousand_levels_of_parts_are_bounded():
    raw = HEAD
    for level in range(1000):
        raw += f'Content-Type: multipart/mixed; boundary="b{level}"\n\n--b{level}\n'
    found = read(f"{raw}Content-Type: text/plain\n\nK204117?\n".encode())
    assert found.sender == "hattie@example.org"
    assert found.fault or "K204117" in found.words.own


def test_ten_thousand_parts_are_bounded():
    part = "--b\nContent-Type: image/png\n\nx\n"
    found = read(mail(part * 10_000 + "--b--\n", "Content-Type: multipart/mixed; boundary=b\n"))
    assert len(found.attachments) <= MOST_PARTS


def test_ten_thousand_recipients_are_counted():
    raw = mail("K204117", "Cc: " + ",\n ".join(f"m{n}@example.org" for n in range(10_000)) + "\n")
    assert len(read(raw).recipients) == 10_001


@pytest.mark.parametrize(
    "head",
    [
        "Content-Type: text/plain; name*\n",
        "Message-ID: <[bad\n",
        "From: =?utf-8?b?////?= <>\n",
        "Date: \n",
        "Content-Type: ;;;\n",
        "Content-Transfer-Encoding: base65\n",
        "Content-Disposition: attachment; filename*=utf-8''%ff%fe\n",
        "From: \udcff@x\n",
    ],
)
def test_broken_fields_raise_nothing(head):
    raw = f"{head}From: hattie@example.org\n\nK204117\n".encode("utf-8", "surrogateescape")
    found = read(raw)
    assert "K204117" in found.words.own or found.attachments


@pytest.mark.parametrize("raw", [b"", b"\n", b"\0" * 1000, b"From", b"Subject: K204117", b"\xff" * 100])
def test_what_is_hardly_a_mail_raises_nothing(raw):
    assert read(raw).sender == ""


@pytest.mark.parametrize(
    ("field", "address"),
    [
        ("=?utf-8?q?ada=40example=2Eorg=2C?= <mallory@example.com>", "mallory@example.com"),
        ("=?utf-8?q?=3Cada=40example=2Eorg=3E?= <mallory@example.com>", "mallory@example.com"),
        ("ada@example.org <mallory@example.com>", "mallory@example.com"),
        ('"ada@example.org" <mallory@example.com>', "mallory@example.com"),
        ("=?utf-8?q?J=C3=BCrgen?= <j@example.org>", "j@example.org"),
    ],
)
def test_a_name_is_no_address_however_it_is_written(field, address):
    """RFC 2047, section 5: an encoded word must not appear in an address."""
    assert read(f"From: {field}\n\nHow old is K204117?".encode()).sender == address


def test_an_address_in_a_field_that_is_encoded_as_a_whole_is_found_all_the_same():
    assert read(b"From: =?utf-8?b?QWRhIDxhZGFAZXhhbXBsZS5vcmc+?=\n\nx").sender == "ada@example.org"


@pytest.mark.parametrize(
    ("field", "sole"),
    [
        ("ada@example.org", "ada@example.org"),
        ("<ada@example.org>", "ada@example.org"),
        ("Ada B. <ada@example.org>", "ada@example.org"),
        ('"B., Ada" <ada@example.org>', "ada@example.org"),
        ('"ada@example.org" <ada@example.org>', "ada@example.org"),
        ("=?utf-8?q?Ada?=\n <ada@example.org>", "ada@example.org"),
        ("ada@example.org, mallory@example.com", ""),
        ("ada@example.org <mallory@example.com>", ""),
        ("ada@example.org (mallory@example.com)", ""),
        ("experts: ada@example.org;", ""),
        ("<@mx.example.com:ada@example.org>", ""),
        ('"ada"@example.org', ""),
        ("ada@example.org\nFrom: mallory@example.com", ""),
    ],
)
def test_a_mail_is_from_one_address_or_from_nobody(field, sole):
    assert sole_sender(read(f"From: {field}\n\nx".encode()).head) == sole
