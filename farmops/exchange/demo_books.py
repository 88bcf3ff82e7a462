"""The books of the invented farm: supplies, power, sales and orders, papers, how costs are shared."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from itertools import groupby
from typing import Any

from farmops.exchange.demo_files import Cells, rows, some
from farmops.farm import orders, papers, power, recurring, sales, sharing, supplies
from farmops.model.costs import Category, Driver, JointMethod, NewDriver, NewJointSplit, NewLabourRate
from farmops.model.frozen import dataclass
from farmops.model.papers import NewPaper, PaperKind
from farmops.model.power import NewDevice, NewPowerPrice
from farmops.model.recurring import NewRecurring
from farmops.model.sales import NewOrder, NewSale, NewSaleLine, SoldBy, Terms
from farmops.model.supplies import NewSupply, NewSupplyLot
from farmops.model.values import Measured
from farmops.quantities import MASS, Measures, parse_money, parse_price, weigh
from farmops.quantities.power import POWER, parse_power_price
from farmops.quantities.sales import parse_order
from farmops.records.store import Store

MINUTES_AN_HOUR = 60
Planted = Callable[[str, str, date], int]


@dataclass(frozen=True, slots=True)
class Books:
    """Where it is booked: the store, what is there by name, how the farm measures, and who books.

    `planted` finds the planting of a crop that stood in a bed on a day.
    """

    store: Store
    unit_ids: Mapping[str, int]
    crop_ids: Mapping[str, int]
    lot_ids: Mapping[str, int]
    planted: Planted
    measures: Measures
    hand: Callable[..., Mapping[str, Any]]

    def book_supplies(self) -> dict[str, int]:
        """What is held and what was bought of it, before anything is taken; each supply by its name."""
        ids = {
            row["supply"]: supplies.add_supply(self.store, self._supply(row), **self.hand()).id
            for row in rows("supplies")
        }
        for row in rows("bought"):
            supplies.buy_supply(self.store, self._bought(row, ids), **self.hand(row["by"]))
        return ids

    def book(self) -> None:
        """Everything else."""
        for row in rows("devices"):
            power.add_device(self.store, self._device(row), **self.hand())
        for row in rows("power_prices"):
            power.set_power_price(self.store, self._power_price(row), **self.hand())
        for row in rows("sharing"):
            self._share(row)
        for row in rows("papers"):
            papers.add_paper(self.store, _paper(row), **self.hand())
        for row in rows("orders"):
            orders.record_order(self.store, self._order(row), **self.hand())
        for row in rows("recurring"):
            recurring.add_recurring(self.store, self._recurring(row), **self.hand())
        for (day, buyer), found in groupby(rows("sales"), lambda row: (row["date"], row["buyer"])):
            sold = list(found)
            entry = NewSale(date.fromisoformat(day), buyer, tuple(self._line(row) for row in sold))
            sales.record_sale(self.store, entry, **self.hand(sold[0]["by"]))

    def _money(self, typed: str) -> Measured:
        return Measured(parse_money(typed, self.measures), typed)

    def _mass(self, typed: str) -> Measured:
        return Measured(MASS.parse(typed, self.measures), typed)

    def _supply(self, row: Cells) -> NewSupply:
        return NewSupply(
            row["supply"],
            category=Category(row["category"]),
            reorder=some(row["reorder"], self._mass),
            note=row["note"],
        )

    def _bought(self, row: Cells, ids: Mapping[str, int]) -> NewSupplyLot:
        return NewSupplyLot(
            ids[row["supply"]],
            date.fromisoformat(row["date"]),
            self._mass(row["amount"]),
            some(row["paid"], self._money),
            row["payee"] or None,
            row["lot"] or None,
            some(row["opened"], date.fromisoformat),
            some(row["expires"], date.fromisoformat),
        )

    def _device(self, row: Cells) -> NewDevice:
        rated = Measured(POWER.parse(row["rated"], self.measures), row["rated"])
        minutes = int(row["hours"]) * MINUTES_AN_HOUR
        since, unit = date.fromisoformat(row["from"]), self.unit_ids[row["unit"]]
        return NewDevice(row["device"], rated, since, minutes, unit, note=row["note"])

    def _power_price(self, row: Cells) -> NewPowerPrice:
        price = parse_power_price(row["price"], self.measures)
        return NewPowerPrice(date.fromisoformat(row["from"]), price.minor, price.per_wh, row["price"])

    def _share(self, row: Cells) -> None:
        since = date.fromisoformat(row["from"])
        if row["kind"] == "driver":
            driver = NewDriver(since, Driver(row["how"]), some(row["what"], Category))
            sharing.set_driver(self.store, driver, **self.hand())
        elif row["kind"] == "split":
            sharing.set_joint_split(self.store, NewJointSplit(since, JointMethod(row["how"])), **self.hand())
        else:
            sharing.set_labour_rate(self.store, NewLabourRate(since, self._money(row["how"])), **self.hand())

    def _order(self, row: Cells) -> NewOrder:
        line, since = parse_order(row["line"], self.measures), date.fromisoformat(row["from"])
        until = some(row["until"], date.fromisoformat)
        crop = self.crop_ids[line.what]
        return NewOrder(row["buyer"], line.terms, row["rule"], since, crop, until_day=until, note=row["note"])

    def _recurring(self, row: Cells) -> NewRecurring:
        amount, since = self._money(row["amount"]), date.fromisoformat(row["from"])
        return NewRecurring(
            row["what"], amount, row["rule"], since, Category(row["category"]), row["payee"], note=row["note"]
        )

    def _line(self, row: Cells) -> NewSaleLine:
        net = weigh(row["weight"], row["tare"] or None, self.measures).net_mg
        price = parse_price(row["price"], self.measures)
        terms = Terms(
            SoldBy.WEIGHT, Measured(net, MASS.show_exact(net, self.measures)), price.minor, price.per_mg, row["price"]
        )
        if row["what"] in self.lot_ids:
            return NewSaleLine(terms, fish_lot_id=self.lot_ids[row["what"]])
        return NewSaleLine(terms, self.planted(row["place"], row["what"], date.fromisoformat(row["date"])))


def _paper(row: Cells) -> NewPaper:
    return NewPaper(
        PaperKind(row["kind"]),
        row["name"],
        date.fromisoformat(row["from"]),
        some(row["until"], date.fromisoformat),
        row["number"],
        row["issued_by"],
        note=row["note"],
    )
