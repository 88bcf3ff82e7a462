"""Files of readings, costs, fish and plantings taken in: each row booked, there already, asked about or refused."""

from __future__ import annotations

import contextlib
import csv
import io
from datetime import date

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from farmops.exchange.customs import Order
from farmops.exchange.file_imports import Said, carry_out, foresee
from farmops.exchange.file_kinds import KINDS
from farmops.exchange.file_words import FILE_WORDS
from farmops.facts import fish_events
from farmops.farm.file_rows.run import BOOKINGS
from farmops.model.errors import NotUnderstood
from farmops.model.journal import Through
from farmops.model.readings import Form, Measure
from farmops.model.text import plain
from farmops.reports import lists
from tests.exchange.file_desk import Desk
from tests.farmhand import (
    ADA,
    counted,
    everything_stored,
    on,
    take_back,
)

pytestmark = pytest.mark.usefixtures("stands_still")
LONG = "date,unit,measure,value\n"
COSTS = "date,what,amount,payee,for\n"


def test_long_and_wide_readings_are_the_same_ones(desk: Desk) -> None:
    wide = "date,unit,time,pH,temp (F),NO3 (ion)\n2026-05-03,WREN,7:30,7.2,72,20\n2026-05-04,WREN,,,71,<5 N\n"
    assert desk.take("readings", wide).booked == 5
    found = [(one.day, one.minute, one.measure, one.typed, one.form) for one in desk.readings]
    assert found == [
        (on(5, 3), 450, Measure.PH, "7.2", None),
        (on(5, 3), 450, Measure.TEMPERATURE, "72 f", None),
        (on(5, 3), 450, Measure.NITRATE, "20 ion", Form.AS_ION),
        (on(5, 4), None, Measure.TEMPERATURE, "71 f", None),
        (on(5, 4), None, Measure.NITRATE, "<5 N", Form.AS_N),
    ]
    long = "date,unit,time,measure,value\n2026-05-03,wren,7:30,ph,7.20\n2026-05-04,WREN,,temperature,71F\n"
    assert desk.take("readings", long).already == 2


def test_the_same_file_twice_adds_nothing_and_one_undo_takes_it_back(desk: Desk) -> None:
    before = everything_stored(desk.store)
    text = LONG + "2026-05-03,WREN,ammonia,0.5\n2026-05-03,WREN,ammonia,0.5\n2026-05-03,WREN,nitrite,1 ion\n"
    assert desk.take("readings", text).booked == 3
    counts = counted(desk.store)
    again = desk.take("readings", text, Said(form=Form.AS_ION))
    assert (again.booked, again.already, again.exit_code) == (0, 3, 0)
    assert counted(desk.store) == counts
    first = lists.journal(desk.store)[0]
    assert (first.by, first.through) == (ADA, Through.FILE)
    take_back(desk.store)
    assert everything_stored(desk.store) == before


def test_a_row_that_stands_once_more_than_before_is_booked_once_more(desk: Desk) -> None:
    row = "2026-05-03,WREN,pH,7\n"
    assert desk.take("readings", LONG + row * 2).booked == 2
    grown = desk.take("readings", LONG + row * 3)
    assert (grown.booked, grown.already) == (1, 2)


def test_work_that_is_stopped_leaves_nothing_behind(desk: Desk) -> None:
    told: list[tuple[int, int]] = []

    def watch(done: int, total: int) -> None:
        told.append((done, total))
        if done == 500:
            raise KeyboardInterrupt

    rows = "".join(f"2026-05-03,WREN,pH,{6 + at / 500}\n" for at in range(600))
    read = desk.read("readings", LONG + rows, Said())
    before = everything_stored(desk.store), counted(desk.store)
    with pytest.raises(KeyboardInterrupt):
        carry_out(desk.store, read, Said(), by=ADA, watch=watch)
    assert told == [(0, 600), (250, 600), (500, 600)]
    assert (everything_stored(desk.store), counted(desk.store)) == before
    assert carry_out(desk.store, read, Said(), by=ADA).booked == 600


def test_an_unlikely_reading_is_asked_about_and_booked_when_the_grower_is_sure(desk: Desk) -> None:
    text = LONG + "2026-05-03,WREN,pH,3.9\n2026-05-04,WREN,pH,7\n"
    first = desk.take("readings", text)
    assert (first.booked, [one.line for one in first.asked], first.exit_code) == (1, [2], 4)
    assert "is that right?" in first.asked[0].question
    sure = desk.take("readings", text, Said(sure=True))
    assert (sure.booked, sure.already, sure.exit_code) == (1, 1, 0)


