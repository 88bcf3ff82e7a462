"""`farmops fish grow`: how many, how heavy, how fast, and when they reach a weight."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import chart_options, on_option
from farmops.cli.output import emit, line, say, table
from farmops.cli.trees import EVERY, only_in_json, plain_figure, tree, why_one_option, whys
from farmops.figures import Figure
from farmops.model.errors import NotUnderstood
from farmops.quantities import MASS
from farmops.reports import lists, names
from farmops.reports.fish import LotOnDay, lot_on_day
from farmops.reports.growth import Ahead, Reached
from farmops.reports.shown import shown

if TYPE_CHECKING:
    from farmops.exchange.charts import Chart

MG_PER_G = 1_000
KEYS = {
    "number": ("number", 1),
    "weight": ("mean_mass_g", MG_PER_G),
    "weight-error": ("mean_error_g", MG_PER_G),
    "weight-today": ("expected_mass_g", MG_PER_G),
    "biomass": ("biomass_g", MG_PER_G),
    "density": ("density_kg_per_m3", 1),
    "survival": ("survival", 1),
    "feed": ("feed_g", MG_PER_G),
    "gain": ("gain_g", MG_PER_G),
    "feed-conversion": ("feed_conversion", 1),
    "sgr": ("sgr_percent_a_day", 1),
    "tgc": ("tgc_times_1000", 1),
    "dressing-yield": ("dressing_yield", 1),
}
"""The key of each figure in JSON, and what its value in the unit of storage is divided by."""


@click.command("grow")
@click.argument("lot")
@click.option("--to", "target", metavar="WEIGHT", help="Say when one fish weighs so much.")
@why_one_option(list(KEYS))
@on_option
@chart_options
@pass_desk
def grow(desk: Desk, lot: str, target: str | None, name: str | None, on: str | None, as_json: bool) -> None:
    """Tell how a LOT stands on a day: number, weight, biomass, survival, feed conversion, growth, and what is ahead.

    \b
    Examples: farmops fish grow P1 --to "8 oz"
              farmops fish grow P1 --why feed-conversion
              farmops fish grow P1 --json --why
    """
    lists.farm(desk.store)
    only_in_json(name == EVERY, as_json)
    if target is not None and name not in (None, EVERY):
        raise NotUnderstood("--why opens one number and --to asks for a day: ask for one of them.")
    weight = desk.mass(target).exact if target is not None else None
    found = lot_on_day(desk.store, names.lot(desk.store, lot).id, desk.day(on), weight)
    if name not in (None, EVERY):
        _opened(desk, found.figure(name), name, as_json)
    elif as_json:
        figures = {KEYS[each][0]: one for each, one in found.figures.items()}
        emit({**_plain(found), **whys(name == EVERY, figures)}, lambda: _drawn(found))
    else:
        _print(desk, found)


def _drawn(found: LotOnDay) -> Chart:
    from farmops.exchange.chart_of import growth_chart

    return growth_chart(found.lot, found.weighed, found.ahead, found.on, found.farm.measures)


def _opened(desk: Desk, figure: Figure, name: str, as_json: bool) -> None:
    if as_json:
        emit({"figure": name, "why": plain_figure(figure)})
        return
    for text in tree(figure, desk.measures):
        line(text)


def _print(desk: Desk, found: LotOnDay) -> None:
    line(f"{found.lot.code}, {found.lot.species}, {found.on}" + (f", in {found.unit}" if found.unit else ""))
    for figure in found.figures.values():
        noted = f" ({figure.note})" if figure.note and figure.value is not None else ""
        line(f"{figure.name}: {shown(figure, desk.measures)}{noted}")
    rows = [[str(one.day), MASS.show(one.mean_mg, desk.measures), _band(desk, one)] for one in _coming(found)]
    if rows:
        line()
        table(["day", "one weighs", "band"], rows, right=[1])
        say("An estimate: it grows on as between the last two weighings. The band carries the doubt of the weighing.")
    if found.reached is not None:
        line(reached_words(desk, found.reached))


def _coming(found: LotOnDay) -> list[Ahead]:
    return [one for one in found.ahead if one.day >= found.on]


def _band(desk: Desk, one: Ahead) -> str:
    if one.low_mg is None or one.high_mg is None:
        return ""
    return f"{MASS.show(one.low_mg, desk.measures)} to {MASS.show(one.high_mg, desk.measures)}"


def reached_words(desk: Desk, one: Reached) -> str:
    """When a weight is reached, in a sentence."""
    weight = MASS.show(one.target_mg, desk.measures)
    if one.day is None:
        return f"{weight}: no day can be told, {one.reason}."
    band = f", between {one.first} and {one.last}" if one.first and one.last else ""
    return f"{weight} on {one.day}{band}."


def _plain(found: LotOnDay) -> dict[str, object]:
    figures = {KEYS[name]: figure for name, figure in found.figures.items()}
    goal = found.reached
    return {
        "lot": found.lot.code,
        "on": found.on,
        "unit": found.unit,
        **{key: None if one.value is None else _number(one, over) for (key, over), one in figures.items()},
        "reasons": {key: one.reason for (key, _), one in figures.items() if one.value is None},
        "weighed": [
            {
                "day": one.day,
                "mean_mass_g": one.mean_mg / MG_PER_G,
                "mean_error_g": None if one.se_mg is None else one.se_mg / MG_PER_G,
                "fish": one.fish,
            }
            for one in found.weighed
        ],
        "ahead": [
            {"day": one.day, "mean_mass_g": one.mean_mg / MG_PER_G, "low_g": _g(one.low_mg), "high_g": _g(one.high_mg)}
            for one in _coming(found)
        ],
        "reached": goal
        and {
            "mass_g": goal.target_mg / MG_PER_G,
            "day": goal.day,
            "first": goal.first,
            "last": goal.last,
            "reason": goal.reason,
        },
    }


def _g(mg: int | None) -> float | None:
    return None if mg is None else mg / MG_PER_G


def _number(one: Figure, over: int) -> int | float:
    value = one.value or 0
    return value if isinstance(value, int) and over == 1 else float(value) / over
