"""Rows of what the farm has once for a day: a price, a rate, what a meter showed."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Generic, TypeVar

from farmops.farm.file_rows.booking import Booking, named
from farmops.farm.operation import Operation
from farmops.model.errors import Refused, Unlikely
from farmops.model.frozen import dataclass
from farmops.records.base import Row

E = TypeVar("E")


@dataclass(frozen=True, slots=True)
class OfDay(Generic[E]):
    """What a row says of a day; `sure` lets it take the place of what else the farm has for that day."""

    entry: E
    sure: bool = False


@dataclass(frozen=True, slots=True)
class Standing:
    """What the farm has for that day, whether it is the same, and what it is in words."""

    kind: type[Row]
    id: int
    same: bool
    words: str


def once_a_day(
    standing: Callable[[Operation, Any], Standing | None], body: Callable[[Operation, Any], object]
) -> Booking[Any]:
    """Rows that are booked where nothing stands for their day, and asked about where something else does."""

    def there(op: Operation, said: OfDay[Any]) -> bool:
        found = standing(op, said.entry)
        if found is None or found.same:
            return found is not None
        if op.get(found.kind, found.id).operation == op.id:
            raise Refused(f"a row above it says otherwise: {found.words}")
        if not said.sure:
            raise Unlikely(f"{found.words} already. If the file is right, it takes that place.")
        return False

    return named(there, lambda op, said: body(op, said.entry))
