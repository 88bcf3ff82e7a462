"""Two compared by their weeks: like crops against like, the same weeks where there are enough, else each its own."""

from __future__ import annotations

from datetime import timedelta

import pytest

from farmops.economics.comparison import Verdict
from farmops.model.beds import Bed
from farmops.model.plantings import Planting
from farmops.records.store import Store
from farmops.reports.comparing import VALUE_PER_AREA, Compared, Comparisons, compare_two
from farmops.reports.returns import Asked
from farmops.reports.spans import Span
from farmops.reports.spread import sure_of_names, sure_of_units
from farmops.reports.worth import no_price
from farmops.reports.yields import By, yields
from tests.farmhand import TODAY, a_bed, a_crop, a_unit, area, clear, on, plant, price, weigh

MONDAY = on(6, 1)
POUND_PER_SQ_FT = 453_592 / 2_322_576


def weekly(store: Store, source: Planting, pounds: list[int], since=MONDAY) -> None:
    for week, weight in enumerate(pounds):
        if weight:
            weigh(store, source, f"{weight} lb", since + timedelta(weeks=week))


def beds(store: Store) -> tuple[Bed, Bed]:
    return a_bed(store, a_unit(store, "WREN")), a_bed(store, a_unit(store, "FINCH"))


def asked(weeks: int = 12) -> Asked:
    return Asked(TODAY, MONDAY, MONDAY + timedelta(days=7 * weeks - 1))


def line(found: Comparisons, what: str) -> Compared:
    return next(one for one in found.lines if one.what == what)


@pytest.fixture
def grown(farm_store: Store) -> Store:
    """Twelve weeks of chard in WREN and FINCH, and kale in WREN only."""
    north, other = beds(farm_store)
    chard, kale = a_crop(farm_store), a_crop(farm_store, "KALE")
    weekly(farm_store, plant(farm_store, north, chard), [3, 4] * 6)
    weekly(farm_store, plant(farm_store, other, chard), [1, 1, 2] * 4)
    weekly(farm_store, plant(farm_store, north, kale, area=area("5 sq ft")), [1] * 12)
    price(farm_store, chard, "3/lb")
    price(farm_store, kale, "2/lb")
    return farm_store


def test_like_is_compared_with_like_and_all_by_its_value(grown: Store):
    found = compare_two(grown, asked(), "wren", "finch")
    assert [one.what for one in found.lines] == ["CHARD", VALUE_PER_AREA]
    chard, value = found.lines
    assert (chard.better, chard.weeks, chard.paired) == ("WREN", 12, True)
    assert chard.first_a_week == pytest.approx(3.5 * POUND_PER_SQ_FT, rel=1e-5)
    assert chard.second_a_week == pytest.approx(16 / 12 * POUND_PER_SQ_FT, rel=1e-5)
    assert value.first_a_week == pytest.approx((3.5 * 300 + 200) / 2_322_576, rel=1e-5)
    assert value.better == "WREN"


def test_how_much_more_is_told_of_the_better_one_in_either_order(grown: Store):
    here, there = (
        compare_two(grown, asked(), *pair, "CHARD").lines[0] for pair in (("WREN", "FINCH"), ("FINCH", "WREN"))
    )
    assert here.better == there.better == "WREN"
    assert here.more == pytest.approx(there.more, rel=0.1)
    assert 0 < here.more[0] < (3.5 - 16 / 12) * 12 * POUND_PER_SQ_FT < here.more[1]


def test_weeks_outside_the_plantings_do_not_count(grown: Store):
    assert compare_two(grown, Asked(TODAY, on(3, 2), TODAY), "WREN", "FINCH", "CHARD").lines[0].weeks == 28


def test_a_crop_is_compared_per_area_planted_with_it(grown: Store):
    (found,) = compare_two(grown, asked(), "CHARD", "KALE").lines
    assert found.what == VALUE_PER_AREA
    assert found.second_a_week == pytest.approx(200 / area("5 sq ft").exact, rel=1e-5)
    assert found.first_a_week == pytest.approx((3.5 + 16 / 12) * 300 / (2 * 2_322_576), rel=1e-5)


