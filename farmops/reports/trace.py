"""A lot from seed or fingerling to the buyer, with what was done to it and read around it on the way."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta

from farmops.facts import chores as chore_facts
from farmops.facts import doses as dose_facts
from farmops.facts import farm as farm_facts
from farmops.facts import fish as fish_facts
from farmops.facts import fish_events as event_facts
from farmops.facts import harvests as harvest_facts
from farmops.facts import journal as journal_facts
from farmops.facts import plantings as planting_facts
from farmops.facts import readings as reading_facts
from farmops.facts import sales as sale_facts
from farmops.facts import treatments as treatment_facts
from farmops.facts import units as unit_facts
from farmops.facts.reading import Reader, Store
from farmops.model.errors import NotFound
from farmops.model.farm import Farm
from farmops.model.fish import FishLot
from farmops.model.frozen import dataclass
from farmops.model.harvests import Harvest
from farmops.model.lot_codes import LotCode
from farmops.model.plantings import Planting
from farmops.model.readings import Reading
from farmops.model.sales import SaleLine, SoldBy
from farmops.quantities import MASS, Measures
from farmops.quantities.readings import show_value
from farmops.reports.spans import Span

AROUND_DAYS = 14
"""How many days before and after the day of a lot are told of unless asked otherwise."""
BEGIN, WEIGHED, SOLD, WATER, TREATED = "begin", "weighed", "sold", "water", "treated"
ADDED, FED, FISH, WORK = "added", "fed", "fish", "work"


@dataclass(frozen=True, slots=True)
class TraceLine:
    """Something that happened to the lot or around it; `by` who booked it, None where nobody is named."""

    day: date
    kind: str
    where: str
    words: str
    by: str | None = None


@dataclass(frozen=True, slots=True)
class Trace:
    """What is known of a lot, day by day: `what` it is, where it grew, and from which day to which it is told of."""

    settings: Farm
    code: LotCode
    what: str
    where: str
    span: Span
    lines: tuple[TraceLine, ...]

    def buyers(self) -> tuple[TraceLine, ...]:
        """Whom it went to."""
        return tuple(one for one in self.lines if one.kind == SOLD)


def trace(store: Store, code: LotCode, around: int = AROUND_DAYS) -> Trace:
    """A lot, or what was taken from it on one day, with everything around it.

    Raises NotFound where nothing has that code, or nothing was weighed from it on that day.
    """
    with store.reading() as reader:
        settings = farm_facts.farm(reader)
        lot = _planting(reader, code) if code.planting_id else _fish(reader, code)
        span = _span(code, lot, around, settings.today())
        found = _Gathered(reader, settings.measures, lot, span, code.day)
        lines = sorted(found.lines(), key=lambda one: one.day)
        if code.day and not any(one.kind == WEIGHED for one in lines):
            raise NotFound(f"Nothing was weighed from {replace(code, day=None)} on {code.day}.")
        return Trace(settings, code, _name(lot), _place(lot), span, tuple(lines))


def _planting(reader: Reader, code: LotCode) -> Planting:
    found = planting_facts.planting(reader, code.planting_id or 0)
    if found is None:
        raise NotFound(f"There is no planting {code.planting_id}. See: farmops plantings list")
    return found


def _fish(reader: Reader, code: LotCode) -> FishLot:
    found = fish_facts.lot_called(reader, code.where)
    if found is None:
        known = ", ".join(one.code for one in fish_facts.lots(reader)) or "none yet"
        raise NotFound(
            f"No lot has the code {code}. A code stands on each weighing: farmops harvests list. Fish lots: {known}."
        )
    return found


def _name(lot: Planting | FishLot) -> str:
    if isinstance(lot, FishLot):
        return f"{lot.code}, {lot.species}"
    return f"{lot.crop}, {lot.variety}" if lot.variety else lot.crop


def _place(lot: Planting | FishLot) -> str:
    return lot.unit if isinstance(lot, FishLot) else lot.bed


def _span(code: LotCode, lot: Planting | FishLot, around: int, today: date) -> Span:
    """A day with those around it; without one the whole life of the lot."""
    if code.day:
        return Span(code.day - timedelta(days=around), code.day + timedelta(days=around))
    begin, end = (lot.stocked_day, lot.closed_day) if isinstance(lot, FishLot) else (lot.started_day, lot.cleared_day)
    return Span(begin, max(begin, (end or today) + timedelta(days=around)))


class _Gathered:
    """Every line of one lot, kind by kind."""

    def __init__(
        self, reader: Reader, measures: Measures, lot: Planting | FishLot, span: Span, day: date | None
    ) -> None:
        self.reader, self.measures, self.lot, self.span, self.day = reader, measures, lot, span, day
        self.homes = list(self._homes())

    def lines(self) -> Iterator[TraceLine]:
        """Kind by kind."""
        yield self._begin()
        yield from self._weighings()
        yield from self._sales()
        yield from self._water()
        yield from self._treatments()
        yield from self._doses()
        yield from self._work()
        if isinstance(self.lot, FishLot):
            yield from self._fish(self.lot)

    def _homes(self) -> Iterator[tuple[str, date, date]]:
        """The units it lived in within the span, each with its first and last day there."""
        if not isinstance(self.lot, FishLot):
            yield self.lot.unit, self.span.first, self.span.last
            return
        codes = {one.id: one.code for one in unit_facts.units(self.reader)}
        for stay in fish_facts.stays(self.reader):
            first, last = max(stay.first, self.span.first), min(stay.last or self.span.last, self.span.last)
            if stay.lot_id == self.lot.id and first <= last:
                yield codes[stay.unit_id], first, last

    def _here(self, unit: str, day: date) -> bool:
        return any(home == unit and first <= day <= last for home, first, last in self.homes)

    def _begin(self) -> TraceLine:
        lot = self.lot
        if isinstance(lot, FishLot):
            fish = (f"{lot.number} {lot.species} of {lot.mean_typed} each", _from(lot.source), _paper(lot.paper))
            return TraceLine(lot.stocked_day, BEGIN, lot.unit, ", ".join(part for part in fish if part))
        plants = f"{lot.plants} plants" if lot.plants else ""
        parts = (f"{lot.crop} by {lot.started_by}", lot.variety or "", plants, lot.note or "")
        return TraceLine(lot.started_day, BEGIN, lot.bed, ", ".join(part for part in parts if part))

    def _weighings(self) -> Iterator[TraceLine]:
        found = [one for one in harvest_facts.harvests(self.reader, self.span.first, self.span.last) if self._own(one)]
        by = journal_facts.actors(self.reader, (one.operation for one in found))
        for one in found:
            number = f", {one.number} of them" if one.number else ""
            words = f"{one.lot_code}: {self._mass(one.mass_mg)}{number}, {one.use}"
            yield TraceLine(one.day, WEIGHED, one.bed or one.unit, words, by.get(one.operation))

    def _own(self, one: Harvest) -> bool:
        mine = one.fish_lot_id == self.lot.id if isinstance(self.lot, FishLot) else one.planting_id == self.lot.id
        return mine and (self.day is None or one.day == self.day)

    def _sales(self) -> Iterator[TraceLine]:
        first = self.day or self.span.first
        for sale in sale_facts.sales(self.reader, first, self.span.last):
            for line in sale.lines:
                own = line.fish_lot_id if isinstance(self.lot, FishLot) else line.planting_id
                if own == self.lot.id:
                    yield TraceLine(sale.day, SOLD, line.bed or "", f"{self._amount(line)} to {sale.buyer}")

    def _amount(self, line: SaleLine) -> str:
        if line.sold_by is SoldBy.WEIGHT:
            return self._mass(line.amount)
        return f"{line.amount} by the {line.sold_by}" if line.sold_by is not SoldBy.EACH else f"{line.amount}"

    def _water(self) -> Iterator[TraceLine]:
        """The readings of a day and an hour in one line."""
        together: dict[tuple[date, int, str], list[Reading]] = {}
        for one in reading_facts.readings(self.reader, self.span.first, self.span.last):
            if self._here(one.unit, one.day):
                together.setdefault((one.day, one.minute or 0, one.unit), []).append(one)
        by = journal_facts.actors(self.reader, (one.operation for found in together.values() for one in found))
        for (day, _, unit), found in together.items():
            yield TraceLine(day, WATER, unit, ", ".join(map(self._read, found)), by.get(found[0].operation))

    def _read(self, one: Reading) -> str:
        return f"{one.measure} {one.bound}{show_value(one.value, one.measure, self.measures)}"

    def _treatments(self) -> Iterator[TraceLine]:
        for one in treatment_facts.treatments(self.reader, self.span.first, self.span.last):
            if self._here(one.unit, one.day) and (one.bed is None or one.bed == _place(self.lot)):
                held = f"held {one.harvest_days} days until harvest"
                number = f"registration {one.registration}" if one.registration else ""
                parts = (f"{one.amount_typed} of {one.product}", one.active or "", number, one.against or "", held)
                words = ", ".join(part for part in parts if part)
                yield TraceLine(one.day, TREATED, one.where, words, one.actor)

    def _doses(self) -> Iterator[TraceLine]:
        for one in dose_facts.doses(self.reader, self.span.first, self.span.last):
            if self._here(one.unit, one.day):
                why = f": {one.why}" if one.why else ""
                yield TraceLine(one.day, ADDED, one.unit, f"{one.amount_typed} of {one.what}{why}", one.by)

    def _work(self) -> Iterator[TraceLine]:
        chores = {one.id: one for one in chore_facts.chores(self.reader)}
        bed = None if isinstance(self.lot, FishLot) else self.lot.bed
        for one in chore_facts.settled_between(self.reader, self.span.first, self.span.last):
            chore = chores[one.chore_id]
            elsewhere = chore.unit is not None and not self._here(chore.unit, one.on_day)
            if elsewhere or (bed and chore.bed not in (None, bed)):
                continue
            said = "; ".join(part for part in (one.reason, one.confirmed) if part)
            words = f"{chore.title}: {one.kind}" + (f", {said}" if said else "")
            yield TraceLine(one.on_day, WORK, chore.bed or chore.unit or "all", words, one.actor)

    def _fish(self, lot: FishLot) -> Iterator[TraceLine]:
        """What the lot was fed, what died, what was weighed and put back, what came in or went to another lot."""
        told: list[tuple[date, str, str]] = []
        for fed in event_facts.feedings(self.reader, lot.id):
            told.append((fed.day, FED, self._mass(fed.mass_mg) + (f", ate {fed.ate}" if fed.ate else "")))
        for loss in event_facts.losses(self.reader, lot.id):
            told.append((loss.day, FISH, f"{loss.number} died: {loss.cause}"))
        for one in event_facts.samples(self.reader, lot.id):
            told.append((one.day, FISH, f"{one.number} weighed and put back, {self._mass(one.mass_mg)} together"))
        for moved in event_facts.transfers(self.reader, lot.id):
            told.append((moved.day, FISH, f"{moved.number} went from {moved.from_lot} to {moved.to_lot}"))
        for day, kind, words in told:
            if self.span.first <= day <= self.span.last:
                yield TraceLine(day, kind, lot.unit, words)

    def _mass(self, mass_mg: int) -> str:
        return MASS.show(mass_mg, self.measures)


def _from(source: str | None) -> str:
    return f"from {source}" if source else ""


def _paper(paper: str | None) -> str:
    return f"paper {paper}" if paper else ""
