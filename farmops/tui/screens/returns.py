"""Returns: what each unit brought and cost, drawn as bars; w opens any number."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Static

from farmops.exchange.compare_text import sentence
from farmops.figures import Figure
from farmops.model.costs import Basis
from farmops.model.text import plain
from farmops.quantities import Measures, main_area_unit, main_mass_unit
from farmops.quantities.numbers import show_decimal
from farmops.reports.returns import Asked, Returns, UnitReturns, monthly, returns
from farmops.reports.shown import price_in_farm_units, shown, yield_in_farm_units
from farmops.reports.spans import Span
from farmops.reports.spread import Spread, Sure, sure_of_names, sure_of_units
from farmops.reports.store import Store
from farmops.reports.yields import By, YieldLine, Yields, yields
from farmops.tui.actions import bindings
from farmops.tui.screens.listed import ListedPlace
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_lines import Cell, Column, Line, Look
from farmops.tui.widgets.sparks import Bar

ROOM_FOR_DOUBT = 1.3
MOST_NAMED = 5
GROUPS = ("unit", "bed", "crop", "month")
SPANS = ("this year", "12 months", "everything")
Found = Returns | Yields | tuple[Returns, ...]


class ReturnsPlace(ListedPlace):
    """One line a unit, bed, crop or month; Left and Right of the columns are walked with , and . to open one."""

    BINDINGS: ClassVar[list[BindingType]] = [
        *bindings("returns"),
        Binding("comma", "column(-1)", "The figure before", show=False),
        Binding("full_stop", "column(1)", "The next figure", show=False),
    ]
    DEFAULT_CSS = """
    ReturnsPlace {
        & > #asked { height: 1; padding: 0 1; color: $text-muted; }
        & > #notes { height: auto; max-height: 5; padding: 0 1; border-top: solid $foreground 40%; }
    }
    """
    name_of_place = "returns"
    title = "Returns"

    def __init__(self, **arguments: object) -> None:
        super().__init__(**arguments)  # type: ignore[arg-type]
        self.basis = Basis.FULL
        self.group = GROUPS[0]
        self.span = SPANS[0]
        self.sorted_by = 0
        self.column = 0
        self.found: Found | None = None
        self.sure = Sure({})

    def compose(self) -> ComposeResult:
        """What is asked, the lines, what to know."""
        yield Static(id="asked", markup=False)
        yield Listing()
        yield Static(id="notes", markup=False)

    def reload(self) -> None:
        """Read the returns."""
        if self.today is not None:
            self._show_asked()
            self.work(partial(read, asked=self._asked(), group=self.group), self._show)

    def _show_sure(self, sure: Sure) -> None:
        self.sure = sure
        if self.found is not None:
            self._draw(self.found)

    def _asked(self) -> Asked:
        today = self.today
        assert today is not None  # noqa: S101 - asked only once the farm was read
        first = {
            "this year": today.replace(month=1, day=1),
            "12 months": today.replace(year=today.year - 1, day=min(today.day, 28)),
            "everything": None,
        }[self.span]
        return Asked(today, first, today, self.basis)

    def _show_asked(self) -> None:
        costs = {"cash": "cash paid", "operating": "operating cost", "full": "full cost"}[self.basis]
        order = f" · by {ORDERS[self.sorted_by]}" if self.sorted_by else ""
        words = f"{self.span} · {costs} · by {self.group}{order} · w opens {HEADS[self.column]}  , . others"
        self.query_one("#asked", Static).update(words)

    def _show(self, found: Found) -> None:
        self.found, self.sure = found, Sure({})
        self._draw(found)
        if isinstance(found, Returns) and len(found.units) > 0:
            self.work(partial(sure_of_units, span=found.span), self._show_sure, group="sure")

    def _draw(self, found: Found) -> None:
        if self.farm is None:
            return
        measures = self.farm.measures
        lines = self._sorted(rows_of(found))
        if self.unit is not None and self.group == "unit":
            lines = [one for one in lines if one[0] in (self.unit, "the farm")]
        largest = max((float(one[1]["per area"].value or 0) for one in lines if "per area" in one[1]), default=0.0)
        items = [
            Line(
                name,
                cells(name, figures, measures, largest, self.sure.spreads.get(name)),
                look=look_of(figures),
                data=figures,
            )
            for name, figures in lines
        ]
        self.show(columns(self.group, measures), items, "No unit yet. Returns come with the first weighing.")
        verdicts = [
            sentence(one, measures)
            for one in self.sure.neighbours
            if self.unit is None or self.unit in (one.first, one.second)
        ]
        self.query_one("#notes", Static).update(Content(plain_lines([*verdicts, *notes(found)])))

    def _sorted(self, lines: list[tuple[str, dict[str, Figure]]]) -> list[tuple[str, dict[str, Figure]]]:
        if self.sorted_by == 0:
            return lines
        head = ORDERS[self.sorted_by]

        def rank(one: tuple[str, dict[str, Figure]]) -> tuple[bool, float]:
            figure = one[1].get(head)
            value = figure.value if figure else None
            return (value is None, -float(value or 0))

        farm = [one for one in lines if one[0] == "the farm"]
        return sorted((one for one in lines if one[0] != "the farm"), key=rank) + farm

    def action_basis(self) -> None:
        """Count other costs."""
        order = list(Basis)
        self.basis = order[(order.index(self.basis) + 1) % len(order)]
        self.reload()

    def action_span(self) -> None:
        """Another span of days."""
        self.span = SPANS[(SPANS.index(self.span) + 1) % len(SPANS)]
        self.reload()

    def action_group(self) -> None:
        """By unit, bed, crop or month."""
        self.group = GROUPS[(GROUPS.index(self.group) + 1) % len(GROUPS)]
        self.reload()

    def action_sort(self) -> None:
        """Sort by the next column."""
        self.sorted_by = (self.sorted_by + 1) % len(ORDERS)
        self.reload()

    def action_season(self) -> None:
        """A season report, of the span and the costs that are shown."""
        self.open_form("file", "season", self._asked())

    def action_column(self, steps: int) -> None:
        """The figure that w opens."""
        self.column = (self.column + steps) % len(HEADS)
        self._show_asked()

    def on_listing_opened(self, message: Listing.Opened) -> None:
        """Enter opens the figure, as w does."""
        message.stop()
        self.open_why()

    def action_edit(self) -> None:
        """Enter opens the figure; numbers are not edited, records are."""
        self.open_why()

    def action_new(self) -> None:
        """Numbers are not booked here."""
        self.refuse("Numbers come from records. h weighs a harvest, F5 books a cost.")

    action_like = action_new
    action_remove = action_new

    def open_why(self) -> None:
        """Open the chosen figure of the line under the cursor."""
        line = self.listing.current
        if line is None or self.farm is None or not isinstance(line.data, dict):
            self.refuse("There is no number under the cursor.")
            return
        from farmops.tui.screens.why import Why

        figures: dict[str, Figure] = line.data
        head = HEADS[self.column] if HEADS[self.column] in figures else next(iter(figures))
        self.app.push_screen(Why(figures[head], self.farm.measures))


HEADS = ("cost per weight", "produce", "per area", "fish", "value", "cost", "net")
ORDERS = ("walking order", *HEADS)


def read(store: Store, *, asked: Asked, group: str) -> Found:
    """The report of a group."""
    if group == "unit":
        return returns(store, asked)
    if group == "month":
        return monthly(store, asked)
    return yields(store, asked, By(group))


def rows_of(found: Found) -> list[tuple[str, dict[str, Figure]]]:
    """Names and figures, the farm last."""
    if isinstance(found, Returns):
        return [(one.unit, figures_of(one)) for one in (*found.units, found.farm)] if found.units else []
    if isinstance(found, Yields):
        return [(one.name, yield_figures(one)) for one in found.lines]
    return [(f"{one.span.first:%b %Y}", figures_of(one.farm)) for one in found]


def figures_of(one: UnitReturns) -> dict[str, Figure]:
    """The figures of a unit by the heads of their columns."""
    return {
        "cost per weight": one.cost_per_mass,
        "produce": one.marketable,
        "per area": one.yield_per_area,
        "fish": one.fish,
        "value": one.value,
        "cost": one.cost,
        "net": one.net,
    }


def yield_figures(one: YieldLine) -> dict[str, Figure]:
    """The figures of a bed or a crop by the heads of their columns."""
    return {"produce": one.marketable, "per area": one.yield_per_area, "value": one.value}


def columns(group: str, measures: Measures) -> Sequence[Column]:
    """The columns of a group, units of measure in their heads."""
    mass, area = main_mass_unit(measures), main_area_unit(measures)
    found = [
        Column("name", group),
        Column("produce", "produce", align="right"),
        Column("per area", f"{mass} per {area}", align="point"),
        Column("drawn", "", grow=True),
        Column("cost per weight", f"{measures.currency} per {mass}", align="point"),
        Column("fish", "fish", align="right", priority=2),
        Column("value", "value", align="point", priority=3),
        Column("cost", "cost", align="point", priority=3),
        Column("net", "net", align="point", priority=1),
    ]
    return found if group in ("unit", "month") else [*found[:4], replace(found[6], priority=0)]


def cells(
    name: str, figures: dict[str, Figure], measures: Measures, largest: float, spread: Spread | None = None
) -> tuple[Cell, ...]:
    """The cells of a line: masses, a bar, prices, money."""
    money = [
        "-" if figures[head].value is None else shown(figures[head], measures)
        for head in ("fish", "value", "cost", "net")
        if head in figures
    ]
    found: list[Cell] = [
        name,
        shown(figures["produce"], measures),
        *per_area(figures["per area"], measures, largest, spread),
    ]
    if "cost per weight" in figures:
        found.append(price(figures["cost per weight"], measures))
    return (*found, *money)


def per_area(figure: Figure, measures: Measures, largest: float, spread: Spread | None) -> tuple[Cell, Cell]:
    """A yield as a number and a bar to the scale of the largest, with its uncertainty where there are enough weeks."""
    if figure.value is None:
        return figure.reason or "-", ""
    words = show_decimal(yield_in_farm_units(figure.value, measures), 2, measures)
    scale = float(yield_in_farm_units(1, measures))
    low, high = (spread.low * scale, spread.high * scale) if spread else (None, None)
    return words, Bar(float(figure.value) * scale, low=low, high=high, largest=largest * scale * ROOM_FOR_DOUBT)


def price(figure: Figure, measures: Measures) -> str:
    """A cost per weight as a bare number; the head names the units."""
    if figure.value is None:
        return "-"
    from farmops.quantities import major

    return show_decimal(major(1, measures) * price_in_farm_units(figure.value, measures), 2, measures)


def look_of(figures: dict[str, Figure]) -> Look:
    """A loss is a normal number: it is not drawn as an alarm."""
    return "normal"


def notes(found: Found) -> list[str]:
    """What to know beside the numbers: what is missing and why, what is not counted."""
    if not isinstance(found, Returns):
        return []
    words = dict.fromkeys(
        note for note in (found.farm.cost_per_mass.note, *(one.cost.note for one in found.units)) if note
    )
    missing: dict[str, list[str]] = {}
    for one in found.units:
        for figure in (one.cost_per_mass, one.yield_per_area, one.value):
            if figure.value is None and figure.reason and one.unit not in missing.get(figure.reason, []):
                missing.setdefault(figure.reason, []).append(one.unit)
    return [*words, *(f"{some_of(units)}: {reason}." for reason, units in missing.items())]


def some_of(names: Sequence[str]) -> str:
    """The first names, and how many more there are."""
    shown = ", ".join(names[:MOST_NAMED])
    return f"{shown} and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else shown


def plain_lines(lines: Sequence[str]) -> str:
    """Lines without signs a terminal would obey."""
    return "\n".join(plain(line) for line in lines)
