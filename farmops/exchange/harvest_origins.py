"""What the weighings of a file come from: plantings and fish lots of the farm, or plantings that are missing yet."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from farmops.exchange.cells import RowRefusedError, near
from farmops.exchange.harvest_rows import Weighed
from farmops.facts import beds as bed_facts
from farmops.facts import fish as fish_facts
from farmops.facts import plantings as planting_facts
from farmops.facts import units as unit_facts
from farmops.facts.populations import lives
from farmops.facts.reading import Reader
from farmops.facts.treatments import bed_holds, lot_holds
from farmops.model.errors import NotUnderstood
from farmops.model.fish import FishLot
from farmops.model.frozen import dataclass
from farmops.model.harvests import Use
from farmops.model.plantings import Planting
from farmops.model.text import code_of, plain
from farmops.model.treatments import Hold, longest

CREATE = "--create-missing makes it"
MOST_NAMED = 12


@dataclass(frozen=True, slots=True)
class Missing:
    """A planting that the farm lacks; `last_day` is the eve of the next one of its crop in its bed, if there is one."""

    unit: str
    bed: str
    crop: str
    last_day: date | None


@dataclass(frozen=True, slots=True)
class Origin:
    """What a weighing comes from; exactly one of the three."""

    planting_id: int | None = None
    fish_lot_id: int | None = None
    missing: Missing | None = None


class Holdings:
    """What the farm has on one snapshot, by the names files use."""

    def __init__(self, reader: Reader) -> None:
        self.units = [unit.code for unit in unit_facts.units(reader)]
        self.beds = [bed.code for bed in bed_facts.beds(reader)]
        self.crops = [crop.name for crop in planting_facts.crops(reader)]
        self._plantings: dict[tuple[str, str], list[Planting]] = defaultdict(list)
        for planting in planting_facts.plantings(reader):
            self._plantings[planting.bed, planting.crop].append(planting)
        self._lots = fish_facts.lots(reader)
        lots = [lot.id for lot in self._lots]
        self._left = Counter({lot: life.steps[-1].after.number for lot, life in lives(reader, lots).items()})
        self._known = {word: set(getattr(self, word)) for word in ("units", "beds", "crops")}
        self._beds = {bed.code: bed.id for bed in bed_facts.beds(reader)}
        self._bed_holds, self._lot_holds = bed_holds(reader), lot_holds(reader)
        self._hints: dict[tuple[str, str], str] = {}

    def lacks(self, kind: str, name: str) -> bool:
        """Whether there is no such one among `units`, `beds` or `crops`."""
        return name not in self._known[kind]

    def origin(self, row: Weighed, *, create_missing: bool) -> Origin:
        """What the row's weight comes from. Raises RowRefusedError, naming near names where one is unknown."""
        if self.lacks("units", row.unit):
            self._may_create("unit", row.unit, self.units, create_missing)
        lots = self._lots_of(row)
        if lots and not row.bed:
            return Origin(fish_lot_id=self._taken_from(lots, row))
        bed = row.where if row.bed else self._only_bed(row)
        if self.lacks("beds", bed):
            self._check_bed(row, bed, create_missing=create_missing)
        if self.lacks("crops", row.what):
            self._check_crop(row, fish=bool(lots), create_missing=create_missing)
        _refuse_held(row, self._bed_holds.get(self._beds.get(bed, 0), ()))
        return self._planting(row, bed, create_missing=create_missing)

    def crop_on(self, bed: str, day: date) -> str:
        """The only crop that grew in a bed on a day. Raises RowRefusedError."""
        there = {
            crop
            for (where, crop), known in self._plantings.items()
            if where == bed and any(_spans(one.started_day, one.cleared_day, day) for one in known)
        }
        if len(there) == 1:
            return there.pop()
        if there:
            raise RowRefusedError("crop", f"which crop? {plain(bed)} held {', '.join(sorted(there))}; --crop names it")
        raise RowRefusedError("crop", f"nothing grew in {plain(bed)} on {day} by the records; --crop names it")

    def _lots_of(self, row: Weighed) -> list[FishLot]:
        here = [lot for lot in self._lots if lot.unit == row.unit]
        return [lot for lot in here if lot.code == row.what] or [lot for lot in here if lot.species.upper() == row.what]

    def _taken_from(self, lots: Sequence[FishLot], row: Weighed) -> int:
        lot = _living(lots, row)
        _refuse_held(row, self._lot_holds.get(lot.id, ()))
        if row.number is not None and row.number > self._left[lot.id]:
            reason = (
                f"{row.number} fish would be taken from {lot.code}, which holds {self._left[lot.id]} by the records"
            )
            raise RowRefusedError("count", reason)
        self._left[lot.id] -= row.number or 0
        return lot.id

    def _only_bed(self, row: Weighed) -> str:
        beds = [bed for bed in self.beds if bed.startswith(f"{row.unit}-")]
        if len(beds) == 1:
            return beds[0]
        named = f"; {row.unit} has {', '.join(beds[:MOST_NAMED])}" if beds else ""
        raise RowRefusedError("bed", f"no bed{named}")

    def _check_bed(self, row: Weighed, bed: str, *, create_missing: bool) -> None:
        if not self.lacks("beds", row.bed):
            raise RowRefusedError("bed", f"{row.bed} is no bed of {row.unit}")
        self._may_create("bed", bed, self.beds, create_missing, code=row.bed)

    def _check_crop(self, row: Weighed, *, fish: bool, create_missing: bool) -> None:
        if fish:
            raise RowRefusedError(
                "bed", f"{plain(row.what)} is fish of {row.unit}, not a crop of a bed; leave it empty"
            )
        self._may_create("crop", row.what, self.crops, create_missing)

    def _may_create(
        self, kind: str, name: str, known: Sequence[str], create_missing: bool, *, code: str | None = None
    ) -> None:
        if not create_missing:
            raise RowRefusedError(kind, f"there is no {kind} {plain(name)}{self._hint(kind, name, known)}; {CREATE}")
        if kind == "crop":
            return
        try:
            code_of(code or name, f"code of a {kind}")
        except NotUnderstood as error:
            raise RowRefusedError(kind, str(error)) from None
        if kind == "unit" and "-" in name:
            raise RowRefusedError(kind, f"{name} holds a dash, which parts a unit from its bed, as in WREN-N")

    def _hint(self, kind: str, name: str, known: Sequence[str]) -> str:
        """Names near to it; looked for once, because a file repeats itself."""
        if (kind, name) not in self._hints:
            self._hints[kind, name] = near(name, known)
        return self._hints[kind, name]

    def _planting(self, row: Weighed, bed: str, *, create_missing: bool) -> Origin:
        known = self._plantings.get((bed, row.what), [])
        there = [one for one in known if _spans(one.started_day, one.cleared_day, row.day)]
        if there:
            return Origin(planting_id=there[-1].id)
        if not create_missing:
            raise RowRefusedError(*_no_planting(row, bed, known))
        later = min((one.started_day for one in known if one.started_day > row.day), default=None)
        last_day = later - timedelta(days=1) if later else None
        return Origin(missing=Missing(row.unit, bed.removeprefix(f"{row.unit}-"), row.what, last_day))


