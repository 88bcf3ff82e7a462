"""How rows of a kind are booked, and by what they are known again when their file comes a second time."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Sequence
from typing import Any, Generic, TypeVar

from farmops.farm.operation import Operation
from farmops.model.frozen import dataclass
from farmops.records.base import Row
from farmops.records.reading import Reader

E = TypeVar("E")
Mark = Hashable
"""What makes two records the same for a file that comes a second time."""
Book = Callable[[E], Sequence[Row]]
"""Books an entry, or gives the rows of it to be written with those of others; raises before anything is written."""


@dataclass(frozen=True, slots=True)
class Booking(Generic[E]):
    """How entries of a kind are booked: by what they are known again, and what the farm holds of the like.

    Entries `one_by_one` write several rows, or are held against the others of the file by a rule.
    """

    mark: Callable[[E], Mark]
    held: Callable[[Reader, Sequence[E]], Iterable[Mark]]
    begin: Callable[[Operation], Book[E]]
    one_by_one: bool = False


def by(body: Callable[[Operation, Any], object]) -> Callable[[Operation], Book[Any]]:
    """Book each entry by the operation that books it by hand."""

    def begin(op: Operation) -> Book[Any]:
        def book(entry: Any) -> Sequence[Row]:
            body(op, entry)
            return ()

        return book

    return begin


def alike(text: str | None) -> str:
    """Text as a mark: letter case and blanks make no other record of it."""
    return " ".join((text or "").casefold().split())
