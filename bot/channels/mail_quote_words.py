"""The words by which mail programs mark what is quoted or passed on, in the languages of the group. From memory."""

from __future__ import annotations

import re

_WROTE = (
    "wrote", "writes", "schrieb", "schrieben", "a écrit", "écrit", "escribió", "ha scritto", "scrisse", "schreef",
    "napisał", "napisała", "napisał(a)", "pisze", "написал", "написала", "пишет", "skrev", "escreveu", "napsal",
    "napsala", "napsal(a)", "kirjoitti", "írta", "yazdı", "έγραψε", "写道", "のメール", "a scris", "geschreven",
)  # fmt: skip
WROTE = re.compile(r"(?:^|[\s>)\]])(?:" + "|".join(map(re.escape, _WROTE)) + r")(?!\w)", re.IGNORECASE)

_PASSED_ON = (
    "forwarded message", "begin forwarded message", "weitergeleitete nachricht",
    "anfang der weitergeleiteten nachricht", "message transféré", "début du message transféré", "message réexpédié",
    "mensaje reenviado",
    "inicio del mensaje reenviado", "messaggio inoltrato", "inizio messaggio inoltrato", "doorgestuurd bericht",
    "begin doorgestuurd bericht", "przekazana wiadomość", "wiadomość przekazana", "пересылаемое сообщение",
    "пересланное сообщение", "vidarebefordrat meddelande", "videresendt meddelelse", "mensagem encaminhada",
    "přeposlaná zpráva",
)  # fmt: skip
PASSED_ON = re.compile(
    r"[ \t>]{0,6}(?:[-_=*]{2,}[ \t]*)?(?:" + "|".join(map(re.escape, _PASSED_ON))
    + r")\b[^\n]{0,60}?(?:[-_=*]{2,}|:)[ \t]*$",
    re.IGNORECASE,
)

_ORIGINAL = (
    "original message", "original-nachricht", "originalnachricht", "ursprüngliche nachricht", "message d'origine",
    "message original", "mensaje original", "messaggio originale", "oorspronkelijk bericht", "oryginalna wiadomość",
    "wiadomość oryginalna", "исходное сообщение", "ursprungligt meddelande", "oprindelig meddelelse",
    "mensagem original", "původní zpráva", "reply message", "reply above this line",
)  # fmt: skip
ORIGINAL = re.compile(
    r"[ \t]*[-_=*]{2,}[ \t]*(?:" + "|".join(map(re.escape, _ORIGINAL)) + r")\b[^\n]{0,60}$", re.IGNORECASE
)

_FIELDS = {
    "sender": "from von de da van od från fra expéditeur remitente mittente absender отправитель от lähettäjä",
    "time": "sent date gesendet datum envoyé enviado inviato verzonden skickat sendt wysłano data fecha отправлено "
    "дата odesláno lähetetty",
    "recipient": "to an à para a aan till til do komu кому destinataire destinatario empfänger cc kopie kopia копия "
    "reply-to antwort-an",
    "subject": "subject betreff objet asunto oggetto onderwerp ämne emne temat тема předmět assunto aihe",
}
HEAD_FIELDS = re.compile(
    r"[ \t>*_]{0,6}(?:"
    + "|".join(f"(?P<{kind}>{'|'.join(map(re.escape, words.split()))})" for kind, words in _FIELDS.items())
    + r")[ \t*_]{0,3}[:：](?:[ \t*_]|$)",
    re.IGNORECASE,
)

MOBILE = re.compile(
    r"[ \t]*(?:sent from (?:my|a|the|mail for|outlook|yahoo)\b|get outlook for\b|sent with\b|sent via\b|"
    r"gesendet (?:von|mit)\b|von meinem \S+ gesendet|envoyé (?:de|depuis) mon\b|enviado desde mi\b|"
    r"inviato da(?:l mio)?\b|verzonden (?:vanaf|met|vanuit) (?:mijn\b)?|"
    r"wysłane z\b|skickat från min\b|отправлено с\b|enviado do meu\b|"
    r"odesláno z\b)[^\n]{0,80}$",
    re.IGNORECASE,
)
