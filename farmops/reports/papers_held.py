"""The papers of a farm: what is good, what runs out, what is over."""

from __future__ import annotations

from datetime import date, timedelta

from farmops.facts import farm as farm_facts
from farmops.facts import papers as paper_facts
from farmops.facts.reading import Store
from farmops.model.frozen import dataclass
from farmops.model.papers import RUNS_OUT_DAYS, Paper


@dataclass(frozen=True, slots=True)
class PaperHeld:
    """A paper and how it stands on a day, in a word or two."""

    paper: Paper
    stands: str

    @property
    def id(self) -> int:
        """The number of the paper."""
        return self.paper.id


def papers_held(store: Store, on: date) -> list[PaperHeld]:
    """Every paper, those that end first on top, those renewed or without an end last. Raises NoFarm."""
    with store.reading() as reader:
        farm_facts.farm(reader)
        found = [PaperHeld(one, _stands(one, on)) for one in paper_facts.papers(reader)]
    return sorted(found, key=lambda one: (one.paper.renewed, one.paper.until_day or date.max, one.id))


def _stands(one: Paper, on: date) -> str:
    if one.renewed:
        return "renewed"
    if one.from_day > on:
        return "to come"
    if one.until_day is None:
        return "good"
    if one.until_day < on:
        return "over"
    return "running out" if one.until_day - timedelta(days=RUNS_OUT_DAYS) <= on else "good"
