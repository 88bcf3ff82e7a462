"""Typed text in a field: what it means, what is said about it, and the names that a few letters stand for."""

from __future__ import annotations

from contextlib import suppress
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.costs import Category
from farmops.model.errors import FarmopsError, NotFound, NotUnderstood, OutOfRange, Refused
from farmops.model.units import UnitState
from farmops.quantities import METRIC, US, parse_life, show_life
from farmops.tui.forms.chores import (
    EXAMPLES,
    USUAL_RULES,
    all_rules,
    months_told,
    read_list,
    read_months,
    read_rule,
    read_states,
    rule_told,
)
from farmops.tui.forms.settling import COMING_DAYS, coming_day
from farmops.tui.screens import first_run
from farmops.tui.widgets.completing import NAMED_AT_MOST, matches, resolved, told_at_once
from farmops.tui.widgets.field_box import LABEL, WIDEST_LABEL, room_for_labels
from farmops.tui.widgets.fields import Field, Kind, Setting, echo_of, hint_of, understood
from tests.tui.stage import TODAY

SETTING = Setting(US, TODAY)
BEDS = ("WREN-N", "WREN-S", "ROOK-N")
BED = Field("bed", "Bed", Kind.NAME, options=BEDS, strict=True, required=True)
THINGS = ("fish feed 50 lb", "filter pads", "pump oil")
THING = Field("what", "What", Kind.NAME, options=THINGS)


@pytest.mark.parametrize(
    ("kind", "typed", "echo"),
    [
        (Kind.MASS, "1 6", "= 1 lb 6 oz"),
        (Kind.DAY, "3 may", "= Sun 3 May 2026"),
        (Kind.DAY, "today", "= Wed 14 Oct 2026"),
        (Kind.VOLUME, "950 L", "= 251 gal"),
        (Kind.AREA, "4 x 6 ft", "= 24.0 sq ft"),
        (Kind.LENGTH, "30 cm", "= 11.8 in"),
        (Kind.MONEY, "42.5", "= $42.50"),
        (Kind.PRICE, "3.5", "= $3.50 per lb"),
        (Kind.COUNT, "30", ""),
        (Kind.TEXT, "by the gate", ""),
        (Kind.MASS, "1 lb 6 oz", ""),
        (Kind.MASS, "1 six", ""),
        (Kind.MASS, "", ""),
    ],
)
def test_what_was_understood_stands_beside_the_text(kind: Kind, typed: str, echo: str):
    assert echo_of(Field("a", "A", kind), typed, SETTING) == echo


@pytest.mark.parametrize("kind", [kind for kind in Kind if not kind.picked and kind is not Kind.DAY])
@pytest.mark.parametrize("measures", [US, METRIC])
def test_hints_are_understood_themselves(kind: Kind, measures: object):
    setting = Setting(measures, TODAY)  # type: ignore[arg-type]
    field = Field("a", "A", kind)
    for example in hint_of(field, setting).split(" or "):
        assert not example or understood(field, example, setting) is not None


def test_an_empty_field_is_nothing_unless_it_is_needed():
    assert understood(THING, "  ", SETTING) is None
    with pytest.raises(NotUnderstood, match="This is needed"):
        understood(BED, "  ", SETTING)


@pytest.mark.parametrize("typed", ["-1", "1.5", "²", "0", "9" * 30, "ten"])
def test_what_is_no_count(typed: str):
    with pytest.raises(NotUnderstood):
        understood(Field("n", "N", Kind.COUNT), typed, SETTING)


def test_zero_counts_where_it_may():
    assert understood(Field("n", "N", Kind.COUNT, zero_ok=True), "0", SETTING) == 0


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("wr", ("WREN-N", "WREN-S")),
        ("ro", ("ROOK-N",)),
        ("n", ("WREN-N", "ROOK-N")),
        ("WREN n", ("WREN-N",)),
        ("ren", ()),
        ("", ()),
    ],
)
def test_names_are_found_by_how_their_words_begin(typed: str, found: tuple[str, ...]):
    assert matches(BEDS, typed) == found


