"""Taking in a file of weighings: read, looked through row by row, and booked in one operation."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date

from farmops.exchange.cells import RefusedRow, RowRefusedError
from farmops.exchange.customs import Decimals, Order, customs_of
from farmops.exchange.harvest_origins import Holdings, Missing, Origin
from farmops.exchange.harvest_rows import Reading, Weighed
from farmops.exchange.harvest_tables import Row, Table, read_rows
from farmops.exchange.import_questions import QuestionedRow, questioned
from farmops.facts import farm as farm_facts
from farmops.facts import harvests as harvest_facts
from farmops.facts.reading import Store
from farmops.farm.imports import HarvestImport, ImportedHarvest, PlantingToMake, import_harvests
from farmops.farm.progress import Watch, watched
from farmops.model.errors import CheckFailed, Refused
from farmops.model.frozen import dataclass
from farmops.model.harvests import NewHarvest
from farmops.model.journal import Through
from farmops.model.lines import Stretch, stretches
from farmops.quantities import MASS

__all__ = ["Outcome", "Plan", "PlannedRow", "RefusedRow", "Table", "carry_out", "foresee", "plan", "read_rows"]


@dataclass(frozen=True, slots=True)
class PlannedRow:
    """A row that was understood, and the weighing it becomes."""

    row: Weighed
    harvest: ImportedHarvest


@dataclass(frozen=True, slots=True)
class Plan:
    """What becomes of each row of a file, and what is made for those to book, by name.

    `told` says how the file was read where it could be read otherwise.
    """

    to_book: tuple[PlannedRow, ...]
    already: tuple[Weighed, ...]
    refused: tuple[RefusedRow, ...]
    ignored: tuple[str, ...]
    new_units: tuple[str, ...]
    new_beds: tuple[str, ...]
    new_crops: tuple[str, ...]
    new_plantings: tuple[PlantingToMake, ...]
    questioned: tuple[QuestionedRow, ...] = ()
    told: tuple[str, ...] = ()

    @property
    def booked_lines(self) -> tuple[Stretch, ...]:
        """The lines of the rows to book."""
        return stretches(one.row.line for one in self.to_book)

    @property
    def already_lines(self) -> tuple[Stretch, ...]:
        """The lines of the rows that are there already."""
        return stretches(one.line for one in self.already)


@dataclass(frozen=True, slots=True)
class Outcome:
    """What an import brought about; `all_or_nothing` says whether one refused row holds all others back.

    Rows that are `questioned` are booked, and wait for a look at them.
    """

    booked: int
    already: int
    refused: tuple[RefusedRow, ...]
    created_units: tuple[str, ...] = ()
    created_beds: tuple[str, ...] = ()
    created_crops: tuple[str, ...] = ()
    created_plantings: tuple[str, ...] = ()
    all_or_nothing: bool = False
    questioned: tuple[QuestionedRow, ...] = ()

    @property
    def exit_code(self) -> int:
        """1 when refused rows kept everything out, 4 when they stand beside rows that the farm now holds, else 0."""
        if not self.refused:
            return 0
        held_any = self.booked or self.already
        return CheckFailed.exit_code if held_any and not self.all_or_nothing else Refused.exit_code


def plan(
    store: Store,
    table: Table,
    *,
    create_missing: bool = False,
    today: date,
    weights_in: str | None = None,
    order: Order | None = None,
    decimals: Decimals | None = None,
    crop: str | None = None,
    watch: Watch | None = None,
) -> Plan:
    """What an import of the file would do, row by row; nothing is changed.

    Args:
        store: the farm's store.
        table: the file, from `read_rows`.
        create_missing: make units, beds, crops and plantings that the file names and the farm lacks.
        today: the day that stands for today; no row may lie more than a year after it.
        weights_in: the unit of weights that name none, such as `lb`; else what the file's head says, else the farm's.
        order: which number comes first in days such as 03/05/2026; else what another day of the file shows.
        decimals: the sign before the decimals; else what the numbers of the file show, else the farm's.
        crop: what rows that name no crop are of; else what grew in their bed on the day.
        watch: told how many rows have been gone through.

    Raises:
        NoFarm: the store holds no farm.
        NotUnderstood: `weights_in` is no unit of weight.
    """
    with store.reading() as reader:
        measures = farm_facts.farm(reader).measures
        holdings, booked = Holdings(reader), harvest_facts.fingerprints(reader)
    unit = MASS.unit(weights_in).name if weights_in else table.units.get("weight")
    sorting = _Sorting(holdings, booked, create_missing)
    units = {"weight": unit} if unit else {}
    customs, told = customs_of(table, measures, today, order, decimals, units)
    crop_of = (lambda bed, day: crop) if crop else holdings.crop_on
    sorting.sort(watched(table.rows, watch), Reading(customs, crop_of))
    asked = questioned(store, [(row, origin) for row, _, origin in sorting.rooted])
    return replace(sorting.plan(table), questioned=asked, told=told)


def foresee(plan: Plan, *, all_or_nothing: bool = False) -> Outcome:
    """The outcome that carrying out the plan would have now."""
    if all_or_nothing and plan.refused:
        return Outcome(0, len(plan.already), plan.refused, all_or_nothing=True)
    return Outcome(
        booked=len(plan.to_book),
        already=len(plan.already),
        refused=plan.refused,
        created_units=plan.new_units,
        created_beds=plan.new_beds,
        created_crops=plan.new_crops,
        created_plantings=tuple(str(one) for one in plan.new_plantings),
        all_or_nothing=all_or_nothing,
        questioned=plan.questioned,
    )


def carry_out(
    store: Store,
    plan: Plan,
    *,
    by: str,
    all_or_nothing: bool = False,
    operation: str | None = None,
    watch: Watch | None = None,
) -> Outcome:
    """Book the rows of a plan in one operation, or none of them when one is refused and it is all or nothing.

    Rows that somebody else has booked from the same file since the plan was made count as already there.

    Raises:
        Refused, NotFound: what a row comes from was changed since the plan was made; nothing is booked.
    """
    if all_or_nothing and plan.refused:
        return foresee(plan, all_or_nothing=True)
    entry = HarvestImport(tuple(one.harvest for one in plan.to_book), already=len(plan.already), watch=watch)
    done = import_harvests(store, entry, by=by, operation=operation, through=Through.FILE)
    return Outcome(
        booked=done.booked,
        already=done.already,
        refused=plan.refused,
        created_units=done.units,
        created_beds=done.beds,
        created_crops=done.crops,
        created_plantings=done.plantings,
        all_or_nothing=all_or_nothing,
        questioned=plan.questioned,
    )


class _Sorting:
    """Parts the rows of a file into those to book, those already there and those refused."""

    def __init__(self, holdings: Holdings, booked: set[str], create_missing: bool) -> None:
        self.holdings = holdings
        self.booked = booked
        self.create_missing = create_missing
        self.rooted: list[tuple[Weighed, str, Origin]] = []
        self.already: list[Weighed] = []
        self.refused: list[RefusedRow] = []
        self._said: Counter[tuple[str | int | None, ...]] = Counter()

    def sort(self, rows: Iterable[Row], reading: Reading) -> None:
        """Look at every row in the order of the file."""
        for row in rows:
            try:
                self._take(reading.row(row))
            except RowRefusedError as error:
                self.refused.append(RefusedRow(row.line, row.head or error.column, error.reason))

    def _take(self, row: Weighed) -> None:
        self._said[row.said] += 1
        fingerprint = row.fingerprint(self._said[row.said])
        if fingerprint in self.booked:
            self.already.append(row)
        else:
            origin = self.holdings.origin(row, create_missing=self.create_missing)
            self.rooted.append((row, fingerprint, origin))

    def plan(self, table: Table) -> Plan:
        """All of it, with the plantings that are to be made."""
        to_make = _plantings_to_make(self.rooted)
        new = tuple(to_make.values())
        return Plan(
            to_book=tuple(_planned(*one, to_make) for one in self.rooted),
            already=tuple(self.already),
            refused=tuple(self.refused),
            ignored=table.ignored,
            new_units=self._lacking("units", (one.unit for one in new)),
            new_beds=self._lacking("beds", (f"{one.unit}-{one.bed}" for one in new)),
            new_crops=self._lacking("crops", (one.crop for one in new)),
            new_plantings=new,
        )

    def _lacking(self, kind: str, names: Iterable[str]) -> tuple[str, ...]:
        return tuple(dict.fromkeys(name for name in names if self.holdings.lacks(kind, name)))


def _plantings_to_make(rooted: Sequence[tuple[Weighed, str, Origin]]) -> dict[Missing, PlantingToMake]:
    """A planting for each that is missing, started on the first day on which the file weighs from it."""
    first: dict[Missing, date] = {}
    for row, _, origin in rooted:
        if origin.missing:
            first[origin.missing] = min(first.get(origin.missing, date.max), row.day)
    return {one: PlantingToMake(one.unit, one.bed, one.crop, day, one.last_day) for one, day in first.items()}


def _planned(row: Weighed, fingerprint: str, origin: Origin, to_make: dict[Missing, PlantingToMake]) -> PlannedRow:
    entry = NewHarvest(
        row.day,
        row.mass,
        planting_id=origin.planting_id,
        fish_lot_id=origin.fish_lot_id,
        number=row.number,
        use=row.use,
        note=row.note,
        fingerprint=fingerprint,
    )
    return PlannedRow(row, ImportedHarvest(entry, to_make[origin.missing] if origin.missing else None))
