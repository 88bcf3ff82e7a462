"""A farm in short sentences: units, beds, crops, fish, weighings and money, for tests that need some."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from functools import cache
from typing import Any

from sqlalchemy import Date, text

from farmops.farm import (
    beds,
    chores,
    costs,
    farm,
    fish,
    forecasts,
    harvests,
    orders,
    plantings,
    readings,
    sales,
    units,
    usage,
)
from farmops.farm.undo import redo, undo
from farmops.model.beds import Bed, BedSize, NewBed, NewBedSize
from farmops.model.chores import Chore, NewChore, Settled, SettledAs, Settling
from farmops.model.costs import Category, Cost, CostKind, ListPrice, NewCost, NewPrice
from farmops.model.farm import NewFarm
from farmops.model.fish import FishLot, NewFishLot
from farmops.model.forecasts import Degrees, Forecast, NewForecast
from farmops.model.harvests import Harvest, NewHarvest, Use
from farmops.model.journal import Undone, Which
from farmops.model.plantings import Crop, NewCrop, NewPlanting, Planting, PlantingChange
from farmops.model.readings import Measure, NewReading, NewReadings, Reading, measure_called
from farmops.model.sales import NewOrder, NewSale, NewSaleLine, Sale, StandingOrder
from farmops.model.units import NewState, NewUnit, StateFrom, Unit, UnitState
from farmops.model.usage import Counter, NewUsage, Usage
from farmops.model.values import Measured
from farmops.quantities import AREA, LENGTH, MASS, TEMPERATURE, US, VOLUME, parse_money, parse_price
from farmops.quantities.readings import parse_reading
from farmops.quantities.sales import parse_sale_line
from farmops.records.reading import day
from farmops.records.store import Store
from farmops.records.tables import BY_TABLE, JournalRow

ADA, BOB = "Ada", "Bob"
TODAY = date(2026, 10, 14)


def on(month: int, day: int) -> date:
    """A day of the year 2026."""
    return date(2026, month, day)


def mass(typed: str) -> Measured:
    """A weight as a grower types it."""
    return Measured(MASS.parse(typed, US), typed)


def area(typed: str) -> Measured:
    """An area as a grower types it."""
    return Measured(AREA.parse(typed, US), typed)


def length(typed: str) -> Measured:
    """A length as a grower types it."""
    return Measured(LENGTH.parse(typed, US), typed)


def volume(typed: str) -> Measured:
    """A volume as a grower types it."""
    return Measured(VOLUME.parse(typed, US), typed)


def money(typed: str) -> Measured:
    """A sum as a grower types it."""
    return Measured(parse_money(typed, US), typed)


def open_farm(store: Store, zone: str = "America/New_York") -> None:
    """Hollow Lane Holding, opened by Ada."""
    farm.open_farm(store, NewFarm("Hollow Lane Holding", US, zone), by=ADA)


def a_unit(
    store: Store,
    code: str = "WREN",
    since: date = date(2026, 3, 1),
    state: UnitState = UnitState.RUNNING,
    *,
    chores: bool = False,
    by: str = ADA,
    **more: Any,
) -> Unit:
    """A unit in a state since a day, without chores unless they are wanted."""
    return units.add_unit(store, NewUnit(code, since, state=state, chores=chores, **more), by=by)


def enters(
    store: Store, unit: Unit, state: UnitState, since: date, *, chores: bool = False, by: str = ADA
) -> StateFrom:
    """A unit enters a state."""
    return units.enter_state(store, NewState(unit.id, state, since, chores), by=by)


def a_bed(
    store: Store,
    unit: Unit,
    name: str = "N",
    size: str | None = "25 sq ft",
    since: date = date(2026, 3, 1),
    *,
    by: str = ADA,
    **more: Any,
) -> Bed:
    """A bed of a unit, with its size since a day."""
    return beds.add_bed(store, NewBed(unit.id, name, since, area(size) if size else None, **more), by=by)


def resize(store: Store, bed: Bed, size: str, since: date, *, by: str = ADA) -> BedSize:
    """A bed is larger or smaller from a day on."""
    return beds.size_bed(store, NewBedSize(bed.id, since, area(size)), by=by)


def a_crop(store: Store, name: str = "CHARD", *, by: str = ADA, **more: Any) -> Crop:
    """A crop that the farm grows."""
    return plantings.add_crop(store, NewCrop(name, **more), by=by)


def plant(
    store: Store, bed: Bed, crop: Crop, since: date = date(2026, 4, 1), *, by: str = ADA, **more: Any
) -> Planting:
    """A crop goes into a bed."""
    return plantings.plant(store, NewPlanting(bed.id, crop.id, since, **more), by=by)


def use(store: Store, unit: Unit, counter: Counter, amount: int, day: date, *, by: str = ADA, **more: Any) -> Usage:
    """So many minutes, milligrams or cycles were used up to a day."""
    entry = NewUsage(unit.id, counter, day, Measured(amount, str(amount)), **more)
    return usage.record_usage(store, entry, by=by)


def foretell(store: Store, day: date, *, low: str | None = None, high: str | None = None, by: str = ADA) -> Forecast:
    """What is forecast for a day, in the temperatures a grower types."""
    said = {
        name: Degrees(TEMPERATURE.parse(typed, US), typed) for name, typed in (("low", low), ("high", high)) if typed
    }
    return forecasts.set_forecast(store, NewForecast(day, **said), by=by)


def clear(store: Store, planting: Planting, day: date, *, by: str = ADA) -> Planting:
    """A planting stands for the last time on a day."""
    return plantings.change_planting(store, PlantingChange(planting.id, cleared_day=day), by=by)


def stock(
    store: Store,
    unit: Unit,
    code: str = "PERCH-24",
    since: date = date(2026, 4, 15),
    number: int = 50,
    *,
    species: str = "yellow perch",
    mean: str = "20 g",
    by: str = ADA,
) -> FishLot:
    """Fish go into a unit."""
    return fish.stock(store, NewFishLot(code, species, unit.id, since, number, mass(mean), sure=True), by=by)


def weigh(
    store: Store, source: Planting | FishLot, weight: str, day: date, use: Use = Use.HOME, *, by: str = ADA, **more: Any
) -> Harvest:
    """A weighing from a planting or from fish."""
    key = "planting_id" if isinstance(source, Planting) else "fish_lot_id"
    entry = NewHarvest(day, mass(weight), use=use, **{key: source.id, "sure": True, **more})
    return harvests.record_harvest(store, entry, by=by)


def pay(
    store: Store,
    amount: str,
    day: date,
    what: str = "feed",
    unit: Unit | None = None,
    *,
    by: str = ADA,
    **more: Any,
) -> Cost:
    """Money paid for one unit, or for all."""
    entry = NewCost(day, what, money(amount), **{"category": Category.FEED, "unit_id": unit and unit.id, **more})
    return costs.record_cost(store, entry, by=by)


def buy(
    store: Store, amount: str, day: date, what: str, months: int, unit: Unit | None = None, *, salvage: int = 0
) -> Cost:
    """Something bought to last some months, worth `salvage` cents at the end."""
    lasting = {"kind": CostKind.CAPITAL, "life_months": months, "salvage_minor": salvage}
    return pay(store, amount, day, what, unit, category=Category.BUILDING, **lasting)


def sell(store: Store, buyer: str, day: date, *lines: tuple[Planting | FishLot, str], by: str = ADA) -> Sale:
    """A sale to a buyer, each line from a planting or a lot in the words a grower types behind its name."""
    return sales.record_sale(store, NewSale(day, buyer, tuple(sale_line(*line) for line in lines)), by=by)


def order(store: Store, buyer: str, crop: Crop, typed: str, rule: str, since: date, *, by: str = ADA) -> StandingOrder:
    """A buyer wants so much of a crop on the days of a rule: `6 bunches at 2.50`."""
    terms = parse_sale_line(f"IT {typed}", US).terms
    return orders.record_order(store, NewOrder(buyer, terms, rule, since, crop_id=crop.id), by=by)


def sale_line(source: Planting | FishLot, typed: str) -> NewSaleLine:
    """A line of a sale: `2 lb at 3.50/lb` of a planting or a lot."""
    line = parse_sale_line(f"IT {typed}", US)
    origin = {"planting_id" if isinstance(source, Planting) else "fish_lot_id": source.id}
    return NewSaleLine(line.terms, **origin, unsold=line.unsold, returned=line.returned, mass=line.mass)


def price(store: Store, product: Crop | str, typed: str, since: date = date(2026, 1, 1), *, by: str = ADA) -> ListPrice:
    """A list price from a day on, of a crop or of a species of fish."""
    found = parse_price(typed, US)
    what = {"species": product} if isinstance(product, str) else {"crop_id": product.id}
    return costs.set_price(store, NewPrice(since, found.minor, found.per_mg, typed, **what), by=by)


def a_chore(
    store: Store, title: str, rule: str, since: date = date(2026, 3, 1), *, by: str = ADA, **more: Any
) -> Chore:
    """A chore of the grower's own."""
    return chores.add_chore(store, NewChore(title, rule, since, **more), by=by)


