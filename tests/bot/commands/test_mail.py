"""`bedstamp mail read`: the account of a mail, for people and for programs."""

from __future__ import annotations

import io
import json

import pytest

from bot.__main__ import main

MAIL = (
    "From: Hattie <hattie@example.org>\nDelivered-To: desk@example.net\nTo: desk@example.net\nSubject: Re: My machine\n"
    "{head}\n\nIt is K204117.\n\nOn 3 May 2031 at 10:00, desk <desk@example.net> wrote:\n> K230000?\n-- \nHattie\n"
)


@pytest.fixture
def mail(tmp_path):
    def write(head: str = "X-Any: 1", name: str = "a.eml") -> str:
        path = tmp_path / name
        path.write_text(MAIL.format(head=head))
        return str(path)

    return write


def read(capsys, *arguments: str) -> list[dict]:
    assert main(["mail", "read", *arguments, "--json"]) == 0
    return [json.loads(line) for line in capsys.readouterr().out.splitlines()]


def test_one_line_of_json_for_each_file(mail, capsys):
    one, other = mail(), mail("Precedence: bulk", "b.eml")
    found = read(capsys, one, other)
    assert [told["file"] for told in found] == [one, other]
    assert [(told["reply"], told["rule"]) for told in found] == [(True, None), (False, "bulk")]


def test_the_own_words_and_the_tokens_in_them_are_shown(mail, capsys):
    (told,) = read(capsys, mail())
    assert told["text"] == "It is K204117."
    (token,) = told["tokens"]
    assert told["text"][token["start"] : token["end"]] == token["text"] == "K204117"
    assert set(token) == {"text", "start", "end", "prefix", "digits", "suffix", "introduced"}
    assert told["attachments"] == []


def test_a_mail_may_come_on_standard_input(capsys, monkeypatch):
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(MAIL.format(head="X-Any: 1").encode())))
    (told,) = read(capsys, "-")
    assert told["file"] == "-"
    assert told["reply"]


def test_for_people_every_rule_is_shown_up_to_the_one_that_decided(mail, capsys):
    assert main(["mail", "read", mail("Precedence: bulk")]) == 0
    shown = capsys.readouterr().out
    assert "stops it  bulk: Precedence is 'bulk'" in shown
    assert "no        from-ourselves" in shown
    assert "Left alone by the rule bulk." in shown


def test_with_settings_the_own_lists_are_known(mail, capsys, tmp_path):
    for name in ("imap", "smtp"):
        (tmp_path / name).write_text("secret")
    (tmp_path / "settings.toml").write_text(
        '[mail]\naddress = "desk@example.net"\nimap_host = "127.0.0.1"\nimap_password_file = "imap"\n'
        'smtp_host = "127.0.0.1"\nsmtp_user = "x"\nsmtp_password_file = "smtp"\nlists = ["needles.example.net"]\n'
    )
    config = ["--config", str(tmp_path / "settings.toml")]
    own, other = mail("List-Id: <needles.example.net>"), mail("List-Id: <other.example.net>", "b.eml")
    assert [told["rule"] for told in read(capsys, own, other, *config)] == [None, "other-list"]


def test_a_pack_may_be_named(mail, capsys, pack_folder):
    assert read(capsys, mail(), "--pack", str(pack_folder))[0]["tokens"]


def test_a_file_that_cannot_be_read_is_told_and_the_others_are_read(mail, capsys):
    assert main(["mail", "read", "/nowhere/x.eml", mail(), "--json"]) == 1
    shown = capsys.readouterr()
    assert "cannot be read" in shown.err
    assert "Traceback" not in shown.err
    assert len(shown.out.splitlines()) == 1


def test_nothing_in_a_mail_reaches_the_screen_as_a_control_sequence(tmp_path, capsys):
    path = tmp_path / "x.eml"
    path.write_bytes(b"From: a@example.org\nSubject: =?utf-8?q?=1b[2J?=\n\nK204117\x1b[2J?\n")
    for arguments in ([str(path)], [str(path), "--json"]):
        main(["mail", "read", *arguments])
        assert "\x1b" not in capsys.readouterr().out
