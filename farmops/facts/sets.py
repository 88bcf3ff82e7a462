"""Sets of chores: what an occasion gives, told from the templates in force and from what a place has already."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import field
from datetime import date, timedelta
from typing import TYPE_CHECKING

from farmops.facts import beds as bed_facts
from farmops.facts import chores as chore_facts
from farmops.facts import fish as fish_facts
from farmops.facts import templates as template_facts
from farmops.facts import units as unit_facts
from farmops.library import ChoreTemplate, of_state
from farmops.model.beds import Bed, BedKind
from farmops.model.chores import AppliesTo, Occasion
from farmops.model.frozen import dataclass
from farmops.model.units import StateFrom, Unit, UnitKind, UnitState
from farmops.records.reading import Reader

if TYPE_CHECKING:
    from farmops.facts.fish import Span

MADE = """
    SELECT chore.id, chore.unit_id, chore.bed_id, chore.template_key
    FROM chore LEFT JOIN bed ON bed.id = chore.bed_id
    WHERE chore.template_key IS NOT NULL AND chore.fish_lot_id IS NULL
"""
OF_UNIT = "AND (COALESCE(chore.unit_id, bed.unit_id) = :unit OR (chore.unit_id IS NULL AND chore.bed_id IS NULL))"
ON_PLANTS = "when planting "
CAN_END = "rule_kind = 'once' OR (rule_kind = 'calendar' AND (rule_text LIKE '%COUNT=%' OR rule_text LIKE '%UNTIL=%'))"


@dataclass(frozen=True, slots=True)
class Place:
    """What a chore belongs to: a unit, a bed, or (neither) the farm."""

    unit_id: int | None = None
    bed_id: int | None = None


@dataclass(frozen=True, slots=True)
class Coming:
    """A template that an occasion calls for at a place; `open_chore` was made from it there and is not over yet."""

    template: ChoreTemplate
    place: Place
    open_chore: int | None = None


@dataclass(frozen=True, slots=True)
class Made:
    """The chores made from one template at one place: the open one, None when all are over."""

    open_chore: int | None


@dataclass(frozen=True, slots=True)
class Sets:
    """What sets of chores follow from. A chore is over when it is settled for good."""

    templates: tuple[ChoreTemplate, ...]
    made: Mapping[tuple[Place, str], Made] = field(default_factory=dict)
    beds: Mapping[int, Sequence[Bed]] = field(default_factory=dict)
    states: Mapping[int, Sequence[StateFrom]] = field(default_factory=dict)
    fish: Mapping[int, Sequence[Span]] = field(default_factory=dict)

    def on_state(self, unit: Unit, state: UnitState, day: date, today: date) -> list[Coming]:
        """What a unit, its beds and the farm get when it enters a state on a day.

        Nothing that is open there already; what is over comes again, unless the state before called for it, too.
        Of a state that the unit has left since, only what the state after it calls for as well.
        """
        before, fish = self._state(unit.id, day - timedelta(days=1)), self._fish(unit.id, day)
        after = next((one.state for one in self.states.get(unit.id, ()) if day < one.from_day <= today), state)
        called = (one for one in of_state(self.templates, unit.kind, state) if one.fits(unit.kind, after))
        found = self._at(unit, [one for one in called if fish or not one.with_fish])
        return [one for one in found if self._lacking(one, before)]

    def on_joining(self, kind: UnitKind, state: UnitState) -> list[Coming]:
        """What a unit that is not in the row yet, without beds and fish, and the farm will get in a state."""
        called = (one for one in of_state(self.templates, kind, state) if not one.with_fish)
        placed = (Coming(one, Place()) for one in called if one.applies_to is not AppliesTo.BED)
        return [one for one in placed if one.template.applies_to is AppliesTo.UNIT or self._lacking(one, None)]

    def on_bed(self, unit: Unit, bed: Bed, state: UnitState) -> list[Coming]:
        """What a new bed gets in the state its unit is in."""
        called = (one for one in of_state(self.templates, unit.kind, state) if one.applies_to is AppliesTo.BED)
        return [Coming(one, Place(bed_id=bed.id)) for one in called if _suits(one, bed)]

    def on_fish(self, unit: Unit, state: UnitState) -> list[Coming]:
        """What live fish call for in the state their unit is in."""
        called = [one for one in of_state(self.templates, unit.kind, state) if one.with_fish]
        return [one for one in self._at(unit, called) if self._lacking(one, state)]

    def on_occasion(self, occasion: Occasion, unit: Unit, day: date, bed: Bed | None = None) -> list[Coming]:
        """What an occasion gives to a unit, or to one bed of it: a set whose open chores last longer.

        What follows a planting is not put off by the next one: while it is open, it stays as it is.
        """
        state, fish = self._state(unit.id, day), self._fish(unit.id, day)
        called = [one for one in self.templates if one.occasion is occasion and one.fits(unit.kind, state)]
        found = self._at(unit, [one for one in called if fish or not one.with_fish], bed)
        return [one for one in found if one.open_chore is None or occasion is not Occasion.PLANTING]

    def wanted(self, unit: Unit) -> bool:
        """Whether the unit was given the chores of a state: one that was to have none gets none by itself."""
        of_events = {one.key for one in self.templates if one.occasion is not Occasion.STATE}
        return any(place.unit_id == unit.id and key not in of_events for place, key in self.made)

    def _at(self, unit: Unit, called: Iterable[ChoreTemplate], bed: Bed | None = None) -> list[Coming]:
        return [Coming(one, place, self._open(place, one)) for one in called for place in self._places(one, unit, bed)]

    def _places(self, template: ChoreTemplate, unit: Unit, bed: Bed | None) -> Iterator[Place]:
        if template.applies_to is AppliesTo.FARM:
            yield Place()
        elif bed is not None:
            yield Place(bed_id=bed.id)
        elif template.applies_to is AppliesTo.UNIT:
            yield Place(unit_id=unit.id)
        else:
            yield from (Place(bed_id=one.id) for one in self.beds.get(unit.id, ()) if _suits(template, one))

    def _open(self, place: Place, template: ChoreTemplate) -> int | None:
        made = self.made.get((place, template.key))
        return made.open_chore if made else None

    def _lacking(self, coming: Coming, before: UnitState | None) -> bool:
        """Whether the place has none: none that is open, and none over that belongs to the time before as well."""
        made = self.made.get((coming.place, coming.template.key))
        return made is None or (made.open_chore is None and before not in (coming.template.states or (before,)))

    def held(self, unit_id: int, day: date) -> StateFrom | None:
        """The state a unit is in on a day, and since when."""
        reached = (one for one in self.states.get(unit_id, ()) if one.from_day <= day)
        return max(reached, key=lambda one: one.from_day, default=None)

    def _state(self, unit_id: int, day: date) -> UnitState | None:
        held = self.held(unit_id, day)
        return held.state if held else None

    def _fish(self, unit_id: int, day: date) -> bool:
        """Whether live fish are in a unit on a day or later."""
        return any(last is None or last >= day for _, last in self.fish.get(unit_id, ()))


def _suits(template: ChoreTemplate, bed: Bed) -> bool:
    """Work on the bed itself is that of media beds; work on what grows there is that of every bed."""
    on_plants = template.occasion is Occasion.PLANTING or template.words.startswith(ON_PLANTS)
    return on_plants or bed.kind is BedKind.MEDIA


def sets(reader: Reader, unit: int | None = None) -> Sets:
    """What sets of chores follow from, for every unit or for one and the farm."""
    beds: dict[int, list[Bed]] = {}
    for bed in bed_facts.beds(reader, unit):
        beds.setdefault(bed.unit_id, []).append(bed)
    return Sets(
        templates=template_facts.templates(reader),
        made=_made(reader, unit),
        beds=beds,
        states=unit_facts.all_states(reader),
        fish=fish_facts.fish_spans(reader),
    )


def _made(reader: Reader, unit: int | None) -> dict[tuple[Place, str], Made]:
    query, given = (MADE, {}) if unit is None else (f"{MADE} {OF_UNIT}", {"unit": unit})
    rows = list(reader.rows(f"{query} ORDER BY chore.id", **given))
    over = _over(reader, [row["id"] for row in rows])
    found: dict[tuple[Place, str], Made] = {}
    for row in rows:
        at = Place(row["unit_id"], row["bed_id"]), row["template_key"]
        if at not in found or row["id"] not in over:
            found[at] = Made(None if row["id"] in over else row["id"])
    return found


def _over(reader: Reader, ids: Sequence[int]) -> set[int]:
    """Those of the chores that are settled for good."""
    listed = ", ".join(str(int(id)) for id in ids) or "NULL"
    ending = [row["id"] for row in reader.rows(f"SELECT id FROM chore WHERE id IN ({listed}) AND ({CAN_END})")]
    return {one.chore_id for one in chore_facts.plans(reader, ending) if one.over}
