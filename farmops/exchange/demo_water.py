"""What the water of the invented farm is read with, where it comes from, what was added, and treatments of its beds."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from typing import Any

from farmops import clock
from farmops.exchange.demo_files import Cells, rows, some
from farmops.farm import doses, instruments, own_limits, sources, treatments
from farmops.library.tables import words
from farmops.model.frozen import dataclass
from farmops.model.instruments import NewCheck, NewInstrument
from farmops.model.limits import NewOwnLimit
from farmops.model.readings import measure_called
from farmops.model.treatments import NewTreatment
from farmops.model.values import Measured
from farmops.model.water import NewDose, NewSource, NewSourceValues, NewTopUp, SourceKind
from farmops.quantities import VOLUME, Measures
from farmops.quantities.doses import parse_amount
from farmops.quantities.readings import typed_reading
from farmops.records.store import Store

SOURCE_READS = ("pH", "alkalinity", "chlorine")


@dataclass(frozen=True, slots=True)
class WaterCare:
    """Where it is booked: the store, units and beds by code, how the farm measures, and who books."""

    store: Store
    unit_ids: Mapping[str, int]
    bed_ids: Mapping[str, int]
    measures: Measures
    hand: Callable[..., Mapping[str, Any]]

    def book_instruments(self) -> dict[str, int]:
        """What is read with, before anything is read; each by its name."""
        found = {
            row["instrument"]: instruments.add_instrument(self.store, _instrument(row), **self.hand()).id
            for row in rows("instruments")
        }
        for row in rows("instrument_checks"):
            instruments.check_instrument(self.store, _check(row, found), **self.hand(row["by"]))
        return found

    def book(self) -> None:
        """Everything else."""
        for row in rows("own_limits"):
            own_limits.set_own_limit(self.store, self._limit(row), **self.hand())
        self._sources()
        for row in rows("doses"):
            doses.record_dose(self.store, self._dose(row), **self.hand(row["by"]))

    def book_treatments(self) -> None:
        """What was done to beds, with the chores that this calls for."""
        for row in rows("treatments"):
            treatments.book_treatment(self.store, self._treatment(row), **self.hand(row["by"]))

    def _sources(self) -> None:
        ids = {}
        for row in rows("sources"):
            entry = NewSource(row["source"], SourceKind(row["kind"]), row["note"])
            ids[row["source"]] = sources.add_source(self.store, entry, **self.hand()).id
            read = tuple(typed_reading(name, row[name], self.measures) for name in SOURCE_READS if row[name])
            since = date.fromisoformat(row["from"])
            sources.set_source_values(self.store, NewSourceValues(ids[row["source"]], since, read), **self.hand())
        for row in rows("top_ups"):
            volume = Measured(VOLUME.parse(row["volume"], self.measures), row["volume"])
            day, unit = date.fromisoformat(row["date"]), self.unit_ids[row["unit"]]
            top_up = NewTopUp(unit, day, volume, ids[row["source"]], row["note"])
            sources.record_top_up(self.store, top_up, **self.hand(row["by"]))

    def _limit(self, row: Cells) -> NewOwnLimit:
        low, high = some(row["low"], float), some(row["high"], float)
        measure, since = measure_called(row["measure"]), date.fromisoformat(row["from"])
        return NewOwnLimit(since, measure, low, high, self.unit_ids[row["unit"]], row["note"])

    def _dose(self, row: Cells) -> NewDose:
        amount, day = parse_amount(row["amount"], self.measures), date.fromisoformat(row["date"])
        return NewDose(self.unit_ids[row["unit"]], day, row["what"], amount, row["why"], row["note"])

    def _treatment(self, row: Cells) -> NewTreatment:
        return NewTreatment(
            date.fromisoformat(row["date"]),
            clock.parse_minute(row["hour"]),
            row["product"],
            row["amount"],
            int(row["reentry_hours"]),
            int(row["harvest_days"]),
            int(row["fish_days"]),
            bed_id=self.bed_ids[row["place"]],
            active=row["active"],
            registration=row["registration"] or None,
            against=row["against"],
            note=row["note"],
            sure=True,
        )


def _instrument(row: Cells) -> NewInstrument:
    return NewInstrument(
        row["instrument"],
        tuple(measure_called(name) for name in words(row["reads"])),
        date.fromisoformat(row["from"]),
        expires_day=some(row["expires"], date.fromisoformat),
        check_days=some(row["check_days"], int),
        note=row["note"],
    )


def _check(row: Cells, ids: Mapping[str, int]) -> NewCheck:
    passed = row["passed"] == "yes"
    day = date.fromisoformat(row["date"])
    return NewCheck(ids[row["instrument"]], day, passed, row["against"], row["showed"], row["note"])
