"""A small varied farm, laid once a run on each database: read as it stands, or copied for tests that write."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from farmops.farm.absences import go_away
from farmops.farm.chores import pause
from farmops.farm.contacts import add_contact
from farmops.farm.cost_labels import load_labels
from farmops.farm.costs import record_cost
from farmops.farm.doses import record_dose
from farmops.farm.farm import add_person
from farmops.farm.fish import change_lot
from farmops.farm.fish_events import record_feeding, record_loss, weigh_sample
from farmops.farm.incidents import begin_incident, end_incident, tick_steps
from farmops.farm.instruments import add_instrument, change_instrument, check_instrument
from farmops.farm.notes import add_note
from farmops.farm.orders import record_order
from farmops.farm.own_limits import set_own_limit
from farmops.farm.own_templates import change_template, drop_template
from farmops.farm.papers import add_paper, renew_paper
from farmops.farm.plantings import change_planting
from farmops.farm.power import add_device, read_meter, set_power_price
from farmops.farm.presence import say_who_is_here
from farmops.farm.recurring import add_recurring, book_time
from farmops.farm.sets import give_set
from farmops.farm.sharing import set_driver, set_joint_split, set_labour_rate
from farmops.farm.sources import add_source, record_top_up, set_source_values
from farmops.farm.supplies import add_supply, buy_supply, use_supply
from farmops.farm.transfers import move_lot, split, transfer
from farmops.farm.treatments import book_treatment
from farmops.model.absences import Absence, NewAbsence
from farmops.model.beds import Bed, BedKind
from farmops.model.chores import Chore, ChoreClass, NewPause, Occasion, PartOfDay, SettledAs
from farmops.model.contacts import Contact, NewContact
from farmops.model.cost_labels import LabelToLoad, NewLabels
from farmops.model.costs import (
    Category,
    Cost,
    Driver,
    DriverFrom,
    JointMethod,
    ListPrice,
    NewCost,
    NewDriver,
    NewJointSplit,
    NewLabourRate,
)
from farmops.model.farm import NewPerson, Person
from farmops.model.fish import Ate, Disposal, FishLot, FishLotChange, LossCause
from farmops.model.fish_events import NewFeeding, NewLoss, NewPlace, NewSample, NewSplit, NewTransfer
from farmops.model.forecasts import Forecast
from farmops.model.harvests import Harvest, Use
from farmops.model.incidents import Ending, Incident, NewIncident, Tick
from farmops.model.instruments import Instrument, InstrumentChange, NewCheck, NewInstrument
from farmops.model.limits import NewOwnLimit, OwnLimit
from farmops.model.notes import Changed, KeptFile, NewNote, Note
from farmops.model.papers import NewPaper, Paper, PaperKind, Renewal
from farmops.model.plantings import Crop, Planting, PlantingChange
from farmops.model.power import Device, NewDevice, NewMeterReading, NewPowerPrice
from farmops.model.presence import NewPresence
from farmops.model.readings import Form, Measure, Reading
from farmops.model.recurring import NewRecurring, NewTime, RecurringCost
from farmops.model.sales import NewOrder, Sale, StandingOrder
from farmops.model.supplies import HeldBy, Movement, NewSupply, NewSupplyLot, NewSupplyUse, Supply, SupplyLot
from farmops.model.templates import Following, NewSet, TemplateChange, TemplateDropping
from farmops.model.treatments import NewTreatment, Treatment
from farmops.model.units import Unit, UnitKind, UnitState
from farmops.model.usage import Counter, Usage
from farmops.model.values import Measured
from farmops.model.water import (
    Amount,
    Dose,
    NewDose,
    NewSource,
    NewSourceValues,
    NewTopUp,
    SourceKind,
    TopUp,
    WaterSource,
)
from farmops.quantities import US
from farmops.quantities.sales import parse_sale_line
from farmops.records.store import Store
from farmops.reports import lists
from tests.farmhand import (
    ADA,
    BOB,
    TODAY,
    a_bed,
    a_chore,
    a_crop,
    a_unit,
    buy,
    clear,
    do_again,
    enters,
    foretell,
    length,
    mass,
    money,
    on,
    open_farm,
    order,
    pay,
    plant,
    price,
    read,
    reading,
    resize,
    sell,
    settle,
    stock,
    take_back,
    use,
    volume,
    weigh,
)
from tests.frozen import frozen
from tests.servers import Server, database_of


@dataclass(frozen=True, slots=True)
class Land:
    """The farm's store and what stands on it."""

    store: Store
    ada: Person
    bob: Person
    zed: Person
    wren: Unit
    finch: Unit
    north: Bed
    south: Bed
    finch_bed: Bed
    chard: Crop
    kale: Crop
    old_chard: Planting
    kale_north: Planting
    basil: Planting
    perch: FishLot
    trout: FishLot
    weighing: Harvest
    fish_weighing: Harvest
    feed: Cost
    tank: Cost
    chard_price: ListPrice
    sweep: Chore
    filter_pad: Chore
    permit: Chore
    siphon: Chore
    grade_fish: Chore
    siphon_time: Chore
    oxygen: Reading
    vet: Contact
    bed_solids: Chore
    ivy: Person
    moss: Person
    gone: Absence
    cut: Incident
    hours: Usage
    shares: DriverFrom
    rent: RecurringCost
    permit_paper: Paper
    seen: Note
    cold: Forecast
    graded: FishLot
    soap: Treatment
    kit: Instrument
    pen: Instrument
    tight: OwnLimit
    buffer: Dose
    butt: WaterSource
    topped: TopUp
    sold: Sale
    bunches: StandingOrder
    pads: Supply
    pump: Device
    pellets: SupplyLot


