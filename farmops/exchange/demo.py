"""Making the invented farm in an empty store, by the same operations that a person's own records go through."""

from __future__ import annotations

import os
from datetime import date
from functools import cached_property
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TypedDict

from farmops.exchange.demo_books import Books
from farmops.exchange.demo_files import Cells, batches, rows, some
from farmops.exchange.demo_happenings import Happenings
from farmops.exchange.demo_readings import Gauges
from farmops.exchange.demo_water import WaterCare
from farmops.exchange.files import OWNER_ALONE
from farmops.farm import beds, chores, costs, farm, fish, harvests, plantings, units
from farmops.farm.batches import Costs, Grown, Plantings, plant_many, record_costs
from farmops.farm.own_templates import change_template
from farmops.model.beds import NewBed, NewBedSize
from farmops.model.chores import ChoreChange, ChoreClass, NewChore, PartOfDay, SettledAs, Settling
from farmops.model.costs import Category, CostKind, NewCost, NewPrice
from farmops.model.errors import NotFound, Refused, StoreUnavailable
from farmops.model.farm import Farm, NewFarm, NewPerson
from farmops.model.fish import FishLotChange, NewFishLot
from farmops.model.harvests import NewHarvest, Use
from farmops.model.journal import Through
from farmops.model.plantings import NewCrop, NewPlanting, StartedBy
from farmops.model.templates import Following, TemplateChange
from farmops.model.units import NewState, NewUnit, UnitKind, UnitState
from farmops.model.values import Measured
from farmops.quantities import AREA, LENGTH, MASS, VOLUME, Dimension, Measures, parse_money, parse_price, weigh
from farmops.records.location import is_url
from farmops.records.store import Store
from farmops.reports import lists

FARM = "farm"


class Hand(TypedDict):
    """Who books and by which way."""

    by: str
    through: Through


def make_demo(store: Store, *, by: str = "Maren") -> Farm:
    """Open the invented farm in a store that holds none, and book everything that happened there.

    `by` sets it up; weighings, costs and chores are booked by those who did them. Raises Refused when the store
    holds a farm already.
    """
    maker = _Maker(store, by)
    opened = maker.open()
    maker.people()
    maker.units()
    maker.crops()
    maker.fish()
    maker.chores()
    maker.costs()
    maker.harvests()
    maker.treatments()
    maker.settlements()
    maker.readings()
    maker.happenings()
    maker.books()
    return opened


def keep_demo(store: Store) -> Farm:
    """Make the demo where nothing is yet: a file is made aside and put in its place whole.

    Raises Refused when the file, or a farm in the database named, is there already.
    """
    if is_url(store.place):
        return make_demo(store)
    place = Path(store.place)
    if any(Path(f"{place}{end}").exists() for end in ("", "-wal", "-journal")):
        raise _there_already(place)
    store.dialect.create_place()
    with TemporaryDirectory(prefix="farmops-demo-") as folder:
        aside = Store(str(Path(folder) / "farm.db"))
        try:
            opened = make_demo(aside)
        finally:
            aside.close()
        _put_in_place(Path(aside.place), place)
    return opened


def _put_in_place(made: Path, place: Path) -> None:
    """Copy a file to where none is; what could not be copied whole is taken away again."""
    try:
        copy = os.fdopen(os.open(place, os.O_CREAT | os.O_EXCL | os.O_WRONLY, OWNER_ALONE), "wb")
    except FileExistsError:
        raise _there_already(place) from None
    except OSError as error:
        raise StoreUnavailable(f"{place} cannot be made: {error.strerror}.") from error
    try:
        with copy:
            copy.write(made.read_bytes())
            copy.flush()
            os.fsync(copy.fileno())
    except OSError as error:
        place.unlink()
        raise StoreUnavailable(f"{place} cannot be made: {error.strerror}.") from error


def _there_already(place: Path) -> Refused:
    return Refused(f"Not made: {place} exists already. Name a file that does not exist yet.")


