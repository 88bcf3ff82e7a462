"""What stands at the scale: where a weighing can come from, what was weighed today, how a planting does."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction

from farmops.facts import beds as bed_facts
from farmops.facts import farm as farm_facts
from farmops.facts import fish as fish_facts
from farmops.facts import harvests as harvest_facts
from farmops.facts import plantings as planting_facts
from farmops.facts.harvests import PlantingTotal
from farmops.facts.reading import Reader, Store
from farmops.library import crop as crop_facts
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.model.harvests import Harvest
from farmops.model.plantings import Planting
from farmops.model.treatments import Hold
from farmops.reports.holds import Holds, holds_on


@dataclass(frozen=True, slots=True)
class Source:
    """Where a weighing can come from: a planting or a fish lot. `yield_so_far` in mg per mm2 of its area.

    `held` says until when a treatment holds it; nothing where none does.
    """

    label: str
    unit: str
    planting_id: int | None
    fish_lot_id: int | None
    crop: str | None
    ready: bool
    mass_mg: int
    weeks: int
    yield_so_far: Fraction | None
    held: str = ""


@dataclass(frozen=True, slots=True)
class Scale:
    """The scale on a day: sources in the order they are likely to be weighed, and today's weighings, newest first."""

    farm: Farm
    on: date
    sources: tuple[Source, ...]
    today: tuple[Harvest, ...]

    def nearest(self, unit: str | None) -> Scale:
        """The same with the sources of a unit first."""
        if unit is None:
            return self
        return replace(self, sources=tuple(sorted(self.sources, key=lambda one: one.unit != unit)))

    def best(self, crop: str) -> Fraction | None:
        """The best yield so far of a crop's plantings that stand now."""
        found = [one.yield_so_far for one in self.sources if one.crop == crop and one.yield_so_far is not None]
        return max(found, default=None)


def scale_of(store: Store, on: date | None = None) -> Scale:
    """The scale on a day; sources that are ready come first, fish last."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        day = on or farm.today()
        held = holds_on(reader, farm, day)
        sources = [*_plantings(reader, day, held), *_lots(reader, day, held)]
        sources.sort(key=lambda one: (not one.ready, one.planting_id is None))
        today = harvest_facts.harvests(reader, day, day)
        return Scale(farm, day, tuple(sources), tuple(reversed(today)))


def _plantings(reader: Reader, day: date, held: Holds) -> list[Source]:
    totals, areas = harvest_facts.of_plantings(reader, day), bed_facts.areas_on(reader, day)
    growing = planting_facts.growing(reader, day)
    return [
        _under(_source(one, totals.get(one.id), one.area_mm2 or areas.get(one.bed_id), day), held.beds.get(one.bed_id))
        for one in growing
    ]


def _under(source: Source, hold: Hold | None) -> Source:
    """What is held is not ready, and says until when."""
    return source if hold is None else replace(source, ready=False, held=hold.words)


def _source(one: Planting, total: PlantingTotal | None, area: int | None, day: date) -> Source:
    mass = total.mass_mg if total else 0
    weeks = ((day - total.first_day).days // 7 + 1) if total else 0
    return Source(
        label=f"{one.bed} · {one.crop}",
        unit=one.unit,
        planting_id=one.id,
        fish_lot_id=None,
        crop=one.crop,
        ready=total is not None or _old_enough(one, day),
        mass_mg=mass,
        weeks=weeks,
        yield_so_far=Fraction(mass, area) if area and mass else None,
    )


def _old_enough(one: Planting, day: date) -> bool:
    """Whether the days to harvest that the library knows have passed; not known counts as no."""
    facts = crop_facts(one.crop)
    return bool(facts and facts.days_to_harvest_low and (day - one.started_day).days >= facts.days_to_harvest_low)


def _lots(reader: Reader, day: date, held: Holds) -> list[Source]:
    return [
        _under(
            Source(f"{one.unit} · {one.code} ({one.species})", one.unit, None, one.id, None, False, 0, 0, None),
            held.lots.get(one.id),
        )
        for one in fish_facts.lots(reader)
        if one.stocked_day <= day and (one.closed_day is None or day <= one.closed_day)
    ]
