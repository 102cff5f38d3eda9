"""Tests of bot/settings.py and bot/setting_values.py."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.settings import ANSWERS_PER_DAY, KEEP_DAYS, SettingsError, read
from knowledge.errors import UsageError

PASSWORD = "correct horse 7"
MAIL = """
[mail]
address = "desk@example.org"
imap_host = "imap.example.org"
imap_password_file = "imap-password"
smtp_host = "smtp.example.org"
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "imap-password").write_text(f"{PASSWORD}\n")
    return tmp_path


def written(folder: Path, text: str | bytes) -> Path:
    path = folder / "settings.toml"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return path


def settings(folder: Path, text: str, **environment: str):
    return read(written(folder, text), environment)


def faults(folder: Path, text: str, **environment: str) -> dict[str, str]:
    """The faults of a settings file: key and text."""
    with pytest.raises(SettingsError) as raised:
        settings(folder, text, **environment)
    for fault in raised.value.faults:
        assert str(fault) in str(raised.value)
    return {fault.key: fault.text for fault in raised.value.faults}


# --- what holds


def test_an_empty_file_has_the_defaults_and_every_channel_off(folder) -> None:
    found = settings(folder, "")
    assert found.store.path == folder / "bedstamp.sqlite"
    assert found.store.keep_days == KEEP_DAYS
    assert found.knowledge.packs == ()
    assert found.group.speak == "questions"
    assert found.mail is None
    assert found.telegram is None


def test_a_section_for_mail_switches_mail_on_with_encryption_and_its_ports(folder) -> None:
    mail = settings(folder, MAIL).mail
    assert (mail.imap.security, mail.imap.port, mail.imap.user) == ("tls", 993, "desk@example.org")
    assert (mail.smtp.security, mail.smtp.port, mail.smtp.user) == ("tls", 465, "")
    assert mail.imap.password.reveal() == PASSWORD
    assert mail.smtp.password is None
    assert (mail.folder, mail.answers_per_day) == ("INBOX", ANSWERS_PER_DAY)


@pytest.mark.parametrize(("security", "port"), [("tls", 465), ("starttls", 587)])
def test_the_port_follows_from_the_security_unless_it_is_set(folder, security, port) -> None:
    assert settings(folder, f'{MAIL}smtp_security = "{security}"').mail.smtp.port == port
    assert settings(folder, f'{MAIL}smtp_security = "{security}"\nsmtp_port = 2525').mail.smtp.port == 2525


def test_a_chat_is_read_with_its_groups(folder) -> None:
    (folder / "token").write_text("12:abc")
    chat = settings(folder, '[telegram]\ntoken_file = "token"\ngroups = [-100, 5]\nexperts_chat = -7').telegram
    assert (chat.token.reveal(), chat.base_url, chat.groups, chat.experts_chat) == ("12:abc", "", (-100, 5), -7)


def test_paths_are_relative_to_the_file_wherever_the_program_is_started(folder, monkeypatch) -> None:
    inner = folder / "inner"
    (inner / "packs" / "ours").mkdir(parents=True)
    (inner / "packs" / "ours" / "datapackage.json").write_text("{}")
    written(inner, '[store]\npath = "../base.sqlite"\n[knowledge]\npacks = ["packs/ours"]')
    monkeypatch.chdir(folder)
    found = read(Path("inner/settings.toml"), {})
    assert found.store.path.resolve() == folder / "base.sqlite"
    assert found.knowledge.packs == (inner / "packs" / "ours",)


def test_a_file_with_a_byte_order_mark_and_crlf_is_read_like_any_other(folder) -> None:
    assert read(written(folder, b'\xef\xbb\xbf[group]\r\nname = "N\xc3\xa4hkreis"\r\n'), {}).group.name == "Nähkreis"


def test_the_sample_is_good_once_its_files_are_there_and_names_every_key(folder) -> None:
    sample = (Path(__file__).parents[2] / "deploy" / "settings.sample.toml").read_text()
    for name in ("smtp-password", "telegram-token"):
        (folder / name).write_text("x")
    (folder / "packs" / "ours").mkdir(parents=True)
    (folder / "packs" / "ours" / "datapackage.json").write_text("{}")
    shown = settings(folder, sample)
    all_on = settings(folder, _all_on(sample))
    assert shown.mail is not None
    assert all_on.telegram is not None
    keys = {key for section in tomllib.loads(_all_on(sample)).values() for key in section}
    source = (Path(__file__).parents[2] / "bot" / "settings.py").read_text()
    asked = set(re.findall(r'section\.\w+\("(\w+)"', source))
    servers = {f"{kind}_{key}" for kind in ("imap", "smtp") for key in ("host", "port", "security", "user")}
    assert len(asked) > 12
    assert keys == asked | servers | {"imap_password_file", "smtp_password_file"}


