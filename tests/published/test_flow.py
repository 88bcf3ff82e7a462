"""Turnover against a published system; friction and density against reference libraries."""

from __future__ import annotations

import fluids
import gsw
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from farmops.science.flow import (
    GRAVITY,
    Pipe,
    friction_factor,
    head_loss,
    turnover_per_hour,
    water_density,
    water_viscosity,
)
from tests.labels import from_memory, published

ROUGHNESS = st.floats(0, 0.05)
untimed = settings(deadline=None)


@published(
    "University of the Virgin Islands AES, Commercial Aquaponic System: 7,800 L at 100 L/min, printed 1:20 h",
    note="78 minutes by arithmetic",
)
def test_turnover_of_the_uvi_tanks() -> None:
    minutes = 60 / turnover_per_hour(100 * 60, 7800)
    assert minutes == pytest.approx(78)
    assert minutes == pytest.approx(80, abs=2.5)


@untimed
@given(reynolds=st.floats(4001, 1e8), roughness=ROUGHNESS)
def test_turbulent_friction_agrees_with_the_exact_solution_of_colebrook(reynolds: float, roughness: float) -> None:
    exact = fluids.friction.Colebrook(reynolds, roughness)
    assert friction_factor(reynolds, roughness) == pytest.approx(exact, rel=1e-9)


@untimed
@given(reynolds=st.floats(1, 1999), roughness=ROUGHNESS)
def test_laminar_friction_agrees(reynolds: float, roughness: float) -> None:
    exact = fluids.friction_factor(Re=reynolds, eD=roughness)
    assert friction_factor(reynolds, roughness) == pytest.approx(exact, rel=1e-12)


@untimed
@given(
    flow=st.floats(200, 10_000),
    bore=st.sampled_from([0.0209, 0.0266, 0.0409, 0.0525]),
    length=st.floats(0.1, 50),
    minor_k=st.floats(0, 20),
    temperature=st.floats(0, 40),
)
def test_head_loss_agrees(flow: float, bore: float, length: float, minor_k: float, temperature: float) -> None:
    ours = head_loss(flow, Pipe(bore, length, minor_k), temperature)
    assume(not 2000 <= ours.reynolds <= 4000)
    rho, mu = water_density(temperature), water_viscosity(temperature)
    area = fluids.constants.pi / 4 * bore**2
    velocity = flow / 3.6e6 / area
    factor = fluids.friction_factor(Re=fluids.Reynolds(V=velocity, D=bore, rho=rho, mu=mu), eD=1.5e-6 / bore)
    pipe_k = fluids.core.K_from_f(fd=factor, L=length, D=bore)
    exact = fluids.core.head_from_K(K=pipe_k + minor_k, V=velocity, g=GRAVITY)
    assert ours.head_m == pytest.approx(exact, rel=1e-6)


@pytest.mark.parametrize("temperature", range(0, 41, 4))
def test_density_agrees_with_teos_10(temperature: int) -> None:
    conservative = gsw.CT_from_t(0, temperature, 0)
    assert water_density(temperature) == pytest.approx(gsw.rho(0, conservative, 0), abs=0.02)


@from_memory("IAPWS viscosity of water at 1 atm")
def test_viscosity_at_known_points() -> None:
    known = {0: 1.792e-3, 10: 1.306e-3, 20: 1.0016e-3, 25: 0.8900e-3, 40: 0.6527e-3}
    for temperature, viscosity in known.items():
        assert water_viscosity(temperature) == pytest.approx(viscosity, rel=2e-3)
