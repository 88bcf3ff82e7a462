"""Files about power: devices, what meters showed, and what a kilowatt-hour costs."""

from __future__ import annotations

from farmops.exchange.cells import Cells, RowRefusedError, in_column
from farmops.exchange.columns import Column
from farmops.exchange.file_kinds.kind import BEGINS, DATE, NOTE, UNIT, UNTIL, Kind, Take, each, unit_in, unit_or_all
from farmops.farm.file_rows.days import OfDay
from farmops.model.power import NewDevice, NewMeterReading, NewPowerPrice
from farmops.quantities.power import A_DAY, ENERGY, POWER, parse_power_price


def _device(cells: Cells, take: Take) -> NewDevice:
    rated = cells.measured("watts", POWER)
    if rated is None:
        raise RowRefusedError("watts", "no watts")
    hours = cells.measured("hours", A_DAY)
    minutes = cells.whole("minutes") if hours is None else hours.exact
    return NewDevice(
        cells.name("device"),
        rated,
        cells.day("from"),
        A_DAY.largest if minutes is None else minutes,
        unit_or_all(cells, take),
        cells.day_or_none("until"),
        cells.note(),
    )


def _meter(cells: Cells, take: Take) -> OfDay[NewMeterReading]:
    shown = cells.measured("shown", ENERGY)
    if shown is None:
        raise RowRefusedError("shown", "no reading of the meter")
    return OfDay(NewMeterReading(cells.day(), shown, unit_or_all(cells, take), cells.note()), take.sure)


def _price(cells: Cells, take: Take) -> OfDay[NewPowerPrice]:
    if cells.empty("price"):
        raise RowRefusedError("price", "no price")
    typed = cells.with_unit("price")
    with in_column("price"):
        rate = parse_power_price(typed, cells.customs.measures)
    return OfDay(NewPowerPrice(cells.day("from"), rate.minor, rate.per_wh, typed), take.sure)


DEVICES = (
    Column("device", needed=True, also=("name",)),
    Column("watts", needed=True, also=("rated", "rated typed", "power", "w"), unit_of=unit_in(POWER)),
    Column("hours", also=("hours a day",), unit_of=unit_in(A_DAY)),
    Column("minutes", also=("minutes a day",)),
    UNIT,
    BEGINS,
    UNTIL,
    NOTE,
)
METERS = (
    DATE,
    Column("shown", needed=True, also=("shown typed", "reading", "meter"), unit_of=unit_in(ENERGY)),
    UNIT,
    NOTE,
)
PRICES = (BEGINS, Column("price", needed=True, also=("typed",), unit_of=lambda text: f"per {ENERGY.unit(text).name}"))
KINDS = (
    Kind("devices", DEVICES, each(_device)),
    Kind("meter readings", METERS, each(_meter)),
    Kind("power prices", PRICES, each(_price)),
)
