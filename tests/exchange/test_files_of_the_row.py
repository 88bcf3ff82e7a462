"""Files of units and beds: new ones, states and sizes of those that are there, and what is refused."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from farmops.exchange.file_imports import Said
from farmops.model.units import UnitKind, UnitState
from farmops.quantities import AREA, US, VOLUME
from farmops.reports import lists
from tests.exchange.file_desk import Desk
from tests.farmhand import counted, everything_stored, on, take_back

pytestmark = pytest.mark.usefixtures("stands_still")
UNITS = "unit,from,state,kind,position,tank (gal),breaker,note\n"
BEDS = "unit,bed,from,area,kind,depth\n"


def _states(desk: Desk, code: str) -> list[tuple[date, UnitState]]:
    (one,) = [one for one in lists.units(desk.store) if one.unit.code == code]
    return [(state.from_day, state.state) for state in one.states]


def test_units_join_the_row_and_pass_through_states_in_one_file(desk: Desk) -> None:
    text = UNITS + (
        "swift,2026-04-01,building,hydroponic,1,250,box 3,by the gate\n"
        "SWIFT,2026-05-02,cycling,,,,,\n"
        "WREN,2026-09-30,wintering,,,,,\n"
    )
    assert desk.take("units", text).booked == 3
    (swift,) = [one.unit for one in lists.units(desk.store) if one.unit.code == "SWIFT"]
    assert (swift.kind, swift.position, swift.tank_ml) == (UnitKind.HYDROPONIC, 1, VOLUME.parse("250 gal", US))
    assert (swift.breaker, swift.note) == ("box 3", "by the gate")
    assert _states(desk, "SWIFT") == [(on(4, 1), UnitState.BUILDING), (on(5, 2), UnitState.CYCLING)]
    assert _states(desk, "WREN")[-1] == (on(9, 30), UnitState.WINTERING)
    assert any(one.unit == "SWIFT" for one in lists.chores(desk.store))
    again = desk.take("units", text)
    assert (again.booked, again.already, again.refused) == (0, 3, ())


def test_a_new_unit_gets_no_chores_where_the_row_says_so(desk: Desk) -> None:
    desk.take("units", "unit,from,state,chores\nSWIFT,2026-04-01,running,no\n")
    assert not any(one.unit == "SWIFT" for one in lists.chores(desk.store))


def test_one_undo_takes_a_file_of_units_back_with_their_chores(desk: Desk) -> None:
    before = everything_stored(desk.store)
    desk.take("units", UNITS + "SWIFT,2026-04-01,running,,,250,,\nFINCH,2026-04-01,running,,,,,\n")
    take_back(desk.store)
    assert everything_stored(desk.store) == before


def test_units_that_are_refused(desk: Desk) -> None:
    desk.refuses(
        "units",
        UNITS,
        (",2026-04-01,running,,,,,", "unit: The unit is empty."),
        ("SWIFT,2026-13-01,running,,,,,", "from: 2026-13-01 is no day"),
        ("SWIFT,2026-04-01,asleep,,,,,", "state: asleep is no state; understood: planned, building,"),
        ("SWIFT,2026-04-01,running,pond,,,,", "kind: pond is no kind; understood: coupled,"),
        ("SWIFT,2026-04-01,running,,first,,,", "position: first is no count"),
        ("SWIFT,2026-04-01,running,,,much,,", "tank: "),
        (f"SWIFT,2026-04-01,running,,,,,{'x' * 1001}", "note: "),
        ("SWIFT,,running,,,,,", "no from"),
        ("SW-IFT,2026-04-01,running,,,,,", "SW-IFT holds a dash"),
        ("WREN,2026-05-01,running,,,,,", "Not changed: WREN has been running since 2026-03-01"),
        ("WREN,2026-05-01,resting,,,300,,", "WREN is there with another tank; correct it by hand"),
        ("WREN,2026-05-01,resting,fish only,9,,box 1,", "WREN is there with another kind and another position"),
    )


@pytest.mark.parametrize("row", ["SWIFT,2026-04-01,running,perhaps,", "SWIFT,2026-04-01,building,,soon"])
def test_chores_and_the_time_to_cure_are_read_with_care(desk: Desk, row: str) -> None:
    (said,) = desk.reasons("units", f"unit,from,state,chores,cure (h)\n{row}\n")
    assert said.startswith(("line 2, chores: perhaps is neither yes nor no", "line 2, cure: "))


def test_the_rules_of_a_unit_that_is_built_hold_for_a_row_too(desk: Desk) -> None:
    rows = "SWIFT,2026-04-01,building,3\nFINCH,2026-04-01,running,3\nLARK,2026-04-01,building,90\n"
    text = f"unit,from,state,cure (days)\n{rows}"
    assert [one.line for one in desk.take("units", text).refused] == [3, 4]


def test_beds_and_their_sizes_from_a_day_on(desk: Desk) -> None:
    text = BEDS + (
        "WREN,S,2026-04-01,13 sq ft,raft,12 in\n,WREN-S,2026-06-01,20 sq ft,,\nwren,wren-n,2026-07-01,4 x 6 ft,,\n"
    )
    assert desk.take("beds", text).booked == 3
    sizes = {one.bed.code: [(size.from_day, size.area_mm2) for size in one.sizes] for one in lists.beds(desk.store)}
    assert sizes == {
        "WREN-N": [(on(3, 1), AREA.parse("25 sq ft", US)), (on(7, 1), AREA.parse("24 sq ft", US))],
        "WREN-S": [(on(4, 1), AREA.parse("13 sq ft", US)), (on(6, 1), AREA.parse("20 sq ft", US))],
    }
    again = desk.take("beds", text)
    assert (again.booked, again.already, again.refused) == (0, 3, ())
    take_back(desk.store)
    assert [one.bed.code for one in lists.beds(desk.store)] == ["WREN-N"]


def test_beds_that_are_refused(desk: Desk) -> None:
    desk.refuses(
        "beds",
        BEDS,
        ("SWIFT,N,2026-04-01,13 sq ft,,", "unit: there is no unit SWIFT"),
        (",,2026-04-01,13 sq ft,,", "bed: The bed is empty."),
        (",S,2026-04-01,13 sq ft,,", "unit: no unit"),
        ("WREN,S,someday,13 sq ft,,", "from: someday is no day"),
        ("WREN,S,2026-04-01,13 lb,,", "area: "),
        ("WREN,S,2026-04-01,13 sq ft,gravel,", "kind: gravel is no kind; understood: media, raft, film, soil"),
        ("WREN,S,2026-04-01,13 sq ft,,deep", "depth: "),
        ("WREN,S,,13 sq ft,,", "no from"),
        ("WREN,N,2026-04-01,13 sq ft,soil,", "WREN-N is there with another kind"),
    )


def test_a_metric_sheet_with_semicolons_and_decimal_commas(desk: Desk) -> None:
    text = "bed;from;area (m2);depth (cm)\nWREN-S;13.4.2026;1,25;30\n"
    assert desk.take("beds", text).booked == 1
    (bed,) = [one for one in lists.beds(desk.store) if one.bed.name == "S"]
    assert (bed.sizes[0].from_day, bed.sizes[0].area_mm2, bed.bed.depth_um) == (on(4, 13), 1_250_000, 300_000)


def test_heads_are_what_the_grower_says(desk: Desk) -> None:
    text = "box,built,litres,unit\nSWIFT,2026-04-01,950,plywood\n"
    read = desk.read("units", text, Said({"box": "unit", "built": "from", "litres": "tank (L)"}))
    assert read.ignored == ("unit",)
    taken = desk.take("units", text, Said({"box": "unit", "built": "from", "litres": "tank (L)"}))
    assert taken.booked == 1
    assert [(one.unit.code, one.unit.tank_ml) for one in lists.units(desk.store)][-1] == ("SWIFT", 950_000)


def test_all_or_nothing_keeps_out_the_rows_that_could_be_booked(desk: Desk) -> None:
    text = UNITS + "SWIFT,2026-04-01,running,,,,,\nSWIFT,2026-05-01,asleep,,,,,\n"
    before = everything_stored(desk.store)
    whole = desk.take("units", text, Said(whole=True))
    assert (whole.booked, [one.line for one in whole.refused], whole.exit_code) == (0, [3], 1)
    assert everything_stored(desk.store) == before
    assert desk.take("units", text).exit_code == 4


def test_an_apostrophe_that_keeps_a_cell_from_being_a_formula_is_no_part_of_it(desk: Desk) -> None:
    desk.take("units", "unit,from,note,valve\nSWIFT,2026-04-01,'=sum(A1),'tis red\nFINCH,2026-04-01,''-,\n")
    found = {one.unit.code: (one.unit.note, one.unit.valve) for one in lists.units(desk.store)}
    assert found["SWIFT"] == ("=sum(A1)", "'tis red")
    assert found["FINCH"] == ("'-", None)


ROW = st.tuples(
    st.sampled_from(["WREN", "SWIFT", "FINCH"]),
    st.dates(date(2026, 1, 1), date(2026, 9, 1)),
    st.sampled_from(list(UnitState)),
    st.sampled_from(["", "250", "300"]),
)


@settings(max_examples=8, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(rows=st.lists(ROW, min_size=1, max_size=5))
def test_the_same_file_twice_adds_nothing_and_undo_restores(desk: Desk, rows: list[tuple[str, date, str, str]]) -> None:
    text = "unit,from,state,tank (gal),chores\n" + "".join(f"{','.join(map(str, row))},no\n" for row in rows)
    before = everything_stored(desk.store)
    first = desk.take("units", text)
    counts = counted(desk.store)
    again = desk.take("units", text)
    assert again.booked == 0, text
    assert counted(desk.store) == counts
    if first.booked:
        take_back(desk.store)
    assert everything_stored(desk.store) == before


@pytest.mark.parametrize(
    ("kind", "text", "words"),
    [
        ("units", UNITS + "BIG,2026-04-01,planned,,,175000,,\n", "a tank of 175000 gal, is that right?"),
        ("beds", BEDS + "WREN,E,2026-04-01,18,media,12\n", "a bed 12 ft deep, is that right?"),
        ("plantings", "bed,crop,started,area\nWREN-N,CHARD,2026-04-01,900\n", "The whole bed WREN-N has"),
    ],
)
def test_what_hardly_can_be_is_asked_about_and_booked_when_it_is_sure(
    desk: Desk, kind: str, text: str, words: str
) -> None:
    found = desk.take(kind, text)
    assert (found.booked, len(found.asked)) == (0, 1)
    assert words in found.asked[0].question
    assert desk.take(kind, text, Said(sure=True)).booked == 1
