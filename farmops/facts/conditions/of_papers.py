"""What can hold for papers: that one runs out and no later one follows it."""

from __future__ import annotations

from datetime import timedelta

from farmops.facts.conditions.registry import Held, by_place, condition
from farmops.facts.papers import papers
from farmops.model.chores import AppliesTo
from farmops.model.papers import RUNS_OUT_DAYS
from farmops.records.reading import Reader
from farmops.schedule.rules import Holding


@condition("paper running out", place=AppliesTo.FARM, tables=("paper",))
def running_out(reader: Reader) -> Held:
    """A permit, an insurance, a seal or another paper ends within 30 days or has ended: until it is renewed."""
    ending = [one for one in papers(reader) if one.until_day is not None and not one.renewed]
    return by_place(
        (
            None,
            Holding(
                one.until_day - timedelta(days=RUNS_OUT_DAYS),
                None,
                f"{one.kind} {one.name} is good until {one.until_day:%a} {one.until_day.day} {one.until_day:%b}",
                "its renewal",
            ),
        )
        for one in ending
        if one.until_day is not None
    )
