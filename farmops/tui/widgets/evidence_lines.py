"""Lists of what chores follow from: every chore with its next day, what was used, what is forecast, what holds."""

from __future__ import annotations

from datetime import date

from farmops.model.chores import Chore
from farmops.model.forecasts import Forecast
from farmops.model.usage import Usage
from farmops.quantities import TEMPERATURE, Measures
from farmops.reports import evidence, lists
from farmops.reports.evidence import ConditionNow, Held
from farmops.reports.reasons import next_words
from farmops.reports.round_lines import until_words, where_of
from farmops.reports.store import Store
from farmops.schedule.use_words import amount_words
from farmops.tui.widgets.listing_lines import Line


def chores(store: Store, today: date, unit: str | None) -> list[tuple[Chore, str]]:
    """Every chore where the person stands, with when it is due next."""
    found = [one for one in lists.chores(store) if unit in (None, one.unit)]
    told = next_words(store, found, today)
    return [(one, told[one.id]) for one in found]


def chore_line(found: tuple[Chore, str], measures: Measures) -> Line:
    """A chore with its rule and when it is due next, or why no day can be told."""
    one, following = found
    cells = (where_of(one), one.title, one.rule_words, following)
    return Line(f"chores {one.id}", cells, look="normal" if following[:1].isdigit() else "quiet", data=one)


def usage(store: Store, today: date, unit: str | None) -> list[Usage]:
    """What was used where the person stands, newest first."""
    return [one for one in evidence.usages(store) if unit in (None, one.unit)]


def usage_line(one: Usage, measures: Measures) -> Line:
    """A record of use."""
    cells = (str(one.day), one.unit, amount_words(one.counter, one.amount, measures), one.note or "")
    return Line(f"usage {one.id}", cells, data=one)


def forecast_line(one: Forecast, measures: Measures) -> Line:
    """A day with what is forecast for it."""
    low, high = ("" if c is None else TEMPERATURE.show(c, measures) for c in (one.low_c, one.high_c))
    return Line(f"forecasts {one.id}", (f"{one.day:%a} {one.day}", low, high, one.note or ""), data=one)


def conditions(store: Store, today: date, unit: str | None) -> list[tuple[ConditionNow, Held | None]]:
    """Each condition with what holds where the person stands, place by place; alone where nothing does."""

    def concerns(held: Held) -> bool:
        return unit is None or held.unit in (None, unit)

    found: list[tuple[ConditionNow, Held | None]] = []
    for one in evidence.conditions(store, today):
        here = [held for held in one.holds if concerns(held)]
        found += [(one, held) for held in here] or [(one, None)]
    return found


def condition_line(found: tuple[ConditionNow, Held | None], measures: Measures) -> Line:
    """A condition, and what holds at a place."""
    one, held = found
    if held is None:
        return Line(f"conditions {one.name}", (one.name, "", "", "not now"), look="quiet", data=one)
    cells = (one.name, held.where, str(held.since), until_words(held.why, held.ends))
    return Line(f"conditions {one.name} {held}", cells, data=one)
