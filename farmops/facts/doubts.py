"""What a careful bookkeeper would ask about a weighing, held against the others of its kind."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from farmops.economics.outliers import Usual, usual
from farmops.facts.weighings import BookedWeighing, Ground
from farmops.model.frozen import dataclass
from farmops.quantities import AREA, MASS, Measures
from farmops.quantities.weighing import other_reading
from farmops.science.crops import heaviest_cut_kg

LATELY = 30
FEWEST, FEWEST_OF_FISH = 5, 3
LEAST_FACTOR = 2.0
"""Weighings of one bed differ by as much from day to day; less than that is never asked about."""
MM2_PER_M2, MG_PER_KG = 1_000_000, 1_000_000


@dataclass(frozen=True, slots=True)
class New:
    """A weighing that is not booked yet: net milligrams, the text typed, pieces, who weighs, and where it grew."""

    day: date
    mass_mg: int
    mass_typed: str
    number: int | None
    actor: str
    tare_mg: int = 0
    ground: Ground | None = None


def doubt(new: New, alike: Sequence[BookedWeighing], measures: Measures) -> str:
    """The question to ask about a new weighing, given those of its kind in their order; nothing where there is none."""
    double = twice(new, alike)
    if double is not None:
        shown = MASS.show(double.mass_mg, measures)
        booked = f"{shown} of {double.what} from {double.where} is booked for {new.day} by {double.actor} already"
        return f"{booked} (number {double.id}). Is it another one?"
    before = [one for one in alike if one.day <= new.day]
    band = usual_of(before)
    measured = _measured(new, before)
    if band is None:
        return impossible_words(new, before, measures)
    if measured is None or band.holds(measured):
        return ""
    return unusual_words(new, measured, band, before[-1], measures)


def twice(new: New, alike: Sequence[BookedWeighing]) -> BookedWeighing | None:
    """The same weight of the same day and kind that another person booked."""
    who = new.actor.casefold()
    same = (one for one in alike if (one.day, one.mass_mg) == (new.day, new.mass_mg))
    return next((one for one in same if one.actor.casefold() != who), None)


def usual_of(before: Sequence[BookedWeighing]) -> Usual | None:
    """What weighings of one kind usually come to, by those booked last."""
    measured = [one.measured_mg for one in before if one.use.counts]
    fewest = FEWEST if before and before[-1].fish_lot_id is None else FEWEST_OF_FISH
    return usual([one for one in measured if one][-LATELY:], fewest=fewest, least_factor=LEAST_FACTOR)


def _measured(new: New, before: Sequence[BookedWeighing]) -> float | None:
    if before and before[-1].fish_lot_id is not None:
        return new.mass_mg / new.number if new.number else None
    return new.mass_mg


def impossible_words(new: New, before: Sequence[BookedWeighing], measures: Measures) -> str:
    """That the ground cannot have borne so much at once, and what may have gone wrong at the scale.

    That a weighing beyond the heaviest cut of the best fields is asked about is common practice, no source.
    """
    if new.ground is None or not new.ground.area_mm2:
        return ""
    most_mg = heaviest_cut_kg(new.ground.area_mm2 / MM2_PER_M2) * MG_PER_KG
    if new.mass_mg <= most_mg:
        return ""
    shown, area = MASS.show(new.mass_mg, measures), AREA.show(new.ground.area_mm2, measures)
    other = other_reading(new.mass_typed, 0, most_mg, measures)
    return " ".join(
        part
        for part in (
            f"{shown} of {new.ground.what} is more than {area} of {new.ground.bed} can bear at once;",
            f"the best fields give {MASS.show(round(most_mg), measures)} of cabbage there.",
            f"Typed {new.mass_typed.strip()}; {other} could be." if other else "",
            "Was the bowl taken off?" if not new.tare_mg and any(one.tare_mg for one in before) else "",
        )
        if part
    )


def unusual_words(
    one: New | BookedWeighing, measured: float, band: Usual, like: BookedWeighing, measures: Measures
) -> str:
    """That a weighing is far from the usual, and what else its number could mean."""
    each = " each" if like.fish_lot_id is not None else ""
    shown, middle = MASS.show(round(measured), measures), MASS.show(round(band.middle), measures)
    pieces = one.mass_mg / measured
    other = other_reading(one.mass_typed, band.low * pieces, band.high * pieces, measures)
    hint = f" Typed {one.mass_typed.strip()}; {other} would be usual." if other else ""
    from_where = f"{like.what} from {like.where}"
    return f"{shown}{each} is far from the {middle}{each} usual of {from_where} ({band.count} weighings).{hint}"
