"""Rows about fish: feedings, sample weighings and losses."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Any

from farmops.facts import fish_events as event_facts
from farmops.farm.file_rows.booking import Booking, Mark, by
from farmops.farm.fish_events import record_feeding, record_loss, weigh_sample
from farmops.records.reading import Reader


def _of_lots(
    read: Callable[[Reader, int], Iterable[Any]], mark: Callable[[Any], Mark]
) -> Callable[[Reader, Sequence[Any]], list[Mark]]:
    return lambda reader, entries: [
        mark(one) for lot in sorted({entry.lot_id for entry in entries}) for one in read(reader, lot)
    ]


BOOKINGS: dict[str, Booking[Any]] = {
    "feedings": Booking(
        lambda one: (one.lot_id, one.day, one.mass.exact, one.ate),
        _of_lots(event_facts.feedings, lambda one: (one.lot_id, one.day, one.mass_mg, one.ate)),
        by(record_feeding.body),
        one_by_one=True,
    ),
    "samples": Booking(
        lambda one: (one.lot_id, one.day, one.number, one.mass and one.mass.exact),
        _of_lots(event_facts.samples, lambda one: (one.lot_id, one.day, one.number, one.mass_mg)),
        by(weigh_sample.body),
        one_by_one=True,
    ),
    "losses": Booking(
        lambda one: (one.lot_id, one.day, one.number, one.cause),
        _of_lots(event_facts.losses, lambda one: (one.lot_id, one.day, one.number, one.cause)),
        by(record_loss.body),
        one_by_one=True,
    ),
}
