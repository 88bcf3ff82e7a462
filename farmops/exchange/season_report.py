"""A season report in a file: whole or not at all, readable by its owner alone."""

from __future__ import annotations

from pathlib import Path

from farmops.exchange.files import write_file
from farmops.exchange.season_page import page
from farmops.model.frozen import dataclass
from farmops.reports.season import Season


@dataclass(frozen=True, slots=True)
class SeasonWritten:
    """The file that was written, and of which days it tells."""

    file: Path
    season: Season

    @property
    def told(self) -> str:
        """What was written, in a line."""
        span = self.season.whole.span
        return f"Season report of {span.first} to {span.last} in {self.file}. It opens in any browser, and prints."


def write_season(season: Season, file: str, *, replace: bool = False) -> SeasonWritten:
    """Write the report of a season as one HTML file, mode 0600. Raises Refused without matplotlib."""
    return SeasonWritten(write_file(file, page(season).encode("utf-8"), replace=replace), season)
