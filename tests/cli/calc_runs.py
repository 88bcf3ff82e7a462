"""How the tests of `farmops calc` run it, and one full command line for each of its commands."""

from __future__ import annotations

import contextlib
import io
import json
from typing import Any, NamedTuple

from farmops.main import run

AMMONIA = "ammonia --tan 1.0 --ph 8.0 --temp 24C --as n"
FULL_LINES = {
    "ammonia": AMMONIA,
    "oxygen": "oxygen --temp 20C --altitude 1500m --measured 6.1 --pressure 845hPa",
    "power-cut": "power-cut --water 1000L --fish 10kg --mean 250g --temp 24C --limit 4 --measured 6 --altitude 100m",
    "dose alkalinity": "dose alkalinity --water 1000L --rise 20 --with baking-soda --purity 99",
    "dose chloride": "dose chloride --water 1000L --nitrite 2 --as no2 --chloride 5 --with salt --ratio 10 --purity 99",
    "dose chlorine": "dose chlorine --water 200L --chlorine 2 --with crystals --purity 99",
    "dose iron": "dose iron --water 1000L --rise 2 --strength 11",
    "dose potassium": "dose potassium --water 1000L --rise 20 --strength 50 --as k2o",
    "dose calcium": "dose calcium --water 1000L --rise 20 --strength 27 --as ca",
    "dose ph": "dose ph --now 6.2 --target 6.8 --step 0.2",
    "ration": "ration --count 40 --mean 125g --temp 24C --best 27C 30C --stop 18C 34C --unit-limit 200g",
    "growth": "growth --from 50g --days 60 --tgc 1.5 --temp 27C",
    "balance": "balance --feed 200g --protein 32 --area 4m2 --fish 15kg --tank 1000L --flow 2000L/h",
    "plants": "plants --spacing 25cm --rows 30cm --area 4m2",
    "crop-plan": "crop-plan --per-week 25 --weeks 4 --density 25/m2",
    "siphon": (
        "siphon --area 1.2m2 --depth 25cm --void 40 --inflow 500L/h --bore 25mm --drop 50cm --pipe 1m --elbows 2"
        " --tank 1000L --tank-area 0.96m2 --below-intake 300L --brim 200L"
    ),
    "pump": (
        "pump --lift 1.5m --flow 2000L/h --bore 26.6mm --pipe 3m --elbows 2 --temp 20C"
        " --watts 24 --hours 24 --price 0.16"
    ),
    "weight": "weight --tank 1000L --bed-water 120L --media 300L --media-litre 0.9kg --frame 60kg --footprint 1.2m2",
}
"""Every option that can stand beside the others, each with a value it takes."""


class Ran(NamedTuple):
    """What a command line came to."""

    code: int
    out: str
    err: str


def calc(*words: str) -> Ran:
    """Run `farmops calc` with these words."""
    with contextlib.redirect_stdout(io.StringIO()) as out, contextlib.redirect_stderr(io.StringIO()) as err:
        code = run(["calc", *words])
    return Ran(code, out.getvalue(), err.getvalue())


def answer(line: str) -> dict[str, Any]:
    """The object that a command line of words without blanks in them prints with --json."""
    ran = calc(*line.split(), "--json")
    assert ran.code == 0, ran.err
    found: dict[str, Any] = json.loads(ran.out)
    return found


def plainly(line: str) -> str:
    """What it prints for a person."""
    ran = calc(*line.split())
    assert ran.code == 0, ran.err
    return ran.out


def refusal(line: str) -> str:
    """The words with which a command line is refused, exit 1."""
    ran = calc(*line.split())
    assert ran.code == 1, ran
    assert ran.out == ""
    return ran.err
