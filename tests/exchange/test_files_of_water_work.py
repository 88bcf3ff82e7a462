"""Files of doses, top-ups, sources, treatments, instruments, own limits and use: each row by the rules of an entry."""

from __future__ import annotations

from datetime import date

import pytest

from farmops.exchange.file_imports import Said
from farmops.farm.harvests import record_harvest
from farmops.model.harvests import NewHarvest
from farmops.model.readings import Form, Measure
from farmops.model.supplies import HeldBy
from farmops.model.usage import Counter
from farmops.model.water import SourceKind
from farmops.quantities import US, VOLUME
from farmops.reports import evidence, lists
from farmops.reports.supplies_held import supplies_held
from farmops.reports.treatments import treatments_of
from tests.exchange.file_desk import Desk
from tests.farmhand import ADA, mass, on, plant

pytestmark = pytest.mark.usefixtures("stands_still")
DOSES = "date,unit,what,amount,why\n"
TOP_UPS = "date,unit,volume (gal),source\n"
SOURCES = "source,kind,from,pH,hardness,note\n"
TREATED = "date,time,for,product,amount,re-entry,harvest,fish,who,against\n"
KITS = "instrument,reads,from,reports,expires,until,check-days\n"
CHECKS = "date,instrument,passed,against,showed\n"
LIMITS = "from,measure,low,high,unit\n"
USED = "date,unit,counter,amount\n"
EVER = date.min, date.max


def test_doses_by_weight_and_by_volume(desk: Desk) -> None:
    text = DOSES + "2026-05-03,WREN,potassium bicarbonate,65,pH falls\n2026-05-03,,iron chelate,30 ml,\n"
    desk.book_once("doses", text.replace("amount", "amount (g)"), 2)
    found = [(one.what, one.held_by, one.amount, one.why) for one in lists.doses(desk.store, *EVER)]
    assert sorted(found) == [
        ("iron chelate", HeldBy.VOLUME, 30, None),
        ("potassium bicarbonate", HeldBy.MASS, 65_000, "pH falls"),
    ]


def test_a_dose_is_taken_from_the_supply_that_it_names(desk: Desk) -> None:
    desk.take("supplies", "supply\nlime\n")
    desk.take("supplies bought", "date,supply,amount\n2026-05-01,lime,1 kg\n")
    heads = DOSES.replace("why", "why,supply")
    desk.book_once("doses", heads + "2026-05-03,WREN,lime,65 g,,Lime\n", 1)
    (stock,) = supplies_held(desk.store)
    assert stock.held == 935_000
    (said,) = desk.reasons("doses", heads + "2026-05-03,WREN,lime,66 g,,chalk\n")
    assert said.startswith("line 2, supply: there is no supply chalk")


def test_top_ups_from_a_source(desk: Desk) -> None:
    desk.take("water sources", "source,kind\nMains,mains with chlorine\n")
    desk.book_once("top-ups", TOP_UPS + "2026-05-03,WREN,20,mains\n2026-05-03,WREN,20,mains\n2026-05-04,,5,\n", 3)
    found = [(one.day, one.source, one.volume_ml) for one in lists.top_ups(desk.store, *EVER)]
    twenty, five = VOLUME.parse("20 gal", US), VOLUME.parse("5 gal", US)
    assert sorted(found, key=str) == [(on(5, 3), "Mains", twenty), (on(5, 3), "Mains", twenty), (on(5, 4), None, five)]


def test_sources_and_what_their_water_is_like(desk: Desk) -> None:
    text = SOURCES + "Well,well,2026-05-01,7.8,140,deep\nwell,,2026-08-01,7.6,,\nRoof,rain,,,,\n"
    desk.book_once("water sources", text, 3)
    assert {(one.name, one.kind, one.note) for one in lists.sources(desk.store)} == {
        ("Roof", SourceKind.RAIN, None),
        ("Well", SourceKind.WELL, "deep"),
    }
    found = [(one.from_day, one.measure, one.value) for one in lists.source_values(desk.store)]
    assert sorted(found) == sorted(
        [(on(5, 1), Measure.PH, 7.8), (on(5, 1), Measure.HARDNESS, 140.0), (on(8, 1), Measure.PH, 7.6)]
    )
    long = "source,from,measure,value\nWell,2026-05-01,hardness,140\n"
    assert desk.take("water sources", long).already == 1


