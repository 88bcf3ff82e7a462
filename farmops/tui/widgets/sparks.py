"""Small drawings that stand in the cells of a list: a run of values, and a bar with its uncertainty."""

from __future__ import annotations

import math
from collections.abc import Sequence

from farmops.model.frozen import dataclass

BAR_WIDTH = 17
"""Columns that a bar asks for where it may choose."""


@dataclass(frozen=True, slots=True)
class Spark:
    """A run of values, the latest last; nan leaves a gap."""

    values: tuple[float, ...]

    def __str__(self) -> str:
        return " ".join("-" if math.isnan(value) else f"{value:g}" for value in self.values)


@dataclass(frozen=True, slots=True)
class Bar:
    """A value of 0 to `largest` drawn as a bar, with the range from `low` to `high` it may lie in, then words."""

    value: float
    low: float | None = None
    high: float | None = None
    largest: float = 1.0
    words: str = ""

    def __str__(self) -> str:
        between = "" if self.low is None or self.high is None else f" ({self.low:g} to {self.high:g})"
        return f"{self.value:g}{between} {self.words}".rstrip()


@dataclass(frozen=True, slots=True)
class Signs:
    """The shapes a terminal can draw."""

    steps: str
    sure: str
    unsure: str
    mark: str
    beyond: str
    cursor: str
    cut: str


DRAWN = Signs(steps="▁▂▃▄▅▆▇█", sure="━", unsure="─", mark="┿", beyond="›", cursor="▸", cut="…")
ASCII = Signs(steps="._-=+*#@", sure="=", unsure="-", mark="|", beyond=">", cursor=">", cut="~")


def spark_text(values: Sequence[float], width: int, signs: Signs = DRAWN) -> str:
    """The last `width` values as heights between the least and the largest of them."""
    shown = tuple(values[-width:]) if width > 0 else ()
    known = [value for value in shown if math.isfinite(value)]
    if not known:
        return " " * len(shown)
    least, span = min(known), max(known) - min(known)
    return "".join(_step(value, least, span, signs.steps) for value in shown)


def _step(value: float, least: float, span: float, steps: str) -> str:
    if not math.isfinite(value):
        return " "
    if not 0 < span < math.inf:
        return steps[len(steps) // 2 - 1]
    return steps[min(len(steps) - 1, int((value - least) / span * len(steps)))]


def bar_text(bar: Bar, width: int, signs: Signs = DRAWN) -> str:
    """The bar in `width` columns: what is sure, what may be, the value marked; cut off with a sign beyond `largest`."""
    if width <= 0 or not (math.isfinite(bar.value) and bar.largest > 0):
        return ""
    if bar.low is None or bar.high is None or math.isnan(bar.low) or math.isnan(bar.high):
        drawn = signs.sure * _columns(bar.value, bar.largest, width)
        return _cut_off(drawn, bar.value > bar.largest, signs)
    low, high = (_columns(edge, bar.largest, width) for edge in sorted((bar.low, bar.high)))
    drawn = signs.sure * low + signs.unsure * (high - low)
    if 0 <= bar.value <= bar.largest:
        at = max(0, _columns(bar.value, bar.largest, width) - 1)
        drawn = drawn.ljust(at, signs.unsure)[:at] + signs.mark + drawn[at + 1 :]
    return _cut_off(drawn, max(bar.low, bar.high, bar.value) > bar.largest, signs)


def _columns(value: float, largest: float, width: int) -> int:
    """How many columns a value fills; a positive one at least one."""
    if value <= 0:
        return 0
    return width if value >= largest else max(1, round(value / largest * width))


def _cut_off(drawn: str, beyond: bool, signs: Signs) -> str:
    return drawn[:-1] + signs.beyond if beyond and drawn else drawn
