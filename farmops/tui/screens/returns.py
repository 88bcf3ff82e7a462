"""Returns: what each unit brought and cost, drawn as bars, with pictures below; w opens any number."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from functools import partial
from string import ascii_lowercase, digits
from typing import TYPE_CHECKING, ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from farmops.figures import Figure
from farmops.model.costs import Basis
from farmops.model.text import plain
from farmops.quantities import US
from farmops.reports.investment import Investments
from farmops.reports.returns import Asked, Returns, monthly
from farmops.reports.spread import Sure, sure_of_names, sure_of_units
from farmops.reports.yields import By, Yields
from farmops.tui.actions import bindings
from farmops.tui.screens import returns_below as below
from farmops.tui.screens.listed import ListedPlace
from farmops.tui.screens.returns_lines import (
    FARM,
    GROUPS,
    HEADS,
    ORDERS,
    Found,
    Row,
    cells,
    columns,
    largest_of,
    ordered,
    read,
    rows_of,
    span_of,
)
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_lines import Line
from farmops.tui.widgets.sparks import ASCII, DRAWN

if TYPE_CHECKING:
    from farmops.exchange.charts import Chart

SPANS = ("this year", "12 months", "last year", "everything")
COSTS = {Basis.CASH: "cash paid", Basis.OPERATING: "operating cost", Basis.FULL: "full cost"}
OTHERS = "  , . others"
VIEWS = ("words", "cost", "weeks", "prices")
LEAST_BELOW = 7
TALL = 20
"""Lines below the list from which all pictures are shown one under the other."""
KEYS = digits[1:] + ascii_lowercase
EARNED = "Earned back: what a unit left over, against what it cost to build"
NOT_COMPARED = "These are not compared. g shows units, beds or crops; two of them are."


class ReturnsPlace(ListedPlace):
    """One line a unit, bed, crop, fish lot, month or year; the figure that w opens is walked to with , and . keys."""

    BINDINGS: ClassVar[list[BindingType]] = [
        *bindings("returns"),
        Binding("comma", "column(-1)", "The figure before", show=False),
        Binding("full_stop", "column(1)", "The next figure", show=False),
    ]
    DEFAULT_CSS = """
    ReturnsPlace {
        & > #asked { height: auto; padding: 0 1; color: $text-muted; }
        & > #below {
            height: 1fr; border-top: solid $foreground 40%;
            scrollbar-gutter: stable; scrollbar-size-vertical: 1;
        }
        & #notes { height: auto; padding: 0 1; }
    }
    """
    name_of_place = "returns"
    title = "Returns"

    def __init__(self, **arguments: object) -> None:
        super().__init__(**arguments)  # type: ignore[arg-type]
        self.basis = Basis.FULL
        self.group = GROUPS[0]
        self.span = SPANS[0]
        self.own_days: tuple[date, date] | None = None
        self.sorted_by = 0
        self.column = 0
        self.view = 0
        self.found: Found | None = None
        self.sure, self.sure_known = Sure({}), False
        self.months: tuple[Returns, ...] | None = None
        self.months_of: Found | None = None

    def compose(self) -> ComposeResult:
        """What is asked, the lines, what to know and to look at."""
        yield Static(id="asked", markup=False)
        yield Listing()
        with VerticalScroll(id="below", can_focus=False):
            yield Static(id="notes", markup=False)

    def reload(self) -> None:
        """Read the returns."""
        if self.today is not None:
            self._show_asked()
            self.work(partial(read, asked=self._asked(), group=self.group), self._show)

    def _asked(self) -> Asked:
        today = self.today
        assert today is not None  # noqa: S101 - asked only once the farm was read
        if self.own_days is not None:
            return Asked(today, *self.own_days, self.basis)
        if self.span == "last year":
            return Asked(today, date(today.year - 1, 1, 1), date(today.year - 1, 12, 31), self.basis)
        first = {
            "this year": today.replace(month=1, day=1),
            "12 months": today.replace(year=today.year - 1, day=min(today.day, 28)),
        }.get(self.span)
        return Asked(today, first, today, self.basis)

    def _show_asked(self) -> None:
        order = f" · most {ORDERS[self.sorted_by]} first" if self.sorted_by else ""
        span = f"{self.own_days[0]} to {self.own_days[1]}" if self.own_days else self.span
        words = f"{span} · {COSTS[self.basis]} · by {self.group}{order} · w opens {HEADS[self.column]}"
        fits = len(words) + len(OTHERS) <= self.size.width - 2
        self.query_one("#asked", Static).update(words + OTHERS if fits else words)

    def _show(self, found: Found) -> None:
        self.found, self.sure, self.sure_known = found, Sure({}), False
        self.months = found if isinstance(found, tuple) and self.group == "month" else None
        self._draw()
        if isinstance(found, tuple) or (isinstance(found, Returns) and found.units):
            self.work(partial(sure_of_units, span=span_of(found)), partial(self._show_sure, found), group="sure")
        elif isinstance(found, Yields) and found.by is not By.LOT:
            names = [one.name for one in found.lines if one.marketable.value]
            ask = partial(sure_of_names, span=found.span, names=names)
            self.work(ask, partial(self._show_sure, found), group="sure")
        else:
            self._show_sure(found, self.sure)

    def _show_sure(self, found: Found, sure: Sure) -> None:
        """How sure the numbers are, unless others are shown by now."""
        if found is self.found:
            self.sure, self.sure_known = sure, True
            self._draw()

    def _ask_months(self, found: Found) -> None:
        """Ask once for the months of what is shown, however often it is drawn until they come."""
        if self.months_of is not found:
            self.months_of = found
            self.work(partial(monthly, asked=self._asked()), partial(self._show_months, found), group="months")

    def _show_months(self, found: Found, months: tuple[Returns, ...]) -> None:
        if found is self.found:
            self.months = months
            self._draw_below()

    def _draw(self) -> None:
        if self.farm is None or self.found is None:
            return
        rows = self._rows(self.found)
        measures, largest = self.farm.measures, largest_of(rows, self.sure.spreads)
        lines = [
            Line(row[0], cells(row, measures, largest, self.sure.spreads.get(row[0])), data=row[1]) for row in rows
        ]
        self.show(columns(self.group, measures), lines, "No unit yet. Returns come with the first weighing.")
        self._share_out(len(lines) + 1)
        self._draw_below()

    def _rows(self, found: Found) -> list[Row]:
        """The lines that are shown, in their order."""
        rows = ordered(rows_of(found, self.group), ORDERS[self.sorted_by] if self.sorted_by else None)
        return [row for row in rows if self.unit is None or self.group != "unit" or row[0] in (self.unit, FARM)]

    @property
    def _room(self) -> int:
        """Lines for the list and what stands below it."""
        return self.size.height - max(1, self.query_one("#asked").size.height)

    def _share_out(self, wanted: int) -> None:
        """The list takes what its lines need, as long as enough is left for what stands below."""
        room = self._room - LEAST_BELOW
        self.listing.styles.height = max(4, min(max(wanted, 4), room))

    def on_resize(self, event: events.Resize) -> None:
        """As much as there is room for."""
        self._show_asked()
        self._draw()

    def _draw_below(self) -> None:
        if self.farm is None or self.found is None:
            return
        height = self._room - int(self.listing.styles.height.value if self.listing.styles.height else 0)
        shown = [*VIEWS[self.view :], *VIEWS[: self.view]] if height >= TALL else [VIEWS[self.view]]
        drawn = [lines for lines in map(self._section, shown) if lines]
        text = "\n\n".join("\n".join(plain(line) for line in lines) for lines in drawn)
        self.query_one("#notes", Static).update(Content(text))

    def _section(self, view: str) -> Sequence[str]:
        found, farm = self.found, self.farm
        assert found is not None and farm is not None  # noqa: S101, PT018 - drawn only once they were read
        width, measures = max(20, self.size.width - 3), farm.measures
        signs = ASCII if getattr(self.app, "ascii", False) else DRAWN
        if view == "words":
            return below.words_of(found, self.sure, self.unit, measures)
        if view == "cost":
            return below.costs_drawn(found, self.group, self.unit, measures, width, signs)
        if view == "weeks":
            if self.group == "lot":
                return [below.NOT_BY_LOT]
            name = self._named()
            weekly = self.sure.weekly.get(name, ())
            drawn = below.weeks_drawn(weekly, name, span_of(found).first, measures, width, signs)
            return drawn if self.sure_known else ()
        if self.months is None:
            self._ask_months(found)
            return ()
        return below.prices_drawn(self.months, self.unit, measures, width, signs)

    def _named(self) -> str:
        """Whose weeks are drawn: where one stands, else the line under the cursor, else the farm."""
        line = self.listing.current
        here = line.key if line else FARM
        return next((one for one in (self.unit or here, here, FARM) if one in self.sure.weekly), here)

    def on_listing_moved(self, message: Listing.Moved) -> None:
        """The weeks are those of the line under the cursor."""
        self._draw_below()

    def action_basis(self) -> None:
        """Count other costs."""
        order = list(Basis)
        self.basis = order[(order.index(self.basis) + 1) % len(order)]
        self.reload()

    def action_span(self) -> None:
        """Another span of days."""
        if self.own_days is None:
            self.span = SPANS[(SPANS.index(self.span) + 1) % len(SPANS)]
        self.own_days = None
        self.reload()

    def action_own_span(self) -> None:
        """A span of one's own."""
        from farmops.tui.screens.own_span import OwnSpan

        if self.today is not None:
            self.app.push_screen(OwnSpan(self.today), self._take_span)

    def _take_span(self, days: tuple[date, date] | None) -> None:
        if days is not None:
            self.own_days = days
            self.reload()

    def action_group(self) -> None:
        """By unit, bed, crop, fish lot, month or year."""
        self.group = GROUPS[(GROUPS.index(self.group) + 1) % len(GROUPS)]
        self.reload()

    def action_sort(self) -> None:
        """Sort by the next column."""
        self.sorted_by = (self.sorted_by + 1) % len(ORDERS)
        self._show_asked()
        self._draw()

    def action_season(self) -> None:
        """A season report, of the span and the costs that are shown."""
        self.open_form("file", "season", self._asked())

    def action_view(self) -> None:
        """Another picture below the list."""
        self.view = (self.view + 1) % len(VIEWS)
        self._draw_below()

    @property
    def file_title(self) -> str:
        """What is asked."""
        return f"Returns by {self.group}, {COSTS[self.basis]}"

    def picture(self) -> Callable[[], Chart] | None:
        """The picture that is open below the list."""
        if self.found is None or self.farm is None:
            return None
        from farmops.tui.screens.returns_charts import Shown, chart_of

        found, asked = self.found, (self.unit, self._named(), span_of(self.found), self.farm.measures)
        shown = Shown(VIEWS[self.view], found, self.group, self._rows(found), self.sure, self.months, *asked)
        return partial(chart_of, shown)

    def action_beside(self) -> None:
        """The line under the cursor beside another one."""
        from farmops.tui.screens.choose import Choose

        line = self.listing.current
        if self.group in ("lot", "month", "year") or line is None or self.found is None:
            self.refuse(NOT_COMPARED)
            return
        names = [name for name, _ in rows_of(self.found, self.group) if name not in (FARM, line.key)]
        others = dict(zip(KEYS, names, strict=False))
        if not others and line.key != FARM:
            self.refuse(f"There is no second {self.group} to compare {line.key} with.")
            return
        if line.key == FARM:
            self.refuse("Put the cursor on a unit, a bed or a crop; another one is chosen then.")
            return
        self.app.push_screen(Choose(f"Compare {line.key} with", others), partial(self._compare, line.key, others))

    def _compare(self, one: str, others: dict[str, str], chosen: str | None) -> None:
        if chosen is None:
            return
        from farmops.exchange.compare_text import compare_text
        from farmops.reports.comparing import Comparisons, compare_two
        from farmops.tui.screens.told import Told
        from farmops.tui.screens.told_out import comparisons_out

        ask = partial(compare_two, asked=self._asked(), first=one, second=others[chosen])
        out = partial(comparisons_out, measures=self.farm.measures if self.farm else US)
        self.app.push_screen(Told(ask, compare_text, COMPARED, Comparisons.figures, out=out))

    def action_rank(self) -> None:
        """What the order of the units hangs on."""
        from farmops.exchange.rank_text import rank_text
        from farmops.reports.ranking import Ranking, ranking
        from farmops.tui.screens.told import Told
        from farmops.tui.screens.told_out import ranking_out

        ask = partial(ranking, asked=self._asked())
        self.app.push_screen(Told(ask, rank_text, RANKED, Ranking.figures, out=ranking_out))

    def action_payback(self) -> None:
        """Whether the units are earned back."""
        from farmops.exchange.rank_text import investment_text
        from farmops.reports.investment import investments
        from farmops.tui.screens.told import Told
        from farmops.tui.screens.told_out import investments_out

        ask = partial(investments, asked=self._asked())
        self.app.push_screen(Told(ask, investment_text, EARNED, figures_of, out=investments_out))

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


COMPARED = "The weeks in which both stood, drawn anew 2,000 times"
RANKED = "Net return and cost per weight of each unit, each way"


def figures_of(found: Investments) -> list[Figure]:
    """Every figure of every unit as an investment."""
    return [figure for one in found.units for figure in one.figures().values()]
