"""The whole farm as CSV files with a Frictionless Data Package descriptor, out and in again, and as one workbook."""

from __future__ import annotations

import csv
import hashlib
import json
import os
from collections.abc import Iterator, Mapping
from datetime import date, datetime
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from sqlalchemy import Table

from farmops import __version__, clock
from farmops.exchange import files_along, kept_files
from farmops.exchange.files import offered_place, place_named, write_file
from farmops.exchange.stored_cells import cell, value_of
from farmops.facts import farm as farm_facts
from farmops.facts.kept_files import kept_files as files_named
from farmops.farm.packages import lay_farm
from farmops.model.errors import NotFound, Refused
from farmops.model.frozen import dataclass
from farmops.model.text import plain
from farmops.records.location import is_url
from farmops.records.reading import Reader
from farmops.records.store import Store
from farmops.records.version import CURRENT
from farmops.records.whole import TABLES, kinds, rows

DESCRIPTOR = "datapackage.json"
PROFILE = "https://datapackage.org/profiles/2.0/datapackage.json"
FILES = "files"
ENDING = ".xlsx"
LARGEST_DESCRIPTOR = 10_000_000
LARGEST_CELL = 1 << 29
"""Signs of a cell: the journal has the rows of a whole file that was taken in in one."""
MOST_GIVEN = 1 << 62
TYPES = (
    (bool, "boolean"),
    (int, "integer"),
    (float, "number"),
    (datetime, "datetime"),
    (date, "date"),
    (str, "string"),
)


@dataclass(frozen=True, slots=True)
class Exported:
    """What went out, and to where: tables, rows, and photos and receipts that went along or are missing."""

    place: Path
    tables: int
    rows: int
    files: int
    lacking: tuple[str, ...] = ()

    @property
    def words(self) -> str:
        """What went out, in a sentence."""
        missing = f" Photos or receipts missing: {len(self.lacking)}." if self.lacking else ""
        along = f", photos and receipts: {self.files}," if self.files else ""
        return f"{self.rows} rows of {self.tables} tables{along} in {self.place}.{missing}"


def export(store: Store, place: str) -> Exported:
    """Write the farm as it is now, whole or not at all, for its owner alone: a workbook where the name ends in .xlsx,
    else a folder.

    Raises NoFarm; NotFound where there is no folder to put it in; Refused where something is there already or the disk
    does not take it.
    """
    target = place_named(place)
    if target.exists():
        raise Refused(f"{plain(str(target))} is there already. Name a place where nothing is.")
    if not target.absolute().parent.is_dir():
        raise NotFound(f"There is no folder {plain(str(target.parent))}. Make it first, or name another.")
    with store.reading() as reader:
        farm_facts.farm(reader)
        try:
            return _written(store, reader, target)
        except OSError as error:
            raise Refused(f"{plain(str(target))} cannot be written: {error.strerror or error}.") from error


def _written(store: Store, reader: Reader, target: Path) -> Exported:
    if target.suffix.lower() == ENDING:
        from farmops.exchange.workbooks import write_workbook

        return Exported(target, *write_workbook(reader, target), 0)
    with TemporaryDirectory(prefix=".farmops-export-", dir=target.absolute().parent) as folder:
        made = Path(folder) / "package"
        made.mkdir(mode=0o700)
        found = _write(store, reader, made)
        os.rename(made, target)
    return Exported(target, *found)


def offered(store: Store) -> str:
    """Where an export goes unless told otherwise: beside a file, named by the instant; among a person's documents."""
    name = f"farm-{clock.now():%Y%m%dT%H%M%SZ}-files"
    return offered_place(name) if is_url(store.place) else str(Path(store.place).with_name(name))


def _write(store: Store, reader: Reader, folder: Path) -> tuple[int, int, int, tuple[str, ...]]:
    resources = [_write_table(reader, table, folder) for table in TABLES.values()]
    named = files_named(reader)
    copied = files_along.copy_all(kept_files.folder_of(store), folder / FILES, named)
    write_file(str(folder / DESCRIPTOR), json.dumps(_descriptor(reader, resources), indent=1).encode())
    return len(resources), sum(one["rows"] for one in resources), copied, files_along.missing(folder / FILES, named)


def _write_table(reader: Reader, table: Table, folder: Path) -> dict[str, Any]:
    path, count = folder / f"{table.name}.csv", 0
    with open(path, "x", encoding="utf-8", newline="", opener=_private) as file:
        writer = csv.writer(file)
        writer.writerow(kinds(table))
        for row in rows(reader, table):
            writer.writerow([cell(value) for value in row.values()])
            count += 1
    with path.open("rb") as written:
        digest = hashlib.file_digest(written, "sha256").hexdigest()
    return {
        "name": table.name.replace("_", "-"),
        "path": path.name,
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "bytes": path.stat().st_size,
        "hash": f"sha256:{digest}",
        "rows": count,
        "schema": _schema(table),
    }


def _private(name: str, flags: int) -> int:
    return os.open(name, flags, 0o600)


