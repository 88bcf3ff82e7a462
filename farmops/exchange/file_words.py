"""The kinds of rows a file may hold, as a grower is told of them: one list for the commands, the form and the docs.

It loads nothing, so that a help or a form is there at once.
"""

from __future__ import annotations

from collections.abc import Mapping

from farmops.model.frozen import dataclass


@dataclass(frozen=True, slots=True)
class FileWords:
    """What a kind is and its columns, the needed ones first; examples of the command; and what else is to be known."""

    columns: str
    examples: tuple[str, ...]
    more: str = ""


FILE_WORDS: Mapping[str, FileWords] = {
    "readings": FileWords(
        "Readings: columns date, unit, measure, value; or date, unit and one for each measure: pH, temperature (F). "
        "Also time and note.",
        (
            "readings june.csv --dry-run",
            'readings pond-log.csv --column "tank temp=temperature (F)" --as-ion',
        ),
        "Unlikely values are named, and booked with --sure.",
    ),
    "costs": FileWords(
        "Costs: columns date, what, amount; also category, payee, for (a unit, bed or lot), kind, life, salvage, label "
        "and note.",
        ('costs bank-june.csv --column "paid in EUR=amount" --dates day-first --dry-run',),
        "What is for no place is shared. What looks paid twice is booked with --sure.",
    ),
    "feedings": FileWords(
        "Feedings: columns date, lot, feed (a weight); also ate (all, some, none) and note.",
        ('feedings feed-log.csv --column "grams=feed (g)"',),
    ),
    "samples": FileWords(
        "Sample weighings: columns date, lot, number, weight (of all of them together); also note.",
        ("samples weighed.csv --dry-run",),
    ),
    "losses": FileWords(
        "Fish that died or went: columns date, lot, number; also cause, disposal, weight (of all of them), note.",
        ("losses deaths.csv --dry-run",),
    ),
    "plantings": FileWords(
        "Plantings: columns bed, crop, started; also unit, cleared, by (sowing or transplanting), variety, plants, "
        "note.",
        ("plantings beds-2025.csv --dates day-first",),
    ),
}
