"""One valid row of every table, and how to write rows without the rules of the floors above."""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import Any

from farmops.model.ids import new_id
from farmops.records.base import Row
from farmops.records.store import Store
from farmops.records.tables import BY_TABLE

DAY = date(2026, 5, 3)
AT = datetime(2026, 5, 3, 16, 0, tzinfo=UTC)
VALID: dict[str, dict[str, Any]] = {
    "farm": {
        "id": 1,
        "name": "Hollow Lane Holding",
        "mass": "lb_oz",
        "volume": "gal",
        "area": "sq_ft",
        "length": "ft",
        "temperature": "F",
        "currency": "USD",
        "decimal_comma": False,
        "time_zone": "America/New_York",
        "opened_day": DAY,
    },
    "person": {"name": "Ada"},
    "unit": {"code": "WREN", "kind": "coupled", "position": 1, "tank_ml": 700_000, "tank_typed": "700 L"},
    "unit_state": {"unit_id": 1, "state": "running", "from_day": DAY},
    "bed": {"unit_id": 1, "name": "N", "kind": "media", "depth_um": 300_000, "depth_typed": "30 cm"},
    "bed_size": {"bed_id": 1, "from_day": DAY, "area_mm2": 1_100_000, "area_typed": "1.1 m2"},
    "crop": {"name": "chard"},
    "planting": {
        "bed_id": 1,
        "crop_id": 1,
        "started_day": DAY,
        "started_by": "sowing",
        "cleared_day": DAY,
        "plants": 12,
        "area_mm2": 500_000,
        "area_typed": "0.5 m2",
    },
    "fish_lot": {
        "code": "PERCH-26",
        "species": "yellow perch",
        "stocked_day": DAY,
        "closed_day": DAY,
        "number": 40,
        "mean_mg": 20_000,
        "mean_typed": "20 g",
    },
    "lot_place": {"fish_lot_id": 1, "unit_id": 1, "from_day": DAY},
    "harvest": {
        "day": DAY,
        "planting_id": 1,
        "mass_mg": 623_690,
        "mass_typed": "1 6",
        "tare_mg": 0,
        "number": 3,
        "use": "home",
        "fingerprint": "a",
    },
    "recurring_cost": {
        "what": "insurance",
        "category": "insurance",
        "amount_minor": 4_000,
        "amount_typed": "40",
        "rule_text": "FREQ=MONTHLY",
        "rule_words": "every month on the 3rd",
        "start_day": DAY,
        "until_day": DAY,
    },
    "cost": {
        "day": DAY,
        "what": "tank",
        "category": "building",
        "amount_minor": 64_000,
        "amount_typed": "640",
        "kind": "capital",
        "life_months": 96,
        "salvage_minor": 0,
    },
    "price": {"crop_id": 1, "from_day": DAY, "price_minor": 300, "per_mg": 453_592, "typed": "3/lb"},
    "chore": {
        "title": "look at the flow",
        "unit_id": 1,
        "grade": "life support",
        "rule_kind": "calendar",
        "rule_text": "FREQ=DAILY",
        "rule_words": "every day",
        "start_day": DAY,
        "part": "morning",
        "minutes": 2,
        "adults_only": False,
        "with_fish": True,
    },
    "settlement": {"chore_id": 1, "occurrence": DAY, "kind": "done", "on_day": DAY, "minutes": 2, "actor": "Ada"},
    "chore_pause": {"chore_id": 1, "from_day": DAY, "until_day": DAY},
    "chore_template": {
        "key": "feed",
        "version": 2,
        "title": "Feed",
        "applies_to": "unit",
        "occasion": "state",
        "kinds": "coupled",
        "states": "running",
        "grade": "fish care",
        "rule": "day",
        "part": "morning",
        "minutes": 2,
        "adults_only": False,
        "with_fish": True,
        "dropped": False,
    },
    "reading": {
        "day": DAY,
        "minute": 450,
        "unit_id": 1,
        "measure": "ammonia",
        "value": 0.25,
        "form": "as N",
        "typed": "0.25",
        "settlement_id": 1,
    },
    "usage": {"day": DAY, "unit_id": 1, "counter": "pump hours", "amount": 10_080, "typed": "168"},
    "forecast": {"day": DAY, "low_c": -1.5, "low_typed": "-1.5", "high_c": 9.0, "high_typed": "9"},
    "note": {"day": DAY, "unit_id": 1, "text": "smaller pump", "changed": "pump"},
    "contact": {"name": "Dr Reed", "calls_for": "vet", "phone": "555 0100"},
    "presence": {"day": DAY, "person_id": 1},
    "absence": {"person_id": 1, "from_day": DAY, "until_day": DAY},
    "incident": {"kind": "power cut", "began_at": AT, "ended_at": AT},
    "incident_step": {"incident_id": 1, "unit_id": 1, "step": "air", "at": AT, "actor": "Ada"},
    "driver": {"category": "power", "from_day": DAY, "driver": "pump watt-hours"},
    "driver_share": {"driver_id": 1, "unit_id": 1, "parts": 2},
    "joint_split": {"from_day": DAY, "method": "fixed shares", "produce_thousandths": 700},
    "labour_rate": {"from_day": DAY, "person_id": 1, "rate_minor": 1_500, "typed": "15"},
    "cost_label": {"label_set": "schedule F", "label": "Feed", "category": "feed", "position": 16},
    "sale": {"day": DAY, "buyer": "the gate"},
    "sale_line": {
        "sale_id": 1,
        "planting_id": 1,
        "sold_by": "bunch",
        "amount": 12,
        "amount_typed": "12",
        "unsold": 1,
        "returned": 0,
        "price_minor": 300,
        "per_amount": 1,
        "price_typed": "3",
        "mass_mg": 2_400_000,
        "mass_typed": "2.4 kg",
    },
    "standing_order": {
        "buyer": "the kitchen",
        "crop_id": 1,
        "sold_by": "bunch",
        "amount": 6,
        "amount_typed": "6",
        "price_minor": 300,
        "per_amount": 1,
        "price_typed": "3",
        "rule_text": "FREQ=WEEKLY;BYDAY=FR",
        "rule_words": "every Fri",
        "start_day": DAY,
        "until_day": DAY,
    },
    "supply": {
        "name": "pellets",
        "category": "feed",
        "held_by": "mass",
        "reorder_at": 5_000_000,
        "reorder_typed": "5 kg",
    },
    "supply_lot": {
        "supply_id": 1,
        "day": DAY,
        "amount": 20_000_000,
        "amount_typed": "20 kg",
        "cost_id": 1,
        "lot_code": "A7",
        "opened_day": DAY,
        "expires_day": DAY,
    },
    "supply_use": {
        "supply_id": 1,
        "day": DAY,
        "kind": "used",
        "amount": 38_000,
        "amount_typed": "38 g",
        "unit_id": 1,
        "settlement_id": 1,
    },
    "paper": {"kind": "permit", "name": "stocking permit", "from_day": DAY, "until_day": DAY},
    "device": {
        "name": "pump",
        "unit_id": 1,
        "rated_mw": 45_000,
        "rated_typed": "45 W",
        "minutes_a_day": 1_440,
        "from_day": DAY,
        "until_day": DAY,
    },
    "meter": {"day": DAY, "unit_id": 1, "shown_wh": 1_234_500, "shown_typed": "1234.5"},
    "power_price": {"from_day": DAY, "price_minor": 16, "per_wh": 1_000, "typed": "0.16"},
}


def write(store: Store, table: str, **values: Any) -> int:
    """Write one row in a transaction of its own; returns its id."""
    with store.writing(new_id()) as transaction:
        row: Row = BY_TABLE[table](**values)
        return transaction.add(row).id


def write_one_of_each(store: Store) -> None:
    """The valid rows, each with id 1, in one transaction."""
    with store.writing(new_id()) as transaction:
        for table, values in VALID.items():
            assert transaction.add(BY_TABLE[table](**values)).id == 1
