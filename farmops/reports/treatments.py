"""Treatments with what follows from them: when people may go in again, when to pick, when to take fish."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime, timedelta
from typing import Any

from farmops import clock
from farmops.facts import beds as bed_facts
from farmops.facts import farm as farm_facts
from farmops.facts import fish as fish_facts
from farmops.facts import treatments as treatment_facts
from farmops.facts import units as unit_facts
from farmops.facts.held_weighings import weighed_inside
from farmops.facts.reading import Reader, Store
from farmops.library.treatment_harms import THE_LABEL, harms_of
from farmops.model.errors import NotFound
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.model.text import plain
from farmops.model.treatments import Treatment, short_day
from farmops.quantities.weighed import weighing_words
from farmops.reports.places import unit_named


@dataclass(frozen=True, slots=True)
class Told:
    """A treatment and what follows from it; None where it holds no people, no produce or no fish."""

    one: Treatment
    zone: str
    enter_at: datetime | None
    pick_at: datetime | None
    fish_at: datetime | None
    warnings: tuple[str, ...] = ()
    inside: tuple[str, ...] = ()

    @property
    def enter(self) -> str:
        """When people may go in again."""
        return self._words(self.enter_at)

    @property
    def pick(self) -> str:
        """When what grows there may be picked to be eaten."""
        return self._words(self.pick_at)

    @property
    def fish(self) -> str:
        """When fish may be taken to be eaten."""
        return self._words(self.fish_at)

    @property
    def summary(self) -> str:
        """The treatment and its holds, in a line."""
        one = self.one
        holds = (("people in", self.enter), ("harvest", self.pick), ("fish", self.fish))
        held = "; ".join(f"{what} from {when}" for what, when in holds if when)
        return f"{one.product} on {one.where}, {short_day(one.day)}. {held or 'It holds nothing'}. Number {one.id}."

    @property
    def lines(self) -> tuple[str, ...]:
        """All that is known of it, line by line."""
        one = self.one
        named = (
            ("amount", one.amount_typed),
            ("active", one.active),
            ("registration", one.registration),
            ("against", one.against),
            ("by", f"{one.actor}, {short_day(one.day)} {clock.hour_of(one.at, self.zone)}"),
            ("label", f"{one.reentry_hours} h to re-entry, {one.harvest_days} days to harvest, {_fish_words(one)}"),
            ("note", one.note),
        )
        said = (f"{name:<13} {words}" for name, words in named if words)
        inside = (f"In the hold   {words}" for words in self.inside)
        return (self.summary, *said, *self.warnings, *inside)

    def _words(self, at: datetime | None) -> str:
        if at is None:
            return ""
        return f"{short_day(at.astimezone(clock.time_zone(self.zone)).date())} {clock.hour_of(at, self.zone)}"


def _fish_words(one: Treatment) -> str:
    return "fish not named" if one.fish_days is None else f"{one.fish_days} days for fish"


def told_of(one: Treatment, zone: str, inside: Iterable[str] = ()) -> Told:
    """A treatment with what follows from it."""
    entered = one.at + timedelta(hours=one.reentry_hours)

    def over(days: int | None) -> datetime | None:
        return max(clock.days_later(one.at, days, zone), entered) if days else None

    warnings = (*(harm.told for harm in harms_of(one.product, one.active)), THE_LABEL)
    enter = entered if one.reentry_hours else None
    return Told(one, zone, enter, over(one.harvest_days), over(one.fish_days), warnings, tuple(inside))


def treatments_of(store: Store, first: date, last: date, unit: str | None = None) -> list[Told]:
    """The treatments of a span, the latest first; of one unit or all. Raises NotFound for an unknown unit."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        code = unit_named(reader, unit.strip().upper()).code if unit is not None else None
        found = treatment_facts.treatments(reader, first, last)[::-1]
        return [_with_inside(reader, farm, one) for one in found if code in (None, one.unit)]


def treatment_called(store: Store, number: int) -> Told:
    """The treatment of that number. Raises NotFound."""
    with store.reading() as reader:
        farm, found = farm_facts.farm(reader), treatment_facts.treatment(reader, number)
        if found is None:
            raise NotFound(f"There is no treatment {number}. See: farmops treatments list")
        return _with_inside(reader, farm, found)


def _with_inside(reader: Reader, farm: Farm, one: Treatment) -> Told:
    inside = (weighing_words(each, farm.measures) for each in weighed_inside(reader, one.id))
    return told_of(one, farm.time_zone, inside)


def treated_place(store: Store, text: str) -> dict[str, Any]:
    """The unit, bed or fish lot that is meant, by the column it is stored in. Raises NotFound."""
    wanted = text.strip().upper()
    with store.reading() as reader:
        farm_facts.farm(reader)
        known = {
            "unit_id": {one.code: one.id for one in unit_facts.units(reader)},
            "bed_id": {one.code: one.id for one in bed_facts.beds(reader)},
            "fish_lot_id": {one.code: one.id for one in fish_facts.lots(reader)},
        }
    found = next(((column, places[wanted]) for column, places in known.items() if wanted in places), None)
    if found is None:
        names = ", ".join([name for places in known.values() for name in places][:12])
        raise NotFound(f"There is no unit, bed or fish lot {plain(text)}. Known: {names or 'none yet'}.")
    return dict([found])
