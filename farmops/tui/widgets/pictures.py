"""Pictures made of signs: columns over time, and stacked bars of what an amount is made up of, with words beside."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from rich.cells import cell_len

from farmops.model.frozen import dataclass
from farmops.tui.widgets.cells import fill
from farmops.tui.widgets.sparks import DRAWN, Signs

FILLS, PLAIN_FILLS = "█▓▒░╱", "#=+./"
NARROWEST = 8
BEYOND, PLAIN_BEYOND = "▲", "^"
ROUNDING = 1 + 1e-9


@dataclass(frozen=True, slots=True)
class Stack:
    """One amount and the parts it is made up of, in the order of the words of its picture."""

    name: str
    parts: tuple[float, ...]
    told: str

    @property
    def total(self) -> float:
        """All parts together."""
        return sum(self.parts)


def fills(signs: Signs) -> str:
    """A sign for each part, told apart without colour."""
    return FILLS if signs is DRAWN else PLAIN_FILLS


def stacks(found: Sequence[Stack], words: Sequence[str], width: int, signs: Signs = DRAWN) -> Iterator[str]:
    """A bar for each amount, all to one scale, and what the signs mean; parts that nobody has are not named."""
    largest = max((one.total for one in found), default=0.0)
    if largest <= 0:
        return
    names = min(width // 3, max(cell_len(one.name) for one in found))
    told = max(len(one.told) for one in found)
    room = max(NARROWEST, width - names - told - 2)
    for one in found:
        bar = stacked(one.parts, round(room * one.total / largest), fills(signs))
        yield f"{fill(one.name, names)} {bar:<{room}} {one.told:>{told}}"
    used = [at for at in range(len(words)) if any(one.parts[at] for one in found)]
    yield from wrapped([f"{fills(signs)[at]} {words[at]}" for at in used], width)


def stacked(parts: Sequence[float], width: int, signs: str) -> str:
    """A bar of so many columns, cut where its parts end; rounding never makes it longer or shorter."""
    total, drawn, ends = sum(parts), "", 0.0
    if total <= 0:
        return ""
    for part, sign in zip(parts, signs, strict=False):
        ends += part
        drawn += sign * (round(ends / total * width) - len(drawn))
    return drawn


def wrapped(words: Sequence[str], width: int) -> Iterator[str]:
    """Words side by side, as many on a line as there is room for, none of them cut."""
    line = ""
    for word in words:
        if line and cell_len(line) + 2 + cell_len(word) > width:
            yield line
            line = ""
        line = f"{line}  {word}" if line else word
    if line:
        yield line


def columns_over(
    values: Sequence[float | None],
    labels: Sequence[str],
    width: int,
    height: int,
    top: str,
    signs: Signs = DRAWN,
    most: float | None = None,
) -> Iterator[str]:
    """A column for each value from zero to `most`, or to the largest, with `top` beside the highest line.

    None leaves a gap; a column that is cut off at `most` ends in a sign. Labels stand under the first of the
    columns they belong to, "" for none.
    """
    known = [value for value in values if value is not None and math.isfinite(value)]
    largest = max(known, default=0.0) if most is None else most
    if largest <= 0:
        return
    beside = len(top) + 1
    step = max(1, min(4, (width - beside) // len(values)))
    for level in range(height, 0, -1):
        pieces = (_piece(value, largest, level, height, signs) for value in values)
        row = "".join((piece * max(1, step - 1)).ljust(step) for piece in pieces)
        yield (top if level == height else "").rjust(beside - 1) + " " + row.rstrip()
    yield " " * beside + _under(labels, step)


def _piece(value: float | None, largest: float, level: int, height: int, signs: Signs) -> str:
    """What a column fills of one level: all, an eighth to seven eighths, or nothing."""
    if value is None or not math.isfinite(value) or value <= 0:
        return " " if level > 1 or value is None else "_"
    if value > largest * ROUNDING and level == height:
        return BEYOND if signs is DRAWN else PLAIN_BEYOND
    steps = len(signs.steps)
    filled = max(1, round(value / largest * height * steps)) - (level - 1) * steps
    return signs.steps[min(filled, steps) - 1] if filled > 0 else " "


def _under(labels: Sequence[str], step: int) -> str:
    line = ""
    for at, label in enumerate(labels):
        if label and len(line) <= at * step:
            line = line.ljust(at * step) + label + " "
    return line.rstrip()


def gathered(values: Sequence[float], most: int) -> tuple[list[float], int]:
    """Values summed in groups of as many as needed so that at most `most` are left, and how many are in a group."""
    size = max(1, math.ceil(len(values) / max(1, most)))
    return [sum(values[at : at + size]) for at in range(0, len(values), size)], size
