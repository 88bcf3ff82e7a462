"""Power cuts as lines of a list: when each began and ended, by the clock of the farm."""

from __future__ import annotations

from farmops import clock
from farmops.model.frozen import dataclass
from farmops.model.incidents import Incident
from farmops.reports import lists
from farmops.reports.power_cut_words import hour_words
from farmops.reports.store import Store
from farmops.tui.widgets.listing_lines import Column, Line

PAST_COLUMNS = (Column("began", "began"), Column("ended", "ended"), Column("note", "note", grow=True))


@dataclass(frozen=True, slots=True)
class Past:
    """A power cut with its hours in words."""

    incident: Incident
    began: str
    ended: str


def past_of(store: Store) -> list[Past]:
    """Every power cut, the latest first."""
    farm = lists.farm(store)
    zone = clock.time_zone(farm.time_zone)
    return [
        Past(
            one,
            f"{one.began_at.astimezone(zone):%Y-%m-%d %H:%M}",
            hour_words(one.ended_at, farm, one.began_at) if one.ended_at else "lasts",
        )
        for one in lists.incidents(store)
    ]


def past_line(one: Past) -> Line:
    """One of them; its record is the power cut itself."""
    return Line(f"incidents {one.incident.id}", (one.began, one.ended, one.incident.note or ""), data=one.incident)