def test_without_weeks_in_common_each_stands_by_its_own(farm_store: Store):
    north, other = beds(farm_store)
    chard = a_crop(farm_store)
    cleared = clear(farm_store, plant(farm_store, north, chard, on(6, 1)), on(7, 26))
    weekly(farm_store, cleared, [3, 4] * 4)
    weekly(farm_store, plant(farm_store, other, chard, on(7, 27)), [1, 2] * 4, on(7, 27))
    found = compare_two(farm_store, Asked(TODAY, MONDAY, on(9, 20)), "WREN", "FINCH", "CHARD").lines[0]
    assert (found.paired, found.weeks, found.better) == (False, 8, "WREN")


@pytest.mark.parametrize(("weeks", "more"), [(3, 5), (7, 1)])
def test_few_weeks_are_too_little(grown: Store, weeks: int, more: int):
    found = line(compare_two(grown, asked(weeks), "WREN", "FINCH"), "CHARD")
    assert (found.verdict, found.weeks, found.result.more_weeks) == (Verdict.TOO_LITTLE, weeks, more)
    assert found.more is None


def test_what_is_missing_is_named(farm_store: Store):
    north, other = beds(farm_store)
    chard = a_crop(farm_store)
    weekly(farm_store, plant(farm_store, north, chard), [3] * 12)
    plant(farm_store, other, chard)
    a_unit(farm_store, "TERN")
    found = compare_two(farm_store, asked(), "WREN", "FINCH")
    assert line(found, "CHARD").reason == "FINCH: nothing that counts was weighed of CHARD"
    assert line(found, VALUE_PER_AREA).reason == f"WREN: {no_price('CHARD')}"
    assert compare_two(farm_store, asked(), "TERN", "FINCH").lines[0].reason == (
        "TERN: no bed area was there in any whole week"
    )
    assert all(one.verdict is Verdict.TOO_LITTLE for one in found.lines)


def test_the_interval_of_a_yield_holds_it_and_neighbours_are_compared_by_what_they_share(grown: Store):
    span = Span(asked().first, asked().last)
    sure = sure_of_units(grown, span)
    held = sure.spreads["WREN"]
    assert held.low < 12 * 4.5 * POUND_PER_SQ_FT < held.high
    assert [(one.what, one.better) for one in sure.neighbours] == [("CHARD", "WREN")]
    by_bed = sure_of_names(grown, span, ["WREN-N", "CHARD"]).spreads
    assert by_bed["WREN-N"].low == held.low
    assert set(by_bed) == {"WREN-N", "CHARD"}
    assert sure_of_units(grown, Span(MONDAY, MONDAY + timedelta(days=48))).spreads == {}


def test_only_the_best_units_are_each_held_against_the_next(grown: Store, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr("farmops.reports.spread.MOST_COMPARED", 1)
    sure = sure_of_units(grown, Span(asked().first, asked().last))
    assert (set(sure.spreads), sure.neighbours) == ({"WREN", "FINCH"}, ())


def test_the_interval_of_a_crop_holds_its_yield_however_often_it_was_sown(farm_store: Store):
    north, chard = beds(farm_store)[0], a_crop(farm_store)
    first = clear(farm_store, plant(farm_store, north, chard, on(6, 1)), on(7, 26))
    weekly(farm_store, first, [3, 4] * 4)
    weekly(farm_store, plant(farm_store, north, chard, on(7, 27)), [3, 4] * 4, on(7, 27))
    found = yields(farm_store, Asked(TODAY, MONDAY, on(9, 20)), By.CROP)
    held = sure_of_names(farm_store, found.span, ["CHARD"]).spreads["CHARD"]
    assert held.low < found.lines[0].yield_per_area.value < held.high
