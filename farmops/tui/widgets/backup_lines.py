"""The list of backups, and what a look through the farm finds."""

from __future__ import annotations

from datetime import date

from farmops.model.backups import MADE_IN_WORDS, Backup, size_of
from farmops.model.soundness import PARTS_IN_WORDS, Finding
from farmops.quantities import Measures
from farmops.reports.store import Store
from farmops.tui.widgets.listing_lines import Column, Line

BACKUP_COLUMNS = (
    Column("made", "made"),
    Column("why", "", grow=True),
    Column("size", "size", align="right", priority=1),
    Column("file", "file", priority=2),
)
NO_BACKUP = "No backup lies beside the farm yet. n makes one, here or on a stick."
FINDING_COLUMNS = (Column("part", "in", priority=1), Column("words", "what is not right", grow=True))
ALL_WHOLE = "All is whole: the file, the journal, every record as it was booked, due days, figures, photos."


def backups_beside(store: Store, today: date, unit: str | None) -> list[Backup]:
    """The backups that lie beside the farm, the newest first."""
    from farmops.exchange.backups import backups

    return backups(store)


def backup_line(one: Backup, measures: Measures) -> Line:
    """When it was made, why, and how large it is."""
    cells = (f"{one.at:%Y-%m-%d %H:%M}Z", MADE_IN_WORDS[one.made], size_of(one), one.file.name)
    return Line(f"backups {one.file.name}", cells, data=one)


def findings(store: Store, today: date, unit: str | None) -> list[Finding]:
    """What is not right, gravest first."""
    from farmops.exchange.checking import check

    return list(check(store).findings)


def finding_line(one: Finding, measures: Measures) -> Line:
    """What is not right, and in which part; quiet where it may well be right."""
    return Line(f"findings {one.part} {one.words}", (PARTS_IN_WORDS[one.part], one.words), data=one)
