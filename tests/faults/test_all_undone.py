"""All that was ever booked on the invented farm is taken back, one by one, to the empty farm, and done again."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from sqlalchemy import event

from farmops.facts import journal
from farmops.farm.undo import redo, undo
from farmops.model.journal import Which
from farmops.records.store import Store
from farmops.reports.soundness import look_through
from tests.farmhand import everything_stored
from tests.profiles import PROFILE, count

TAKEN_BACK = count(ci=25, full=100_000)


@pytest.fixture
def quillet(demo_place: str) -> Iterator[Store]:
    """A copy of the invented farm that need not outlive a power cut."""
    store = Store(demo_place)
    event.listen(store.engine, "connect", lambda connection, _: connection.execute("PRAGMA synchronous = OFF"))
    yield store
    store.close()


def booked(store: Store) -> list[tuple[str, str]]:
    """Every operation but the one that opened the farm, the latest first: its id and who booked it."""
    with store.reading() as reader:
        return [(line.operation, line.by) for line in journal.lines(reader)][:-1]


def test_what_was_booked_is_taken_back_to_the_empty_farm_and_done_again(quillet: Store) -> None:
    before, taken = everything_stored(quillet), booked(quillet)[:TAKEN_BACK]
    for operation, by in taken:
        undo(quillet, Which(operation), by=by)
    emptied = everything_stored(quillet)
    if PROFILE == "full":
        assert {table for table, rows in emptied.items() if rows} == {"farm"}
    else:
        assert emptied != before
    for operation, by in reversed(taken):
        redo(quillet, Which(operation), by=by)
    assert everything_stored(quillet) == before
    assert [one for one in look_through(quillet).findings if one.part.value not in ("entries", "files")] == []
