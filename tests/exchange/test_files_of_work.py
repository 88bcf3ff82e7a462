"""Files of chores, chores done, people, contacts, absences and power cuts: each row by the rules of a single entry."""

from __future__ import annotations

from datetime import UTC, date, datetime, time
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from openpyxl import Workbook

from farmops.exchange.file_imports import Said, carry_out, read_rows
from farmops.facts import chores as chore_facts
from farmops.facts import contacts as contact_facts
from farmops.facts import farm as farm_facts
from farmops.facts.reading import Reader
from farmops.model.chores import Chore, ChoreClass, PartOfDay, Settled, SettledAs
from farmops.model.units import UnitState
from farmops.reports import evidence, lists
from farmops.reports.crew import crew_of
from tests.exchange.file_desk import Desk
from tests.farmhand import BOB, TODAY, a_chore, a_unit, counted, everything_stored, on, settle, take_back

pytestmark = pytest.mark.usefixtures("stands_still")
CHORES = "chore,rule,start,for,class,part,minutes,months,states,with-fish,adults-only,person,readings,confirmation\n"
DONE = "date,chore,for,settled,minutes,who,why,confirmed,until\n"
ABSENCES = "who,from,until,stand-in,note\n"


def _chores(desk: Desk) -> dict[str, Chore]:
    return {one.title: one for one in lists.chores(desk.store)}


def _settled(desk: Desk) -> list[Settled]:
    with desk.store.reading() as reader:
        return chore_facts.settled_between(reader, date.min, date.max)


def test_chores_of_every_kind_of_rule_in_their_places(desk: Desk) -> None:
    desk.take("people", "name,minor\nBob,no\n")
    text = CHORES + (
        "Oil the door,month on the last Friday,2026-04-01,,,,,,,,,,,\n"
        'Net the weed,14 days after,2026-04-01,WREN,crop,evening,12,"4,5,6",running,yes,yes,bob,pH,net dry\n'
        "Strip the pump,2000 pump hours,2026-04-01,WREN,,,,,,,,,,\n"
        "Look at the roots,FREQ=WEEKLY;BYDAY=MO,2026-04-01,WREN-N,,,,,,,,,,\n"
        "Count them,2026-05-01,2026-05-01,PERCH-24,fish care,,,,,,,,,\n"
    )
    desk.book_once("chores", text, 5)
    found = _chores(desk)
    weed = found["Net the weed"]
    assert (weed.grade, weed.part, weed.minutes) == (ChoreClass.CROP, PartOfDay.EVENING, 12)
    assert (weed.months, weed.states) == ("4,5,6", UnitState.RUNNING.value)
    assert (weed.with_fish, weed.adults_only, weed.person) == (True, True, "Bob")
    assert (weed.readings, weed.confirmation) == ("pH", "net dry")
    assert [found[title].rule_kind for title in ("Oil the door", "Strip the pump", "Count them")] == [
        "calendar",
        "use",
        "once",
    ]
    assert (found["Look at the roots"].bed, found["Count them"].lot) == ("WREN-N", "PERCH-24")
    assert found["Oil the door"].next_due == on(4, 24)


