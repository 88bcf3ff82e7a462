"""A line of a sheet: done, left out or put off, minutes, readings, and the words the chore insists on."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from farmops.exchange.booking_back import rows_of
from farmops.exchange.sheet_lines import How, chore_number, settling_of
from farmops.model.chores import Chore, ChoreClass, PartOfDay, SettledAs, Settling
from farmops.model.errors import FarmopsError, NotFound, NotUnderstood, OutOfRange
from farmops.model.readings import Form, Measure
from farmops.quantities import METRIC, US

DAY = date(2026, 10, 14)
HOW = How(US, DAY)
TEST = Chore(
    id=12,
    title="Test the water",
    unit_id=1,
    unit="WREN",
    bed_id=None,
    bed=None,
    fish_lot_id=None,
    lot=None,
    grade=ChoreClass.LIFE_SUPPORT,
    rule_kind="after",
    rule_text="7 days",
    rule_words="7 days after",
    start_day=DAY,
    part=PartOfDay.MORNING,
    minutes=8,
    instructions=None,
    caution=None,
    readings="pH,ammonia",
    confirmation=None,
    adults_only=False,
    months=None,
    states=None,
    with_fish=False,
    template_key=None,
    template_version=None,
    next_due=DAY,
)
LOOK = replace(TEST, id=7, title="Look round", confirmation="Flow seen")
CHORES = {12: TEST, 7: LOOK}


def settling(text: str, how: How = HOW) -> Settling:
    return settling_of(text, CHORES, how)


def read(text: str, how: How = HOW) -> list[tuple[str, str]]:
    return [(one.measure.value, one.typed) for one in settling(text, how).readings]


@pytest.mark.parametrize("text", ["12", "12.", " #12 ", "12: done", "12 DONE", "12 d", "12 x", "12 ok"])
def test_a_number_alone_means_done(text: str) -> None:
    assert settling(text) == Settling(12, SettledAs.DONE, DAY)


@pytest.mark.parametrize("text", ["12 6 min", "12 6min", "12 done 6 minutes", "12 6 mins."])
def test_minutes_are_those_that_say_so(text: str) -> None:
    assert settling(text) == Settling(12, SettledAs.DONE, DAY, minutes=6)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("12 pH=7.1 ammonia=0.25", [("pH", "7.1"), ("ammonia", "0.25")]),
        ("12 ph = 7.1, amm=<0.25; 6 min", [("pH", "7.1"), ("ammonia", "<0.25")]),
        ("12 nitrite=0.5 ion temp=72 F", [("nitrite", "0.5 ion"), ("temperature", "72 F")]),
        ("12 nitrite=0.5 as N", [("nitrite", "0.5 as N")]),
        ("12 fill time=11:30 drain-time=2.5 min 9 min", [("fill time", "11:30"), ("drain time", "2.5 min")]),
        ("12 flow=500 L/h alk=4 dKH", [("flow", "500 L/h"), ("alkalinity", "4 dKH")]),
        ("12 no3=40 mg/L NO3", [("nitrate", "40 mg/L NO3")]),
    ],
)
def test_readings_are_measures_with_their_values(text: str, expected: list[tuple[str, str]]) -> None:
    assert read(text) == expected


def test_the_minutes_of_a_reading_are_not_those_of_the_chore() -> None:
    found = settling("12 fill=11.5 min 9 min")
    assert (found.minutes, found.readings[0].value) == (9, 11.5)
    assert settling("12 fill=11.5 min").minutes is None


def test_decimals_and_the_form_of_kits_are_those_of_the_sheet() -> None:
    comma = How(replace(METRIC, decimal_comma=True), DAY, Form.AS_ION, sure=True)
    one, other = settling("12 ammonia=0,25, pH=7,1", comma).readings
    assert (one.value, one.form, one.sure, other.value, other.form) == (0.25, Form.AS_ION, True, 7.1, None)


@pytest.mark.parametrize("text", ["7 flow seen", "7 Flow Seen 4 min", "7 done flow", "7 4 min; flow seen, ph=7"])
def test_the_words_it_insists_on_can_be_begun_in_any_case(text: str) -> None:
    assert settling(text).confirmed == "Flow seen"


def test_without_them_nothing_is_confirmed() -> None:
    assert settling("7 4 min").confirmed is None


@pytest.mark.parametrize(
    ("text", "reason"), [("12 skip rain all day", "rain all day"), ("12 S 3 min short", "3 min short")]
)
def test_left_out_with_all_that_follows_as_the_reason(text: str, reason: str) -> None:
    assert settling(text) == Settling(12, SettledAs.SKIPPED, DAY, reason=reason)


@pytest.mark.parametrize("text", ["12 defer +2", "12 defer to friday", "12 DEFER until 16 oct"])
def test_put_off_to_a_day_that_comes(text: str) -> None:
    assert settling(text) == Settling(12, SettledAs.DEFERRED, DAY, until=date(2026, 10, 16))


@pytest.mark.parametrize(
    ("text", "error", "words"),
    [
        ("done", NotUnderstood, "'done' begins with no number of a chore"),
        ("12x", NotUnderstood, "begins with no number of a chore"),
        ("13 done", NotFound, "There is no chore 13. See: farmops chores list"),
        ("12 flow seen", NotUnderstood, "'flow seen' is not understood. Understood after its number: done, skip"),
        ("7 fish seen", NotUnderstood, "'fish seen' is not understood. Look round insists on: Flow seen."),
        ("12 6 min 7 min", NotUnderstood, "'7 min' is not understood"),
        ("12 rust=3", NotUnderstood, "'rust' is nothing that is read here"),
        ("12 pH=19", OutOfRange, 'pH: "19" cannot be'),
        ("12 pH=", NotUnderstood, "'pH=' is not understood"),
        ("12 pH 7.1", NotUnderstood, "'pH 7.1' is not understood"),
        ("12 defer", NotUnderstood, "'' is no day"),
        ("12 defer soon", NotUnderstood, "'soon' is no day"),
        ("12 \x1b[31m", NotUnderstood, "is not understood"),
    ],
)
def test_what_is_not_clear_is_refused_with_what_would_be(text: str, error: type[FarmopsError], words: str) -> None:
    with pytest.raises(error) as told:
        settling(text)
    assert type(told.value) is error
    assert words in str(told.value)


def test_lines_keep_their_numbers_and_remarks_say_nothing() -> None:
    assert rows_of("# Wednesday\n12 done\n\n  13 x  \n#7 done\n") == [(2, "12 done"), (4, "13 x"), (5, "#7 done")]
    assert chore_number("#7 done") == 7


def test_a_number_too_long_for_any_chore_is_no_number() -> None:
    with pytest.raises(NotUnderstood):
        chore_number("9" * 40)


def test_measures_asked_for_are_those_of_the_unit() -> None:
    assert TEST.measures == (Measure.PH, Measure.AMMONIA)
    assert replace(TEST, unit_id=None).measures == ()
