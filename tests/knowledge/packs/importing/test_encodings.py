"""Tests of importing/encodings.py: lists as people have them, in the encodings people have."""

from __future__ import annotations

import pytest

from knowledge.packs.importing.encodings import decode

GERMAN = "Von;Bis;Jahr;Stückzahl\n1;9;1912;9 für Köln\n"
FRENCH = "De;À;Année;Modèle;Quantité\n1;9;1912;Modèle 9;9\n"
SWEDISH = "Från;Till;År;Anmärkning\n1;9;1912;först från Göteborg\n"
SPANISH = "Desde;Hasta;Año;Modelo\n1;9;1912;pequeña\n"
DANISH = "Fra;Til;År;Bemærkning\n1;9;1912;første fabrik på Sjælland\n"
POLISH = "Od;Do;Rok;Ilość;Zakład\n1;9;1912;9;główny w Łodzi, później żeliwne łoża\n"
POLISH_HEAD = "Rok|Od|Do|Ilość\n1912|1|9|9\n"
CZECH = "Od;Do;Rok;Množství\n1;9;1912;Přerov, dřevěná skříň, čtvrtý díl\n"
HUNGARIAN = "Tól;Ig;Év;Mennyiség\n1;9;1912;őrölt fűrész gyár\n"
RUSSIAN = "С;По;Год;Модель\n1;9;1912;Северный завод\n"
ENGLISH = "From;To;Year;Note\n1;9;1912;caf\u00e9 model \u2013 \u00a35, Smith\u2019s list\n"

WESTERN = [GERMAN, FRENCH, SWEDISH, SPANISH, DANISH]
GUESSED = [
    *((text, encoding) for text in WESTERN for encoding in ("cp1252", "mac_roman", "cp850")),
    *((text, "latin_1") for text in WESTERN),
    *((text, "cp1250") for text in (POLISH, POLISH_HEAD, CZECH, HUNGARIAN)),
    *((RUSSIAN, encoding) for encoding in ("cp1251", "koi8_r")),
    *((ENGLISH, encoding) for encoding in ("cp1252", "mac_roman")),
]


@pytest.mark.parametrize(("text", "encoding"), GUESSED)
def test_another_encoding_is_guessed_rightly_and_the_guess_is_said(text: str, encoding: str) -> None:
    read, note = decode(text.encode(encoding))
    assert read == text
    assert "guessed" in note
    assert "save the file again as UTF-8" in note


@pytest.mark.parametrize("text", [GERMAN, POLISH, RUSSIAN, ENGLISH, "From;To\n1;9\n"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_what_says_its_encoding_itself_needs_no_guess(text: str, encoding: str) -> None:
    assert decode(text.encode(encoding)) == (text, "")


@pytest.mark.parametrize("text", [GERMAN, RUSSIAN, "From;To\n1;9\n"])
@pytest.mark.parametrize("encoding", ["utf-16-le", "utf-16-be"])
def test_utf16_without_its_mark_is_told_by_its_nuls(text: str, encoding: str) -> None:
    read, note = decode(text.encode(encoding))
    assert read == text
    assert "UTF-16" in note
