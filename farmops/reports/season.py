"""A season as one would tell it to a partner, a bank or a market board: the farm, its row, what it brought and cost."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from farmops.facts.reading import Store
from farmops.figures import Figure
from farmops.model.fish import FishLot
from farmops.model.frozen import dataclass
from farmops.model.units import Unit, UnitState
from farmops.reports import lists
from farmops.reports.returns import Asked, Returns, UnitReturns, monthly, returns
from farmops.reports.spans import state_on
from farmops.reports.spread import Sure, sure_of_units
from farmops.reports.yields import By, Yields, yields


@dataclass(frozen=True, slots=True)
class InTheRow:
    """A unit as it stood on the last day of the season; `state` None where it was not there yet."""

    unit: Unit
    state: UnitState | None
    beds: tuple[str, ...]
    fish: tuple[FishLot, ...]


@dataclass(frozen=True, slots=True)
class Season:
    """Everything a season report tells: figures, sums of records, and in `sure` how sure yields are."""

    row: tuple[InTheRow, ...]
    whole: Returns
    months: tuple[Returns, ...]
    crops: Yields
    sure: Sure

    def lines(self) -> tuple[UnitReturns, ...]:
        """The units that brought or cost something, and the farm last."""
        return (*(one for one in self.whole.units if one.cost.value or one.harvest.value), self.whole.farm)

    def missing(self) -> dict[str, list[str]]:
        """Why numbers are missing, and of which units, in the order of the row."""
        return _said(self.whole.units, lambda figure: figure.reason if figure.value is None else None)

    def notes(self) -> dict[str, list[str]]:
        """What stands beside the numbers, and of which units: how complete records are, what is left out."""
        return _said(self.whole.units, lambda figure: figure.note)


def _said(units: Sequence[UnitReturns], of: Callable[[Figure], str | None]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for line in units:
        for words in dict.fromkeys(of(figure) for figure in line.figures().values()):
            if words:
                found.setdefault(words, []).append(line.unit)
    return found


def season(store: Store, asked: Asked) -> Season:
    """A span of the farm for readers outside it. Raises NoFarm."""
    whole = returns(store, asked)
    return Season(
        tuple(_row(store, whole)),
        whole,
        monthly(store, asked),
        yields(store, asked, By.CROP),
        sure_of_units(store, whole.span),
    )


def _row(store: Store, whole: Returns) -> Iterator[InTheRow]:
    last = whole.span.last
    beds, lots = lists.beds(store), lists.fish_lots(store)
    for line in lists.units(store):
        held = state_on(list(line.states), last)
        yield InTheRow(
            line.unit,
            held.state if held else None,
            tuple(one.bed.name for one in beds if one.bed.unit_id == line.unit.id),
            tuple(
                one for one in lots if one.unit_id == line.unit.id and not (one.closed_day and one.closed_day < last)
            ),
        )
