"""Rations in words: up to how much, what holds them there, and what the feeding chores of a round say."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from farmops.facts import farm as farm_facts
from farmops.facts.rations import rations
from farmops.facts.reading import Reader, Store
from farmops.model.chores import Chore
from farmops.model.farm import Farm
from farmops.model.fish import Ate
from farmops.model.frozen import dataclass
from farmops.model.rations import Cap, Fed, LotRation
from farmops.model.readings import Measure
from farmops.model.values import Measured
from farmops.quantities import MASS, TEMPERATURE, Measures
from farmops.reports.round import FEED
from farmops.reports.round_lines import UNKNOWN_AMOUNT, RoundLine

MG_PER_G = 1000
HELD = {
    Cap.TEMPERATURE: "less for the temperature of the water",
    Cap.BEDS: "all that the beds take",
    Cap.FILTER: "all that the filter takes",
}


@dataclass(frozen=True, slots=True)
class Rations:
    """The rations of a day, and how the farm weighs."""

    farm: Farm
    on: date
    lots: tuple[LotRation, ...]


def rations_on(store: Store, on: date | None = None) -> Rations:
    """The ration of every lot on a day. Raises NoFarm."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        day = on or farm.today()
        return Rations(farm, day, tuple(rations(reader, day)))


def with_rations(reader: Reader, farm: Farm, day: date, lines: Sequence[RoundLine]) -> list[RoundLine]:
    """The lines of a round, those that feed fish on the day with the rations of their lots; one reading for all."""
    found = rations(reader, day)
    return [_fed(line, found, farm.measures) if feeds(line, day) else line for line in lines]


def feeds(line: RoundLine, day: date) -> bool:
    """Whether it is a chore that feeds fish on the day."""
    return line.chore.template_key == FEED and line.due <= day


def _fed(line: RoundLine, found: Sequence[LotRation], measures: Measures) -> RoundLine:
    own = tuple(one for one in found if _is_of(line.chore, one))
    if not own:
        return line
    words = "; ".join(ration_words(one, measures) for one in own)
    return replace(line, rations=own, amount=_amount(own, measures), why=line.why or words)


def _is_of(chore: Chore, one: LotRation) -> bool:
    return chore.fish_lot_id == one.lot_id if chore.fish_lot_id is not None else chore.unit_id == one.unit_id


def _amount(own: Sequence[LotRation], measures: Measures) -> str:
    """All of them together, for a line of several units."""
    known = [one.grams for one in own if one.grams is not None]
    return UNKNOWN_AMOUNT if len(known) < len(own) else mass_words(sum(known), measures)


def mass_words(grams: float, measures: Measures) -> str:
    """An amount of feed as the farm weighs; `nothing` where there is none."""
    return MASS.show(round(grams * MG_PER_G), measures) if grams else "nothing"


def ration_words(one: LotRation, measures: Measures) -> str:
    """`PERCH-24: up to 38 g at 15 °C`, with what holds it there; or why there is none."""
    if one.grams is None:
        return f"{one.code}: no ration, {one.missing}"
    if not one.grams or one.temperature_c is None:
        return f"{one.code}: no feed, {_none_words(one, measures)}"
    held = HELD.get(one.cap) if one.cap else None
    fed = f"{mass_words(one.fed_g, measures)} fed already" if one.fed_g else None
    told = ", ".join(part for part in (held, fed) if part)
    at = TEMPERATURE.show(one.temperature_c, measures)
    return f"{one.code}: up to {mass_words(one.grams, measures)} at {at}" + (f", {told}" if told else "")


def water_words(out: Measure) -> str:
    """Why fish get nothing in water that stops the feed, and where to look what to do."""
    return f"{out} is out of its limits; see water"


def _none_words(one: LotRation, measures: Measures) -> str:
    if one.cap is Cap.READING and one.out is not None:
        return water_words(one.out)
    if one.cap is Cap.HANDLING:
        return "they are weighed tomorrow"
    at = TEMPERATURE.show(one.temperature_c or 0.0, measures)
    return f"they do not eat at {at}" if one.cap is Cap.TEMPERATURE else f"{HELD.get(one.cap or Cap.TABLE, 'too few')}"


def fed_by_ration(own: Sequence[LotRation], ate: Ate | None) -> tuple[Fed, ...]:
    """What is left of the rations of some lots, as fed to them."""
    left = [(one.lot_id, one.left_g) for one in own if one.left_g]
    return tuple(Fed(lot, Measured(grams * MG_PER_G, f"{grams} g"), ate) for lot, grams in left)


def rations_of(store: Store, chore: Chore, on: date) -> tuple[LotRation, ...]:
    """The rations of the lots that a feeding chore feeds on a day; none where it feeds no fish."""
    if chore.template_key != FEED:
        return ()
    return tuple(one for one in rations_on(store, on).lots if _is_of(chore, one))
