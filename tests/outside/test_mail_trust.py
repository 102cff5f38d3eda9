"""Authentication-Results against RFC 8601, Message Header Field for Indicating Message Authentication Status (2019)."""

from __future__ import annotations

import email

import pytest

from bot.mail_trust import is_vouched_for, results

APPENDIX_B_3 = """Authentication-Results: example.com;
          spf=pass smtp.mailfrom=example.net
From: sender@example.com

Hello
"""
APPENDIX_B_4 = """Authentication-Results: example.com;
          auth=pass (cleartext) smtp.auth=sender@example.net;
          spf=pass smtp.mailfrom=example.net
Authentication-Results: example.com; iprev=pass
          policy.iprev=192.0.2.200
From: sender@example.net

Hello
"""
APPENDIX_B_6 = """Authentication-Results: example.com;
      dkim=pass reason="good signature"
        header.i=@mail-router.example.net;
      dkim=fail reason="bad signature"
        header.i=@newyork.example.com
From: sender@newyork.example.com

Hello
"""
APPENDIX_B_7 = """Authentication-Results: foo.example.net (foobar) 1 (baz);
    dkim (Because I like it) / 1 (One yay) = (wait for it) fail
      policy (A dot can go here) . (like that) expired
      (this surprised me) = (as I wasn't expecting it) 1362471462

x
"""


def found(text: str, authserv_id: str = "example.com") -> list[tuple[str, str]]:
    return [(one.method, one.found) for one in results(email.message_from_string(text), authserv_id)]


def test_appendix_b_2_no_method_was_tried():
    assert found("Authentication-Results: example.org 1; none\n\nx", "example.org") == []


def test_appendix_b_3_one_result():
    assert found(APPENDIX_B_3) == [("spf", "pass")]


def test_appendix_b_4_only_the_topmost_line_counts():
    assert found(APPENDIX_B_4) == [("auth", "pass"), ("spf", "pass")]


def test_appendix_b_6_several_results_with_their_properties():
    mail = email.message_from_string(APPENDIX_B_6)
    assert found(APPENDIX_B_6) == [("dkim", "pass"), ("dkim", "fail")]
    assert results(mail, "example.com")[0].of("header.i") == "@mail-router.example.net"


def test_appendix_b_6_a_signature_of_another_domain_does_not_vouch_for_the_sender():
    mail = email.message_from_string(APPENDIX_B_6)
    assert not is_vouched_for(mail, "sender@newyork.example.com", "example.com")
    assert is_vouched_for(mail, "sender@mail-router.example.net", "example.com")


def test_appendix_b_7_comments_may_stand_anywhere():
    assert found(APPENDIX_B_7, "foo.example.net") == [("dkim", "fail")]


FORGED = "Authentication-Results: {server}; dmarc=pass header.from=example.org\n"
SENDER = "From: ada@example.org\n\nx\n"


def vouched(head: str, authserv_id: str = "mx.example.net", sender: str = SENDER) -> bool:
    return is_vouched_for(email.message_from_string(head + sender), "ada@example.org", authserv_id)


def test_section_5_the_own_servers_word_counts():
    assert vouched(FORGED.format(server="mx.example.net"))


@pytest.mark.parametrize("server", ["mx.example.org", "mx.example.net.example.org", "xmx.example.net", ""])
def test_section_5_another_servers_word_does_not(server):
    assert not vouched(FORGED.format(server=server))


def test_section_5_a_line_below_that_of_another_server_does_not_count():
    assert not vouched(FORGED.format(server="other.example") + FORGED.format(server="mx.example.net"))


def test_section_5_a_forged_line_below_the_own_one_does_not_count():
    assert not vouched(
        "Authentication-Results: mx.example.net; dmarc=fail header.from=example.org\n"
        + FORGED.format(server="mx.example.net")
    )


def test_section_2_5_another_version_is_not_understood():
    assert not vouched("Authentication-Results: mx.example.net 2; dmarc=pass header.from=example.org\n")


def test_without_a_trusted_name_nobody_is_vouched_for():
    assert not vouched(FORGED.format(server="mx.example.net"), authserv_id="")


def test_two_senders_are_not_vouched_for():
    assert not vouched(FORGED.format(server="mx.example.net"), sender="From: ada@example.org, eve@example.com\n\nx\n")


def test_a_pass_in_a_comment_or_a_quoted_text_is_none():
    assert not vouched("Authentication-Results: mx.example.net; dmarc=fail (dmarc=pass header.from=example.org)\n")
    assert not vouched(
        'Authentication-Results: mx.example.net; dkim=fail reason="; dmarc=pass header.from=example.org"\n'
    )