def lay(store: Store) -> Land:
    """Three units, two of them coupled, with a summer of plantings, weighings, money and chores."""
    open_farm(store)
    ada = add_person(store, NewPerson("Ada", "mornings"), by=ADA)
    bob = add_person(store, NewPerson("bob"), by=BOB)
    zed = add_person(store, NewPerson("Zed", minor=True), by=BOB)
    wren = a_unit(
        store, "WREN", on(2, 1), UnitState.PLANNED, tank=volume("275 gal"), note="by the gate", breaker="No. 3"
    )
    enters(store, wren, UnitState.CYCLING, on(3, 1))
    enters(store, wren, UnitState.RUNNING, on(4, 10), chores=True)
    finch = a_unit(store, "FINCH", on(4, 15), UnitState.CYCLING, by=BOB)
    enters(store, finch, UnitState.RUNNING, on(6, 1), by=BOB)
    enters(store, finch, UnitState.RESTING, on(9, 20))
    a_unit(store, "TERN", on(8, 1), UnitState.PLANNED, kind=UnitKind.HYDROPONIC, position=1)
    north = a_bed(store, wren)
    resize(store, north, "30 sq ft", on(7, 1))
    south = a_bed(store, wren, "S2", None, kind=BedKind.RAFT, depth=length("12 in"))
    finch_bed = a_bed(store, finch, "N", "20 sq ft", on(4, 15))
    chard, kale, basil = a_crop(store), a_crop(store, "kale"), a_crop(store, "Thai basil", library_key="basil")
    old_chard = clear(store, plant(store, north, chard, on(4, 12)), on(8, 1))
    kale_north = plant(store, north, kale, on(8, 5), variety="Red Russian", plants=24)
    basil_here = plant(store, finch_bed, basil, on(6, 2), by=BOB, note="from cuttings")
    basil_here = change_planting(store, PlantingChange(basil_here.id, plants=12), by=BOB)
    plant(store, south, kale, on(4, 2))
    perch = stock(store, wren)
    trout = stock(store, finch, "TROUT-1", on(6, 5), 30, species="rainbow trout", by=BOB)
    weighing = weigh(store, old_chard, "1 6", on(5, 20), Use.SOLD, number=3, tare=None)
    weigh(store, old_chard, "1 lb 14 oz", on(6, 20), by=BOB, note="after rain")
    weigh(store, old_chard, "4 oz", on(6, 20), Use.WASTE, fingerprint="a1")
    weigh(store, kale_north, "2 lb", on(9, 2), Use.GIVEN, fingerprint="b2")
    weigh(store, basil_here, "3 oz", on(7, 7), Use.FEED, by=BOB)
    weigh(store, basil_here, "0.6 lb", on(8, 7), Use.SOLD, by=BOB)
    weigh(store, perch, "2 lb", on(9, 1), Use.SOLD, number=4)
    fish_weighing = weigh(store, trout, "1.5 lb", on(9, 10), number=2, by=BOB)
    trout = change_lot(store, FishLotChange(trout.id, closed_day=on(9, 15)), by=BOB)
    feed = pay(store, "12.50", on(5, 1), "feed, 20 lb", wren)
    pay(store, "31.99", on(6, 15), "power", by=BOB)
    pay(store, "7.35", on(6, 15), "seed", finch)
    tank = buy(store, "640", on(3, 1), "tank and stand", 96, wren, salvage=4000)
    buy(store, "99.99", on(5, 5), "scale", 36)
    pay(store, "4.20", on(7, 8), "netting", bed_id=north.id, receipt=KeptFile("5eed.jpg", "slip.jpg", "5eed"))
    pay(store, "17", on(8, 3), "vet", fish_lot_id=trout.id, category=Category.FISH, payee="Dr Reed", by=BOB)
    ours = (LabelToLoad("Feed", ("feed",)), LabelToLoad("Utilities", ("power", "water")), LabelToLoad("Rent"))
    load_labels(store, NewLabels("ours", ours), by=ADA)
    pay(store, "12", on(8, 4), "scale hire", label="rent", category=Category.TOOLS, payee="town")
    chard_price = price(store, chard, "3/lb", on(4, 1))
    price(store, chard, "3.50/lb", on(6, 1))
    price(store, kale, "4/lb", on(9, 2))
    price(store, "yellow perch", "8/lb", on(4, 1), by=BOB)
    price(store, "yellow perch", "8.50/lb", on(9, 1), by=BOB)
    sweep = a_chore(store, "Sweep the barn", "Sat", part=PartOfDay.EVENING)
    filter_pad = a_chore(store, "Filter pad", "14 days after", unit_id=finch.id, states=(UnitState.RUNNING,))
    permit = a_chore(store, "Renew the permit", "once", on(11, 1), grade=ChoreClass.PAPERWORK)
    siphon = a_chore(store, "Siphon", "month on the 31st", bed_id=north.id, months=(4, 5, 6, 7, 8, 9))
    siphon_time = a_chore(store, "Time a cycle", "7 days after", unit_id=wren.id, readings=("fill time", "rust"))
    grade_fish = a_chore(
        store,
        "Grade the fish",
        "Mon",
        fish_lot_id=trout.id,
        grade=ChoreClass.FISH_CARE,
        person_id=bob.id,
        adults_only=True,
        by=BOB,
    )
    say_who_is_here(store, NewPresence(on(9, 2), (ada.id, zed.id)), by=ADA)
    pause(store, NewPause(sweep.id, on(7, 1), on(7, 31)), by=ADA)
    settle(store, sweep, on(3, 7))
    settle(store, sweep, on(6, 27), SettledAs.SKIPPED, reason="away", by=BOB)
    settle(store, filter_pad, on(6, 20), minutes=12)
    settle(store, siphon, on(4, 30), SettledAs.DEFERRED, until=on(5, 2))
    settle(store, grade_fish, on(6, 20), by=BOB)
    ivy, moss = (add_person(store, NewPerson(*one), by=ADA) for one in (("Ivy", "stands in"), ("Moss", None, True)))
    vet = add_contact(store, NewContact("Dr Reed", "555 0100", "vet", "fish too"), by=ADA)
    add_contact(store, NewContact("Old Lane Wiring", "+1 (555) 010-0199", "electrician"), by=BOB)
    read(store, wren, on(4, 20), minute=450, ph="7.4", temperature="61 F", ammonia="0.5", nitrite="0.5 ion")
    read(store, wren, on(6, 20), ph="7.2", ammonia="<0.25", fill_time="11:30")
    oxygen = read(store, wren, on(6, 20), minute=420, ph="7.0", oxygen="6.8", by=BOB)[1]
    read(store, wren, on(6, 20), ph="6.9")
    read(store, finch, on(7, 1), nitrate="40 NO3", nitrite="0.1 N", by=BOB)
    asked = (reading(Measure.FILL_TIME, "12.5"), reading(Measure.TEMPERATURE, "70"))
    settle(store, siphon_time, on(9, 2), readings=asked, minutes=3)
    a_chore(store, "Strip the pump", "2000 pump hours or 12 weeks", unit_id=wren.id)
    a_chore(store, "Empty the bin", "5 lb fed", fish_lot_id=perch.id, by=BOB)
    a_chore(store, "Pick what is ready", "when planting ready", bed_id=finch_bed.id, grade=ChoreClass.CROP)
    a_chore(store, "Cover the beds", "when frost to come", grade=ChoreClass.CROP)
    a_chore(store, "Time ten cycles", "when unit without its baseline", unit_id=wren.id, by=BOB)
    a_chore(store, "Look after what is late", "when planting overdue", unit_id=finch.id)
    hours = use(store, wren, Counter.PUMP_HOURS, 168 * 60, on(9, 1))
    use(store, wren, Counter.PUMP_HOURS, 330 * 60, on(9, 15))
    use(store, finch, Counter.PUMP_HOURS, 24 * 60, on(9, 15), by=BOB)
    use(store, wren, Counter.FEED, mass("2 lb").exact, on(9, 15), by=BOB)
    use(store, wren, Counter.FEED, mass("5 oz").exact, on(9, 15))
    use(store, wren, Counter.SIPHON_CYCLES, 900, on(9, 20))
    cold = foretell(store, on(10, 16), low="35.5 F", high="50 F")
    foretell(store, on(10, 17), low="36 F", by=BOB)
    foretell(store, on(7, 4), high="95 F")
    a_chore(store, "Oil the door", "once", on(10, 22), grade=ChoreClass.UPKEEP)
    go_away(store, NewAbsence(ada.id, on(10, 20), on(10, 27), ivy.id, "by train"), by=ADA)
    gone = go_away(store, NewAbsence(bob.id, on(10, 21), on(10, 24)), by=BOB).absence
    cut = begin_incident(store, NewIncident(began_at=datetime(2026, 9, 20, 3, tzinfo=UTC), note="wind"), by=BOB)
    tick_steps(store, Tick(("air",), wren.id, datetime(2026, 9, 20, 3, 20, tzinfo=UTC)), by=ADA)
    tick_steps(store, Tick(("feed-off", "cause"), at=datetime(2026, 9, 20, 3, 25, tzinfo=UTC), note="a tree"), by=BOB)
    end_incident(store, Ending(datetime(2026, 9, 20, 5, tzinfo=UTC), all_running=True), by=BOB)
    begin_incident(store, NewIncident(began_at=datetime(2026, 10, 14, 15, 30, tzinfo=UTC)), by=BOB)
    tick_steps(store, Tick(("levels",)), by=BOB)
    record_cost(store, NewCost(on(8, 8), "hose", money("9")), by=BOB)
    take_back(store, by=BOB)
    record_cost(store, NewCost(on(8, 9), "hose, longer", money("11")), by=ADA)
    take_back(store)
    do_again(store)
    give_set(store, NewSet(Occasion.DOSING, wren.id, on(10, 9)), by=ADA)
    with store.reading() as reader:
        settle(store, int(reader.value("SELECT MAX(id) FROM chore")), on(10, 10))
    shorter = TemplateChange("siphon-time", minutes=1, readings=("fill time",), existing=Following(follow=False))
    change_template(store, shorter, by=ADA)
    drop_template(store, TemplateDropping("kit-expiry"), by=BOB)
    bed_solids = next(one for one in lists.chores(store) if one.template_key == "bed-solids")
    return Land(
        store=store,
        ada=ada,
        bob=bob,
        zed=zed,
        wren=wren,
        finch=finch,
        north=north,
        south=south,
        finch_bed=finch_bed,
        chard=chard,
        kale=kale,
        old_chard=old_chard,
        kale_north=kale_north,
        basil=basil_here,
        perch=perch,
        trout=trout,
        weighing=weighing,
        fish_weighing=fish_weighing,
        feed=feed,
        tank=tank,
        chard_price=chard_price,
        sweep=sweep,
        filter_pad=filter_pad,
        permit=permit,
        siphon=siphon,
        grade_fish=grade_fish,
        siphon_time=siphon_time,
        oxygen=oxygen,
        vet=vet,
        bed_solids=bed_solids,
        ivy=ivy,
        moss=moss,
        gone=gone,
        cut=cut,
        hours=hours,
        cold=cold,
        shares=_how_costs_are_shared(store, wren, finch, bob),
        rent=_what_comes_again(store, wren),
        permit_paper=_papers(store, wren),
        seen=_notes(store, wren, north, sweep),
        graded=_fish_lives(store, perch, wren, finch),
        soap=_treatments(store, finch, north, perch),
        bunches=_orders(store, kale),
        sold=_sales(store, old_chard, kale_north, perch),
        pads=_pads(store, finch),
        pump=_power(store, wren, finch),
        pellets=_pellets(store, wren, finch),
        **_water_in_hand(store, wren, finch),
    )