def test_treatments_hold_what_they_hold_when_booked_by_hand(desk: Desk) -> None:
    text = TREATED + (
        "2026-10-10,18:30,WREN-N,whey spray,20 mL in 1 L,4,7,,Bob,mildew\n"
        "2026-10-11 06:00,,PERCH-24,medicated feed,5 g a day,0,,21,,\n"
    )
    desk.book_once("treatments", text, 2)
    booked = [told.one for told in treatments_of(desk.store, *EVER)]
    bed, lot = next(one for one in booked if one.bed), next(one for one in booked if one.lot)
    assert (bed.actor, bed.against, bed.harvest_days, bed.reentry_hours) == ("Bob", "mildew", 7, 4)
    assert (lot.actor, lot.fish_days, lot.at.hour) == (ADA, 21, 10)


def test_a_treatment_over_a_weighing_is_asked_about(desk: Desk) -> None:
    bed, crop = lists.beds(desk.store)[0].bed, lists.crops(desk.store)[0]
    planting = plant(desk.store, bed, crop)
    record_harvest(desk.store, NewHarvest(on(10, 11), mass("1 lb"), planting_id=planting.id), by=ADA)
    text = TREATED + "2026-10-10,18:30,WREN-N,soap spray,1 L,4,3,,,\n"
    asked = desk.take("treatments", text)
    assert (asked.booked, [one.line for one in asked.asked]) == (0, [2])
    assert desk.take("treatments", text, Said(sure=True)).booked == 1


def test_instruments_with_their_checks(desk: Desk) -> None:
    text = KITS + ('drop kit,"ammonia, nitrite",2026-01-05,ion,2031-06-30,,\nold pen,pH,2024-03-01,,,2026-02-28,30\n')
    desk.book_once("instruments", text, 2)
    kit, pen = sorted(lists.instruments(desk.store), key=lambda one: one.name)
    assert (kit.reads, kit.form) == ((Measure.AMMONIA, Measure.NITRITE), Form.AS_ION)
    assert kit.expires_day == date(2031, 6, 30)
    assert (pen.until_day, pen.check_days) == (on(2, 28), 30)
    desk.book_once("instrument checks", CHECKS + "2026-02-01,Old pen,no,7.01,7.4\n2026-02-02,old pen,yes,7.01,7.0\n", 2)
    assert [(one.day, one.passed, one.showed) for one in lists.instrument_checks(desk.store)] == [
        (on(2, 1), False, "7.4"),
        (on(2, 2), True, "7.0"),
    ]


def test_own_limits_for_a_unit_or_for_all(desk: Desk) -> None:
    desk.book_once("own limits", LIMITS + "2026-05-01,pH,6.4,7.2,\n2026-05-01,temperature,,77,WREN\n", 2)
    found = [(one.measure, one.low, one.high, one.unit) for one in lists.own_limits(desk.store)]
    assert found == [(Measure.PH, 6.4, 7.2, None), (Measure.TEMPERATURE, None, 25.0, "WREN")]


def test_use_of_pumps_and_siphons(desk: Desk) -> None:
    desk.book_once("usage", USED + "2026-05-03,WREN,pump hours,16.5\n2026-05-03,WREN,siphon cycles,640\n", 2)
    found = [(one.counter, one.amount) for one in evidence.usages(desk.store)]
    assert sorted(found) == [(Counter.PUMP_HOURS, 990), (Counter.SIPHON_CYCLES, 640)]


def test_doses_that_are_refused(desk: Desk) -> None:
    desk.refuses(
        "doses",
        DOSES,
        ("soon,WREN,iron,3 g,", "date: soon is no day"),
        ("2026-05-03,SWIFT,iron,3 g,", "unit: there is no unit SWIFT"),
        ("2026-05-03,WREN,,3 g,", "what: "),
        ("2026-05-03,WREN,iron,,", "amount: no amount"),
        ("2026-05-03,WREN,iron,some,", "amount: 'some' is no amount"),
        (f"2026-05-03,WREN,iron,3 g,{'x' * 1001}", "why: "),
        ("2026-05-03,WREN,iron,2000 kg,", "a dose is more than nothing"),
    )


def test_top_ups_that_are_refused(desk: Desk) -> None:
    desk.refuses(
        "top-ups",
        TOP_UPS,
        ("2026-05-03,WREN,,", "volume: no volume"),
        ("2026-05-03,WREN,lots,", "volume: "),
        ("2026-05-03,WREN,3,Sky", "source: there is no water source SKY"),
    )


def test_water_sources_that_are_refused(desk: Desk) -> None:
    desk.refuses(
        "water sources",
        SOURCES,
        (",well,2026-05-01,7,,", "source: "),
        ("Well,,2026-05-01,7,,", "no kind"),
        ("Well,lake,2026-05-01,7,,", "kind: lake is no kind"),
        ("Well,well,,7,,", "no from"),
        ("Well,well,someday,7,,", "from: "),
        ("Well,well,2026-05-01,15,,", "pH: "),
        ("Well,well,2026-05-01,,soft,", "hardness: "),
    )


