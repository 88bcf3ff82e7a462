"""Files of weighings taken in: every row booked, already there or refused, and all of it one operation."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest

from farmops.exchange.imports import Outcome, Plan, carry_out, foresee, plan, read_rows
from farmops.farm.removal import remove_record
from farmops.model.errors import NotFound, NotUnderstood, Refused
from farmops.model.harvests import Harvest, Use
from farmops.model.ids import new_id
from farmops.model.journal import Removal, Through
from farmops.model.units import UnitKind, UnitState
from farmops.records.store import Store
from farmops.reports import lists
from tests.farmhand import (
    ADA,
    BOB,
    TODAY,
    a_bed,
    a_crop,
    a_unit,
    clear,
    counted,
    do_again,
    everything_stored,
    on,
    plant,
    stock,
    take_back,
)
from tests.frozen import frozen

HEAD = "date,unit,bed,crop,weight,count,use,note\n"
GOOD = "2026-05-03,WREN,N,CHARD,1 lb 6 oz,,sold,\n"
BAD = "2026-05-03,WREN,N,CHARD,,,,\n"


@pytest.fixture(scope="module", autouse=True)
def _stands_still() -> Iterator[None]:
    with frozen(TODAY):
        yield


class Desk:
    """Takes files into one farm."""

    def __init__(self, store: Store, folder: Path) -> None:
        self.store = store
        self.folder = folder

    def plan(self, rows: str, *, create_missing: bool = False, head: str = HEAD, weights_in: str | None = None) -> Plan:
        """What the rows below the usual head would bring."""
        path = self.folder / "july.csv"
        path.write_text(head + rows, encoding="utf-8")
        return plan(self.store, read_rows(path), create_missing=create_missing, today=TODAY, weights_in=weights_in)

    def take(self, rows: str, *, create_missing: bool = False, all_or_nothing: bool = False) -> Outcome:
        """The rows taken in by Ada, as was foreseen."""
        planned = self.plan(rows, create_missing=create_missing)
        expected = foresee(planned, all_or_nothing=all_or_nothing)
        outcome = carry_out(self.store, planned, by=ADA, all_or_nothing=all_or_nothing)
        assert outcome == expected
        return outcome

    def reasons(self, rows: str, *, create_missing: bool = False) -> list[str]:
        """The refusals, as they are shown."""
        return [str(one) for one in self.plan(rows, create_missing=create_missing).refused]

    @property
    def harvests(self) -> list[Harvest]:
        """All weighings."""
        return lists.harvests(self.store, date.min, date.max)


@pytest.fixture
def empty(farm_store: Store, tmp_path: Path) -> Desk:
    """A farm that was just opened."""
    return Desk(farm_store, tmp_path)


@pytest.fixture
def desk(empty: Desk) -> Desk:
    """A farm with chard in WREN-N since April, a bed WREN-S, and perch."""
    unit = a_unit(empty.store)
    plant(empty.store, a_bed(empty.store, unit), a_crop(empty.store))
    a_bed(empty.store, unit, "S")
    stock(empty.store, unit, number=10)
    return empty


def test_a_row_is_booked_as_it_stands(desk: Desk) -> None:
    desk.take("3 may 2026,wren,WREN-N,chard,1 lb 6 oz,12,sold,after rain\n")
    (found,) = desk.harvests
    assert (found.day, found.bed, found.what) == (on(5, 3), "WREN-N", "CHARD")
    assert (found.mass_mg, found.mass_typed) == (623_690, "1 lb 6 oz")
    assert (found.number, found.use, found.note) == (12, Use.SOLD, "after rain")


def test_the_unit_of_weights_comes_from_the_command_then_from_the_head(desk: Desk) -> None:
    head = HEAD.replace("weight", "weight (kg)")
    row = "2026-05-03,WREN,N,CHARD,1,,,\n"
    masses = [
        desk.plan(row, head=head, weights_in="g").to_book[0].row.mass.exact,
        desk.plan(row, head=head).to_book[0].row.mass.exact,
        desk.plan(row).to_book[0].row.mass.exact,
    ]
    assert masses == [1_000, 1_000_000, 453_592]


def test_a_unit_of_weight_that_is_none_is_refused(desk: Desk) -> None:
    with pytest.raises(NotUnderstood, match="no unit of weight"):
        desk.plan(GOOD, weights_in="ft")


def test_the_same_file_twice_adds_nothing(desk: Desk) -> None:
    assert desk.take(GOOD).booked == 1
    before = everything_stored(desk.store), counted(desk.store)
    again = desk.take(GOOD)
    assert (again.booked, again.already, again.exit_code) == (0, 1, 0)
    assert (everything_stored(desk.store), counted(desk.store)) == before


def test_the_same_words_twice_are_two_weighings_and_a_third_time_adds_one(desk: Desk) -> None:
    assert desk.take(GOOD * 2).booked == 2
    grown = desk.take(GOOD * 3)
    assert (grown.booked, grown.already) == (1, 2)


def test_a_row_already_there_is_known_though_its_planting_was_cleared_since(desk: Desk) -> None:
    desk.take(GOOD)
    clear(desk.store, lists.plantings(desk.store)[0], on(6, 1))
    outcome = desk.take(GOOD + GOOD.replace("05-03", "06-02"))
    assert (outcome.already, [one.line for one in outcome.refused]) == (1, [3])


def test_a_weighing_that_was_removed_is_booked_anew(desk: Desk) -> None:
    desk.take(GOOD)
    remove_record(desk.store, Removal("harvests", desk.harvests[0].id), by=ADA)
    assert desk.take(GOOD).booked == 1


def test_good_rows_are_booked_beside_refused_ones(desk: Desk) -> None:
    outcome = desk.take(GOOD + BAD + GOOD)
    assert (outcome.booked, [str(one) for one in outcome.refused]) == (2, ["line 3, weight: no weight"])
    assert outcome.exit_code == 4


def test_all_or_nothing_books_nothing_beside_a_refused_row(desk: Desk) -> None:
    before = counted(desk.store)
    outcome = desk.take(GOOD + BAD, all_or_nothing=True)
    assert (outcome.booked, len(outcome.refused), outcome.exit_code) == (0, 1, 1)
    assert counted(desk.store) == before
    assert desk.take(GOOD, all_or_nothing=True).booked == 1


@pytest.mark.parametrize(
    ("booked", "already", "refused", "all_or_nothing", "code"),
    [
        (0, 0, 0, False, 0),
        (2, 1, 0, True, 0),
        (0, 0, 1, False, 1),
        (1, 0, 1, False, 4),
        (0, 1, 1, False, 4),
        (0, 1, 1, True, 1),
    ],
)
def test_how_a_command_ends(
    desk: Desk, booked: int, already: int, refused: int, all_or_nothing: bool, code: int
) -> None:
    rows = desk.plan(BAD * refused).refused
    assert Outcome(booked, already, rows, all_or_nothing=all_or_nothing).exit_code == code


@pytest.mark.parametrize(
    ("row", "reason"),
    [
        ("2026-05-03,WRAN,N,CHARD,1 lb", "unit: there is no unit WRAN (did you mean WREN?); --create-missing makes it"),
        ("2026-05-03,ZZ9,N,CHARD,1 lb", "unit: there is no unit ZZ9; --create-missing makes it"),
        ("2026-05-03,WREN,M,CHARD,1 lb", "bed: there is no bed WREN-M (did you mean WREN-N or WREN-S?)"),
        ("2026-05-03,WREN,,CHARD,1 lb", "bed: no bed; WREN has WREN-N, WREN-S"),
        ("2026-05-03,WREN,N,CHART,1 lb", "crop: there is no crop CHART (did you mean CHARD?)"),
        ("2026-05-03,WREN,S,CHARD,1 lb", "crop: no CHARD was planted in WREN-S"),
        ("2026-03-31,WREN,N,CHARD,1 lb", "date: CHARD in WREN-N started on 2026-04-01"),
        ("2026-05-03,WREN,N,PERCH-24,1 lb", "bed: PERCH-24 is fish of WREN, not a crop of a bed"),
        ("2026-05-03,WREN,N,yellow perch,1 lb", "bed: YELLOW PERCH is fish of WREN"),
        (
            "2026-04-14,WREN,,PERCH-24,1 lb",
            "date: WREN held no PERCH-24 on 2026-04-14: PERCH-24 from 2026-04-15 to now",
        ),
        ("2026-05-03,WREN,,PERCH-24,1 lb,11", "count: 11 fish would be taken from PERCH-24, which holds 10"),
    ],
)
def test_what_the_farm_does_not_know_is_refused_with_what_is_near(desk: Desk, row: str, reason: str) -> None:
    (said,) = desk.reasons(f"{row}\n")
    assert said.startswith(f"line 2, {reason}")


def test_a_bed_of_another_unit_is_refused_even_when_what_is_missing_is_made(desk: Desk) -> None:
    a_bed(desk.store, a_unit(desk.store, "HERON"), "N")
    (said,) = desk.reasons("2026-05-03,WREN,HERON-N,CHARD,1 lb,,,\n", create_missing=True)
    assert said == "line 2, bed: HERON-N is no bed of WREN"


def test_after_clearing_a_row_is_refused(desk: Desk) -> None:
    clear(desk.store, lists.plantings(desk.store)[0], on(5, 2))
    (said,) = desk.reasons(GOOD)
    assert said == "line 2, date: CHARD in WREN-N was cleared on 2026-05-02; --create-missing starts it anew"


def test_the_only_bed_of_a_unit_need_not_be_named(empty: Desk) -> None:
    plant(empty.store, a_bed(empty.store, a_unit(empty.store)), a_crop(empty.store))
    empty.take("2026-05-03,WREN,,CHARD,1 lb,,,\n")
    assert empty.harvests[0].bed == "WREN-N"


def test_fish_are_weighed_from_their_lot_by_its_code_or_species_without_a_bed(desk: Desk) -> None:
    desk.take("2026-05-03,WREN,,perch-24,2 lb,4,,\n2026-05-04,WREN,,Yellow Perch,1 lb,,,\n")
    assert [(one.what, one.bed, one.number) for one in desk.harvests] == [
        ("PERCH-24", None, 4),
        ("PERCH-24", None, None),
    ]


def test_no_more_fish_are_counted_out_than_the_lot_holds(desk: Desk) -> None:
    outcome = desk.take("".join(f"2026-05-0{day},WREN,,PERCH-24,1 lb,4,,\n" for day in (3, 4, 5)))
    assert (outcome.booked, [one.line for one in outcome.refused]) == (2, [4])


def test_a_species_kept_in_two_lots_must_be_told_apart(desk: Desk) -> None:
    stock(desk.store, lists.units(desk.store)[0].unit, "PERCH-25")
    (said,) = desk.reasons("2026-05-03,WREN,,yellow perch,1 lb,,,\n")
    assert said == "line 2, crop: which lot? WREN holds PERCH-24, PERCH-25"


MISSING = """\
2026-06-10,HERON,1,KALE,1 lb,,,
2026-06-01,HERON,1,KALE,1 lb,,,
2026-05-20,HERON,2,BASIL,1 lb,,,
2026-06-15,HERON,2,KALE,1 lb,,,
2026-06-05,WREN,S,CHARD,1 lb,,,
"""


def test_what_is_missing_is_made_without_flooding_the_round(desk: Desk) -> None:
    chores = lists.chores(desk.store)
    outcome = desk.take(MISSING, create_missing=True)
    assert outcome.created_units == ("HERON",)
    assert outcome.created_beds == ("HERON-1", "HERON-2")
    assert outcome.created_crops == ("KALE", "BASIL")
    assert outcome.created_plantings == (
        "KALE in HERON-1 from 2026-06-01",
        "BASIL in HERON-2 from 2026-05-20",
        "KALE in HERON-2 from 2026-06-15",
        "CHARD in WREN-S from 2026-06-05",
    )
    assert lists.chores(desk.store) == chores
    heron = next(one for one in lists.units(desk.store) if one.unit.code == "HERON")
    assert heron.unit.kind is UnitKind.COUPLED
    assert [(one.state, one.from_day) for one in heron.states] == [(UnitState.RUNNING, on(5, 20))]
    assert {one.bed.code for one in lists.beds(desk.store) if not one.sizes} == {"HERON-1", "HERON-2"}


def test_a_crop_that_is_made_knows_its_facts_in_the_library(empty: Desk) -> None:
    empty.take(MISSING, create_missing=True)
    assert {crop.name: crop.library_key for crop in lists.crops(empty.store)}["BASIL"] == "basil"


def test_one_undo_takes_the_whole_import_back_and_redo_brings_it_again(desk: Desk) -> None:
    before = everything_stored(desk.store)
    desk.take(GOOD + MISSING, create_missing=True)
    after = everything_stored(desk.store)
    take_back(desk.store)
    assert everything_stored(desk.store) == before
    assert desk.plan(GOOD).already == ()
    do_again(desk.store)
    assert everything_stored(desk.store) == after


def test_an_import_is_one_line_in_the_journal(desk: Desk) -> None:
    before = len(lists.journal(desk.store))
    desk.take(GOOD + MISSING, create_missing=True)
    first, *others = lists.journal(desk.store)
    assert (first.name, first.by, first.through, len(others)) == ("import", ADA, Through.FILE, before)


@pytest.mark.parametrize(
    ("rows", "column"),
    [
        ("2026-05-03,BARN-2,N,CHARD,1 lb,,,\n", "unit"),
        ("2026-05-03,the barn,N,CHARD,1 lb,,,\n", "unit"),
        ("2026-05-03,WREN,by the door,CHARD,1 lb,,,\n", "bed"),
        ("2026-05-03,HERON,,CHARD,1 lb,,,\n", "bed"),
        (f"2026-05-03,WREN,N,{'K' * 61},1 lb,,,\n", "crop"),
    ],
)
def test_names_that_cannot_be_are_not_made(desk: Desk, rows: str, column: str) -> None:
    assert [one.column for one in desk.plan(rows, create_missing=True).refused] == [column]


def spans(desk: Desk) -> list[tuple[date, date | None]]:
    """First and last day of every planting, oldest first."""
    return sorted((one.started_day, one.cleared_day) for one in lists.plantings(desk.store))


def test_a_planting_that_covers_the_day_is_used(desk: Desk) -> None:
    assert desk.take(GOOD, create_missing=True).created_plantings == ()
    assert spans(desk) == [(on(4, 1), None)]


def test_after_a_cleared_planting_a_new_one_is_started(desk: Desk) -> None:
    clear(desk.store, lists.plantings(desk.store)[0], on(5, 2))
    desk.take(GOOD + GOOD.replace("05-03", "06-03"), create_missing=True)
    assert spans(desk) == [(on(4, 1), on(5, 2)), (on(5, 3), None)]


def test_before_a_planting_one_is_started_that_ends_on_its_eve(desk: Desk) -> None:
    desk.take(GOOD.replace("05-03", "03-20") + GOOD.replace("05-03", "03-10"), create_missing=True)
    assert spans(desk) == [(on(3, 10), on(3, 31)), (on(4, 1), None)]
    desk.take(GOOD.replace("05-03", "03-25"), create_missing=True)
    assert spans(desk) == [(on(3, 10), on(3, 31)), (on(4, 1), None)]


def test_two_who_take_in_the_same_file_at_once_do_not_double_it(desk: Desk) -> None:
    ada, bob = (desk.plan(GOOD * 2 + MISSING, create_missing=True) for _ in range(2))
    assert carry_out(desk.store, ada, by=ADA).booked == 7
    before = counted(desk.store)
    late = carry_out(desk.store, bob, by=BOB)
    assert (late.booked, late.already, late.created_units) == (0, 7, ())
    assert counted(desk.store) == before


def test_two_who_take_in_files_that_lack_the_same_bed_make_it_once(empty: Desk) -> None:
    row = "2026-05-03,WREN,N,CHARD,1 lb,,,{}\n"
    ada, bob = (empty.plan(row.format(note), create_missing=True) for note in (ADA, BOB))
    carry_out(empty.store, ada, by=ADA)
    late = carry_out(empty.store, bob, by=BOB)
    assert (late.booked, late.created_units, late.created_beds, late.created_plantings) == (1, (), (), ())


def test_a_planting_removed_since_the_file_was_looked_at_is_refused_in_words(desk: Desk) -> None:
    planned = desk.plan(GOOD)
    remove_record(desk.store, Removal("plantings", lists.plantings(desk.store)[0].id), by=BOB)
    with pytest.raises(NotFound, match="There is no planting 1"):
        carry_out(desk.store, planned, by=ADA)
    assert desk.harvests == []


def test_a_planting_cleared_since_the_file_was_looked_at_is_refused_in_words(desk: Desk) -> None:
    planned = desk.plan(GOOD)
    clear(desk.store, lists.plantings(desk.store)[0], on(5, 2), by=BOB)
    with pytest.raises(Refused, match="CHARD in WREN-N was cleared on 2026-05-02"):
        carry_out(desk.store, planned, by=ADA)
    assert desk.harvests == []


def test_a_retry_with_the_same_operation_gives_the_first_answer(desk: Desk) -> None:
    operation = new_id()
    first = carry_out(desk.store, desk.plan(GOOD + BAD + MISSING, create_missing=True), by=ADA, operation=operation)
    again = carry_out(desk.store, desk.plan(GOOD + BAD + MISSING, create_missing=True), by=ADA, operation=operation)
    assert again == first
    assert first.booked == 6


def test_an_untrusted_name_is_shown_harmless(desk: Desk) -> None:
    (said,) = desk.reasons("2026-05-03,W\x1b[2JN,N,CHARD,1 lb,,,\n")
    assert "\x1b" not in said


WIDE = "Day;WREN-N (kg);wren-s;total\n"


def test_a_sheet_with_a_column_for_each_bed_is_taken_by_what_grew_there(desk: Desk) -> None:
    rows = "3/5/2026;1,5;;1,5\n13/5/2026;0;1 lb;\n14/5/2026;-;;\n"
    planned = desk.plan(rows, head=WIDE)
    assert planned.told == (
        "Days such as 03/05/2026 are read day first.",
        "Numbers are read with a decimal comma.",
    )
    assert planned.ignored == ("total",)
    assert [str(one) for one in planned.refused] == [
        "line 3, WREN-S: nothing grew in WREN-S on 2026-05-13 by the records; --crop names it"
    ]
    carry_out(desk.store, planned, by=ADA)
    (found,) = desk.harvests
    assert (found.day, found.bed, found.what, found.mass_mg) == (on(5, 3), "WREN-N", "CHARD", 1_500_000)
    assert len(desk.plan(rows, head=WIDE).already) == 1


def test_the_crop_of_such_a_sheet_is_said_where_two_grew(desk: Desk) -> None:
    bed = next(one.bed for one in lists.beds(desk.store) if one.bed.code == "WREN-N")
    plant(desk.store, bed, a_crop(desk.store, "KALE"))
    (said,) = (str(one) for one in desk.plan("2026-05-03;1;;\n", head=WIDE).refused)
    assert said == "line 2, WREN-N: which crop? WREN-N held CHARD, KALE; --crop names it"
    path = desk.folder / "july.csv"
    planned = plan(desk.store, read_rows(path), today=TODAY, crop="kale")
    assert [one.row.what for one in planned.to_book] == ["KALE"]


def test_rules_read_each_planting_and_lot_once_however_many_rows(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    from farmops.facts import fish, plantings
    from farmops.farm import populations

    asked: list[str] = []
    for module, name in ((plantings, "planting"), (fish, "lot"), (populations, "lives")):
        read = getattr(module, name)
        monkeypatch.setattr(
            module, name, lambda reader, id, read=read: (asked.append(read.__name__), read(reader, id))[1]
        )
    rows = "".join(
        f"{on(5, 1) + timedelta(days=at)},WREN,{what},1 lb,,,\n"
        for what in ("N,CHARD", ",PERCH-24")
        for at in range(50)
    )
    planned = desk.plan(rows)
    asked.clear()
    assert carry_out(desk.store, planned, by=ADA).booked == 100
    assert sorted(asked) == ["lives", "lot", "planting"]


def test_a_row_beyond_what_the_bed_can_bear_is_booked_and_named(desk: Desk) -> None:
    found = desk.take("2026-05-09,WREN,N,CHARD,500,,sold,\n2026-05-10,WREN,N,CHARD,2 lb,,,\n")
    assert found.booked == 2
    assert [(one.line, "can bear at once" in one.question) for one in found.questioned] == [(2, True)]


def test_rows_that_look_wrong_are_booked_and_named(desk: Desk) -> None:
    first = desk.take("".join(f"2026-05-0{day},WREN,N,CHARD,6 lb,,sold,\n" for day in range(3, 9)))
    assert first.questioned == ()
    rows = (
        "2026-05-08,WREN,N,CHARD,6 lb,,given,\n2026-05-09,WREN,N,CHARD,6 kg,,sold,\n2026-05-10,WREN,N,CHARD,7 lb,,,\n"
    )
    found = desk.take(rows)
    assert found.booked == 3
    assert [(one.line, one.question.rpartition(". ")[2]) for one in found.questioned] == [
        (2, "Is it another one?"),
        (3, "Typed 6 kg; 6 lb would be usual."),
    ]