def _orders(store: Store, kale: Crop) -> StandingOrder:
    """The inn wants perch until the end of September, and kale for good; the kale is given back."""
    perch = parse_sale_line("IT 2 lb at 8/lb", US).terms
    entry = NewOrder("the inn", perch, "2 weeks on Sat", on(6, 6), species="yellow perch", until_day=on(9, 30))
    record_order(store, entry, by=BOB)
    return order(store, "the inn", kale, "6 bunches at 2.50", "Tue Fri", on(9, 1))


def _sales(store: Store, chard: Planting, kale: Planting, perch: FishLot) -> Sale:
    """Three sales: of less than was weighed, of bunches that were not weighed and of fish; the last is given back."""
    sell(store, "the gate", on(5, 22), (chard, "1 lb at 3.50/lb"))
    sell(store, "the inn", on(6, 20), (chard, "6 bunches at 2.25 returned 1"), by=BOB)
    return sell(
        store, "the gate", on(9, 2), (perch, "1 lb 12 oz for 15"), (kale, "4 bunches weighing 2 lb at 2.50 unsold 2")
    )


def _treatments(store: Store, finch: Unit, north: Bed, perch: FishLot) -> Treatment:
    """On a bed, on a unit over what was sold, and on a fish lot whose fish were parted; the first is given back."""
    label = {"amount_typed": "20 mL in 1 L", "reentry_hours": 4}
    soap = NewTreatment(
        on(8, 20),
        1110,
        "soap spray",
        harvest_days=3,
        bed_id=north.id,
        active="potassium salts of fatty acids",
        sure=True,
        **label,
    )
    first = book_treatment(store, soap, by=ADA).treatment
    oil = NewTreatment(
        on(8, 6),
        1380,
        "rosemary oil",
        harvest_days=5,
        fish_days=10,
        unit_id=finch.id,
        against="mites",
        sure=True,
        **label,
    )
    book_treatment(store, oil, by=BOB)
    salt = NewTreatment(
        on(9, 11),
        420,
        "salt",
        harvest_days=0,
        fish_days=6,
        fish_lot_id=perch.id,
        actor="Dr Reed",
        note="in a tub",
        **label,
    )
    book_treatment(store, salt, by=ADA)
    return first


