"""What stands behind a line of a list: the figures of a record, or in words why there is nothing to open."""

from __future__ import annotations

from datetime import date
from functools import singledispatch

from farmops.facts.reading import Store
from farmops.figures import Figure, difference, given
from farmops.model.beds import Bed
from farmops.model.cost_labels import CostLabel
from farmops.model.costs import ALL_SHARED, Cost
from farmops.model.fish import FishLot
from farmops.model.frozen import dataclass
from farmops.model.harvests import Harvest
from farmops.model.journal import JournalLine
from farmops.model.plantings import Planting
from farmops.model.readings import Reading
from farmops.model.sales import Sale
from farmops.model.supplies import Supply
from farmops.model.units import Unit
from farmops.quantities import show_money
from farmops.reports import lists
from farmops.reports.cycling import Cycling
from farmops.reports.fish import lot_on_day
from farmops.reports.holds import HoldLine
from farmops.reports.label_totals import paid_under
from farmops.reports.power_used import PlaceUse
from farmops.reports.rations import ration_words
from farmops.reports.reasons import Undated
from farmops.reports.recurring import Recurrence
from farmops.reports.returns import Asked, returns
from farmops.reports.round_lines import Fold, RoundLine, SettledLine
from farmops.reports.selling import paid_for
from farmops.reports.supplies_held import supply_book
from farmops.reports.yields import By, yields

TYPED = "This was typed, not worked out: it stands for itself. Numbers made from it open with w in Returns."
READ = "It was read, not worked out: it stands for itself. Enter shows all that were read before it."
OF_BED = ("marketable", "yield_per_area", "area", "value", "cost", "cost_per_mass", "net")


@dataclass(frozen=True, slots=True)
class Behind:
    """The figures behind a line, under a title."""

    title: str
    figures: tuple[Figure, ...]


Answer = Behind | str


@singledispatch
def behind(record: object, store: Store, today: date) -> Answer:
    """The figures behind a record, or why there are none; what is not known here was typed."""
    return TYPED


@behind.register
def _(record: FishLot, store: Store, today: date) -> Answer:
    day = max(record.stocked_day, min(today, record.closed_day or today))
    return Behind(f"{record.code} on {day}", tuple(lot_on_day(store, record.id, day).figures.values()))


@behind.register
def _(record: Reading, store: Store, today: date) -> Answer:
    return READ


@behind.register
def _(record: Cycling, store: Store, today: date) -> Answer:
    return "How cycling stands follows from the readings: Enter shows the curves and what is missing."


@behind.register
def _(record: Bed, store: Store, today: date) -> Answer:
    return _of_bed(store, record.code, today)


@behind.register
def _(record: Planting, store: Store, today: date) -> Answer:
    return _of_bed(store, record.bed, today)


def _of_bed(store: Store, code: str, today: date) -> Answer:
    lines = yields(store, _this_year(today), By.BED).lines
    line = next(one for one in lines if one.name == code)
    return Behind(f"{code} this year", tuple(getattr(line, name) for name in OF_BED))


@behind.register
def _(record: Unit, store: Store, today: date) -> Answer:
    lines = returns(store, _this_year(today)).units
    line = next(one for one in lines if one.unit == record.code)
    return Behind(f"{record.code} this year, full cost", tuple(line.figures().values()))


def _this_year(today: date) -> Asked:
    return Asked(today, today.replace(month=1, day=1), today)


@behind.register
def _(record: Supply, store: Store, today: date) -> Answer:
    return Behind(f"{record.name} on {today}", tuple(supply_book(store, record, today).line.figures.values()))


@behind.register
def _(record: PlaceUse, store: Store, today: date) -> Answer:
    return Behind(f"power of {record.unit or 'what all share'}", tuple(record.figures.values()))


@behind.register
def _(record: Sale, store: Store, today: date) -> Answer:
    figure = paid_for(record, lists.farm(store).measures)
    return Behind(figure.name, (figure,))


@behind.register
def _(record: CostLabel, store: Store, today: date) -> Answer:
    years = (today.year, today.year - 1)
    return Behind(record.label, tuple(paid_under(store, record, year) for year in years))


@behind.register
def _(record: Harvest, store: Store, today: date) -> Answer:
    if not record.tare_mg:
        return TYPED
    scale = given("on the scale", record.mass_mg + record.tare_mg, "mg", "with what it was weighed in")
    tare = given("tare", record.tare_mg, "mg", record.tare_typed or "")
    name = f"{record.what} of {record.day}"
    return Behind(name, (difference(name, "mg", scale, tare, "on the scale - tare"),))


@behind.register
def _(record: Cost, store: Store, today: date) -> Answer:
    measures = lists.farm(store).measures
    told = [f"{show_money(record.amount_minor, measures)} was typed, not worked out."]
    if record.life_months:
        left = show_money(record.salvage_minor or 0, measures)
        told.append(f"It lasts {record.life_months} months: the full cost bears it day by day, down to {left}.")
    if record.unit is None:
        told.append(f"All share it, {_shared_by(store, record)}. w on a cost in Returns shows each part.")
    return " ".join(told)


def _shared_by(store: Store, cost: Cost) -> str:
    """What the parts of a shared cost go by: the driver of its category on its day, else that of all others."""
    drivers = [one for one in lists.sharing(store).drivers if one.from_day <= cost.day]
    for category in (cost.category.value, ALL_SHARED):
        held = [one for one in drivers if one.category == category]
        if held:
            last = max(held, key=lambda one: one.from_day)
            return f"by {last.driver} since {last.from_day}, for the days each unit was active"
    return "equally, for the days each unit was active"


@behind.register
def _(record: Recurrence, store: Store, today: date) -> Answer:
    due = f"next on {record.next}" if record.next else "over"
    return f"The amount was typed; it comes {record.cost.rule_words}, {due}. What is paid counts once p books it."


@behind.register
def _(record: RoundLine, store: Store, today: date) -> Answer:
    chore = record.chore
    told = [f"Due on {record.due}: {chore.rule_words}.", record.reason]
    if record.rations:
        measures = lists.farm(store).measures
        told += [f"{'; '.join(ration_words(one, measures) for one in record.rations)}."]
        told += ["A ration is a ceiling: the least of the feed table, water, beds and filter."]
    return " ".join(part for part in told if part)


@behind.register
def _(record: Fold, store: Store, today: date) -> Answer:
    return f"{record.where}: {behind(record.first, store, today)} Enter opens the line."


@behind.register
def _(record: SettledLine, store: Store, today: date) -> Answer:
    settled = record.settled
    return (
        f"{settled.actor} settled it as {settled.kind}; it was due on {settled.occurrence}: {record.chore.rule_words}."
    )


@behind.register
def _(record: JournalLine, store: Store, today: date) -> Answer:
    return f"{record.by} booked it: the journal tells what was done, it works nothing out."


@behind.register
def _(record: Undated, store: Store, today: date) -> Answer:
    return f"{record.chore.rule_words}: {record.why}."


@behind.register
def _(record: HoldLine, store: Store, today: date) -> Answer:
    return f"{record.where} is held {record.words}: the longest hold on the label of {record.product} decides."
