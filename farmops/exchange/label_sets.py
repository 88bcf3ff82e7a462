"""Sets of labels: the packaged one, or a CSV file with the columns label and category."""

from __future__ import annotations

from pathlib import Path

from farmops.exchange.sheets import read_sheet
from farmops.library.tax_labels import SCHEDULE_F, tax_labels
from farmops.model.cost_labels import LabelToLoad, NewLabels
from farmops.model.errors import NotUnderstood

COLUMNS = ("label", "category")


def label_set(file: str | None, name: str | None = None) -> NewLabels:
    """The packaged set, or that of a file under a name of its own or the file's.

    Raises:
        NotFound, NotUnderstood: the file cannot be read, or has no column `label`.
    """
    if file is None:
        return NewLabels(name or SCHEDULE_F, tuple(LabelToLoad(one.label, one.categories) for one in tax_labels()))
    path = Path(file)
    sheet = read_sheet(path, lambda head: head.strip().lower() in COLUMNS)
    heads = [head.strip().lower() for head in sheet.heads]
    if "label" not in heads:
        raise NotUnderstood(f"{sheet.name} has no column `label`. Understood: label; and category, parted by `;`.")
    rows = [dict(zip(heads, line.cells, strict=False)) for line in sheet.lines]
    labels = tuple(LabelToLoad(row.get("label", "").strip(), _categories(row.get("category", ""))) for row in rows)
    return NewLabels(name or path.stem, labels)


def _categories(cell: str) -> tuple[str, ...]:
    return tuple(word.strip().lower() for word in cell.split(";") if word.strip())