def test_a_place_is_found_by_the_words_in_its_zone():
    assert matches(("America/New_York", "Europe/Lisbon"), "new york") == ("America/New_York",)
    assert matches(("America/New_York", "Europe/Lisbon"), "lis") == ("Europe/Lisbon",)


@pytest.mark.parametrize(("typed", "meant"), [("ro", "ROOK-N"), ("wren-s", "WREN-S"), ("wr s", "WREN-S")])
def test_a_few_letters_stand_for_the_only_name_they_begin(typed: str, meant: str):
    assert resolved(BED, typed) == meant


def test_an_unclear_name_is_asked_about_and_an_unknown_one_hinted_at():
    with pytest.raises(NotUnderstood, match="Which one: WREN-N, WREN-S"):
        resolved(BED, "wr")
    with pytest.raises(NotFound, match="Did you mean ROOK-N"):
        resolved(BED, "ROCK-N")
    with pytest.raises(NotFound, match="Known: WREN-N, WREN-S, ROOK-N"):
        resolved(BED, "zz")


def test_a_city_that_is_missed_is_answered_with_zones_whose_city_is_near_or_with_none() -> None:
    zone = next(field for field in first_run.spec_of().fields if field.name == "zone")
    with pytest.raises(NotFound, match=r"Did you mean Europe/London\?"):
        resolved(zone, "Londn")
    with pytest.raises(NotFound) as missed:
        resolved(zone, "Springfield")
    assert str(missed.value) == (
        "There is no 'Springfield' here. "
        "Name a large city in your zone, such as Lisbon or New York, or type its continent: Europe/"
    )


def test_an_altitude_that_is_missed_is_answered_with_heights_of_places() -> None:
    height = next(field for field in first_run.spec_of().fields if field.name == "altitude")
    with pytest.raises(NotUnderstood, match=r"'high' is no altitude\. Understood: 1200 ft, 365 m"):
        understood(height, "high", Setting(US, TODAY))


def test_long_names_are_listed_in_few() -> None:
    long = Field("bed", "Bed", Kind.NAME, options=tuple(f"{sign * 70} {sign}" for sign in "ABCDE"), strict=True)
    with pytest.raises(NotFound, match=r"Known: A{70} A, B{70} B and 3 more"):
        resolved(long, "zz")


def test_labels_get_the_room_of_the_longest() -> None:
    assert room_for_labels([Field("ph", "pH", Kind.TEXT)]) == LABEL
    assert room_for_labels([Field("low", "highest temperature", Kind.TEXT)]) == 20
    assert room_for_labels([Field("name", "水" * 40, Kind.TEXT)]) == WIDEST_LABEL


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("fis", "fish feed 50 lb"),
        ("pump", "pump"),
        ("pum", "pump oil"),
        ("pum ", "pum"),
        ("fi", "fi"),
        ("oil", "oil"),
        ("hose", "hose"),
        ("FILTER PADS", "filter pads"),
    ],
)
def test_where_any_words_will_do_only_a_word_left_off_is_finished(typed: str, meant: str):
    assert resolved(THING, typed) == meant


@pytest.mark.parametrize(
    "typed", ["mon", "Tue Fri", "wed", "week", "day", "14 days", "2 weeks on Mon", "3 days", "once"]
)
def test_the_rules_shown_first_change_none_that_is_typed(typed: str):
    rule = Field("rule", "Due", Kind.NAME, "", USUAL_RULES)
    assert resolved(rule, typed) == typed


def test_the_rules_shown_first_are_rules():
    assert all(read_rule(rule, Setting(US, TODAY)) for rule in USUAL_RULES)


def test_numbered_names_are_picked_by_a_digit():
    field = Field("why", "Why", Kind.NAME, options=THINGS, numbered=True)
    assert [resolved(field, digit) for digit in ("1", "3", "4", "0")] == ["fish feed 50 lb", "pump oil", "4", "0"]


@given(st.text(max_size=30))
def test_any_text_is_understood_or_refused_in_words(typed: str):
    for kind in Kind:
        field = Field("a", "A", kind, options=BEDS, strict=True)
        with suppress(FarmopsError):
            understood(field, typed, SETTING)
        echo_of(field, typed, SETTING)


