"""The farm's tables through the ORM, and answers worked out from them row by row in Python."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from datetime import date, timedelta
from typing import Any, TypeVar

from sqlmodel import Session, SQLModel, select

from farmops.records.beds import BedRow
from farmops.records.fish import LotPlaceRow
from farmops.records.journal import JournalRow
from farmops.records.store import Store
from farmops.records.tables import ROWS
from farmops.records.units import UnitRow

R = TypeVar("R", bound=SQLModel)
Answer = tuple[tuple[Any, ...], Any]
Check = Callable[["Tables"], Iterator[Answer]]
CHECKS: dict[Callable[..., Any], Check] = {}
DAYS = (date(2026, 1, 1), date(2026, 4, 30), date(2026, 6, 20), date(2026, 7, 1), date(2026, 9, 2), date(2026, 10, 14))
SPANS = ((DAYS[0], DAYS[-1]), (DAYS[1], DAYS[2]), (DAYS[2], DAYS[2]), (date(2020, 1, 1), date(2020, 2, 1)))


def says(function: Callable[..., Any]) -> Callable[[Check], Check]:
    """Registers what the tables say to a function of facts: arguments and the answer, pair by pair."""

    def register(check: Check) -> Check:
        CHECKS[function] = check
        return check

    return register


class Tables:
    """Every row of the store, by its class, in the order of ids."""

    def __init__(self, store: Store) -> None:
        with Session(store.engine) as session:
            self._rows: dict[type[SQLModel], list[Any]] = {
                kind: list(session.exec(select(kind).order_by(kind.id)))  # type: ignore[arg-type]
                for kind in ROWS
            }
            self._rows[JournalRow] = list(session.exec(select(JournalRow).order_by(JournalRow.seq)))  # type: ignore[arg-type]

    def __getitem__(self, kind: type[R]) -> list[R]:
        return self._rows[kind]

    def find(self, kind: type[R], id: int | None) -> R | None:
        """The row of that id."""
        return next((row for row in self[kind] if row.id == id), None)  # type: ignore[attr-defined]

    def get(self, kind: type[R], id: int | None) -> R:
        """The row of that id, which is there."""
        found = self.find(kind, id)
        assert found is not None
        return found

    def bed_code(self, bed_id: int) -> str:
        """`UNIT-NAME` of a bed."""
        bed = self.get(BedRow, bed_id)
        return f"{self.get(UnitRow, bed.unit_id).code}-{bed.name}"

    def places(self, lot_id: int) -> list[LotPlaceRow]:
        """Where a lot lived, first to last."""
        return sorted((p for p in self[LotPlaceRow] if p.fish_lot_id == lot_id), key=lambda p: p.from_day)

    def place_on(self, lot_id: int, day: date) -> LotPlaceRow | None:
        """Where a lot lived on a day."""
        held = [place for place in self.places(lot_id) if place.from_day <= day]
        return held[-1] if held else None

    def walking(self, unit_id: int | None) -> tuple[int, int]:
        """The sort key of a unit in walking order; the farm's own comes first."""
        return (-1, 0) if unit_id is None else (self.get(UnitRow, unit_id).position, unit_id)


def columns(row: SQLModel, *names: str) -> dict[str, Any]:
    """Some columns of a row by name."""
    return {name: getattr(row, name) for name in names}


def in_span(day: date, span: tuple[date, date]) -> bool:
    """Whether a day lies in a span, both ends included."""
    return span[0] <= day <= span[1]


def days_around(days: Iterable[date]) -> list[date]:
    """Each day, the one before it and the one after."""
    return sorted({day + timedelta(days=ahead) for day in days for ahead in (-1, 0, 1)})
