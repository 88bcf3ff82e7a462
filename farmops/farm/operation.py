"""One change a person makes: a transaction, the rules it must keep, its due dates and its line in the journal."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from datetime import date, timedelta
from functools import cached_property
from typing import Any, Generic, TypeVar, cast, get_type_hints

from farmops import clock
from farmops.facts import farm as farm_facts
from farmops.facts import journal as journal_facts
from farmops.farm import due_dates
from farmops.farm.ruled import load_rules
from farmops.model.codec import from_plain, to_plain
from farmops.model.errors import NotUnderstood, OutOfRange, Refused
from farmops.model.farm import Farm
from farmops.model.ids import checked_id, new_id
from farmops.model.journal import Image, JournalLine, Through
from farmops.model.text import name_of, plain
from farmops.records.base import Row
from farmops.records.chain import FIRST_HASH, canonical, seal
from farmops.records.reading import Reader
from farmops.records.rows import row_of
from farmops.records.store import Store
from farmops.records.transaction import Transaction
from farmops.records.version import CURRENT

E = TypeVar("E")
R = TypeVar("R")
RowType = TypeVar("RowType", bound=Row)
FIRST_DAY = date(1900, 1, 1)
DAYS_AHEAD = 366
LONGEST_SHOWN = 80

Rule = Callable[["Operation", Any], None]
RULES: dict[type[Row], list[Rule]] = defaultdict(list)
ALONE: dict[type[Row], list[Rule]] = defaultdict(list)
RuleOver = Callable[["Operation", Sequence[Image]], None]
OVER: list[tuple[frozenset[str], RuleOver]] = []


class Operation:
    """What a change works with: the rows through its transaction, the facts, the farm and its day."""

    def __init__(self, transaction: Transaction, by: str, through: Through) -> None:
        self.transaction = transaction
        self.by = by
        self.through = through
        self.reader = transaction.reader
        self.undoes: str | None = None
        self.redoes: str | None = None
        self.told_anyway = False
        """Whether it stands in the journal also when no row of it has an image."""
        self._held_at = -1
        self._facts: dict[tuple[Callable[..., Any], int], Any] = {}

    @property
    def id(self) -> str:
        """The operation's own id, which every row it writes carries."""
        return self.transaction.operation

    @cached_property
    def farm(self) -> Farm:
        """The farm. Raises NoFarm."""
        return farm_facts.farm(self.reader)

    @cached_property
    def today(self) -> date:
        """The day it is on the farm."""
        return self.farm.today()

    def add(self, row: RowType) -> RowType:
        """Write a new row."""
        self._check_alone(row)
        return self.transaction.add(row)

    def add_all(self, rows: Sequence[Row]) -> None:
        """Write many new rows of one table."""
        self.transaction.add_all(self.checked(rows))

    def checked(self, rows: Sequence[RowType]) -> Sequence[RowType]:
        """New rows, each held against the rules that look at it alone; not written yet."""
        for row in rows:
            self._check_alone(row)
        return rows

    @contextmanager
    def attempt(self) -> Iterator[None]:
        """What is written within holds against the rules, or is taken back alone with the error that it raised."""
        with self.transaction.attempt() as touched:
            yield
            self._hold(touched())

    def get(self, kind: type[RowType], id: int) -> RowType:
        """The row of that id. Raises NotFound."""
        return self.transaction.get(kind, id)

    def must_exist(self, kind: type[Row], id: int) -> None:
        """Raises NotFound where there is no row of that id."""
        self.transaction.must_exist(kind, id)

    def change(self, row: RowType, **values: Any) -> RowType:
        """Write new values into a row."""
        self._check_alone(type(row)(**{**row.model_dump(), **values}))
        return self.transaction.change(row, **values)

    def remove(self, row: Row) -> None:
        """Delete a row that nothing points to. Raises Refused, naming what does."""
        pointing = self.transaction.pointing_at(row.table_name(), row.id)
        if pointing:
            tables = sorted({table.replace("_", " ") for table, _, _ in pointing})
            raise Refused(
                f"Not removed: {len(pointing)} records belong to it ({', '.join(tables)}). Remove those first."
            )
        self.transaction.remove(row)

    def sensible_day(self, day: date) -> date:
        """A day that a record may bear: neither before 1900 nor more than a year ahead."""
        if not FIRST_DAY <= day <= self.today + timedelta(days=DAYS_AHEAD):
            raise OutOfRange(f"{day} is not a day to book on: it lies before 1900 or more than a year ahead.")
        return day

    def past_day(self, day: date) -> date:
        """A day on which something can have happened: a sensible one that has come on the farm, by its own zone.

        What holds from a day on, or is planned, may bear a day ahead; what was weighed, read, given or lost may not.
        """
        if self.sensible_day(day) > self.today:
            here = f"on the farm ({self.farm.time_zone}) it is {self.today}"
            raise OutOfRange(f"Not booked: {day} is still to come; {here}. Book it on its day, or change the date.")
        return day

    def sensible_end(self, day: date | None) -> date | None:
        """A last day that a record may bear, or none."""
        return None if day is None else self.sensible_day(day)

    def _check_alone(self, row: Row) -> None:
        _refuse_unprintable(row)
        for rule in ALONE[type(row)]:
            rule(self, row)

    def finish(self) -> None:
        """Hold every touched row against the rules, then bring the due dates of the chores up to date."""
        self.check_rules()
        due_dates.refresh(self.transaction)

    def check_rules(self) -> None:
        """Hold every touched row against the rules of its kind: once, until another row is written."""
        if self._held_at != self.transaction.written:
            self._hold(self.transaction.images)
            self._held_at = self.transaction.written

    def _hold(self, images: Sequence[Image]) -> None:
        self._facts.clear()
        load_rules(image.table for image in images)
        for image in images:
            if image.after is not None:
                kind = row_of(image.table)
                row = self.get(kind, image.id) if RULES[kind] else None  # the session forgets what nobody holds
                for rule in RULES[kind]:
                    rule(self, row)
        for tables, over in OVER:
            touched = [image for image in images if image.table in tables]
            if touched:
                over(self, touched)

    def fact(self, read: Callable[[Reader, int], R], id: int) -> R:
        """What a fact says of a record; for rules, between which nothing is written, so that it is read only once."""
        if (read, id) not in self._facts:
            self._facts[read, id] = read(self.reader, id)
        return cast("R", self._facts[read, id])

    def enter_in_journal(self, name: str, result: Any) -> None:
        """Append the operation to the chain, unless it changed nothing."""
        images = self.transaction.images
        if not images and not self.told_anyway:
            return
        seq, previous = journal_facts.seal_before(self.reader) or (0, FIRST_HASH)
        entry: dict[str, Any] = {
            "seq": seq + 1,
            "operation": self.id,
            "at": clock.now(),
            "actor": self.by,
            "through": self.through.value,
            "name": name,
            "undoes": self.undoes,
            "redoes": self.redoes,
            "schema_version": CURRENT,
            "images": canonical([to_plain(image) for image in images]),
            "result": canonical(to_plain(result)),
            "previous": previous,
        }
        self.transaction.append_to_journal({**entry, "hash": seal(entry)})


