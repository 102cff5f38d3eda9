"""Real mail servers for tests: Dovecot (IMAP, LMTP) and Postfix (SMTP), on loopback, on free ports, in a folder.

    with mail_servers() as servers:
        servers.deliver(mail, "desk@example.net")      by LMTP, as the world would
        servers.mails("hattie@example.org")            what arrived there, by IMAP

Every address is a mailbox, and every password is `PASSWORD`. Mail handed to Postfix goes to these mailboxes, whatever
its domain; nothing leaves the computer. The system's own services, files and ports are not touched. With `tls` the
mailbox wants TLS, and Postfix wants TLS and a login; the certificate is made on the spot.
"""

from __future__ import annotations

import contextlib
import imaplib
import os
import shutil
import signal
import smtplib
import socket
import ssl
import subprocess
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

PASSWORD = "a-pass-phrase"
_STARTING = 20.0  # seconds
NEEDED = ("dovecot", "postfix", "openssl")


def missing() -> str:
    """Return what is missing to run the servers, '' for nothing."""
    lacking = [name for name in NEEDED if shutil.which(name, path=os.environ["PATH"] + ":/usr/sbin") is None]
    if lacking:
        return f"not installed: {', '.join(lacking)} (tests/debian-packages.txt)"
    return "" if os.getuid() == 0 else "Postfix and Dovecot start only as root, with mailboxes of another user"


def free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        port: int = one.getsockname()[1]
        return port


@dataclass
class MailServers:
    """The two servers. `stop_...` and `start_...` may be called as often as a test likes."""

    folder: Path
    tls: bool
    imap_port: int = field(default_factory=free_port)
    lmtp_port: int = field(default_factory=free_port)
    smtp_port: int = field(default_factory=free_port)
    auth_port: int = field(default_factory=free_port)
    postfix_runs: bool = False
    _dovecot: subprocess.Popen[bytes] | None = None

    @property
    def certificate(self) -> Path:
        return self.folder / "cert.pem"

    @property
    def dovecot_runs(self) -> bool:
        return self._dovecot is not None

    def start_dovecot(self) -> None:
        self._dovecot = subprocess.Popen(
            ["/usr/sbin/dovecot", "-F", "-c", str(self.folder / "dovecot.conf")], start_new_session=True
        )
        wait_for(self.imap_port)
        wait_for(self.lmtp_port)

    def stop_dovecot(self, hard: bool = False) -> None:
        """Stop it; `hard` ends it at once with all that belongs to it, as a power cut would."""
        if self._dovecot is None:
            return
        if hard:
            with contextlib.suppress(ProcessLookupError):
                os.killpg(self._dovecot.pid, signal.SIGKILL)
        else:
            self._dovecot.terminate()
        self._dovecot.wait(20)
        (self.folder / "run/dovecot/master.pid").unlink(missing_ok=True)
        self._dovecot = None

    def start_postfix(self) -> None:
        self._postfix("start")
        self.postfix_runs = True
        wait_for(self.smtp_port)

    def stop_postfix(self) -> None:
        self._postfix("stop", check=False)
        self.postfix_runs = False

    def _postfix(self, verb: str, check: bool = True) -> None:
        done = subprocess.run(
            ["/usr/sbin/postfix", "-c", str(self.folder / "postfix"), verb],
            capture_output=True,
            timeout=60,
            env={**os.environ, "MAIL_LOGTAG": "postfix-test"},
            check=False,
        )
        if check and done.returncode:
            log = self.folder / "postfix.log"
            raise RuntimeError(f"postfix {verb}: {done.stderr.decode()}\n{log.read_text() if log.exists() else ''}")

    def deliver(self, mail: bytes, to: str, sender: str = "somebody@example.org") -> None:
        """Hand a mail to the mailbox of `to` by LMTP. When this returns, it is accepted."""
        with self.lmtp() as client:
            client.sendmail(sender, [to], mail)

    def lmtp(self) -> smtplib.LMTP:
        return smtplib.LMTP("127.0.0.1", self.lmtp_port)

    def imap(self, user: str) -> imaplib.IMAP4:
        """Return a connection of an ordinary client to a mailbox, INBOX selected."""
        client: imaplib.IMAP4
        if self.tls:
            client = imaplib.IMAP4_SSL("127.0.0.1", self.imap_port, ssl_context=self.trust())
        else:
            client = imaplib.IMAP4("127.0.0.1", self.imap_port)
        client.login(user, PASSWORD)
        client.select("INBOX")
        return client

    def trust(self) -> ssl.SSLContext:
        return ssl.create_default_context(cafile=str(self.certificate))

    def mails(self, user: str) -> list[bytes]:
        """Return all mails in a mailbox, oldest first."""
        with self.imap(user) as client:
            _, (numbers,) = client.search(None, "ALL")
            found: list[bytes] = []
            for number in numbers.split():
                _, parts = client.fetch(number.decode(), "(BODY.PEEK[])")
                found.extend(part[1] for part in parts if isinstance(part, tuple))
        return found

    def wait_for_mails(self, user: str, count: int, seconds: float = 20) -> list[bytes]:
        """Return the mails as soon as there are so many, or what is there when the time is over."""
        end = time.monotonic() + seconds
        found = self.mails(user)
        while len(found) < count and time.monotonic() < end:
            time.sleep(0.05)
            found = self.mails(user)
        return found

    def settings(self, store: Path, address: str = "desk@example.net", more: str = "") -> str:
        """Return settings (TOML) for a bot that works with these servers."""
        password = self.folder / "password"
        password.write_text(PASSWORD)
        imap, smtp = ("tls", "starttls") if self.tls else ("none", "none")
        login = f'smtp_user = "{address}"\nsmtp_password_file = "{password}"' if self.tls else ""
        return (
            f'[store]\npath = "{store}"\n[group]\nname = "the circle of old needles"\n[mail]\naddress = "{address}"\n'
            f'imap_host = "127.0.0.1"\nimap_port = {self.imap_port}\nimap_security = "{imap}"\n'
            f'imap_password_file = "{password}"\nsmtp_host = "127.0.0.1"\nsmtp_port = {self.smtp_port}\n'
            f'smtp_security = "{smtp}"\n{login}\n{more}\n'
        )


