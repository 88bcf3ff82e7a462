"""The form for the farm's own settings."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from importlib.resources import files
from typing import Any

from farmops import clock
from farmops.model.farm import Farm, FarmChange
from farmops.model.values import KEEP, Keep
from farmops.quantities import CHOICES, LENGTH, Measures
from farmops.quantities.currencies import CURRENCIES
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand

WORDS = {"lb_oz": "lb and oz", "sq_ft": "sq ft"}
STORED = {words: stored for stored, words in WORDS.items()}
MARKS = ("point", "comma")
LABELS = {
    "mass": "Weights",
    "volume": "Volumes",
    "area": "Areas",
    "length": "Lengths",
    "temperature": "Temperatures",
}


@cache
def zones() -> tuple[str, ...]:
    """Every time zone by its IANA name."""
    return tuple(sorted((files("tzdata") / "zones").read_text(encoding="utf-8").split()))


def edit(record: Farm | None, context: Context) -> FormSpec:
    """Change how the farm is called, weighs and measures; what was recorded stays exact."""
    farm = record or context.farm
    measures = farm.measures
    height = "" if farm.altitude_um is None else LENGTH.show_exact(farm.altitude_um, measures)
    fields = (
        Field("name", "Farm", Kind.TEXT, farm.name, required=True),
        *(_choice(name, measures) for name in CHOICES),
        Field(
            "currency",
            "Currency",
            Kind.NAME,
            measures.currency,
            tuple(CURRENCIES),
            required=True,
            strict=True,
            blamed=("are booked in",),
        ),
        Field("decimals", "Decimals", Kind.CHOICE, MARKS[measures.decimal_comma], MARKS),
        Field("time_zone", "Time zone", Kind.NAME, farm.time_zone, zones(), required=True, strict=True, read=_zone),
        Field("altitude", "Above the sea", Kind.LENGTH, height, zero_ok=True),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.farm import change_farm

        entry = FarmChange(
            name=values["name"],
            time_zone=values["time_zone"],
            measures=changed(measures, values),
            altitude=values["altitude"],
        )
        return f"{change_farm(store, entry, **making.hand_of(hand, operation)).name} changed."

    about = "What was recorded stays as exact as it was."
    return FormSpec("Farm settings", fields, save, context.setting, edits=True, about=about, verb="Change")


def _choice(name: str, measures: Measures) -> Field:
    words = tuple(WORDS.get(one, one) for one in CHOICES[name])
    held = getattr(measures, name)
    return Field(name, LABELS[name], Kind.CHOICE, WORDS.get(held, held), words)


def _zone(text: str, setting: Setting) -> str:
    return clock.time_zone(text).key


def changed(measures: Measures, values: dict[str, Any]) -> Measures | Keep:
    """The measures with what was chosen; KEEP when nothing was."""
    chosen: dict[str, Any] = {
        name: STORED.get(values[name], values[name]) for name in CHOICES if values[name] is not KEEP
    }
    if values["currency"] is not KEEP:
        chosen["currency"] = values["currency"]
    if values["decimals"] is not KEEP:
        chosen["decimal_comma"] = values["decimals"] == "comma"
    return replace(measures, **chosen) if chosen else KEEP