def _refuse_held(row: Weighed, holds: Iterable[Hold]) -> None:
    hold = longest(holds, row.day)
    if hold is not None and row.use is not Use.WASTE:
        raise RowRefusedError("use", f"{plain(row.what)} is held {hold.words}; it can be booked as waste only")


def _spans(first: date, last: date | None, day: date) -> bool:
    return first <= day and (last is None or day <= last)


def _living(lots: Sequence[FishLot], row: Weighed) -> FishLot:
    living = [lot for lot in lots if _spans(lot.stocked_day, lot.closed_day, row.day)]
    if len(living) == 1:
        return living[0]
    if living:
        raise RowRefusedError("crop", f"which lot? {row.unit} holds {', '.join(lot.code for lot in living)}")
    spans = ", ".join(f"{lot.code} from {lot.stocked_day} to {lot.closed_day or 'now'}" for lot in lots)
    raise RowRefusedError("date", f"{row.unit} held no {plain(row.what)} on {row.day}: {spans}")


def _no_planting(row: Weighed, bed: str, known: Sequence[Planting]) -> tuple[str, str]:
    """The column and the reason where a crop did not stand in its bed on the day."""
    if not known:
        return "crop", f"no {row.what} was planted in {bed}; {CREATE}"
    before = [one for one in known if one.started_day <= row.day]
    if before:
        last = max(before, key=lambda one: one.cleared_day or row.day)
        return "date", f"{row.what} in {bed} was cleared on {last.cleared_day}; --create-missing starts it anew"
    return "date", f"{row.what} in {bed} started on {known[0].started_day}; --create-missing starts one before it"
