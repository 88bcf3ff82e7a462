"""Every figure that any report of a farm gives, so that all can be walked down to their records."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import pairwise

from farmops.figures import Figure
from farmops.model.costs import Basis
from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.balance import balance_of
from farmops.reports.comparing import compare_two
from farmops.reports.fish import lot_on_day
from farmops.reports.investment import investments
from farmops.reports.power_used import power_used
from farmops.reports.ranking import ranking
from farmops.reports.returns import Asked, Returns, UnitReturns, monthly, returns, yearly
from farmops.reports.selling import paid_for, sales
from farmops.reports.supplies_held import supplies_held
from farmops.reports.yields import By, yields

A_RATE = 1500
"""What an hour of work might cost, in minor units."""
Named = tuple[str, Figure]
YIELDS = ("harvest", "marketable", "area", "yield_per_area", "value", "cost", "cost_per_mass", "net")


def every_figure(store: Store, asked: Asked) -> Iterator[Named]:
    """Each figure with the report, the line and the name under which it is shown."""
    for basis in Basis:
        wanted = Asked(asked.today, asked.first, asked.last, basis)
        yield from _of_returns(f"returns, {basis}", returns(store, wanted))
    for report in (*monthly(store, asked), *yearly(store, asked)):
        yield from _of_line(f"{report.span.first} to {report.span.last}", report.farm)
    for by in By:
        for line in yields(store, asked, by).lines:
            yield from ((f"{by} {line.name} {name}", getattr(line, name)) for name in YIELDS)
    for one in investments(store, asked).units:
        yield from ((f"investment {one.unit} {name}", figure) for name, figure in one.figures().items())
    yield from _of_units_against_each_other(store, asked)
    for unit in lists.units(store):
        for side in balance_of(store, unit.unit.code, asked.today).lines:
            yield f"balance {unit.unit.code} {side.name}", side.figure
    for lot in lists.fish_lots(store):
        day = max(lot.stocked_day, min(asked.today, lot.closed_day or asked.today))
        for name, figure in lot_on_day(store, lot.id, day).figures.items():
            yield f"lot {lot.code} {name}", figure
    yield from _of_money(store, asked)


def _of_units_against_each_other(store: Store, asked: Asked) -> Iterator[Named]:
    """What the units are ranked by, and each compared with the next."""
    yield from ((f"ranking {figure.name}", figure) for figure in ranking(store, asked, A_RATE).figures())
    for one, other in pairwise(unit.unit.code for unit in lists.units(store)):
        found = compare_two(store, asked, one, other)
        yield from ((f"{one} against {other} {figure.name}", figure) for figure in found.figures())


def _of_money(store: Store, asked: Asked) -> Iterator[Named]:
    """What the Money place shows: power, supplies held, sales."""
    first, last = asked.first or date.min, asked.last or asked.today
    for place in power_used(store, first, last):
        yield from ((f"power of {place.unit} {name}", figure) for name, figure in place.figures.items())
    for one in supplies_held(store, last):
        yield from ((f"supply {one.supply.name} {name}", figure) for name, figure in one.figures.items())
    measures = lists.farm(store).measures
    yield from ((f"sale {one.id}", paid_for(one, measures)) for one in sales(store, first, last))


def _of_returns(report: str, found: Returns) -> Iterator[Named]:
    yield f"{report} not shared", found.unshared
    for line in (*found.units, found.farm):
        yield from _of_line(report, line)


def _of_line(report: str, line: UnitReturns) -> Iterator[Named]:
    yield from ((f"{report} {line.unit} {name}", figure) for name, figure in line.figures().items())


def that_do_not_add_up(store: Store, asked: Asked) -> list[str]:
    """The figures, at whatever depth, whose value does not follow from their parts or records."""
    return [
        f"{where}: {part.name}"
        for where, figure in every_figure(store, asked)
        for part in figure.walk()
        if not part.adds_up()
    ]