@pytest.mark.parametrize(
    ("typed", "day"),
    [("1", 15), ("9", 23), ("sat", 17), ("wed", 21), ("tomorrow", 15), ("20 oct", 20), ("2026-10-30", 30)],
)
def test_days_to_come(typed: str, day: int):
    assert coming_day(typed, SETTING) == date(2026, 10, day)


def test_a_refused_day_to_come_names_the_days_that_the_hint_names():
    with pytest.raises(NotUnderstood, match=f"'20 okt' is no day to come. Understood: {COMING_DAYS}"):
        coming_day("20 okt", SETTING)
    assert [coming_day(one, SETTING).day for one in ("3", "sat", "20 oct")] == [17, 17, 20]


@pytest.mark.parametrize(
    ("typed", "months"),
    [
        ("apr-sep", (4, 5, 6, 7, 8, 9)),
        ("nov - feb", (1, 2, 11, 12)),
        ("4 5, june", (4, 5, 6)),
        ("12", (12,)),
        ("jan-dec", tuple(range(1, 13))),
    ],
)
def test_months(typed: str, months: tuple[int, ...]):
    assert read_months(typed, SETTING) == months
    assert read_months(months_told(months, SETTING), SETTING) == months


@pytest.mark.parametrize("typed", ["13", "0", "smarch", "-", "apr-", "apr--may"])
def test_what_is_no_month(typed: str):
    if typed == "apr-":
        assert read_months(typed, SETTING) == (4,)
    else:
        with pytest.raises(NotUnderstood, match="no month"):
            read_months(typed, SETTING)


def test_states_are_named_by_how_they_begin():
    assert read_states("run, winter", SETTING) == (UnitState.RUNNING, UnitState.WINTERING)
    with pytest.raises(NotUnderstood, match="'re' is no state"):
        read_states("re", SETTING)


def test_lists_are_parted_by_commas():
    assert read_list("pH,  ammonia ,", SETTING) == ("pH", "ammonia")


@pytest.mark.parametrize(
    ("typed", "months"), [("8 years", 96), ("30 months", 30), ("2 years 6 months", 30), ("30", 30), ("1y", 12)]
)
def test_lengths_of_life(typed: str, months: int):
    assert parse_life(typed) == months
    assert parse_life(show_life(months)) == months


def test_a_rule_is_told_with_its_next_days():
    setting = Setting(US, TODAY, {"start_day": "20 oct"})
    assert rule_told(read_rule("mon thu", setting), setting) == "every Mon and Thu: Thu 22 Oct, Mon 26 Oct, Thu 29 Oct"
    setting.typed["start_day"] = "not a day yet"
    assert rule_told(read_rule("once", setting), setting) == "once on 2026-10-14: Wed 14 Oct"
    assert "Fri 1 Jan 2027" in rule_told(read_rule("year on 1 jan", setting), setting)


@pytest.mark.parametrize("rule", ["now and then", "month on the 32nd", "day until 2020-01-01"])
def test_a_rule_that_cannot_be_is_refused(rule: str):
    with pytest.raises((NotUnderstood, Refused, OutOfRange)):
        read_rule(rule, SETTING)


@pytest.mark.parametrize(
    ("typed", "near"), [("2 week on monday", "2 weeks on Mon"), ("monthly 1st", "month on the 1st")]
)
def test_a_rule_that_is_no_rule_is_answered_with_the_nearest_three(typed: str, near: str):
    with pytest.raises(NotUnderstood) as refused:
        read_rule(f"{typed} or so", SETTING)
    told = str(refused.value)
    assert near in told
    assert told.count(";") == 2
    assert told.endswith("F1 lists all.")
    assert any(near.split(" on ")[0] in line for line in all_rules())


def test_the_nearest_rules_are_rules():
    assert all(read_rule(one, SETTING).words for one in EXAMPLES)


def test_a_few_short_names_are_all_listed_and_of_many_the_first():
    kinds = tuple(one.value for one in Category)
    assert told_at_once(kinds) == kinds
    assert len(kinds) > NAMED_AT_MOST
    assert len(told_at_once(tuple(f"crop {n}" for n in range(40)))) == NAMED_AT_MOST