def _notes(store: Store, wren: Unit, north: Bed, sweep: Chore) -> Note:
    """Notes on the farm, a bed, a chore and a unit; the last, of a new pump with its photo, is given back."""
    add_note(store, NewNote(on(6, 20), "hail at noon"), by=ADA)
    add_note(store, NewNote(on(6, 20), "slugs", bed_id=north.id), by=BOB)
    add_note(store, NewNote(on(7, 2), "broom worn out", chore_id=sweep.id), by=ADA)
    photo = KeptFile("c0de.png", "pump.png", "c0de")
    return add_note(store, NewNote(on(9, 2), "smaller", wren.id, changed=Changed.PUMP, file=photo), by=ADA)


def _how_costs_are_shared(store: Store, wren: Unit, finch: Unit, bob: Person) -> DriverFrom:
    """Drivers, a split and rates of an hour from days in spring; the fixed shares are given back."""
    set_driver(store, NewDriver(on(4, 1), Driver.EQUAL), by=ADA)
    set_driver(store, NewDriver(on(6, 10), Driver.TANK_VOLUME, Category.POWER), by=BOB)
    set_joint_split(store, NewJointSplit(on(5, 1), JointMethod.FIXED_SHARES, 800), by=ADA)
    set_labour_rate(store, NewLabourRate(on(4, 1), money("15")), by=ADA)
    set_labour_rate(store, NewLabourRate(on(6, 1), money("9.50"), bob.id), by=BOB)
    fixed = ((wren.id, 3), (finch.id, 1))
    return set_driver(store, NewDriver(on(5, 1), Driver.FIXED_SHARES, Category.SEED, fixed), by=ADA)


