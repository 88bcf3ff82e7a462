"""The row of units at a glance: state, what is due, what the last weeks brought."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta

from farmops.facts import chores as chore_facts
from farmops.facts import farm as farm_facts
from farmops.facts import harvests as harvest_facts
from farmops.facts import incidents as incident_facts
from farmops.facts import journal as journal_facts
from farmops.facts import readings as reading_facts
from farmops.facts import units as unit_facts
from farmops.facts.harvests import DayTotal
from farmops.facts.reading import Reader, Store
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.model.readings import FRESH_DAYS, Measure
from farmops.model.units import StateFrom, Unit
from farmops.reports.round import RoundLine, lines_on
from farmops.reports.spans import state_on

WEEKS = 6


@dataclass(frozen=True, slots=True)
class Card:
    """One place of the row; `unit` None is the whole farm. `weeks` holds mg of produce, oldest week first.

    `water_c` is the temperature of the water as it was read last, None where that was too long ago.
    """

    unit: Unit | None
    state: StateFrom | None
    due: int
    late: bool
    weeks: tuple[int, ...]
    water_c: float | None = None

    @property
    def code(self) -> str:
        """What the place is called."""
        return self.unit.code if self.unit else "all"


@dataclass(frozen=True, slots=True)
class Row:
    """The farm and its units in walking order, the whole farm first; `seq` is the journal's last number.

    `power_cut_since` is the instant at which the power went, while it is out.
    """

    farm: Farm
    on: date
    cards: tuple[Card, ...]
    seq: int
    power_cut_since: datetime | None = None


def row_of(store: Store, on: date | None = None) -> Row:
    """The row on a day."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        day = on or farm.today()
        return row_with(reader, farm, day, lines_on(reader, chore_facts.due_by(reader, day), day))


def row_with(reader: Reader, farm: Farm, day: date, due: Sequence[RoundLine]) -> Row:
    """The row of a day on which these chores are due."""
    units, states = unit_facts.units(reader), unit_facts.all_states(reader)
    days = harvest_facts.daily(reader, day - timedelta(days=7 * WEEKS - 1), day)
    water = _water(reader, day)
    cards = [_card(None, None, due, _weekly(days, day))]
    for unit in units:
        own = [line for line in due if line.chore.unit_id == unit.id]
        weeks = _weekly([one for one in days if one.unit_id == unit.id], day)
        card = _card(unit, state_on(states.get(unit.id, []), day), own, weeks)
        cards.append(replace(card, water_c=water.get(unit.id)))
    lasting = incident_facts.open_incidents(reader)
    since = lasting[0].began_at if lasting else None
    return Row(farm, day, tuple(cards), journal_facts.last_seq(reader), since)


def _card(unit: Unit | None, state: StateFrom | None, due: Sequence[RoundLine], weeks: tuple[int, ...]) -> Card:
    return Card(unit, state, len(due), any(line.days_late for line in due), weeks)


def _water(reader: Reader, day: date) -> dict[int, float]:
    """The temperature of the water in each unit that was read not long ago [deg C]."""
    found = reading_facts.latest(reader, day, Measure.TEMPERATURE)
    return {one.unit_id: one.value for one in found if (day - one.day).days <= FRESH_DAYS}


def _weekly(days: Iterable[DayTotal], last: date) -> tuple[int, ...]:
    weeks = [0] * WEEKS
    for one in days:
        weeks[WEEKS - 1 - (last - one.day).days // 7] += one.mass_mg
    return tuple(weeks)


def pulse(store: Store) -> int:
    """The journal's last number, which moves with every change."""
    with store.reading() as reader:
        return journal_facts.last_seq(reader)
