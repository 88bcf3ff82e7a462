"""What supplies cost when they are used: at the weighted average of what was held then."""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Iterable, Sequence
from typing import TypeVar

from farmops.economics.inventory import Stock
from farmops.facts import stock as stock_facts
from farmops.facts.farm import farm
from farmops.facts.reading import Reader
from farmops.facts.stock import Came, Went
from farmops.figures import Figure, RecordLine, Records, of_records
from farmops.model.costs import Category, Product
from farmops.model.frozen import dataclass
from farmops.model.supplies import HeldBy, Movement
from farmops.quantities import Measures
from farmops.quantities.supplies import show_held
from farmops.reports.pools import MONEY, Pool, counted
from farmops.reports.sharing import Sharing
from farmops.reports.spans import Span

FORMULA = "what was used at the average cost of what was held"


@dataclass(frozen=True, slots=True)
class UsedUp:
    """What was used of a supply on a day, for one unit or for all (None): how much the books held of it, and its cost.

    Amounts are milligrams, millilitres or pieces; the cost is in minor units.
    """

    supply_id: int
    name: str
    category: Category
    went: Went
    amount: int
    held_by: HeldBy
    cost: int

    def words(self, measures: Measures) -> str:
        """The day, the supply, how much went and how."""
        how = "missing at a count" if self.went.kind is Movement.COUNTED else self.went.kind.value
        times = f" in {self.went.entries} entries" if self.went.entries > 1 else ""
        return f"{self.went.day} {self.name}, {show_held(self.held_by, self.amount, measures)} {how}{times}"


def pool(reader: Reader, span: Span, sharing: Sharing) -> Pool:
    """What was used for each unit, and what for all or missing at a count, shared by the driver of its category."""
    used = [one for one in used_up(reader, span) if one.cost]
    if not used:
        return Pool()
    measures = farm(reader).measures
    units = sorted({one.went.unit_id for one in used if one.went.unit_id is not None})
    shared: dict[int | None, list[UsedUp]] = defaultdict(list)
    for one in used:
        if one.went.unit_id is None:
            shared[sharing.in_force(one.category, one.went.day)].append(one)
    return Pool(
        tuple(
            (unit, Product.JOINT, _figure("supplies used", [one for one in used if one.went.unit_id == unit], measures))
            for unit in units
        ),
        tuple((driver, _figure("shared supplies used", found, measures)) for driver, found in shared.items()),
    )


def _figure(name: str, used: Sequence[UsedUp], measures: Measures) -> Figure:
    lines = [RecordLine("used supplies", one.went.last_id, one.words(measures), one.cost) for one in used]
    value = sum(one.cost for one in used)
    records = Records("used supplies", len(lines), lambda: lines)
    return of_records(name, value, MONEY, f"{FORMULA}, {counted(len(lines))}", records)


def used_up(reader: Reader, span: Span) -> list[UsedUp]:
    """Everything that was used within a span, with its cost, supply by supply in the order of days."""
    lots, uses = by_supply(stock_facts.came(reader, span.last)), by_supply(stock_facts.went(reader, span.last))
    found = [
        UsedUp(id, came[0].name, came[0].category, one.went, one.amount, came[0].held_by, one.cost)
        for id, came in lots.items()
        for one in walk(came, uses.get(id, ())).used
    ]
    return [one for one in found if one.went.day >= span.first]


M = TypeVar("M", Came, Went)


def by_supply(found: Iterable[M]) -> dict[int, list[M]]:
    """What came or went, by the id of its supply."""
    sorted_: dict[int, list[M]] = defaultdict(list)
    for one in found:
        sorted_[one.supply_id].append(one)
    return sorted_


@dataclass(frozen=True, slots=True)
class Charged:
    """What went out of a supply, how much of it the books held, and what that cost in minor units."""

    went: Went
    amount: int
    cost: int


@dataclass(frozen=True, slots=True)
class Walked:
    """A supply from its first day to its last: what was used of it, what is left, what was taken beyond the books.

    `found` is what counts found beyond the books, which came in at no cost.
    """

    used: tuple[Charged, ...]
    found: tuple[Charged, ...]
    stock: Stock
    beyond: int


def walk(lots: Sequence[Came], uses: Sequence[Went]) -> Walked:
    """Purchases of a day before its uses; a use of more than is known to be held costs what is left of the stock.

    A count that finds more than the books hold brings it in at no cost, and settles what was taken beyond them.
    """
    stock, waiting, used, found, beyond = Stock(), deque(lots), [], [], 0
    for use in uses:
        while waiting and waiting[0].day <= use.day:
            stock = _with(stock, waiting.popleft())
        counted = use.kind is Movement.COUNTED
        amount = stock.quantity - use.amount if counted else use.amount
        if amount < 0:
            stock, beyond = stock.bought(-amount, 0), 0
            found.append(Charged(use, -amount, 0))
            continue
        taken = min(amount, stock.quantity)
        beyond = 0 if counted else beyond + amount - taken
        stock, cost = stock.used(taken)
        used.append(Charged(use, taken, cost))
    for lot in waiting:
        stock = _with(stock, lot)
    return Walked(tuple(used), tuple(found), stock, beyond)


def _with(stock: Stock, lot: Came) -> Stock:
    return stock.bought(lot.amount, lot.cost_minor)
