"""Charts as SVG: what is drawn in signs on a terminal, for paper and for other programs, told apart without colour."""

from __future__ import annotations

import warnings
from collections.abc import Callable, Sequence
from datetime import date
from io import BytesIO
from math import isfinite
from pathlib import Path
from string import ascii_lowercase
from typing import TYPE_CHECKING, Any, Literal

from farmops.exchange.files import write_file
from farmops.model.errors import Refused
from farmops.model.frozen import dataclass
from farmops.model.text import plain

if TYPE_CHECKING:
    from matplotlib.axes import Axes

FIRST, SECOND, INK = "#2f6f5e", "#d9a441", "#333333"
HATCH = "///"
SHADES = (("#2f6f5e", ""), ("#8fb8a8", "///"), ("#d9a441", ""), ("#f0d9a8", "..."), ("#7a6a9b", "xx"))
"""Looks of bars and of parts of bars, in their order."""
LINES = (("o", "-"), ("s", "--"), ("^", ":"), ("D", "-."))
"""Looks of curves, in their order."""
BAND = "#e6efe9"
LOOKS: Any = {
    "font.size": 9,
    "svg.hashsalt": "farmops",
    "svg.fonttype": "path",
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.titlelocation": "left",
    "text.parse_math": False,
}
AS_TEXT = {"svg.fonttype": "none"}
"""Words in scripts that our font lacks are left to the fonts of whoever looks at them."""
WIDE, HIGH = 7.2, 2.6
TALL = 3.4
"""Inches of a chart that stands by itself."""
LINE, BAR = 0.18, 0.28
"""Inches that a line of words and a bar take."""
INSTALL = "pip install 'farmops[report]'"
NOT_INSTALLED = f"Charts need matplotlib. Install it: {INSTALL}"
NOTHING = "There is nothing to draw here yet."
MOST_LABELS = 14


@dataclass(frozen=True, slots=True)
class Curve:
    """Values by day or by name, and the range that each may lie in where that is known.

    `mark` is the sign of its points; a curve that is not `joined` has points alone.
    """

    name: str
    at: tuple[date | str, ...]
    values: tuple[float, ...]
    ranges: tuple[tuple[float, float] | None, ...] = ()
    mark: str = ""
    joined: bool = True


@dataclass(frozen=True, slots=True)
class Chart:
    """A picture: its title, what stands along it and up it with their units, and what it shows.

    `kind` is days (curves over time), columns (bars upwards by name), bars (bars to the right by name) or stacks (what
    each bar is made up of). `band` is the span that is safe; `marks` are days on which something was changed.
    """

    title: str
    along: str
    up: str
    curves: tuple[Curve, ...]
    kind: Literal["days", "columns", "bars", "stacks"] = "days"
    band: tuple[float | None, float | None] = (None, None)
    marks: tuple[tuple[date, str], ...] = ()


def can_draw() -> bool:
    """Whether matplotlib is here."""
    try:
        import matplotlib  # noqa: F401 - asked for, not used
    except ImportError:
        return False
    return True


def write_chart(place: str, chart: Chart, *, replace: bool = False) -> Path:
    """Write a chart as SVG, for its owner alone.

    Raises:
        NotFound: there is no such folder.
        Refused: matplotlib is missing, there is nothing to draw, a file is there already, or the disk takes it not.
    """
    return write_file(place, as_svg(chart), replace=replace)


def as_svg(chart: Chart) -> bytes:
    """The chart. Raises Refused without matplotlib, and where there is nothing to draw."""
    if not any(map(isfinite, (value for curve in chart.curves for value in curve.values))):
        raise Refused(NOTHING)
    names = max(len(curve.at) for curve in chart.curves)
    high = TALL + LINE * len(chart.marks)
    if chart.kind in ("bars", "stacks"):
        high = max(HIGH, BAR * names + 1.2)

    def draw(axes: Axes) -> None:
        DRAWS[chart.kind](axes, chart)
        axes.set_title(plain(chart.title), fontsize=10, pad=12 if chart.marks else 6)
        axes.set_xlabel(plain(chart.along))
        axes.set_ylabel(plain(chart.up))

    return drawn(draw, high, whole=True)


def drawn(draw: Callable[[Axes], None], high: float = HIGH, *, whole: bool = False) -> bytes:
    """What is drawn on axes, as SVG that is the same each time; a `whole` one grows with its words, so none is cut.

    Raises Refused without matplotlib.
    """
    with warnings.catch_warnings(record=True) as told:
        warnings.simplefilter("always")
        found = _saved(draw, high, LOOKS, whole=whole)
    if any("Glyph" in str(one.message) for one in told):
        with warnings.catch_warnings(action="ignore"):
            return _saved(draw, high, LOOKS | AS_TEXT, whole=whole)
    return found


def _saved(draw: Callable[[Axes], None], high: float, looks: Any, *, whole: bool) -> bytes:
    try:
        import matplotlib as mpl
        from matplotlib.backends.backend_svg import FigureCanvasSVG
        from matplotlib.figure import Figure as Sheet
    except ImportError:
        raise Refused(NOT_INSTALLED) from None
    with mpl.rc_context(looks):
        sheet = Sheet(figsize=(WIDE, high), layout="constrained")
        FigureCanvasSVG(sheet)
        draw(sheet.add_subplot())
        file = BytesIO()
        sheet.savefig(file, format="svg", metadata={"Date": None}, bbox_inches="tight" if whole else None)
    return file.getvalue()


