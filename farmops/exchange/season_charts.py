"""The charts of a season report, drawn as SVG: told apart by shape and word, not by colour alone."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from farmops.exchange.charts import FIRST, HATCH, INK, SECOND, SHADES, can_draw, drawn
from farmops.figures import Figure
from farmops.quantities import MASS, Measures, in_unit, main_area_unit, main_mass_unit
from farmops.quantities.money import currency_decimals
from farmops.reports.costs import Kind
from farmops.reports.returns import Returns
from farmops.reports.season import Season
from farmops.reports.shown import price_in_farm_units, yield_in_farm_units

if TYPE_CHECKING:
    from matplotlib.axes import Axes


def yields(season: Season) -> str:
    """Produce per area of each unit, with the interval it may lie in by the chance of its weeks."""
    farm = season.whole.settings
    named = [(one.unit, one.yield_per_area) for one in season.whole.units if one.yield_per_area.value is not None]

    def draw(axes: Axes) -> None:
        values = [float(yield_in_farm_units(_value(figure), farm.measures)) for _, figure in named]
        axes.barh([name for name, _ in named], values, color=FIRST)
        for at, value in enumerate(values):
            axes.annotate(f"{value:.2f}", (0, at), (4, 0), textcoords="offset points", va="center", color="white")
        for at, (name, _) in enumerate(named):
            spread = season.sure.spreads.get(name)
            if spread is not None:
                ends = [float(yield_in_farm_units(Fraction(end), farm.measures)) for end in (spread.low, spread.high)]
                axes.plot(ends, [at, at], color=INK, marker="|", linewidth=1)
        axes.invert_yaxis()
        axes.set_xlabel(f"{main_mass_unit(farm.measures)} per {main_area_unit(farm.measures)}")

    return _drawn(draw)


def value_and_cost(season: Season) -> str:
    """What each unit brought and what it cost, side by side."""
    units = [one for one in season.whole.units if one.value.value or one.cost.value]

    def draw(axes: Axes) -> None:
        at, money = range(len(units)), _money(season)
        axes.bar([x - 0.2 for x in at], [money(one.value) for one in units], 0.4, label="value", color=FIRST)
        axes.bar(
            [x + 0.2 for x in at], [money(one.cost) for one in units], 0.4, label="cost", color=SECOND, hatch=HATCH
        )
        axes.set_xticks(list(at), [one.unit for one in units])
        axes.set_ylabel(season.whole.settings.measures.currency)
        axes.legend(frameon=False)

    return _drawn(draw)


def make_up(season: Season) -> str:
    """What the cost of each unit is made up of, one bar a unit."""
    units, minor = [one for one in season.whole.units if one.cost.value], _minor_in_one(season)

    def draw(axes: Axes) -> None:
        names, left = [one.unit for one in units], [0.0] * len(units)
        for kind, (colour, hatch) in zip(Kind, SHADES, strict=True):
            widths = [one.bears.sum_of(kind) / minor for one in units]
            if any(widths):
                axes.barh(
                    names, widths, left=left, label=kind.value, color=colour, hatch=hatch, edgecolor=INK, linewidth=0.4
                )
            left = [start + width for start, width in zip(left, widths, strict=True)]
        axes.invert_yaxis()
        axes.set_xlabel(season.whole.settings.measures.currency)
        if any(left):
            axes.legend(frameon=False, ncols=len(Kind), loc="lower center", bbox_to_anchor=(0.5, 1.0))

    return _drawn(draw)


def by_month(season: Season) -> str:
    """Produce and fish weighed in each month, those that count."""
    measures = season.whole.settings.measures

    def draw(axes: Axes) -> None:
        at = range(len(season.months))
        for shift, name, colour, hatch in ((-0.2, "marketable", FIRST, ""), (0.2, "fish", SECOND, HATCH)):
            values = [_weight(getattr(one.farm, name), measures) for one in season.months]
            label = "produce" if name == "marketable" else "fish"
            axes.bar([x + shift for x in at], values, 0.4, label=label, color=colour, hatch=hatch)
        _months(axes, season.months)
        axes.set_ylabel(main_mass_unit(measures))
        axes.legend(frameon=False)

    return _drawn(draw)


def cost_by_month(season: Season) -> str:
    """Cost per weight of produce, month by month; a month without a harvest has no point."""
    measures = season.whole.settings.measures

    def draw(axes: Axes) -> None:
        prices = [one.farm.cost_per_mass for one in season.months]
        at = [x for x, one in enumerate(prices) if one.value is not None]
        cents = 10 ** currency_decimals(measures)
        values = [float(price_in_farm_units(_value(prices[x]), measures)) / cents for x in at]
        axes.plot(at, values, marker="o", color=INK)
        axes.set_ylim(bottom=0)
        _months(axes, season.months)
        axes.set_ylabel(f"{measures.currency} per {main_mass_unit(measures)}")

    return _drawn(draw)


def _value(figure: Figure) -> Fraction:
    return Fraction(figure.value or 0)


def _weight(figure: Figure, measures: Measures) -> float:
    return float(in_unit(round(_value(figure)), MASS, main_mass_unit(measures)))


def _minor_in_one(season: Season) -> int:
    return int(10 ** currency_decimals(season.whole.settings.measures))


def _money(season: Season) -> Callable[[Figure], float]:
    minor = _minor_in_one(season)
    return lambda figure: float(_value(figure) / minor)


def _months(axes: Axes, months: Sequence[Returns]) -> None:
    every = max(1, len(months) // 12)
    shown = range(0, len(months), every)
    axes.set_xticks(list(shown), [f"{months[x].span.first:%b %y}" for x in shown])


def _drawn(draw: Callable[[Axes], None]) -> str:
    """A chart as the address of an image that carries itself; empty without matplotlib."""
    if not can_draw():
        return ""
    return f"data:image/svg+xml;base64,{b64encode(drawn(draw)).decode('ascii')}"
