"""The first run: the farm and its first unit, or the demo; under a minute to a useful round."""

from __future__ import annotations

import os
import re
from pathlib import Path
from typing import Any, ClassVar
from zoneinfo import available_timezones

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static

from farmops import clock
from farmops.model.errors import NotUnderstood
from farmops.model.farm import NewFarm
from farmops.model.text import LONGEST_NOTE, code_of, plain
from farmops.model.units import NewUnit, UnitState
from farmops.model.values import Measured
from farmops.quantities import METRIC, US, Measures
from farmops.quantities.altitudes import parse_altitude
from farmops.quantities.currencies import CURRENCIES
from farmops.reports.store import Store
from farmops.tui.widgets.explained import Explained
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormScreen, FormSpec, Hand

POUNDS, KILOGRAMS, KILOGRAMS_COMMA = "pounds and ounces", "kilograms", "kilograms, decimal comma"
MEASURES = {POUNDS: US, KILOGRAMS: METRIC, KILOGRAMS_COMMA: METRIC}
STATES = tuple(state.value for state in (UnitState.BUILDING, UnitState.CYCLING, UnitState.RUNNING, UnitState.PLANNED))
WELCOME = """There is no farm in this place yet.

  n   open your own farm, with its first unit
  t   take in the farm that an export holds
  d   look around on an invented farm first
  q   leave

The farm is one file on this machine:"""

HELP = (
    "n, Enter  asks for the farm's name, its measures and its first unit. All of it can be corrected later.",
    "t         takes in a folder or a workbook that farmops export wrote, its journal included.",
    "d         opens a fresh copy of an invented farm, to try everything on. It is thrown away afterwards.",
    "q         leaves; nothing has been written yet.",
)


class FirstRun(ModalScreen[str | None]):
    """What to do in an empty store. Its result is what to say when a farm was opened, or None."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("n,enter", "open_farm", "Open a farm", show=False),
        Binding("t", "take_in", "Take in an export", show=False),
        Binding("d", "demo", "Look around", show=False),
        Binding("q,escape", "dismiss(None)", "Leave", show=False),
        Binding("question_mark,f1", "help", "What these do", show=False),
    ]
    DEFAULT_CSS = """
    FirstRun {
        align: center middle;
        & > Vertical {
            width: 66; max-width: 100%; height: auto; padding: 1 2; background: $surface; border: solid $primary;
        }
    }
    """

    def compose(self) -> ComposeResult:
        """The choices."""
        place: str = self.app.store.place  # type: ignore[attr-defined]
        with Vertical():
            yield Static("farmops", markup=False)
            yield Static(f"{WELCOME}\n  {plain(place)}", markup=False)

    def action_open_farm(self) -> None:
        """Ask for the farm and its first unit."""
        self.app.push_screen(FormScreen(spec_of()), self._opened)

    def action_take_in(self) -> None:
        """Ask where the export lies."""
        self.app.push_screen(FormScreen(package_spec()), self._opened)

    def _opened(self, words: str | None) -> None:
        if words is not None:
            self.dismiss(words)

    def action_help(self) -> None:
        """What each of the choices comes to."""
        self.app.push_screen(Explained("Your first farm", HELP))

    def action_demo(self) -> None:
        """Go on with a fresh copy of the demo."""
        self.app.look_around()  # type: ignore[attr-defined]


def spec_of() -> FormSpec:
    """Name, measures, currency, place, and the first unit."""
    zone = local_zone()
    fields = (
        Field("name", "Farm's name", Kind.TEXT, required=True),
        Field("measures", "Weights", Kind.CHOICE, POUNDS, tuple(MEASURES)),
        Field(
            "currency",
            "Currency",
            Kind.NAME,
            "USD",
            tuple(sorted(CURRENCIES)),
            required=True,
            read=_currency,
            hint="a code of ISO 4217, such as USD, EUR, CAD",
        ),
        Field(
            "zone",
            "Time zone",
            Kind.NAME,
            zone,
            tuple(sorted(available_timezones())),
            required=True,
            strict=True,
            read=_zone,
            hint="Continent/City; a large city in your zone finds it",
            otherwise="Name a large city in your zone, such as Lisbon or New York, or type its continent: Europe/",
        ),
        Field(
            "altitude",
            "Altitude",
            Kind.TEXT,
            hint="above the sea, 1450 ft or 440 m; oxygen depends on it",
            read=_altitude,
            told=lambda value, setting: value.typed,
        ),
        Field("unit", "First unit", Kind.TEXT, "WREN", hint="a short name; nothing adds none", read=_unit),
        Field("state", "It is", Kind.CHOICE, UnitState.BUILDING.value, STATES),
    )
    return FormSpec("Open your farm", fields, _save, Setting(US, clock.today(zone)), verb="Open")


def package_spec() -> FormSpec:
    """Where an export of a whole farm lies."""
    where = Field(
        "place",
        "Export",
        Kind.TEXT,
        required=True,
        hint="the folder, or the workbook",
        longest=LONGEST_NOTE,
        read=lambda text, _: str(Path(text.strip()).expanduser()),
    )
    about = "The whole farm that farmops export wrote, its journal included; photos come along out of a folder."
    setting = Setting(US, clock.today(local_zone()))
    return FormSpec("Take in a farm", (where,), _take_in, setting, about=about, verb="Take it in")


def _take_in(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
    from farmops.exchange import packages
    from farmops.reports import lists

    rows = packages.take_in(store, values["place"])
    return f"Taken in: {lists.farm(store).name}, {rows:,} rows, its journal included."


def _currency(text: str, setting: Setting) -> str:
    code = text.strip().upper()
    if code not in CURRENCIES:
        raise NotUnderstood(f"{code} is no currency of ISO 4217. Understood: USD, EUR, GBP, CAD and others.")
    return code


def _zone(text: str, setting: Setting) -> str:
    return clock.time_zone(text.strip()).key


def _unit(text: str, setting: Setting) -> str:
    return code_of(text, "code of a unit")


def _altitude(text: str, setting: Setting) -> Measured:
    return Measured(parse_altitude(text, US), text.strip())


def _save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
    from farmops.farm.farm import open_farm
    from farmops.farm.units import add_unit
    from farmops.model.journal import Through

    entry = NewFarm(values["name"], measures_of(values), values["zone"], altitude=values["altitude"])
    farm = open_farm(store, entry, by=hand.by, operation=operation, through=Through.SCREEN)
    if values["unit"]:
        unit = NewUnit(values["unit"], farm.today(), state=UnitState(values["state"]))
        add_unit(store, unit, by=hand.by, through=Through.SCREEN)
    return f"{farm.name} is open. Next: a bed (F3, n), then what grows in it (n again). ? helps."


def measures_of(values: dict[str, Any]) -> Measures:
    """The measures that were chosen, with the currency."""
    chosen: Measures = MEASURES[values["measures"]]
    comma = values["measures"] == KILOGRAMS_COMMA
    return Measures(
        chosen.mass,
        chosen.volume,
        chosen.area,
        chosen.length,
        chosen.temperature,
        values["currency"],
        decimal_comma=comma,
    )


def local_zone() -> str:
    """The zone of this machine where it tells, else UTC."""
    named = os.environ.get("TZ", "")
    if named in available_timezones():
        return named
    try:
        found = re.search(r"zoneinfo/(.+)$", str(Path("/etc/localtime").resolve()))
    except OSError:
        found = None
    return found[1] if found and found[1] in available_timezones() else "UTC"