def _draw_days(axes: Axes, chart: Chart) -> None:
    _draw_band(axes, chart.band)
    for at, curve in enumerate(chart.curves):
        mark, line = LINES[at % len(LINES)]
        axes.plot(
            curve.at,  # type: ignore[arg-type]
            curve.values,
            marker=curve.mark or mark,
            linestyle=line if curve.joined else "",
            markersize=4 if curve.joined else 7,
            color=INK if at == 0 or not curve.joined else SHADES[at % len(SHADES)][0],
            label=plain(curve.name),
        )
        _draw_ranges(axes, curve)
    for letter, (day, words) in zip(ascii_lowercase, chart.marks, strict=False):
        axes.axvline(day, color=INK, linewidth=0.8, linestyle=":", label=f"{letter}  {day}: {plain(words)}")  # type: ignore[arg-type]
        axes.annotate(letter, (day, 1), xycoords=axes.get_xaxis_transform(), ha="center", va="bottom")
    _name_days(axes)
    _name_curves(axes, chart, below=bool(chart.marks))


def _name_days(axes: Axes) -> None:
    from matplotlib.dates import AutoDateLocator, ConciseDateFormatter

    days = AutoDateLocator(minticks=3, maxticks=9)  # type: ignore[no-untyped-call]
    axes.xaxis.set_major_locator(days)
    axes.xaxis.set_major_formatter(ConciseDateFormatter(days))  # type: ignore[no-untyped-call]


def _draw_band(axes: Axes, band: tuple[float | None, float | None]) -> None:
    low, high = band
    if low is not None and high is not None:
        axes.axhspan(low, high, color=BAND, label="safe")
    elif low is not None or high is not None:
        edge, word = (low, "safe from here") if low is not None else (high, "safe up to here")
        axes.axhline(edge or 0, color=FIRST, linewidth=1, linestyle="--", label=word)


def _draw_ranges(axes: Axes, curve: Curve) -> None:
    known = [(at, span) for at, span in zip(curve.at, curve.ranges, strict=False) if span is not None]
    if known:
        axes.vlines(
            [at for at, _ in known],  # type: ignore[arg-type]
            [span[0] for _, span in known],
            [span[1] for _, span in known],
            color=INK,
            linewidth=1,
            label="where it may lie",
        )


def _draw_columns(axes: Axes, chart: Chart) -> None:
    for curve, (colour, hatch) in zip(chart.curves, SHADES, strict=False):
        axes.bar(range(len(curve.at)), curve.values, color=colour, hatch=hatch, label=plain(curve.name))
    names = [str(name) for name in chart.curves[0].at]
    shown = range(0, len(names), max(1, -(-len(names) // MOST_LABELS)))
    axes.set_xticks(list(shown), [plain(names[at]) for at in shown])
    _name_curves(axes, chart)


def _draw_bars(axes: Axes, chart: Chart) -> None:
    (curve,) = chart.curves
    at = range(len(curve.at))
    axes.barh(at, curve.values, color=SHADES[1][0], edgecolor=INK, linewidth=0.4)
    for place, span in zip(at, curve.ranges, strict=False):
        if span is not None:
            axes.plot(span, [place, place], color=INK, marker="|", linewidth=1)
    axes.set_yticks(list(at), [plain(str(name)) for name in curve.at])
    axes.invert_yaxis()


def _draw_stacks(axes: Axes, chart: Chart) -> None:
    at = range(len(chart.curves[0].at))
    left = [0.0 for _ in at]
    for curve, (colour, hatch) in zip(chart.curves, SHADES, strict=False):
        if any(curve.values):
            look: dict[str, Any] = {"color": colour, "hatch": hatch, "edgecolor": INK, "linewidth": 0.4}
            axes.barh(at, curve.values, left=left, label=plain(curve.name), **look)
        left = [start + width for start, width in zip(left, curve.values, strict=True)]
    axes.set_yticks(list(at), [plain(str(name)) for name in chart.curves[0].at])
    axes.invert_yaxis()
    _name_curves(axes, chart, below=True)


def _name_curves(axes: Axes, chart: Chart, *, below: bool = False) -> None:
    """What the signs mean, where there is more than one."""
    handles, labels = axes.get_legend_handles_labels()
    named = dict(zip(labels, handles, strict=True))
    if len(named) < 2:
        return
    place: dict[str, Any] = {"loc": "upper left", "bbox_to_anchor": (0, -0.2)} if below else {"loc": "best"}
    across = min(5, len(named)) if below and not chart.marks else 1
    axes.legend(named.values(), named.keys(), frameon=False, fontsize=8, ncols=across, **place)


DRAWS: dict[str, Callable[[Any, Chart], None]] = {
    "days": _draw_days,
    "columns": _draw_columns,
    "bars": _draw_bars,
    "stacks": _draw_stacks,
}


def dated(pairs: Sequence[tuple[date, float]]) -> tuple[tuple[date, ...], tuple[float, ...]]:
    """Days and values apart."""
    return tuple(day for day, _ in pairs), tuple(value for _, value in pairs)
