"""Booking the rows of a file in one operation: what the farm holds already stays out, what is refused is named."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any, Generic, TypeVar

from farmops.facts import costs as cost_facts
from farmops.facts import fish_events as event_facts
from farmops.facts import instruments as instrument_facts
from farmops.facts import plantings as planting_facts
from farmops.facts import readings as reading_facts
from farmops.farm.batches import Grown, plant_one
from farmops.farm.costs import ask_about_a_double, cost_row
from farmops.farm.fish_events import record_feeding, record_loss, weigh_sample
from farmops.farm.operation import Operation, operation
from farmops.farm.progress import Watch, watched
from farmops.farm.readings import reading_rows
from farmops.model.costs import Cost, NewCost
from farmops.model.errors import FarmopsError, Refused, Unlikely
from farmops.model.fish_events import NewFeeding, NewLoss, NewSample
from farmops.model.readings import NewReadings, Reading
from farmops.records.base import Row
from farmops.records.reading import Reader
from farmops.science.judging import as_reported

E = TypeVar("E")
Entry = NewReadings | NewCost | NewFeeding | NewSample | NewLoss | Grown
Mark = Hashable
"""What makes two records the same for a file that comes a second time."""
Book = Callable[[E], Sequence[Row]]
"""Books an entry, or gives the rows of it to be written with those of others; raises before anything is written."""
AT_ONCE = 500
"""Rows that are written together."""


@dataclass(frozen=True, slots=True)
class FileRow:
    """What a row of a file books, the line it stands on, and its column where a line books several."""

    line: int
    entry: Entry
    column: str | None = None


@dataclass(frozen=True, slots=True)
class FileRows:
    """The rows of a file of one kind; `whole` books none of them when one is refused or asked about.

    `watch` is told how many have been gone through, and of how many.
    """

    kind: str
    rows: tuple[FileRow, ...]
    whole: bool = False
    watch: Watch | None = None


@dataclass(frozen=True, slots=True)
class Aside:
    """A row that is not booked, by its line, and why."""

    line: int
    column: str | None
    reason: str


@dataclass(frozen=True, slots=True)
class RowsBooked:
    """How many rows were booked, how many the farm held already, which were refused and which are asked about."""

    booked: int
    already: int
    refused: tuple[Aside, ...] = ()
    asked: tuple[Aside, ...] = ()


@dataclass(frozen=True, slots=True)
class Booking(Generic[E]):
    """How entries of a kind are booked: by what they are known again, and what the farm holds of the like.

    Entries `one_by_one` write several rows, or are held against the others of the file by a rule.
    """

    mark: Callable[[E], Mark]
    held: Callable[[Reader, Sequence[E]], Iterable[Mark]]
    begin: Callable[[Operation], Book[E]]
    one_by_one: bool = False


@operation("import file")
def book_rows(op: Operation, entry: FileRows) -> RowsBooked:
    """Book the rows that the farm does not hold yet; those that cannot be are named, and so are unlikely ones.

    Raises Refused where the file is to be booked as a whole and a row of it cannot be.
    """
    run = _Run(op, BOOKINGS[entry.kind], entry.rows)
    for row in watched(entry.rows, entry.watch):
        run.take(row)
    run.write()
    if entry.whole and (run.refused or run.asked):
        raise Refused(f"Not booked: {len(run.refused) + len(run.asked)} rows cannot be. Look at the file again.")
    return RowsBooked(run.booked, run.already, tuple(run.refused), tuple(run.asked))


class _Run:
    """Goes through the rows of a file once."""

    def __init__(self, op: Operation, booking: Booking[Any], rows: Sequence[FileRow]) -> None:
        self.op, self.booking = op, booking
        self.held = Counter(booking.held(op.reader, [row.entry for row in rows]) if rows else ())
        self.book = booking.begin(op)
        self.waiting: list[Row] = []
        self.booked = self.already = 0
        self.refused: list[Aside] = []
        self.asked: list[Aside] = []

    def take(self, row: FileRow) -> None:
        """Book one, unless it is there already, is refused or is to be asked about."""
        mark = self.booking.mark(row.entry)
        if self.held[mark]:
            self.held[mark] -= 1
            self.already += 1
            return
        try:
            self._book(row.entry)
        except Unlikely as error:
            self.asked.append(_aside(row, error))
        except FarmopsError as error:
            self.refused.append(_aside(row, error))
        else:
            self.booked += 1

    def _book(self, entry: Entry) -> None:
        if self.booking.one_by_one:
            with self.op.attempt():
                self.book(entry)
            return
        self.waiting += self.op.checked(self.book(entry))
        if len(self.waiting) >= AT_ONCE:
            self.write()

    def write(self) -> None:
        """Write the rows that wait for it."""
        self.op.transaction.add_all(self.waiting)
        self.waiting = []


def _aside(row: FileRow, error: FarmopsError) -> Aside:
    reason = str(error).removeprefix("Not booked yet: ").removeprefix("Not booked: ")
    return Aside(row.line, row.column, reason)


def _book_readings(op: Operation) -> Book[NewReadings]:
    forms = reading_facts.last_forms(op.reader)
    usual = cache(lambda day: instrument_facts.read_with(op.reader, day))

    def book(entry: NewReadings) -> Sequence[Row]:
        known = forms, usual(entry.day)
        return reading_rows(op, entry.unit_id, entry.day, entry.readings, minute=entry.minute, known=known)

    return book


def _readings_held(reader: Reader, entries: Sequence[NewReadings]) -> list[Mark]:
    days = [one.day for one in entries]
    return [_reading_mark(one) for one in reading_facts.readings(reader, min(days), max(days))]


def _reading_mark(one: Reading) -> Mark:
    value = as_reported(one.measure, one.value, one.form)
    return one.unit_id, one.day, one.minute, (one.measure, f"{one.bound}{value:.6g}")


def _new_reading_mark(entry: NewReadings) -> Mark:
    (one,) = entry.readings
    sign = one.typed.lstrip()[:1]
    bound = sign if sign in ("<", ">") else ""
    return entry.unit_id, entry.day, entry.minute, (one.measure, f"{bound}{one.value:.6g}")


def _book_costs(op: Operation) -> Book[NewCost]:
    def book(entry: NewCost) -> Sequence[Row]:
        row = cost_row(op, entry)
        if not entry.again:
            ask_about_a_double(op, row)
        return [row]

    return book


def _costs_held(reader: Reader, entries: Sequence[NewCost]) -> list[Mark]:
    days = [one.day for one in entries]
    return [_cost_mark(one) for one in cost_facts.costs(reader, min(days), max(days))]


def _cost_mark(one: Cost) -> Mark:
    unit = None if one.bed_id or one.fish_lot_id else one.unit_id
    return one.day, _alike(one.what), one.amount_minor, _alike(one.payee), (unit, one.bed_id, one.fish_lot_id)


def _new_cost_mark(one: NewCost) -> Mark:
    places = (one.unit_id, one.bed_id, one.fish_lot_id)
    return one.day, _alike(one.what), one.amount.exact, _alike(one.payee), places


def _alike(text: str | None) -> str:
    return " ".join((text or "").casefold().split())


def _of_lots(
    read: Callable[[Reader, int], Iterable[Any]], mark: Callable[[Any], Mark]
) -> Callable[[Reader, Sequence[Any]], list[Mark]]:
    return lambda reader, entries: [
        mark(one) for lot in sorted({entry.lot_id for entry in entries}) for one in read(reader, lot)
    ]


def _grown_mark(one: Grown) -> Mark:
    planting = one.planting
    return planting.bed_id, planting.crop_id, planting.started_day, _alike(planting.variety)


def _plantings_held(reader: Reader, entries: Sequence[Grown]) -> list[Mark]:
    known = planting_facts.plantings(reader)
    return [(one.bed_id, one.crop_id, one.started_day, _alike(one.variety)) for one in known]


def _by(body: Callable[[Operation, Any], object]) -> Callable[[Operation], Book[Any]]:
    """Book each entry by the operation that books it by hand."""

    def begin(op: Operation) -> Book[Any]:
        def book(entry: Any) -> Sequence[Row]:
            body(op, entry)
            return ()

        return book

    return begin


BOOKINGS: dict[str, Booking[Any]] = {
    "readings": Booking(_new_reading_mark, _readings_held, _book_readings),
    "costs": Booking(_new_cost_mark, _costs_held, _book_costs),
    "feedings": Booking(
        lambda one: (one.lot_id, one.day, one.mass.exact, one.ate),
        _of_lots(event_facts.feedings, lambda one: (one.lot_id, one.day, one.mass_mg, one.ate)),
        _by(record_feeding.body),
        one_by_one=True,
    ),
    "samples": Booking(
        lambda one: (one.lot_id, one.day, one.number, one.mass and one.mass.exact),
        _of_lots(event_facts.samples, lambda one: (one.lot_id, one.day, one.number, one.mass_mg)),
        _by(weigh_sample.body),
        one_by_one=True,
    ),
    "losses": Booking(
        lambda one: (one.lot_id, one.day, one.number, one.cause),
        _of_lots(event_facts.losses, lambda one: (one.lot_id, one.day, one.number, one.cause)),
        _by(record_loss.body),
        one_by_one=True,
    ),
    "plantings": Booking(_grown_mark, _plantings_held, _by(plant_one), one_by_one=True),
}
