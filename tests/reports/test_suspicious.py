"""What a careful bookkeeper would look at again."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest

from farmops.farm.chores import settle
from farmops.farm.harvests import record_harvest
from farmops.model.chores import SettledAs, Settling
from farmops.model.errors import Unlikely
from farmops.model.harvests import NewHarvest, Use
from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.suspicious import Suspect, suspicious
from tests.farmhand import ADA, BOB, a_bed, a_crop, a_unit, area, mass, on, open_farm, pay, plant, stock, weigh
from tests.labels import common_practice

FIRST = on(5, 1)


def _chard(store: Store) -> Any:
    open_farm(store)
    return plant(store, a_bed(store, a_unit(store)), a_crop(store))


def _found(store: Store) -> list[tuple[Suspect, tuple[int, ...]]]:
    return [(one.suspect, one.ids) for one in suspicious(store)]


def _weeks(store: Store, source: Any, weights: list[str], **more: Any) -> list[int]:
    return [weigh(store, source, one, FIRST + timedelta(weeks=at), **more).id for at, one in enumerate(weights)]


def test_the_same_payment_twice(store: Store) -> None:
    open_farm(store)
    one = pay(store, "34.90", on(4, 17), "Sack of feed", payee="feed store")
    pay(store, "34.90", on(4, 18), "Sack of feed", payee="feed store", again=True)
    pay(store, "34.90", on(4, 17), "Sack of feed", payee="The mill")
    other = pay(store, "34.90", on(4, 17), "trout feed", payee="Feed Store", again=True)
    pay(store, "5", on(4, 17), "string")
    pay(store, "5", on(4, 17), "netting")
    assert _found(store) == [(Suspect.COST_TWICE, (one.id, other.id))]
    assert suspicious(store)[0].words == (
        "$34.90 from feed store on 2026-04-17 is booked for Sack of feed and for trout feed."
    )
    assert suspicious(store, first=on(4, 18)) == []


def test_the_same_bowl_by_two_people(store: Store) -> None:
    chard = _chard(store)
    mine = weigh(store, chard, "5 oz", on(8, 26))
    weigh(store, chard, "5 oz", on(8, 26))
    weigh(store, chard, "5.1 oz", on(8, 26), by=BOB)
    assert _found(store) == []
    theirs = weigh(store, chard, "5 oz", on(8, 26), by=BOB)
    assert (Suspect.WEIGHED_TWICE, (mine.id, theirs.id)) in _found(store)
    with pytest.raises(
        Unlikely, match=r"5 oz of CHARD from WREN-N is booked for 2026-08-26 by Ada already \(number 1\)"
    ):
        record_harvest(store, NewHarvest(on(8, 26), mass("5 oz"), chard.id), by="Cy")
    record_harvest(store, NewHarvest(on(8, 26), mass("5 oz"), chard.id, sure=True), by="Cy")


def test_kilograms_typed_as_pounds_are_asked_about_with_both_readings(store: Store) -> None:
    chard = _chard(store)
    _weeks(store, chard, ["6 lb", "5 lb 8 oz", "6 lb 6 oz", "5 lb 14 oz", "6 lb 2 oz"])
    slip = NewHarvest(on(6, 20), mass("6 kg"), chard.id)
    with pytest.raises(Unlikely) as asked:
        record_harvest(store, slip, by=ADA)
    assert str(asked.value) == (
        "Not booked yet: 13 lb 4 oz is far from the 6 lb usual of CHARD from WREN-N (5 weighings). "
        "Typed 6 kg; 6 lb would be usual."
    )
    booked = record_harvest(store, NewHarvest(on(6, 20), mass("6 kg"), chard.id, sure=True), by=ADA)
    assert _found(store) == [(Suspect.UNUSUAL, (booked.id,))]
    weigh(store, chard, "20 lb", on(6, 21), Use.WASTE)
    assert len(_found(store)) == 1


def test_a_first_weighing_beyond_what_the_bed_can_bear_is_asked_about(store: Store) -> None:
    chard = _chard(store)
    with pytest.raises(Unlikely) as asked:
        record_harvest(store, NewHarvest(FIRST, mass("500"), chard.id), by=ADA)
    assert str(asked.value) == (
        "Not booked yet: 500 lb of CHARD is more than 25.0 sq ft of WREN-N can bear at once; "
        "the best fields give 22 lb 15 oz of cabbage there. Typed 500; 500 g could be."
    )
    record_harvest(store, NewHarvest(FIRST, mass("500"), chard.id, sure=True), by=ADA)


@common_practice("a weighing beyond the heaviest cut of the best fields is asked about, less is not")
def test_what_the_bed_may_bear_is_not_asked_about(store: Store) -> None:
    chard = _chard(store)
    weigh(store, chard, "22 lb 15 oz", FIRST, tare=mass("1 lb"), sure=False)
    for beyond in ("23 lb", "80 lb"):
        with pytest.raises(Unlikely, match=r"can bear at once.*Was the bowl taken off\?"):
            record_harvest(store, NewHarvest(on(5, 3), mass(beyond), chard.id), by=ADA)


def test_a_bed_of_no_known_size_asks_nothing(store: Store) -> None:
    open_farm(store)
    chard = plant(store, a_bed(store, a_unit(store), size=None), a_crop(store))
    weigh(store, chard, "500 lb", FIRST, sure=False)


def test_a_part_of_a_bed_bears_its_part(store: Store) -> None:
    open_farm(store)
    chard = plant(store, a_bed(store, a_unit(store)), a_crop(store), area=area("2 sq ft"))
    with pytest.raises(Unlikely, match=r"2\.0 sq ft of WREN-N"):
        record_harvest(store, NewHarvest(FIRST, mass("6 lb"), chard.id), by=ADA)


def test_fish_are_told_by_the_weight_of_each(store: Store) -> None:
    open_farm(store)
    lot = stock(store, a_unit(store))
    for week, weight, number in ((0, "2 lb", 4), (1, "4 lb", 8), (2, "8 oz", 1)):
        weigh(store, lot, weight, FIRST + timedelta(weeks=week), number=number)
    weigh(store, lot, "6 lb", on(6, 1), number=12)
    weigh(store, lot, "9 lb", on(6, 2))
    assert _found(store) == []
    slip = weigh(store, lot, "3 lb", on(6, 3), number=14)
    assert _found(store) == [(Suspect.UNUSUAL, (slip.id,))]


def test_a_week_without_the_tare_that_was_usual(store: Store) -> None:
    chard = _chard(store)
    _weeks(store, chard, ["1 lb"] * 6, tare=mass("1 lb 2 oz"))
    run = [weigh(store, chard, "1 lb", day).id for day in (on(7, 1), on(7, 1), on(7, 4))]
    weigh(store, chard, "1 lb", on(7, 20), tare=mass("1 lb 2 oz"))
    assert _found(store) == [(Suspect.NO_TARE, tuple(run))]
    assert "WREN was weighed from 2026-07-01 to 2026-07-04 without a tare (3 weighings)" in suspicious(store)[0].words


def test_who_never_takes_a_tare_or_does_so_no_longer_is_left_alone(store: Store) -> None:
    chard = _chard(store)
    _weeks(store, chard, ["1 lb"] * 2)
    assert _found(store) == []
    for day in range(12):
        weigh(store, chard, "1 lb", on(7, 1) + timedelta(days=day), tare=mass("1 lb"))
    for day in range(12):
        weigh(store, chard, "1 lb", on(8, 1) + timedelta(days=day))
    assert _found(store) == []


def test_a_scale_that_was_found_off_puts_in_doubt_what_was_weighed_since_the_check_before(store: Store) -> None:
    open_farm(store)
    chard = plant(store, a_bed(store, a_unit(store, chores=True)), a_crop(store))
    check = next(one.id for one in lists.chores(store) if one.template_key == "scale-check")
    early, later = weigh(store, chard, "1 lb", on(6, 1)).id, weigh(store, chard, "1 lb", on(6, 20)).id
    for day, said in ((on(6, 10), "reads true"), (on(6, 30), "a 5 lb weight reads 3 % high")):
        settle(store, Settling(check, SettledAs.DONE, day, reason=said), by=ADA)
    last = weigh(store, chard, "1 lb", on(7, 2)).id
    found = suspicious(store)
    assert [(one.suspect, one.ids) for one in found] == [(Suspect.SCALE_OFF, (later,))]
    assert early != last
    assert "The scale was found 3 % high on 2026-06-30: 1 weighing since the check of 2026-06-10" in found[0].words
