"""The card on the wall of a unit, for when the power and the screen are dark: how long, what first, whom to call."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from farmops.facts import contacts as contact_facts
from farmops.facts import farm as farm_facts
from farmops.facts import incidents as incident_facts
from farmops.facts import units as unit_facts
from farmops.facts.live_fish import LiveLot
from farmops.facts.reading import Reader, Store
from farmops.library import species
from farmops.library.incident_steps import steps_of
from farmops.model.contacts import Contact
from farmops.model.errors import OutOfRange
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.model.incidents import Phase, Step
from farmops.model.units import Unit
from farmops.reports.power_cut import Basis, Conditions, basis_at, conditions_of, minutes_at

USUAL_C = (15.0, 20.0, 25.0)
"""The temperatures of a card where the tables do not know the fish."""
HOTTEST_C = 36.0


@dataclass(frozen=True, slots=True)
class AtTemperature:
    """How long a unit has in water of a temperature; None where it cannot be said."""

    temperature_c: float
    minutes: float | None


@dataclass(frozen=True, slots=True)
class WallCard:
    """A card: minutes at three temperatures and what they rest on, or what is `missing`; the steps; whom to call."""

    farm: Farm
    unit: Unit
    printed_on: date
    times: tuple[AtTemperature, ...]
    basis: Basis | None
    missing: str
    steps: tuple[Step, ...]
    checks: tuple[Step, ...]
    contacts: tuple[Contact, ...]


def wall_card(store: Store, unit: Unit) -> WallCard:
    """The card of a unit, as things stand today."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        today = farm.today()
        unit = unit_facts.unit(reader, unit.id) or unit
        found = conditions_of(reader, unit, today)
        times, basis, missing = _times(found, farm, today)
        return WallCard(
            farm=farm,
            unit=unit,
            printed_on=today,
            times=times,
            basis=basis,
            missing=missing,
            steps=_steps(reader, unit, today, Phase.DURING),
            checks=_steps(reader, unit, today, Phase.AFTER),
            contacts=tuple(contact_facts.contacts(reader)),
        )


def _times(found: Conditions | None, farm: Farm, today: date) -> tuple[tuple[AtTemperature, ...], Basis | None, str]:
    if found is None:
        return (), None, "no live fish are booked in this unit"
    if found.unit.tank_ml is None:
        return (), None, "how much water the tank holds is not written down"
    temperatures = temperatures_for(found.lots)
    times = tuple(AtTemperature(c, _minutes(basis_at(found, c, today), farm)) for c in temperatures)
    return times, basis_at(found, temperatures[0], today), ""


def temperatures_for(lots: Sequence[LiveLot]) -> tuple[float, ...]:
    """Three temperatures: where the fish grow well, low and high, and where they die of heat; else 15, 20, 25 C."""
    known = [facts for lot in lots if (facts := species(lot.library_key or lot.species)) is not None]
    low = [facts.best_low_c for facts in known if facts.best_low_c is not None]
    high = [facts.best_high_c for facts in known if facts.best_high_c is not None]
    hot = [facts.vital_high_c for facts in known if facts.vital_high_c is not None]
    if not (low and high and hot):
        return USUAL_C
    return tuple(sorted({min(low), max(high), min(min(hot), HOTTEST_C)}))


def _minutes(basis: Basis, farm: Farm) -> float | None:
    try:
        return minutes_at(basis, farm)
    except OutOfRange:
        return None


def _steps(reader: Reader, unit: Unit, today: date, phase: Phase) -> tuple[Step, ...]:
    """The steps of a phase that this unit, or the whole farm, calls for."""
    with_fish = any(one.unit.id == unit.id and one.with_fish for one in incident_facts.units_at_stake(reader, today))
    return tuple(one for one in steps_of(phase) if not one.per_unit or one.fits(unit.kind, fish=with_fish))