def _schema(table: Table) -> dict[str, Any]:
    keys = [
        {
            "fields": [one.parent.name],
            "reference": {"resource": one.column.table.name.replace("_", "-"), "fields": ["id"]},
        }
        for one in sorted(table.foreign_keys, key=lambda one: str(one.parent.name))
    ]
    fields = [
        {
            "name": column.name,
            "type": _type_of(column.type.python_type),
            "constraints": {"required": not column.nullable},
        }
        for column in table.columns
    ]
    return {
        "fields": fields,
        "primaryKey": [*table.primary_key.columns.keys()],
        "foreignKeys": keys,
        "missingValues": [""],
    }


def _type_of(kind: type[Any]) -> str:
    return next(word for known, word in TYPES if issubclass(kind, known))


def _descriptor(reader: Reader, resources: list[dict[str, Any]]) -> dict[str, Any]:
    return {
        "$schema": PROFILE,
        "name": "farm",
        "title": farm_facts.farm(reader).name,
        "description": "Every table of a farm. A text that begins like a formula has an apostrophe before it.",
        "created": clock.now().isoformat(timespec="seconds"),
        "farmops": {
            "version": __version__,
            "schema": CURRENT,
            "numbers_given": reader.dialect.numbers_given(reader, [name for name in TABLES if name != "journal"]),
        },
        "resources": resources,
    }


def take_in(store: Store, place: str) -> int:
    """Lay the farm of a package in a store that holds none, row by row, its journal and photos included; of a workbook
    all but its photos.

    Returns how many rows. Raises NotFound where there is no package, and Refused where it is of another schema, was
    altered, or the store holds a farm; then nothing is laid.
    """
    folder = place_named(place)
    if folder.suffix.lower() == ENDING and folder.is_file():
        return _take_in_workbook(store, folder)
    folder = folder.parent if folder.name == DESCRIPTOR else folder
    told = _read_descriptor(folder)
    ours = told.get("farmops")
    if not isinstance(ours, dict) or not isinstance(ours.get("numbers_given"), dict):
        raise Refused(f"Not taken in: {plain(str(folder))} is a package, but not of a whole farm.")
    _refuse_other_schema("package", str(ours.get("schema")))
    _refuse_altered(folder, told)
    given = {name: number for name, number in ours["numbers_given"].items() if name in TABLES}
    if not all(isinstance(number, int) and 0 <= number < MOST_GIVEN for number in given.values()):
        raise Refused(f"Not taken in: {DESCRIPTOR} names numbers that no records have. Export the farm again.")
    count = lay_farm(store, {name: _read_table(folder, table) for name, table in TABLES.items()}, given)
    with store.reading() as reader:
        files_along.copy_all(folder / FILES, kept_files.folder_of(store), files_named(reader))
    return count


def _take_in_workbook(store: Store, file: Path) -> int:
    """Rows and journal of a workbook; what it says must agree with its journal, and photos do not come along."""
    from farmops.exchange.workbooks import TakenApart

    found = TakenApart(file)
    _refuse_other_schema("workbook", found.schema)
    return lay_farm(store, found.tables(), found.given)


def _refuse_other_schema(what: str, schema: str) -> None:
    if schema != CURRENT:
        raise Refused(
            f"Not taken in: the {what} has schema {plain(schema)}, this program {CURRENT}. "
            "Take it in with the farmops that made it; its store is upgraded when it is next opened."
        )


def _read_descriptor(folder: Path) -> dict[str, Any]:
    path = folder / DESCRIPTOR
    if not path.is_file():
        raise NotFound(f"There is no {DESCRIPTOR} in {plain(str(folder))}. Name the folder that farmops export made.")
    try:
        if path.stat().st_size > LARGEST_DESCRIPTOR:
            raise ValueError("too large")
        told = json.loads(path.read_bytes())
    except (OSError, ValueError, RecursionError) as error:
        raise Refused(f"Not taken in: {plain(str(path))} cannot be read.") from error
    return told if isinstance(told, dict) else {}


def _refuse_altered(folder: Path, told: Mapping[str, Any]) -> None:
    resources = told.get("resources")
    listed = [one for one in resources if isinstance(one, dict)] if isinstance(resources, list) else []
    hashes = {str(one.get("path")): one.get("hash") for one in listed}
    for name in TABLES:
        path = folder / f"{name}.csv"
        if not path.is_file() or path.name not in hashes:
            raise Refused(f"Not taken in: {path.name} is missing from the package.")
        if hashes[path.name] != f"sha256:{_sum_of(path)}":
            raise Refused(f"Not taken in: {path.name} was altered after it was written.")


def _sum_of(path: Path) -> str:
    try:
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except OSError as error:
        raise Refused(f"Not taken in: {plain(str(path))} cannot be read: {error.strerror}.") from None


def _read_table(folder: Path, table: Table) -> Iterator[dict[str, Any]]:
    columns, path = kinds(table), folder / f"{table.name}.csv"
    before = csv.field_size_limit(LARGEST_CELL)
    try:
        with path.open(encoding="utf-8", newline="") as file:
            reader = csv.reader(iter(partial(file.readline, LARGEST_CELL), ""), strict=True)
            if next(reader, None) != [*columns]:
                raise Refused(f"Not taken in: {path.name} has other columns than this program knows.")
            for row in reader:
                cells = zip(columns.items(), row, strict=True)
                yield {name: value_of(kind, text) for (name, kind), text in cells}
    except (ValueError, csv.Error, OSError) as error:
        raise Refused(f"Not taken in: {path.name} cannot be read near line {reader.line_num}.") from error
    finally:
        csv.field_size_limit(before)