def _all_on(sample: str) -> str:
    """The sample with every key and section in it that is only shown."""
    return re.sub(r"(?m)^#(?=\[|[a-z_]+ = )", "", sample)


def test_what_the_sample_shows_as_defaults_are_the_defaults(folder) -> None:
    sample = (Path(__file__).parents[2] / "deploy" / "settings.sample.toml").read_text()
    for section, keys in {
        "store": ("path", "keep_days"),
        "group": ("name", "speak"),
        "mail": ("imap_security", "imap_port", "folder", "smtp_security", "smtp_port", "answers_per_day"),
    }.items():
        lines = [line[1:] for line in sample.splitlines() if line.startswith(tuple(f"#{key} = " for key in keys))]
        base = MAIL if section == "mail" else f"[{section}]\n"
        assert settings(folder, base + "\n".join(lines)) == settings(folder, base)


# --- secrets


def test_a_secret_may_come_from_the_environment_and_a_file_that_is_named_wins(folder) -> None:
    bare = MAIL.replace('imap_password_file = "imap-password"', "")
    assert settings(folder, bare, BEDSTAMP_IMAP_PASSWORD="from outside").mail.imap.password.reveal() == "from outside"
    assert settings(folder, MAIL, BEDSTAMP_IMAP_PASSWORD="from outside").mail.imap.password.reveal() == PASSWORD


def test_secrets_show_themselves_nowhere(folder) -> None:
    (folder / "token").write_text("12:abcdef")
    found = settings(folder, MAIL + '[telegram]\ntoken_file = "token"')
    for shown in (repr(found), str(found), f"{found.mail.imap.password}", repr(found.telegram.token)):
        assert PASSWORD not in shown
        assert "abcdef" not in shown


def test_a_password_in_the_file_itself_is_refused_without_being_repeated(folder) -> None:
    found = faults(folder, MAIL + f'imap_password = "{PASSWORD}"')
    assert "imap_password_file" in found["[mail] imap_password"]
    assert PASSWORD not in str(found)


def test_a_token_written_where_its_file_should_be_named_is_not_repeated(folder) -> None:
    found = faults(folder, '[telegram]\ntoken_file = "12345:secret-token"')
    assert "cannot be read" in found["[telegram] token_file"]
    assert "secret-token" not in str(found)


@pytest.mark.parametrize("content", [b"", b"\n\n", b"two\nlines", b"\xff\xfe", b"x" * 5000, b"a\x00b"])
def test_a_secret_file_must_hold_one_line(folder, content) -> None:
    (folder / "imap-password").write_bytes(content)
    assert "[mail] imap_password_file" in faults(folder, MAIL)


def test_a_login_without_its_password_names_both_ways_to_give_it(folder) -> None:
    found = faults(folder, MAIL + 'smtp_user = "desk"')
    assert "BEDSTAMP_SMTP_PASSWORD" in found["[mail] smtp_password_file"]


def test_a_password_without_a_user_is_a_fault(folder) -> None:
    assert "[mail] smtp_user" in faults(folder, MAIL, BEDSTAMP_SMTP_PASSWORD="x")


# --- faults


def test_all_faults_are_told_at_once_each_with_its_key(folder) -> None:
    text = """
        [store]
        path = "nowhere/base.sqlite"
        keep_days = 0
        [knowledge]
        packs = ["no-such-pack", 3]
        [group]
        speak = "adressed"
        colour = "green"
        [mail]
        address = "desk at example.org"
        imap_host = "imap://imap.example.org"
        imap_port = 99999
        imap_security = true
        experts = "ada@example.org"
        [telegram]
        groups = ["-100"]
        base_url = "http://chat.example.org/bot"
        [mial]
    """
    assert set(faults(folder, text)) == {
        "[store] path", "[store] keep_days", "[knowledge] packs", "[group] speak", "[group] colour",
        "[mail] address", "[mail] imap_host", "[mail] imap_port", "[mail] imap_security", "[mail] experts",
        "[mail] imap_password_file", "[mail] smtp_host", "[telegram] groups", "[telegram] base_url",
        "[telegram] token_file", "[mial]",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("wrong", "meant"),
    [("imap_hots", "imap_host"), ("trusted_authservid", "trusted_authserv_id"), ("Folder", "folder")],
)
def test_an_unknown_key_is_a_fault_that_suggests_the_nearest(folder, wrong, meant) -> None:
    assert f"Did you mean {meant}?" in faults(folder, f'{MAIL}{wrong} = "x"')[f"[mail] {wrong}"]


