"""Rows about what the water is read with and held to: instruments, their checks, limits of one's own."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from farmops.facts import instruments as instrument_facts
from farmops.facts import limits as limit_facts
from farmops.farm.file_rows.booking import Booking, Mark, agrees, alike, by, named, needed, refuse_other
from farmops.farm.instruments import add_instrument, change_instrument, check_instrument
from farmops.farm.operation import Operation
from farmops.farm.own_limits import set_own_limit
from farmops.model.frozen import dataclass
from farmops.model.instruments import InstrumentChange, NewCheck, NewInstrument
from farmops.model.limits import NewOwnLimit
from farmops.model.readings import Form, Measure
from farmops.records.reading import Reader


@dataclass(frozen=True, slots=True)
class InstrumentSaid:
    """What a row says of an instrument, None where it says nothing; it is retired on `until_day`."""

    name: str
    reads: tuple[Measure, ...] = ()
    from_day: date | None = None
    form: Form | None = None
    expires_day: date | None = None
    until_day: date | None = None
    check_days: int | None = None
    note: str | None = None


def _instrument_there(op: Operation, said: InstrumentSaid) -> bool:
    held = next((one for one in instrument_facts.instruments(op.reader) if alike(one.name) == alike(said.name)), None)
    if held is None:
        return False
    refuse_other(
        held.name,
        list_of_measures=(set(said.reads) or None, set(held.reads)),
        first_day=(said.from_day, held.from_day),
        form=(said.form, held.form),
        date_printed_on_it=(said.expires_day, held.expires_day),
        last_day=(said.until_day, held.until_day),
        time_between_checks=(said.check_days, held.check_days),
        note=(said.note, held.note),
    )
    return True


def _book_instrument(op: Operation, said: InstrumentSaid) -> None:
    """Take an instrument into service, one that is retired since with its last day."""
    from_day = needed(said.from_day, "from")
    entry = NewInstrument(said.name, said.reads, from_day, said.form, said.expires_day, said.check_days, said.note)
    added = add_instrument.body(op, entry)
    if said.until_day is not None:
        change_instrument.body(op, InstrumentChange(added.id, until_day=said.until_day))


def _checks_held(reader: Reader, entries: Sequence[NewCheck]) -> list[Mark]:
    return [
        (one.instrument_id, one.day, one.passed, alike(one.against), alike(one.showed))
        for one in instrument_facts.checks(reader)
    ]


def _limit_there(op: Operation, said: NewOwnLimit) -> bool:
    place = said.from_day, said.unit_id, said.measure
    held = [x for x in limit_facts.own_limits(op.reader) if (x.from_day, x.unit_id, x.measure) == place]
    return any(
        _close(said.low, one.low) and _close(said.high, one.high) and agrees(said.note, one.note) for one in held
    )


def _close(said: float | None, held: float | None) -> bool:
    return said == held or (said is not None and held is not None and f"{said:.6g}" == f"{held:.6g}")


BOOKINGS: dict[str, Booking[Any]] = {
    "instruments": named(_instrument_there, _book_instrument),
    "instrument checks": Booking(
        lambda one: (one.instrument_id, one.day, one.passed, alike(one.against), alike(one.showed)),
        _checks_held,
        by(check_instrument.body),
        one_by_one=True,
    ),
    "own limits": named(_limit_there, set_own_limit.body),
}
