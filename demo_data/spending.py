"""Receipts: what each unit was built for, and what keeps all of them going."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from chance import Chance
from days import LAST, SHARERS

Known = dict[str, list[dict[str, str]]]
Row = tuple[Any, ...]
# unit, vat stand and beds [$], salvage [$], pump [$], filling [$] and what it is
BUILT = {
    "WREN": (640, 60, 84, 128, "Washed slate for the beds"),
    "ROOK": (585, 50, 78, 118, "Washed slate for the beds"),
    "TEAL": (572, 50, 78, 118, "Washed slate for the beds"),
    "PLOVER": (498, 40, 71, 22, "Gravel from the lane, carting"),
    "SISKIN": (603, 55, 88, 96, "Washed slate for the bed"),
    "DIPPER": (512, 50, 0, 0, ""),
}
LASTING = (
    (date(2024, 5, 2), "Glasshouse: our share of glass and putty", "1,450.00", "building", "the old nursery", 180, "0"),
    (date(2024, 5, 11), "Rain tank and gutter", "290.00", "building", "farm shop", 144, "30.00"),
    (date(2024, 6, 29), "Bench scale", "58.00", "tools", "hardware store", 60, "5.00"),
    (date(2024, 6, 29), "pH and temperature meters", "96.00", "tools", "hardware store", 36, "0"),
    (date(2025, 5, 31), "Ten crates", "44.00", "tools", "farm shop", 72, "8.00"),
)
FISH = (
    (date(2024, 7, 20), "90 perch fingerlings", "108.00", "WREN"),
    (date(2025, 5, 3), "80 perch fingerlings", "100.00", "ROOK"),
    (date(2025, 9, 3), "16 goldfish", "24.00", "PLOVER"),
    (date(2025, 10, 8), "52 trout", "130.00", "TEAL"),
    (date(2026, 10, 6), "38 trout", "98.80", "TEAL"),
)
FEED = (
    (date(2024, 7, 22), "Perch feed, 20 lb", "31.40", "WREN"),
    (date(2024, 10, 5), "Perch feed, 20 lb", "31.40", "WREN"),
    (date(2025, 4, 12), "Perch feed, 40 lb", "54.20", ""),
    (date(2025, 7, 19), "Perch feed, 40 lb", "54.20", ""),
    (date(2025, 9, 6), "Goldfish pellets, 5 lb", "14.90", "PLOVER"),
    (date(2025, 10, 9), "Trout feed, 20 lb", "33.40", "TEAL"),
)
RECEIPT_BOOKED_TWICE = (date(2026, 4, 17), "Sack of trout feed", "34.90", "TEAL")
SEED = (
    (date(2024, 7, 12), "Plants and seed, first lot", "26.50"),
    (date(2025, 2, 22), "Seed for the year", "34.80"),
    (date(2025, 4, 26), "Celery and chard plants", "19.50"),
    (date(2025, 8, 19), "Strawberry runners", "28.00"),
    (date(2026, 2, 21), "Seed for the year", "38.20"),
    (date(2026, 4, 25), "Celery plants", "16.00"),
)
INSURANCE = ((date(2024, 6, 1), "84.00"), (date(2025, 6, 1), "96.00"), (date(2026, 6, 1), "103.00"))
ODDS = (
    (date(2025, 11, 29), "Bubble wrap and tape for the pipes", "22.40", "supplies", ""),
    (date(2026, 6, 13), "Chelated iron, 1 lb", "18.75", "supplies", "PLOVER"),
    (date(2026, 7, 13), "Shade cloth and clips", "36.90", "supplies", "TEAL"),
    (date(2026, 7, 14), "Air stones, spare line", "11.60", "repairs", "TEAL"),
    (date(2026, 10, 11), "Sealant for drinking water, outlet gasket", "19.30", "repairs", "DIPPER"),
)
PAYEES = {
    "fish": "hatchery",
    "feed": "feed store",
    "seed and plants": "seed house",
    "supplies": "farm shop",
    "repairs": "hardware store",
}
POWER_A_UNIT = 3.35


def cost_rows(known: Known) -> list[Row]:
    """Every receipt by day; one of them twice."""
    starts = _starts(known)
    rows = _built(starts) + [_lasting(*entry) for entry in LASTING]
    rows += [_used(day, what, amount, "fish", unit) for day, what, amount, unit in FISH]
    rows += [_used(day, what, amount, "feed", unit) for day, what, amount, unit in FEED]
    rows += [_used(day, what, amount, "seed and plants", "") for day, what, amount in SEED]
    rows += [_used(*entry) for entry in ODDS]
    rows += [_used(day, "Insurance, a year", sum_, "insurance", "", "the insurer") for day, sum_ in INSURANCE]
    rows += _bills(known) + _stocks()
    day, what, amount, unit = RECEIPT_BOOKED_TWICE
    booked = sorted(rows, key=lambda row: (row[0], str(row[1]), str(row[5])))
    chance = Chance("who paid")
    signed = [(*row, SHARERS[1] if chance.happens(0.3) else SHARERS[0]) for row in booked]
    signed.append((*_used(day, what, amount, "feed", unit, "feed store"), SHARERS[1]))
    return sorted(signed, key=lambda row: row[0])


def _starts(known: Known) -> dict[str, date]:
    """The day the building of each unit began."""
    return {row["unit"]: date.fromisoformat(row["from"]) for row in known["unit_states"] if row["state"] == "building"}


def _built(starts: dict[str, date]) -> list[Row]:
    rows: list[Row] = []
    for unit, (vat, salvage, pump, filling, what) in BUILT.items():
        day = starts[unit]
        rows.append(
            _lasting(
                day, "Juice vat, stand, frame and wooden beds", f"{vat}.00", "building", "", 96, f"{salvage}.00", unit
            )
        )
        if pump:
            rows.append(_lasting(day + timedelta(days=6), "Pump", f"{pump}.00", "tools", "farm shop", 60, "0", unit))
            rows.append(
                _lasting(day + timedelta(days=6), "Air pump and stones", "41.00", "tools", "farm shop", 48, "0", unit)
            )
            rows.append(_lasting(day + timedelta(days=9), what, f"{filling}.00", "building", "quarry", 144, "0", unit))
    return rows


def _lasting(
    day: date, what: str, amount: str, category: str, payee: str, months: int, salvage: str, unit: str = ""
) -> Row:
    return day, what, amount, category, payee, unit, "capital", months, salvage, ""


def _used(day: date, what: str, amount: str, category: str, unit: str, payee: str = "") -> Row:
    return day, what, amount, category, payee or PAYEES[category], unit, "operating", "", "", ""


def _bills(known: Known) -> list[Row]:
    """Power every month by how many units turn, mains water every quarter."""
    chance, rows = Chance("bills"), []
    turning = [date.fromisoformat(row["from"]) for row in known["unit_states"] if row["state"] == "cycling"]
    for month in range(6, 34):
        day = date(2024 + month // 12, month % 12 + 1, 20)
        if day > LAST:
            break
        units = sum(start < day - timedelta(days=15) for start in turning)
        winter = 1.25 if day.month in (12, 1, 2, 3) else 1.0
        amount = units * POWER_A_UNIT * winter * chance.about(1.0, 0.12)
        rows.append(_used(day, f"Power, {day:%B}", f"{amount:.2f}", "power", "", "electric company"))
        if day.month in (3, 6, 9, 12):
            water = 9 + 2.6 * units * (1.4 if day.month == 9 else 1.0) * chance.about(1.0, 0.2)
            rows.append(_used(day, "Mains water, a quarter", f"{water:.2f}", "water", "", "water district"))
    return rows


def _stocks() -> list[Row]:
    """Pads, kits and neutraliser, every few months."""
    chance, rows = Chance("stocks"), []
    for name, every, amount in (
        ("Filter pads", 120, 12.8),
        ("Test kits", 190, 33.5),
        ("Chloramine neutraliser", 170, 16.9),
    ):
        day = date(2024, 6, 8)
        while day <= LAST:
            rows.append(_used(day, name, f"{chance.about(amount, 0.9):.2f}", "supplies", ""))
            day += timedelta(days=round(chance.about(every, 15)))
    return rows
