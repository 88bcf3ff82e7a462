"""What is held of a supply and what it is worth, as figures down to what was bought, used and counted."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from farmops.facts.stock import Came
from farmops.figures import Figure, RecordLine, Records, difference, of_records, total
from farmops.model.supplies import Movement, Supply
from farmops.quantities import Measures
from farmops.quantities.supplies import STORED_IN, show_held
from farmops.reports.supplies_used import Charged, Walked

MONEY = "minor"
BOUGHT, USED = "bought supplies", "used supplies"


def figures_of(supply: Supply, came: Sequence[Came], walked: Walked, measures: Measures) -> dict[str, Figure]:
    """`held` in the unit of the supply and `worth` in minor units."""
    return {"held": _held(supply, came, walked), "worth": _worth(supply, came, walked, measures)}


def _held(supply: Supply, came: Sequence[Came], walked: Walked) -> Figure:
    unit = STORED_IN[supply.held_by]
    bought = _of(BOUGHT, "bought", unit, [(one.id, f"{one.day} bought", one.amount) for one in came])
    found = _of(USED, "found at a count", unit, _taken(walked.found))
    gone = _of(USED, "used, thrown away or missing at a count", unit, _taken(walked.used))
    all_in = total("came in", unit, (bought, found), "what was bought + what counts found")
    return difference(f"{supply.name} held", unit, all_in, gone, "came in - gone")


def _worth(supply: Supply, came: Sequence[Came], walked: Walked, measures: Measures) -> Figure:
    def amount(value: int) -> str:
        return show_held(supply.held_by, value, measures)

    lots = [(one.id, f"{one.day} {amount(one.amount)}", one.cost_minor) for one in came]
    uses = [
        (one.went.last_id, f"{one.went.day} {amount(one.amount)} {_how(one.went.kind)}", one.cost)
        for one in walked.used
    ]
    paid, charged = _of(BOUGHT, "paid for it", MONEY, lots), _of(USED, "cost of what is gone", MONEY, uses)
    formula = "paid for it - cost of what is gone, at the average cost of what was held on its day"
    return difference(f"worth of {supply.name} held", MONEY, paid, charged, formula)


def _taken(moved: Iterable[Charged]) -> list[tuple[int, str, int]]:
    return [(one.went.last_id, f"{one.went.day} {_how(one.went.kind)}", one.amount) for one in moved]


def _how(kind: Movement) -> str:
    return "by count" if kind is Movement.COUNTED else kind.value


def _of(kind: str, name: str, unit: str, lines: Sequence[tuple[int, str, int]]) -> Figure:
    made = [RecordLine(kind, id, words, amount) for id, words, amount in lines]
    return of_records(name, sum(one.amount for one in made), unit, name, Records(kind, len(made), lambda: made))