def test_chores_that_are_refused(desk: Desk) -> None:
    desk.refuses(
        "chores",
        CHORES,
        (",14 days after,2026-04-01,,,,,,,,,,,", "chore: "),
        ("Sweep,,2026-04-01,,,,,,,,,,,", "rule: no rule; say when it is due"),
        ("Sweep,when the moon is blue,2026-04-01,,,,,,,,,,,", ""),
        ("Sweep,14 days after,,,,,,,,,,,,", "start: no start"),
        ("Sweep,14 days after,2026-04-01,LARK,,,,,,,,,,", "for: there is no unit, bed or fish lot LARK"),
        ("Sweep,14 days after,2026-04-01,,play,,,,,,,,,", "class: play is no class"),
        ("Sweep,14 days after,2026-04-01,,,dawn,,,,,,,,", "part: dawn is no part"),
        ("Sweep,14 days after,2026-04-01,,,,long,,,,,,,", "minutes: long is no whole number"),
        ("Sweep,14 days after,2026-04-01,,,,1441,,,,,,,", "1441 minutes is no length of a chore"),
        ("Sweep,14 days after,2026-04-01,,,,,May,,,,,,", "months: May is not understood here"),
        ("Sweep,14 days after,2026-04-01,,,,,13,,,,,,", "Months are numbers from 1 to 12"),
        ("Sweep,14 days after,2026-04-01,WREN,,,,,asleep,,,,,", "states: asleep is not understood here"),
        ("Sweep,14 days after,2026-04-01,,,,,,,yes,,,,", "a chore that rests without fish belongs to"),
        ("Sweep,14 days after,2026-04-01,,,,,,,maybe,,,,", "with-fish: maybe is neither yes nor no"),
        ("Sweep,14 days after,2026-04-01,,,,,,,,maybe,,,", "adults-only: maybe is neither yes nor no"),
        ("Sweep,14 days after,2026-04-01,,,,,,,,,Cai,,", "person: there is no person CAI"),
    )


@pytest.fixture
def round_desk(desk: Desk) -> Desk:
    """A farm with chores to do: two feedings of the same title, one that insists on a word."""
    wren, swift = lists.units(desk.store)[0].unit, a_unit(desk.store, "SWIFT")
    a_chore(desk.store, "Clean the pump", "14 days after", unit_id=wren.id)
    a_chore(desk.store, "Clean the pump", "14 days after", unit_id=swift.id)
    a_chore(desk.store, "See the flow", "day", unit_id=wren.id, confirmation="flow seen")
    a_chore(desk.store, "Sweep the path", "Sat")
    return desk


def test_chores_done_skipped_and_deferred_by_whoever_did_them(round_desk: Desk) -> None:
    text = DONE + (
        "2026-05-03,Clean the pump,WREN,done,25,Bob,,,\n"
        "2026-05-02,clean the pump,SWIFT,skipped,,,no time,,\n"
        "2026-05-03,See the flow,WREN,,3,,,flow seen,\n"
        "2026-05-04,See the flow,,,3,,,yes,\n"
        "2026-09-01,Sweep the path,,deferred,,,,,2026-09-03\n"
    )
    round_desk.book_once("chores done", text, 5)
    found = [(one.on_day, one.kind, one.minutes, one.actor, one.confirmed) for one in _settled(round_desk)]
    assert sorted(found) == [
        (on(5, 2), SettledAs.SKIPPED, None, "Ada", None),
        (on(5, 3), SettledAs.DONE, 3, "Ada", "flow seen"),
        (on(5, 3), SettledAs.DONE, 25, BOB, None),
        (on(5, 4), SettledAs.DONE, 3, "Ada", "flow seen"),
        (on(9, 1), SettledAs.DEFERRED, None, "Ada", None),
    ]
    pumps = {one.unit: one.next_due for one in lists.chores(round_desk.store) if one.title == "Clean the pump"}
    assert pumps["WREN"] == on(5, 17)


def test_a_chore_done_by_hand_before_is_there_already(round_desk: Desk) -> None:
    path = _chores(round_desk)["Sweep the path"]
    settle(round_desk.store, path, on(5, 9), confirmed=None)
    text = f"date,chore id,minutes\n2026-05-09,{path.id},10\n2026-05-16,{path.id},10\n"
    read = round_desk.read("chores done", text, Said())
    assert "Numbers stand for records of this farm, as it numbers them: chore." in read.told
    taken = round_desk.take("chores done", text)
    assert (taken.booked, taken.already) == (1, 1)


