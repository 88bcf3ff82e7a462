"""Beds, siphons, pipes and pumps."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from farmops.model.errors import OutOfRange
from farmops.science.flow import (
    Limit,
    Pipe,
    PumpCurve,
    Regime,
    drain_time,
    drainable_volume,
    duty_point,
    fill_time,
    friction_factor,
    hazen_williams_head_loss,
    head_loss,
    level_fall,
    orifice_discharge,
    regime_of,
    siphon_cycle,
    siphon_discharge,
    system_head,
    turnover_per_hour,
    water_density,
    water_left_if_bed_holds,
    water_left_if_bed_leaks,
    water_viscosity,
    what_limits,
)

VOLUMES = st.floats(1, 2000)
FLOWS = st.floats(50, 5000)
BORES = st.floats(0.01, 0.1)
HEADS = st.floats(0.01, 3)
CURVE = PumpCurve(((0, 2.0), (1000, 1.7), (2000, 1.1), (3000, 0.2)))
untimed = settings(deadline=None)
HOSE = Pipe(bore_m=0.0266, length_m=3, minor_k=2.3)


@st.composite
def curves(draw: st.DrawFn) -> PumpCurve:
    """Pump curves from no flow to no head."""
    steps = draw(st.lists(st.tuples(st.floats(50, 1000), st.floats(0.05, 1)), min_size=1, max_size=6))
    flow, points = 0.0, []
    head = sum(drop for _, drop in steps)
    for step, drop in steps:
        points.append((flow, head))
        flow, head = flow + step, head - drop
    return PumpCurve((*points, (flow, 0.0)))


def test_a_bed_by_hand() -> None:
    assert drainable_volume(1.2, 0.25, 0.40) == pytest.approx(120)
    cycle = siphon_cycle(120, inflow_l_per_h=500, siphon_l_per_h=1500)
    assert (cycle.fill_minutes, cycle.drain_minutes) == pytest.approx((14.4, 7.2))
    assert cycle.cycle_minutes == pytest.approx(21.6)
    assert cycle.cycles_per_hour == pytest.approx(2.78, abs=0.01)
    assert level_fall(120, 0.96) == pytest.approx(0.125)
    assert turnover_per_hour(2000, 1000) == pytest.approx(2)


def test_nothing_moved_is_a_number_too() -> None:
    assert turnover_per_hour(0, 1000) == 0
    assert turnover_per_hour(0.5, 1) == 0.5
    assert level_fall(0, 1) == 0
    assert water_left_if_bed_leaks(0.5, 0.25) == 0.25


@given(VOLUMES, FLOWS, st.floats(1.01, 20))
def test_what_flows_in_over_a_cycle_flows_out(volume: float, inflow: float, times: float) -> None:
    cycle = siphon_cycle(volume, inflow, inflow * times)
    comes = inflow * cycle.cycle_minutes / 60
    assert comes == pytest.approx(inflow * times * cycle.drain_minutes / 60)
    assert comes - volume == pytest.approx(inflow * cycle.drain_minutes / 60, abs=1e-6 * comes)


@given(VOLUMES, st.floats(0.1, 10))
def test_the_tank_loses_what_the_bed_holds(volume: float, area: float) -> None:
    assert level_fall(volume, area) * area * 1000 == pytest.approx(volume)


@given(VOLUMES, FLOWS, FLOWS)
def test_more_inflow_fills_faster_and_drains_slower(volume: float, one: float, other: float) -> None:
    slow, fast = sorted((one, other))
    assert fill_time(volume, fast) <= fill_time(volume, slow)
    assert drain_time(volume, 6000, fast) >= drain_time(volume, 6000, slow)


@pytest.mark.parametrize("siphon", [500, 400])
def test_a_siphon_that_cannot_keep_up_is_refused_in_words(siphon: float) -> None:
    with pytest.raises(OutOfRange, match=f"carries {siphon} L/h and 500 L/h flow in.*never breaks, it dribbles"):
        siphon_cycle(120, 500, siphon)


def test_water_left_for_the_fish() -> None:
    assert water_left_if_bed_holds(800, 150) == 650
    assert water_left_if_bed_holds(800, 900, below_intake_l=60) == 60
    assert water_left_if_bed_holds(800, 900) == 0
    assert water_left_if_bed_leaks(800, 60) == 60
    assert water_left_if_bed_leaks(40, 60) == 40


@given(VOLUMES, VOLUMES, VOLUMES)
def test_a_leak_never_leaves_more_than_a_full_bed(tank: float, bed: float, below: float) -> None:
    assert water_left_if_bed_leaks(tank, below) <= water_left_if_bed_holds(tank, bed, below) <= tank


def test_siphons_by_hand() -> None:
    assert orifice_discharge(0.025, 0.5) == pytest.approx(3320, rel=0.01)
    siphon = Pipe(0.025, 1.0, minor_k=0.5 + 2 * 0.9)
    assert siphon_discharge(siphon, 0.5, friction=0.02) == pytest.approx(2733, rel=0.01)


@untimed
@given(BORES, st.floats(0.1, 5), st.floats(0, 10), HEADS, st.floats(0, 40))
def test_a_siphon_spends_its_whole_head(
    bore: float, length: float, minor_k: float, head: float, temperature: float
) -> None:
    pipe = Pipe(bore, length, minor_k)
    flow = siphon_discharge(pipe, head, temperature)
    loss = head_loss(flow, pipe, temperature)
    assert loss.head_m + loss.velocity_m_per_s**2 / (2 * 9.80665) == pytest.approx(head)
    assert flow < orifice_discharge(bore, head, 1.0)


@untimed
@given(BORES, HEADS, HEADS)
def test_more_head_never_carries_less(bore: float, one: float, other: float) -> None:
    low, high = sorted((one, other))
    pipe = Pipe(bore, 1, 2.3)
    assert siphon_discharge(pipe, low) <= siphon_discharge(pipe, high) * (1 + 1e-12)


def test_no_head_no_flow() -> None:
    assert siphon_discharge(Pipe(0.025, 1), 0) == 0
    assert orifice_discharge(0.025, 0) == 0
    still = head_loss(0, HOSE)
    assert (still.head_m, still.regime) == (0, Regime.STILL)


@pytest.mark.parametrize(
    ("bore", "flow", "velocity", "reynolds", "friction", "darcy", "hazen_williams"),
    [
        (0.0209, 1000, 0.810, 16865, 0.0271, 0.1302, 0.1176),
        (0.0266, 1000, 0.500, 13251, 0.0288, 0.0414, 0.0363),
        (0.0266, 2000, 1.000, 26502, 0.0243, 0.1398, 0.1312),
        (0.0409, 3000, 0.634, 25854, 0.0244, 0.0367, 0.0342),
    ],
)
def test_head_loss_by_hand(
    bore: float,
    flow: float,
    velocity: float,
    reynolds: float,
    friction: float,
    darcy: float,
    hazen_williams: float,
) -> None:
    pipe = Pipe(bore, 3)
    loss = head_loss(flow, pipe)
    assert loss.velocity_m_per_s == pytest.approx(velocity, abs=0.001)
    assert loss.reynolds == pytest.approx(reynolds, rel=0.005)
    assert loss.friction_factor == pytest.approx(friction, rel=0.01)
    assert loss.head_m == pytest.approx(darcy, rel=0.01)
    assert hazen_williams_head_loss(flow, pipe) == pytest.approx(hazen_williams, rel=0.01)


def test_hazen_williams_in_us_units() -> None:
    gpm, foot = 3.785411784 * 60, 0.3048
    pipe = Pipe(1.049 * 0.0254, 100 * foot)
    feet = hazen_williams_head_loss(20 * gpm, pipe) / foot
    assert feet == pytest.approx(19.81, abs=0.01)
    assert feet == pytest.approx(0.2083 * (100 / 150) ** 1.852 * 20**1.852 / 1.049**4.8655, rel=0.01)


def flow_at(reynolds: float, bore: float, temperature: float) -> float:
    """Flow [L/h] at which a pipe reaches a Reynolds number."""
    per_litre = head_loss(1, Pipe(bore, 1), temperature).reynolds
    return reynolds / per_litre


@untimed
@given(st.floats(0, 1), st.floats(0.013, 0.0525), st.floats(5, 25))
def test_the_two_formulas_agree_within_15_percent_in_the_stated_band(
    share: float, bore: float, temperature: float
) -> None:
    lowest = 11_000 if temperature >= 20 else 20_000
    reynolds = lowest * (300_000 / lowest) ** share
    flow, pipe = flow_at(reynolds, bore, temperature), Pipe(bore, 10)
    darcy = head_loss(flow, pipe, temperature).head_m
    assert hazen_williams_head_loss(flow, pipe, temperature_c=temperature) == pytest.approx(darcy, rel=0.15)


@untimed
@given(st.floats(4010, 7_500), st.floats(0.013, 0.0525), st.floats(5, 25))
def test_below_the_band_hazen_williams_is_lower_but_never_by_more_than_stated(
    reynolds: float, bore: float, temperature: float
) -> None:
    flow, pipe = flow_at(reynolds, bore, temperature), Pipe(bore, 10)
    darcy = head_loss(flow, pipe, temperature).head_m
    assert 0.69 < hazen_williams_head_loss(flow, pipe, temperature_c=temperature) / darcy < 1


@given(st.floats(0, 5000), st.floats(0, 5000), BORES, st.floats(0, 40))
def test_more_flow_never_loses_less(one: float, other: float, bore: float, temperature: float) -> None:
    small, large = sorted((one, other))
    pipe = Pipe(bore, 3, 2)
    less, more = head_loss(small, pipe, temperature).head_m, head_loss(large, pipe, temperature).head_m
    assert less <= more * (1 + 1e-12)


@given(FLOWS, BORES, st.floats(1, 10))
def test_a_wider_pipe_loses_less(flow: float, bore: float, length: float) -> None:
    assert head_loss(flow, Pipe(bore * 1.2, length)).head_m < head_loss(flow, Pipe(bore, length)).head_m


def test_regimes() -> None:
    assert [regime_of(re) for re in (0, 1999, 2000, 4000, 4001)] == [
        Regime.STILL,
        Regime.LAMINAR,
        Regime.TRANSITION,
        Regime.TRANSITION,
        Regime.TURBULENT,
    ]


@given(st.floats(0, 0.05))
def test_friction_has_no_step_at_the_edges_of_transition(roughness: float) -> None:
    for edge in (2000.0, 4000.0):
        below, above = friction_factor(edge - 1e-6, roughness), friction_factor(edge + 1e-6, roughness)
        assert below == pytest.approx(above, rel=1e-6)


@given(st.floats(0, 39), st.floats(0.1, 1))
def test_warmer_water_is_thinner(temperature: float, warmer: float) -> None:
    assert water_viscosity(temperature + warmer) < water_viscosity(temperature)


def test_water_is_densest_at_4_c() -> None:
    assert max(range(41), key=water_density) == 4
    assert water_density(20) == pytest.approx(998.2, abs=0.01)


@untimed
@given(curves(), st.floats(0, 0.95), st.floats(0.013, 0.05), st.floats(0.5, 20), st.floats(0, 40))
def test_a_duty_point_lies_on_both_curves(
    curve: PumpCurve, share: float, bore: float, length: float, temperature: float
) -> None:
    static = curve.points[0][1] * share
    pipes = (Pipe(bore, length, 2), Pipe(bore, 1))
    point = duty_point(curve, static, pipes, temperature)
    needed = system_head(point.flow_l_per_h, static, pipes, temperature)
    assert curve.head_at(point.flow_l_per_h) == pytest.approx(needed, rel=1e-6, abs=1e-9)
    assert point.head_m == pytest.approx(static + point.loss_m, rel=1e-6, abs=1e-9)


@untimed
@given(curves(), st.floats(0, 0.9), st.floats(0.01, 0.09), st.floats(0.013, 0.05))
def test_lifting_higher_never_brings_more(curve: PumpCurve, share: float, more: float, bore: float) -> None:
    top = curve.points[0][1]
    low = duty_point(curve, top * share, (Pipe(bore, 3),)).flow_l_per_h
    high = duty_point(curve, top * (share + more), (Pipe(bore, 3),)).flow_l_per_h
    assert high <= low + 1e-6


def test_a_curve_is_read_on_straight_lines_between_its_points() -> None:
    assert [CURVE.head_at(q) for q in (0, 500, 1000, 1500, 3000)] == pytest.approx([2, 1.85, 1.7, 1.4, 0.2])
    for beyond in (-1, 3001):
        with pytest.raises(OutOfRange):
            CURVE.head_at(beyond)


def test_a_duty_point_in_transition_says_it_is_guessed() -> None:
    wide = Pipe(0.0266, 3)
    slow = PumpCurve(((0, 1.0), (220, 0.9), (230, 0.0)))
    assert head_loss(225, wide).regime is Regime.TRANSITION
    assert duty_point(slow, 0.5, (wide,)).guessed
    assert not duty_point(CURVE, 0.5, (wide,)).guessed


@pytest.mark.parametrize(
    ("curve", "static", "words"),
    [
        (CURVE, 2.5, "lifts 2.00 m at most, 0.50 m too little: no water comes"),
        (PumpCurve(((500, 1.0), (1000, 0.2))), 1.2, "less than 500 L/h, the first point"),
        (PumpCurve(((0, 2.0), (1000, 1.5))), 0.5, "1000 L/h, the end of its curve.*to spare"),
    ],
)
def test_a_duty_point_beyond_the_curve_is_refused_in_words(curve: PumpCurve, static: float, words: str) -> None:
    with pytest.raises(OutOfRange, match=words):
        duty_point(curve, static, (HOSE,))


def test_what_limits_the_flow() -> None:
    siphon = what_limits(CURVE, 1.0, (HOSE,), siphon_l_per_h=900)
    assert (siphon.limit, siphon.flow_l_per_h) == (Limit.SIPHON, 900)
    assert "carries 900 L/h" in siphon.words

    narrow = (Pipe(0.013, 3, 2.3),)
    pipe = what_limits(CURVE, 1.0, narrow, siphon_l_per_h=3000)
    assert pipe.limit is Limit.PIPE
    assert pipe.flow_l_per_h == duty_point(CURVE, 1.0, narrow).flow_l_per_h
    assert "a wide one would pass 2111 L/h" in pipe.words

    pump = what_limits(CURVE, 1.0, (Pipe(0.0409, 3),), siphon_l_per_h=3000)
    assert pump.limit is Limit.PUMP
    assert "through a wide pipe 2111 L/h" in pump.words


def test_a_wide_pipe_beyond_the_curve_is_at_least_its_end() -> None:
    short = PumpCurve(((0, 2.0), (1000, 1.5)))
    narrow = Pipe(0.010, 3)
    assert "1000 L/h or more" in what_limits(short, 0.5, (narrow,), siphon_l_per_h=3000).words


@untimed
@given(curves(), st.floats(0, 0.8), st.floats(0.013, 0.05), st.floats(100, 6000))
def test_the_siphon_is_named_exactly_when_it_cannot_keep_up(
    curve: PumpCurve, share: float, bore: float, siphon: float
) -> None:
    static, pipes = curve.points[0][1] * share, (Pipe(bore, 3),)
    flow = duty_point(curve, static, pipes).flow_l_per_h
    assume(abs(flow - siphon) > 1e-6)
    limit = what_limits(curve, static, pipes, siphon)
    assert (limit.limit is Limit.SIPHON) == (siphon < flow)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: drainable_volume(1, 0.2, 1.2), "void fraction"),
        (lambda: drainable_volume(1, 0.2, 0), "void fraction"),
        (lambda: fill_time(100, 0), "inflow"),
        (lambda: level_fall(100, 0), "tank area"),
        (lambda: level_fall(-1, 1), "volume -1 L"),
        (lambda: drain_time(100, 500, -1), "inflow -1 L/h"),
        (lambda: water_left_if_bed_holds(800, -1), "bed takes -1 L"),
        (lambda: water_left_if_bed_leaks(-1, 60), "tank -1 L"),
        (lambda: turnover_per_hour(-1, 1000), "flow -1 L/h"),
        (lambda: siphon_discharge(HOSE, -0.1), "head -0.1 m"),
        (lambda: system_head(1000, -0.1, ()), "static head -0.1 m"),
        (lambda: turnover_per_hour(100, 0), "tank"),
        (lambda: Pipe(0, 1), "bore"),
        (lambda: Pipe(0.02, -1), "length"),
        (lambda: Pipe(0.02, 1, roughness_m=0.002), "roughness"),
        (lambda: PumpCurve(((0, 1),)), "at least two points"),
        (lambda: PumpCurve(((0, 1), (0, 0.5))), "flow must rise"),
        (lambda: PumpCurve(((0, 1), (100, 1.5))), "head must not"),
        (lambda: PumpCurve(((0, math.nan), (100, 1.5))), "head"),
        (lambda: orifice_discharge(0.02, 1, 1.1), "discharge coefficient"),
        (lambda: friction_factor(0), "reynolds"),
        (lambda: friction_factor(1e9), "reynolds"),
        (lambda: water_viscosity(41), "temperature 41 C"),
        (lambda: water_density(-1), "temperature -1 C"),
        (lambda: hazen_williams_head_loss(100, HOSE), "Reynolds number 4000, here it is"),
        (lambda: hazen_williams_head_loss(2000, HOSE, temperature_c=26), "temperature 26 C"),
        (lambda: hazen_williams_head_loss(2000, HOSE, roughness_c=20), "hazen williams coefficient"),
    ],
)
def test_outside_the_range_is_refused_in_words(call: Callable[[], object], words: str) -> None:
    with pytest.raises(OutOfRange, match=words):
        call()
