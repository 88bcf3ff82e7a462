"""Fish fed with the chore: by the ration unless told otherwise, held down by all that it must not exceed."""

from __future__ import annotations

import math
from datetime import date, timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from farmops.facts.fish_events import feedings
from farmops.facts.rations import rations
from farmops.farm import fish_events
from farmops.farm.chores import change_chore, settle
from farmops.farm.supplies import add_supply, buy_supply
from farmops.model.beds import BedKind
from farmops.model.chores import Chore, ChoreChange, SettledAs, Settling
from farmops.model.costs import Category
from farmops.model.errors import Refused
from farmops.model.fish import Ate, FishLot
from farmops.model.fish_events import NewFeeding
from farmops.model.rations import Cap, Fed, LotRation
from farmops.model.readings import Measure
from farmops.model.supplies import NewSupply, NewSupplyLot
from farmops.model.units import Unit
from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.rations import ration_words, rations_on
from farmops.reports.round import round_of
from tests.farmhand import (
    ADA,
    TODAY,
    a_bed,
    a_unit,
    emptied,
    everything_stored,
    length,
    mass,
    on,
    open_farm,
    read,
    stock,
    take_back,
)
from tests.labels import common_practice, published
from tests.profiles import count

FAO = "Somerville et al. 2014, FAO Fish. Aquac. Tech. Paper 589, s.7.2 (to 2 % of weight a day), s.2.1.4 (to 80 g/m2)"


@pytest.fixture
def wren(farm_store: Store) -> Unit:
    return a_unit(farm_store, chores=True)


@pytest.fixture
def trout(farm_store: Store, wren: Unit) -> FishLot:
    """Twenty trout of 200 g: 80 g of feed a day in water that suits them."""
    return stock(farm_store, wren, "TROUT-1", on(9, 1), 20, species="rainbow trout", mean="200 g")


def ration(store: Store, day: date = TODAY) -> LotRation:
    with store.reading() as reader:
        (found,) = rations(reader, day)
    return found


def rations_told(store: Store) -> list[str]:
    """The rations of today in words, and why each feeding chore of the round is as it is."""
    found = rations_on(store, TODAY)
    words = [ration_words(one, found.farm.measures) for one in found.lots]
    fed_today = [line.why for line in round_of(store, TODAY).lines if line.chore.template_key == "feed"]
    assert fed_today == words
    return words


def feeding_chore(store: Store) -> Chore:
    return next(one for one in lists.chores(store) if one.template_key == "feed")


def fed(store: Store, lot: FishLot) -> list[tuple[float, Ate | None, bool]]:
    """What a lot was fed [g], how it ate, and whether it came out of a supply."""
    with store.reading() as reader:
        return [(one.mass_mg / 1000, one.ate, one.supply_use_id is not None) for one in feedings(reader, lot.id)]


@published(FAO)
def test_in_water_that_suits_them_the_table_decides(farm_store: Store, wren: Unit, trout: FishLot) -> None:
    read(farm_store, wren, TODAY, temperature="15 C")
    found = ration(farm_store)
    assert (found.grams, found.cap, found.temperature_c) == (80, Cap.TABLE, 15.0)


@common_practice("the ration falls evenly from the best temperature to half way to where they die")
def test_cold_water_cuts_it_and_stops_it(farm_store: Store, wren: Unit, trout: FishLot) -> None:
    for day, typed, grams in ((10, "13 C", 40), (11, "12 C", 0), (12, "17 C", 0)):
        read(farm_store, wren, on(10, day), temperature=typed)
        found = ration(farm_store, on(10, day))
        assert (found.grams, found.cap) == (grams, Cap.TEMPERATURE)


@published(FAO)
def test_small_beds_take_less_than_the_fish_would_eat(farm_store: Store, wren: Unit, trout: FishLot) -> None:
    a_bed(farm_store, wren, "N", "0.5 m2", depth=length("30 cm"))
    read(farm_store, wren, TODAY, temperature="15 C")
    found = ration(farm_store)
    assert (found.grams, found.cap) == (40, Cap.BEDS)
    assert dict(found.caps)[Cap.FILTER] > 40


