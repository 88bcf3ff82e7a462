"""How costs are shared: drivers, the split between produce and fish, and rates of an hour, each from a day on."""

from __future__ import annotations

from datetime import date
from typing import Any

from farmops.facts import costs as cost_facts
from farmops.facts import labour as labour_facts
from farmops.farm.operation import Operation, operation, rule
from farmops.model.costs import (
    ALL_SHARED,
    Driver,
    DriverFrom,
    JointMethod,
    JointSplit,
    LabourRate,
    NewDriver,
    NewJointSplit,
    NewLabourRate,
)
from farmops.model.errors import OutOfRange, Refused
from farmops.records.costs import DriverRow, DriverShareRow, JointSplitRow, LabourRateRow
from farmops.records.farm import PersonRow
from farmops.records.units import UnitRow

WHOLE = 1000


@operation("driver")
def set_driver(op: Operation, entry: NewDriver) -> DriverFrom:
    """Shared costs of a category, or of all others, go to the units by this from a day on."""
    day, category = op.sensible_day(entry.from_day), entry.category.value if entry.category else ALL_SHARED
    _check_shares(op, entry)
    row = _driver_of(op, category, day)
    if row is None:
        row = op.add(DriverRow(category=category, from_day=day, driver=entry.driver.value))
    else:
        op.change(row, driver=entry.driver.value)
        _remove_shares(op, row.id)
    op.add_all([DriverShareRow(driver_id=row.id, unit_id=unit, parts=parts) for unit, parts in entry.shares])
    return next(one for one in cost_facts.drivers(op.reader) if one.id == row.id)


def _driver_of(op: Operation, category: str, day: date) -> DriverRow | None:
    found = [one for one in cost_facts.drivers(op.reader) if (one.category, one.from_day) == (category, day)]
    return op.get(DriverRow, found[0].id) if found else None


def _remove_shares(op: Operation, driver: int) -> None:
    for row in list(op.reader.rows("SELECT id FROM driver_share WHERE driver_id = :driver", driver=driver)):
        op.remove(op.get(DriverShareRow, row["id"]))


def _check_shares(op: Operation, entry: NewDriver) -> None:
    if (entry.driver is Driver.FIXED_SHARES) != bool(entry.shares):
        raise Refused("Not booked: fixed shares name the units and their parts, as in WREN=2 ROOK=1; others name none.")
    for unit, parts in entry.shares:
        op.get(UnitRow, unit)
        if not 0 <= parts <= WHOLE * WHOLE:
            raise OutOfRange(f"{parts} is no share. Understood: whole parts, such as 2 and 1.")
    if entry.shares and not any(parts for _, parts in entry.shares):
        raise Refused("Not booked: of the shares at least one is more than nothing.")


@operation("split of joint cost")
def set_joint_split(op: Operation, entry: NewJointSplit) -> JointSplit:
    """The cost of a unit is split between its produce and its fish by this method from a day on."""
    day = op.sensible_day(entry.from_day)
    values: dict[str, Any] = {"method": entry.method.value, "produce_thousandths": entry.produce_thousandths}
    found = [one for one in cost_facts.joint_splits(op.reader) if one.from_day == day]
    if found:
        op.change(op.get(JointSplitRow, found[0].id), **values)
    else:
        op.add(JointSplitRow(from_day=day, **values))
    return next(one for one in cost_facts.joint_splits(op.reader) if one.from_day == day)


@rule(JointSplitRow, alone=True)
def shares_go_with_fixed_shares(op: Operation, row: JointSplitRow) -> None:
    """Only fixed shares say how much the produce bears."""
    if (row.method == JointMethod.FIXED_SHARES.value) != (row.produce_thousandths is not None):
        raise Refused("Not booked: fixed shares say how much the produce bears, as in 70 %; other methods work it out.")
    if row.produce_thousandths is not None and not 0 <= row.produce_thousandths <= WHOLE:
        raise OutOfRange("Not booked: the produce bears between nothing and all of it, 0 to 100 %.")


@operation("labour rate")
def set_labour_rate(op: Operation, entry: NewLabourRate) -> LabourRate:
    """An hour of work is worth this from a day on, of one person or of all who have no rate of their own."""
    day = op.sensible_day(entry.from_day)
    if entry.person_id is not None:
        op.get(PersonRow, entry.person_id)
    if entry.rate.exact < 0:
        raise OutOfRange("Not booked: an hour of work is worth nothing or more.")
    values: dict[str, Any] = {"rate_minor": entry.rate.exact, "typed": entry.rate.typed}
    for one in labour_facts.rates(op.reader):
        if (one.person_id, one.from_day) == (entry.person_id, day):
            op.change(op.get(LabourRateRow, one.id), **values)
            return _rate(op, one.id)
    row = op.add(LabourRateRow(from_day=day, person_id=entry.person_id, **values))
    return _rate(op, row.id)


def _rate(op: Operation, id: int) -> LabourRate:
    return next(one for one in labour_facts.rates(op.reader) if one.id == id)
