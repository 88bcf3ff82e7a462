"""Readings drawn over their days: the safe band behind them, and below what was changed meanwhile."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from string import ascii_lowercase

from farmops.model.frozen import dataclass
from farmops.reports.markers import Marker
from farmops.tui.widgets.pictures import wrapped
from farmops.tui.widgets.sparks import DRAWN, Signs

NARROWEST = 20
MOST_MARKERS = 8


@dataclass(frozen=True, slots=True)
class Point:
    """A reading as it is drawn: bad beyond a limit, doubtful when its instrument is."""

    day: date
    value: float
    bad: bool = False
    doubtful: bool = False


@dataclass(frozen=True, slots=True)
class Inks:
    """The signs of a drawing."""

    good: str
    bad: str
    doubtful: str
    band: str


def inks(signs: Signs) -> Inks:
    """Signs told apart without colour."""
    return Inks("●", "▲", "?", "·") if signs is DRAWN else Inks("o", "!", "?", ".")


def drawing(
    points: Sequence[Point],
    band: tuple[float | None, float | None],
    markers: Sequence[Marker],
    width: int,
    height: int,
    edges: tuple[str, str],
    signs: Signs = DRAWN,
) -> Iterator[str]:
    """`height` lines of readings, their days, and what the signs and letters mean; nothing for less than two days.

    `edges` are the words for the highest and the lowest value that `span_of` gives.
    """
    if len({one.day for one in points}) < 2:
        return
    ink, beside = inks(signs), max(len(edge) for edge in edges) + 1
    room = max(NARROWEST, width - beside)
    low, high = span_of(points, band)
    grid = [[ink.band if _inside(level, band, low, high, height) else " "] * room for level in range(height)]
    for one in points:
        level = round((one.value - low) / (high - low) * (height - 1))
        if 0 <= level < height:
            grid[level][_column(one.day, points, room)] = _sign(one, ink)
    for level in range(height - 1, -1, -1):
        edge = edges[0] if level == height - 1 else edges[1] if level == 0 else ""
        yield f"{edge:>{beside - 1}} {''.join(grid[level]).rstrip()}"
    yield from _below(points, markers, room, beside, ink, width)


def span_of(points: Sequence[Point], band: tuple[float | None, float | None]) -> tuple[float, float]:
    """The lowest and the highest value that is drawn: all readings, and the edges of the band that are not far off."""
    values = [one.value for one in points]
    least, most = min(values), max(values)
    far = max(most - least, abs(most) * 0.2, 1e-6)
    near = [edge for edge in band if edge is not None and least - far <= edge <= most + far]
    low, high = min([least, *near]), max([most, *near])
    return (low, high) if high > low else (low - far / 2, high + far / 2)


def _inside(level: int, band: tuple[float | None, float | None], low: float, high: float, height: int) -> bool:
    at = low + level / (height - 1) * (high - low)
    slack = (high - low) * 1e-9
    above = band[0] is None or at >= band[0] - slack
    below = band[1] is None or at <= band[1] + slack
    return band != (None, None) and above and below


def _column(day: date, points: Sequence[Point], room: int) -> int:
    first, last = points[0].day, points[-1].day
    return round((day - first).days / (last - first).days * (room - 1))


def _sign(one: Point, ink: Inks) -> str:
    return ink.bad if one.bad else ink.doubtful if one.doubtful else ink.good


def _below(
    points: Sequence[Point], markers: Sequence[Marker], room: int, beside: int, ink: Inks, width: int
) -> Iterator[str]:
    """The letters of what was changed, the first and last day, and what the signs mean."""
    shown = [one for one in markers if points[0].day <= one.day <= points[-1].day][-MOST_MARKERS:]
    line = [" "] * room
    for letter, one in zip(ascii_lowercase, shown, strict=False):
        line[_column(one.day, points, room)] = letter
    if shown:
        yield " " * beside + "".join(line).rstrip()
    first, last = str(points[0].day), str(points[-1].day)
    yield " " * beside + first + last.rjust(room - len(first))
    yield from wrapped([*_meanings(points, ink), *_told(shown)], width)


def _meanings(points: Sequence[Point], ink: Inks) -> Iterator[str]:
    yield f"{ink.band} safe"
    if any(one.bad for one in points):
        yield f"{ink.bad} beyond a limit"
    if any(one.doubtful and not one.bad for one in points):
        yield f"{ink.doubtful} doubtful"


def _told(shown: Sequence[Marker]) -> Iterator[str]:
    for letter, one in zip(ascii_lowercase, shown, strict=False):
        yield f"{letter} {one.words}"
