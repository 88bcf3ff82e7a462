"""Who bought what was picked or fished for sale, and at what price; a sale in five was never written down."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

from chance import Chance
from growing import harvest_rows

Known = dict[str, list[dict[str, str]]]
Row = tuple[Any, ...]
FISH = ("PERCH-24", "PERCH-25", "TROUT-25", "TROUT-26")
GATE, KITCHEN = "the gate stall", "the kitchen at the ford"
# dollars a pound: at the stall a little over the list, the kitchen takes much and pays less
PRICES = {
    "CHARD": ("4.75", "4.25"),
    "PAK CHOI": ("4.25", "3.75"),
    "MINT": ("13.00", "11.00"),
    "CELERY": ("3.00", "2.60"),
    "SPRING ONION": ("5.00", "4.50"),
    "STRAWBERRY": ("7.50", "6.50"),
    "CUCUMBER": ("2.50", "2.20"),
}
FISH_PRICE = "9.00"
NOT_WRITTEN_DOWN = 0.2
FIRST_SOLD = date(2025, 5, 1)


def sale_rows(known: Known) -> list[Row]:
    """A row for each line of a sale; those of one day to one buyer are one sale."""
    return sorted(_lines(known), key=lambda row: row[:4])


def _lines(known: Known) -> Iterator[Row]:
    written: dict[tuple[Any, str], bool] = {}
    for day, unit, bed, crop, weight, tare, _count, use, note, by in harvest_rows(known):
        if use != "sold" or day < FIRST_SOLD:
            continue
        buyer = KITCHEN if note == "kitchen" else GATE
        chance = Chance(f"sale of {day} to {buyer}")
        if written.setdefault((day, buyer), not chance.happens(NOT_WRITTEN_DOWN)):
            yield day, buyer, f"{unit}-{bed}" if bed else unit, crop, weight, tare, _price(crop, buyer), by


def _price(crop: str, buyer: str) -> str:
    return f"{FISH_PRICE if crop in FISH else PRICES[crop][buyer == KITCHEN]}/lb"