def test_chores_done_that_are_refused(round_desk: Desk) -> None:
    round_desk.refuses(
        "chores done",
        DONE,
        ("someday,Sweep the path,,,,,,,", "date: someday is no day"),
        ("2026-05-03,Sweep the past,,,,,,,", "chore: there is no chore SWEEP THE PAST (did you mean SWEEP THE"),
        ("2026-05-03,Clean the pump,,,,,,,", "for: which CLEAN THE PUMP? There is "),
        ("2026-05-03,Clean the pump,PERCH-24,,,,,,", "for: which CLEAN THE PUMP? There is "),
        ("2026-05-03,Sweep the path,LARK,,,,,,", "for: there is no unit, bed or fish lot LARK"),
        ("2026-05-03,Sweep the path,,undone,,,,,", "settled: undone is no settled; understood: done, skipped"),
        ("2026-05-03,Sweep the path,,,an hour,,,,", "minutes: an hour is no whole number"),
        ("2026-05-03,Sweep the path,,,1441,,,,", "1441 minutes is no length of a chore"),
        (f"2026-05-03,Sweep the path,,,,{'B' * 61},,,", "who: The who has 61 characters"),
        ("2026-05-03,Sweep the path,,skipped,,,,,", "Not skipped: say why Sweep the path is left out"),
        ("2026-05-03,Sweep the path,,deferred,,,,,", "Not deferred: say until when"),
        ("2026-05-03,Sweep the path,,deferred,,,,,never", "until: never is no day"),
        (
            "2026-05-03,See the flow,WREN,,,,,,",
            "Not done yet: See the flow asks for a confirmation: flow",
        ),
        ("2026-05-03,See the flow,WREN,,,,,heard it,", "confirmed: See the flow asks for flow seen, not heard"),
        ("2026-05-03,Sweep the path,,,,,,yes,", "confirmed: Sweep the path asks for no confirmation, not yes"),
    )


WORK = st.tuples(
    st.dates(date(2026, 4, 1), date(2026, 9, 30)),
    st.sampled_from(["Clean the pump,WREN", "Clean the pump,SWIFT", "See the flow,WREN", "Sweep the path,"]),
    st.sampled_from(["done", "skipped"]),
    st.sampled_from(["", "5", "12"]),
    st.sampled_from(["flow seen", ""]),
)


