"""The three labels a check can carry: where its expected value comes from; and how many of each a run made."""

from __future__ import annotations

import csv
from collections import Counter
from collections.abc import Sequence
from pathlib import Path

import pytest

LABEL = "label"
LABELS = ("published", "common_practice", "from_memory")
TABLES = Path(__file__).parent / "published" / "tables"


def published(source: str, *, note: str = "") -> pytest.MarkDecorator:
    """The expected value stands in a source outside the project, named here."""
    return pytest.mark.published(source, note)


def common_practice(fact: str) -> pytest.MarkDecorator:
    """A fact of the trade that has no source."""
    return pytest.mark.common_practice(fact)


def from_memory(source: str) -> pytest.MarkDecorator:
    """The value is quoted from memory; the source was not opened."""
    return pytest.mark.from_memory(source)


def rows(table: str, *columns: str) -> list[Sequence[str]]:
    """The rows of a table of tests/published/tables, all columns or the ones named."""
    with (TABLES / table).open(newline="", encoding="utf-8") as file:
        lines = (line for line in file if not line.startswith("#"))
        return [tuple(row[c] for c in columns) if columns else tuple(row.values()) for row in csv.DictReader(lines)]


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Write each test's labels where its report carries them along, also from another process."""
    for item in items:
        item.user_properties += [(LABEL, label) for label in LABELS if item.get_closest_marker(label)]


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """How many checks against the outside were made, by label."""
    counts: Counter[object] = Counter()
    for report in terminalreporter.stats.get("passed", []):
        counts.update(value for name, value in report.user_properties if name == LABEL)
    if counts:
        words = ", ".join(f"{counts[label]} {label.replace('_', ' ')}" for label in LABELS)
        terminalreporter.write_line(f"checks against the outside: {words}")