def _what_comes_again(store: Store, wren: Unit) -> RecurringCost:
    """Insurance once a year and a stall's rent by the month, two months of it booked; the rent is given back."""
    insured = NewRecurring("insurance", money("180"), "year on 3 may", on(5, 1), Category.INSURANCE, "Old Lane Mutual")
    add_recurring(store, insured, by=ADA)
    rent = add_recurring(
        store,
        NewRecurring(
            "stall rent", money("25"), "month on the 1st", on(6, 1), Category.FEES, "town", wren.id, on(12, 1)
        ),
        by=BOB,
    )
    book_time(store, NewTime(rent.id, on(6, 1)), by=BOB)
    book_time(store, NewTime(rent.id, on(7, 1), on(7, 4), money("26.10")), by=ADA)
    return rent


def _papers(store: Store, wren: Unit) -> Paper:
    """A seal without an end, an insurance that runs out, and a permit that was renewed, which is given back."""
    add_paper(store, NewPaper(PaperKind.SCALE_SEAL, "stall scale", on(3, 1), unit_id=wren.id), by=ADA)
    add_paper(store, NewPaper(PaperKind.INSURANCE, "liability", on(1, 1), on(11, 1), "L-9", "Old Lane Mutual"), by=BOB)
    before = add_paper(store, NewPaper(PaperKind.PERMIT, "fish permit", on(1, 1), on(6, 30), "F-118"), by=ADA)
    kept = KeptFile("feed.pdf", "permit.pdf", "feed")
    return renew_paper(store, Renewal(before.id, on(7, 1), on(12, 31), "F-204", kept), by=ADA)