def test_two_lots_of_a_unit_share_what_the_beds_take(farm_store: Store, wren: Unit, trout: FishLot) -> None:
    stock(farm_store, wren, "TROUT-2", on(9, 1), 60, species="rainbow trout", mean="200 g")
    a_bed(farm_store, wren, "N", "2 m2", kind=BedKind.RAFT)
    read(farm_store, wren, TODAY, temperature="15 C")
    with farm_store.reading() as reader:
        found = rations(reader, TODAY)
    assert [(one.grams, one.cap) for one in found] == [(50, Cap.BEDS), (150, Cap.BEDS)]


def test_a_reading_out_of_its_limits_stops_the_feed(farm_store: Store, wren: Unit, trout: FishLot) -> None:
    read(farm_store, wren, TODAY, temperature="15 C", oxygen="2")
    found = ration(farm_store)
    assert (found.grams, found.cap, found.out) == (0, Cap.READING, Measure.OXYGEN)
    read(farm_store, wren, TODAY, oxygen="8", minute=1200)
    assert ration(farm_store).grams == 80


@pytest.mark.parametrize(("measure", "typed"), [("nitrite", "1 ion"), ("ammonia", "0.7 N"), ("oxygen", "4.5")])
def test_where_the_first_step_is_not_to_feed_there_is_no_ration(
    farm_store: Store, wren: Unit, trout: FishLot, measure: str, typed: str
) -> None:
    read(farm_store, wren, TODAY, temperature="15 C")
    read(farm_store, wren, TODAY - timedelta(days=30), **{measure: typed})
    found = ration(farm_store)
    assert (found.grams, found.cap, found.out) == (0, Cap.READING, Measure(measure))
    assert f"TROUT-1: no feed, {measure} is out of its limits; see water" in rations_told(farm_store)
    settle(farm_store, Settling(feeding_chore(farm_store).id, SettledAs.DONE, TODAY), by=ADA)
    assert fed(farm_store, trout) == []


def test_water_that_stops_the_feed_does_so_without_a_temperature(farm_store: Store, wren: Unit, trout: FishLot) -> None:
    read(farm_store, wren, TODAY, nitrite="1 ion")
    assert ration(farm_store).grams == 0
    assert rations_told(farm_store) == ["TROUT-1: no feed, nitrite is out of its limits; see water"]


def test_the_day_before_they_are_weighed_they_get_nothing(farm_store: Store, wren: Unit, trout: FishLot) -> None:
    read(farm_store, wren, TODAY, temperature="15 C")
    sample = next(one for one in lists.chores(farm_store) if one.template_key == "fish-sample")
    change_chore(farm_store, ChoreChange(sample.id, rule="once", start_day=on(10, 15)), by=ADA)
    found = ration(farm_store)
    assert (found.grams, found.cap) == (0, Cap.HANDLING)


def test_without_a_temperature_of_late_there_is_no_ration(farm_store: Store, wren: Unit, trout: FishLot) -> None:
    read(farm_store, wren, TODAY - timedelta(days=15), temperature="15 C")
    found = ration(farm_store)
    assert (found.grams, found.missing) == (None, "no water temperature was read in 14 days")


def test_done_books_the_ration_and_draws_it_from_the_feed(farm_store: Store, wren: Unit, trout: FishLot) -> None:
    pellets = add_supply(farm_store, NewSupply("Pellets", category=Category.FEED), by=ADA)
    buy_supply(farm_store, NewSupplyLot(pellets.id, on(9, 1), mass("10 kg")), by=ADA)
    read(farm_store, wren, TODAY, temperature="15 C")
    before = everything_stored(farm_store)
    settle(farm_store, Settling(feeding_chore(farm_store).id, SettledAs.DONE, TODAY), by=ADA)
    assert fed(farm_store, trout) == [(80.0, None, True)]
    assert [row["amount"] for row in everything_stored(farm_store)["supply_use"]] == [80_000]
    take_back(farm_store)
    after = everything_stored(farm_store)
    assert (after["feeding"], after["supply_use"]) == (before["feeding"], before["supply_use"])


