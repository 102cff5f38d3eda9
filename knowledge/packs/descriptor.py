"""`datapackage.json`: what a pack is called, and which file holds which table.

Source: https://datapackage.org/standard/data-package/ (version 2; a version 1 descriptor reads the same).
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from knowledge.packs.faults import Fault, fault, quoted
from knowledge.packs.paths import leads_out
from knowledge.packs.tables import SCHEMAS

FILE = "datapackage.json"
PROFILE = "https://datapackage.org/profiles/2.0/datapackage.json"
_OWN_PROPERTIES = ("$schema", "profile", "name", "title", "version", "resources")
_EXAMPLE = (
    '{"$schema": "' + PROFILE + '", "name": "our-group", "resources": [{"name": "makers", "path": "makers.csv"}, ...]}'
)


@dataclass(frozen=True, slots=True)
class Resource:
    """A CSV file of the pack and the table it holds. `path` is relative to the folder, as faults name it.

    A resource is `refused` when its file must not or cannot be opened; the fault has been told.
    """

    table: str
    path: str
    delimiter: str = ","
    quote: str = '"'
    refused: bool = False


@dataclass(frozen=True, slots=True)
class Descriptor:
    """What `datapackage.json` says, and what is wrong with it."""

    name: str
    title: str = ""
    version: str = ""
    more: Mapping[str, Any] = field(default_factory=dict)
    resources: tuple[Resource, ...] = ()
    faults: tuple[Fault, ...] = ()


def read_descriptor(folder: Path) -> Descriptor:
    """Read the descriptor of a folder. Where it is missing or broken, the files of the usual names are taken."""
    properties, faults = _properties(folder)
    readable = not faults
    name = properties.get("name")
    if not (isinstance(name, str) and name.strip()):
        name = folder.resolve().name or "pack"
        if readable:
            text = f'It gives the pack no name, so that of the folder is taken. Add "name": {json.dumps(name)}.'
            faults.append(fault("no-pack-name", text, FILE))
    resources = list(_resources(folder, properties.get("resources", []), faults))
    resources += _not_listed(folder, resources, faults, tell=readable)
    return Descriptor(
        name.strip(),
        _text(properties.get("title")),
        _text(properties.get("version")),
        {key: value for key, value in properties.items() if key not in _OWN_PROPERTIES},
        tuple(resources),
        tuple(faults),
    )


def _properties(folder: Path) -> tuple[dict[str, Any], list[Fault]]:
    try:
        properties = json.loads((folder / FILE).read_bytes().decode("utf-8-sig"))
    except FileNotFoundError:
        text = f"The folder has no {FILE}, which names the pack and lists its files. Add one, such as {_EXAMPLE}"
        return {}, [fault("no-descriptor", text, FILE)]
    except OSError as error:
        return {}, [fault("unreadable-file", f"It cannot be read: {error.strerror}. See who may read it.", FILE)]
    except UnicodeDecodeError:
        return {}, [fault("wrong-encoding", "It is not in UTF-8. Save it again as UTF-8.", FILE)]
    except json.JSONDecodeError as error:
        text = f"It is no JSON: {error.msg}, line {error.lineno}, column {error.colno}. Correct it there."
        return {}, [fault("bad-descriptor", text, FILE)]
    except (RecursionError, ValueError):
        return {}, [fault("bad-descriptor", f"It cannot be read. Write it as in {_EXAMPLE}", FILE)]
    if not isinstance(properties, dict):
        return {}, [fault("bad-descriptor", f"It must be a JSON object, such as {_EXAMPLE}", FILE)]
    return properties, []


def _resources(folder: Path, listed: object, faults: list[Fault]) -> Iterator[Resource]:
    if not isinstance(listed, list):
        faults.append(fault("bad-descriptor", f"'resources' must be a list of files, as in {_EXAMPLE}", FILE))
        return
    taken: dict[str, str] = {}
    for place, properties in enumerate(listed, 1):
        resource = _resource(folder, place, properties, faults)
        if resource is None:
            continue
        if resource.table in taken:
            text = f"Both {taken[resource.table]} and {resource.path} are listed for the table {resource.table}."
            faults.append(fault("double-file", f"{text} Put all rows into one file.", FILE))
            continue
        taken[resource.table] = resource.path
        yield resource


def _resource(folder: Path, place: int, properties: object, faults: list[Fault]) -> Resource | None:
    """Return resource number `place`, or None when it is no table of ours; `faults` says why."""
    if not isinstance(properties, dict):
        faults.append(fault("bad-descriptor", f"Resource {place} is no JSON object with a name and a path.", FILE))
        return None
    name, path = properties.get("name"), properties.get("path")
    if isinstance(path, list) and len(path) == 1:
        path = path[0]
    table = next((one for one in (_stem(name), _stem(path)) if one in SCHEMAS), None)
    if table is None:
        text = f"Resource {place}, {quoted(str(name or path))}, is no table of packs and is ignored. The tables are: "
        faults.append(fault("unknown-file", text + ", ".join(SCHEMAS) + ".", FILE))
        return None
    if not (isinstance(path, str) and path.strip()):
        text = f"Resource {place}, {table}, must have the path of one CSV file in the folder, such as {table}.csv."
        faults.append(fault("bad-descriptor", text, FILE))
        return Resource(table, f"{table}.csv", refused=True)
    if leads_out(folder, path):
        text = f"The path {quoted(path)} leads out of the pack's folder. Put the file into the folder and name it so."
        faults.append(fault("unsafe-path", text, FILE))
        return Resource(table, path, refused=True)
    faults += _number_types(properties.get("schema"), table)
    delimiter, quote = _dialect(properties.get("dialect"), table, faults)
    return Resource(table, path, delimiter, quote)


def _stem(name: object) -> str:
    """'data/year_starts.csv' -> 'year-starts': how a resource says which table it is."""
    last = name.replace("\\", "/").rsplit("/", 1)[-1] if isinstance(name, str) else ""
    return last.strip().lower().removesuffix(".csv").replace("_", "-")


def _number_types(schema: object, table: str) -> Iterator[Fault]:
    """Yield columns that the Table Schema calls numbers; ours are text, and other programs would drop their zeros."""
    fields = schema.get("fields") if isinstance(schema, dict) else None
    for field_ in fields if isinstance(fields, list) else ():
        name, type_ = (field_.get("name"), field_.get("type")) if isinstance(field_, dict) else (None, None)
        if name in SCHEMAS[table].columns and type_ in ("integer", "number"):
            text = (
                f"The column {quoted(str(name))} of {table} has the type {type_}, so other programs will drop leading "
            )
            yield fault("number-type", f'{text}zeros when they open the pack. Write "type": "string".', FILE)


def _dialect(dialect: object, table: str, faults: list[Fault]) -> tuple[str, str]:
    """Return the delimiter and the quote mark that a resource declares."""
    if dialect is None:
        return ",", '"'
    if not isinstance(dialect, dict):
        text = f'The dialect of {table} must be written out here, such as {{"delimiter": ";"}}.'
        faults.append(fault("bad-descriptor", text, FILE))
        return ",", '"'
    nested = dialect.get("csv")  # where frictionless 5 writes it
    declared = nested if isinstance(nested, dict) else dialect
    delimiter, quote = declared.get("delimiter", ","), declared.get("quoteChar", '"')
    if not (_is_mark(delimiter) and _is_mark(quote)) or delimiter == quote:
        text = f"In the dialect of {table}, delimiter and quoteChar must be two different single characters."
        faults.append(fault("bad-descriptor", text, FILE))
        return ",", '"'
    if declared.get("header", True) is not True:
        text = f"The dialect of {table} says that it has no head row. Add the names of the columns as its first row."
        faults.append(fault("bad-descriptor", text, FILE))
    return delimiter, quote


def _is_mark(mark: object) -> bool:
    return isinstance(mark, str) and len(mark) == 1 and mark not in "\r\n \0"


def _not_listed(folder: Path, listed: list[Resource], faults: list[Fault], tell: bool) -> list[Resource]:
    """Return the files of the usual names that lie in the folder and were forgotten in the list."""
    known = {resource.table for resource in listed}
    paths = {resource.path for resource in listed}
    forgotten = [table for table in SCHEMAS if table not in known and f"{table}.csv" not in paths]
    found = [Resource(table, f"{table}.csv") for table in forgotten if _lies_in(folder, f"{table}.csv")]
    for resource in found if tell else ():
        text = f"It is not listed in {FILE}. It was read all the same; add it to 'resources' there."
        faults.append(fault("unlisted-file", text, resource.path))
    return found


def _lies_in(folder: Path, path: str) -> bool:
    return (folder / path).is_file() and not leads_out(folder, path)


def _text(value: object) -> str:
    return value if isinstance(value, str) else "" if value is None else str(value)