@contextlib.contextmanager
def mail_servers(tls: bool = False) -> Iterator[MailServers]:
    """Start both servers in a folder of their own, and stop them at the end. Skips nothing: ask `missing` first."""
    with tempfile.TemporaryDirectory(prefix="bedstamp-mail-", ignore_cleanup_errors=True) as folder:
        Path(folder).chmod(0o755)  # the servers' own users have to come in, which they may not in pytest's folders
        yield from _running(MailServers(Path(folder), tls))


def _running(servers: MailServers) -> Iterator[MailServers]:
    folder = servers.folder
    _make_certificate(folder)
    _configure_dovecot(servers)
    _configure_postfix(servers)
    try:
        servers.start_dovecot()
        servers.start_postfix()
        yield servers
    finally:
        servers.stop_postfix()
        servers.stop_dovecot()


def wait_for(port: int) -> None:
    """Return when something listens there."""
    end = time.monotonic() + _STARTING
    while True:
        with contextlib.suppress(OSError), socket.create_connection(("127.0.0.1", port), 1):
            return
        if time.monotonic() > end:
            raise RuntimeError(f"nothing answers at port {port} after {_STARTING:.0f} seconds")
        time.sleep(0.02)


def _make_certificate(folder: Path) -> None:
    subprocess.run(
        [
            "openssl",
            "req",
            "-x509",
            "-newkey",
            "rsa:2048",
            "-nodes",
            "-days",
            "2",
            "-subj",
            "/CN=127.0.0.1",
            "-addext",
            "subjectAltName=IP:127.0.0.1,DNS:localhost",
            "-addext",
            "basicConstraints=critical,CA:TRUE",
            "-keyout",
            str(folder / "key.pem"),
            "-out",
            str(folder / "cert.pem"),
        ],
        check=True,
        capture_output=True,
    )
    (folder / "key.pem").chmod(0o644)


