"""Water put into units: how much from where, and what to mind before fish meet it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from farmops.facts import fish as fish_facts
from farmops.facts import sources as source_facts
from farmops.facts import units as unit_facts
from farmops.facts.reading import Store
from farmops.model.frozen import dataclass
from farmops.model.readings import Measure
from farmops.model.water import SourceKind, SourceValue, TopUp

LABEL_FIRST = "the label of the conditioner comes first"
REMOVE = {
    SourceKind.CHLORINE: "chlorine burns gills and kills the filter: take it out before the water goes in, or let it "
    f"stand with air for a day or two; test for chlorine, {LABEL_FIRST}",
    SourceKind.CHLORAMINE: "chloramine does not leave by standing: bind it with a conditioner before the water goes "
    f"in, test for chlorine and ammonia after; {LABEL_FIRST}",
    SourceKind.MAINS: "ask the water works whether this is chlorine or chloramine, and treat it as chloramine until "
    f"you know; test for chlorine, {LABEL_FIRST}",
}
"""What to do about disinfected water where fish live. Common practice."""
MUCH_SHARE = 10
MUCH = "More than a tenth of the tank at once: bring it to the temperature of the tank and add it slowly."
"""Common practice."""


@dataclass(frozen=True, slots=True)
class TopUpTotal:
    """How much one source gave to one unit."""

    unit: str
    source: str | None
    volume_ml: int


def top_up_totals(found: Iterable[TopUp]) -> list[TopUpTotal]:
    """How much each source gave to each unit, by name."""
    sums: dict[tuple[str, str | None], int] = {}
    for one in found:
        key = (one.unit, one.source)
        sums[key] = sums.get(key, 0) + one.volume_ml
    return [TopUpTotal(*key, sums[key]) for key in sorted(sums, key=lambda key: (key[0], key[1] or ""))]


def cautions(
    kind: SourceKind | None, *, fish: bool, volume_ml: int, tank_ml: int | None, chlorine_mg_per_l: float | None = None
) -> tuple[str, ...]:
    """What to mind about a top-up; nothing where no fish live in the unit. The chlorine is the source's, if known."""
    if not fish:
        return ()
    found = [f"Fish live here: {REMOVE[kind]}."] if kind in REMOVE else []
    if kind not in REMOVE and chlorine_mg_per_l:
        found.append(f"Fish live here: {REMOVE[SourceKind.CHLORINE]}.")
    if tank_ml and volume_ml * MUCH_SHARE > tank_ml:
        found.append(MUCH)
    return tuple(found)


def cautions_on(store: Store, one: TopUp) -> tuple[str, ...]:
    """What to mind about a top-up that is booked."""
    with store.reading() as reader:
        spans = fish_facts.fish_spans(reader).get(one.unit_id, [])
        tank = next((unit.tank_ml for unit in unit_facts.units(reader) if unit.id == one.unit_id), None)
        chlorine = chlorine_of(source_facts.values(reader), one.source_id, one.day)
    fish = any(first <= one.day <= (last or date.max) for first, last in spans)
    return cautions(one.kind, fish=fish, volume_ml=one.volume_ml, tank_ml=tank, chlorine_mg_per_l=chlorine)


def chlorine_of(values: Iterable[SourceValue], source: int | None, on: date) -> float | None:
    """The chlorine that a source has on a day, None where it is not known."""
    held = [x for x in values if x.source_id == source and x.measure is Measure.CHLORINE and x.from_day <= on]
    return held[-1].value if held else None
