"""The chores a unit starts with: well-formed, safe in the order given, and the right set for each state."""

from __future__ import annotations

import dataclasses
import re
from enum import StrEnum

import pytest

from farmops.library import (
    BUILD_STEPS,
    ChoreTemplate,
    Standing,
    chore_templates,
    of_state,
    tables,
    with_cure,
)
from farmops.model.chores import AppliesTo, ChoreClass, Occasion, PartOfDay
from farmops.model.units import UnitKind, UnitState
from tests.labels import common_practice

COUNTED = r"(?:[1-9]\d* (?:days|weeks|months) after|[1-9]\d* days)"
RECORDED = r"(?:[1-9]\d* pump hours or [1-9]\d* weeks|when [a-z ]+)"
ORDINAL = r"(?:1st|21st|31st|2nd|22nd|3rd|23rd|(?:[4-9]|1\d|20|2[4-9]|30)th)"
MONTHS = "Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec"
RULE = re.compile(
    rf"(?:once|day(?: [1-9]\d* times)?|week|{COUNTED}|{RECORDED}|month on the {ORDINAL}|year on [1-9]\d? (?:{MONTHS}))"
    r"(?: \+[1-9]\d*)?"
)
READINGS = {
    "ammonia", "nitrite", "nitrate", "pH", "temperature", "alkalinity", "oxygen", "fill time",
    "drain time",
}  # fmt: skip
WITH_FISH = (UnitKind.COUPLED, UnitKind.FISH_ONLY, UnitKind.HOLDING)
WITH_WATER = (UnitState.CYCLING, UnitState.RUNNING, UnitState.WINTERING)

each = pytest.mark.parametrize("template", chore_templates(), ids=lambda template: template.key)


def template(key: str) -> ChoreTemplate:
    return next(template for template in chore_templates() if template.key == key)


def coming(kind: UnitKind, state: UnitState) -> list[ChoreTemplate]:
    """What a unit and its beds get, the farm's own left out."""
    return [t for t in of_state(chore_templates(), kind, state) if t.applies_to is not AppliesTo.FARM]


def keys(kind: UnitKind, state: UnitState) -> set[str]:
    return {template.key for template in coming(kind, state)}


def on_occasion(occasion: Occasion) -> dict[str, ChoreTemplate]:
    return {t.key: t for t in chore_templates() if t.occasion is occasion}


FARMS_OWN = [t for t in chore_templates() if t.applies_to is AppliesTo.FARM]


def test_keys_are_unique() -> None:
    listed = [template.key for template in chore_templates()]
    assert len(listed) == len(set(listed)) > 35


@each
def test_key_is_a_slug_and_version_counts_from_one(template: ChoreTemplate) -> None:
    assert re.fullmatch(r"[a-z]+(-[a-z]+)*", template.key)
    assert template.version >= 1


@each
def test_row_says_what_to_do_where_it_comes_from_and_for_whom(template: ChoreTemplate) -> None:
    assert template.title
    assert template.instructions.endswith(".")
    assert template.source
    assert template.kinds
    assert bool(template.states) is (template.occasion is Occasion.STATE)
    assert len(set(template.states)) == len(template.states)
    assert len(set(template.kinds)) == len(template.kinds)


@pytest.mark.parametrize(
    ("column", "allowed"),
    [
        ("applies_to", AppliesTo),
        ("occasion", Occasion),
        ("kinds", UnitKind),
        ("states", UnitState),
        ("class", ChoreClass),
        ("part_of_day", PartOfDay),
        ("standing", Standing),
    ],
)
def test_cells_hold_only_words_of_the_model(column: str, allowed: type[StrEnum]) -> None:
    for row in tables.read("chore_templates.csv"):
        assert set(tables.words(row[column])) <= set(allowed), row["key"]


@each
def test_a_retired_unit_is_taken_down_and_nothing_else(template: ChoreTemplate) -> None:
    assert (UnitState.RETIRED in template.states) is template.key.startswith("retire-")
    assert UnitState.RETIRED not in template.states or template.once_after_days is not None


@common_practice("fish leave a unit before its power does, and water before it is stored")
def test_a_unit_is_taken_down_fish_first_then_power_and_water() -> None:
    waits = {t.key: t.once_after_days for t in coming(UnitKind.COUPLED, UnitState.RETIRED)}
    assert waits == {"retire-fish": 0, "retire-test": 0, "retire-power": 1, "retire-drain": 1, "retire-store": 2}
    assert template("retire-fish").with_fish
    for key in ("retire-power", "retire-drain"):
        assert template(key).confirmation == "no fish left"


@each
def test_rule_is_in_the_small_grammar(template: ChoreTemplate) -> None:
    assert RULE.fullmatch(template.rule)


@each
def test_minutes_are_those_of_one_job(template: ChoreTemplate) -> None:
    assert 1 <= template.minutes <= 240


