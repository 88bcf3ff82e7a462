"""What supplies cost when they are used: at the weighted average of what was held then."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from farmops.economics.inventory import Stock
from farmops.facts import stock as stock_facts
from farmops.facts.reading import Reader
from farmops.facts.stock import Came, Went
from farmops.figures import Figure, RecordLine, Records, of_records
from farmops.model.costs import Category, Product
from farmops.model.supplies import Movement
from farmops.reports.pools import MONEY, Pool, counted
from farmops.reports.sharing import Sharing
from farmops.reports.spans import Span

FORMULA = "what was used at the average cost of what was held"


@dataclass(frozen=True, slots=True)
class UsedUp:
    """What was used of a supply on a day, for one unit or for all (None), and what it cost in minor units."""

    supply_id: int
    name: str
    category: Category
    went: Went
    cost: int

    @property
    def words(self) -> str:
        """The day, the supply and how it went."""
        how = "missing at a count" if self.went.kind is Movement.COUNTED else self.went.kind.value
        return f"{self.went.day} {self.name}, {how}"


def pool(reader: Reader, span: Span, sharing: Sharing) -> Pool:
    """What was used for each unit, and what for all or missing at a count, shared by the driver of its category."""
    used = [one for one in used_up(reader, span) if one.cost]
    units = sorted({one.went.unit_id for one in used if one.went.unit_id is not None})
    shared: dict[int | None, list[UsedUp]] = defaultdict(list)
    for one in used:
        if one.went.unit_id is None:
            shared[sharing.in_force(one.category, one.went.day)].append(one)
    return Pool(
        tuple(
            (unit, Product.JOINT, _figure("supplies used", [one for one in used if one.went.unit_id == unit]))
            for unit in units
        ),
        tuple((driver, _figure("shared supplies used", found)) for driver, found in shared.items()),
    )


def _figure(name: str, used: Sequence[UsedUp]) -> Figure:
    lines = [RecordLine("supplies", one.supply_id, one.words, one.cost) for one in used]
    value = sum(one.cost for one in used)
    records = Records("supplies", len(lines), lambda: lines)
    return of_records(name, value, MONEY, f"{FORMULA}, {counted(len(lines))}", records)


def used_up(reader: Reader, span: Span) -> list[UsedUp]:
    """Everything that was used within a span, with its cost, supply by supply in the order of days."""
    came, went = defaultdict(list), defaultdict(list)
    for lot in stock_facts.came(reader, span.last):
        came[lot.supply_id].append(lot)
    for use in stock_facts.went(reader, span.last):
        went[use.supply_id].append(use)
    found = [one for id, lots in came.items() for one in _of_supply(lots, went[id])]
    return [one for one in found if one.went.day >= span.first]


def _of_supply(lots: Sequence[Came], uses: Sequence[Went]) -> Iterator[UsedUp]:
    """Purchases of a day before its uses; a use of more than is known to be held costs what is left of the stock."""
    stock, waiting = Stock(), list(lots)
    for use in uses:
        while waiting and waiting[0].day <= use.day:
            lot = waiting.pop(0)
            stock = stock.bought(lot.amount, lot.cost_minor)
        amount = stock.quantity - use.amount if use.kind is Movement.COUNTED else use.amount
        if amount < 0:
            stock = stock.bought(-amount, 0)
            continue
        stock, cost = stock.used(min(amount, stock.quantity))
        yield UsedUp(use.supply_id, lots[0].name, lots[0].category, use, cost)