class _Maker:
    """Books file after file; what was made before is found again by its name."""

    def __init__(self, store: Store, by: str) -> None:
        self.store = store
        self.by = by
        self.settings = rows(FARM)[0]
        self.unit_ids: dict[str, int] = {}
        self.bed_ids: dict[str, int] = {}
        self.crop_ids: dict[str, int] = {}
        self.lot_ids: dict[str, int] = {}

    @cached_property
    def measures(self) -> Measures:
        names = {"mass": "weights", "volume": "volumes", "area": "areas", "length": "lengths"}
        chosen = {field: self.settings[head] for field, head in names.items()}
        return Measures(**chosen, temperature=self.settings["temperatures"], currency=self.settings["currency"])  # type: ignore[arg-type]

    @cached_property
    def today(self) -> date:
        return _day(self.settings["stands_on"])

    def hand(self, by: str | None = None) -> Hand:
        return {"by": by or self.by, "through": Through.FILE}

    def measured(self, dimension: Dimension, typed: str) -> Measured:
        return Measured(dimension.parse(typed, self.measures), typed)

    def money(self, typed: str) -> int:
        return parse_money(typed, self.measures, zero_ok=True)

    def open(self) -> Farm:
        altitude = self.measured(LENGTH, self.settings["altitude"])
        entry = NewFarm(self.settings["name"], self.measures, self.settings["zone"], altitude, self.today)
        return farm.open_farm(self.store, entry, **self.hand())

    def people(self) -> None:
        for row in rows("people"):
            farm.add_person(self.store, NewPerson(row["name"], row["note"]), **self.hand())

    def units(self) -> None:
        """The units in walking order, each with its beds from the day they were sized, before its later states."""
        described = {row["unit"]: row for row in rows("units")}
        states = rows("unit_states")
        for code, row in described.items():
            first, *later = [one for one in states if one["unit"] == code]
            self._unit(row, first)
            for bed in (one for one in rows("beds") if one["unit"] == code):
                self._bed(bed)
            for one in later:
                entered = NewState(self.unit_ids[code], UnitState(one["state"]), _day(one["from"]))
                units.enter_state(self.store, entered, **self.hand())

    def _unit(self, row: Cells, first: Cells) -> None:
        entry = NewUnit(
            row["unit"],
            _day(first["from"]),
            kind=UnitKind(row["kind"]),
            state=UnitState(first["state"]),
            tank=self.measured(VOLUME, row["tank"]),
            note=row["note"],
        )
        self.unit_ids[row["unit"]] = units.add_unit(self.store, entry, **self.hand()).id

    def _bed(self, row: Cells) -> None:
        code, since, area = f"{row['unit']}-{row['bed']}", _day(row["from"]), self.measured(AREA, row["area"])
        if code in self.bed_ids:
            beds.size_bed(self.store, NewBedSize(self.bed_ids[code], since, area), **self.hand())
            return
        depth = self.measured(LENGTH, row["depth"])
        entry = NewBed(self.unit_ids[row["unit"]], row["bed"], since, area, depth=depth, note=row["note"])
        self.bed_ids[code] = beds.add_bed(self.store, entry, **self.hand()).id

    def crops(self) -> None:
        """Crops, what they and the fish are worth, and every planting."""
        for row in rows("crops"):
            entry = NewCrop(row["crop"], row["library_key"] or None, row["note"])
            self.crop_ids[row["crop"]] = plantings.add_crop(self.store, entry, **self.hand()).id
        for row in rows("prices"):
            costs.set_price(self.store, self._price(row), **self.hand())
        plant_many(self.store, Plantings(tuple(self._grown(row) for row in rows("plantings"))), **self.hand())

    def _price(self, row: Cells) -> NewPrice:
        price, crop = parse_price(row["price"], self.measures), self.crop_ids.get(row["what"])
        species = None if crop else row["what"]
        return NewPrice(_day(row["from"]), price.minor, price.per_mg, row["price"], crop, species)

    def _grown(self, row: Cells) -> Grown:
        entry = NewPlanting(
            self.bed_ids[f"{row['unit']}-{row['bed']}"],
            self.crop_ids[row["crop"]],
            _day(row["started"]),
            StartedBy(row["by_means"]),
            row["variety"],
            some(row["plants"], int),
            self.measured(AREA, row["area"]),
            row["note"],
        )
        return Grown(entry, some(row["cleared"], _day))

    def fish(self) -> None:
        for row in rows("fish"):
            entry = NewFishLot(
                row["lot"],
                row["species"],
                self.unit_ids[row["unit"]],
                _day(row["stocked"]),
                int(row["number"]),
                self.measured(MASS, row["mean"]),
                row["library_key"],
                row["note"],
            )
            lot = self.lot_ids[row["lot"]] = fish.stock(self.store, entry, **self.hand()).id
            if row["closed"]:
                fish.change_lot(self.store, FishLotChange(lot, closed_day=_day(row["closed"])), **self.hand())

    def costs(self) -> None:
        for by, found in batches(rows("costs"), "date", self.today):
            record_costs(self.store, Costs(tuple(self._cost(row) for row in found)), **self.hand(by))

    def _cost(self, row: Cells) -> NewCost:
        return NewCost(
            _day(row["date"]),
            row["what"],
            Measured(self.money(row["amount"]), row["amount"]),
            Category(row["category"]),
            row["payee"],
            some(row["unit"], self.unit_ids.__getitem__),
            CostKind(row["kind"]),
            some(row["life_months"], int),
            some(row["salvage"], self.money),
            row["note"],
        )

    def harvests(self) -> None:
        stood = self._stood()
        for by, found in batches(rows("harvests"), "date", self.today):
            entries = tuple(self._harvest(row, stood) for row in found)
            harvests.record_harvests(self.store, harvests.Batch(entries), **self.hand(by))

    def _stood(self) -> dict[tuple[str, str, date, date | None], int]:
        """Every planting by its bed, its crop and its days."""
        grown = lists.plantings(self.store)
        return {(one.bed, one.crop, one.started_day, one.cleared_day): one.id for one in grown}

    def _harvest(self, row: Cells, stood: dict[tuple[str, str, date, date | None], int]) -> NewHarvest:
        day, tare = _day(row["date"]), row["tare"] or None
        weighed = weigh(row["weight"], tare, self.measures)
        return NewHarvest(
            day,
            Measured(weighed.net_mg, row["weight"]),
            planting_id=_standing(stood, f"{row['unit']}-{row['bed']}", row["crop"], day) if row["bed"] else None,
            fish_lot_id=None if row["bed"] else self.lot_ids[row["crop"]],
            tare=Measured(weighed.tare_mg, tare) if tare else None,
            number=some(row["count"], int),
            use=Use(row["use"]),
            note=row["note"],
        )

    def chores(self) -> None:
        """What the growers changed of the chores they were given and of those to come, and chores of their own."""
        given = self._chores()
        for row in rows("chore_changes"):
            change = ChoreChange(given[row["place"], row["chore"]], rule=row["rule"])
            chores.change_chore(self.store, change, **self.hand())
        for row in rows("template_changes"):
            changed = TemplateChange(row["template"], rule=row["rule"], existing=Following(follow=False))
            change_template(self.store, changed, **self.hand())
        for row in rows("chores"):
            chores.add_chore(self.store, self._chore(row), **self.hand())

    def _chore(self, row: Cells) -> NewChore:
        return NewChore(
            row["title"],
            row["rule"],
            _day(row["from"]),
            unit_id=self.unit_ids.get(row["place"]),
            bed_id=self.bed_ids.get(row["place"]),
            grade=ChoreClass(row["class"]),
            part=PartOfDay(row["part"]),
            minutes=int(row["minutes"]),
            instructions=row["instructions"],
            caution=row["caution"],
            months=_months(row["months"]),
        )

    def _chores(self) -> dict[tuple[str, str], int]:
        """Every chore by its place and its template's key, or by its title when it is the growers' own."""
        found = lists.chores(self.store)
        return {(one.bed or one.unit or FARM, one.template_key or one.title): one.id for one in found}

    def readings(self) -> None:
        """What was read off pumps, siphons and the water, with what, and what was done for it; the weather to come."""
        care = self._care()
        read_with = care.book_instruments()
        Gauges(self.store, self.unit_ids, read_with, self.measures, self.hand).book()
        care.book()

    def treatments(self) -> None:
        """What was done against pests."""
        self._care().book_treatments()

    def _care(self) -> WaterCare:
        return WaterCare(self.store, self.unit_ids, self.bed_ids, self.measures, self.hand)

    def happenings(self) -> None:
        """What happened to the fish, to people and to the farm."""
        held, zone = self._books().book_supplies(), self.settings["zone"]
        Happenings(self.store, self.unit_ids, self.lot_ids, held, self.measures, zone, self.hand).book()

    def books(self) -> None:
        """Power, sales and orders, papers, how costs are shared."""
        self._books().book()

    def _books(self) -> Books:
        stood = self._stood()
        ids = (self.unit_ids, self.crop_ids, self.lot_ids)
        return Books(
            self.store, *ids, lambda bed, crop, day: _standing(stood, bed, crop, day), self.measures, self.hand
        )

    def settlements(self) -> None:
        known = self._chores()
        for by, found in batches(rows("settlements"), "date", self.today):
            entries = tuple(_settling(row, known[row["place"], row["chore"]]) for row in found)
            chores.settle_many(self.store, chores.SettlingMany(entries), **self.hand(by))


def _settling(row: Cells, chore: int) -> Settling:
    return Settling(
        chore,
        SettledAs(row["how"]),
        _day(row["date"]),
        _day(row["was_due"]),
        some(row["until"], _day),
        row["reason"] or None,
        row["confirmed"] or None,
        some(row["minutes"], int),
    )


def _standing(stood: dict[tuple[str, str, date, date | None], int], bed: str, crop: str, day: date) -> int:
    """The planting of a crop that stood in a bed on a day. Raises NotFound."""
    for (its_bed, its_crop, started, cleared), id in stood.items():
        if (its_bed, its_crop) == (bed, crop) and started <= day and (cleared is None or day <= cleared):
            return id
    raise NotFound(f"No {crop} stood in {bed} on {day}.")


def _day(cell: str) -> date:
    return date.fromisoformat(cell)


def _months(cell: str) -> tuple[int, ...]:
    """The months from the first to the last of `5-10`; all when empty."""
    first, _, last = cell.partition("-")
    return tuple(range(int(first), int(last) + 1)) if cell else ()
