"""Money: what was paid, what was sold, and what produce and fish are worth."""

from __future__ import annotations

from datetime import timedelta
from functools import partial
from typing import Any, ClassVar

from textual.binding import BindingType

from farmops.model.costs import Cost, ListPrice
from farmops.model.sales import Sale, SaleLine
from farmops.model.supplies import Supply
from farmops.quantities import Measures, show_money
from farmops.quantities.sales import show_amount
from farmops.reports import lists, selling
from farmops.reports.recurring import Recurrence, recurring
from farmops.reports.store import Store
from farmops.reports.supplies_held import SupplyHeld, supplies_held
from farmops.tui.actions import bindings
from farmops.tui.screens.listed import ListedPlace
from farmops.tui.widgets.listing_lines import Column, Heading, Line
from farmops.tui.widgets.supply_lines import held_line, is_supply

COLUMNS = (
    Column("day", "day"),
    Column("what", "what", grow=True),
    Column("for", "for"),
    Column("amount", "amount", align="point"),
    Column("kind", "kind", priority=1),
    Column("payee", "from whom", priority=2),
)
DAYS_BACK = 400
KINDS: dict[type, str] = {Recurrence: "recurring", Cost: "costs", Sale: "sales", ListPrice: "prices", Supply: "supplies"}


class MoneyPlace(ListedPlace):
    """Costs and sales, the newest first, supplies and list prices below."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings("money")]
    name_of_place = "money"
    title = "Money"
    new_kind = "costs"

    def reload(self) -> None:
        """Read costs and prices for where the person stands."""
        today = self.today
        if today is not None:
            self.work(partial(read, first=today - timedelta(days=DAYS_BACK), last=today, unit=self.unit), self._show)

    def _show(self, found: Found) -> None:
        if self.farm is None:
            return
        costs, sales, prices, supplies = found
        measures = self.farm.measures
        items: list[Line | Heading] = [Heading("Paid in the last 13 months, newest first")] if costs else []
        items += [cost_line(one, measures) for one in costs]
        if sales:
            items.append(Heading("Sold in the last 13 months, newest first"))
            items += [sale_line(one, measures) for one in sales]
        if supplies:
            items.append(Heading("Supplies held, and until when they are good"))
            items += [held_line(one, measures) for one in supplies]
        if prices:
            items.append(Heading("List prices"))
            items += [price_line(one) for one in prices]
        self.show(COLUMNS, items, "Nothing paid or sold yet. n books a cost, s a sale.")

    def kind_of(self, line: Line) -> str:
        """Costs, sales, supplies or prices."""
        return next(word for kind, word in KINDS.items() if isinstance(line.data, kind))

    def action_pay(self) -> None:
        """Book the time of what comes again under the cursor that is open first."""
        line = self.listing.current
        if line is None or not isinstance(line.data, Recurrence):
            self.refuse("Stand on the line of what comes again to book that it is paid. a describes one.")
        else:
            self.open_form("edit", "pay", line.data)

    def action_again(self) -> None:
        """A cost that comes again."""
        self.open_form("new", "recurring")

    def action_sell(self) -> None:
        """A new sale."""
        self.open_form("new", "sales")

    def action_back(self) -> None:
        """Some of the sale under the cursor came back."""
        line = self.listing.current
        if line is None or not isinstance(line.data, Sale):
            self.refuse("Stand on the line of a sale to book what came back of it.")
        else:
            self.open_form("edit", "back", line.data)

    def action_new_supply(self) -> None:
        """A new supply."""
        self.open_form("new", "supplies")

    def action_supply(self, form: str) -> None:
        """The supply under the cursor is bought, used or counted."""
        line = self.listing.current
        if line is None or not is_supply(line):
            self.refuse("Stand on the line of a supply for that. S enters a new one.")
        else:
            self.open_form("edit", form, line.data)


Found = tuple[list[Cost], list[Sale], list[ListPrice], list[SupplyHeld]]


def read(store: Store, *, first: Any, last: Any, unit: str | None) -> Found:
    """Costs of a span for one unit and the shared ones, and its sales, newest first, the prices and the supplies."""
    costs = [one for one in lists.costs(store, first, last) if unit is None or one.unit in (unit, None)]
    return costs[::-1], sales_of(store, first, last, unit)[::-1], lists.prices(store), supplies_held(store)


def sales_of(store: Store, first: Any, last: Any, unit: str | None) -> list[Sale]:
    """The sales of a span, those alone that hold something of one unit."""
    lots = {one.id for one in lists.fish_lots(store) if unit in (None, one.unit)}
    found = selling.sales(store, first, last)
    return [one for one in found if unit is None or any(_is_of(line, unit, lots) for line in one.lines)]


def _is_of(line: SaleLine, unit: str, lots: set[int]) -> bool:
    return line.fish_lot_id in lots or (line.bed or "").startswith(f"{unit}-")


def cost_line(one: Cost, measures: Measures) -> Line:
    """A cost as a line."""
    kind = f"lasts {one.life_months} months" if one.life_months else one.category.value
    amount = show_money(one.amount_minor, measures)
    return Line(f"costs {one.id}", (str(one.day), one.what, one.where or "all", amount, kind, one.payee or ""), data=one)


def sale_line(one: Sale, measures: Measures) -> Line:
    """A sale as a line."""
    what = ", ".join(f"{each.name} {show_amount(each.sold_by, each.sold, measures)}" for each in one.lines)
    paid = show_money(one.paid_minor, measures)
    return Line(f"sales {one.id}", (str(one.day), what, "", paid, "sale", one.buyer), data=one)


def price_line(one: ListPrice) -> Line:
    """A price as a line."""
    return Line(f"prices {one.id}", (str(one.from_day), one.what, "", one.typed, "price", ""), data=one)
