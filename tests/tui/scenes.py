"""Every form of the interface with something to book in it, and what stands in the farm afterwards."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import Any

from farmops.farm.fish_events import record_feeding, record_loss, weigh_sample
from farmops.farm.instruments import check_instrument
from farmops.farm.sharing import set_driver, set_joint_split, set_labour_rate
from farmops.farm.transfers import split
from farmops.model.chores import SettledAs
from farmops.model.costs import Category, CostKind, Driver, JointMethod, NewDriver, NewJointSplit, NewLabourRate
from farmops.model.fish import Ate, Disposal, LossCause
from farmops.model.fish_events import Feeding, Loss, NewFeeding, NewLoss, NewSample, NewSplit, Sample, Transfer
from farmops.model.harvests import Use
from farmops.model.instruments import NewCheck
from farmops.model.notes import Changed
from farmops.model.plantings import StartedBy
from farmops.model.readings import Measure
from farmops.model.supplies import HeldBy, Movement
from farmops.model.units import UnitKind, UnitState
from farmops.model.usage import Counter
from farmops.records.store import Store
from farmops.reports import evidence, lists, ordering, selling
from farmops.reports.crew import crew_of
from farmops.reports.fish_book import book
from farmops.reports.label_totals import labels_of
from farmops.reports.papers_held import papers_held
from farmops.reports.picks import picks
from farmops.reports.power_used import power_book, power_used
from farmops.reports.recurring import recurring
from farmops.reports.supplies_held import bought, supplies, taken
from farmops.reports.templates import template_line, template_lines
from farmops.reports.treatments import treatments_of
from farmops.reports.water import series_of
from tests import farmhand as hand
from tests.tui.stage import TODAY, Scene, chore_called


def _unit(store: Store, code: str) -> Any:
    return next(line for line in lists.units(store) if line.unit.code == code)


def _bed(store: Store, code: str) -> Any:
    return next(line for line in lists.beds(store) if line.bed.code == code)


def _costs(store: Store) -> list[Any]:
    return lists.costs(store, date.min, date.max)


def _harvest(store: Store, what: str = "CHARD") -> Any:
    return next(one for one in lists.harvests(store, date.min, date.max) if one.what == what)


def _planting(store: Store, crop: str = "CHARD") -> Any:
    return next(one for one in lists.plantings(store) if one.crop == crop)


def _sales(store: Store) -> list[Any]:
    return selling.sales(store, date.min, date.max)


def _price(store: Store) -> Any:
    return next(one for one in lists.prices(store) if one.what == "CHARD")


def _pad(store: Store) -> Any:
    return chore_called(store, "Change the pad")


def _graded_out(store: Store) -> Any:
    """The transfer by which some fish became a lot of their own."""
    split(store, NewSplit(1, 1, "PERCH-S", TODAY, 5), by="Ada")
    return next(one for one in book(store, 1) if isinstance(one, Transfer))


def _readings(store: Store) -> list[Any]:
    return [line.reading for line in series_of(store, date.min, date.max)]


def _treatments(store: Store) -> list[Any]:
    return [told.one for told in treatments_of(store, date.min, date.max)]


def _instrument(store: Store) -> Any:
    return lists.instruments(store)[-1]


def _check(store: Store) -> Any:
    """A check of the instrument, booked for the scene that corrects it."""
    entry = NewCheck(_instrument(store).id, TODAY, passed=True, against="pH 7.00", showed="7.1", note="new buffer")
    return check_instrument(store, entry, by=hand.ADA).check


def _doses(store: Store) -> list[Any]:
    return lists.doses(store, date.min, date.max)


def _top_ups(store: Store) -> list[Any]:
    return lists.top_ups(store, date.min, date.max)


def _settled(store: Store) -> tuple[Any, ...]:
    one = lists.settled(store, _pad(store).id)[-1]
    return one.kind, one.reason, one.until_day, one.actor


NEW = (
    Scene(
        "new",
        "units",
        {"code": "dipper", "kind": "hydroponic", "state": "cycling", "tank": "100 gal", "from_day": "1 sep"},
        "add unit",
        lambda store: (_unit(store, "DIPPER").unit.kind, _unit(store, "DIPPER").states[0].from_day),
        (UnitKind.HYDROPONIC, date(2026, 9, 1)),
    ),
    Scene(
        "new",
        "states",
        {"state": "wintering", "from_day": "yesterday", "chores": "no"},
        "unit enters a state",
        lambda store: (_unit(store, "WREN").states[-1].state, _unit(store, "WREN").states[-1].from_day),
        (UnitState.WINTERING, TODAY - timedelta(days=1)),
    ),
    Scene(
        "new",
        "beds",
        {"name": "w", "area": "4 x 6 ft", "depth": "30 cm"},
        "add bed",
        lambda store: (_bed(store, "WREN-W").sizes[0].area_typed, _bed(store, "WREN-W").bed.depth_um),
        ("4 x 6 ft", 300_000),
    ),
    Scene(
        "new",
        "sizes",
        {"bed": "WREN-S", "area": "30 sq ft", "from_day": "1 oct"},
        "size of a bed",
        lambda store: _bed(store, "WREN-S").sizes[-1].area_mm2,
        hand.area("30 sq ft").exact,
    ),
    Scene(
        "new",
        "crops",
        {"name": "BASIL", "note": "from cuttings"},
        "add crop",
        lambda store: next((one.library_key, one.note) for one in lists.crops(store) if one.name == "BASIL"),
        ("basil", "from cuttings"),
    ),
    Scene(
        "new",
        "plantings",
        {"bed": "WREN-S", "crop": "CHIVES", "plants": "12", "started_by": "sowing", "area": "5 sq ft"},
        "planting",
        lambda store: (
            _planting(store, "CHIVES").bed,
            _planting(store, "CHIVES").plants,
            _planting(store, "CHIVES").started_by,
            _planting(store, "CHIVES").started_day,
        ),
        ("WREN-S", 12, StartedBy.SOWING, TODAY),
    ),
    Scene(
        "new",
        "fish",
        {"code": "t-26", "species": "rainbow trout", "number": "40", "mean": "1 oz"},
        "stock fish",
        lambda store: [(one.number, one.mean_typed, one.unit) for one in lists.fish_lots(store) if one.code == "T-26"],
        [(40, "1 oz", "WREN")],
    ),
    Scene(
        "new",
        "readings",
        {"ph": "7.0", "temperature": "60", "nitrite": "0.25 N", "minute": "7:30", "note": "new kit"},
        "readings",
        lambda store: [(one.measure.value, one.typed, one.minute, one.note) for one in _readings(store)[-3:]],
        [("pH", "7.0", 450, "new kit"), ("temperature", "60", 450, "new kit"), ("nitrite", "0.25 N", 450, "new kit")],
    ),
    Scene(
        "new",
        "instruments",
        {
            "name": "drop kit",
            "reads": "amm, nitrate",
            "form": "as ion",
            "expires_day": "1 mar 2027",
            "check_days": "90",
        },
        "add instrument",
        lambda store: (_instrument(store).measures, _instrument(store).form, _instrument(store).check_days),
        ("ammonia,nitrate", "as ion", 90),
    ),
    Scene(
        "new",
        "own limits",
        {"measure": "temperature", "high": "75", "unit": "WREN", "note": "perch"},
        "own limit",
        lambda store: (lists.own_limits(store)[-1].unit, round(lists.own_limits(store)[-1].high or 0, 1)),
        ("WREN", 23.9),
    ),
    Scene(
        "new",
        "doses",
        {"unit": "WREN", "what": "seaweed extract", "amount": "30 ml", "why": "pale leaves"},
        "dose",
        lambda store: (_doses(store)[0].what, _doses(store)[0].amount, _doses(store)[0].why),
        ("seaweed extract", 30, "pale leaves"),
    ),
    Scene(
        "new",
        "water sources",
        {"name": "Bore", "kind": "well", "note": "hard"},
        "water source",
        lambda store: [(one.name, one.kind.value) for one in lists.sources(store)][-1],
        ("Bore", "well"),
    ),
    Scene(
        "new",
        "top-ups",
        {"unit": "WREN", "volume": "12 gal", "source": "Mains", "note": "dry week"},
        "top-up",
        lambda store: (_top_ups(store)[0].volume_typed, _top_ups(store)[0].source),
        ("12 gal", "Mains"),
    ),
    Scene(
        "new",
        "treatments",
        {
            "where": "WREN-N",
            "product": "Bt spray",
            "amount_typed": "20 mL in 1 L",
            "reentry_hours": "4",
            "harvest_days": "3",
            "registration": "12-345",
            "against": "aphids",
            "minute": "6:30",
        },
        "treatment",
        lambda store: [(one.where, one.harvest_days, one.fish_days, one.against) for one in _treatments(store)],
        [("WREN-N", 3, None, "aphids"), ("WREN", 0, 0, None)],
    ),
    Scene(
        "new",
        "usage",
        {"counter": "feed", "amount": "2 4", "day": "yesterday"},
        "usage",
        lambda store: [(one.unit, one.counter, one.amount, one.typed, one.day) for one in evidence.usages(store)][:1],
        [("WREN", Counter.FEED, hand.mass("2 4").exact, "2 4", date(2026, 10, 13))],
    ),
    Scene(
        "new",
        "forecasts",
        {"low": "-1 C"},
        "forecast",
        lambda store: [(one.day, one.low_c, one.high_typed) for one in evidence.forecasts(store)],
        [(date(2026, 10, 15), -1.0, "50 F")],
    ),
    Scene(
        "new",
        "supplies",
        {"name": "filter pads", "held_by": "count", "reorder": "2", "category": "repairs"},
        "add supply",
        lambda store: [(one.held_by, one.reorder_at, one.category) for one in supplies(store) if "pads" in one.name],
        [(HeldBy.COUNT, 2, Category.REPAIRS)],
    ),
    Scene(
        "new",
        "devices",
        {"name": "heater", "rated": "0.3 kW", "minutes_a_day": "6.5", "unit": "", "until_day": "30 oct"},
        "add device",
        lambda store: [
            (one.rated_mw, one.minutes_a_day, one.unit, one.until_day)
            for one in power_book(store).devices
            if one.name == "heater"
        ],
        [(300_000, 390, None, date(2026, 10, 30))],
    ),
    Scene(
        "new",
        "meter readings",
        {"shown": "1250", "note": "at noon"},
        "meter reading",
        lambda store: [(one.unit, one.day, one.shown_wh, one.note) for one in power_book(store).meters][1:],
        [("WREN", TODAY, 1_250_000, "at noon")],
    ),
    Scene(
        "new",
        "power prices",
        {"price": "0.1625/kWh", "from_day": "1 oct"},
        "power price",
        lambda store: [(one.from_day, one.price_minor, one.per_wh) for one in power_book(store).prices][1:],
        [(date(2026, 10, 1), 13, 800)],
    ),
    Scene(
        "new",
        "costs",
        {"amount": "85", "what": "tarpaulin", "category": "supplies", "where": "", "life": "2 years", "salvage": "5"},
        "cost",
        lambda store: next(
            (one.amount_minor, one.category, one.unit, one.kind, one.life_months, one.salvage_minor)
            for one in _costs(store)
            if one.what == "tarpaulin"
        ),
        (8500, Category.SUPPLIES, None, CostKind.CAPITAL, 24, 500),
    ),
    Scene(
        "new",
        "sales",
        {"buyer": "the inn", "line1": "chard 1 lb for 4", "line2": "KALE 6 bunches at 2.50 unsold 1", "note": "rain"},
        "sale",
        lambda store: [
            (one.buyer, one.paid_minor, [line.name for line in one.lines], one.note) for one in _sales(store)
        ][-1],
        ("the inn", 400 + 1250, ["WREN-N CHARD", "WREN-S KALE"], "rain"),
    ),
    Scene(
        "new",
        "papers",
        {"kind": "permit", "name": "fish permit", "number": "F-118", "unit": "", "until_day": "31 dec"},
        "paper",
        lambda store: [(one.paper.name, one.paper.number, one.stands) for one in papers_held(store, TODAY)][1:],
        [("fish permit", "F-118", "good")],
    ),
    Scene(
        "new",
        "labels",
        {"name": "taxes"},
        "labels for costs",
        lambda store: [(one.label_set, one.label) for one in labels_of(store)][:1],
        [("taxes", "10 Car and truck expenses (also attach Form 4562)")],
    ),
    Scene(
        "new",
        "recurring",
        {"what": "stall rent", "amount": "25", "rule": "month on the 1st", "unit": "", "until_day": "31 dec"},
        "recurring cost",
        lambda store: [(one.cost.what, one.cost.unit, one.next) for one in recurring(store, TODAY)][1:],
        [("stall rent", None, date(2026, 11, 1))],
    ),
    Scene(
        "new",
        "drivers",
        {"driver": "fixed shares", "category": "power", "shares": "WREN=2 ROOK=1"},
        "driver",
        lambda store: [(one.category, one.driver, len(one.shares)) for one in lists.sharing(store).drivers],
        [("power", Driver.FIXED_SHARES, 2)],
    ),
    Scene(
        "new",
        "splits",
        {"method": "fixed shares", "produce": "62.5 %", "from_day": "1 may"},
        "split of joint cost",
        lambda store: [(one.from_day, one.produce_thousandths) for one in lists.sharing(store).splits],
        [(date(2026, 5, 1), 625)],
    ),
    Scene(
        "new",
        "labour rates",
        {"rate": "15", "person": "Ada"},
        "labour rate",
        lambda store: [(one.person, one.rate_minor) for one in lists.sharing(store).rates],
        [("Ada", 1500)],
    ),
    Scene(
        "new",
        "orders",
        {"buyer": "the hall", "what": "kale 6 bunches at 2.50", "rule": "Tue Fri", "until": "2026-12-31"},
        "standing order",
        lambda store: next(
            (one.buyer, one.what, one.amount, one.rule_words, one.start_day, one.until_day)
            for one in ordering.orders(store)
        ),
        ("the hall", "KALE", 6, "every Tue and Fri", TODAY, date(2026, 12, 31)),
    ),
    Scene(
        "new",
        "prices",
        {"what": "KALE", "price": "4 per lb"},
        "price",
        lambda store: next((one.typed, one.from_day) for one in lists.prices(store) if one.what == "KALE"),
        ("4 per lb", TODAY),
    ),
    Scene(
        "new",
        "people",
        {"name": "Cy", "note": "weekends", "minor": "yes"},
        "add person",
        lambda store: [(one.note, one.minor) for one in lists.people(store) if one.name == "Cy"],
        [("weekends", True)],
    ),
    Scene(
        "new",
        "notes",
        {"where": "WREN", "text": "the smaller one", "changed": "pump"},
        "note",
        lambda store: [
            (one.where, one.text, one.changed) for one in lists.notes(store, TODAY, date.max) if one.changed
        ],
        [("WREN", "the smaller one", Changed.PUMP)],
    ),
    Scene(
        "new",
        "contacts",
        {"name": "Dr Reed", "calls_for": "vet", "phone": "555 0100"},
        "add contact",
        lambda store: [(one.calls_for, one.name, one.phone) for one in lists.contacts(store)][1:],
        [("vet", "Dr Reed", "555 0100")],
    ),
    Scene(
        "new",
        "absences",
        {"person_id": "Ada", "from_day": "sat", "until_day": "24 oct", "note": "by train"},
        "go away",
        lambda store: [(one.person, one.from_day, one.until_day, one.note) for one in lists.absences(store)][1:],
        [("Ada", date(2026, 10, 17), date(2026, 10, 24), "by train")],
    ),
    Scene(
        "new",
        "chores",
        {
            "title": "Net the bed",
            "rule": "month on the 31st",
            "where": "WREN-N",
            "minutes": "12",
            "readings": "pH, ammonia",
            "months": "apr-jun",
            "states": "run, winter",
            "adults_only": "yes",
            "person_id": "Ada",
        },
        "add chore",
        lambda store: (
            chore_called(store, "Net the bed").bed,
            chore_called(store, "Net the bed").readings,
            chore_called(store, "Net the bed").months,
            chore_called(store, "Net the bed").states,
            chore_called(store, "Net the bed").adults_only,
            chore_called(store, "Net the bed").person,
        ),
        ("WREN-N", "pH,ammonia", "4,5,6", "running,wintering", True, "Ada"),
    ),
    Scene(
        "new",
        "sets",
        {"occasion": "treatment", "bed": "WREN-N", "hold_days": "7"},
        "set of chores",
        lambda store: [(one.bed, one.next_due) for one in lists.chores(store) if one.template_key == "treat-over"],
        [("WREN-N", TODAY + timedelta(days=7))],
    ),
)

EDIT = (
    Scene(
        "edit",
        "sales",
        {"line2": "", "line3": "KALE 2 bunches for 5", "note": "late"},
        "change sale",
        lambda store: ([line.name for line in _sales(store)[0].lines], _sales(store)[0].paid_minor),
        (["WREN-N CHARD", "WREN-S KALE"], 350 + 500),
        lambda store: _sales(store)[0],
    ),
    Scene(
        "edit",
        "back",
        {"what": "PERCH-24", "amount": "2 pieces", "how": "unsold"},
        "coming back",
        lambda store: (_sales(store)[0].lines[1].unsold, _sales(store)[0].paid_minor),
        (2, 350 + 1600),
        lambda store: _sales(store)[0],
    ),
    Scene(
        "edit",
        "orders",
        {"what": "CHARD 3 lb at 3", "rule": "week", "until": "2026-11-30"},
        "change standing order",
        lambda store: [(one.amount_typed, one.price_typed, one.until_day) for one in ordering.orders(store)],
        [("3 lb", "at 3", date(2026, 11, 30))],
        lambda store: ordering.orders(store)[0],
    ),
    Scene(
        "edit",
        "fill",
        {"what": "1 lb at 3.25", "source": "WREN-N CHARD"},
        "sale",
        lambda store: [(one.buyer, one.day, one.paid_minor) for one in _sales(store)][-1],
        ("the inn", TODAY, 325),
        lambda store: (picks(store, TODAY).ordered[0].wanted[0], TODAY, ("WREN-N CHARD",)),
    ),
    Scene(
        "edit",
        "units",
        {"tank": "250 gal", "note": "", "breaker": "No. 3", "valve": "red tap"},
        "change unit",
        lambda store: (
            _unit(store, "WREN").unit.tank_typed,
            _unit(store, "WREN").unit.note,
            _unit(store, "WREN").unit.breaker,
            _unit(store, "WREN").unit.valve,
        ),
        ("250 gal", None, "No. 3", "red tap"),
        lambda store: _unit(store, "WREN"),
    ),
    Scene(
        "edit",
        "states",
        {"state": "resting"},
        "unit enters a state",
        lambda store: _unit(store, "ROOK").states[-1].state,
        UnitState.RESTING,
        lambda store: _unit(store, "ROOK").unit,
    ),
    Scene(
        "edit",
        "beds",
        {"name": "n2", "kind": "raft"},
        "change bed",
        lambda store: _bed(store, "WREN-N2").bed.kind.value,
        "raft",
        lambda store: _bed(store, "WREN-N"),
    ),
    Scene(
        "edit",
        "sizes",
        {"area": "20 sq ft"},
        "size of a bed",
        lambda store: (_bed(store, "WREN-N").sizes[-1].area_typed, _bed(store, "WREN-N").sizes[-1].from_day),
        ("20 sq ft", TODAY),
        lambda store: _bed(store, "WREN-N").bed,
    ),
    Scene(
        "edit",
        "crops",
        {"name": "SWISS CHARD"},
        "change crop",
        lambda store: [one.name for one in lists.crops(store) if "CHARD" in one.name],
        ["SWISS CHARD"],
        lambda store: next(one for one in lists.crops(store) if one.name == "CHARD"),
    ),
    Scene(
        "edit",
        "plantings",
        {"variety": "", "plants": "28"},
        "change planting",
        lambda store: (_planting(store).variety, _planting(store).plants, _planting(store).started_day),
        (None, 28, date(2026, 4, 1)),
        _planting,
    ),
    Scene("edit", "clear", {}, "change planting", lambda store: _planting(store).cleared_day, TODAY, _planting),
    Scene(
        "edit",
        "fish",
        {"number": "48"},
        "change fish lot",
        lambda store: (lists.fish_lots(store)[0].number, lists.fish_lots(store)[0].mean_typed),
        (48, "20 g"),
        lambda store: lists.fish_lots(store)[0],
    ),
    Scene(
        "edit",
        "readings",
        {"read": "0.25 ion", "note": "read again", "minute": ""},
        "change reading",
        lambda store: [(one.typed, one.form, one.minute) for one in _readings(store) if one.measure is Measure.NITRITE],
        [("0.25 ion", "as ion", None)],
        lambda store: next(one for one in _readings(store) if one.measure is Measure.NITRITE),
    ),
    Scene(
        "edit",
        "instruments",
        {"name": "Strips", "until_day": "today", "check_days": ""},
        "change instrument",
        lambda store: (_instrument(store).name, _instrument(store).until_day, _instrument(store).check_days),
        ("Strips", TODAY, None),
        lambda store: _instrument(store),
    ),
    Scene(
        "edit",
        "check",
        {"against": "pH 7.00", "showed": "7.6", "passed": "failed"},
        "check instrument",
        lambda store: [(one.passed, one.showed) for one in lists.instrument_checks(store)],
        [(False, "7.6")],
        lambda store: _instrument(store),
    ),
    Scene(
        "edit",
        "instrument checks",
        {"showed": "7.6", "passed": "failed", "against": ""},
        "change instrument check",
        lambda store: [(one.passed, one.against, one.showed, one.note) for one in lists.instrument_checks(store)],
        [(False, None, "7.6", "new buffer")],
        _check,
    ),
    Scene(
        "edit",
        "own limits",
        {"high": "7.2", "low": ""},
        "own limit",
        lambda store: [(one.low, one.high) for one in lists.own_limits(store)],
        [(None, 7.2)],
        lambda store: lists.own_limits(store)[0],
    ),
    Scene(
        "edit",
        "doses",
        {"amount": "35 g", "why": "pale new leaves"},
        "change dose",
        lambda store: (_doses(store)[0].amount, _doses(store)[0].why),
        (35_000, "pale new leaves"),
        lambda store: _doses(store)[0],
    ),
    Scene(
        "edit",
        "water sources",
        {"kind": "mains with chlorine", "note": "letter of May"},
        "change water source",
        lambda store: [(one.kind.value, one.note) for one in lists.sources(store)],
        [("mains with chlorine", "letter of May")],
        lambda store: lists.sources(store)[0],
    ),
    Scene(
        "edit",
        "source values",
        {"pH": "7.8", "alkalinity": "140", "from_day": "1 oct"},
        "source values",
        lambda store: [(one.measure.value, one.typed) for one in lists.source_values(store)],
        [("pH", "7.8"), ("alkalinity", "140")],
        lambda store: lists.sources(store)[0],
    ),
    Scene(
        "edit",
        "top-ups",
        {"volume": "15 gal", "source": ""},
        "change top-up",
        lambda store: (_top_ups(store)[0].volume_typed, _top_ups(store)[0].source),
        ("15 gal", None),
        lambda store: _top_ups(store)[0],
    ),
    Scene(
        "edit",
        "usage",
        {"amount": "84.5", "note": ""},
        "change usage",
        lambda store: [(one.amount, one.typed, one.note) for one in evidence.usages(store)],
        [(5070, "84.5", None)],
        lambda store: evidence.usages(store)[0],
    ),
    Scene(
        "edit",
        "treatments",
        {"harvest_days": "2", "note": "read the label again"},
        "change treatment",
        lambda store: [(one.harvest_days, one.note, one.actor) for one in _treatments(store)],
        [(2, "read the label again", "Ada")],
        lambda store: _treatments(store)[0],
    ),
    Scene(
        "edit",
        "treat",
        {"product": "Bt", "amount_typed": "1 g", "reentry_hours": "4", "harvest_days": "0", "minute": "6:30"},
        "treatment",
        lambda store: [(one.where, one.product) for one in _treatments(store)],
        [("WREN-N", "Bt"), ("WREN", "Bt")],
        _planting,
    ),
    Scene(
        "edit",
        "forecasts",
        {"low": "30", "high": ""},
        "forecast",
        lambda store: [(one.low_typed, one.high_typed) for one in evidence.forecasts(store)],
        [("30", None)],
        lambda store: evidence.forecasts(store)[0],
    ),
    Scene(
        "edit",
        "sheet",
        {"chore_1": "6 min ph=7.1"},
        "book back sheet",
        lambda store: (lists.settled(store, _pad(store).id)[-1].minutes, _readings(store)[-1].typed),
        (6, "7.1"),
        lambda store: [_pad(store), chore_called(store, "Look for leaks")],
    ),
    Scene(
        "edit",
        "close",
        {"closed_day": "13 oct"},
        "change fish lot",
        lambda store: lists.fish_lots(store)[0].closed_day,
        date(2026, 10, 13),
        lambda store: lists.fish_lots(store)[0],
    ),
    Scene(
        "edit",
        "harvests",
        {"mass": "2 lb", "tare": "8 oz", "use": "sold"},
        "change harvest",
        lambda store: (_harvest(store).mass_mg, _harvest(store).tare_mg, _harvest(store).use, _harvest(store).bed),
        (hand.mass("1.5 lb").exact, hand.mass("8 oz").exact, Use.SOLD, "WREN-N"),
        _harvest,
    ),
    Scene(
        "edit",
        "supplies",
        {"name": "fish feed", "reorder": ""},
        "change supply",
        lambda store: [(one.name, one.reorder_at, one.category) for one in supplies(store)],
        [("fish feed", None, Category.FEED)],
        lambda store: supplies(store)[0],
    ),
    Scene(
        "edit",
        "buy",
        {"amount": "40 lb", "paid": "50", "expires_day": "12 oct", "lot_code": "C-1"},
        "buy supply",
        lambda store: [(one.cost_minor, one.expires_day, one.lot_code, one.day) for one in bought(store)][:1],
        [(5000, date(2027, 10, 12), "C-1", TODAY)],
        lambda store: supplies(store)[0],
    ),
    Scene(
        "edit",
        "use",
        {"amount": "1 4", "kind": "thrown away", "unit": "", "note": "mould"},
        "supply used",
        lambda store: [(one.kind, one.amount, one.unit, one.note) for one in taken(store)][:1],
        [(Movement.THROWN_AWAY, hand.mass("1 4").exact, None, "mould")],
        lambda store: supplies(store)[0],
    ),
    Scene(
        "edit",
        "count",
        {"amount": "11 lb"},
        "supply used",
        lambda store: [(one.kind, one.amount, one.unit) for one in taken(store)][:1],
        [(Movement.COUNTED, hand.mass("11 lb").exact, None)],
        lambda store: supplies(store)[0],
    ),
    Scene(
        "edit",
        "bought supplies",
        {"paid": "26.50", "opened_day": "1 oct", "lot_code": ""},
        "change bought supply",
        lambda store: [(one.cost_minor, one.opened_day, one.lot_code, one.payee) for one in bought(store)],
        [(2650, date(2026, 10, 1), None, "The mill")],
        lambda store: bought(store)[0],
    ),
    Scene(
        "edit",
        "used supplies",
        {"amount": "7 lb", "unit": ""},
        "change supply used",
        lambda store: [(one.amount_typed, one.unit, one.day) for one in taken(store)],
        [("7 lb", None, date(2026, 10, 1))],
        lambda store: taken(store)[0],
    ),
    Scene(
        "edit",
        "devices",
        {"until_day": "yesterday", "rated": "38"},
        "change device",
        lambda store: [(one.rated_mw, one.unit, one.until_day) for one in power_book(store).devices],
        [(38_000, "WREN", TODAY - timedelta(days=1))],
        lambda store: power_book(store).devices[0],
    ),
    Scene(
        "edit",
        "meter readings",
        {"shown": "1235"},
        "meter reading",
        lambda store: [(one.day, one.shown_wh) for one in power_book(store).meters],
        [(date(2026, 10, 1), 1_235_000)],
        lambda store: power_book(store).meters[0],
    ),
    Scene(
        "edit",
        "power",
        {"shown": "1251.5"},
        "meter reading",
        lambda store: [(one.unit, one.day, one.shown_wh) for one in power_book(store).meters][1:],
        [("WREN", TODAY, 1_251_500)],
        lambda store: power_used(store, date(2026, 10, 1), TODAY)[0],
    ),
    Scene(
        "edit",
        "power prices",
        {"price": "0.17"},
        "power price",
        lambda store: [(one.from_day, one.typed) for one in power_book(store).prices],
        [(date(2026, 1, 1), "0.17")],
        lambda store: power_book(store).prices[0],
    ),
    Scene(
        "edit",
        "costs",
        {"amount": "44", "where": "WREN-N"},
        "change cost",
        lambda store: next((one.amount_typed, one.where, one.payee) for one in _costs(store) if "feed" in one.what),
        ("44", "WREN-N", "The mill"),
        lambda store: next(one for one in _costs(store) if "feed" in one.what),
    ),
    Scene(
        "edit",
        "papers",
        {"until_day": "31 dec", "issued_by": "Old Lane Mutual"},
        "change paper",
        lambda store: [(one.paper.until_day, one.stands, one.paper.issued_by) for one in papers_held(store, TODAY)],
        [(date(2026, 12, 31), "good", "Old Lane Mutual")],
        lambda store: papers_held(store, TODAY)[0],
    ),
    Scene(
        "edit",
        "renew",
        {"until_day": "2027-11-01"},
        "paper renewed",
        lambda store: [(one.paper.from_day, one.stands) for one in papers_held(store, TODAY)],
        [(date(2026, 11, 2), "to come"), (date(2026, 1, 1), "renewed")],
        lambda store: papers_held(store, TODAY)[0],
    ),
    Scene(
        "edit",
        "recurring",
        {"amount": "190", "payee": "", "until_day": "31 dec"},
        "change recurring cost",
        lambda store: [(one.cost.amount_minor, one.cost.payee, one.cost.until_day) for one in recurring(store, TODAY)],
        [(19000, None, date(2026, 12, 31))],
        lambda store: recurring(store, TODAY)[0],
    ),
    Scene(
        "edit",
        "pay",
        {"amount": "184"},
        "recurring cost paid",
        lambda store: [
            (one.day, one.amount_minor, one.recurring_cost_id) for one in _costs(store) if one.recurring_cost_id
        ],
        [(date(2026, 9, 1), 18400, 1)],
        lambda store: recurring(store, TODAY)[0],
    ),
    Scene(
        "edit",
        "drivers",
        {"driver": "bed area"},
        "driver",
        lambda store: [(one.from_day, one.driver) for one in lists.sharing(store).drivers],
        [(date(2026, 4, 1), Driver.BED_AREA)],
        lambda store: set_driver(store, NewDriver(date(2026, 4, 1), Driver.EQUAL), by="Ada"),
    ),
    Scene(
        "edit",
        "splits",
        {"method": "weight"},
        "split of joint cost",
        lambda store: [(one.from_day, one.method) for one in lists.sharing(store).splits],
        [(date(2026, 4, 1), JointMethod.WEIGHT)],
        lambda store: set_joint_split(store, NewJointSplit(date(2026, 4, 1), JointMethod.SALES_VALUE), by="Ada"),
    ),
    Scene(
        "edit",
        "labour rates",
        {"rate": "16"},
        "labour rate",
        lambda store: [(one.from_day, one.rate_minor) for one in lists.sharing(store).rates],
        [(date(2026, 4, 1), 1600)],
        lambda store: set_labour_rate(store, NewLabourRate(date(2026, 4, 1), hand.money("15")), by="Ada"),
    ),
    Scene(
        "edit",
        "prices",
        {"price": "3.25", "from_day": "2026-03-15"},
        "change price",
        lambda store: (_price(store).price_minor, _price(store).from_day),
        (32500, date(2026, 3, 15)),
        _price,
    ),
    Scene(
        "edit",
        "people",
        {"note": "evenings"},
        "change person",
        lambda store: lists.people(store)[0].note,
        "evenings",
        lambda store: lists.people(store)[0],
    ),
    Scene(
        "edit",
        "here",
        {"person_1": "yes"},
        "who is here",
        lambda store: (crew_of(store, TODAY).said, [one.name for one in crew_of(store, TODAY).here]),
        (True, ["Ada"]),
        lambda store: crew_of(store, TODAY),
    ),
    Scene(
        "edit",
        "incidents",
        {"began_at": "11:50", "ended_at": "14:05", "note": "a tree on the line"},
        "change incident",
        lambda store: [(one.began_at, one.ended_at, one.note) for one in lists.incidents(store)],
        [
            (
                datetime(2026, 9, 20, 15, 50, tzinfo=UTC),
                datetime(2026, 9, 20, 18, 5, tzinfo=UTC),
                "a tree on the line",
            )
        ],
        lambda store: lists.incidents(store)[0],
    ),
    Scene(
        "edit",
        "absences",
        {"until_day": "4 nov", "note": "by train"},
        "change absence",
        lambda store: (lists.absences(store)[0].until_day, lists.absences(store)[0].note),
        (date(2026, 11, 4), "by train"),
        lambda store: lists.absences(store)[0],
    ),
    Scene(
        "edit",
        "harvests",
        {"dressed": "1 lb 3 oz"},
        "change harvest",
        lambda store: _harvest(store, "PERCH-24").dressed_typed,
        "1 lb 3 oz",
        lambda store: _harvest(store, "PERCH-24"),
    ),
    Scene(
        "edit",
        "deaths",
        {"number": "1", "cause": "oxygen", "disposal": "buried", "note": "gasping"},
        "fish died",
        lambda store: [(one.number, one.cause, one.disposal) for one in lists.losses(store, 1)],
        [(1, LossCause.OXYGEN, Disposal.BURIED)],
        lambda store: lists.fish_lots(store)[0],
    ),
    Scene(
        "edit",
        "weigh fish",
        {"each": "41 g, 48 g", "note": "calm"},
        "weigh fish",
        lambda store: [(one.number, one.mass_mg, one.note) for one in book(store, 1) if isinstance(one, Sample)],
        [(2, 89_000, "calm")],
        lambda store: lists.fish_lots(store)[0],
    ),
    Scene(
        "edit",
        "fed",
        {"mass": "30 g", "ate": "some"},
        "feed fish",
        lambda store: [(one.mass_typed, one.ate, one.day) for one in book(store, 1) if isinstance(one, Feeding)],
        [("30 g", Ate.SOME, TODAY)],
        lambda store: lists.fish_lots(store)[0],
    ),
    Scene(
        "edit",
        "move",
        {"where": "ROOK"},
        "move fish lot",
        lambda store: lists.fish_lots(store)[0].unit,
        "ROOK",
        lambda store: lists.fish_lots(store)[0],
    ),
    Scene(
        "edit",
        "split",
        {"number": "5", "code": "sick-1", "unit": "ROOK", "note": "fins"},
        "split fish lot",
        lambda store: [(one.code, one.unit, one.note) for one in lists.fish_lots(store) if one.id > 1],
        [("SICK-1", "ROOK", "fins")],
        lambda store: lists.fish_lots(store)[0],
    ),
    Scene(
        "edit",
        "samples",
        {"number": "4", "mass": "200 g"},
        "change sample of fish",
        lambda store: [(one.number, one.mass_mg) for one in book(store, 1) if isinstance(one, Sample)],
        [(4, 200_000)],
        lambda store: weigh_sample(store, NewSample(1, TODAY, 5, hand.mass("250 g")), by="Ada"),
    ),
    Scene(
        "edit",
        "losses",
        {"number": "2", "cause": "injury"},
        "change loss of fish",
        lambda store: [(one.number, one.cause) for one in book(store, 1) if isinstance(one, Loss)],
        [(2, LossCause.INJURY)],
        lambda store: record_loss(store, NewLoss(1, TODAY), by="Ada").loss,
    ),
    Scene(
        "edit",
        "transfers",
        {"number": "3", "mean": "40 g"},
        "change transfer of fish",
        lambda store: [(one.number, one.mean_mg) for one in book(store, 1) if isinstance(one, Transfer)],
        [(3, 40_000)],
        lambda store: _graded_out(store),
    ),
    Scene(
        "edit",
        "feedings",
        {"ate": "none", "note": "hardly any"},
        "change feeding",
        lambda store: [(one.mass_typed, one.ate, one.note) for one in book(store, 1) if isinstance(one, Feeding)],
        [("30 g", Ate.NONE, "hardly any")],
        lambda store: record_feeding(store, NewFeeding(1, TODAY, hand.mass("30 g")), by="Ada"),
    ),
    Scene(
        "edit",
        "note",
        {"text": "the lid sticks"},
        "note",
        lambda store: [one.text for one in lists.notes_of_chore(store, lists.chores(store)[0].id)],
        ["the lid sticks"],
        lambda store: lists.chores(store)[0],
    ),
    Scene(
        "edit",
        "notes",
        {"text": "paler still", "changed": "feed"},
        "change note",
        lambda store: [(one.text, one.changed) for one in lists.notes(store, date.min, date.max)],
        [("paler still", Changed.FEED)],
        lambda store: lists.notes(store, date.min, date.max)[0],
    ),
    Scene(
        "edit",
        "contacts",
        {"phone": "555 0199", "note": "back in May"},
        "change contact",
        lambda store: (lists.contacts(store)[0].phone, lists.contacts(store)[0].note),
        ("555 0199", "back in May"),
        lambda store: lists.contacts(store)[0],
    ),
    Scene(
        "edit",
        "farm",
        {"mass": "kg", "altitude": "1450 ft", "time_zone": "Europe/Lisbon"},
        "change the farm",
        lambda store: (lists.farm(store).measures.mass, lists.farm(store).measures.area, lists.farm(store).time_zone),
        ("kg", "sq_ft", "Europe/Lisbon"),
    ),
    Scene(
        "edit",
        "chores",
        {"rule": "21 days after", "months": ""},
        "change chore",
        lambda store: (_pad(store).rule_words, _pad(store).months, _pad(store).start_day),
        ("21 days after doing", None, date(2026, 10, 10)),
        _pad,
    ),
    Scene(
        "edit",
        "templates",
        {"minutes": "6", "caution": "", "months": "apr-jun"},
        "change template",
        lambda store: [
            (one.template.minutes, one.template.caution, one.template.months, one.template.readings)
            for one in template_lines(store)
            if one.own
        ],
        [(6, None, (4, 5, 6), ("fill time", "drain time"))],
        lambda store: template_line(store, "siphon-time"),
    ),
    Scene(
        "edit",
        "skip",
        {"reason": "1"},
        "settle chores",
        _settled,
        (SettledAs.SKIPPED, "not needed this time", None, "Bea"),
        lambda store: [_pad(store)],
    ),
    Scene(
        "edit",
        "defer",
        {"until": "sat"},
        "settle chores",
        _settled,
        (SettledAs.DEFERRED, None, date(2026, 10, 17), "Bea"),
        lambda store: [_pad(store)],
    ),
    Scene(
        "edit",
        "pause",
        {"from_day": "10 oct", "until": "9"},
        "pause chore",
        lambda store: _pad(store).next_due,
        TODAY + timedelta(days=10),
        _pad,
    ),
)

LIKE = (
    Scene(
        "like",
        "sales",
        {},
        "sale",
        lambda store: [(one.buyer, one.day, one.paid_minor) for one in _sales(store)],
        [("the gate stall", date(2026, 9, 2), 2750), ("the gate stall", TODAY, 2750)],
        lambda store: _sales(store)[0],
    ),
    Scene(
        "like",
        "orders",
        {"what": "CHARD 1 lb at 3", "rule": "Sat"},
        "standing order",
        lambda store: [(one.buyer, one.amount_typed) for one in ordering.orders(store)],
        [("the inn", "2 lb"), ("the inn", "1 lb")],
        lambda store: ordering.orders(store)[0],
    ),
    Scene(
        "like",
        "units",
        {"code": "FINCH"},
        "add unit",
        lambda store: (_unit(store, "FINCH").unit.tank_typed, _unit(store, "FINCH").states[0].from_day),
        ("275 gal", TODAY),
        lambda store: _unit(store, "WREN"),
    ),
    Scene(
        "like",
        "beds",
        {"name": "E"},
        "add bed",
        lambda store: (_bed(store, "WREN-E").bed.depth_typed, _bed(store, "WREN-E").sizes[0].area_typed),
        ("12 in", "25 sq ft"),
        lambda store: _bed(store, "WREN-S"),
    ),
    Scene(
        "like",
        "plantings",
        {},
        "planting",
        lambda store: [one.started_day for one in lists.plantings(store) if one.variety == "Bright Stem"],
        [date(2026, 4, 1), TODAY],
        _planting,
    ),
    Scene(
        "like",
        "fish",
        {"code": "P2", "number": "30", "mean": "15 g"},
        "stock fish",
        lambda store: next((one.species, one.unit) for one in lists.fish_lots(store) if one.code == "P2"),
        ("yellow perch", "WREN"),
        lambda store: lists.fish_lots(store)[0],
    ),
    Scene(
        "like",
        "readings",
        {"ph": "7.4"},
        "readings",
        lambda store: (_readings(store)[-1].unit, _readings(store)[-1].typed),
        ("WREN", "7.4"),
        lambda store: _readings(store)[0],
    ),
    Scene(
        "like",
        "doses",
        {"amount": "40 g"},
        "dose",
        lambda store: [(one.unit, one.what, one.amount) for one in _doses(store)][:1],
        [("WREN", "chelated iron", 40_000)],
        lambda store: _doses(store)[0],
    ),
    Scene(
        "like",
        "top-ups",
        {"volume": "8 gal"},
        "top-up",
        lambda store: (_top_ups(store)[0].volume_typed, _top_ups(store)[0].source, _top_ups(store)[0].day),
        ("8 gal", "Mains", TODAY),
        lambda store: _top_ups(store)[0],
    ),
    Scene(
        "like",
        "treatments",
        {"minute": "6:30"},
        "treatment",
        lambda store: [(one.day, one.where, one.product) for one in _treatments(store)][:1],
        [(TODAY, "WREN", "Bt")],
        lambda store: _treatments(store)[0],
    ),
    Scene(
        "like",
        "usage",
        {"amount": "100"},
        "usage",
        lambda store: [(one.unit, one.counter, one.amount, one.day) for one in evidence.usages(store)][:1],
        [("WREN", Counter.PUMP_HOURS, 6000, TODAY)],
        lambda store: evidence.usages(store)[0],
    ),
    Scene(
        "like",
        "supplies",
        {"name": "crumble"},
        "add supply",
        lambda store: [(one.name, one.category) for one in supplies(store)][:1],
        [("crumble", Category.FEED)],
        lambda store: supplies(store)[0],
    ),
    Scene(
        "like",
        "devices",
        {"unit": "ROOK"},
        "add device",
        lambda store: [(one.unit, one.rated_typed, one.from_day) for one in power_book(store).devices][1:],
        [("ROOK", "40 W", TODAY)],
        lambda store: power_book(store).devices[0],
    ),
    Scene(
        "like",
        "meter readings",
        {"shown": "1300"},
        "meter reading",
        lambda store: [(one.unit, one.day, one.shown_wh) for one in power_book(store).meters][1:],
        [("WREN", TODAY, 1_300_000)],
        lambda store: power_book(store).meters[0],
    ),
    Scene(
        "like",
        "costs",
        {"amount": "43.75"},
        "cost",
        lambda store: [(one.amount_minor, one.payee, one.unit) for one in _costs(store) if one.day == TODAY],
        [(4375, "The mill", "WREN")],
        lambda store: next(one for one in _costs(store) if "feed" in one.what),
    ),
    Scene(
        "like",
        "prices",
        {"price": "3.50"},
        "price",
        lambda store: [one.from_day for one in lists.prices(store) if one.what == "CHARD"],
        [date(2026, 4, 1), TODAY],
        _price,
    ),
    Scene(
        "like",
        "chores",
        {"title": "Change the second pad", "where": "ROOK"},
        "add chore",
        lambda store: (
            chore_called(store, "Change the second pad").unit,
            chore_called(store, "Change the second pad").rule_words,
            chore_called(store, "Change the second pad").months,
        ),
        ("ROOK", "14 days after doing", "3,4,10"),
        _pad,
    ),
)

SCENES = (*NEW, *EDIT, *LIKE)