def _fish_lives(store: Store, perch: FishLot, wren: Unit, finch: Unit) -> FishLot:
    """What happens to the perch in a summer: weighed, fed, some dead, some graded out into a lot of their own."""
    each = tuple(mass(typed) for typed in ("41 g", "48 g", "55 g"))
    weigh_sample(store, NewSample(perch.id, on(7, 1), each=each), by=ADA)
    weigh_sample(store, NewSample(perch.id, on(8, 1), 6, mass("15 oz"), note="in the bucket"), by=BOB)
    weigh_sample(store, NewSample(perch.id, on(8, 1), each=each[:2]), by=BOB)
    record_loss(store, NewLoss(perch.id, on(7, 4)), by=ADA)
    found = NewLoss(perch.id, on(8, 20), 2, LossCause.JUMPED_OUT, Disposal.COMPOSTED, mass("5 oz"), "lid open")
    record_loss(store, found, by=BOB)
    record_loss(store, NewLoss(perch.id, on(8, 20), 1, LossCause.CULLED), by=BOB)
    for day, weight, ate in ((1, "30 g", Ate.ALL), (2, "34 g", Ate.SOME), (2, "1 oz", None)):
        record_feeding(store, NewFeeding(perch.id, on(8, day), mass(weight), ate), by=ADA)
    graded = split(store, NewSplit(perch.id, wren.id, "PERCH-S", on(9, 12), 6, mass("50 g"), "the small ones"), by=ADA)
    transfer(store, NewTransfer(perch.id, graded.id, on(9, 14), 2, note="two more"), by=BOB)
    weigh_sample(store, NewSample(graded.id, on(9, 12), 3, mass("5 oz")), by=ADA)
    return move_lot(store, NewPlace(graded.id, finch.id, on(9, 18)), by=BOB)


