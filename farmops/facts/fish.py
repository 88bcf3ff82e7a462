"""Fish lots, the units they live in, and how many are left."""

from __future__ import annotations

from datetime import date, timedelta

from farmops.model.fish import FishLot
from farmops.model.frozen import dataclass
from farmops.records.reading import Reader, day

LOTS = """
    SELECT fish_lot.id, fish_lot.code, fish_lot.species, fish_lot.library_key, fish_lot.stocked_day, fish_lot.number,
        fish_lot.mean_mg, fish_lot.mean_typed, fish_lot.closed_day, fish_lot.note, unit.id AS unit_id,
        unit.code AS unit, fish_lot.source, fish_lot.paper_id, paper.name AS paper
    FROM fish_lot
    JOIN lot_place ON lot_place.fish_lot_id = fish_lot.id AND lot_place.from_day = (
        SELECT MAX(latest.from_day) FROM lot_place AS latest WHERE latest.fish_lot_id = fish_lot.id
    )
    JOIN unit ON unit.id = lot_place.unit_id
    LEFT JOIN paper ON paper.id = fish_lot.paper_id
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


def unit_on(reader: Reader, lot: int, on: date) -> int | None:
    """The unit a lot lives in on a day; None before it was stocked."""
    places = "SELECT unit_id FROM lot_place WHERE fish_lot_id = :lot AND from_day <= :on_day"
    query = f"{places} ORDER BY from_day DESC LIMIT 1"
    found = reader.value(query, lot=lot, on_day=on)
    return None if found is None else int(found)


@dataclass(frozen=True, slots=True)
class Stay:
    """A lot in a unit, both days included; None: it is still there."""

    lot_id: int
    unit_id: int
    first: date
    last: date | None


def stays(reader: Reader) -> list[Stay]:
    """Where every lot lived, lot by lot, first to last."""
    places = [(r["fish_lot_id"], r["unit_id"], day(r["from_day"]), r["closed_day"]) for r in reader.rows(PLACES)]
    found = []
    for here, after in zip(places, [*places[1:], None], strict=False):
        lot_id, unit_id, start, closed = here
        moved = after[2] - timedelta(days=1) if after and after[0] == lot_id else None
        found.append(Stay(lot_id, unit_id, start, moved or (day(closed) if closed else None)))
    return found


def fish_spans(reader: Reader) -> dict[int, list[Span]]:
    """For each unit the spans of days, both ends included, in which live fish were or are there; None is open."""
    found: dict[int, list[Span]] = {}
    for stay in stays(reader):
        found.setdefault(stay.unit_id, []).append((stay.first, stay.last))
    return found
