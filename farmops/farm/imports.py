"""Booking the weighings of a file in one operation, with the units, beds, crops and plantings they call for."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date

from farmops.facts import beds as bed_facts
from farmops.facts import harvests as harvest_facts
from farmops.facts import plantings as planting_facts
from farmops.facts import units as unit_facts
from farmops.farm.harvests import add_harvests
from farmops.farm.operation import Operation, operation
from farmops.farm.plantings import add_crop, plant
from farmops.farm.progress import Watch
from farmops.farm.units import add_unit
from farmops.library import crop_facts
from farmops.model.beds import Bed, BedKind
from farmops.model.frozen import dataclass
from farmops.model.harvests import NewHarvest
from farmops.model.plantings import Crop, NewCrop, NewPlanting
from farmops.model.text import code_of
from farmops.model.units import NewUnit, Unit, UnitState
from farmops.records.beds import BedRow
from farmops.records.plantings import PlantingRow


@dataclass(frozen=True, slots=True)
class PlantingToMake:
    """A planting that weighings call for, by names; its unit, bed and crop are made where the farm lacks them.

    `cleared_day` is its last day, None while it grows.
    """

    unit: str
    bed: str
    crop: str
    started_day: date
    cleared_day: date | None = None

    def __str__(self) -> str:
        return f"{self.crop} in {self.unit}-{self.bed} from {self.started_day}"


@dataclass(frozen=True, slots=True)
class ImportedHarvest:
    """A weighing with its fingerprint, from a planting or lot the farm has or from one to be made."""

    entry: NewHarvest
    planting: PlantingToMake | None = None


@dataclass(frozen=True, slots=True)
class HarvestImport:
    """The weighings of a file; `already` says how many others of it the farm was known to hold.

    `watch` is told how many have been gone through, and of how many.
    """

    harvests: tuple[ImportedHarvest, ...]
    already: int = 0
    watch: Watch | None = None


@dataclass(frozen=True, slots=True)
class Imported:
    """How many weighings were booked, how many the farm held already, and what was made for them, by name."""

    booked: int
    already: int
    units: tuple[str, ...]
    beds: tuple[str, ...]
    crops: tuple[str, ...]
    plantings: tuple[str, ...]


@operation("import")
def import_harvests(op: Operation, entry: HarvestImport) -> Imported:
    """Book the weighings that the farm does not hold yet, and make what those call for. Makes no chores."""
    booked = harvest_facts.fingerprints(op.reader)
    fresh = [one for one in entry.harvests if one.entry.fingerprint not in booked]
    maker = _Maker(op, fresh)
    made = {wanted: maker.planting(wanted) for wanted in _wanted(fresh)}
    _check_plantings(op, fresh)
    add_harvests(op, [_rooted(one, made) for one in fresh], entry.watch)
    return Imported(
        booked=len(fresh),
        already=entry.already + len(entry.harvests) - len(fresh),
        units=tuple(maker.units),
        beds=tuple(maker.beds),
        crops=tuple(maker.crops),
        plantings=tuple(maker.plantings),
    )


def _wanted(harvests: Iterable[ImportedHarvest]) -> list[PlantingToMake]:
    return list(dict.fromkeys(one.planting for one in harvests if one.planting))


def _rooted(one: ImportedHarvest, made: Mapping[PlantingToMake, int]) -> NewHarvest:
    return replace(one.entry, planting_id=made[one.planting]) if one.planting else one.entry


def _check_plantings(op: Operation, harvests: Iterable[ImportedHarvest]) -> None:
    """Refuse in words what was removed since the file was looked at."""
    for id in {one.entry.planting_id for one in harvests if one.entry.planting_id is not None}:
        op.get(PlantingRow, id)


class _Maker:
    """Makes what is missing, and takes what somebody else made meanwhile."""

    def __init__(self, op: Operation, harvests: Sequence[ImportedHarvest]) -> None:
        self.op = op
        self.units: list[str] = []
        self.beds: list[str] = []
        self.crops: list[str] = []
        self.plantings: list[str] = []
        self._first_days: dict[str, date] = {}
        for wanted in _wanted(harvests):
            self._first_days[wanted.unit] = min(self._first_days.get(wanted.unit, date.max), wanted.started_day)

    def planting(self, wanted: PlantingToMake) -> int:
        """The id of the planting: made, or standing in the bed already."""
        bed, crop = self._bed(wanted.unit, wanted.bed), self._crop(wanted.crop)
        for one in planting_facts.of_crop_in_bed(self.op.reader, bed.id, crop.id):
            if one.started_day <= wanted.started_day and one.cleared_day is None:
                return one.id
        made = plant.body(self.op, NewPlanting(bed.id, crop.id, wanted.started_day))
        if wanted.cleared_day is not None:
            self.op.change(self.op.get(PlantingRow, made.id), cleared_day=wanted.cleared_day)
        self.plantings.append(str(wanted))
        return made.id

    def _unit(self, code: str) -> Unit:
        found = unit_facts.unit_called(self.op.reader, code)
        if found is None:
            entry = NewUnit(code, self._first_days[code], state=UnitState.RUNNING, chores=False)
            found = add_unit.body(self.op, entry)
            self.units.append(found.code)
        return found

    def _bed(self, unit_code: str, name: str) -> Bed:
        unit = self._unit(unit_code)
        found = bed_facts.bed_called(self.op.reader, unit.id, name)
        if found is None:
            self.op.add(BedRow(unit_id=unit.id, name=code_of(name, "name of a bed"), kind=BedKind.MEDIA.value))
            found = bed_facts.bed_called(self.op.reader, unit.id, name)
            assert found is not None  # noqa: S101 - it was written a moment ago
            self.beds.append(found.code)
        return found

    def _crop(self, name: str) -> Crop:
        found = planting_facts.crop_called(self.op.reader, name)
        if found is None:
            facts = crop_facts.crop(name)
            found = add_crop.body(self.op, NewCrop(name, library_key=facts.key if facts else None))
            self.crops.append(found.name)
        return found