def settle(
    store: Store, chore: Chore | int, day: date, kind: SettledAs = SettledAs.DONE, *, by: str = ADA, **more: Any
) -> Settled:
    """A chore is settled on a day, as done unless told otherwise."""
    id = chore if isinstance(chore, int) else chore.id
    return chores.settle(store, Settling(id, kind, day, **{"confirmed": "seen", "sure": True, **more}), by=by)


def read(
    store: Store, unit: Unit, day: date, *, minute: int | None = None, by: str = ADA, **typed: str
) -> list[Reading]:
    """Readings of a unit as a grower types them, `fill_time` for the fill time."""
    found = tuple(reading(measure_called(name), text) for name, text in typed.items())
    return list(readings.record_readings(store, NewReadings(unit.id, day, found, minute), by=by).readings)


def reading(measure: Measure, typed: str, **more: Any) -> NewReading:
    """One reading as a grower types it."""
    found = parse_reading(typed, measure, US)
    return NewReading(measure, found.value, typed, **{"form": found.form, **more})


def take_back(store: Store, operation: str | None = None, *, by: str = ADA) -> Undone:
    """Undo one's own last operation, or the one named."""
    return undo(store, Which(operation), by=by)


def do_again(store: Store, operation: str | None = None, *, by: str = ADA) -> Undone:
    """Redo what one has undone last, or the one named."""
    return redo(store, Which(operation), by=by)