@each
def test_readings_are_known_and_asked_once(template: ChoreTemplate) -> None:
    assert set(template.readings) <= READINGS
    assert len(set(template.readings)) == len(template.readings)


@each
def test_work_for_adults_only_says_what_can_hurt(template: ChoreTemplate) -> None:
    assert not template.adults_only or template.caution


@each
def test_work_with_plugs_or_chemicals_is_for_adults(template: ChoreTemplate) -> None:
    """The look round is for everyone: it unplugs only when something is wrong."""
    text = f"{template.instructions} {template.caution}".casefold()
    risky = re.search(r"\b(unplug\w*|plugs|prime|sealant stays|dose|remove chlorine|goggles)\b", text)
    assert not risky or template.adults_only or template.key.startswith("look-round")


@each
def test_unplugged_pump_is_seen_to_run_again(template: ChoreTemplate) -> None:
    stops_water = template.key in {
        "pump-intake",
        "pump-strip",
        "filter-pad-rinse",
        "bottom-solids",
        "pipe-roots",
    }
    assert not stops_water or template.confirmation == "flow seen"


@pytest.mark.parametrize("state", WITH_WATER)
@pytest.mark.parametrize("kind", WITH_FISH)
def test_life_support_recurs_in_every_state_with_live_fish(kind: UnitKind, state: UnitState) -> None:
    recurring = {t.key for t in coming(kind, state) if t.once_after_days is None}
    grave = {t.key for t in coming(kind, state) if t.grade is ChoreClass.LIFE_SUPPORT} & recurring
    assert {"pump-intake", "air-pump", "ground-fault-test", "top-up", "covers-nets"} <= grave
    assert {t.key for t in FARMS_OWN if t.fits(kind, state)} >= {
        "look-round-morning",
        "look-round-evening",
    }


@pytest.mark.parametrize("state", WITH_WATER)
@pytest.mark.parametrize("kind", WITH_FISH)
def test_toxic_water_is_tested_in_every_state_with_live_fish(kind: UnitKind, state: UnitState) -> None:
    asked = {reading for t in coming(kind, state) if t.once_after_days is None for reading in t.readings}
    assert {"ammonia", "nitrite", "pH", "temperature"} <= asked


@pytest.mark.parametrize("state", [UnitState.RUNNING, UnitState.WINTERING])
@pytest.mark.parametrize("kind", WITH_FISH)
def test_fish_are_fed_once_a_day_as_fish_care(kind: UnitKind, state: UnitState) -> None:
    feed = next(t for t in coming(kind, state) if t.key == "feed")
    assert (feed.grade, feed.rule, feed.part) == (ChoreClass.FISH_CARE, "day", PartOfDay.MORNING)
    assert "never made up" in (feed.caution or "")


@pytest.mark.parametrize("state", list(UnitState))
def test_a_unit_without_fish_has_no_fish_work(state: UnitState) -> None:
    fish_work = {"feed", "water-test", "fish-sample", "air-pump", "stocking-papers", "cycle-ready"}
    assert not keys(UnitKind.HYDROPONIC, state) & fish_work
    assert all(t.grade is not ChoreClass.FISH_CARE for t in coming(UnitKind.HYDROPONIC, state))


@pytest.mark.parametrize("kind", [UnitKind.FISH_ONLY, UnitKind.HOLDING])
@pytest.mark.parametrize("state", list(UnitState))
def test_a_unit_without_beds_has_no_bed_work(kind: UnitKind, state: UnitState) -> None:
    bed_work = {"leaf-look", "siphon-time", "siphon-clean", "siphon-trials", "pipe-roots", "bed-solids"}
    assert not keys(kind, state) & bed_work


EXPECTED = {
    UnitState.PLANNED: ({"container-history", "site-check"}, {"leak-test", "feed"}),
    UnitState.BUILDING: (
        {"container-history", "leak-test", "seal-fittings", "seal-cured", "first-fill", "siphon-trials"},
        {"feed", "cycle-ammonia"},
    ),
    UnitState.CYCLING: (
        {"cycle-ammonia", "cycle-nitrate", "stocking-papers", "cycle-ready", "pump-intake"},
        {"feed", "fish-sample", "first-fill", "water-test"},
    ),
    UnitState.RUNNING: (
        {"feed", "leaf-look", "water-test", "filter-pad-change", "fish-sample", "bed-solids", "pump-strip"},
        {"cycle-ammonia", "winter-feeding", "rest-pump"},
    ),
    UnitState.WINTERING: (
        {"feed", "water-test", "winter-feeding", "winter-look", "backup-drill", "ground-fault-test"},
        {"fish-sample", "chelated-iron", "frame-paint"},
    ),
    UnitState.RESTING: (
        {"rest-pump", "rest-bed", "covers-nets", "fittings-look"},
        {"feed", "water-test", "pump-intake"},
    ),
    UnitState.RETIRED: (
        {"retire-fish", "retire-test", "retire-power", "retire-drain", "retire-store"},
        {"feed", "water-test", "pump-intake", "covers-nets", "rest-pump"},
    ),
}


