"""The records themselves, as lists."""

from __future__ import annotations

from datetime import date

from farmops.facts import absences as absence_facts
from farmops.facts import beds as bed_facts
from farmops.facts import chores as chore_facts
from farmops.facts import contacts as contact_facts
from farmops.facts import costs as cost_facts
from farmops.facts import doses as dose_facts
from farmops.facts import farm as farm_facts
from farmops.facts import fish as fish_facts
from farmops.facts import fish_events as event_facts
from farmops.facts import harvests as harvest_facts
from farmops.facts import incidents as incident_facts
from farmops.facts import instruments as instrument_facts
from farmops.facts import journal as journal_facts
from farmops.facts import labour as labour_facts
from farmops.facts import limits as limit_facts
from farmops.facts import notes as note_facts
from farmops.facts import plantings as planting_facts
from farmops.facts import sources as source_facts
from farmops.facts import units as unit_facts
from farmops.facts.reading import Store
from farmops.model.absences import Absence
from farmops.model.beds import Bed, BedSize
from farmops.model.chores import Chore, Settled
from farmops.model.contacts import Contact
from farmops.model.costs import Cost, DriverFrom, JointSplit, LabourRate, ListPrice
from farmops.model.farm import Farm, Person
from farmops.model.fish import FishLot
from farmops.model.fish_events import Loss
from farmops.model.frozen import dataclass
from farmops.model.harvests import Harvest
from farmops.model.incidents import Incident
from farmops.model.instruments import Instrument, InstrumentCheck
from farmops.model.journal import JournalLine
from farmops.model.limits import OwnLimit
from farmops.model.notes import Note
from farmops.model.plantings import Crop, Planting
from farmops.model.units import StateFrom, Unit
from farmops.model.water import Dose, SourceValue, TopUp, WaterSource


@dataclass(frozen=True, slots=True)
class UnitLine:
    """A unit with its states, first to last."""

    unit: Unit
    states: tuple[StateFrom, ...]


@dataclass(frozen=True, slots=True)
class BedLine:
    """A bed with its sizes, first to last."""

    bed: Bed
    sizes: tuple[BedSize, ...]


@dataclass(frozen=True, slots=True)
class SharingSet:
    """What shared costs go by, how produce and fish split a cost, and rates of an hour."""

    drivers: tuple[DriverFrom, ...]
    splits: tuple[JointSplit, ...]
    rates: tuple[LabourRate, ...]


def farm(store: Store) -> Farm:
    """The farm. Raises NoFarm."""
    with store.reading() as reader:
        return farm_facts.farm(reader)


def people(store: Store) -> list[Person]:
    """Everybody who works here."""
    with store.reading() as reader:
        return farm_facts.people(reader)


def absences(store: Store) -> list[Absence]:
    """Every absence, the latest first."""
    with store.reading() as reader:
        return absence_facts.absences(reader)


def incidents(store: Store) -> list[Incident]:
    """Every incident, the latest first."""
    with store.reading() as reader:
        return incident_facts.incidents(reader)


def contacts(store: Store) -> list[Contact]:
    """Whom to call."""
    with store.reading() as reader:
        return contact_facts.contacts(reader)


def notes(store: Store, first: date, last: date) -> list[Note]:
    """The notes of a span, the latest first."""
    with store.reading() as reader:
        return note_facts.notes(reader, first, last)


def notes_of_chore(store: Store, chore: int) -> list[Note]:
    """What was noted on a chore, the latest first."""
    with store.reading() as reader:
        return note_facts.notes_of_chore(reader, chore)


def units(store: Store) -> list[UnitLine]:
    """The row of units in walking order."""
    with store.reading() as reader:
        states = unit_facts.all_states(reader)
        return [UnitLine(unit, tuple(states.get(unit.id, ()))) for unit in unit_facts.units(reader)]


def beds(store: Store) -> list[BedLine]:
    """Every bed in walking order."""
    with store.reading() as reader:
        return [BedLine(bed, tuple(bed_facts.sizes(reader, bed.id))) for bed in bed_facts.beds(reader)]


def crops(store: Store) -> list[Crop]:
    """Every crop."""
    with store.reading() as reader:
        return planting_facts.crops(reader)


def plantings(store: Store, on: date | None = None) -> list[Planting]:
    """Every planting, or those that stand on a day."""
    with store.reading() as reader:
        return planting_facts.growing(reader, on) if on else planting_facts.plantings(reader)


def fish_lots(store: Store) -> list[FishLot]:
    """Every fish lot."""
    with store.reading() as reader:
        return fish_facts.lots(reader)


def losses(store: Store, lot: int) -> list[Loss]:
    """The fish that died or went of a lot."""
    with store.reading() as reader:
        return event_facts.losses(reader, lot)


def instruments(store: Store) -> list[Instrument]:
    """Every instrument, in service or not."""
    with store.reading() as reader:
        return instrument_facts.instruments(reader)


def instrument_checks(store: Store) -> list[InstrumentCheck]:
    """Every check of an instrument, the oldest first."""
    with store.reading() as reader:
        return instrument_facts.checks(reader)


def own_limits(store: Store) -> list[OwnLimit]:
    """The limits that the grower has set, the oldest first."""
    with store.reading() as reader:
        return limit_facts.own_limits(reader)


def doses(store: Store, first: date, last: date) -> list[Dose]:
    """What was added to the water in a span, the latest first."""
    with store.reading() as reader:
        return dose_facts.doses(reader, first, last)


def sources(store: Store) -> list[WaterSource]:
    """Where water comes from."""
    with store.reading() as reader:
        return source_facts.sources(reader)


def source_values(store: Store) -> list[SourceValue]:
    """What the sources are like, from their days on."""
    with store.reading() as reader:
        return source_facts.values(reader)


def top_ups(store: Store, first: date, last: date) -> list[TopUp]:
    """What was topped up in a span, the latest first."""
    with store.reading() as reader:
        return source_facts.top_ups(reader, first, last)


def harvests(store: Store, first: date, last: date) -> list[Harvest]:
    """The weighings of a span."""
    with store.reading() as reader:
        return harvest_facts.harvests(reader, first, last)


def costs(store: Store, first: date, last: date) -> list[Cost]:
    """What was paid in a span."""
    with store.reading() as reader:
        return cost_facts.costs(reader, first, last)


def sharing(store: Store) -> SharingSet:
    """How costs are shared from day to day."""
    with store.reading() as reader:
        drivers, splits = cost_facts.drivers(reader), cost_facts.joint_splits(reader)
        return SharingSet(tuple(drivers), tuple(splits), tuple(labour_facts.rates(reader)))


def prices(store: Store) -> list[ListPrice]:
    """Every list price."""
    with store.reading() as reader:
        return cost_facts.prices(reader)


def chores(store: Store) -> list[Chore]:
    """Every chore, due or not."""
    with store.reading() as reader:
        return chore_facts.chores(reader)


def settled(store: Store, chore: int) -> list[Settled]:
    """How a chore was settled."""
    with store.reading() as reader:
        return chore_facts.settled(reader, chore)


def journal(store: Store, most: int | None = None) -> list[JournalLine]:
    """The operations, newest first."""
    with store.reading() as reader:
        farm_facts.farm(reader)
        return journal_facts.lines(reader, most)