def _power(store: Store, wren: Unit, finch: Unit) -> Device:
    """Two prices, meters of a unit and of the farm, devices of a unit and of all; the pump is given back."""
    for day, minor, typed in ((on(4, 1), 16, "0.16"), (on(7, 1), 18, "0.18/kWh")):
        set_power_price(store, NewPowerPrice(day, minor, 1000, typed), by=ADA)
    for unit, day, shown in ((wren, on(6, 20), 120), (wren, on(7, 20), 150), (None, on(9, 1), 7000)):
        seen = Measured(shown * 1000, str(shown))
        read_meter(store, NewMeterReading(day, seen, unit.id if unit else None, "at noon" if unit else None), by=BOB)
    add_device(
        store, NewDevice("blower", Measured(60_000, "60 W"), on(4, 1), note="for all", until_day=on(9, 30)), by=ADA
    )
    add_device(store, NewDevice("lamp", Measured(18_500, "18.5"), on(6, 1), 390, finch.id), by=BOB)
    return add_device(store, NewDevice("pump", Measured(40_000, "40 W"), on(4, 10), 1440, wren.id), by=ADA)


def _pads(store: Store, finch: Unit) -> Supply:
    """Filter pads, counted by the piece: some were there, some were used, and two more turned up at a count."""
    pads = add_supply(store, NewSupply("filter pads", HeldBy.COUNT, reorder=Measured(2, "2")), by=ADA)
    buy_supply(store, NewSupplyLot(pads.id, on(4, 1), Measured(6, "6"), note="were there"), by=ADA)
    use_supply(store, NewSupplyUse(pads.id, on(6, 20), Measured(1, "1"), finch.id), by=BOB)
    use_supply(store, NewSupplyUse(pads.id, on(6, 20), Measured(1, "1"), kind=Movement.THROWN_AWAY), by=BOB)
    use_supply(store, NewSupplyUse(pads.id, on(7, 1), Measured(6, "6"), kind=Movement.COUNTED, note="two"), by=ADA)
    use_supply(store, NewSupplyUse(pads.id, on(7, 1), Measured(5, "5")), by=ADA)
    return pads


def _pellets(store: Store, wren: Unit, finch: Unit) -> SupplyLot:
    """Pellets, bought twice at two prices and used on days with a count between; the second bag is given back."""
    pellets = add_supply(store, NewSupply("Pellets", category=Category.FEED, reorder=mass("10 lb")), by=ADA)
    first = NewSupplyLot(pellets.id, on(4, 20), mass("20 lb"), money("24"), "The mill", expires_day=on(8, 31))
    buy_supply(store, first, by=ADA)
    for unit, amount in ((wren, "2 lb"), (wren, "1 lb"), (finch, "8 oz")):
        use_supply(store, NewSupplyUse(pellets.id, on(6, 20), mass(amount), unit.id), by=BOB)
    count = NewSupplyUse(pellets.id, on(6, 20), mass("15 lb"), kind=Movement.COUNTED)
    use_supply(store, count, by=ADA)
    use_supply(store, NewSupplyUse(pellets.id, on(6, 20), mass("4 oz"), wren.id, note="in the evening"), by=BOB)
    for condition in ("supply to reorder", "supply past its date"):
        a_chore(store, "Look into the bin", f"when {condition}")
    second = NewSupplyLot(pellets.id, on(7, 5), mass("20 lb"), money("28"), None, "B-7", on(9, 1), on(12, 31))
    return buy_supply(store, second, by=BOB)