@pytest.mark.parametrize("state", list(UnitState))
def test_a_coupled_unit_gets_the_set_of_its_state(state: UnitState) -> None:
    wanted, unwanted = EXPECTED[state]
    given = keys(UnitKind.COUPLED, state)
    assert wanted <= given
    assert not unwanted & given


@pytest.mark.parametrize("kind", list(UnitKind))
@pytest.mark.parametrize("state", list(UnitState))
def test_farm_chores_are_not_given_to_each_unit(kind: UnitKind, state: UnitState) -> None:
    assert not keys(kind, state) & {t.key for t in FARMS_OWN}


def test_every_template_is_given_somewhere() -> None:
    given = {key for kind in UnitKind for state in UnitState for key in keys(kind, state)}
    events = {key for occasion in Occasion for key in on_occasion(occasion) if occasion is not Occasion.STATE}
    assert given | {t.key for t in FARMS_OWN} | events == {t.key for t in chore_templates()}


@each
def test_work_of_a_state_that_ends_does_not_outlast_it_as_life_support(template: ChoreTemplate) -> None:
    """What keeps fish alive is suspended by no state, so that it would go on after a winter or a resting time."""
    passing = {UnitState.WINTERING, UnitState.RESTING, UnitState.RETIRED}
    of_them_alone = bool(template.states) and set(template.states) <= passing
    assert not (of_them_alone and template.grade.keeps_fish_alive and template.once_after_days is None)


def test_look_round_is_two_chores_of_the_farm() -> None:
    parts = {t.part for t in FARMS_OWN if t.key.startswith("look-round")}
    assert parts == {PartOfDay.MORNING, PartOfDay.EVENING}


@common_practice("sealant stays dry for a day at least, whatever its label promises")
def test_sealant_never_gets_less_than_a_day() -> None:
    """Two dates apart by two hold more than 24 h between them, whatever the hours."""
    sealed, cured = template("seal-fittings").wait_days, template("seal-cured").wait_days
    assert cured - sealed >= 2
    assert template("first-fill").wait_days > cured
    assert "never under 24 h" in template("seal-cured").instructions
    assert template("seal-cured").standing is Standing.COMMON_PRACTICE


def waits(hours: int, **rules: str) -> list[int]:
    """Days to wait for each step of the building, some templates given another rule, with a cure time [h]."""
    changed = (dataclasses.replace(t, rule=rules.get(t.key.replace("-", "_"), t.rule)) for t in chore_templates())
    found = {t.key: t.wait_days for t in with_cure(changed, hours)}
    return [found[key] for key in BUILD_STEPS]


AS_PACKAGED = [1, 2, 3, 5, 8, 9]


@pytest.mark.parametrize(
    ("hours", "days"),
    [
        (0, AS_PACKAGED),
        (24, AS_PACKAGED),
        (25, [1, 2, 3, 6, 9, 10]),
        (48, [1, 2, 3, 6, 9, 10]),
        (72, [1, 2, 3, 7, 11, 12]),
        (168, [1, 2, 3, 11, 19, 20]),
    ],
)
def test_a_longer_label_moves_what_waits_for_it(hours: int, days: list[int]) -> None:
    assert waits(hours) == days
    assert waits(hours)[3] - waits(hours)[2] > hours / 24
    assert waits(hours)[4] - waits(hours)[3] > hours / 24


def test_a_changed_table_does_not_get_under_the_floor() -> None:
    assert waits(0, seal_cured="once +3") == [1, 2, 3, 5, 10, 11]
    assert waits(1, seal_cured="once", first_fill="once") == [1, 2, 3, 5, 7, 16]
    assert waits(24, first_fill="once +30") == [1, 2, 3, 5, 30, 9]


def test_a_set_without_sealing_has_nothing_to_wait_for() -> None:
    dropped = [t for t in chore_templates() if t.key != "seal-fittings"]
    assert with_cure(dropped, 500)[:4] == tuple(dropped)[:4]
    assert next(t for t in with_cure(dropped, 24) if t.key == "first-fill").wait_days == 8


def test_the_leak_test_stands_a_day() -> None:
    assert template("leak-test-read").wait_days - template("leak-test").wait_days >= 1
    assert "Not before 24 h" in template("leak-test-read").instructions


def test_the_pump_is_stripped_by_its_hours_or_by_the_weeks_they_come_to() -> None:
    strip = template("pump-strip")
    assert strip.rule == "2000 pump hours or 12 weeks"
    assert abs(12 * 7 * 24 - 2000) < 24
    assert strip.standing is Standing.LABEL