@pytest.mark.parametrize(
    ("row", "reason"),
    [
        ("2026-05-03,WRAN,pH,7", "line 2, unit: there is no unit WRAN (did you mean WREN?)"),
        ("2026-05-03,WREN,smell,7", "line 2, measure: 'smell' is nothing that is read here"),
        ("2026-05-03,WREN,pH,15", "line 2, value: pH: "),
        ("2026-05-03,WREN,pH,", "line 2: nothing was read"),
        ("03/05/2026,WREN,pH,7", "line 2, date: 03/05/2026 may put the month or the day first"),
        ("2026-05-03,WREN,pH,7,7", "line 2: more cells"),
    ],
)
def test_readings_that_are_refused(desk: Desk, row: str, reason: str) -> None:
    (said,) = desk.reasons("readings", f"{LONG}{row}\n")
    assert said.startswith(reason)


def test_days_are_read_as_another_day_of_the_file_shows_and_that_is_said(desk: Desk) -> None:
    rows = "13/05/2026,WREN,pH,7\n03/05/2026,WREN,pH,7\n"
    assert desk.read("readings", LONG + rows, Said()).told == ("Days such as 03/05/2026 are read day first.",)
    desk.take("readings", LONG + rows)
    desk.take("readings", f"{LONG}03/06/26,WREN,pH,7\n", Said(order=Order.MONTH_FIRST))
    assert [one.day for one in desk.readings] == [on(3, 6), on(5, 3), on(5, 13)]


def test_days_of_both_orders_in_one_file_are_said_to_be_that(desk: Desk) -> None:
    rows = "".join(f"{day},WREN,pH,7\n" for day in ("11/27/2025", "27/11/2025", "13/13/2025"))
    assert [said.partition("date: ")[2] for said in desk.reasons("readings", LONG + rows)] == [
        "11/27/2025 is month first, and other days of the file are the other way; write all as in 2026-05-03",
        "27/11/2025 is day first, and other days of the file are the other way; write all as in 2026-05-03",
        "13/13/2025 is no day; write it as in 2026-05-03",
    ]


def test_an_hour_beside_the_day_is_the_hour_of_a_reading(desk: Desk) -> None:
    rows = "2026-05-03T07:30:00,WREN,pH,7\n13/05/2026 16:05,WREN,pH,7\n2026-05-14 25:00,WREN,pH,7\n"
    (said,) = desk.reasons("readings", LONG + rows)
    assert said.startswith("line 4, time: '25:00' is no time of day.")
    assert [(one.day, one.minute) for one in desk.readings] == [(on(5, 3), 450), (on(5, 13), 965)]


CELL = st.one_of(
    st.text(max_size=12),
    st.sampled_from(["2026-05-03", "WREN", "PERCH-24", "WREN-N", "CHARD", "3", "=1+1", "\x1b[2J", "[red]", "\u202e"]),
)


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(kind=st.sampled_from(sorted(KINDS)), rows=st.lists(st.lists(CELL, min_size=1, max_size=12), max_size=4))
def test_whatever_stands_in_a_file_is_booked_or_refused_in_words(desk: Desk, kind: str, rows: list[list[str]]) -> None:
    text = io.StringIO()
    csv.writer(text).writerows([[one.name for one in KINDS[kind].columns][:12], *rows])
    with contextlib.suppress(NotUnderstood):
        read = desk.read(kind, text.getvalue(), Said())
        found = foresee(desk.store, read, Said(), by=ADA)
        said = [str(one) for one in (*found.refused, *found.asked)]
        assert said == [plain(one) for one in said]


def test_a_head_is_what_the_grower_says_it_is(desk: Desk) -> None:
    text = "when,tank,strip\n2026-05-03,WREN,7\n"
    with pytest.raises(NotUnderstood, match="no column date"):
        desk.take("readings", text)
    meant = {"when": "date", "tank": "unit", "strip": "pH"}
    assert desk.take("readings", text, Said(meant)).booked == 1
    with pytest.raises(NotUnderstood, match="has no head strop"):
        desk.take("readings", text, Said({"strop": "pH"}))
    with pytest.raises(NotUnderstood, match="smell is no column here"):
        desk.take("readings", text, Said({"strip": "smell"}))


def test_costs_are_booked_for_places_or_shared_and_doubles_are_asked_about(desk: Desk) -> None:
    text = COSTS + '2026-05-03,feed,12.50,the mill,WREN\n2026-05-03,"net, green",3,,\n2026-05-04,tray,4,,WREN-N\n'
    assert desk.take("costs", text).booked == 3
    booked = lists.costs(desk.store, date.min, date.max)
    assert [(one.what, one.amount_minor, one.where) for one in booked] == [
        ("feed", 1250, "WREN"),
        ("net, green", 300, None),
        ("tray", 400, "WREN-N"),
    ]
    assert desk.take("costs", text).already == 3
    double = COSTS + "2026-05-03,pellets,12.50,The Mill,\n"
    asked = desk.take("costs", double)
    assert (asked.booked, len(asked.asked), asked.exit_code) == (0, 1, 1)
    assert desk.take("costs", double, Said(sure=True)).booked == 1


