"""Limits of the water: each with a source and a first step, strictest for the species that have their own."""

from __future__ import annotations

import pytest

from farmops.library import limits_for, species, tables, water_limits
from farmops.library.water_limits import FILTER, FISH, PLANTS, first_step
from farmops.model.limits import Level, Limit, Side
from farmops.model.readings import LIKELY, NITROGEN, Form, Measure

EVERYONE = limits_for(["rainbow-trout", "nile-tilapia"], fish=True, bacteria=True, plants=True)
each = pytest.mark.parametrize("limit", EVERYONE, ids=lambda one: f"{one.who}-{one.measure}-{one.side}-{one.at:g}")


@each
def test_a_limit_says_why_what_first_and_by_whom(limit: Limit) -> None:
    assert limit.why
    assert limit.first
    assert limit.source
    assert limit.level is not Level.GOOD
    assert not limit.why.endswith(".")
    assert not limit.first.endswith(".")


@each
def test_a_limit_lies_where_readings_lie(limit: Limit) -> None:
    low, high = LIKELY[limit.measure]
    assert low <= limit.at <= high or (limit.form is Form.AS_ION and limit.at <= 4.5 * high)
    assert (limit.form is not None or limit.toxic) == (limit.measure in NITROGEN)


@each
def test_beyond_a_graver_limit_of_the_same_one_lies_what_is_beyond_the_milder(limit: Limit) -> None:
    milder = [
        one
        for one in EVERYONE
        if (one.who, one.measure, one.side, one.toxic, one.form)
        == (limit.who, limit.measure, limit.side, limit.toxic, limit.form)
        and one.level.gravity < limit.level.gravity
    ]
    for one in milder:
        assert one.at < limit.at if limit.side is Side.ABOVE else one.at > limit.at


def test_only_those_who_live_there_have_a_say() -> None:
    assert {limit.who for limit in limits_for([], fish=False, bacteria=True, plants=False)} == {FILTER}
    assert {limit.who for limit in limits_for([], fish=False, bacteria=False, plants=True)} == {PLANTS}
    assert limits_for([], fish=False, bacteria=False, plants=False) == ()
    assert {limit.who for limit in water_limits()} == {FISH, FILTER, PLANTS}


def test_species_come_first_once_each_and_those_without_facts_add_nothing() -> None:
    found = limits_for(["rainbow-trout", "rainbow-trout", "yellow-perch", "no such fish"], fish=True, bacteria=False,
                       plants=False)  # fmt: skip
    assert [limit.who for limit in found[:5]] == ["rainbow trout"] * 5
    assert {limit.who for limit in found[5:]} == {FISH}


def test_the_limits_of_a_species_are_its_packaged_facts_marked_as_remembered() -> None:
    trout = species("rainbow-trout")
    assert trout is not None
    own = {(limit.measure, limit.side): limit for limit in EVERYONE if limit.who == "rainbow trout"}
    assert own[Measure.OXYGEN, Side.BELOW].at == trout.oxygen_floor_mg_l
    assert own[Measure.TEMPERATURE, Side.ABOVE].at == trout.vital_high_c
    assert own[Measure.AMMONIA, Side.ABOVE].at == trout.tan_limit_mg_l
    assert all(limit.remembered for limit in own.values())


def test_every_first_step_is_the_step_of_a_limit() -> None:
    used = {(limit.measure.value, limit.side.value) for limit in EVERYONE}
    assert {(row["measure"], row["side"]) for row in tables.read("water_steps.csv")} == used
    assert first_step(Measure.OXYGEN, Side.BELOW).startswith("air on full now")


def test_raising_the_ph_is_never_the_first_step_against_ammonia() -> None:
    assert "do not raise the pH" in first_step(Measure.AMMONIA, Side.ABOVE)
    assert first_step(Measure.PH, Side.BELOW).startswith("test ammonia")