def test_an_unknown_section_is_a_fault_that_suggests_the_nearest(folder) -> None:
    assert "Did you mean mail?" in faults(folder, "[mial]")["[mial]"]
    assert "Known are: group, knowledge, mail, store, telegram" in faults(folder, "[xyz]")["[xyz]"]


def test_a_missing_key_is_said_to_be_missing_once(folder) -> None:
    found = faults(folder, MAIL.replace('smtp_host = "smtp.example.org"', ""))
    assert found == {"[mail] smtp_host": "is missing. Add it to [mail]."}


@pytest.mark.parametrize("host", ["mail.example.org", "10.0.0.5", "localhost.example.org", "127.0.0.1.example.org"])
def test_no_encryption_is_refused_unless_the_host_is_this_computer(folder, host) -> None:
    text = MAIL.replace("smtp.example.org", host) + 'smtp_security = "none"'
    assert list(faults(folder, text)) == ["[mail] smtp_security"]


@pytest.mark.parametrize("host", ["localhost", "127.0.0.1", "127.9.9.9", "::1"])
def test_no_encryption_is_taken_when_the_host_is_this_computer(folder, host) -> None:
    text = MAIL.replace("smtp.example.org", host) + 'smtp_security = "none"'
    assert settings(folder, text).mail.smtp.port == 25


@pytest.mark.parametrize("url", ["chat.example.org", "ftp://x", "https://", "https://x:99999/", "http://x.example/bot"])
def test_the_address_of_a_chat_server_must_be_one_that_a_token_may_be_sent_to(folder, url) -> None:
    (folder / "token").write_text("1")
    assert list(faults(folder, f'[telegram]\ntoken_file = "token"\nbase_url = "{url}"')) == ["[telegram] base_url"]


def test_a_chat_server_on_this_computer_needs_no_encryption(folder) -> None:
    (folder / "token").write_text("1")
    text = '[telegram]\ntoken_file = "token"\nbase_url = "http://127.0.0.1:8081/bot"'
    assert settings(folder, text).telegram.base_url == "http://127.0.0.1:8081/bot"


def test_the_own_address_among_the_experts_is_a_fault(folder) -> None:
    assert "[mail] experts" in faults(folder, MAIL + 'experts = ["Desk@example.org"]')


def test_a_section_written_as_a_value_is_a_fault(folder) -> None:
    assert set(faults(folder, "mail = 3\ngroup = []")) >= {"mail", "group"}


@pytest.mark.parametrize("text", ["[mail", "a = ", "[a]\n[a]", "x = 1\nx = 2", "[" * 5000, "a=" + "[" * 5000])
def test_a_file_that_is_no_toml_says_where(folder, text) -> None:
    with pytest.raises(SettingsError, match="cannot be understood"):
        settings(folder, text)


def test_a_file_in_another_encoding_names_the_line(folder) -> None:
    with pytest.raises(SettingsError, match="line 2: is not in UTF-8"):
        read(written(folder, b'[group]\nname = "N\xe4hkreis"\n'), {})


def test_a_file_that_cannot_be_read_is_misuse(folder) -> None:
    with pytest.raises(UsageError, match=r"No such file.*settings\.sample\.toml"):
        read(folder / "none.toml", {})
    with pytest.raises(UsageError, match="Is a directory"):
        read(folder, {})
    with pytest.raises(UsageError, match="larger than"):
        read(written(folder, "#" * 2_000_000), {})


_VALUES = st.recursive(
    st.booleans()
    | st.integers(-(2**70), 2**70)
    | st.floats(allow_nan=False)
    | st.sampled_from(["", "x", "a@b", "none"]),
    lambda inner: st.lists(inner, max_size=3),
    max_leaves=4,
)
_KEYS = (
    "path keep_days packs name speak address imap_host imap_port imap_security imap_user imap_password_file folder "
    "smtp_host smtp_port smtp_security trusted_authserv_id experts answers_per_day token_file base_url groups "
    "experts_chat"
).split()


@given(
    st.dictionaries(
        st.sampled_from(["store", "knowledge", "group", "mail", "telegram"]),
        st.dictionaries(st.sampled_from(_KEYS), _VALUES, max_size=8),
    )
)
def test_values_of_any_kind_under_any_key_give_settings_or_faults_and_nothing_else(tmp_path_factory, values) -> None:
    from bot.settings import _File, _group, _knowledge, _mail, _store, _telegram

    file = _File(tmp_path_factory.getbasetemp() / "s.toml", values, {})
    file.section("store", _store), file.section("knowledge", _knowledge), file.section("group", _group)
    file.channel("mail", _mail), file.channel("telegram", _telegram)
    if file._faults:
        with pytest.raises(SettingsError):
            file.finish()
    else:
        file.finish()