class _Rehearsed(Exception):
    """Takes back everything that was written in a rehearsal, and carries its result out."""

    def __init__(self, result: Any) -> None:
        super().__init__()
        self.result = result


class OperationFunction(Generic[E, R]):
    """A change that can be called: with the store, what was entered, who, and the id the front end made."""

    def __init__(self, name: str, body: Callable[[Operation, E], R], *, opens: bool = False) -> None:
        self.name = name
        self.body = body
        self.opens = opens
        self.__doc__ = body.__doc__
        self.__name__ = body.__name__

    def __call__(
        self,
        store: Store,
        entry: E,
        *,
        by: str,
        operation: str | None = None,
        through: Through = Through.COMMAND,
    ) -> R:
        """Carry it out at once and for good, or not at all. A known id gives back the stored result."""
        operation = checked_id(operation) if operation else new_id()
        with store.writing(operation) as transaction:
            known = journal_facts.written(transaction.reader, operation)
            if known is not None:
                self._refuse_foreign(journal_facts.line(transaction.reader, operation))
                return cast("R", from_plain(self.result_type, known.result))
            op = Operation(transaction, name_of(by, "name of who does it"), through)
            if not self.opens:
                _ = op.farm
            result = self.body(op, entry)
            op.finish()
            op.enter_in_journal(self.name, result)
        return result

    def rehearse(self, store: Store, entry: E, *, by: str, through: Through = Through.COMMAND) -> R:
        """What it would give back, or why it would be refused; nothing of it is kept."""
        try:
            with store.writing(new_id()) as transaction:
                op = Operation(transaction, name_of(by, "name of who does it"), through)
                _ = op.farm
                result = self.body(op, entry)
                op.finish()
                raise _Rehearsed(result)
        except _Rehearsed as rehearsed:
            return cast("R", rehearsed.result)

    def _refuse_foreign(self, line: JournalLine | None) -> None:
        if line is not None and line.name != self.name:
            raise Refused(
                f"Not booked: this id belongs to the operation '{line.name}'. Each one needs an id of its own."
            )

    @cached_property
    def result_type(self) -> Any:
        """The type that the change gives back."""
        return get_type_hints(self.body)["return"]


def _refuse_unprintable(row: Row) -> None:
    """Whatever was typed, and by whatever way it came: signs that a terminal would obey are kept in no record."""
    for value in vars(row).values():
        if isinstance(value, str) and not value.isprintable() and plain(value) != value:
            raise NotUnderstood(f"Not booked: {plain(value[:LONGEST_SHOWN])} holds signs that cannot be printed.")


def operation(name: str, *, opens: bool = False) -> Callable[[Callable[[Operation, E], R]], OperationFunction[E, R]]:
    """Make a change callable as one operation, journalled under a name in the user's words.

    Only the one that `opens` the farm works in a store that holds none.
    """
    return lambda body: OperationFunction(name, body, opens=opens)


def rule(
    kind: type[RowType], *, alone: bool = False
) -> Callable[[Callable[[Operation, RowType], None]], Callable[[Operation, RowType], None]]:
    """A rule that every written row of a kind must keep, whether it is booked, undone or redone.

    One that looks at the row `alone` is held before it is written too, so that its words come before the store's.
    """

    def register(check: Callable[[Operation, RowType], None]) -> Callable[[Operation, RowType], None]:
        RULES[kind].append(check)
        if alone:
            ALONE[kind].append(check)
        return check

    return register


def rule_over(*kinds: type[Row]) -> Callable[[RuleOver], RuleOver]:
    """A rule over several tables together, held once when rows of any of them were written or removed."""

    def register(check: RuleOver) -> RuleOver:
        OVER.append((frozenset(kind.table_name() for kind in kinds), check))
        return check

    return register