@settings(max_examples=6, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(rows=st.lists(WORK, min_size=1, max_size=6))
def test_work_of_a_file_is_booked_once_and_undone_at_once(
    round_desk: Desk, rows: list[tuple[date, str, str, str, str]]
) -> None:
    cells = [(day, chore, kind, minutes, "Bob", "rain", seen) for day, chore, kind, minutes, seen in rows]
    text = "date,chore,for,settled,minutes,who,why,confirmed\n" + "".join(
        f"{','.join(map(str, row))}\n" for row in cells
    )
    before = everything_stored(round_desk.store)
    first = round_desk.take("chores done", text)
    counts = counted(round_desk.store)
    again = round_desk.take("chores done", text)
    assert (again.booked, again.already, len(again.refused)) == (0, first.booked, len(first.refused))
    assert counted(round_desk.store) == counts
    if first.booked:
        take_back(round_desk.store)
    assert everything_stored(round_desk.store) == before


def test_people_and_whom_to_call(desk: Desk) -> None:
    desk.book_once("people", "name,minor,note\nAda,,mornings\nCai,yes,\n", 2)
    assert [(one.name, one.minor, one.note) for one in lists.people(desk.store)] == [
        ("Ada", False, "mornings"),
        ("Cai", True, None),
    ]
    minor, empty, odd = desk.reasons("people", "name,minor,note\nCai,no,\n,,old\nDai,perhaps,\n")
    assert minor == "line 2: Cai is there with another age; correct it by hand, or the file"
    assert empty == "line 3, name: The name is empty."
    assert odd == "line 4, minor: perhaps is neither yes nor no"
    desk.book_once("contacts", "for,name,phone,note\nvet,Dr Reed,555 0100,nights too\n", 1)
    (reed,) = lists.contacts(desk.store)
    assert (reed.name, reed.calls_for, reed.phone, reed.note) == ("Dr Reed", "vet", "555 0100", "nights too")
    phone, name, what = desk.reasons("contacts", "for,name,phone\nvet,Dr May,call\nvet,,555 0101\n,Dr Hall,555 0102\n")
    assert phone.startswith("line 2: 'call' is no phone number")
    assert name == "line 3, name: The name is empty."
    assert what == "line 4, for: The for is empty."


def test_who_is_away_moves_what_can_wait(desk: Desk) -> None:
    desk.take("people", "name\nAda\nBob\n")
    a_chore(desk.store, "Oil the door", "14 days after", on(10, 10))
    desk.book_once("absences", ABSENCES + "Ada,2026-10-20,2026-10-26,,holiday\nbob,2026-11-02,2026-11-03,Ada,\n", 2)
    found = [(one.person, one.from_day, one.until_day, one.stand_in) for one in lists.absences(desk.store)]
    assert sorted(found) == [("Ada", on(10, 20), on(10, 26), None), ("Bob", on(11, 2), on(11, 3), "Ada")]


def test_who_is_here_a_row_for_each(desk: Desk) -> None:
    desk.take("people", "name\nAda\nBob\nCai\n")
    desk.book_once("presence", "date,who\n2026-10-20,Ada\n2026-10-20,cai\n2026-10-21,Bob\n", 3)
    assert [one.name for one in crew_of(desk.store, on(10, 20)).here] == ["Ada", "Cai"]
    who, day = desk.reasons("presence", "date,who\n2026-10-22,Dai\nsoon,Ada\n")
    assert who.startswith("line 2, who: there is no person DAI")
    assert day.startswith("line 3, date: soon is no day")


def test_the_newest_forecast_of_a_day_counts(desk: Desk) -> None:
    text = "date,low (C),high (C),note\n2026-10-20,-1.5,8,frost\n2026-10-21,2,,\n"
    desk.book_once("forecasts", text, 2)
    assert desk.take("forecasts", "date,low (C)\n2026-10-20,-3\n2026-10-21,2\n").booked == 1
    found = [(one.day, one.low_c, one.high_c, one.note) for one in evidence.forecasts(desk.store, on(10, 20))]
    assert found == [(on(10, 20), -3.0, 8.0, "frost"), (on(10, 21), 2.0, None, None)]
    cold, none = desk.reasons("forecasts", "date,low,high\n2026-10-20,cold,\n2026-10-22,,\n")
    assert cold.startswith("line 2, low: ")
    assert none == "line 3: a forecast names the low or the high of the day, or both."


def test_absences_that_are_refused(desk: Desk) -> None:
    desk.take("people", "name\nAda\nBob\n")
    desk.refuses(
        "absences",
        ABSENCES,
        ("Cai,2026-10-20,2026-10-26,,", "who: there is no person CAI"),
        ("Ada,soon,2026-10-26,,", "from: soon is no day"),
        ("Ada,2026-10-20,later,,", "until: later is no day"),
        ("Ada,2026-10-20,2026-10-26,Cai,", "stand-in: there is no person CAI"),
        (f"Ada,2026-10-20,2026-10-26,,{'x' * 1001}", "note: "),
        ("Ada,2026-10-20,2026-10-19,,", "the last day away, 2026-10-19, lies before the first"),
        ("Ada,2026-10-20,2026-10-26,Ada,", "nobody stands in for themselves"),
    )


def test_power_cuts_one_after_the_other(desk: Desk) -> None:
    text = (
        "began,ended,all-running,note\n"
        "2026-10-01 06:10,2026-10-01 07:30,yes,storm\n"
        "2026-10-05T22:15:00Z,2026-10-05T23:00:00Z,yes,\n"
        "2026-10-13 20:00,,,\n"
    )
    desk.book_once("incidents", text, 3)
    found = [(one.began_at, one.ended_at) for one in lists.incidents(desk.store)]
    assert sorted(found)[:2] == [
        (datetime(2026, 10, 1, 10, 10, tzinfo=UTC), datetime(2026, 10, 1, 11, 30, tzinfo=UTC)),
        (datetime(2026, 10, 5, 22, 15, tzinfo=UTC), datetime(2026, 10, 5, 23, 0, tzinfo=UTC)),
    ]
    over = "began,ended,all-running\n2026-10-13 20:00,2026-10-13 21:00,yes\n"
    assert desk.take("incidents", over).booked == 1
    assert all(one.ended_at for one in lists.incidents(desk.store))


def test_power_cuts_that_are_refused(desk: Desk) -> None:
    desk.refuses(
        "incidents",
        "began,ended,all-running,kind\n",
        (",2026-10-01 07:30,yes,", "began: no began; say the day and the hour"),
        ("2026-10-01,2026-10-01 07:30,yes,", "began: 2026-10-01 names no hour"),
        ("2026-10-01 06:10,later,yes,", "ended: later names no hour"),
        ("2026-10-01 06:10,2026-10-01 07:30,sure,", "all-running: sure is neither yes nor no"),
        ("2026-10-01 06:10,2026-10-01 07:30,,", "Not ended: not seen running again yet"),
        ("2026-10-01 06:10,2026-10-01 05:30,yes,", "that was before the power cut began"),
        ("2026-08-01 06:10,2026-08-01 07:30,yes,", "2026-08-01 10:10 UTC lies ahead, or more than 30 days"),
        ("2026-10-01 06:10,2026-10-01 07:30,yes,flood", "kind: flood is no kind; understood: power cut"),
    )


def test_a_workbook_of_work_with_days_hours_numbers_and_ticks_of_its_own(round_desk: Desk) -> None:
    book = Workbook()
    sheet = book.active
    sheet.append(["date", "chore", "for", "minutes", "who"])
    sheet.append([datetime.combine(on(5, 3), time(7, 30)), "Clean the pump", "WREN", 25.0, "Bob"])
    sheet.append([date(2026, 5, 9), "Sweep the path", None, 10, None])
    place = round_desk.path.with_suffix(".xlsx")
    book.save(place)
    read = read_rows(round_desk.store, "chores done", place, Said(), today=TODAY)
    assert carry_out(round_desk.store, read, Said(), by="Ada").booked == 2
    found = [(one.on_day, one.minutes, one.actor) for one in _settled(round_desk)]
    assert sorted(found) == [(on(5, 3), 25, BOB), (on(5, 9), 10, "Ada")]
    again = Workbook()
    again.active.append(["name", "minor"])
    again.active.append(["Cai", True])
    again.save(place)
    read = read_rows(round_desk.store, "people", place, Said(), today=TODAY)
    assert carry_out(round_desk.store, read, Said(), by="Ada").booked == 1
    assert [(one.name, one.minor) for one in lists.people(round_desk.store)] == [("Cai", True)]


@pytest.mark.parametrize(
    ("kind", "read", "head", "row", "refused"),
    [
        ("people", farm_facts, "name,minor", "Picker {},no", "picker 1,yes"),
        ("contacts", contact_facts, "name,phone,for", "Vet {},555 0100,vet", "Vet 99,call,vet"),
    ],
)
def test_a_long_file_reads_each_record_of_the_farm_once(
    desk: Desk, monkeypatch: pytest.MonkeyPatch, kind: str, read: Any, head: str, row: str, refused: str
) -> None:
    rows = [row.format(at) for at in range(20)]
    said = desk.read(kind, "\n".join([head, *rows[:10], refused, *rows, rows[3].upper(), ""]), Said())
    plain, counts = getattr(read, kind), []

    def counting(reader: Reader, after: int = 0) -> list[Any]:
        counts.append(found := plain(reader, after))
        return found

    monkeypatch.setattr(read, kind, counting)
    taken = carry_out(desk.store, said, Said(), by="Ada")
    assert (taken.booked, taken.already, [one.line for one in taken.refused]) == (20, 11, [12])
    assert sum(map(len, counts)) == 20