def test_costs_that_are_refused_stand_beside_those_that_are_booked_unless_all_is_to_be_whole(desk: Desk) -> None:
    text = COSTS + "2026-05-03,feed,12,,WRAN\n2026-05-03,net,,,\n2026-05-03,tray,4,,\n"
    whole = desk.take("costs", text, Said(whole=True))
    assert (whole.booked, len(whole.refused), whole.exit_code) == (0, 2, 1)
    taken = desk.take("costs", text)
    assert (taken.booked, [one.column for one in taken.refused], taken.exit_code) == (1, ["for", "amount"], 4)


def test_fish_events_are_held_against_each_other_row_by_row(desk: Desk) -> None:
    text = "date,lot,dead,cause\n2026-05-03,PERCH-24,4,oxygen\n2026-05-04,PERCH-24,7,\n2026-05-05,PERCH-24,5,\n"
    taken = desk.take("losses", text)
    assert (taken.booked, [one.line for one in taken.refused]) == (2, [3])
    assert desk.take("losses", text).already == 2
    early = desk.reasons("losses", "date,lot,dead\n2026-04-01,PERCH-24,1\n")
    assert len(early) == 1
    assert "PERCH-24" in early[0]


def test_feedings_and_samples(desk: Desk) -> None:
    fed = "date,fish,grams,ate\n2026-05-03,perch-24,40,some\n2026-05-04,perch-24,,\n"
    taken = desk.take("feedings", fed, Said({"grams": "feed (g)"}))
    assert (taken.booked, [str(one) for one in taken.refused]) == (1, ["line 3, feed: no feed"])
    weighed = "date,lot,number,weight (g)\n2026-05-03,PERCH-24,4,400\n2026-05-04,PERCH-24,11,900\n"
    found = desk.take("samples", weighed)
    assert (found.booked, [one.line for one in found.refused]) == (1, [3])
    assert desk.take("samples", weighed).already == 1
    with desk.store.reading() as reader:
        assert [one.mass_mg for one in fish_events.feedings(reader, 1)] == [40_000]
        assert [(one.number, one.mass_mg) for one in fish_events.samples(reader, 1)] == [(4, 400_000)]


def test_feedings_far_beyond_the_ration_wait_for_a_yes(desk: Desk) -> None:
    desk.take("readings", "date,unit,measure,value\n2026-05-03,WREN,temperature,22 C\n")
    fed = "date,fish,feed\n2026-05-03,perch-24,10 lb\n2026-04-30,perch-24,10 lb\n"
    taken = desk.take("feedings", fed)
    assert (taken.booked, [one.line for one in taken.asked]) == (1, [2])
    assert "Its ration is" in str(taken.asked[0])
    assert desk.take("feedings", fed, Said(sure=True)).booked == 1


def test_plantings_with_their_last_day(desk: Desk) -> None:
    text = (
        "bed,crop,started,cleared,by\nWREN-N,chard,2026-03-01,2026-05-01,sowing\nWREN-N,chard,2026-06-01,2026-05-01,\n"
    )
    taken = desk.take("plantings", text)
    assert (taken.booked, [one.line for one in taken.refused]) == (1, [3])
    assert [(one.started_day, one.cleared_day) for one in lists.plantings(desk.store)] == [(on(3, 1), on(5, 1))]
    assert desk.take("plantings", text).already == 1


def test_every_kind_is_booked_and_told_of_with_each_of_its_columns() -> None:
    assert set(KINDS) == set(FILE_WORDS) == set(BOOKINGS)
    for name, kind in KINDS.items():
        words = FILE_WORDS[name]
        told = {word.strip("(),;:.") for word in words.columns.replace("; or date, unit and one", "").split()}
        lacking = {one.name for one in kind.columns} - told - set(Measure)
        assert not lacking, f"farmops import {name} --help does not tell of {lacking}"
        assert all(example.startswith(f"{name.replace(' ', '-')} ") for example in words.examples)


def test_a_preview_tells_of_every_line_what_would_become_of_it(desk: Desk) -> None:
    desk.take("readings", LONG + "2026-05-03,WREN,ammonia,0.5 N\n")
    more = "2026-05-03,WREN,ammonia,0.5 N\n2026-05-04,WREN,pH,7\n2026-05-04,NONE,pH,7\n2026-05-05,WREN,pH,7\n"
    whole = desk.take("readings", LONG + more, Said(whole=True))
    assert (whole.booked, whole.booked_lines) == (0, ())
    found = desk.take("readings", LONG + more)
    assert [str(one) for one in found.already_lines] == ["2"]
    assert [str(one) for one in found.booked_lines] == ["3", "5"]
    assert [one.line for one in found.refused] == [4]
