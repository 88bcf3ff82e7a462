"""What happened to fish lots: samples, losses, transfers, feedings, and the order in which their number changed."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import replace
from datetime import date

from farmops.model.fish_events import Feeding, FishEvent, Happened, Loss, Sample, Transfer
from farmops.records.reading import Reader, day

SAMPLES = """
    SELECT sample_weighing.id, sample_weighing.day, sample_weighing.fish_lot_id AS lot_id, fish_lot.code AS lot,
        sample_weighing.number, sample_weighing.mass_mg, sample_weighing.mass_typed, sample_weighing.note
    FROM sample_weighing JOIN fish_lot ON fish_lot.id = sample_weighing.fish_lot_id
"""
LOSSES = """
    SELECT loss.id, loss.day, loss.fish_lot_id AS lot_id, fish_lot.code AS lot, loss.number, loss.cause, loss.disposal,
        loss.mass_mg, loss.mass_typed, loss.note
    FROM loss JOIN fish_lot ON fish_lot.id = loss.fish_lot_id
"""
TRANSFERS = """
    SELECT transfer.id, transfer.day, transfer.from_lot_id, gone.code AS from_lot, transfer.to_lot_id,
        come.code AS to_lot, transfer.number, transfer.mean_mg, transfer.mean_typed, transfer.note
    FROM transfer
    JOIN fish_lot AS gone ON gone.id = transfer.from_lot_id
    JOIN fish_lot AS come ON come.id = transfer.to_lot_id
"""
FEEDINGS = """
    SELECT feeding.id, feeding.day, feeding.fish_lot_id AS lot_id, fish_lot.code AS lot, feeding.mass_mg,
        feeding.mass_typed, feeding.ate, feeding.supply_use_id, feeding.settlement_id, feeding.note
    FROM feeding JOIN fish_lot ON fish_lot.id = feeding.fish_lot_id
"""
EVENTS = f"""
    SELECT id AS lot_id, stocked_day AS day, '{Happened.STOCKED}' AS kind, id, number,
        number * mean_mg AS mass_mg, CAST(NULL AS BIGINT) AS other_id
    FROM fish_lot WHERE id IN (:lots)
    UNION ALL
    SELECT fish_lot_id, day, '{Happened.SAMPLED}', id, number, mass_mg, NULL
    FROM sample_weighing WHERE fish_lot_id IN (:lots)
    UNION ALL
    SELECT from_lot_id, day, '{Happened.MOVED_OUT}', id, number, number * mean_mg, to_lot_id
    FROM transfer WHERE from_lot_id IN (:lots)
    UNION ALL
    SELECT fish_lot_id, day, '{Happened.DIED}', id, number, mass_mg, NULL FROM loss WHERE fish_lot_id IN (:lots)
    UNION ALL
    SELECT fish_lot_id, day, '{Happened.HARVESTED}', id, number, mass_mg, NULL
    FROM harvest WHERE fish_lot_id IN (:lots)
"""
SPAN = """
    SELECT MIN(day) AS first, MAX(day) AS last FROM (
        SELECT day FROM sample_weighing WHERE fish_lot_id = :lot
        UNION ALL SELECT day FROM loss WHERE fish_lot_id = :lot
        UNION ALL SELECT day FROM feeding WHERE fish_lot_id = :lot
        UNION ALL SELECT day FROM transfer WHERE from_lot_id = :lot
        UNION ALL SELECT day FROM transfer WHERE to_lot_id = :lot
        UNION ALL SELECT day FROM treatment WHERE fish_lot_id = :lot
    ) AS booked
"""
DIED_IN_UNIT = """
    SELECT CAST(COALESCE(SUM(loss.number), 0) AS BIGINT)
    FROM loss
    JOIN lot_place ON lot_place.fish_lot_id = loss.fish_lot_id AND lot_place.from_day = (
        SELECT MAX(held.from_day) FROM lot_place AS held
        WHERE held.fish_lot_id = loss.fish_lot_id AND held.from_day <= loss.day
    )
    WHERE loss.day = :on_day AND loss.cause <> 'culled' AND lot_place.unit_id = :unit
