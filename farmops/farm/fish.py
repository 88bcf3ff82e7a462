"""Fish lots: stocked into a unit, corrected, and closed when none are left."""

from __future__ import annotations

from datetime import date
from typing import Any

from farmops import library
from farmops.facts import fish as fish_facts
from farmops.facts import harvests as harvest_facts
from farmops.facts import units as unit_facts
from farmops.farm.fields import given, mapped, measured
from farmops.farm.operation import Operation, operation, rule
from farmops.farm.templates import give_fish_chores
from farmops.farm.unlikely import ask_species
from farmops.model.errors import OutOfRange, Refused
from farmops.model.fish import FishLot, FishLotChange, NewFishLot
from farmops.model.text import code_of, name_of, note_of
from farmops.model.units import UnitState
from farmops.records.fish import FishLotRow, LotPlaceRow
from farmops.records.supplies import PaperRow
from farmops.records.units import UnitRow

MOST_FISH = 1_000_000


@operation("stock fish")
def stock(op: Operation, entry: NewFishLot) -> FishLot:
    """Fish go into a unit, with the chores that live fish call for.

    Asks once, by Unlikely, about a species that no packaged facts go with.
    """
    unit = op.get(UnitRow, entry.unit_id)
    day = op.sensible_day(entry.stocked_day)
    refuse_retired(op, unit, day)
    row = FishLotRow(
        code=free_code(op, entry.code),
        species=_species(entry.species),
        library_key=entry.library_key,
        stocked_day=day,
        number=number_of(entry.number),
        mean_mg=entry.mean.exact,
        mean_typed=entry.mean.typed,
        closed_day=None,
        source=note_of(entry.source, "source"),
        paper_id=op.get(PaperRow, entry.paper_id).id if entry.paper_id else None,
        note=note_of(entry.note),
    )
    ask_species(op, row.species, sure=entry.sure or entry.library_key is not None)
    op.add(row)
    op.add(LotPlaceRow(fish_lot_id=row.id, unit_id=unit.id, from_day=day))
    give_fish_chores(op, unit.id, day)
    return lot_of(op, row.id)


@operation("change fish lot")
def change_lot(op: Operation, entry: FishLotChange) -> FishLot:
    """Correct a lot, or close it: `closed_day` is the last day with fish. Asks about another species as stocking does.

    Under the name of a species with packaged facts a lot gets those, unless it has some.
    """
    row = op.get(FishLotRow, entry.lot_id)
    values = given(entry, "code", "species", "stocked_day", "number", "closed_day", "note", "source", "paper_id")
    if "code" in values:
        values["code"] = free_code(op, values["code"], besides=row.id)
    values = mapped(values, species=_species, number=number_of, note=note_of, closed_day=op.sensible_end)
    if values.get("species", row.species) != row.species:
        ask_species(op, values["species"], sure=entry.sure)
        values |= _facts_by(values["species"], row)
    if values.get("paper_id") is not None:
        op.get(PaperRow, values["paper_id"])
    moved = values.get("stocked_day", row.stocked_day) != row.stocked_day
    if moved:
        _move_stocking(op, row, values["stocked_day"])
    op.change(row, **values, **measured(entry.mean, "mean_mg", "mean_typed"))
    return lot_of(op, row.id)


def _facts_by(species: str, row: FishLotRow) -> dict[str, Any]:
    facts = library.species(species)
    return {"library_key": facts.key} if facts and row.library_key is None else {}


def _move_stocking(op: Operation, row: FishLotRow, day: date) -> None:
    query = "SELECT id FROM lot_place WHERE fish_lot_id = :lot ORDER BY from_day LIMIT 1"
    place = op.get(LotPlaceRow, int(op.reader.value(query, lot=row.id)))
    op.change(place, from_day=op.sensible_day(day))


@rule(FishLotRow, alone=True)
def ends_after_it_starts(op: Operation, row: FishLotRow) -> None:
    """A lot is closed no earlier than it was stocked."""
    if row.closed_day is not None and row.closed_day < row.stocked_day:
        raise Refused(
            f"Not booked: {row.code} would be closed on {row.closed_day}, before stocking on {row.stocked_day}."
        )


@rule(FishLotRow)
def keeps_its_harvests(op: Operation, row: FishLotRow) -> None:
    """A lot spans all its harvests."""
    span = harvest_facts.span_of_lot(op.reader, row.id)
    if span is None:
        return
    first, last = span
    if first < row.stocked_day or (row.closed_day is not None and last > row.closed_day):
        raise Refused(f"Not booked: there are weighings from {row.code} between {first} and {last}.")


def refuse_retired(op: Operation, unit: UnitRow, day: date) -> None:
    """Raise Refused for a unit that is retired on a day."""
    held = [one for one in unit_facts.states(op.reader, unit.id) if one.from_day <= day]
    if held and held[-1].state is UnitState.RETIRED:
        raise Refused(f"Not booked: {unit.code} is retired since {held[-1].from_day}.")


def number_of(number: int) -> int:
    """A number of fish. Raises OutOfRange."""
    if not 0 < number <= MOST_FISH:
        raise OutOfRange(f"{number} is no number of fish. Understood: 1 to {MOST_FISH:,}.")
    return number


def _species(text: str) -> str:
    return name_of(text, "species").lower()


def free_code(op: Operation, text: str, besides: int | None = None) -> str:
    """The code of a lot, which no other has. Raises Refused or NotUnderstood."""
    code = code_of(text, "code of a fish lot")
    taken = fish_facts.lot_called(op.reader, code)
    if taken is not None and taken.id != besides:
        raise Refused(f"There is already a fish lot {code}.")
    return code


def lot_of(op: Operation, id: int) -> FishLot:
    """The lot of that id, which was written a moment ago."""
    found = fish_facts.lot(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