@common_practice("frost and heat are prepared for the day before, and never without a word on what hurts")
@pytest.mark.parametrize("key", ["frost-ready", "heat-ready"])
def test_weather_to_come_is_one_chore_of_the_farm(key: str) -> None:
    assert template(key) in FARMS_OWN
    assert template(key).grade is ChoreClass.LIFE_SUPPORT
    assert template(key).rule in ("when frost to come", "when heat to come")
    assert template(key).caution


def test_every_bed_is_picked_whatever_its_kind_and_before_it_is_too_late() -> None:
    for key in ("pick-ready", "past-its-time"):
        assert template(key).applies_to is AppliesTo.BED
        assert template(key).words.startswith("when planting ")
    assert "hold" in (template("pick-ready").caution or "")


def test_ten_cycles_are_the_baseline_of_a_unit() -> None:
    trials = template("siphon-trials")
    assert trials.readings == ("fill time", "drain time")
    assert "baseline" in trials.instructions
    assert trials.confirmation == "ten cycles seen"


@pytest.mark.parametrize(
    ("earlier", "later"),
    [
        ("container-history", "leak-test"),
        ("leak-test", "leak-test-read"),
        ("leak-test-read", "seal-fittings"),
        ("seal-cured", "first-fill"),
        ("first-fill", "siphon-trials"),
        ("stocking-papers", "cycle-ready"),
    ],
)
def test_what_comes_first_is_due_first(earlier: str, later: str) -> None:
    first, second = template(earlier).once_after_days, template(later).once_after_days
    assert first is not None
    assert second is not None
    assert first < second


@pytest.mark.parametrize(
    ("key", "days"), [("container-history", 0), ("leak-test", 1), ("cycle-ready", 28), ("feed", None)]
)
def test_once_after_days_is_read_from_the_rule(key: str, days: int | None) -> None:
    assert template(key).once_after_days == days


@pytest.mark.parametrize(
    ("rule", "words", "days"),
    [
        ("once", "once", 0),
        ("once +3", "once", 3),
        ("day 3 times +1", "day 3 times", 1),
        ("7 days after", "7 days after", 0),
    ],
)
def test_a_rule_is_words_and_days_to_wait(rule: str, words: str, days: int) -> None:
    one = dataclasses.replace(template("feed"), rule=rule)
    assert (one.words, one.wait_days) == (words, days)
    assert one.waiting(days) is one
    assert one.waiting(days + 2).rule == f"{words} +{days + 2}"


SETS = {
    Occasion.STOCKING: {"stock-test": "day 14 times", "stock-papers": "once"},
    Occasion.PLANTING: {"plant-look": "once +7"},
    Occasion.TREATMENT: {"treat-sign": "once", "treat-test": "day 3 times", "treat-over": "once +1"},
    Occasion.DOSING: {"dose-test": "once +1"},
    Occasion.BED_CLEANING: {"bed-test": "day 3 times +1"},
    Occasion.POWER_CUT: {"outage-no-feed": "once", "outage-test": "day 7 times"},
    Occasion.DEATHS: {"deaths-test": "once", "deaths-feed-off": "once", "deaths-call": "once"},
}


@pytest.mark.parametrize("occasion", SETS)
def test_each_occasion_has_its_set(occasion: Occasion) -> None:
    assert {key: t.rule for key, t in on_occasion(occasion).items()} == SETS[occasion]


@pytest.mark.parametrize("key", ["stock-test", "bed-test", "treat-test", "outage-test"])
def test_water_that_may_turn_is_tested_as_life_support(key: str) -> None:
    assert template(key).grade is ChoreClass.LIFE_SUPPORT
    assert "ammonia" in template(key).readings


@each
def test_what_an_occasion_gives_comes_to_an_end(template: ChoreTemplate) -> None:
    assert template.occasion is Occasion.STATE or template.words == "once" or template.words.endswith("times")


@pytest.mark.parametrize("key", ["treat-sign", "treat-over"])
def test_a_treatment_defers_to_its_label(key: str) -> None:
    assert template(key).standing is Standing.LABEL
    assert "label" in f"{template(key).instructions} {template(key).caution}"


def test_months_of_a_chore_are_numbers() -> None:
    assert template("frame-paint").months == (5, 6, 7, 8, 9)
    assert template("feed").months == ()


def test_a_date_in_the_year_falls_in_the_active_months() -> None:
    months = MONTHS.split("|")
    for yearly in (t for t in chore_templates() if t.rule.startswith("year on")):
        assert not yearly.months or months.index(yearly.rule.split()[-1]) + 1 in yearly.months


def test_templates_are_read_once_and_cannot_be_changed() -> None:
    assert chore_templates() is chore_templates()
    with pytest.raises(dataclasses.FrozenInstanceError):
        template("feed").minutes = 3  # type: ignore[misc]