def _water_in_hand(store: Store, wren: Unit, finch: Unit) -> dict[str, Any]:
    """A kit past its date, a pen that failed after it had passed, own limits, doses, and what was topped up."""
    nitrogen = (Measure.AMMONIA, Measure.NITRITE)
    add_instrument(store, NewInstrument("Old kit", nitrogen, on(2, 1), expires_day=on(3, 1)), by=BOB)
    kit = add_instrument(store, NewInstrument("Drop kit", nitrogen, on(2, 2), Form.AS_ION, on(9, 5)), by=ADA)
    pen = add_instrument(store, NewInstrument("pH pen", (Measure.PH,), on(7, 1), check_days=30), by=ADA)
    old = next(one for one in lists.instruments(store) if one.name == "Old kit")
    change_instrument(store, InstrumentChange(old.id, until_day=on(5, 1)), by=BOB)
    for day, passed, showed in ((2, True, "7.02"), (20, False, "7.4"), (20, True, None)):
        check_instrument(store, NewCheck(pen.id, on(8, day), passed, "pH 7.00", showed), by=ADA)
    check_instrument(store, NewCheck(kit.id, on(9, 12), passed=True), by=BOB)
    read(store, wren, on(7, 25), ph="7.0", nitrite="0.25")
    read(store, finch, on(8, 10), ph="7.3", by=BOB)
    read(store, wren, on(9, 10), ph="7.9", ammonia="0.25")
    set_own_limit(store, NewOwnLimit(on(4, 1), Measure.PH, 6.4, 7.4), by=ADA)
    set_own_limit(store, NewOwnLimit(on(6, 1), Measure.PH, None, 7.2, wren.id, "kale"), by=BOB)
    tight = set_own_limit(store, NewOwnLimit(on(5, 1), Measure.TEMPERATURE, high=22.0), by=ADA)
    iron = add_supply(store, NewSupply("Iron", HeldBy.VOLUME), by=ADA)
    half = Amount(HeldBy.VOLUME, volume("500 ml"))
    record_dose(store, NewDose(finch.id, on(7, 2), "iron chelate", half, supply_id=iron.id), by=BOB)
    weighed = Amount(HeldBy.MASS, mass("2 oz"))
    buffer = record_dose(store, NewDose(wren.id, on(6, 21), "potassium bicarbonate", weighed, "pH falls"), by=ADA)
    mains = add_source(store, NewSource("Mains", SourceKind.CHLORAMINE), by=ADA)
    butt = add_source(store, NewSource("Rain butt", SourceKind.RAIN, "mesh on it"), by=BOB)
    typed = (reading(Measure.PH, "7.8"), reading(Measure.NITRATE, "9 NO3"))
    set_source_values(store, NewSourceValues(mains.id, on(4, 1), typed), by=ADA)
    set_source_values(store, NewSourceValues(mains.id, on(8, 1), (reading(Measure.PH, "8.1"),)), by=ADA)
    record_top_up(store, NewTopUp(wren.id, on(6, 22), volume("20 gal"), mains.id), by=ADA)
    record_top_up(store, NewTopUp(finch.id, on(7, 5), volume("5 gal"), note="from the brook"), by=BOB)
    topped = record_top_up(store, NewTopUp(wren.id, on(8, 2), volume("10 gal"), butt.id), by=BOB)
    return {"kit": kit, "pen": pen, "tight": tight, "buffer": buffer, "butt": butt, "topped": topped}


@pytest.fixture(scope="session", params=["sqlite", "postgres"])
def laid(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Land]:
    """The varied farm, laid once on each database; nobody writes into it."""
    with _empty(request, tmp_path_factory.mktemp("laid")) as store:
        with frozen(TODAY):
            found = lay(store)
        yield found
        store.close()


@contextmanager
def _empty(request: pytest.FixtureRequest, folder: Path) -> Iterator[Store]:
    if request.param == "sqlite":
        yield Store(str(shutil.copy(request.getfixturevalue("sqlite_template"), folder / "farm.db")))
    else:
        with request.getfixturevalue("postgres_server").database() as url:
            yield Store(url)


@pytest.fixture
def land(laid: Land, tmp_path: Path, request: pytest.FixtureRequest) -> Iterator[Land]:
    """A copy of the varied farm to write into."""
    laid.store.close()
    if laid.store.dialect.name == "sqlite":
        store = Store(str(shutil.copy(laid.store.place, tmp_path / "farm.db")))
        yield replace(laid, store=store)
        store.close()
    else:
        with _copied(request.getfixturevalue("postgres_server"), laid.store.place) as store:
            yield replace(laid, store=store)
            store.close()


@contextmanager
def _copied(server: Server, place: str) -> Iterator[Store]:
    original = database_of(place)
    name = f"{original}_copy_{os.getpid()}"
    server.admin.execute(f"CREATE DATABASE {name} TEMPLATE {original} STRATEGY file_copy")
    try:
        yield Store(server.url(name))
    finally:
        server.admin.execute(f"DROP DATABASE IF EXISTS {name} WITH (FORCE)")
