"""The hash chain of the journal: how an entry is sealed and how a chain is proved unbroken."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from datetime import UTC, datetime
from typing import Any

FIRST_HASH = "0" * 64


def canonical(value: Any) -> str:
    """JSON with one spelling: sorted keys, no blanks, no escapes beyond the needed ones."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)


def seal(entry: Mapping[str, Any]) -> str:
    """SHA-256 over the canonical JSON of an entry with its `previous` hash and without its own."""
    sealed = {key: _plain(value) for key, value in entry.items() if key != "hash"}
    return hashlib.sha256(canonical(sealed).encode()).hexdigest()


def _plain(value: Any) -> Any:
    return value.astimezone(UTC).isoformat(timespec="microseconds") if isinstance(value, datetime) else value


def breaks(entries: Iterable[Mapping[str, Any]]) -> list[str]:
    """What is wrong with a chain given in order, in words; empty when it is whole."""
    found = []
    previous, seq = FIRST_HASH, 0
    for entry in entries:
        if entry["seq"] != seq + 1:
            found.append(f"entry {entry['seq']} follows entry {seq}")
        if entry["previous"] != previous:
            found.append(f"entry {entry['seq']} does not continue the entry before it")
        if seal(entry) != entry["hash"]:
            found.append(f"entry {entry['seq']} was altered after it was written")
        previous, seq = entry["hash"], entry["seq"]
    return found
