"""Sending one mail by SMTP, and telling apart what a failure means: refused, put off, not sent, or nobody knows.

One connection and one recipient for each mail. Up to the content nothing is sent that counts; once the content is on
its way only the server's answer tells, and without one nobody knows whether the mail arrived.
"""

from __future__ import annotations

import re
import ssl
from contextlib import suppress

import aiosmtplib
from aiosmtplib import SMTP, SMTPException, SMTPResponseException

from bot.journal import Outgoing
from bot.sending import NotSent, PutOff, Refused
from bot.settings import ServerSettings

CONNECTING = 60.0  # seconds for each step before the content
AFTER_CONTENT = 600.0  # seconds for the server to answer after the final dot (RFC 5321, section 4.5.3.2.6)
_QUEUED_AS = re.compile(r"queued as ([\w.-]{1,80})", re.IGNORECASE)
_LONGEST = 200
_LOGIN = (432, 454, 530, 534, 535, 538)  # RFC 4954, section 6: the login is at fault, and with it every mail


class Smtp:
    """Sends with one server. `sender` is the address that bounces come back to."""

    def __init__(self, server: ServerSettings, sender: str) -> None:
        self._server, self._sender = server, sender

    async def send(self, message: Outgoing) -> str:
        """Send a mail, and return the name the server gave it.

        Raises Refused, PutOff or NotSent when the mail surely was not taken; anything else when nobody knows.
        """
        client = await self._connected()
        try:
            await self._envelope(client, message.recipient)
            answer = await self._content(client, message.body)
        finally:
            with suppress(Exception):
                client.close()
        named = _QUEUED_AS.search(answer)
        return named[1] if named else answer[:_LONGEST]

    async def _connected(self) -> SMTP:
        server = self._server
        client = SMTP(
            hostname=server.host, port=server.port, timeout=CONNECTING, use_tls=server.security == "tls",
            start_tls=server.security == "starttls", tls_context=_tls(server), local_hostname=_name(self._sender),
        )  # fmt: skip
        try:
            await client.connect()
            if server.password is not None:
                await client.login(server.user, server.password.reveal())
        except (SMTPException, OSError, ValueError) as fault:  # a wrong certificate is an OSError
            with suppress(Exception):
                client.close()
            raise NotSent(f"no way to the SMTP server: {_told(fault)}") from fault
        return client

    async def _envelope(self, client: SMTP, recipient: str) -> None:
        try:
            if recipient.isascii():
                await client.mail(self._sender)
                await client.rcpt(recipient)
                return
            if client.last_ehlo_response is None:
                await client.ehlo()
            if not client.supports_extension("smtputf8"):
                raise Refused("the SMTP server takes no addresses beyond ASCII (it has no SMTPUTF8)")
            await client.mail(self._sender, options=["SMTPUTF8", "BODY=8BITMIME"], encoding="utf-8")
            await client.rcpt(recipient, encoding="utf-8")
        except SMTPResponseException as fault:
            raise meaning(fault) from fault
        except (SMTPException, OSError) as fault:
            raise NotSent(f"the SMTP server went away: {_told(fault)}") from fault

    async def _content(self, client: SMTP, body: bytes) -> str:
        try:
            answer = await client.data(body, timeout=AFTER_CONTENT)
        except SMTPResponseException as fault:
            if fault.code < 400:
                raise
            raise meaning(fault) from fault
        return answer.message


def meaning(fault: SMTPResponseException) -> Exception:
    """Return what an answer of the server means for the mail (RFC 5321, section 4.2.1)."""
    told = _told(fault)
    if fault.code in _LOGIN:
        return NotSent(f"the SMTP server wants another login: {told}")
    return Refused(told) if 500 <= fault.code < 600 else PutOff(told)


def _tls(server: ServerSettings) -> ssl.SSLContext | None:
    return None if server.security == "none" else ssl.create_default_context()


def _name(sender: str) -> str:
    """Return how we call ourselves: the domain mail comes from, which says nothing of this computer."""
    domain = sender.rpartition("@")[2]
    return domain if domain.isascii() else domain.encode("idna").decode("ascii")


def _told(fault: Exception) -> str:
    """Return a failure in a line, without addresses: the journal shows it."""
    text = f"{fault.code} {fault.message}" if isinstance(fault, SMTPResponseException) else str(fault)
    if isinstance(fault, aiosmtplib.SMTPTimeoutError):
        text = text or "no answer in time"
    return " ".join(text.split())[:_LONGEST]
