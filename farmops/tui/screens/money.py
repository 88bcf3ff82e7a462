"""Money: what was paid and what produce and fish are worth."""

from __future__ import annotations

from datetime import timedelta
from functools import partial
from typing import Any

from farmops.model.costs import Cost, ListPrice
from farmops.quantities import Measures, show_money
from farmops.reports import lists
from farmops.reports.store import Store
from farmops.tui.screens.listed import ListedPlace
from farmops.tui.widgets.listing_lines import Column, Heading, Line

COLUMNS = (
    Column("day", "day"),
    Column("what", "what", grow=True),
    Column("for", "for"),
    Column("amount", "amount", align="point"),
    Column("kind", "kind", priority=1),
    Column("payee", "from whom", priority=2),
)
DAYS_BACK = 400


class MoneyPlace(ListedPlace):
    """Costs, the newest first, and list prices below."""

    name_of_place = "money"
    title = "Money"
    new_kind = "costs"

    def reload(self) -> None:
        """Read costs and prices for where the person stands."""
        today = self.today
        if today is not None:
            self.work(partial(read, first=today - timedelta(days=DAYS_BACK), last=today, unit=self.unit), self._show)

    def _show(self, found: tuple[list[Cost], list[ListPrice]]) -> None:
        if self.farm is None:
            return
        costs, prices = found
        measures = self.farm.measures
        items: list[Line | Heading] = [Heading("Paid in the last 13 months, newest first")] if costs else []
        items += [cost_line(one, measures) for one in costs]
        if prices:
            items.append(Heading("List prices"))
            items += [price_line(one) for one in prices]
        self.show(COLUMNS, items, "Nothing paid yet. n books a cost.")

    def kind_of(self, line: Line) -> str:
        """Costs or prices."""
        return "prices" if isinstance(line.data, ListPrice) else "costs"


def read(store: Store, *, first: Any, last: Any, unit: str | None) -> tuple[list[Cost], list[ListPrice]]:
    """Costs of a span for one unit and the shared ones, newest first, and the prices."""
    costs = [one for one in lists.costs(store, first, last) if unit is None or one.unit in (unit, None)]
    return costs[::-1], lists.prices(store)


def cost_line(one: Cost, measures: Measures) -> Line:
    """A cost as a line."""
    kind = f"lasts {one.life_months} months" if one.life_months else one.category.value
    amount = show_money(one.amount_minor, measures)
    return Line(f"costs {one.id}", (str(one.day), one.what, one.unit or "all", amount, kind, one.payee or ""), data=one)


def price_line(one: ListPrice) -> Line:
    """A price as a line."""
    return Line(f"prices {one.id}", (str(one.from_day), one.what, "", one.typed, "price", ""), data=one)
