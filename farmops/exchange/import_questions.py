"""What is to be looked at again among the rows of a file: booked all the same, and named by their lines."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from functools import cache, partial

from farmops.exchange.harvest_origins import Origin
from farmops.exchange.harvest_rows import Weighed
from farmops.facts import farm as farm_facts
from farmops.facts.doubts import New, doubt
from farmops.facts.reading import Reader, Store
from farmops.facts.weighings import BookedWeighing, Ground, ground, of_the_kind
from farmops.model.frozen import dataclass

ANYBODY = ""
"""The file does not say who weighed, so what anybody booked by hand may be the same weighing."""


@dataclass(frozen=True, slots=True)
class QuestionedRow:
    """A row that is booked and looks wrong, by its line, and why."""

    line: int
    question: str

    def __str__(self) -> str:
        return f"line {self.line}: {self.question}"


def questioned(store: Store, rows: Iterable[tuple[Weighed, Origin]]) -> tuple[QuestionedRow, ...]:
    """The rows that a person would have been asked about, held against what is booked already."""
    found: list[QuestionedRow] = []
    alike: dict[tuple[int | None, int | None], list[BookedWeighing]] = {}
    with store.reading() as reader:
        measures, stands = farm_facts.farm(reader).measures, cache(partial(_ground, reader))
        for row, origin in rows:
            source = (origin.planting_id, origin.fish_lot_id)
            if source == (None, None):
                continue
            if source not in alike:
                alike[source] = of_the_kind(reader, *source)
            where = stands(origin.planting_id, row.day)
            new = New(row.day, row.mass.exact, row.mass.typed, row.number, ANYBODY, ground=where)
            asked = doubt(new, alike[source], measures)
            if asked:
                found.append(QuestionedRow(row.line, asked))
    return tuple(found)


def _ground(reader: Reader, planting: int | None, on: date) -> Ground | None:
    return None if planting is None else ground(reader, planting, on)
