"""Fish lots, the units they live in, and how many are left."""

from __future__ import annotations

from datetime import date, timedelta

from farmops.model.fish import FishLot
from farmops.records.reading import Reader, day

LOTS = """
    SELECT fish_lot.id, fish_lot.code, fish_lot.species, fish_lot.library_key, fish_lot.stocked_day, fish_lot.number,
        fish_lot.mean_mg, fish_lot.mean_typed, fish_lot.closed_day, fish_lot.note, unit.id AS unit_id, unit.code AS unit
    FROM fish_lot
    JOIN lot_place ON lot_place.fish_lot_id = fish_lot.id AND lot_place.from_day = (
        SELECT MAX(latest.from_day) FROM lot_place AS latest WHERE latest.fish_lot_id = fish_lot.id
    )
    JOIN unit ON unit.id = lot_place.unit_id
"""
PLACES = """
    SELECT lot_place.fish_lot_id, lot_place.unit_id, lot_place.from_day, fish_lot.closed_day
    FROM lot_place JOIN fish_lot ON fish_lot.id = lot_place.fish_lot_id
    ORDER BY lot_place.fish_lot_id, lot_place.from_day
"""
Span = tuple[date, date | None]


def lots(reader: Reader) -> list[FishLot]:
    """Every lot with the unit it lives or last lived in, in walking order."""
    return reader.all(FishLot, f"{LOTS} ORDER BY unit.position, unit.id, fish_lot.stocked_day, fish_lot.id")


def lot(reader: Reader, id: int) -> FishLot | None:
    """The lot of that id."""
    return reader.one(FishLot, f"{LOTS} WHERE fish_lot.id = :id", id=id)


def lot_called(reader: Reader, code: str) -> FishLot | None:
    """The lot of that code, in any letter case."""
    return reader.one(FishLot, f"{LOTS} WHERE fish_lot.code = :code", code=code.strip().upper())


def fish_spans(reader: Reader) -> dict[int, list[Span]]:
    """For each unit the spans of days, both ends included, in which live fish were or are there; None is open."""
    places = [(r["fish_lot_id"], r["unit_id"], day(r["from_day"]), r["closed_day"]) for r in reader.rows(PLACES)]
    found: dict[int, list[Span]] = {}
    for here, after in zip(places, [*places[1:], None], strict=False):
        lot_id, unit_id, start, closed = here
        moved = after[2] - timedelta(days=1) if after and after[0] == lot_id else None
        found.setdefault(unit_id, []).append((start, moved or (day(closed) if closed else None)))
    return found
