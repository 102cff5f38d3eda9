"""Bytes of mail to text: the charset that is named where it fits, else the likely one; never an error."""

from __future__ import annotations

# What is written into mails, and what is meant by it (as browsers read it: WHATWG Encoding Standard, section 4.2).
_MEANT = {
    "iso-8859-1": "cp1252",
    "latin-1": "cp1252",
    "latin1": "cp1252",
    "iso-8859-9": "cp1254",
    "iso-8859-8-i": "iso-8859-8",
    "iso-8859-8-e": "iso-8859-8",
    "gb2312": "gb18030",
    "gbk": "gb18030",
    "ks_c_5601-1987": "cp949",
    "euc-kr": "cp949",
    "shift_jis": "cp932",
    "x-sjis": "cp932",
    "windows-874": "cp874",
    "x-mac-roman": "mac-roman",
    "unicode-1-1-utf-7": "utf-7",
}
_SEVEN_BIT = ("utf-7", "utf-16", "utf16", "utf-32", "utf32", "iso-2022", "hz")  # their bytes may look like others
_SAYS_NOTHING = ("", "us-ascii", "ascii", "ansi_x3.4-1968", "unknown", "unknown-8bit", "x-unknown", "default", "8bit")


def decoded(content: bytes, charset: str) -> str:
    """Return bytes as text. Without a charset that is known, UTF-8 where it fits and else Windows-1252.

    >>> decoded("dérivé".encode("latin-1"), "x-unknown"), decoded(b"plain", "zlib"), decoded("é".encode(), "us-ascii")
    ('dérivé', 'plain', 'é')
    """
    name = charset.strip().strip("\"'").lower()
    utf8 = None if name.startswith(_SEVEN_BIT) or content.isascii() else _tried(content, "utf-8", "strict")
    if utf8 is not None:
        return utf8  # what is valid UTF-8 beyond ASCII is UTF-8, whatever it is called
    if name not in _SAYS_NOTHING:
        text = _tried(content, _MEANT.get(name, name), "replace")
        if text is not None:
            return text
    text = _tried(content, "utf-8", "strict")
    return text if text is not None else content.decode("cp1252", "replace")


def _tried(content: bytes, name: str, errors: str) -> str | None:
    """Return the text, None when there is no such charset or it does not fit. Codecs that unpack are no charsets."""
    try:
        text = content.decode(name, errors)
    except (LookupError, ValueError, UnicodeError, OverflowError):
        return None
    return text.encode("utf-8", "replace").decode("utf-8")  # no half characters, as utf-7 and utf-16 can give
