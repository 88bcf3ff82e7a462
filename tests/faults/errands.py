"""What several people book on their own units in a day's work: one errand of every kind, told by the operation's id."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from functools import cache
from random import Random

from farmops.facts import recurring as recurring_facts
from farmops.farm.chores import add_chore, settle
from farmops.farm.costs import record_cost
from farmops.farm.doses import record_dose
from farmops.farm.fish_events import record_feeding, record_loss, weigh_sample
from farmops.farm.harvests import record_harvest
from farmops.farm.notes import add_note
from farmops.farm.orders import record_order
from farmops.farm.readings import record_readings
from farmops.farm.recurring import add_recurring, book_time
from farmops.farm.sales import record_sale
from farmops.farm.sources import record_top_up
from farmops.farm.supplies import add_supply, buy_supply, use_supply
from farmops.farm.usage import record_usage
from farmops.model.chores import NewChore, SettledAs, Settling
from farmops.model.costs import Category, NewCost
from farmops.model.fish import Ate
from farmops.model.fish_events import NewFeeding, NewLoss, NewSample
from farmops.model.harvests import NewHarvest
from farmops.model.ids import new_id
from farmops.model.notes import NewNote
from farmops.model.rations import Fed
from farmops.model.readings import Measure, NewReading, NewReadings
from farmops.model.recurring import NewRecurring, NewTime
from farmops.model.sales import NewOrder, NewSale, NewSaleLine, SoldBy, Terms
from farmops.model.supplies import HeldBy, NewSupply, NewSupplyLot, NewSupplyUse
from farmops.model.usage import Counter, NewUsage
from farmops.model.values import Measured
from farmops.model.water import Amount, NewDose, NewTopUp
from farmops.records.store import Store
from tests import farmhand as hand

DAY = date(2026, 5, 3)
UNITS = {"Ada": "WREN", "Bea": "TERN", "Cleo": "FINCH", "Dan": "TEAL"}
"""Each person works on a unit of their own; the feed is everybody's."""
FEED = 1


@dataclass(frozen=True)
class Patch:
    """What is a person's to work on, by number."""

    unit: int
    planting: int
    lot: int
    feeding: int
    look: int
    rent: int


@dataclass(frozen=True)
class Errand:
    """One change: who makes it, on what, under which id; amounts are drawn from that id, so a retry is the same."""

    store: Store
    by: str
    id: str
    here: Patch
    chance: Random

    def amount(self, most: int) -> Measured:
        """Some of a thing."""
        found = self.chance.randint(1, most)
        return Measured(found, str(found))


def settle_in(store: Store) -> None:
    """A unit for everybody, with its chores, fish and crop; one sack of feed for all."""
    crop = hand.a_crop(store, "CHARD")
    for by, code in UNITS.items():
        unit = hand.a_unit(store, code, DAY, chores=True, by=by, tank=hand.volume("250 gal"))
        hand.plant(store, hand.a_bed(store, unit, since=DAY), crop, DAY, by=by)
        hand.stock(store, unit, f"LOT-{code}", DAY, 1_000_000, by=by)
        add_chore(store, NewChore(f"Look at {code}", "day", DAY, unit_id=unit.id, readings=("pH",)), by=by)
        rent = NewRecurring(f"rent of {code}", hand.money("2"), "day", date(2020, 1, 1), unit_id=unit.id)
        add_recurring(store, rent, by=by)
    assert add_supply(store, NewSupply("pellets", category=Category.FEED), by="Ada").id == FEED


@cache
def patch_of(place: str, by: str) -> Patch:
    """What a person works on, looked up once."""
    looked = {
        "unit": "SELECT id FROM unit WHERE code = :code",
        "planting": "SELECT p.id FROM planting p JOIN bed b ON b.id = p.bed_id JOIN unit u ON u.id = b.unit_id "
        "WHERE u.code = :code",
        "lot": "SELECT id FROM fish_lot WHERE code = 'LOT-' || :code",
        "feeding": "SELECT c.id FROM chore c JOIN unit u ON u.id = c.unit_id WHERE u.code = :code "
        "AND template_key = 'feed'",
        "look": "SELECT id FROM chore WHERE title = 'Look at ' || :code",
        "rent": "SELECT id FROM recurring_cost WHERE what = 'rent of ' || :code",
    }
    with Store(place).reading() as reader:
        return Patch(**{name: reader.value(sql, code=UNITS[by]) for name, sql in looked.items()})


def run_errand(store: Store, id: str, *, by: str = "Ada", kind: str | None = None) -> object:
    """Carry out the errand that an id stands for, or one of a kind, under that id."""
    chance = Random(id)
    name = kind or chance.choice(list(ERRANDS))
    return ERRANDS[name](Errand(store, by, id, patch_of(store.place, by), chance))


def _weigh(one: Errand) -> object:
    entry = NewHarvest(DAY, one.amount(5_000_000), planting_id=one.here.planting, sure=True)
    return record_harvest(one.store, entry, by=one.by, operation=one.id)


