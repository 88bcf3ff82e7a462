"""What happens to fish lots in JSON's words: samples, losses, transfers and feedings in canonical units."""

from __future__ import annotations

from farmops.model.fish import FishLot
from farmops.model.fish_events import Feeding, Loss, Sample, Transfer
from farmops.reports.fish_book import Booked

MG_PER_G = 1_000


def plain_lot(one: FishLot) -> dict[str, object]:
    """A fish lot in canonical units: the number and mean weight at stocking; `facts_key` names the packaged facts."""
    return {
        "id": one.id,
        "lot": one.code,
        "species": one.species,
        "facts_key": one.library_key,
        "unit": one.unit,
        "stocked": one.stocked_day,
        "number": one.number,
        "mean_mass_g": one.mean_mg / MG_PER_G,
        "mean_typed": one.mean_typed,
        "closed": one.closed_day,
        "source": one.source,
        "paper": one.paper,
        "note": one.note,
    }


def plain_sample(one: Sample) -> dict[str, object]:
    """A sample: mass of all of it in grams, and of each where they were weighed one by one."""
    return {
        "id": one.id,
        "day": one.day,
        "lot": one.lot,
        "number": one.number,
        "mass_g": one.mass_mg / MG_PER_G,
        "mean_mass_g": one.mass_mg / one.number / MG_PER_G,
        "each_g": [mg / MG_PER_G for mg in one.each_mg],
        "note": one.note,
    }


def plain_loss(one: Loss) -> dict[str, object]:
    """A loss; mass of all of them in grams, null where they were not weighed."""
    return {
        "id": one.id,
        "day": one.day,
        "lot": one.lot,
        "number": one.number,
        "cause": one.cause,
        "disposal": one.disposal,
        "mass_g": None if one.mass_mg is None else one.mass_mg / MG_PER_G,
        "note": one.note,
    }


def plain_transfer(one: Transfer) -> dict[str, object]:
    """A transfer; the mean of one fish in grams, null where they were not weighed."""
    return {
        "id": one.id,
        "day": one.day,
        "from_lot": one.from_lot,
        "to_lot": one.to_lot,
        "number": one.number,
        "mean_mass_g": None if one.mean_mg is None else one.mean_mg / MG_PER_G,
        "note": one.note,
    }


def plain_feeding(one: Feeding) -> dict[str, object]:
    """A feeding in grams."""
    return {
        "id": one.id,
        "day": one.day,
        "lot": one.lot,
        "mass_g": one.mass_mg / MG_PER_G,
        "ate": one.ate,
        "note": one.note,
    }


def plain_entry(one: Booked) -> dict[str, object]:
    """Any of them."""
    if isinstance(one, Sample):
        return plain_sample(one)
    if isinstance(one, Loss):
        return plain_loss(one)
    return plain_transfer(one) if isinstance(one, Transfer) else plain_feeding(one)
