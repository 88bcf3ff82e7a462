"""What was weighed from one unit in a span and what it was worth, as figures down to the weighings."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from farmops.facts import harvests as harvest_facts
from farmops.facts.harvest_totals import HarvestTotal
from farmops.facts.harvests import ValuedHarvest
from farmops.facts.reading import Store
from farmops.figures import Figure, RecordLine, Records, of_records
from farmops.model.frozen import dataclass
from farmops.model.units import Unit
from farmops.reports.spans import Span
from farmops.reports.worth import Sold, worth

MASS = "mg"


@dataclass(frozen=True, slots=True)
class Weighed:
    """What was weighed from one unit, as figures down to the weighings."""

    store: Store
    span: Span
    unit: Unit
    sums: Sequence[HarvestTotal]
    sold: Sold

    def mass(self, name: str, *, fish: bool, counting: bool) -> Figure:
        """Mass of produce or of fish, all of it or what counts."""
        chosen = [one for one in self.sums if (one.species is not None) is fish]
        value = sum(one.counting_mg if counting else one.mass_mg for one in chosen)
        count = sum(one.counting_weighings if counting else one.weighings for one in chosen)
        formula = "weighings sold, eaten at home or given" if counting else "all weighings"

        def fits(one: ValuedHarvest) -> bool:
            return (one.species is not None) is fish and (one.use.counts or not counting)

        records = Records("harvests", count, self._lines(fits, lambda one: one.mass_mg))
        return of_records(name, value, MASS, formula, records, self._left_out(chosen) if counting else None)

    def _left_out(self, chosen: Sequence[HarvestTotal]) -> str | None:
        wasted = sum(one.weighings - one.counting_weighings for one in chosen)
        return f"{wasted} weighings went to waste or to feed and are left out." if wasted else None

    def value(self, *, fish: bool) -> Figure:
        """What counts of produce, or of fish, was worth: at what was paid where sales cover it, else at the list."""
        chosen = [one for one in self.sums if (one.species is not None) is fish]
        name = f"value of {'fish' if fish else 'produce'} of {self.unit.code}"
        return worth(name, chosen, self.sold.of(lambda one: (one.species is not None) is fish), self._fetch(fish=fish))

    def _fetch(self, *, fish: bool) -> Callable[[], Sequence[ValuedHarvest]]:
        return lambda: [one for one in self._valued() if (one.species is not None) is fish]

    def _valued(self) -> Sequence[ValuedHarvest]:
        with self.store.reading() as reader:
            return harvest_facts.valued(reader, self.unit.id, self.span.first, self.span.last)

    def _lines(
        self, fits: Callable[[ValuedHarvest], bool], amount: Callable[[ValuedHarvest], int]
    ) -> Callable[[], Sequence[RecordLine]]:
        def fetch() -> Sequence[RecordLine]:
            return [RecordLine("harvests", one.id, one.words, amount(one)) for one in self._valued() if fits(one)]

        return fetch
