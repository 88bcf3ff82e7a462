"""How long sealant and coating stay dry before water: the time on the label, never less than a floor."""

from __future__ import annotations

from collections.abc import Iterable

from farmops.library.templates import ChoreTemplate

FLOOR_HOURS = 24
"""Common practice, no source: sealant never gets less, whatever a label promises [h]."""
SEALED, CURED, FILLED = "seal-fittings", "seal-cured", "first-fill"
BUILD_STEPS = ("leak-test", "leak-test-read", SEALED, CURED, FILLED, "siphon-trials")
"""Templates of a building unit in the order of the work; each needs the one before it."""


def dry_days(hours: int) -> int:
    """How many days two dates are apart that hold so many hours between them, whatever the time of day."""
    return -(-hours // 24) + 1


def with_cure(templates: Iterable[ChoreTemplate], hours: int = FLOOR_HOURS) -> tuple[ChoreTemplate, ...]:
    """The templates with so many hours, at least the floor, between sealing, second coat and first fill.

    Steps that stand far enough apart stay where they are; those behind one that moves, move with it.
    """
    found = tuple(templates)
    waits = {one.key: one.wait_days for one in found if one.key in BUILD_STEPS}
    for first, then in ((SEALED, CURED), (CURED, FILLED)):
        if first in waits and then in waits:
            short = max(0, waits[first] + dry_days(max(hours, FLOOR_HOURS)) - waits[then])
            later = BUILD_STEPS[BUILD_STEPS.index(then) :]
            waits |= {step: waits[step] + short for step in later if step in waits}
    return tuple(one.waiting(waits.get(one.key, one.wait_days)) for one in found)
