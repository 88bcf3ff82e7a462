"""Labels of the checks and their count at the end of a run."""

from __future__ import annotations

from collections import Counter

import pytest

LABELS = ("published", "common_practice", "from_memory")


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    counts: Counter[str] = Counter()
    for report in terminalreporter.stats.get("passed", []):
        counts.update(label for label in LABELS if label in report.keywords)
    if counts:
        words = ", ".join(f"{counts[label]} {label.replace('_', ' ')}" for label in LABELS)
        terminalreporter.write_line(f"checks against the outside: {words}")