def _sell(one: Errand) -> object:
    terms = Terms(SoldBy.BUNCH, one.amount(9), one.chance.randint(1, 500), 1, "typed")
    lines = (NewSaleLine(terms, planting_id=one.here.planting), NewSaleLine(terms, fish_lot_id=one.here.lot))
    return record_sale(one.store, NewSale(DAY, "the gate", lines), by=one.by, operation=one.id)


def _order(one: Errand) -> object:
    terms = Terms(SoldBy.BUNCH, one.amount(9), 250, 1, "2.50")
    entry = NewOrder("the inn", terms, "Tue Fri", DAY, crop_id=1, until_day=DAY)
    return record_order(one.store, entry, by=one.by, operation=one.id)


def _buy(one: Errand) -> object:
    entry = NewSupplyLot(FEED, DAY, one.amount(20_000_000), one.amount(9_000), "The mill", again=True)
    return buy_supply(one.store, entry, by=one.by, operation=one.id)


def _use(one: Errand) -> object:
    entry = NewSupplyUse(FEED, DAY, one.amount(40_000), one.here.unit)
    return use_supply(one.store, entry, by=one.by, operation=one.id)


def _feed_on_the_round(one: Errand) -> object:
    fed = (Fed(one.here.lot, one.amount(40_000), Ate.ALL),)
    entry = Settling(one.here.feeding, SettledAs.DONE, DAY, confirmed="seen", minutes=3, fed=fed, sure=True)
    return settle(one.store, entry, by=one.by, operation=one.id)


def _feed(one: Errand) -> object:
    entry = NewFeeding(one.here.lot, DAY, one.amount(40_000), Ate.SOME, sure=True)
    return record_feeding(one.store, entry, by=one.by, operation=one.id)


def _settle_with_a_reading(one: Errand) -> object:
    entry = Settling(one.here.look, SettledAs.DONE, DAY, readings=(_ph(one),), sure=True)
    return settle(one.store, entry, by=one.by, operation=one.id)


def _skip(one: Errand) -> object:
    entry = Settling(one.here.look, SettledAs.SKIPPED, DAY, reason="hail")
    return settle(one.store, entry, by=one.by, operation=one.id)


def _ph(one: Errand) -> NewReading:
    value = one.chance.randint(60, 80) / 10
    return NewReading(Measure.PH, value, str(value), sure=True)


def _read(one: Errand) -> object:
    entry = NewReadings(one.here.unit, DAY, (_ph(one),), minute=one.chance.randrange(1440))
    return record_readings(one.store, entry, by=one.by, operation=one.id)


def _dose(one: Errand) -> object:
    entry = NewDose(one.here.unit, DAY, "iron chelate", Amount(HeldBy.MASS, one.amount(9_000)))
    return record_dose(one.store, entry, by=one.by, operation=one.id)


def _top_up(one: Errand) -> object:
    entry = NewTopUp(one.here.unit, DAY, one.amount(40_000))
    return record_top_up(one.store, entry, by=one.by, operation=one.id)


def _pay(one: Errand) -> object:
    entry = NewCost(DAY, "twine", one.amount(900), unit_id=one.here.unit, again=True)
    return record_cost(one.store, entry, by=one.by, operation=one.id)


def _pay_what_comes_again(one: Errand) -> object:
    with one.store.reading() as reader:
        rent = recurring_facts.recurring_cost(reader, one.here.rent)
    assert rent is not None
    entry = NewTime(rent.id, next(recurring_facts.open_days(rent)), again=True)
    return book_time(one.store, entry, by=one.by, operation=one.id)


def _weigh_a_sample(one: Errand) -> object:
    entry = NewSample(one.here.lot, DAY, each=(one.amount(90_000), one.amount(90_000)))
    return weigh_sample(one.store, entry, by=one.by, operation=one.id)


def _lose_a_fish(one: Errand) -> object:
    return record_loss(one.store, NewLoss(one.here.lot, DAY), by=one.by, operation=one.id)


def _count_use(one: Errand) -> object:
    entry = NewUsage(one.here.unit, Counter.PUMP_HOURS, DAY, one.amount(60))
    return record_usage(one.store, entry, by=one.by, operation=one.id)


def _note(one: Errand) -> object:
    return add_note(one.store, NewNote(DAY, f"seen {new_id()}", one.here.unit), by=one.by, operation=one.id)


ERRANDS: dict[str, Callable[[Errand], object]] = {
    "weighing": _weigh,
    "sale": _sell,
    "standing order": _order,
    "supply bought": _buy,
    "supply used": _use,
    "fed on the round": _feed_on_the_round,
    "feeding": _feed,
    "chore done with a reading": _settle_with_a_reading,
    "chore skipped": _skip,
    "reading": _read,
    "dose": _dose,
    "top-up": _top_up,
    "cost": _pay,
    "recurring cost paid": _pay_what_comes_again,
    "sample": _weigh_a_sample,
    "loss": _lose_a_fish,
    "use": _count_use,
    "note": _note,
}
