"""How rows of a kind are booked, and by what they are known again when their file comes a second time."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Sequence
from typing import Any, Generic, TypeVar

from farmops.farm.operation import Operation
from farmops.model.errors import Refused
from farmops.model.frozen import dataclass
from farmops.records.base import Row
from farmops.records.reading import Reader

E = TypeVar("E")
V = TypeVar("V")
Mark = Hashable
"""What makes two records the same for a file that comes a second time."""
Book = Callable[[E], Sequence[Row]]
"""Books an entry, or gives the rows of it to be written with those of others; raises before anything is written."""


@dataclass(frozen=True, slots=True)
class Booking(Generic[E]):
    """How entries of a kind are booked: by what they are known again, and what the farm holds of the like.

    Entries `one_by_one` write several rows, or are held against the others of the file by a rule. `there` says of what
    the farm has once at most whether all that a row says of it is so already, by the rows before it too.
    """

    mark: Callable[[E], Mark]
    held: Callable[[Reader, Sequence[E]], Iterable[Mark]]
    begin: Callable[[Operation], Book[E]]
    one_by_one: bool = False
    there: Callable[[Operation, E], bool] | None = None


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
    return Booking(lambda _: None, lambda *_: (), by(book), one_by_one=True, there=there)


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
