"""Steps of an incident, and what to see running again after it, each with its source."""

from __future__ import annotations

from functools import cache

from farmops.library import tables
from farmops.library.tables import Standing
from farmops.model.incidents import Phase, Step
from farmops.model.units import UnitKind

AIR = "air"
"""The step that stops the clock of a unit."""


@cache
def incident_steps() -> tuple[Step, ...]:
    """All steps, in the order in which they are taken."""
    return tuple(_step(row) for row in tables.read("incident_steps.csv"))


def steps_of(phase: Phase) -> tuple[Step, ...]:
    """The steps of one phase."""
    return tuple(one for one in incident_steps() if one.phase is phase)


def step_called(key: str) -> Step | None:
    """The step of that key, in any letter case."""
    wanted = key.strip().lower()
    return next((one for one in incident_steps() if one.key == wanted), None)


def _step(row: dict[str, str]) -> Step:
    return Step(
        key=row["key"],
        phase=Phase(row["phase"]),
        kinds=tuple(UnitKind(kind) for kind in tables.words(row["kinds"])),
        with_fish=tables.yes(row["with_fish"]),
        title=row["title"],
        words=row["words"],
        source=row["source"],
        standing=Standing(row["standing"]).value,
    )
