"""Money: what was paid, what was sold, and what produce and fish are worth."""

from __future__ import annotations

from datetime import date, timedelta
from functools import partial
from typing import Any, ClassVar

from textual.binding import BindingType

from farmops.model.costs import Cost, DriverFrom, JointSplit, LabourRate, ListPrice
from farmops.model.frozen import dataclass
from farmops.model.sales import Sale, SaleLine, StandingOrder
from farmops.model.supplies import Supply
from farmops.quantities import Measures, show_money
from farmops.quantities.lives import show_life
from farmops.quantities.sales import show_amount
from farmops.reports import lists, ordering, selling
from farmops.reports.lists import SharingSet
from farmops.reports.power_used import PlaceUse, power_used
from farmops.reports.recurring import Recurrence, recurring
from farmops.reports.store import Store
from farmops.reports.supplies_held import SupplyHeld, supplies_held
from farmops.tui.actions import bindings
from farmops.tui.screens.choose import Choose
from farmops.tui.screens.listed import ListedPlace
from farmops.tui.widgets.listing_lines import Column, Heading, Line
from farmops.tui.widgets.power_lines import used_lines
from farmops.tui.widgets.recurring_lines import coming_lines, due_lines
from farmops.tui.widgets.sale_lines import order_line
from farmops.tui.widgets.sharing_lines import sharing_lines
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
DAYS_OF_POWER = 30
SHARED = {
    "g": "what shared costs go by",
    "p": "how produce and fish split a cost",
    "h": "what an hour is worth",
    "l": "what a crop or fish is worth: its list price",
}
SHARED_KINDS = {"g": "drivers", "p": "splits", "h": "labour rates", "l": "prices"}
KINDS: dict[type, str] = {
    Recurrence: "recurring",
    Cost: "costs",
    Sale: "sales",
    StandingOrder: "orders",
    ListPrice: "prices",
    Supply: "supplies",
    PlaceUse: "power",
    DriverFrom: "drivers",
    JointSplit: "splits",
    LabourRate: "labour rates",
}


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
        measures = self.farm.measures
        items: list[Line | Heading] = due_lines(found.recurring, measures)
        items += [Heading("Paid in the last 13 months, newest first")] if found.costs else []
        items += [cost_line(one, measures) for one in found.costs]
        if found.sales:
            items.append(Heading("Sold in the last 13 months, newest first"))
            items += [sale_line(one, measures) for one in found.sales]
        if found.orders:
            items.append(Heading("Standing orders"))
            items += [order_line(one, measures) for one in found.orders]
        if found.supplies:
            items.append(Heading("Supplies held, and until when they are good"))
            items += [held_line(one, measures) for one in found.supplies]
        items += used_lines(found.power, measures)
        if found.prices:
            items.append(Heading("List prices"))
            items += [price_line(one) for one in found.prices]
        items += coming_lines(found.recurring, measures)
        items += sharing_lines(found.sharing, found.codes, measures)
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

    def action_share(self) -> None:
        """Say anew how costs are shared, or what something is worth, from a day on."""
        self.app.push_screen(Choose("Say anew, from a day on", SHARED), self._share)

    def _share(self, chosen: str | None) -> None:
        if chosen is not None:
            self.open_form("new", SHARED_KINDS[chosen])

    def action_again(self) -> None:
        """A cost that comes again."""
        self.open_form("new", "recurring")

    def action_sell(self) -> None:
        """A new sale."""
        self.open_form("new", "sales")

    def action_order(self) -> None:
        """A new standing order."""
        self.open_form("new", "orders")

    def action_picks(self) -> None:
        """The pick list of today and of other days."""
        from farmops.tui.screens.picks import Picks

        self.app.push_screen(Picks(), self._booked)

    def action_back(self) -> None:
        """Some of the sale under the cursor came back."""
        line = self.listing.current
        if line is None or not isinstance(line.data, Sale):
            self.refuse("Stand on the line of a sale to book what came back of it.")
        else:
            self.open_form("edit", "back", line.data)

    def action_meter(self) -> None:
        """A meter of power is read."""
        self.open_form("new", "meter readings")

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


@dataclass(frozen=True, slots=True)
class Found:
    """What stands in the place."""

    costs: list[Cost]
    sales: list[Sale]
    prices: list[ListPrice]
    supplies: list[SupplyHeld]
    power: list[PlaceUse]
    orders: list[StandingOrder]
    recurring: list[Recurrence]
    sharing: SharingSet
    codes: dict[int, str]


def read(store: Store, *, first: Any, last: Any, unit: str | None) -> Found:
    """Costs of a span for one unit and the shared ones, and its sales, newest first, the prices and the supplies."""
    costs = [one for one in lists.costs(store, first, last) if unit is None or one.unit in (unit, None)]
    return Found(
        costs[::-1],
        sales_of(store, first, last, unit)[::-1],
        lists.prices(store),
        supplies_held(store),
        power_of(store, last, unit),
        ordering.orders(store),
        [one for one in recurring(store, last) if unit is None or one.cost.unit in (unit, None)],
        lists.sharing(store),
        {line.unit.id: line.unit.code for line in lists.units(store)},
    )


def power_of(store: Store, last: date, unit: str | None) -> list[PlaceUse]:
    """Power of the last days for one unit and for all."""
    found = power_used(store, last - timedelta(days=DAYS_OF_POWER - 1), last)
    return [one for one in found if unit is None or one.unit in (unit, None)]


def sales_of(store: Store, first: Any, last: Any, unit: str | None) -> list[Sale]:
    """The sales of a span, those alone that hold something of one unit."""
    lots = {one.id for one in lists.fish_lots(store) if unit in (None, one.unit)}
    found = selling.sales(store, first, last)
    return [one for one in found if unit is None or any(_is_of(line, unit, lots) for line in one.lines)]


def _is_of(line: SaleLine, unit: str, lots: set[int]) -> bool:
    return line.fish_lot_id in lots or (line.bed or "").startswith(f"{unit}-")


def cost_line(one: Cost, measures: Measures) -> Line:
    """A cost as a line; what lasts says how long."""
    what = f"{one.what} · lasts {show_life(one.life_months)}" if one.life_months else one.what
    amount = show_money(one.amount_minor, measures)
    return Line(
        f"costs {one.id}",
        (str(one.day), what, one.where or "all", amount, one.category.value, one.payee or ""),
        data=one,
    )


def sale_line(one: Sale, measures: Measures) -> Line:
    """A sale as a line."""
    what = ", ".join(f"{each.name} {show_amount(each.sold_by, each.sold, measures)}" for each in one.lines)
    paid = show_money(one.paid_minor, measures)
    return Line(f"sales {one.id}", (str(one.day), what, "", paid, "sale", one.buyer), data=one)


def price_line(one: ListPrice) -> Line:
    """A price as a line."""
    return Line(f"prices {one.id}", (str(one.from_day), one.what, "", one.typed, "price", ""), data=one)
