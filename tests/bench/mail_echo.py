"""The barest mail robot there is: waits by IMAP (IDLE) and sends each new mail back by SMTP. The bench compares."""

from __future__ import annotations

import imaplib
import re
import smtplib
import sys


def main(imap_port: int, smtp_port: int, user: str, password: str) -> None:
    """Echo until ended."""
    imap = imaplib.IMAP4("127.0.0.1", imap_port)
    imap.login(user, password)
    imap.select("INBOX")
    last = max(map(int, imap.uid("search", "ALL")[1][0].split()), default=0)
    print("ready", flush=True)
    while True:
        imap.send(b"X1 IDLE\r\n")
        while b"EXISTS" not in imap.readline():
            pass
        imap.send(b"DONE\r\n")
        while not imap.readline().startswith(b"X1"):
            pass
        found = imap.uid("search", f"UID {last + 1}:*")[1][0]
        for uid in sorted(int(one) for one in found.split() if int(one) > last):
            _, parts = imap.uid("fetch", str(uid), "(BODY.PEEK[])")
            mail = next(part[1] for part in parts if isinstance(part, tuple))
            sender = re.search(rb"^From: .*?([^\s<>]+@[^\s<>]+)", mail, re.MULTILINE)
            with smtplib.SMTP("127.0.0.1", smtp_port) as smtp:
                smtp.sendmail(user, [sender[1].decode() if sender else user], mail)
            last = uid


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]), sys.argv[3], sys.argv[4])
