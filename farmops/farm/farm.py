"""Opening the farm, its settings and its people."""

from __future__ import annotations

from dataclasses import asdict

from farmops import clock
from farmops.facts import chores as chore_facts
from farmops.facts import farm as farm_facts
from farmops.farm.fields import given, measured
from farmops.farm.operation import Operation, operation, rule
from farmops.model.errors import NoFarm, Refused
from farmops.model.farm import Farm, FarmChange, NewFarm, NewPerson, Person, PersonChange
from farmops.model.journal import Through
from farmops.model.text import name_of, note_of
from farmops.records.farm import FarmRow, PersonRow
from farmops.records.store import Store


def open_farm(
    store: Store, entry: NewFarm, *, by: str, operation: str | None = None, through: Through = Through.COMMAND
) -> Farm:
    """Open a farm in a store that has none; the store is made where it does not exist."""
    if not store.has_schema():
        store.create()
    return _open(store, entry, by=by, operation=operation, through=through)


@operation("open the farm", opens=True)
def _open(op: Operation, entry: NewFarm) -> Farm:
    try:
        existing = farm_facts.farm(op.reader)
    except NoFarm:
        pass
    else:
        raise Refused(f"Not opened: this store already holds the farm {existing.name}. One store holds one farm.")
    values = {
        "name": name_of(entry.name, "name of the farm"),
        **asdict(entry.measures),
        "time_zone": entry.time_zone,
        "opened_day": entry.stands_on or clock.today(entry.time_zone),
        "stands_on_day": entry.stands_on,
        **measured(entry.altitude, "altitude_um", "altitude_typed"),
    }
    op.add(FarmRow(id=1, **values))
    return farm_facts.farm(op.reader)


@operation("change the farm")
def change_farm(op: Operation, entry: FarmChange) -> Farm:
    """Change the name, the measures or the time zone. What was recorded stays as exact as it was."""
    values = given(entry, "name", "time_zone")
    if "name" in values:
        values["name"] = name_of(values["name"], "name of the farm")
    if "time_zone" in values:
        clock.time_zone(values["time_zone"])
    for measures in given(entry, "measures").values():
        values |= asdict(measures)
    if op.farm.measures.currency != values.get("currency", op.farm.measures.currency):
        _refuse_with_money(op)
    op.change(op.get(FarmRow, 1), **values, **measured(entry.altitude, "altitude_um", "altitude_typed"))
    return farm_facts.farm(op.reader)


def _refuse_with_money(op: Operation) -> None:
    booked = op.reader.value(
        "SELECT (SELECT COUNT(*) FROM cost) + (SELECT COUNT(*) FROM price) + (SELECT COUNT(*) FROM power_price)"
        " + (SELECT COUNT(*) FROM labour_rate)"
    )
    if booked:
        raise Refused(f"Not changed: {booked} costs and prices are booked in {op.farm.measures.currency}.")


@operation("add person")
def add_person(op: Operation, entry: NewPerson) -> Person:
    """Somebody begins to work here."""
    _refuse_second(op, name_of(entry.name, "name"))
    return write_person(op, entry)


def write_person(op: Operation, entry: NewPerson) -> Person:
    """Write down somebody who is known to be the only one of that name."""
    row = op.add(PersonRow(name=name_of(entry.name, "name"), note=note_of(entry.note), minor=entry.minor))
    return _person(op, row.id)


@operation("change person")
def change_person(op: Operation, entry: PersonChange) -> Person:
    """Correct a name, a note, or whether somebody is a minor."""
    row = op.get(PersonRow, entry.person_id)
    values = given(entry, "name", "note", "minor")
    if "name" in values:
        values["name"] = name_of(values["name"], "name")
        _refuse_second(op, values["name"], besides=row.id)
    if "note" in values:
        values["note"] = note_of(values["note"])
    op.change(row, **values)
    return _person(op, row.id)


@rule(PersonRow)
def minors_have_no_chores_for_adults(op: Operation, row: PersonRow) -> None:
    """Whoever has chores for adults only is no minor."""
    held = chore_facts.adults_only_of(op.reader, row.id) if row.minor else []
    if held:
        raise Refused(
            f"Not booked: {held[0].title} is for adults only and falls to {row.name} as a rule. "
            f"Give it to somebody else first: farmops chores edit {held[0].id} --anyone"
        )


def _refuse_second(op: Operation, name: str, besides: int | None = None) -> None:
    for person in farm_facts.people(op.reader):
        if person.name.casefold() == name.casefold() and person.id != besides:
            raise Refused(f"There is already somebody called {person.name}.")


def _person(op: Operation, id: int) -> Person:
    found = farm_facts.person(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