"""


def samples(reader: Reader, lot: int) -> list[Sample]:
    """The sample weighings of a lot, the oldest first, with what each fish weighed where that is known."""
    found = reader.all(
        Sample,
        f"{SAMPLES} WHERE sample_weighing.fish_lot_id = :lot ORDER BY sample_weighing.day, sample_weighing.id",
        lot=lot,
    )
    each = weighed_singly(reader, [lot])
    return [replace(one, each_mg=each.get(one.id, ())) for one in found]


def sample(reader: Reader, id: int) -> Sample | None:
    """The sample weighing of that number."""
    found = reader.one(Sample, f"{SAMPLES} WHERE sample_weighing.id = :id", id=id)
    return found and replace(found, each_mg=weighed_singly(reader, [found.lot_id]).get(id, ()))


def weighed_singly(reader: Reader, lots: Collection[int]) -> dict[int, tuple[int, ...]]:
    """For each sample of some lots that were weighed one by one, what each fish weighed [mg]."""
    query = f"""
        SELECT sample_fish.sample_weighing_id AS sample_id, sample_fish.mass_mg
        FROM sample_fish JOIN sample_weighing ON sample_weighing.id = sample_fish.sample_weighing_id
        WHERE sample_weighing.fish_lot_id IN ({_listed(lots)}) ORDER BY sample_fish.id
    """
    found: dict[int, tuple[int, ...]] = {}
    for row in reader.rows(query):
        found[row["sample_id"]] = (*found.get(row["sample_id"], ()), row["mass_mg"])
    return found


def losses(reader: Reader, lot: int) -> list[Loss]:
    """The losses of a lot, the oldest first."""
    return reader.all(Loss, f"{LOSSES} WHERE loss.fish_lot_id = :lot ORDER BY loss.day, loss.id", lot=lot)


def loss(reader: Reader, id: int) -> Loss | None:
    """The loss of that number."""
    return reader.one(Loss, f"{LOSSES} WHERE loss.id = :id", id=id)


def transfers(reader: Reader, lot: int) -> list[Transfer]:
    """The transfers out of a lot and into it, the oldest first."""
    where = "WHERE transfer.from_lot_id = :lot OR transfer.to_lot_id = :lot ORDER BY transfer.day, transfer.id"
    return reader.all(Transfer, f"{TRANSFERS} {where}", lot=lot)


def transfer(reader: Reader, id: int) -> Transfer | None:
    """The transfer of that number."""
    return reader.one(Transfer, f"{TRANSFERS} WHERE transfer.id = :id", id=id)


def feedings(reader: Reader, lot: int) -> list[Feeding]:
    """The feedings of a lot, the oldest first."""
    return reader.all(Feeding, f"{FEEDINGS} WHERE feeding.fish_lot_id = :lot ORDER BY feeding.day, feeding.id", lot=lot)


def fed_with(reader: Reader, settlements: Iterable[int]) -> list[Feeding]:
    """What was fed when chores were done, by the ids of their settlements, in the order it was booked."""
    where = f"WHERE feeding.settlement_id IN ({_listed(settlements)}) ORDER BY feeding.id"
    return reader.all(Feeding, f"{FEEDINGS} {where}")


def feeding(reader: Reader, id: int) -> Feeding | None:
    """The feeding of that number."""
    return reader.one(Feeding, f"{FEEDINGS} WHERE feeding.id = :id", id=id)


def span_of_events(reader: Reader, lot: int) -> tuple[date, date] | None:
    """The days of the first and the last sample, loss, transfer, feeding or treatment of a lot."""
    row = next(iter(reader.rows(SPAN, lot=lot)))
    return (day(row["first"]), day(row["last"])) if row["first"] else None


def died_in_unit(reader: Reader, unit: int, on: date) -> int:
    """How many fish died in a unit on a day, those that were culled left out."""
    return int(reader.value(DIED_IN_UNIT, unit=unit, on_day=on))


def kin(reader: Reader, lots: Iterable[int]) -> set[int]:
    """The lots that are joined to some lots by transfers, themselves included."""
    found, pairs = (
        set(lots),
        [(r["a"], r["b"]) for r in reader.rows("SELECT from_lot_id AS a, to_lot_id AS b FROM transfer")],
    )
    grown = True
    while grown:
        more = {end for pair in pairs if not found.isdisjoint(pair) for end in pair} - found
        found |= more
        grown = bool(more)
    return found


def events(reader: Reader, lots: Collection[int]) -> list[FishEvent]:
    """All that changed the number of some lots or what is known of their weight, in no order.

    A transfer stands once, at the lot the fish came out of.
    """
    return reader.all(FishEvent, EVENTS.replace(":lots", _listed(lots)))


def _listed(ids: Iterable[int]) -> str:
    return ", ".join(str(int(id)) for id in sorted(set(ids))) or "NULL"
