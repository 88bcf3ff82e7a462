"""A plan of beds drawn to scale: as wide as each is large, with what grows where."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len, set_cell_size
from rich.segment import Segment
from rich.style import Style
from textual.geometry import Size
from textual.reactive import reactive
from textual.strip import Strip
from textual.widget import Widget

from farmops.model.frozen import dataclass
from farmops.model.text import plain
from farmops.tui.widgets.cells import cut, fill

SMALLEST, LARGEST = 11, 40
WORTH_A_MARK = 5
LEAST_SIGNS = 4
"""Signs of a name that tell it from others; a bed with no room for so many says how many crops stand in it."""
UNNAMED = "·"
HEIGHT = 3
Row = list[tuple["PlannedBed", int]]


@dataclass(frozen=True, slots=True)
class PlannedBed:
    """A bed on the plan: its code, size in words, area in mm2 (None: not known), crops with their part of it."""

    code: str
    size: str
    area_mm2: int | None
    crops: tuple[tuple[str, float], ...]


class Plan(Widget):
    """Draws beds side by side to one scale, in at most half the height of where it stands."""

    COMPONENT_CLASSES = {"plan--edge", "plan--code", "plan--crop", "plan--free"}  # noqa: RUF012 - Textual's own form
    DEFAULT_CSS = """
    Plan {
        height: auto; padding: 0 1;
        & > .plan--edge { color: $text-muted; }
        & > .plan--code { color: $foreground; text-style: bold; }
        & > .plan--crop { color: $success; }
        & > .plan--free { color: $text-muted; }
    }
    """
    beds: reactive[tuple[PlannedBed, ...]] = reactive((), layout=True)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """As many rows of beds as they take, and as the list below can spare."""
        return HEIGHT * len(rows_of(self.beds, width, max(1, container.height // 2 // HEIGHT)))

    def render_line(self, y: int) -> Strip:
        """One line of all beds of its row."""
        rows = rows_of(self.beds, self.size.width, max(1, self.size.height // HEIGHT))
        if y // HEIGHT >= len(rows):
            return Strip.blank(self.size.width, self.rich_style)
        segments: list[Segment] = []
        for bed, size in rows[y // HEIGHT]:
            segments += self._bed(bed, size - 3, y % HEIGHT)
        return Strip(segments).adjust_cell_length(self.size.width, self.rich_style).apply_style(self.rich_style)

    def _bed(self, bed: PlannedBed, inside: int, y: int) -> list[Segment]:
        edge = self._style("plan--edge")
        if y == 1:
            style = self._style("plan--crop" if bed.crops else "plan--free")
            words = crops_to_scale(bed.crops, inside) if bed.crops else fill("free", inside)
            return [Segment("│", edge), Segment(words, style), Segment("│ ", edge)]
        size = bed.size if cell_len(bed.size) <= inside else bed.size.partition(" ")[0]
        words, left, right, name = (bed.code, "┌", "┐", "plan--code") if y == 0 else (size, "└", "┘", "plan--edge")
        label = label_of(plain(words), inside)
        line = "─" * (inside - cell_len(label))
        return [Segment(left, edge), Segment(label, self._style(name)), Segment(f"{line}{right} ", edge)]

    def _style(self, name: str) -> Style:
        return self.get_component_rich_style(name)


def rows_of(beds: Sequence[PlannedBed], width: int, most_rows: int) -> list[Row]:
    """Beds and their widths row by row, to the largest scale at which they fit; if none does, how many are left out."""
    rows: list[Row] = []
    for largest in range(max(SMALLEST, min(width, LARGEST)), SMALLEST - 1, -1):
        rows = _in_rows(list(zip(beds, widths(beds, largest), strict=True)), width)
        if len(rows) <= most_rows:
            return rows
    shown = rows[:most_rows]
    left_out = len(beds) - sum(len(row) for row in shown) + 1
    shown[-1][-1] = (PlannedBed(f"{left_out} more", "", None, (("", 1.0),)), SMALLEST)
    return shown


def _in_rows(beds: Sequence[tuple[PlannedBed, int]], width: int) -> list[Row]:
    rows: list[Row] = []
    used = width
    for bed, size in beds:
        if used + size > width:
            rows.append([])
            used = 0
        rows[-1].append((bed, size))
        used += size
    return rows


def widths(beds: Sequence[PlannedBed], largest: int) -> list[int]:
    """The width of each bed in columns to one scale, a gap included; each has room for its code."""
    most = max((bed.area_mm2 or 0 for bed in beds), default=0)
    if not most:
        return [max(SMALLEST, largest // 2)] * len(beds)
    return [max(SMALLEST, round((bed.area_mm2 or 0) / most * largest)) for bed in beds]


def label_of(words: str, inside: int) -> str:
    """Words in the edge of a bed, with air around them where there is room."""
    airy = f" {words} " if words else ""
    return airy if cell_len(airy) <= inside else cut(words, inside)


def crops_to_scale(crops: Sequence[tuple[str, float]], inside: int) -> str:
    """The crops side by side, each as wide as its part of the bed; what no crop takes stays blank.

    One name without room to be read leaves a dot; where there are more of them, how many crops there are stands over
    what they take.
    """
    taken = round(sum(part for _, part in crops) * inside)
    if len(crops) > 1:
        crops = [(name if _readable(name, part, inside) else UNNAMED, part) for name, part in crops]
    if sum(name == UNNAMED for name, _ in crops) > len(crops) // 3:
        return crops_to_scale(((f"{len(crops)} crops", max(taken, len("99 crops")) / inside),), inside)
    drawn, left, upto = "", 0, 0.0
    for name, part in crops:
        upto += part
        right = min(inside, round(upto * inside))
        edge = "|" if left < right < inside else ""
        drawn += _short(plain(name), right - left - len(edge)) + edge
        left = right
    return fill(drawn, inside)


def _readable(name: str, part: float, inside: int) -> bool:
    """Whether a name, or as much of it as tells it from others, finds room in its part beside the edge."""
    return round(part * inside) - 1 >= min(cell_len(name), LEAST_SIGNS)


def _short(name: str, columns: int) -> str:
    """A name in its room; in very little, its first letters say more than a mark that some are missing."""
    return fill(name, columns) if columns > WORTH_A_MARK else set_cell_size(name, max(0, columns))