def _configure_dovecot(servers: MailServers) -> None:
    folder = servers.folder
    mail = folder / "mailboxes"
    mail.mkdir(exist_ok=True)
    shutil.chown(mail, "nobody", "nogroup")
    (folder / "run/dovecot").mkdir(parents=True, exist_ok=True)
    listeners = f"inet_listener imap {{\n port = {0 if servers.tls else servers.imap_port}\n }}\n"
    if servers.tls:
        listeners += f"inet_listener imaps {{\n port = {servers.imap_port}\n ssl = yes\n }}\n"
    else:
        listeners += "inet_listener imaps {\n port = 0\n }\n"
    (folder / "dovecot.conf").write_text(f"""
base_dir = {folder}/run/dovecot
state_dir = {folder}/run/dovecot
log_path = {folder}/dovecot.log
protocols = imap lmtp
listen = 127.0.0.1
ssl = {"yes" if servers.tls else "no"}
ssl_cert = <{folder}/cert.pem
ssl_key = <{folder}/key.pem
disable_plaintext_auth = no
auth_mechanisms = plain login
auth_username_chars =
mail_location = sdbox:~/mail
mailbox_list_index = yes
mail_max_userip_connections = 0
first_valid_uid = 1
first_valid_gid = 1
default_process_limit = 400
default_client_limit = 4000
passdb {{
  driver = static
  args = password={PASSWORD}
}}
userdb {{
  driver = static
  args = uid=nobody gid=nogroup home={mail}/%u allow_all_users=yes
}}
service imap-login {{
  {listeners}
  service_count = 0
}}
service lmtp {{
  inet_listener lmtp {{
    port = {servers.lmtp_port}
  }}
}}
service auth {{
  inet_listener auth {{
    port = {servers.auth_port}
  }}
}}
service stats {{
  unix_listener stats-writer {{
    mode = 0666
  }}
}}
protocol lmtp {{
  postmaster_address = postmaster@example.net
  hostname = mx.example.net
}}
lmtp_add_received_header = yes
""")


def _configure_postfix(servers: MailServers) -> None:
    folder = servers.folder
    config = folder / "postfix"
    for name in ("postfix", "queue", "data"):
        (folder / name).mkdir(exist_ok=True)
    shutil.chown(folder / "data", "postfix")
    tls = ""
    if servers.tls:
        tls = (
            f"smtpd_tls_security_level = encrypt\nsmtpd_tls_cert_file = {folder}/cert.pem\n"
            f"smtpd_tls_key_file = {folder}/key.pem\nsmtpd_sasl_auth_enable = yes\nsmtpd_sasl_type = dovecot\n"
            f"smtpd_sasl_path = inet:127.0.0.1:{servers.auth_port}\n"
        )
    relay = f"smtpd_relay_restrictions = {'permit_sasl_authenticated' if servers.tls else 'permit_mynetworks'}, reject"
    (config / "main.cf").write_text(f"""
compatibility_level = 3.6
queue_directory = {folder}/queue
data_directory = {folder}/data
maillog_file = {folder}/postfix.log
maillog_file_prefixes = {folder}
inet_interfaces = 127.0.0.1
inet_protocols = ipv4
myhostname = mx.example.net
mydestination =
mynetworks = 127.0.0.0/8
{relay}
default_transport = lmtp:inet:127.0.0.1:{servers.lmtp_port}
relay_transport = $default_transport
local_transport = $default_transport
lmtp_dns_support_level = disabled
alias_maps =
alias_database =
biff = no
message_size_limit = 100000000
mailbox_size_limit = 0
minimal_backoff_time = 1s
maximal_backoff_time = 2s
queue_run_delay = 1s
smtpd_client_connection_count_limit = 0
smtpd_client_connection_rate_limit = 0
default_process_limit = 50
lmtp_destination_concurrency_limit = 10
{tls}
""")
    wanted = (
        "pickup",
        "cleanup",
        "qmgr",
        "tlsmgr",
        "rewrite",
        "bounce",
        "defer",
        "trace",
        "verify",
        "flush",
        "proxymap",
        "proxywrite",
        "error",
        "retry",
        "discard",
        "lmtp",
        "anvil",
        "scache",
        "smtp",
        "showq",
        "postlog",
    )
    programs = {
        "rewrite": "trivial-rewrite",
        "defer": "bounce",
        "trace": "bounce",
        "proxywrite": "proxymap",
        "retry": "error",
        "postlog": "postlogd",
    }
    wakes = {"pickup": "60", "qmgr": "1", "tlsmgr": "1000?", "flush": "1000?"}
    limits = {
        "pickup": "1",
        "qmgr": "1",
        "tlsmgr": "1",
        "bounce": "0",
        "defer": "0",
        "trace": "0",
        "cleanup": "0",
        "verify": "1",
        "proxywrite": "1",
        "anvil": "1",
        "scache": "1",
        "postlog": "1",
        "flush": "0",
    }
    lines = [f"127.0.0.1:{servers.smtp_port} inet n - n - - smtpd"]
    for name in wanted:
        kind = "unix-dgram" if name == "postlog" else "unix"
        private = "n" if name in ("pickup", "cleanup", "qmgr", "flush", "showq", "postlog") else "-"
        lines.append(
            f"{name} {kind} {private} - n {wakes.get(name, '-')} {limits.get(name, '-')} {programs.get(name, name)}"
        )
    (config / "master.cf").write_text("\n".join(lines) + "\n")