def test_what_was_fed_already_is_left_out(farm_store: Store, wren: Unit, trout: FishLot) -> None:
    read(farm_store, wren, TODAY, temperature="15 C")
    fish_events.record_feeding(farm_store, NewFeeding(trout.id, TODAY, mass("30 g"), Ate.ALL), by=ADA)
    assert ration(farm_store).left_g == 50
    settle(farm_store, Settling(feeding_chore(farm_store).id, SettledAs.DONE, TODAY), by=ADA)
    assert fed(farm_store, trout) == [(30.0, Ate.ALL, False), (50.0, None, False)]


def test_what_they_got_can_be_told(farm_store: Store, wren: Unit, trout: FishLot) -> None:
    told = (Fed(trout.id, mass("25 g"), Ate.SOME),)
    chore = feeding_chore(farm_store)
    settle(farm_store, Settling(chore.id, SettledAs.DONE, TODAY, fed=told), by=ADA)
    assert fed(farm_store, trout) == [(25.0, Ate.SOME, False)]
    sample = next(one for one in lists.chores(farm_store) if one.template_key == "fish-sample")
    with pytest.raises(Refused, match="feeds no fish"):
        settle(farm_store, Settling(sample.id, SettledAs.DONE, TODAY, fed=told), by=ADA)
    far = stock(farm_store, a_unit(farm_store, "ROOK"), "P9")
    with pytest.raises(Refused, match="P9 does not live in WREN"):
        settle(
            farm_store, Settling(chore.id, SettledAs.DONE, TODAY, fed=(Fed(far.id, mass("1 g")),), sure=True), by=ADA
        )


WATERS = st.fixed_dictionaries(
    {"temperature": st.integers(0, 30)},
    optional={
        "oxygen": st.integers(2, 12),
        "nitrite": st.sampled_from((0, 1, 5)),
        "ph": st.sampled_from((6.0, 7.0, 9)),
    },
)


LOTS = st.tuples(st.sampled_from(("rainbow trout", "nile tilapia", "goldfish")), st.integers(1, 900))
GROWN_IN = st.tuples(st.sampled_from(list(BedKind)), st.floats(0.1, 3))


@given(lots=st.lists(LOTS, max_size=3), beds=st.lists(GROWN_IN, max_size=2), water=WATERS)
@settings(max_examples=count(ci=12, full=400), suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_a_ration_never_exceeds_any_of_its_caps(
    sqlite_store: Store, lots: list[tuple[str, int]], beds: list[tuple[BedKind, float]], water: dict[str, float]
) -> None:
    found = _rations_of(emptied(sqlite_store), lots, beds, water)
    known = [one for one in found if one.grams is not None]
    assert len(found) == len(lots)
    for one in known:
        assert (one.grams or 0) <= min(grams for _, grams in one.caps)
        assert one.grams == math.floor(dict(one.caps)[one.cap or Cap.TABLE])
        assert one.out is None or one.grams == 0
    if beds and known:
        most = sum(area * (100 if kind is BedKind.RAFT else 80) for kind, area in beds)
        assert sum(one.grams or 0 for one in known) <= most * 1.1 + 1


def _rations_of(
    store: Store, lots: list[tuple[str, int]], beds: list[tuple[BedKind, float]], water: dict[str, float]
) -> list[LotRation]:
    open_farm(store)
    unit = a_unit(store)
    for at, (species, grams) in enumerate(lots):
        stock(store, unit, f"L{at}", on(9, 1), 10 + at, species=species, mean=f"{grams} g")
    for at, (kind, area) in enumerate(beds):
        a_bed(store, unit, f"B{at}", f"{area:.2f} m2", kind=kind, depth=length("30 cm"))
    typed = {name: f"{value} C" if name == "temperature" else str(value) for name, value in water.items()}
    read(store, unit, TODAY, **typed)
    with store.reading() as reader:
        return rations(reader, TODAY)
