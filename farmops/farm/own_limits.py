"""Own limits of the water: what the grower wants of a measure from a day on, for one unit or for all."""

from __future__ import annotations

from typing import Any

from farmops.facts import limits as limit_facts
from farmops.farm.operation import Operation, operation, rule
from farmops.model.errors import Refused
from farmops.model.limits import NewOwnLimit, OwnLimit
from farmops.model.readings import TEMPERATURES, Measure
from farmops.model.text import note_of
from farmops.quantities.readings import check_possible, show_value
from farmops.records.readings import LimitRow
from farmops.records.units import UnitRow


@operation("own limit")
def set_own_limit(op: Operation, entry: NewOwnLimit) -> OwnLimit:
    """Set limits of a measure from a day on, in place of what was set for that very day."""
    if entry.unit_id is not None:
        op.get(UnitRow, entry.unit_id)
    day = op.sensible_day(entry.from_day)
    values: dict[str, Any] = {"low": entry.low, "high": entry.high, "note": note_of(entry.note)}
    same = (day, entry.unit_id, entry.measure)
    held = next((x for x in limit_facts.own_limits(op.reader) if (x.from_day, x.unit_id, x.measure) == same), None)
    if held is not None:
        row = op.change(op.get(LimitRow, held.id), **values)
    else:
        row = op.add(LimitRow(from_day=day, unit_id=entry.unit_id, measure=entry.measure.value, **values))
    found = limit_facts.own_limit(op.reader, row.id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found


@rule(LimitRow, alone=True)
def leaves_room(op: Operation, row: LimitRow) -> None:
    """An own limit names a low or a high that can be, the low not above the high."""
    measure, measures = Measure(row.measure), op.farm.measures
    if measure in TEMPERATURES[1:]:
        raise Refused(f"Not booked: the limits of the temperature hold for the {measure} too. Set them on temperature.")
    if row.low is None and row.high is None:
        raise Refused(f"Not booked: say how low or how high {measure} may be.")
    for value in (row.low, row.high):
        if value is not None:
            check_possible(value, measure, measures)
    if row.low is not None and row.high is not None and row.low > row.high:
        low, high = (show_value(one, measure, measures) for one in (row.low, row.high))
        raise Refused(f"Not booked: at least {low} and at most {high} leave no room. Say them the other way round.")
