"""What was paid in a year, summed up by the labels of a set. No tax advice: whoever does the taxes decides."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from farmops.facts import costs as cost_facts
from farmops.facts import farm as farm_facts
from farmops.facts.cost_labels import cost_labels
from farmops.facts.reading import Store
from farmops.figures import Figure, RecordLine, Records, of_records
from farmops.model.cost_labels import CostLabel
from farmops.model.costs import Cost, CostKind
from farmops.model.errors import NotFound
from farmops.model.frozen import dataclass
from farmops.model.text import plain


@dataclass(frozen=True, slots=True)
class Paid:
    """So many costs that came to so much, in minor units."""

    entries: int
    amount_minor: int


@dataclass(frozen=True, slots=True)
class LabelTotal:
    """A label and what was paid under it."""

    label: CostLabel
    paid: Paid

    @property
    def id(self) -> int:
        """The number of the label."""
        return self.label.id


@dataclass(frozen=True, slots=True)
class LabelTotals:
    """A year by the labels of a set: what each took, what no label took, and what was bought to last without one."""

    year: int
    label_set: str
    lines: tuple[LabelTotal, ...]
    unlabelled: Paid
    lasting: Paid


def labels_of(store: Store) -> list[CostLabel]:
    """Every label that was loaded, set by set. Raises NoFarm."""
    with store.reading() as reader:
        farm_facts.farm(reader)
        return cost_labels(reader)


def label_totals(store: Store, year: int, label_set: str | None = None) -> LabelTotals:
    """The year summed up by one set, the first there is unless it is named. Raises NoFarm, or NotFound for no set."""
    with store.reading() as reader:
        farm_facts.farm(reader)
        labels = cost_labels(reader)
        costs = cost_facts.costs(reader, date(year, 1, 1), date(year, 12, 31))
    chosen = _chosen(labels, label_set)
    of = {one.id: _label_of(one, chosen) for one in costs}
    lines = tuple(LabelTotal(label, _paid(cost for cost in costs if of[cost.id] == label.label)) for label in chosen)
    rest = [cost for cost in costs if of[cost.id] is None]
    return LabelTotals(
        year,
        chosen[0].label_set,
        lines,
        _paid(cost for cost in rest if cost.kind is CostKind.OPERATING),
        _paid(cost for cost in rest if cost.kind is CostKind.CAPITAL),
    )


def paid_under(store: Store, label: CostLabel, year: int) -> Figure:
    """What was paid under a label in a year, down to the costs, in minor units."""
    with store.reading() as reader:
        labels = [one for one in cost_labels(reader) if one.label_set == label.label_set]
        costs = cost_facts.costs(reader, date(year, 1, 1), date(year, 12, 31))
    own = [one for one in costs if _label_of(one, labels) == label.label]
    lines = [RecordLine("costs", one.id, f"{one.day} {one.what}", one.amount_minor) for one in own]
    formula = "costs that bear the label, and those of its categories that bear none"
    return of_records(
        f"{label.label}, {year}", _paid(own).amount_minor, "minor", formula, Records("costs", len(lines), lambda: lines)
    )


def _chosen(labels: Sequence[CostLabel], label_set: str | None) -> list[CostLabel]:
    if not labels:
        raise NotFound("No labels are loaded. Load some: farmops costs labels load")
    wanted = (label_set or labels[0].label_set).casefold()
    found = [one for one in labels if one.label_set.casefold() == wanted]
    if not found:
        sets = ", ".join(dict.fromkeys(one.label_set for one in labels))
        raise NotFound(f"There is no set of labels {plain(label_set or '')}. Loaded: {sets}.")
    return found


def _label_of(cost: Cost, labels: Sequence[CostLabel]) -> str | None:
    """The label a cost bears, else the one its category takes; what was bought to last takes none by itself."""
    if any(one.label == cost.label for one in labels):
        return cost.label
    if cost.kind is CostKind.CAPITAL:
        return None
    return next((one.label for one in labels if cost.category.value in one.categories), None)


def _paid(costs: Iterable[Cost]) -> Paid:
    amounts = [cost.amount_minor for cost in costs]
    return Paid(len(amounts), sum(amounts))
