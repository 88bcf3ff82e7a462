"""The chores a unit starts with: well-formed, safe in the order given, and the right set for each state."""

from __future__ import annotations

import dataclasses
import re
from enum import StrEnum

import pytest

from farmops.library import (
    ChoreTemplate,
    Standing,
    chore_templates,
    farm_templates,
    tables,
    templates_for,
)
from farmops.model.chores import AppliesTo, ChoreClass, PartOfDay
from farmops.model.units import UnitKind, UnitState

COUNTED = r"(?:[1-9]\d* (?:days|weeks|months) after|[1-9]\d* days)"
ORDINAL = r"(?:1st|21st|31st|2nd|22nd|3rd|23rd|(?:[4-9]|1\d|20|2[4-9]|30)th)"
MONTHS = "Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec"
RULE = re.compile(rf"once(?: \+[1-9]\d*)?|day|week|{COUNTED}|month on the {ORDINAL}|year on [1-9]\d? (?:{MONTHS})")
READINGS = {
    "ammonia", "nitrite", "nitrate", "pH", "temperature", "alkalinity", "fill time", "drain time",
}  # fmt: skip
WITH_FISH = (UnitKind.COUPLED, UnitKind.FISH_ONLY, UnitKind.HOLDING)
WITH_WATER = (UnitState.CYCLING, UnitState.RUNNING, UnitState.WINTERING)

each = pytest.mark.parametrize("template", chore_templates(), ids=lambda template: template.key)


def template(key: str) -> ChoreTemplate:
    return next(template for template in chore_templates() if template.key == key)


def keys(kind: UnitKind, state: UnitState) -> set[str]:
    return {template.key for template in templates_for(kind, state)}


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
    assert template.states
    assert len(set(template.states)) == len(template.states)
    assert len(set(template.kinds)) == len(template.kinds)


@pytest.mark.parametrize(
    ("column", "allowed"),
    [
        ("applies_to", AppliesTo),
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
def test_nothing_is_left_to_do_on_a_retired_unit(template: ChoreTemplate) -> None:
    assert UnitState.RETIRED not in template.states


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
    recurring = {t.key for t in templates_for(kind, state) if t.once_after_days is None}
    grave = {t.key for t in templates_for(kind, state) if t.grade is ChoreClass.LIFE_SUPPORT} & recurring
    assert {"pump-intake", "air-pump", "ground-fault-test", "top-up", "covers-nets"} <= grave
    assert {t.key for t in farm_templates() if t.fits(kind, state)} >= {
        "look-round-morning",
        "look-round-evening",
    }


@pytest.mark.parametrize("state", WITH_WATER)
@pytest.mark.parametrize("kind", WITH_FISH)
def test_toxic_water_is_tested_in_every_state_with_live_fish(kind: UnitKind, state: UnitState) -> None:
    asked = {reading for t in templates_for(kind, state) if t.once_after_days is None for reading in t.readings}
    assert {"ammonia", "nitrite", "pH", "temperature"} <= asked


@pytest.mark.parametrize("state", [UnitState.RUNNING, UnitState.WINTERING])
@pytest.mark.parametrize("kind", WITH_FISH)
def test_fish_are_fed_once_a_day_as_fish_care(kind: UnitKind, state: UnitState) -> None:
    feed = next(t for t in templates_for(kind, state) if t.key == "feed")
    assert (feed.grade, feed.rule, feed.part) == (ChoreClass.FISH_CARE, "day", PartOfDay.MORNING)
    assert "never made up" in (feed.caution or "")


@pytest.mark.parametrize("state", list(UnitState))
def test_a_unit_without_fish_has_no_fish_work(state: UnitState) -> None:
    fish_work = {"feed", "water-test", "fish-sample", "air-pump", "stocking-papers", "cycle-ready"}
    assert not keys(UnitKind.HYDROPONIC, state) & fish_work
    assert all(t.grade is not ChoreClass.FISH_CARE for t in templates_for(UnitKind.HYDROPONIC, state))


@pytest.mark.parametrize("kind", [UnitKind.FISH_ONLY, UnitKind.HOLDING])
@pytest.mark.parametrize("state", list(UnitState))
def test_a_unit_without_beds_has_no_bed_work(kind: UnitKind, state: UnitState) -> None:
    bed_work = {"leaf-look", "siphon-time", "siphon-clean", "siphon-trials", "pipe-roots", "bed-solids"}
    assert not keys(kind, state) & bed_work


EXPECTED = {
    UnitState.PLANNED: ({"container-history"}, {"leak-test", "feed"}),
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
        {"feed", "water-test", "winter-feeding", "backup-drill", "ground-fault-test"},
        {"fish-sample", "chelated-iron", "frame-paint"},
    ),
    UnitState.RESTING: ({"rest-pump", "covers-nets", "fittings-look"}, {"feed", "water-test", "pump-intake"}),
    UnitState.RETIRED: (set(), {template.key for template in chore_templates()}),
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
    assert not keys(kind, state) & {t.key for t in farm_templates()}


def test_every_template_is_given_somewhere() -> None:
    given = {key for kind in UnitKind for state in UnitState for key in keys(kind, state)}
    assert given | {t.key for t in farm_templates()} == {t.key for t in chore_templates()}


def test_look_round_is_two_chores_of_the_farm() -> None:
    parts = {t.part for t in farm_templates() if t.key.startswith("look-round")}
    assert parts == {PartOfDay.MORNING, PartOfDay.EVENING}


def test_sealant_never_gets_less_than_a_day() -> None:
    """Two dates apart by two hold more than 24 h between them, whatever the hours."""
    sealed, cured = template("seal-fittings").once_after_days, template("seal-cured").once_after_days
    filled = template("first-fill").once_after_days
    assert sealed is not None
    assert cured is not None
    assert filled is not None
    assert cured - sealed >= 2
    assert filled > cured
    assert "never under 24 h" in template("seal-cured").instructions
    assert template("seal-cured").standing is Standing.COMMON_PRACTICE


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


def test_months_of_a_chore_are_numbers() -> None:
    assert template("frame-paint").months == (5, 6, 7, 8, 9)
    assert template("feed").months == ()


def test_a_date_in_the_year_falls_in_the_active_months() -> None:
    months = MONTHS.split("|")
    for yearly in (t for t in chore_templates() if t.rule.startswith("year on")):
        assert not yearly.months or months.index(yearly.rule.split()[-1]) + 1 in yearly.months


def test_templates_are_read_once_and_cannot_be_changed() -> None:
    assert chore_templates() is chore_templates()
    assert farm_templates() is farm_templates()
    running = (UnitKind.COUPLED, UnitState.RUNNING)
    assert templates_for(*running) is templates_for(*running)
    with pytest.raises(dataclasses.FrozenInstanceError):
        template("feed").minutes = 3  # type: ignore[misc]
