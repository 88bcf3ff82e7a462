"""Money, names and chores that the farm does not book: who refuses, in which words, and what was entered."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from farmops.farm import (
    beds,
    chores,
    cost_labels,
    costs,
    farm,
    fish,
    papers,
    plantings,
    presence,
    recurring,
    removal,
    units,
)
from farmops.model.beds import BedChange, NewBed, NewBedSize
from farmops.model.chores import ChoreChange, NewChore, NewPause, Resuming, SettledAs, Settling
from farmops.model.cost_labels import LabelToLoad, NewLabels
from farmops.model.costs import CostChange, CostKind, NewCost, NewPrice
from farmops.model.errors import NotFound, NotUnderstood, OutOfRange, Refused, Unlikely
from farmops.model.farm import FarmChange, NewPerson, PersonChange
from farmops.model.fish import NewFishLot
from farmops.model.journal import Removal
from farmops.model.papers import NewPaper, PaperKind, Renewal
from farmops.model.plantings import CropChange, NewCrop
from farmops.model.presence import NewPresence
from farmops.model.recurring import NewRecurring, NewTime, RecurringChange
from farmops.model.units import NewState, NewUnit, UnitChange, UnitState
from farmops.model.values import Measured
from farmops.quantities import METRIC
from tests.farm.refusals_of_records import LONG_AGO, NEXT_YEAR, Refusal
from tests.farmhand import area, mass, money, on

MONEY: list[Refusal] = [
    (
        "a thing without a life",
        Refused,
        "say how long it lasts",
        costs.record_cost,
        lambda _: NewCost(on(5, 1), "pump", money("80"), kind=CostKind.CAPITAL),
    ),
    (
        "feed with a life",
        Refused,
        "only what is bought to last has a life",
        costs.record_cost,
        lambda _: NewCost(on(5, 1), "feed", money("80"), life_months=3),
    ),
    (
        "worth more at the end",
        Refused,
        "lies between nothing and what was paid",
        costs.record_cost,
        lambda _: NewCost(on(5, 1), "pump", money("80"), kind=CostKind.CAPITAL, life_months=3, salvage_minor=8001),
    ),
    (
        "worth less than nothing at the end",
        Refused,
        "lies between nothing and what was paid",
        costs.change_cost,
        lambda land: CostChange(land.tank.id, salvage_minor=-1),
    ),
    (
        "made cheaper than its end",
        Refused,
        "lies between nothing and what was paid",
        costs.change_cost,
        lambda land: CostChange(land.tank.id, amount=money("39.99")),
    ),
    (
        "a life of no months",
        OutOfRange,
        "0 months is no life of a thing. Understood: 1 month to 100 years.",
        costs.record_cost,
        lambda _: NewCost(on(5, 1), "pump", money("80"), kind=CostKind.CAPITAL, life_months=0),
    ),
    (
        "nothing paid",
        OutOfRange,
        "a cost is more than nothing",
        costs.record_cost,
        lambda _: NewCost(on(5, 1), "pump", Measured(0, "0")),
    ),
    (
        "paid for nobody's unit",
        NotFound,
        "no unit 99",
        costs.change_cost,
        lambda land: CostChange(land.feed.id, unit_id=99),
    ),
    (
        "paid for two places",
        Refused,
        "for one unit, one bed or one fish lot",
        costs.record_cost,
        lambda land: NewCost(on(5, 1), "net", money("8"), unit_id=land.wren.id, bed_id=land.north.id),
    ),
    (
        "paid for no bed",
        NotFound,
        "no bed 99",
        costs.record_cost,
        lambda _: NewCost(on(5, 1), "net", money("8"), bed_id=99),
    ),
    (
        "paid to the same twice",
        Unlikely,
        "is booked for 2026-08-03 already (number",
        costs.record_cost,
        lambda _: NewCost(on(8, 3), "pills", money("17"), payee="dr reed"),
    ),
    (
        "the same of nobody named twice",
        Unlikely,
        "Was it paid twice?",
        costs.record_cost,
        lambda _: NewCost(on(6, 15), "Power", money("31.99")),
    ),
    (
        "a paper that ends before it begins",
        Refused,
        "before it begins on 2026-05-01",
        papers.add_paper,
        lambda _: NewPaper(PaperKind.PERMIT, "fish", on(5, 1), on(4, 1)),
    ),
    (
        "a paper of another age",
        OutOfRange,
        "no last day of a paper",
        papers.add_paper,
        lambda _: NewPaper(PaperKind.PERMIT, "fish", on(5, 1), date(2999, 1, 1)),
    ),
    (
        "renewed before it began",
        Refused,
        "begins after 2026-07-01",
        papers.renew_paper,
        lambda land: Renewal(land.permit_paper.id, on(7, 1), None),
    ),
    (
        "a label that is none",
        NotFound,
        "no one label Rant. Did you mean Rent?",
        costs.record_cost,
        lambda _: NewCost(on(5, 1), "net", money("8"), label="Rant"),
    ),
    (
        "a label twice",
        Refused,
        "feed comes twice",
        cost_labels.load_labels,
        lambda _: NewLabels("x", (LabelToLoad("Feed"), LabelToLoad("feed"))),
    ),
    (
        "a label of no category",
        NotUnderstood,
        "'gold' is no category of costs. Known: feed,",
        cost_labels.load_labels,
        lambda _: NewLabels("x", (LabelToLoad("Feed", ("gold",)),)),
    ),
    (
        "a set of no labels",
        Refused,
        "1 to 500 labels",
        cost_labels.load_labels,
        lambda _: NewLabels("x", ()),
    ),
    (
        "rent of nothing",
        OutOfRange,
        "more than nothing",
        recurring.add_recurring,
        lambda _: NewRecurring("rent", Measured(0, "0"), "month on the 1st", on(5, 1)),
    ),
    (
        "rent that ends before it begins",
        Refused,
        "before it begins on 2026-06-01",
        recurring.change_recurring,
        lambda land: RecurringChange(land.rent.id, until_day=on(5, 1)),
    ),
    (
        "rent after doing",
        Refused,
        "comes again on the calendar",
        recurring.add_recurring,
        lambda _: NewRecurring("rent", money("5"), "14 days after", on(5, 1)),
    ),
    (
        "rent paid twice",
        Refused,
        "stall rent of 2026-07-01 is not open; the next one is of 2026-08-01",
        recurring.book_time,
        lambda land: NewTime(land.rent.id, on(7, 1)),
    ),
    (
        "paid far ahead",
        OutOfRange,
        "2027-10-16 is not a day",
        costs.change_cost,
        lambda land: CostChange(land.feed.id, day=NEXT_YEAR),
    ),
    (
        "paid for nothing named",
        NotUnderstood,
        "The name of what was paid for is empty",
        costs.record_cost,
        lambda _: NewCost(on(5, 1), " ", money("8")),
    ),
    (
        "a price of two products",
        Refused,
        "a price is for one crop or for one species",
        costs.set_price,
        lambda land: NewPrice(on(5, 1), 100, 100, "1", land.kale.id, "yellow perch"),
    ),
    (
        "another currency under booked money",
        Refused,
        "are booked in USD",
        farm.change_farm,
        lambda _: FarmChange(measures=replace(METRIC, currency="EUR")),
    ),
]
NAMES: list[Refusal] = [
    ("a unit's code twice", Refused, "already a unit WREN", units.add_unit, lambda _: NewUnit(" wren", on(9, 1))),
    (
        "a unit's code of another",
        Refused,
        "There is already a unit WREN",
        units.change_unit,
        lambda land: UnitChange(land.finch.id, "wren"),
    ),
    (
        "a unit's code with a dash",
        Refused,
        "WREN-2 holds a dash, which parts a unit from its bed",
        units.add_unit,
        lambda _: NewUnit("wren-2", on(9, 1)),
    ),
    (
        "a unit's code with a blank",
        NotUnderstood,
        "is no code of a unit. Understood: letters, digits and dashes",
        units.add_unit,
        lambda _: NewUnit("w ren", on(9, 1)),
    ),
    (
        "a state it is in",
        Refused,
        "WREN has been running since 2026-04-10",
        units.enter_state,
        lambda land: NewState(land.wren.id, UnitState.RUNNING, on(9, 1)),
    ),
    (
        "a state far ahead",
        OutOfRange,
        "2027-10-16 is not a day",
        units.enter_state,
        lambda land: NewState(land.wren.id, UnitState.RETIRED, NEXT_YEAR),
    ),
    ("a bed twice", Refused, "already a bed WREN-N", beds.add_bed, lambda land: NewBed(land.wren.id, "n", on(9, 1))),
    (
        "a bed of another's name",
        Refused,
        "There is already a bed WREN-S2",
        beds.change_bed,
        lambda land: BedChange(land.north.id, "s2"),
    ),
    (
        "a size long ago",
        OutOfRange,
        "1899-12-31 is not a day",
        beds.size_bed,
        lambda land: NewBedSize(land.north.id, LONG_AGO, area("9 sq ft")),
    ),
    ("a crop twice", Refused, "already a crop CHARD", plantings.add_crop, lambda _: NewCrop(" Chard ")),
    (
        "a crop of another's name",
        Refused,
        "There is already a crop CHARD",
        plantings.change_crop,
        lambda land: CropChange(land.kale.id, "chard"),
    ),
    ("a person twice", Refused, "already somebody called Ada", farm.add_person, lambda _: NewPerson("ADA")),
    (
        "a person of another's name",
        Refused,
        "There is already somebody called Ada",
        farm.change_person,
        lambda land: PersonChange(land.bob.id, "ada"),
    ),
    (
        "a lot twice",
        Refused,
        "There is already a fish lot PERCH-24",
        fish.stock,
        lambda land: NewFishLot("perch-24", "yellow perch", land.wren.id, on(9, 1), 3, mass("9 g")),
    ),
    ("no time zone", NotUnderstood, "is no time zone", farm.change_farm, lambda _: FarmChange(time_zone="Mars")),
    ("an unknown kind", NotFound, "nothing called ducks", removal.remove_record, lambda _: Removal("ducks", 1)),
    ("an unknown record", NotFound, "no crop 99", removal.remove_record, lambda _: Removal("crops", 99)),
    (
        "a crop that was planted",
        Refused,
        "belong to it (planting, price, standing order)",
        removal.remove_record,
        lambda land: Removal("crops", land.kale.id),
    ),
    (
        "a unit with beds",
        Refused,
        "records belong to it (",
        removal.remove_record,
        lambda land: Removal("units", land.wren.id),
    ),
]
CHORES: list[Refusal] = [
    (
        "work for adults given to a minor",
        Refused,
        "Grade the fish is for adults only, and Zed is a minor",
        chores.change_chore,
        lambda land: ChoreChange(land.grade_fish.id, person_id=land.zed.id),
    ),
    (
        "a minor's work made one for adults",
        Refused,
        "Lift the lid is for adults only, and Zed is a minor",
        chores.add_chore,
        lambda land: NewChore("Lift the lid", "day", on(10, 1), adults_only=True, person_id=land.zed.id),
    ),
    (
        "a minor with work for adults",
        Refused,
        "Grade the fish is for adults only and falls to bob as a rule. Give it to somebody else first",
        farm.change_person,
        lambda land: PersonChange(land.bob.id, minor=True),
    ),
    (
        "nobody's work",
        NotFound,
        "There is no person 99",
        chores.add_chore,
        lambda _: NewChore("Lift the lid", "day", on(10, 1), person_id=99),
    ),
    (
        "given to nobody known",
        NotFound,
        "There is no person 99",
        chores.change_chore,
        lambda land: ChoreChange(land.sweep.id, person_id=99),
    ),
    (
        "somebody unknown here",
        NotFound,
        "There is no person 99",
        presence.say_who_is_here,
        lambda land: NewPresence(on(10, 1), (land.bob.id, 99)),
    ),
    (
        "here far ahead",
        OutOfRange,
        "2027-10-16 is not a day",
        presence.say_who_is_here,
        lambda land: NewPresence(NEXT_YEAR, (land.bob.id,)),
    ),
    (
        "skipped without a reason",
        Refused,
        "say why Sweep the barn is left out this time",
        chores.settle,
        lambda land: Settling(land.sweep.id, SettledAs.SKIPPED, on(10, 1), reason=" "),
    ),
    (
        "deferred without a day",
        Refused,
        "say until when Sweep the barn is put off",
        chores.settle,
        lambda land: Settling(land.sweep.id, SettledAs.DEFERRED, on(10, 1)),
    ),
    (
        "deferred backwards",
        Refused,
        "2026-09-30 lies before 2026-10-01",
        chores.settle,
        lambda land: Settling(land.sweep.id, SettledAs.DEFERRED, on(10, 1), until=on(9, 30)),
    ),
    (
        "deferred far ahead",
        OutOfRange,
        "2027-10-16 is not a day",
        chores.settle,
        lambda land: Settling(land.sweep.id, SettledAs.DEFERRED, on(10, 1), until=NEXT_YEAR),
    ),
    (
        "done with a day until when",
        Refused,
        "only a deferred chore has a day until when",
        chores.settle,
        lambda land: Settling(land.sweep.id, SettledAs.DONE, on(10, 1), until=on(10, 2)),
    ),
    (
        "done far ahead",
        OutOfRange,
        "2027-10-16 is not a day",
        chores.settle,
        lambda land: Settling(land.sweep.id, SettledAs.DONE, NEXT_YEAR),
    ),
    (
        "one of two not done",
        Refused,
        "only a deferred chore has a day until when",
        chores.settle_many,
        lambda land: chores.SettlingMany(
            (
                Settling(land.permit.id, SettledAs.DONE, on(10, 1)),
                Settling(land.sweep.id, SettledAs.DONE, on(10, 1), until=on(10, 2)),
            )
        ),
    ),
    ("a chore unknown", NotFound, "no chore 999", chores.settle, lambda _: Settling(999, SettledAs.DONE, on(10, 1))),
    (
        "a rest within a rest",
        Refused,
        "Sweep the barn rests already from 2026-07-01",
        chores.pause,
        lambda land: NewPause(land.sweep.id, on(7, 31)),
    ),
    (
        "a rest backwards",
        Refused,
        "2026-08-31 lies before 2026-09-01",
        chores.pause,
        lambda land: NewPause(land.sweep.id, on(9, 1), on(8, 31)),
    ),
    (
        "no rest to end",
        Refused,
        "the chore does not rest on 2026-08-01",
        chores.resume,
        lambda land: Resuming(land.sweep.id, on(8, 1)),
    ),
    (
        "a chore of two places",
        Refused,
        "to one unit, bed or fish lot",
        chores.add_chore,
        lambda land: NewChore("Both", "day", on(9, 1), unit_id=land.wren.id, bed_id=land.north.id),
    ),
    (
        "a chore of an unknown unit",
        NotFound,
        "no unit 99",
        chores.add_chore,
        lambda _: NewChore("Nowhere", "day", on(9, 1), unit_id=99),
    ),
    (
        "a chore with the fish of no unit",
        Refused,
        "rests without fish belongs to a unit, bed or fish lot",
        chores.add_chore,
        lambda _: NewChore("Feed", "day", on(9, 1), with_fish=True),
    ),
    (
        "a chore of the farm that waits for fish",
        Refused,
        "rests without fish belongs to a unit, bed or fish lot",
        chores.change_chore,
        lambda land: ChoreChange(land.sweep.id, with_fish=True),
    ),
    (
        "a chore in the 13th month",
        OutOfRange,
        "Months are numbers from 1 to 12",
        chores.change_chore,
        lambda land: ChoreChange(land.sweep.id, months=(13,)),
    ),
    (
        "a chore of two days' length",
        OutOfRange,
        "2880 minutes is no length of a chore",
        chores.change_chore,
        lambda land: ChoreChange(land.sweep.id, minutes=2880),
    ),
]
