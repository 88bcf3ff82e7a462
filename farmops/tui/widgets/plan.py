"""A plan of beds drawn to scale: as wide as each is large, with what grows where."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rich.segment import Segment
from textual.reactive import reactive
from textual.strip import Strip
from textual.widget import Widget

from farmops.model.text import plain
from farmops.tui.widgets.cells import fill

SMALLEST = 9
HEIGHT = 5


@dataclass(frozen=True, slots=True)
class PlannedBed:
    """A bed on the plan: its code, size in words, area in mm2 (None: not known), crops with their part of it."""

    code: str
    size: str
    area_mm2: int | None
    crops: tuple[tuple[str, float], ...]


class Plan(Widget):
    """Draws beds side by side to one scale, as many rows as it takes; beds without a size are drawn smallest."""

    COMPONENT_CLASSES = {"plan--edge", "plan--code", "plan--crop", "plan--free"}  # noqa: RUF012 - Textual's own form
    DEFAULT_CSS = """
    Plan {
        height: auto; max-height: 15; padding: 0 1;
        & > .plan--edge { color: $text-muted; }
        & > .plan--code { color: $foreground; text-style: bold; }
        & > .plan--crop { color: $success; }
        & > .plan--free { color: $text-muted; }
    }
    """
    beds: reactive[tuple[PlannedBed, ...]] = reactive((), layout=True)

    def get_content_height(self, container: object, viewport: object, width: int) -> int:
        """As many rows of beds as it takes."""
        return HEIGHT * len(self.rows(width))

    def rows(self, width: int) -> list[list[tuple[PlannedBed, int]]]:
        """Beds and their widths, row by row."""
        found: list[list[tuple[PlannedBed, int]]] = []
        used = width + 1
        for bed, size in zip(self.beds, widths(self.beds, width), strict=True):
            if used + size > width:
                found.append([])
                used = 0
            found[-1].append((bed, size))
            used += size
        return found

    def render_line(self, y: int) -> Strip:
        """One line of all beds of its row."""
        rows = self.rows(self.size.width)
        if y // HEIGHT >= len(rows):
            return Strip.blank(self.size.width, self.rich_style)
        segments: list[Segment] = []
        for bed, size in rows[y // HEIGHT]:
            segments += self._bed(bed, size, y % HEIGHT)
        return Strip(segments).adjust_cell_length(self.size.width, self.rich_style).apply_style(self.rich_style)

    def _bed(self, bed: PlannedBed, size: int, y: int) -> list[Segment]:
        edge = self.get_component_rich_style("plan--edge")
        inside = size - 3
        if y in (0, HEIGHT - 1):
            left, right = ("┌", "┐") if y == 0 else ("└", "┘")
            return [Segment(f"{left}{'─' * inside}{right} ", edge)]
        words, name = self._inside(bed, inside, y)
        style = self.get_component_rich_style(name)
        return [Segment("│", edge), Segment(fill(words, inside), style), Segment("│ ", edge)]

    def _inside(self, bed: PlannedBed, inside: int, y: int) -> tuple[str, str]:
        if y == 1:
            return plain(bed.code), "plan--code"
        if y == HEIGHT - 2:
            return bed.size, "plan--edge"
        if not bed.crops:
            return "free", "plan--free"
        return crops_to_scale(bed.crops, inside), "plan--crop"


def widths(beds: Sequence[PlannedBed], width: int) -> list[int]:
    """The width of each bed in columns, to one scale: all fit on few rows, and each has room for its code."""
    largest = max((bed.area_mm2 or 0 for bed in beds), default=0)
    most = max(SMALLEST, min(width, 40))
    if not largest:
        return [most // 2 if most // 2 >= SMALLEST else SMALLEST] * len(beds)
    return [max(SMALLEST, round((bed.area_mm2 or 0) / largest * most)) for bed in beds]


def crops_to_scale(crops: Sequence[tuple[str, float]], inside: int) -> str:
    """The crops side by side, each as wide as its part of the bed."""
    if len(crops) == 1:
        return plain(crops[0][0])
    parts = [max(1, round(part * inside)) for _, part in crops]
    return "".join(fill(plain(name), max(1, size - 1)) + "|" for (name, _), size in zip(crops, parts, strict=True))[
        :inside
    ]
