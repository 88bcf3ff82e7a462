"""Taking times in turn, so that what else the machine does falls on both sides, and telling ratios of medians."""

from __future__ import annotations

import subprocess
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from statistics import median


@dataclass(frozen=True, slots=True)
class Ratio:
    """A figure against its yardstick: medians in seconds (or bytes), and the aim for their ratio, if there is one."""

    name: str
    ours: float
    yardstick: float
    against: str
    aim: float | None = None
    unit: str = "s"

    @property
    def value(self) -> float:
        """Ours divided by the yardstick."""
        return self.ours / self.yardstick if self.yardstick else float("inf")

    def row(self) -> str:
        """A row of a Markdown table."""
        aim = "" if self.aim is None else f"{self.aim:g}"
        met = "" if self.aim is None else "yes" if self.value <= self.aim else "no"
        ours, theirs = shown(self.ours, self.unit), shown(self.yardstick, self.unit)
        return f"| {self.name} | {ours} | {self.against} | {theirs} | {self.value:.2f} | {aim} | {met} |"


def shown(value: float, unit: str) -> str:
    """Milliseconds or mebibytes."""
    return f"{value / 2**20:.1f} MiB" if unit == "bytes" else f"{value * 1000:.2f} ms"


def in_turn(runs: int, *things: Callable[[], object]) -> list[float]:
    """The median time of each thing in seconds, all run once before, then by turns."""
    for thing in things:
        thing()
    taken: list[list[float]] = [[] for _ in things]
    for _ in range(runs):
        for times, thing in zip(taken, things, strict=True):
            start = time.perf_counter()
            thing()
            times.append(time.perf_counter() - start)
    return [median(times) for times in taken]


def command(arguments: Sequence[str], env: dict[str, str] | None = None) -> Callable[[], None]:
    """A whole process, its output thrown away."""

    def run() -> None:
        subprocess.run(arguments, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=env)

    return run
