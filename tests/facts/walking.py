"""Chores as the tables tell them: where they belong, in walking order."""

from __future__ import annotations

from farmops.model.chores import Chore, ChoreClass, PartOfDay
from farmops.records.beds import BedRow
from farmops.records.chores import ChoreRow
from farmops.records.farm import PersonRow
from farmops.records.fish import FishLotRow
from farmops.records.units import UnitRow
from tests.facts.tables import Tables, columns

COLUMNS = (
    *("id", "title", "bed_id", "fish_lot_id", "rule_kind", "rule_text", "rule_words", "start_day", "minutes"),
    *("instructions", "caution", "readings", "confirmation", "adults_only", "months", "states", "with_fish"),
    *("template_key", "template_version", "next_due", "person_id"),
)


def unit_id_of(rows: Tables, row: ChoreRow) -> int | None:
    """The unit a chore belongs to: its own, its bed's, or the one its fish live in now."""
    if row.bed_id is not None:
        return rows.get(BedRow, row.bed_id).unit_id
    if row.fish_lot_id is not None:
        return rows.places(row.fish_lot_id)[-1].unit_id
    return row.unit_id


def chore_of(rows: Tables, row: ChoreRow) -> Chore:
    """A chore with the names of where it belongs and who does it."""
    unit, lot = rows.find(UnitRow, unit_id_of(rows, row)), rows.find(FishLotRow, row.fish_lot_id)
    person = rows.find(PersonRow, row.person_id)
    return Chore(
        **columns(row, *COLUMNS),
        unit_id=unit.id if unit else None,
        unit=unit.code if unit else None,
        bed=rows.bed_code(row.bed_id) if row.bed_id else None,
        lot=lot.code if lot else None,
        grade=ChoreClass(row.grade),
        part=PartOfDay(row.part),
        person=person.name if person else None,
    )


def in_order(rows: Tables) -> list[ChoreRow]:
    """Every chore in walking order."""
    return sorted(rows[ChoreRow], key=lambda row: (*rows.walking(unit_id_of(rows, row)), row.id))
