"""A season report in a file: whole or not at all, readable by its owner alone."""

from __future__ import annotations

from pathlib import Path

from farmops.exchange.charts import INSTALL, can_draw
from farmops.exchange.files import write_file
from farmops.exchange.season_page import page
from farmops.model.frozen import dataclass
from farmops.reports.season import Season


@dataclass(frozen=True, slots=True)
class SeasonWritten:
    """The file that was written, of which days it tells, and whether it has its charts."""

    file: Path
    season: Season
    charts: bool

    @property
    def told(self) -> str:
        """What was written, in a line."""
        span = self.season.whole.span
        lacking = "" if self.charts else f" Without charts, which need matplotlib: {INSTALL}"
        place = f"Season report of {span.first} to {span.last} in {self.file}."
        return f"{place} It opens in any browser, and prints.{lacking}"


def write_season(season: Season, file: str, *, replace: bool = False) -> SeasonWritten:
    """Write the report of a season as one HTML file, mode 0600; without matplotlib in words and tables alone."""
    return SeasonWritten(write_file(file, page(season).encode("utf-8"), replace=replace), season, can_draw())
