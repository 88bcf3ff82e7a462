"""How rows of a kind are booked, and by what they are known again when their file comes a second time."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Sequence
from functools import partial
from typing import Any, Generic, Protocol, TypeVar

from farmops.farm.operation import Operation
from farmops.model.errors import Refused
from farmops.model.frozen import dataclass
from farmops.records.base import Row
from farmops.records.reading import Reader


class Numbered(Protocol):
    """A record with its number."""

    @property
    def id(self) -> int:
        """The number, larger than those of all before it."""
        ...


E = TypeVar("E")
R = TypeVar("R", bound=Numbered)
V = TypeVar("V")
Mark = Hashable
"""What makes two records the same for a file that comes a second time."""
Book = Callable[[E], Sequence[Row]]
"""Books an entry, or gives the rows of it to be written with those of others; raises before anything is written."""


@dataclass(frozen=True, slots=True)
class Booking(Generic[E]):
    """How entries of a kind are booked: by what they are known again, and what the farm holds of the like.

    Entries `one_by_one` write several rows, or are held against the others of the file by a rule. `there` says of what
    the farm has once at most whether all that a row says of it is so already, by the rows before it too. It is made
    once for a file, so that it can keep what it has read.
    """

    mark: Callable[[E], Mark]
    held: Callable[[Reader, Sequence[E]], Iterable[Mark]]
    begin: Callable[[Operation], Book[E]]
    one_by_one: bool = False
    there: Callable[[Operation], Callable[[E], bool]] | None = None


def by(body: Callable[[Operation, Any], object]) -> Callable[[Operation], Book[Any]]:
    """Book each entry by the operation that books it by hand."""

    def begin(op: Operation) -> Book[Any]:
        def book(entry: Any) -> Sequence[Row]:
            body(op, entry)
            return ()

        return book

    return begin


def named(there: Callable[[Operation, E], bool], book: Callable[[Operation, E], object]) -> Booking[E]:
    """Rows of what has a name of its own: a unit, a crop, a person."""
    return looked_up(lambda op: partial(there, op), book)


def looked_up(there: Callable[[Operation], Callable[[E], bool]], book: Callable[[Operation, E], object]) -> Booking[E]:
    """The same where `there` keeps what it has read: of what a farm may hold by the thousand."""
    return Booking(lambda _: None, lambda *_: (), by(book), one_by_one=True, there=there)


class Known(Generic[R]):
    """The records of a kind by their marks, read once; later those alone that were added since."""

    def __init__(self, op: Operation, read: Callable[[Reader, int], Iterable[R]], mark: Callable[[R], Mark]) -> None:
        self.op, self.read, self.mark = op, read, mark
        self.last = 0
        self.by_mark: dict[Mark, list[R]] = {}

    def alike(self, mark: Mark) -> Sequence[R]:
        """The records with a mark."""
        for one in self.read(self.op.reader, self.last):
            self.by_mark.setdefault(self.mark(one), []).append(one)
            self.last = max(self.last, one.id)
        return self.by_mark.get(mark, ())


def agrees(said: object, held: object) -> bool:
    """Whether a row says nothing of something, or what is so."""
    return said is None or said == held


def refuse_other(what: str, **said_and_held: tuple[object, object]) -> None:
    """Raise Refused where a row says of what is there something else than is so."""
    other = [name.replace("_", " ") for name, (said, held) in said_and_held.items() if not agrees(said, held)]
    if other:
        raise Refused(f"{what} is there with another {' and another '.join(other)}; correct it by hand, or the file")


def needed(value: V | None, column: str) -> V:
    """What a row has to say where something is new. Raises Refused."""
    if value is None:
        raise Refused(f"no {column}")
    return value


def alike(text: str | None) -> str:
    """Text as a mark: letter case and blanks make no other record of it."""
    return " ".join((text or "").casefold().split())
