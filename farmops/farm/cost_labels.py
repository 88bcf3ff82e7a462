"""Labels for costs: sets are loaded, and a label on a cost is one of them."""

from __future__ import annotations

from farmops.facts.cost_labels import cost_labels
from farmops.farm.operation import Operation, operation
from farmops.model.cost_labels import LabelsLoaded, LabelToLoad, NewLabels
from farmops.model.costs import Category
from farmops.model.errors import NotFound, NotUnderstood, Refused
from farmops.model.nearness import near_names
from farmops.model.text import name_of, plain
from farmops.records.costs import CostLabelRow

MOST_LABELS = 500
LONGEST_SHOWN = 80


@operation("labels for costs")
def load_labels(op: Operation, entry: NewLabels) -> LabelsLoaded:
    """Take in a set of labels; one of the same name gives way, labels on costs stay."""
    name = name_of(entry.label_set, "name of the set")
    if not 0 < len(entry.labels) <= MOST_LABELS:
        raise Refused(f"Not loaded: a set holds 1 to {MOST_LABELS} labels.")
    _check_once(entry.labels)
    for one in cost_labels(op.reader):
        if one.label_set == name:
            op.remove(op.get(CostLabelRow, one.id))
    rows = [_row(name, at, one) for at, one in enumerate(entry.labels, start=1)]
    op.add_all(rows)
    return LabelsLoaded(name, len(rows))


def _check_once(labels: tuple[LabelToLoad, ...]) -> None:
    seen: set[str] = set()
    for one in labels:
        if one.label.casefold() in seen:
            raise Refused(f"Not loaded: {plain(one.label[:LONGEST_SHOWN])} comes twice.")
        seen.add(one.label.casefold())


def _row(label_set: str, position: int, one: LabelToLoad) -> CostLabelRow:
    known = [category.value for category in Category]
    for word in one.categories:
        if word not in known:
            raise NotUnderstood(f"{plain(word[:LONGEST_SHOWN])!r} is no category of costs. Known: {', '.join(known)}.")
    label = name_of(one.label, "label")
    return CostLabelRow(label_set=label_set, label=label, category="; ".join(one.categories) or None, position=position)


def known_label(op: Operation, text: str | None) -> str | None:
    """The label that is meant, as its set spells it; by its beginning if that is unmistakable. Raises NotFound."""
    if text is None or not text.strip():
        return None
    labels = list(dict.fromkeys(one.label for one in cost_labels(op.reader)))
    wanted = text.strip().casefold()
    found = [one for one in labels if one.casefold() == wanted]
    found = found or [one for one in labels if one.casefold().startswith(wanted)]
    if len(found) == 1:
        return found[0]
    if not labels:
        raise NotFound("No labels are loaded. Load some: farmops costs labels load")
    near = found or near_names(text[:LONGEST_SHOWN], labels)
    hint = f" Did you mean {' or '.join(near[:3])}?" if near else ""
    raise NotFound(f"There is no one label {plain(text[:LONGEST_SHOWN])}.{hint} See: farmops costs labels list")
