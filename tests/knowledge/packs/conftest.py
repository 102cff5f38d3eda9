"""A sound pack, small enough to read, and ways to spoil it."""

import json
from collections.abc import Mapping
from pathlib import Path

import pytest

from knowledge.packs import Fault, faults_of

SOUND = {
    "makers.csv": "maker,name\nara,Ara & Sons\nbel,Bel\n",
    "works.csv": "works,maker,name,from,to\nnorth,ara,North Works,1900,1950\nbelworks,bel,Bel Works,1900,1950\n",
    "models.csv": "model,maker,name,introduced,withdrawn\nm1,ara,Model 1,1902,1930\nb1,bel,Bel 1,1902,1930\n",
    "registers.csv": (
        "register,maker,kind,object,from,to,source\n"
        "ledger,ara,allocations,allocation,1900,1950,book\n"
        "years,bel,year-starts,manufacture,1900,1915,book\n"
        "code,bel,date-code,manufacture,1920,1949,book\n"
    ),
    "allocations.csv": (
        "register,order,prefix,first,last,suffix,date,model,works,quantity,source,note\n"
        "ledger,1,K,980001,990000,,1905,m1,north,10000,book,\n"
        "ledger,2,K,990001,999999,,1906,m1,north,9999,book,\n"
        "ledger,3,K,1000000,1009999,,1907-02,m1,north,10000,book,\n"
        "ledger,4,K,0000001,0010000,,1908~,m1,north,10000,book,\n"
        "ledger,5,K,0010001,0020000,,1909,m1,north,10000,book,\n"
        "ledger,6,K,0020001,0030000,,1910,m1,north,10000,book,\n"
    ),
    "year-starts.csv": (
        "register,prefix,first,date,works,source\n"
        "years,,1,1901,belworks,book\n"
        "years,,900,1902,belworks,book\n"
        "years,,12000,1903,belworks,book\n"
    ),
    "date-codes.csv": (
        "register,part,length,characters,means,table,constant,rule\n"
        "code,1,1,letters,constant,,C,\n"
        "code,2,1,digits,year,,,\n"
        "code,3,2,any,month,months,,\n"
        "code,4,1-3,digits,sequence,,,\n"
    ),
    "code-tables.csv": "table,code,value,from,to\nmonths,01,1,,\nmonths,0A,2,1921,1930\nmonths,0A,3,,\n",
    "prefixes.csv": "register,prefix,date,works,source\nledger,K,1905/1910,north,book\n",
    "other-marks.csv": "maker,prefix,digits,what\nara,P,4,part number\n",
    "sources.csv": "source,title,year\nbook,The book,1950~\n",
    "findings.csv": (
        "finding,prefix,number,suffix,digits,maker,model,works,date,evidence,kind,note,author,settled\n"
        f"{'a' * 32},K,0000117,,7,ara,,,1908,ledger p. 40,ledger,,an expert of the North circle,2026-11-25T14:03:00Z\n"
        f"{'b' * 32},,,,,bel,,,1902~,,opinion,,an expert of the North circle,2026-11-26T09:00:00Z\n"
    ),
    "sightings.csv": (
        "sighting,prefix,number,suffix,digits,maker,model,works,date,evidence,kind,source\n"
        "seen-1,K,985000,,6,ara,,,1905,bill of sale,dated-document,\n"
        "seen-2,K,0012000,,7,ara,,,1909,,ledger,\n"
    ),
}


class Folder:
    """A pack folder that a test writes and has checked."""

    def __init__(self, path: Path) -> None:
        self.path = path

    def write(self, files: Mapping[str, str | bytes], descriptor: object = None) -> None:
        self.path.mkdir(exist_ok=True)
        for name, content in files.items():
            (self.path / name).parent.mkdir(exist_ok=True)
            (self.path / name).write_bytes(content if isinstance(content, bytes) else content.encode())
        if descriptor is None:
            descriptor = {"name": "small", "resources": [{"name": name[:-4], "path": name} for name in files]}
        (self.path / "datapackage.json").write_text(json.dumps(descriptor))

    def faults(self) -> list[Fault]:
        return faults_of(self.path)[1]

    def spoiled(self, file: str, old: str, new: str | bytes) -> list[Fault]:
        """Return the faults of the sound pack with one piece of text in one file replaced."""
        assert old in SOUND[file], f"{old!r} is not in the sound {file}"
        start, end = SOUND[file].split(old, 1)
        content = start.encode() + (new if isinstance(new, bytes) else new.encode()) + end.encode()
        self.write(SOUND | {file: content})
        return self.faults()

    def with_rows(self, file: str, *rows: str) -> list[Fault]:
        """Return the faults of the sound pack with other rows below the head of one file."""
        head = SOUND[file].split("\n", 1)[0]
        self.write(SOUND | {file: "\n".join([head, *rows, ""])})
        return self.faults()


@pytest.fixture
def folder(tmp_path: Path) -> Folder:
    return Folder(tmp_path / "pack")


@pytest.fixture
def sound() -> Mapping[str, str]:
    return SOUND