def test_treatments_that_are_refused(desk: Desk) -> None:
    desk.refuses(
        "treatments",
        TREATED,
        ("2026-10-10,18:30,,soap,1 L,4,7,,,", "for: say which unit, bed or fish lot"),
        ("2026-10-10,18:30,LARK,soap,1 L,4,7,,,", "for: there is no unit, bed or fish lot"),
        ("2026-10-10,,WREN-N,soap,1 L,4,7,,,", "time: no time; say at what time of day"),
        ("2026-10-10,dusk,WREN-N,soap,1 L,4,7,,,", "time: 'dusk' is no time of day"),
        ("2026-10-10,18:30,WREN-N,,1 L,4,7,,,", "product: "),
        ("2026-10-10,18:30,WREN-N,soap,,4,7,,,", "amount: "),
        ("2026-10-10,18:30,WREN-N,soap,1 L,,7,,,", "re-entry: no re-entry"),
        ("2026-10-10,18:30,WREN-N,soap,1 L,4,,,,", "harvest: no harvest"),
        ("2026-10-10,18:30,WREN-N,soap,1 L,4,a week,,,", "harvest: a week is no whole"),
        ("2026-10-10,18:30,WREN-N,soap,1 L,4,7,long,,", "fish: long is no whole number"),
        ("2026-10-10,18:30,PERCH-24,salt,1 L,4,,,,", "say how many days the label or"),
        ("2026-10-20,18:30,WREN-N,soap,1 L,4,7,,,", ""),
    )


def test_instruments_that_are_refused(desk: Desk) -> None:
    desk.refuses(
        "instruments",
        KITS,
        (",pH,2026-01-05,,,,", "instrument: "),
        ("pen,smell,2026-01-05,,,,", "reads: 'smell' is nothing that is read here"),
        ("pen,,2026-01-05,,,,", "say what pen reads"),
        ("pen,pH,,,,,", "no from"),
        ("pen,pH,2026-01-05,both,,,", "reports: understood: n, ion"),
        ("pen,pH,2026-01-05,ion,,,", "only ammonia, nitrite and nitrate"),
        ("pen,pH,2026-01-05,,never,,", "expires: never is no day"),
        ("pen,pH,2026-01-05,,,2025-01-01,", "pen came into service on 2026-01-05, after"),
        ("pen,pH,2026-01-05,,,,often", "check-days: often is no count"),
    )


def test_instrument_checks_that_are_refused(desk: Desk) -> None:
    desk.refuses(
        "instrument checks",
        CHECKS,
        ("2026-02-01,pen,yes,,", "instrument: there is no instrument PEN"),
    )


def test_own_limits_that_are_refused(desk: Desk) -> None:
    desk.refuses(
        "own limits",
        LIMITS,
        ("2026-05-01,smell,1,2,", "measure: "),
        ("someday,pH,6,7,", "from: "),
        ("2026-05-01,pH,,,", "say how low or how high pH may be"),
        ("2026-05-01,pH,8,7,", "at least 8"),
        ("2026-05-01,pH,low,7,", "low: "),
        ("2026-05-01,pH,6,high,", "high: "),
        ("2026-05-01,pH,6,7,SWIFT", "unit: there is no unit SWIFT"),
    )


def test_usage_that_are_refused(desk: Desk) -> None:
    desk.refuses(
        "usage",
        USED,
        ("2026-05-03,WREN,wing beats,3", "counter: wing beats is no counter"),
        ("2026-05-03,WREN,,3", "counter: no counter"),
        ("2026-05-03,WREN,pump hours,all day", "amount: "),
    )


def test_a_check_says_whether_it_was_passed(desk: Desk) -> None:
    desk.take("instruments", KITS + "pen,pH,2026-01-05,,,,\n")
    blank, odd = desk.reasons("instrument checks", CHECKS + "2026-02-01,pen,,7,\n2026-02-01,pen,nearly,7,\n")
    assert blank == "line 2, passed: no passed; say yes or no"
    assert odd == "line 3, passed: nearly is neither yes nor no"


def test_an_hour_counted_from_midnight_is_that_of_the_reading_that_was_exported(desk: Desk) -> None:
    desk.take("readings", "date,unit,time,measure,value\n2026-05-03,WREN,7:30,pH,7.1\n")
    exported = "day,minute,unit_id,measure,value\n2026-05-03,450,1,pH,7.1\n2026-05-03,,1,pH,7.1\n"
    taken = desk.take("readings", exported)
    assert (taken.booked, taken.already) == (1, 1)
