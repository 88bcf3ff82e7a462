"""Labels for costs, set by set."""

from __future__ import annotations

from farmops.model.cost_labels import CostLabel
from farmops.records.reading import Reader

LABELS = "SELECT id, label_set, label, category, position FROM cost_label ORDER BY label_set, position, id"


def cost_labels(reader: Reader) -> list[CostLabel]:
    """Every label, set by set in its order."""
    return reader.all(CostLabel, LABELS)
