"""What the tables say of templates in force, and of what sets of chores follow from."""

from __future__ import annotations

from collections.abc import Iterator

from farmops.facts import sets, templates
from farmops.facts.sets import Made, Place, Sets
from farmops.library import ChoreTemplate, Standing, chore_templates
from farmops.model.beds import Bed, BedKind
from farmops.model.chores import AppliesTo, ChoreClass, Occasion, PartOfDay
from farmops.model.templates import OwnTemplate
from farmops.model.units import StateFrom, UnitKind, UnitState
from farmops.records.beds import BedRow
from farmops.records.chores import ChoreRow, SettlementRow, TemplateRow
from farmops.records.units import UnitRow, UnitStateRow
from farmops.schedule.occurrences import next_occurrence
from farmops.schedule.rules import OnCalendar
from tests.facts.of_places import spans_with_fish
from tests.facts.tables import Answer, Tables, columns, says

TEXTS = (
    *("key", "version", "title", "rule", "minutes", "instructions", "caution", "confirmation", "adults_only"),
    *("with_fish",),
)
LISTS = ("kinds", "states", "readings", "months")


def words(row: TemplateRow) -> dict[str, object]:
    """The columns that hold a word of the model."""
    return {
        "applies_to": AppliesTo(row.applies_to),
        "occasion": Occasion(row.occasion),
        "grade": ChoreClass(row.grade),
        "part": PartOfDay(row.part),
    }


@says(templates.own_templates)
def what_the_grower_changed(rows: Tables) -> Iterator[Answer]:
    own = sorted(rows[TemplateRow], key=lambda row: row.key)
    yield (), [OwnTemplate(**columns(row, *TEXTS, *LISTS, "dropped"), **words(row)) for row in own]  # type: ignore[arg-type]


def in_force(rows: Tables) -> tuple[ChoreTemplate, ...]:
    """The packaged templates with the grower's in their places, without those that are dropped."""
    own = {row.key: row for row in rows[TemplateRow]}
    found = [_own(own[one.key]) if one.key in own else one for one in chore_templates()]
    return tuple(one for one in found if one.key not in own or not own[one.key].dropped)


def _own(row: TemplateRow) -> ChoreTemplate:
    split = {name: [word for word in (getattr(row, name) or "").split(",") if word] for name in LISTS}
    return ChoreTemplate(
        **{**columns(row, *TEXTS), "instructions": row.instructions or ""},
        **words(row),  # type: ignore[arg-type]
        kinds=tuple(map(UnitKind, split["kinds"])),
        states=tuple(map(UnitState, split["states"])),
        readings=tuple(split["readings"]),
        months=tuple(map(int, split["months"])),
        source="none: changed on this farm",
        standing=Standing.COMMON_PRACTICE,
    )


@says(templates.templates)
def templates_in_force(rows: Tables) -> Iterator[Answer]:
    yield (), in_force(rows)


def is_over(rows: Tables, row: ChoreRow) -> bool:
    """Whether a chore is settled for good: once and settled, or past its last occurrence."""
    settled = [one.occurrence for one in rows[SettlementRow] if one.chore_id == row.id and one.kind != "deferred"]
    if row.rule_kind == "once":
        return bool(settled)
    calendar = row.rule_kind == "calendar" and bool(settled)
    return calendar and next_occurrence(OnCalendar(row.rule_text, row.start_day), max(settled)) is None


def _made(rows: Tables, unit_id: int | None) -> dict[tuple[Place, str], Made]:
    found: dict[tuple[Place, str], Made] = {}
    for row in rows[ChoreRow]:
        home = row.unit_id or (rows.get(BedRow, row.bed_id).unit_id if row.bed_id else None)
        if row.template_key is None or row.fish_lot_id is not None or (unit_id and home not in (None, unit_id)):
            continue
        at = Place(row.unit_id, row.bed_id), row.template_key
        if not is_over(rows, row):
            found[at] = Made(row.id)
        found.setdefault(at, Made(None))
    return found


def _bed(rows: Tables, row: BedRow) -> Bed:
    unit = rows.get(UnitRow, row.unit_id)
    names = ("id", "unit_id", "name", "depth_um", "depth_typed", "note")
    return Bed(**columns(row, *names), unit=unit.code, kind=BedKind(row.kind))


def _states(rows: Tables) -> dict[int, list[StateFrom]]:
    found: dict[int, list[StateFrom]] = {}
    for row in sorted(rows[UnitStateRow], key=lambda row: (row.unit_id, row.from_day)):
        found.setdefault(row.unit_id, []).append(StateFrom(row.from_day, UnitState(row.state)))
    return found


@says(sets.sets)
def what_sets_follow_from(rows: Tables) -> Iterator[Answer]:
    ((_, spans),) = spans_with_fish(rows)
    for unit_id in (None, *(unit.id for unit in rows[UnitRow])):
        beds: dict[int, list[Bed]] = {}
        for row in sorted(rows[BedRow], key=lambda row: row.name):
            if unit_id in (None, row.unit_id):
                beds.setdefault(row.unit_id, []).append(_bed(rows, row))
        yield (unit_id,), Sets(in_force(rows), _made(rows, unit_id), beds, _states(rows), spans)
