"""Laying a whole farm in a store that holds none, row by row as it was, its journal included."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from farmops.facts import soundness
from farmops.model.errors import Refused
from farmops.model.ids import new_id
from farmops.records.store import Store
from farmops.records.whole import lay

Tables = Mapping[str, Iterable[Mapping[str, Any]]]


def lay_farm(store: Store, tables: Tables, given: Mapping[str, int]) -> int:
    """Write every row, or none; what is not whole afterwards is not laid. Returns how many rows.

    No operation of its own: the journal that comes along tells all. Raises Refused when the store holds a farm, or
    the rows do not agree with each other or with their journal.
    """
    if not store.has_schema():
        store.create()
    with store.writing(new_id()) as transaction:
        if transaction.reader.value("SELECT COUNT(*) FROM farm"):
            raise Refused("Not taken in: there is a farm in this store already. Name another place with --farm.")
        count = lay(transaction, tables, given)
        if not transaction.reader.value("SELECT COUNT(*) FROM farm"):
            raise Refused("Not taken in: there is no farm in the package.")
        found = soundness.damage(transaction.reader)
        if found:
            raise Refused(f"Not taken in: the package is not whole. {found[0].words}")
    return count
