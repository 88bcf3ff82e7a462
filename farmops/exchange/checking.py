"""The whole look through a farm: its store, and the photos and receipts that lie beside it."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from farmops.exchange import files_along, kept_files
from farmops.facts.kept_files import kept_files as files_named
from farmops.model.soundness import Finding, Looked, Part
from farmops.records.location import is_url
from farmops.records.store import Store
from farmops.reports.soundness import look_through

OTHERS = stat.S_IRWXG | stat.S_IRWXO


def check(store: Store, *, only_damage: bool = False) -> Looked:
    """Look through the store and the files beside it; changes nothing. Raises NoFarm.

    With `only_damage`, entries that are whole and merely look unlikely are left out.
    """
    found = look_through(store)
    if only_damage:
        parts = tuple(part for part in found.parts if part is not Part.ENTRIES)
        found = replace(found, parts=parts, findings=tuple(one for one in found.findings if one.part in parts))
    if any(one.part is Part.PAGES for one in found.findings):
        return found
    files = tuple(_of_files(store))
    return replace(found, parts=(*found.parts, Part.FILES), findings=(*found.findings, *files))


def _of_files(store: Store) -> Iterator[Finding]:
    with store.reading() as reader:
        named = files_named(reader)
    folder = kept_files.folder_of(store)
    for file in files_along.missing(folder, named):
        yield Finding(Part.FILES, f"{file} is named by a record and not in {folder}. A backup elsewhere may have it.")
    for file in files_along.altered(folder, named):
        yield Finding(Part.FILES, f"{file} in {folder} is not what it was when it was taken.")
    if not is_url(store.place) and os.name == "posix" and Path(store.place).stat().st_mode & OTHERS:
        yield Finding(Part.FILES, f"Others on this machine can read {store.place}. Shut them out: chmod 600 FILE")