def last_operation(store: Store) -> str:
    """The id of the newest entry of the journal."""
    with store.reading() as reader:
        return str(reader.value("SELECT operation FROM journal ORDER BY seq DESC LIMIT 1"))


def everything_stored(store: Store) -> dict[str, list[dict[str, Any]]]:
    """Every row of every table but the journal, all columns, as the driver gives them but for days."""
    with store.engine.connect() as connection:
        found = {name: connection.exec_driver_sql(f"SELECT * FROM {name} ORDER BY id").mappings() for name in BY_TABLE}
        return {name: [_with_days(name, row) for row in rows] for name, rows in found.items()}


def _with_days(table: str, row: Mapping[Any, Any]) -> dict[str, Any]:
    return dict(row) | {name: day(row[name]) for name in _days_of(table)}


@cache
def _days_of(table: str) -> list[str]:
    return [column.name for column in BY_TABLE[table].__table__.columns if isinstance(column.type, Date)]


def counted(store: Store) -> dict[str, int]:
    """How many rows each table holds, the journal included."""
    with store.reading() as reader:
        return {name: reader.value(f"SELECT COUNT(*) FROM {name}") for name in (*BY_TABLE, "journal")}


def emptied(store: Store) -> Store:
    """The same store without a single row: what hypothesis makes its next farm in."""
    with store.engine.begin() as connection:
        store.dialect.defer_links(connection)
        for name in (*reversed(BY_TABLE), JournalRow.__tablename__):
            connection.execute(text(f"DELETE FROM {name}"))
    return store
