"""At least one entry for every operation there is, to be carried out on the varied farm."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import farmops.farm
from farmops.farm import (
    absences,
    batches,
    beds,
    chores,
    contacts,
    cost_labels,
    costs,
    doses,
    farm,
    file_rows,
    fish,
    fish_corrections,
    fish_events,
    forecasts,
    harvests,
    imports,
    incidents,
    instruments,
    notes,
    orders,
    own_limits,
    own_templates,
    papers,
    plantings,
    power,
    presence,
    readings,
    recurring,
    removal,
    sales,
    sets,
    sharing,
    sheets,
    sources,
    supplies,
    transfers,
    treatments,
    units,
    usage,
)
from farmops.farm.file_rows.lots import MoveSaid
from farmops.farm.file_rows.units import UnitSaid
from farmops.farm.operation import OperationFunction
from farmops.model.absences import AbsenceChange, NewAbsence
from farmops.model.beds import BedChange, BedKind, NewBed, NewBedSize
from farmops.model.chores import (
    ChoreChange,
    ChoreClass,
    NewChore,
    NewPause,
    Occasion,
    PartOfDay,
    Resuming,
    SettledAs,
    Settling,
)
from farmops.model.contacts import ContactChange, NewContact
from farmops.model.cost_labels import LabelToLoad, NewLabels
from farmops.model.costs import (
    Category,
    CostChange,
    CostKind,
    Driver,
    JointMethod,
    NewCost,
    NewDriver,
    NewJointSplit,
    NewLabourRate,
    NewPrice,
    PriceChange,
)
from farmops.model.farm import FarmChange, NewPerson, PersonChange
from farmops.model.fish import Ate, Disposal, FishLotChange, LossCause, NewFishLot
from farmops.model.fish_events import (
    FeedingChange,
    LossChange,
    NewFeeding,
    NewLoss,
    NewPlace,
    NewSample,
    NewSplit,
    NewTransfer,
    SampleChange,
    TransferChange,
)
from farmops.model.forecasts import Degrees, NewForecast
from farmops.model.harvests import HarvestChange, NewHarvest, Use
from farmops.model.incidents import Ending, IncidentChange, NewIncident, Tick
from farmops.model.instruments import CheckChange, InstrumentChange, NewCheck, NewInstrument
from farmops.model.journal import Removal
from farmops.model.limits import NewOwnLimit
from farmops.model.notes import Changed, KeptFile, NewNote, NoteChange
from farmops.model.papers import NewPaper, PaperChange, PaperKind, Renewal
from farmops.model.plantings import CropChange, NewCrop, NewPlanting, PlantingChange, StartedBy
from farmops.model.power import DeviceChange, NewDevice, NewMeterReading, NewPowerPrice
from farmops.model.presence import NewPresence
from farmops.model.rations import Fed
from farmops.model.readings import Measure, NewReadings, ReadingChange
from farmops.model.recurring import NewRecurring, NewTime, RecurringChange
from farmops.model.sales import ComingBack, NewOrder, NewSale, OrderChange, SaleChange
from farmops.model.supplies import (
    HeldBy,
    Movement,
    NewSupply,
    NewSupplyLot,
    NewSupplyUse,
    SupplyChange,
    SupplyLotChange,
    SupplyUseChange,
)
from farmops.model.templates import Following, NewSet, TemplateChange, TemplateDropping, TemplateRestoring
from farmops.model.treatments import NewTreatment, TreatmentChange
from farmops.model.units import NewState, NewUnit, Unit, UnitChange, UnitKind, UnitState
from farmops.model.usage import Counter, NewUsage, UsageChange
from farmops.model.values import Measured
from farmops.model.water import (
    Amount,
    DoseChange,
    NewDose,
    NewSource,
    NewSourceValues,
    NewTopUp,
    SourceChange,
    SourceKind,
    TopUpChange,
)
from farmops.quantities import METRIC
from farmops.reports import lists
from tests.farmhand import ADA, BOB, area, length, mass, money, on, reading, sale_line, volume
from tests.land import Land


@dataclass(frozen=True, slots=True)
class Case:
    """An operation and what is entered, worked out from what stands on the farm; `before` is done first."""

    words: str
    function: OperationFunction[Any, Any]
    entry: Callable[[Land], Any]
    before: Callable[[Land], object]

    def __str__(self) -> str:
        return self.words


def case(
    words: str, function: Any, entry: Callable[[Land], Any], before: Callable[[Land], object] = lambda _: None
) -> Case:
    return Case(words, function, entry, before)


def some(pieces: int) -> Measured:
    """So many pieces of a supply."""
    return Measured(pieces, str(pieces))


def _a_source_like(land: Land) -> None:
    """A third source, and what it is like."""
    found = sources.add_source(land.store, NewSource("Bore", SourceKind.WELL), by=ADA)
    values = NewSourceValues(found.id, on(9, 1), (reading(Measure.HARDNESS, "220"),))
    sources.set_source_values(land.store, values, by=ADA)


def feeding_of(land: Land, unit: Unit) -> int:
    """The chore that feeds the fish of a unit."""
    found = lists.chores(land.store)
    return next(one.id for one in found if (one.template_key, one.unit_id) == ("feed", unit.id))


CASES = (
    case("rename the farm", farm.change_farm, lambda _: FarmChange("Upper Field", time_zone="Europe/Lisbon")),
    case("measure in metres", farm.change_farm, lambda _: FarmChange(measures=replace(METRIC, currency="USD"))),
    case("the altitude", farm.change_farm, lambda _: FarmChange(altitude=length("500 ft"))),
    case("a person", farm.add_person, lambda _: NewPerson("Cleo", "weekends")),
    case("a minor", farm.add_person, lambda _: NewPerson("Cleo", minor=True)),
    case("somebody grown up", farm.change_person, lambda land: PersonChange(land.zed.id, minor=False)),
    case("who is here", presence.say_who_is_here, lambda land: NewPresence(on(10, 14), (land.bob.id, land.zed.id))),
    case(
        "somebody else here", presence.say_who_is_here, lambda land: NewPresence(on(9, 2), (land.bob.id, land.ada.id))
    ),
    case("nothing said", presence.say_who_is_here, lambda _: NewPresence(on(9, 2), ())),
    case(
        "a chore given to somebody", chores.change_chore, lambda land: ChoreChange(land.sweep.id, person_id=land.zed.id)
    ),
    case("a chore for anyone", chores.change_chore, lambda land: ChoreChange(land.grade_fish.id, person_id=None)),
    case("a person's name", farm.change_person, lambda land: PersonChange(land.bob.id, "Robert", None)),
    case("whom to call", contacts.add_contact, lambda _: NewContact("Bea Moss", "555-0142", "neighbour", "has keys")),
    case(
        "another number", contacts.change_contact, lambda land: ContactChange(land.vet.id, phone="5550100", note=None)
    ),
    case("a contact removed", removal.remove_record, lambda land: Removal("contacts", land.vet.id)),
    case("away, and nobody left", absences.go_away, lambda land: NewAbsence(land.bob.id, on(10, 26), on(10, 30))),
    case("away later", absences.change_absence, lambda land: AbsenceChange(land.gone.id, from_day=on(10, 22))),
    case(
        "away with somebody standing in",
        absences.change_absence,
        lambda land: AbsenceChange(land.gone.id, stand_in_id=land.zed.id, note="back by noon"),
    ),
    case("not away at all", removal.remove_record, lambda land: Removal("absences", land.gone.id)),
    case(
        "the power goes",
        incidents.begin_incident,
        lambda _: NewIncident(note="the whole lane"),
        before=lambda land: incidents.end_incident(land.store, Ending(all_running=True), by=ADA),
    ),
    case("air is running", incidents.tick_steps, lambda land: Tick(("air",), land.wren.id, note="bubbler")),
    case("steps for all", incidents.tick_steps, lambda _: Tick(("covers", "generator"))),
    case("power is back", incidents.end_incident, lambda _: Ending(all_running=True, note="a tree")),
    case(
        "it began earlier",
        incidents.change_incident,
        lambda land: IncidentChange(land.cut.id, land.cut.began_at, note=None),
    ),
    case("it never was", removal.remove_record, lambda land: Removal("incidents", land.cut.id)),
    case("a unit with chores", units.add_unit, lambda _: NewUnit("heron", on(10, 1), state=UnitState.RUNNING)),
    case("a unit alone", units.add_unit, lambda _: NewUnit("CRANE", on(10, 1), UnitKind.HOLDING, chores=False)),
    case("a unit corrected", units.change_unit, lambda land: UnitChange(land.wren.id, "ROBIN", tank=volume("300 gal"))),
    case(
        "where it is shut off",
        units.change_unit,
        lambda land: UnitChange(land.wren.id, breaker=None, valve="red tap"),
    ),
    case("a new state", units.enter_state, lambda land: NewState(land.wren.id, UnitState.WINTERING, on(10, 10))),
    case("an earlier state", units.enter_state, lambda land: NewState(land.finch.id, UnitState.PLANNED, on(1, 5))),
    case("a state begun before", units.enter_state, lambda land: NewState(land.finch.id, UnitState.RUNNING, on(5, 20))),
    case("a state corrected", units.enter_state, lambda land: NewState(land.finch.id, UnitState.WINTERING, on(9, 20))),
    case("a bed", beds.add_bed, lambda land: NewBed(land.wren.id, "E", on(9, 1), area("8 sq ft"))),
    case("a bed corrected", beds.change_bed, lambda land: BedChange(land.north.id, "A", BedKind.SOIL, length("1 ft"))),
    case("a bed resized", beds.size_bed, lambda land: NewBedSize(land.north.id, on(9, 1), area("12 sq ft"))),
    case("a size corrected", beds.size_bed, lambda land: NewBedSize(land.north.id, on(7, 1), area("12 sq ft"))),
    case("a crop", plantings.add_crop, lambda _: NewCrop("sorrel", note="sour")),
    case("a crop renamed", plantings.change_crop, lambda land: CropChange(land.chard.id, "swiss chard")),
    case("a planting", plantings.plant, lambda land: NewPlanting(land.finch_bed.id, land.kale.id, on(9, 3))),
    case(
        "a planting of a crop that is new here",
        plantings.plant,
        lambda land: NewPlanting(land.finch_bed.id, NewCrop("SEA KALE", note="from the shore"), on(9, 3)),
    ),
    case("a planting moved", plantings.change_planting, lambda land: PlantingChange(land.old_chard.id, on(3, 20))),
    case(
        "a planting cleared",
        plantings.change_planting,
        lambda land: PlantingChange(
            land.kale_north.id, started_by=StartedBy.SOWING, cleared_day=on(10, 2), plants=None, area=area("9 sq ft")
        ),
    ),
    case(
        "fish",
        fish.stock,
        lambda land: NewFishLot(
            "bass-1", "Bluegill", land.finch.id, on(9, 1), 9, mass("40 g"), note="from Lee", sure=True
        ),
    ),
    case("fish stocked earlier", fish.change_lot, lambda land: FishLotChange(land.trout.id, stocked_day=on(5, 5))),
    case("fish gone", fish.change_lot, lambda land: FishLotChange(land.perch.id, number=60, closed_day=on(10, 1))),
    case("fish back", fish.change_lot, lambda land: FishLotChange(land.trout.id, "T-2", closed_day=None)),
    case(
        "fish with where they came from",
        fish.change_lot,
        lambda land: FishLotChange(land.perch.id, source="the hatchery by the mill", paper_id=None),
    ),
    case(
        "a sample weighed together",
        fish_events.weigh_sample,
        lambda land: NewSample(land.perch.id, on(10, 1), 5, mass("1 lb"), note="calm"),
    ),
    case(
        "a sample weighed one by one",
        fish_events.weigh_sample,
        lambda land: NewSample(land.perch.id, on(10, 1), each=(mass("40 g"), mass("52 g"))),
    ),
    case("a fish died", fish_events.record_loss, lambda land: NewLoss(land.perch.id, on(10, 1))),
    case(
        "several died, with their steps",
        fish_events.record_loss,
        lambda land: NewLoss(land.perch.id, on(10, 14), 3, LossCause.OXYGEN, Disposal.BURIED, mass("4 oz"), "at dawn"),
    ),
    case(
        "fed",
        fish_events.record_feeding,
        lambda land: NewFeeding(land.perch.id, on(10, 14), mass("38 g"), Ate.SOME, "slow"),
    ),
    case(
        "the fish fed with the chore, by their ration",
        chores.settle,
        lambda land: Settling(feeding_of(land, land.wren), SettledAs.DONE, on(9, 4)),
    ),
    case(
        "the fish fed with the chore, as told",
        chores.settle,
        lambda land: Settling(
            feeding_of(land, land.wren),
            SettledAs.DONE,
            on(9, 4),
            fed=(Fed(land.perch.id, mass("33 g"), Ate.SOME),),
        ),
    ),
    case(
        "a doing with its feeding removed",
        removal.remove_record,
        lambda land: Removal("settlements", lists.settled(land.store, feeding_of(land, land.wren))[0].id),
        before=lambda land: chores.settle(
            land.store,
            Settling(feeding_of(land, land.wren), SettledAs.DONE, on(9, 4), fed=(Fed(land.perch.id, mass("33 g")),)),
            by=ADA,
        ),
    ),
    case(
        "fish to another lot",
        transfers.transfer,
        lambda land: NewTransfer(land.perch.id, land.graded.id, on(10, 2), 4, mass("60 g")),
    ),
    case(
        "fish kept apart",
        transfers.split,
        lambda land: NewSplit(land.perch.id, 3, "SICK-1", on(10, 10), 2, note="fins"),
    ),
    case("a lot in another unit", transfers.move_lot, lambda land: NewPlace(land.perch.id, 3, on(10, 10))),
    case("a lot back home", transfers.move_lot, lambda land: NewPlace(land.graded.id, land.wren.id, on(9, 18))),
    case(
        "a sample corrected",
        fish_corrections.change_sample,
        lambda land: SampleChange(2, on(8, 3), 5, mass("14 oz"), note=None),
    ),
    case(
        "a sample weighed anew, one by one",
        fish_corrections.change_sample,
        lambda land: SampleChange(1, each=(mass("40 g"), mass("50 g"))),
    ),
    case(
        "a loss corrected",
        fish_corrections.change_loss,
        lambda land: LossChange(2, on(8, 21), 1, LossCause.INJURY, None, mass("3 oz"), "lid"),
    ),
    case(
        "a transfer corrected",
        fish_corrections.change_transfer,
        lambda land: TransferChange(2, on(9, 15), 3, mass("40 g")),
    ),
    case(
        "a feeding corrected",
        fish_corrections.change_feeding,
        lambda land: FeedingChange(3, on(8, 3), mass("31 g"), Ate.NONE, "cold"),
    ),
    case("a sample removed", removal.remove_record, lambda land: Removal("samples", 1)),
    case("a loss removed", removal.remove_record, lambda land: Removal("losses", 1)),
    case("a transfer removed", removal.remove_record, lambda land: Removal("transfers", 2)),
    case("a feeding removed", removal.remove_record, lambda land: Removal("feedings", 1)),
    case(
        "a weighing",
        harvests.record_harvest,
        lambda land: NewHarvest(on(9, 9), mass("1 6"), land.kale_north.id, tare=mass("4 oz"), use=Use.SOLD),
    ),
    case(
        "weighings",
        harvests.record_harvests,
        lambda land: harvests.Batch(
            (
                NewHarvest(on(9, 9), mass("1 6"), land.kale_north.id, fingerprint="f1"),
                NewHarvest(on(9, 10), mass("2 6"), fish_lot_id=land.perch.id, number=2, fingerprint="f2"),
            )
        ),
    ),
    case(
        "a weighing corrected",
        harvests.change_harvest,
        lambda land: HarvestChange(land.weighing.id, on(5, 21), mass("9 oz"), tare=mass("1 oz"), number=None),
    ),
    case(
        "a weighing moved",
        harvests.change_harvest,
        lambda land: HarvestChange(
            land.weighing.id, on(9, 2), planting_id=None, fish_lot_id=land.perch.id, use=Use.GIVEN, note="late"
        ),
    ),
    case(
        "weighings of a file",
        imports.import_harvests,
        lambda land: imports.HarvestImport(
            (
                imports.ImportedHarvest(NewHarvest(on(9, 9), mass("1 6"), land.kale_north.id, fingerprint="i1")),
                imports.ImportedHarvest(
                    NewHarvest(on(5, 9), mass("7 oz"), fingerprint="i2"),
                    imports.PlantingToMake("SNIPE", "A", "cress", on(4, 1), on(6, 1)),
                ),
                imports.ImportedHarvest(NewHarvest(on(6, 20), mass("4 oz"), land.old_chard.id, fingerprint="a1")),
            ),
            already=2,
        ),
    ),
    case(
        "readings of a file",
        file_rows.book_rows,
        lambda land: file_rows.FileRows(
            "readings",
            tuple(
                file_rows.FileRow(line, NewReadings(land.wren.id, on(10, line), (reading(Measure.PH, "7.1"),)))
                for line in (2, 3)
            ),
        ),
    ),
    case(
        "a unit of a file with two states",
        file_rows.book_rows,
        lambda land: file_rows.FileRows(
            "units",
            (
                file_rows.FileRow(2, UnitSaid("LARK", on(9, 1), UnitState.BUILDING)),
                file_rows.FileRow(3, UnitSaid("LARK", on(10, 1), UnitState.CYCLING)),
                file_rows.FileRow(4, UnitSaid("WREN", on(10, 1), UnitState.WINTERING, kind=UnitKind.HOLDING)),
            ),
        ),
    ),
    case(
        "fish of a file, split off and put back by the row below",
        file_rows.book_rows,
        lambda land: file_rows.FileRows(
            "transfers",
            (
                file_rows.FileRow(2, MoveSaid(on(9, 20), land.perch.code, "SMALL", 2, unit_id=land.finch.id)),
                file_rows.FileRow(3, MoveSaid(on(9, 21), "SMALL", land.perch.code, 1)),
            ),
        ),
    ),
    case(
        "chores done of a file, by somebody else",
        file_rows.book_rows,
        lambda land: file_rows.FileRows(
            "chores done",
            (file_rows.FileRow(2, Settling(land.sweep.id, SettledAs.DONE, on(10, 10), minutes=5, actor=BOB)),),
        ),
    ),
    case(
        "losses of a file, one more than there are",
        file_rows.book_rows,
        lambda land: file_rows.FileRows(
            "losses",
            (
                file_rows.FileRow(2, NewLoss(land.perch.id, on(9, 20), 1)),
                file_rows.FileRow(3, NewLoss(land.perch.id, on(9, 20), 900_000)),
            ),
        ),
    ),
    case(
        "fish weighed whole and dressed",
        harvests.record_harvest,
        lambda land: NewHarvest(on(9, 9), mass("2 lb"), fish_lot_id=land.perch.id, number=4, dressed=mass("1 lb 3 oz")),
    ),
    case(
        "a dressed weight corrected",
        harvests.change_harvest,
        lambda land: HarvestChange(land.fish_weighing.id, dressed=mass("1 lb")),
    ),
    case("a cost", costs.record_cost, lambda land: NewCost(on(8, 1), "net", money("8"), unit_id=land.wren.id)),
    case(
        "a cost corrected",
        costs.change_cost,
        lambda land: CostChange(land.feed.id, on(5, 2), "seed", money("13"), Category.SEED, unit_id=None),
    ),
    case(
        "a cost that lasts",
        costs.change_cost,
        lambda land: CostChange(land.feed.id, kind=CostKind.CAPITAL, life_months=12, salvage_minor=100),
    ),
    case(
        "a cost of a bed, with its receipt",
        costs.record_cost,
        lambda land: NewCost(
            on(8, 2), "string", money("3"), bed_id=land.north.id, receipt=KeptFile("ef.png", "slip.png", "ef")
        ),
    ),
    case(
        "a cost of fish, paid twice",
        costs.record_cost,
        lambda land: NewCost(on(5, 1), "feed, 20 lb", money("12.50"), fish_lot_id=land.perch.id, again=True),
    ),
    case(
        "a cost moved to a bed",
        costs.change_cost,
        lambda land: CostChange(land.feed.id, bed_id=land.north.id, receipt=KeptFile("ef.png", "slip.png", "ef")),
    ),
    case("a cost used up", costs.change_cost, lambda land: CostChange(land.tank.id, kind=CostKind.OPERATING)),
    case(
        "a page of costs",
        batches.record_costs,
        lambda land: batches.Costs((NewCost(on(8, 1), "net", money("8")), NewCost(on(8, 2), "pad", money("3.10")))),
    ),
    case(
        "a season of plantings",
        batches.plant_many,
        lambda land: batches.Plantings(
            (
                batches.Grown(NewPlanting(land.north.id, land.kale.id, on(3, 2)), on(4, 1)),
                batches.Grown(NewPlanting(land.south.id, land.chard.id, on(9, 2))),
            )
        ),
    ),
    case("a price", costs.set_price, lambda land: NewPrice(on(9, 1), 375, 453_592, "3.75", crop_id=land.chard.id)),
    case(
        "a price from another day",
        costs.change_price,
        lambda land: PriceChange(land.chard_price.id, on(4, 3), 325, 453_592, "3.25"),
    ),
    case("a price corrected", costs.set_price, lambda land: NewPrice(on(6, 1), 1, 7, "odd", crop_id=land.chard.id)),
    case("a weighing removed", removal.remove_record, lambda land: Removal("harvests", land.weighing.id)),
    case("a cost removed", removal.remove_record, lambda land: Removal("costs", land.tank.id)),
    case(
        "a sale",
        sales.record_sale,
        lambda land: NewSale(
            on(9, 9),
            "the gate",
            (sale_line(land.kale_north, "2 lb for 7"), sale_line(land.perch, "1 lb at 8/lb unsold 4 oz")),
            "rain",
        ),
    ),
    case(
        "a sale corrected",
        sales.change_sale,
        lambda land: SaleChange(
            land.sold.id, on(9, 3), "the inn", None, (sale_line(land.kale_north, "3 bunches weighing 1 lb at 2"),)
        ),
    ),
    case("a sale to another", sales.change_sale, lambda land: SaleChange(land.sold.id, buyer="the inn", note="late")),
    case("a bunch back", sales.take_in_return, lambda land: ComingBack(land.sold.lines[1].id, returned=1)),
    case("a sale removed", removal.remove_record, lambda land: Removal("sales", land.sold.id)),
    case(
        "a standing order",
        orders.record_order,
        lambda land: NewOrder(
            "the gate",
            sale_line(land.old_chard, "2 lb at 3").terms,
            "week",
            on(9, 9),
            crop_id=land.chard.id,
            note="big",
        ),
    ),
    case(
        "a standing order corrected",
        orders.change_order,
        lambda land: OrderChange(
            land.bunches.id, "the gate", sale_line(land.basil, "4 bunches for 9").terms, "Mon", on(9, 5), note="small"
        ),
    ),
    case(
        "an order from another day", orders.change_order, lambda land: OrderChange(land.bunches.id, start_day=on(9, 7))
    ),
    case("an order ended", orders.change_order, lambda land: OrderChange(land.bunches.id, until_day=on(10, 30))),
    case("an order removed", removal.remove_record, lambda land: Removal("orders", land.bunches.id)),
    case("a price removed", removal.remove_record, lambda land: Removal("prices", land.chard_price.id)),
    case("a person removed", removal.remove_record, lambda land: Removal("people", land.moss.id)),
    case("a person who was here removed", removal.remove_record, lambda land: Removal("people", land.zed.id)),
    case("a chore removed", removal.remove_record, lambda land: Removal("chores", land.permit.id)),
    case("a unit removed", removal.remove_record, lambda land: Removal("units", 3)),
    case("a settlement removed", removal.remove_record, lambda _: Removal("settlements", 1)),
    case(
        "a chore",
        chores.add_chore,
        lambda land: NewChore(
            "Paint the frame",
            "FREQ=YEARLY;BYMONTH=7;BYMONTHDAY=1",
            on(7, 1),
            literal=True,
            unit_id=land.wren.id,
            readings=("rust",),
            months=(5, 6, 7),
            states=(UnitState.RESTING, UnitState.RUNNING),
        ),
    ),
    case(
        "a chore changed",
        chores.change_chore,
        lambda land: ChoreChange(
            land.sweep.id, "Sweep", rule="Sun", grade=ChoreClass.FOOD_SAFETY, part=PartOfDay.MIDDAY, months=(6,)
        ),
    ),
    case("a chore from later", chores.change_chore, lambda land: ChoreChange(land.siphon.id, start_day=on(6, 1))),
    case("done", chores.settle, lambda land: Settling(land.filter_pad.id, SettledAs.DONE, on(7, 5), minutes=4)),
    case("skipped", chores.settle, lambda land: Settling(land.permit.id, SettledAs.SKIPPED, on(10, 1), reason="no")),
    case(
        "deferred",
        chores.settle,
        lambda land: Settling(land.sweep.id, SettledAs.DEFERRED, on(10, 13), until=on(10, 16)),
    ),
    case(
        "several done",
        chores.settle_many,
        lambda land: chores.SettlingMany(
            (Settling(land.sweep.id, SettledAs.DONE, on(10, 10)), Settling(land.permit.id, SettledAs.DONE, on(10, 11)))
        ),
    ),
    case(
        "done with readings",
        chores.settle,
        lambda land: Settling(
            land.siphon_time.id,
            SettledAs.DONE,
            on(10, 9),
            readings=(reading(Measure.FILL_TIME, "13:10"), reading(Measure.DRAIN_TIME, "2.5")),
        ),
    ),
    case(
        "a sheet",
        sheets.book_sheet,
        lambda land: sheets.Sheet(
            (
                sheets.SheetLine(1, Settling(land.sweep.id, SettledAs.DONE, on(10, 10), minutes=20)),
                sheets.SheetLine(2, Settling(99_999, SettledAs.DONE, on(10, 10))),
                sheets.SheetLine(
                    3,
                    Settling(
                        land.siphon_time.id, SettledAs.DONE, on(10, 10), readings=(reading(Measure.FILL_TIME, "13"),)
                    ),
                ),
            )
        ),
    ),
    case(
        "readings",
        readings.record_readings,
        lambda land: NewReadings(
            land.wren.id,
            on(10, 13),
            (reading(Measure.PH, "6.9"), reading(Measure.NITRITE, "0.25", note="old kit"), reading(Measure.FLOW, "90")),
            minute=0,
        ),
    ),
    case(
        "an unlikely reading",
        readings.record_readings,
        lambda land: NewReadings(land.wren.id, on(10, 13), (reading(Measure.AMMONIA, "12", sure=True),)),
    ),
    case(
        "a reading corrected",
        readings.change_reading,
        lambda land: ReadingChange(land.oxygen.id, on(6, 21), None, reading(Measure.OXYGEN, "7"), "new probe"),
    ),
    case("a reading's hour", readings.change_reading, lambda land: ReadingChange(land.oxygen.id, minute=1439)),
    case("a reading removed", removal.remove_record, lambda land: Removal("readings", land.oxygen.id)),
    case("a doing with readings removed", removal.remove_record, lambda _: Removal("settlements", 6)),
    case(
        "a build with the label's time",
        units.add_unit,
        lambda _: NewUnit("SWIFT", on(10, 12), state=UnitState.BUILDING, cure_hours=72),
    ),
    case(
        "a bed sprayed",
        treatments.book_treatment,
        lambda land: NewTreatment(on(10, 12), 600, "Bt", "1 g", 4, 3, bed_id=land.north.id, registration="12-34"),
    ),
    case(
        "a label read again",
        treatments.change_treatment,
        lambda land: TreatmentChange(land.soap.id, minute=600, harvest_days=1, against="aphids", sure=True),
    ),
    case("a treatment removed", removal.remove_record, lambda land: Removal("treatments", land.soap.id)),
    case("a treatment", sets.give_set, lambda land: NewSet(Occasion.TREATMENT, land.wren.id, on(10, 12), None, 7)),
    case(
        "a treated bed",
        sets.give_set,
        lambda land: NewSet(Occasion.TREATMENT, land.wren.id, on(10, 12), land.south.id, 3),
    ),
    case("a power cut", sets.give_set, lambda land: NewSet(Occasion.POWER_CUT, land.wren.id, on(10, 13))),
    case(
        "a bed cleaned, with the tests that follow",
        chores.settle,
        lambda land: Settling(land.bed_solids.id, SettledAs.DONE, on(10, 12)),
    ),
    case(
        "fish stocked lately, with their set",
        fish.stock,
        lambda land: NewFishLot("PERCH-26", "yellow perch", land.wren.id, on(10, 10), 9, mass("40 g")),
    ),
    case("a crop planted lately", plantings.plant, lambda land: NewPlanting(land.south.id, land.chard.id, on(10, 11))),
    case(
        "a template changed, its chores too",
        own_templates.change_template,
        lambda _: TemplateChange("filter-pad-change", rule="10 days after", minutes=12, existing=Following(True)),
    ),
    case(
        "a template changed again",
        own_templates.change_template,
        lambda _: TemplateChange("siphon-time", title="Time two cycles", existing=Following(False)),
    ),
    case("a template dropped", own_templates.drop_template, lambda _: TemplateDropping("leaf-look")),
    case(
        "a template restored",
        own_templates.restore_template,
        lambda _: TemplateRestoring("siphon-time", Following(True)),
    ),
    case(
        "a dropped one back",
        own_templates.restore_template,
        lambda _: TemplateRestoring("kit-expiry", Following(False)),
    ),
    case(
        "hours of a pump",
        usage.record_usage,
        lambda land: NewUsage(land.wren.id, Counter.PUMP_HOURS, on(10, 1), Measured(20_160, "336"), "off the meter"),
    ),
    case(
        "hours of a pump corrected",
        usage.change_usage,
        lambda land: UsageChange(land.hours.id, on(8, 30), Measured(9_000, "150"), None),
    ),
    case("hours of a pump removed", removal.remove_record, lambda land: Removal("usage", land.hours.id)),
    case(
        "a forecast",
        forecasts.set_forecast,
        lambda _: NewForecast(on(10, 20), Degrees(-3.0, "-3 C"), Degrees(31.5, "31.5 C"), "the radio"),
    ),
    case(
        "another forecast for a day",
        forecasts.set_forecast,
        lambda land: NewForecast(land.cold.day, Degrees(5.0, "41 F"), None, "milder"),
    ),
    case("a forecast removed", removal.remove_record, lambda land: Removal("forecasts", land.cold.id)),
    case(
        "a chore by use",
        chores.add_chore,
        lambda land: NewChore("Descale", "500 siphon cycles or 6 months", on(9, 1), bed_id=land.north.id),
    ),
    case(
        "a chore while something holds",
        chores.change_chore,
        lambda land: ChoreChange(land.sweep.id, rule="when heat to come"),
    ),
    case(
        "costs by fixed shares",
        sharing.set_driver,
        lambda land: NewDriver(on(9, 1), Driver.FIXED_SHARES, shares=((land.wren.id, 2), (land.finch.id, 1))),
    ),
    case("power by watts", sharing.set_driver, lambda _: NewDriver(on(4, 1), Driver.WATT_HOURS, Category.POWER)),
    case("shares set anew", sharing.set_driver, lambda land: NewDriver(land.shares.from_day, Driver.BED_AREA)),
    case("shares removed", removal.remove_record, lambda land: Removal("drivers", land.shares.id)),
    case("a split", sharing.set_joint_split, lambda _: NewJointSplit(on(9, 1), JointMethod.FIXED_SHARES, 700)),
    case("a split corrected", sharing.set_joint_split, lambda _: NewJointSplit(on(5, 1), JointMethod.WEIGHT)),
    case("an hour", sharing.set_labour_rate, lambda land: NewLabourRate(on(9, 1), money("18"), land.bob.id)),
    case("an hour corrected", sharing.set_labour_rate, lambda _: NewLabourRate(on(4, 1), money("14"))),
    case(
        "a meter",
        instruments.add_instrument,
        lambda _: NewInstrument("Probe", (Measure.OXYGEN, Measure.TEMPERATURE), on(9, 1), check_days=14, note="cable"),
    ),
    case(
        "a kit corrected",
        instruments.change_instrument,
        lambda land: InstrumentChange(
            land.kit.id, "Drops", (Measure.AMMONIA, Measure.NITRITE, Measure.NITRATE), expires_day=None, form=None
        ),
    ),
    case(
        "a pen retired",
        instruments.change_instrument,
        lambda land: InstrumentChange(land.pen.id, until_day=on(10, 1), check_days=None, note="cracked"),
    ),
    case(
        "a pen that fails",
        instruments.check_instrument,
        lambda land: NewCheck(land.pen.id, on(10, 12), False, "pH 4.01", "4.6", "old buffer"),
    ),
    case(
        "a check corrected",
        instruments.change_check,
        lambda _: CheckChange(2, day=on(10, 1), passed=False, against=None, showed="4.7", note="old buffer"),
    ),
    case("a check removed", removal.remove_record, lambda _: Removal("instrument checks", 2)),
    case(
        "a reading with another kit",
        readings.record_readings,
        lambda land: NewReadings(
            land.wren.id, on(10, 13), (reading(Measure.NITRITE, "0.25", instrument_id=land.kit.id),)
        ),
    ),
    case(
        "a reading with none",
        readings.change_reading,
        lambda land: ReadingChange(land.oxygen.id, instrument_id=None, note="by the old probe"),
    ),
    case(
        "own limits",
        own_limits.set_own_limit,
        lambda land: NewOwnLimit(on(9, 1), Measure.OXYGEN, 6.0, None, land.finch.id, "trout"),
    ),
    case(
        "own limits set anew",
        own_limits.set_own_limit,
        lambda land: NewOwnLimit(land.tight.from_day, Measure.TEMPERATURE, 4.0, 21.0),
    ),
    case("own limits removed", removal.remove_record, lambda land: Removal("own limits", land.tight.id)),
    case(
        "a dose",
        doses.record_dose,
        lambda land: NewDose(
            land.wren.id, on(9, 1), "chelated iron", Amount(HeldBy.MASS, mass("9 g")), "pale leaves", "DTPA"
        ),
    ),
    case(
        "a dose corrected",
        doses.change_dose,
        lambda land: DoseChange(
            land.buffer.id, on(6, 22), "calcium carbonate", Amount(HeldBy.VOLUME, volume("1 L")), None, "slurry"
        ),
    ),
    case("a dose removed", removal.remove_record, lambda land: Removal("doses", land.buffer.id)),
    case(
        "a dose out of a supply",
        doses.record_dose,
        lambda land: NewDose(
            land.wren.id, on(9, 1), "trout feed", Amount(HeldBy.MASS, mass("9 g")), supply_id=land.pellets.supply_id
        ),
    ),
    case("a source", sources.add_source, lambda _: NewSource("Bore", SourceKind.WELL, "hard")),
    case(
        "a source corrected",
        sources.change_source,
        lambda land: SourceChange(land.butt.id, "Pond", SourceKind.SURFACE, None),
    ),
    case(
        "what a source is like",
        sources.set_source_values,
        lambda land: NewSourceValues(
            land.butt.id, on(9, 1), (reading(Measure.PH, "6.2"), reading(Measure.ALKALINITY, "10"))
        ),
    ),
    case(
        "what it is like, corrected",
        sources.set_source_values,
        lambda _: NewSourceValues(1, on(8, 1), (reading(Measure.PH, "8.0"),)),
    ),
    case("a value removed", removal.remove_record, lambda _: Removal("source values", 1)),
    case(
        "a source with its values",
        removal.remove_record,
        lambda land: Removal("water sources", 3),
        before=lambda land: _a_source_like(land),
    ),
    case(
        "water put in",
        sources.record_top_up,
        lambda land: NewTopUp(land.finch.id, on(9, 1), volume("9 gal"), land.butt.id, "dry week"),
    ),
    case(
        "water put in, corrected",
        sources.change_top_up,
        lambda land: TopUpChange(land.topped.id, on(8, 3), volume("12 gal"), None, "spilt some"),
    ),
    case("water not put in", removal.remove_record, lambda land: Removal("top-ups", land.topped.id)),
    case(
        "what comes again",
        recurring.add_recurring,
        lambda land: NewRecurring("water", money("9"), "3 months on the 15th", on(9, 1), Category.WATER, "town", 1),
    ),
    case(
        "what comes by a rule of RFC 5545",
        recurring.add_recurring,
        lambda _: NewRecurring("web page", money("60"), "FREQ=YEARLY", on(9, 1), literal=True),
    ),
    case(
        "what comes again corrected and ended",
        recurring.change_recurring,
        lambda land: RecurringChange(
            land.rent.id, "rent", money("27"), Category.OTHER, None, None, on(9, 30), "Rent", "by hand"
        ),
    ),
    case(
        "the rent paid",
        recurring.book_time,
        lambda land: NewTime(land.rent.id, on(8, 1), on(8, 5), money("27.50")),
    ),
    case("what comes again removed", removal.remove_record, lambda _: Removal("recurring", 1)),
    case(
        "a paper",
        papers.add_paper,
        lambda land: NewPaper(
            *(PaperKind.CONTRACT, "stall", on(9, 1), on(11, 1)),
            unit_id=land.wren.id,
            file=KeptFile("ab.pdf", "a.pdf", "ab"),
        ),
    ),
    case(
        "a paper corrected",
        papers.change_paper,
        lambda land: PaperChange(
            *(land.permit_paper.id, PaperKind.CERTIFICATE, "fish", on(7, 2), None, None, "the agency", land.wren.id),
            *(None, "by post"),
        ),
    ),
    case(
        "a paper renewed",
        papers.renew_paper,
        lambda land: Renewal(land.permit_paper.id, on(12, 31), None),
    ),
    case("a paper removed", removal.remove_record, lambda land: Removal("papers", land.permit_paper.id)),
    case(
        "labels loaded anew",
        cost_labels.load_labels,
        lambda _: NewLabels("ours", (LabelToLoad("Rent and land"), LabelToLoad("Feed", ("feed", "fish")))),
    ),
    case("a label removed", removal.remove_record, lambda _: Removal("labels", 2)),
    case("a cost with a label", costs.change_cost, lambda land: CostChange(land.feed.id, label="util")),
    case("a note", notes.add_note, lambda land: NewNote(on(9, 3), "pale leaves", bed_id=land.north.id)),
    case(
        "a new pump, with a photo",
        notes.add_note,
        lambda land: NewNote(
            on(9, 3), None, land.wren.id, changed=Changed.PUMP, file=KeptFile("ab12.jpg", "pump.jpg", "ab12")
        ),
    ),
    case("a note on a chore", notes.add_note, lambda land: NewNote(on(9, 3), "stuck", chore_id=land.sweep.id)),
    case(
        "a note corrected",
        notes.change_note,
        lambda land: NoteChange(land.seen.id, on(9, 4), "paler", None),
    ),
    case("a note removed", removal.remove_record, lambda land: Removal("notes", land.seen.id)),
    case("a device", power.add_device, lambda land: NewDevice("heater", some(300_000), on(10, 1), 90, land.wren.id)),
    case(
        "a device that ran for the last time",
        power.change_device,
        lambda land: DeviceChange(land.pump.id, "old pump", some(38_000), 1200, None, on(4, 11), on(10, 1), "loud"),
    ),
    case("a meter read", power.read_meter, lambda land: NewMeterReading(on(10, 1), some(200_000), land.wren.id)),
    case("a meter read again", power.read_meter, lambda _: NewMeterReading(on(9, 1), some(7_100_000), None, "noon")),
    case("power dearer", power.set_power_price, lambda _: NewPowerPrice(on(10, 1), 1625, 100_000, "0.1625")),
    case("power corrected", power.set_power_price, lambda _: NewPowerPrice(on(7, 1), 19, 1000, "0.19")),
    case("a device removed", removal.remove_record, lambda land: Removal("devices", land.pump.id)),
    case("a meter's reading removed", removal.remove_record, lambda _: Removal("meter readings", 1)),
    case("a price of power removed", removal.remove_record, lambda _: Removal("power prices", 1)),
    case(
        "a supply",
        supplies.add_supply,
        lambda _: NewSupply("chelated iron", HeldBy.VOLUME, Category.SUPPLIES, volume("8 fl oz"), "keep dark"),
    ),
    case(
        "a supply corrected",
        supplies.change_supply,
        lambda land: SupplyChange(land.pads.id, "pads", Category.REPAIRS, None, "round"),
    ),
    case(
        "a bag bought",
        supplies.buy_supply,
        lambda land: NewSupplyLot(land.pellets.supply_id, on(10, 2), mass("40 lb"), money("55"), "The mill", "C-1"),
    ),
    case("pads that were there", supplies.buy_supply, lambda land: NewSupplyLot(land.pads.id, on(10, 2), some(4))),
    case(
        "a bag corrected",
        supplies.change_bought,
        lambda land: SupplyLotChange(land.pellets.id, on(7, 6), mass("19 lb"), money("27"), "The mill", None),
    ),
    case(
        "a bag that cost nothing",
        supplies.change_bought,
        lambda land: SupplyLotChange(land.pellets.id, paid=None, opened_day=None, expires_day=on(11, 30)),
    ),
    case("pads that were paid for", supplies.change_bought, lambda _: SupplyLotChange(1, paid=money("9"), payee="Lee")),
    case(
        "a supply used",
        supplies.use_supply,
        lambda land: NewSupplyUse(land.pads.id, on(10, 3), some(1), land.wren.id, note="torn"),
    ),
    case(
        "a supply counted",
        supplies.use_supply,
        lambda land: NewSupplyUse(land.pads.id, on(10, 3), some(0), kind=Movement.COUNTED),
    ),
    case(
        "a use corrected",
        supplies.change_use,
        lambda land: SupplyUseChange(1, on(6, 21), some(2), land.wren.id, "both"),
    ),
    case("a bag removed", removal.remove_record, lambda land: Removal("bought supplies", land.pellets.id)),
    case("a use removed", removal.remove_record, lambda _: Removal("used supplies", 1)),
    case(
        "a supply removed",
        removal.remove_record,
        lambda land: Removal("supplies", land.pads.id + 3),
        before=lambda land: supplies.add_supply(land.store, NewSupply("salt"), by=ADA),
    ),
    case("a rest", chores.pause, lambda land: NewPause(land.siphon.id, on(10, 1))),
    case("a rest cut short", chores.resume, lambda land: Resuming(land.sweep.id, on(7, 15))),
    case("no rest at all", chores.resume, lambda land: Resuming(land.sweep.id, on(7, 1))),
)


def operations() -> set[OperationFunction[Any, Any]]:
    """Every operation that the rooms of farmops.farm define."""
    found = set()
    for module in pkgutil.iter_modules(farmops.farm.__path__, "farmops.farm."):
        for thing in vars(importlib.import_module(module.name)).values():
            if isinstance(thing, OperationFunction):
                found.add(thing)
    return found
