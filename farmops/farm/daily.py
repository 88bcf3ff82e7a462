"""What comes by itself after a booking: the backup of the day, the thinning of older ones, a word on a wrong clock."""

from __future__ import annotations

import os
from datetime import date, datetime, timedelta

from farmops import clock
from farmops.facts import farm as farm_facts
from farmops.facts import journal as journal_facts
from farmops.model.backups import Backup, Made
from farmops.model.errors import FarmopsError
from farmops.records import copies
from farmops.records.location import is_url
from farmops.records.store import Store
from farmops.schedule.thinning import kept

VARIABLE = "FARMOPS_DAILY_BACKUP"
OFF = ("off", "no", "0")
LEFT_BEHIND = timedelta(days=1)
SKEW = timedelta(minutes=10)
"""By how much the clocks of two computers that write to one farm may differ without a word."""


def clock_set_back(store: Store) -> str | None:
    """What to say where the last booking bears an earlier time than the one before it; None where all is well.

    Call it when what was booked has been acknowledged. It is said once: the next booking has this one before it.
    """
    try:
        with store.reading() as reader:
            farm, lines = farm_facts.farm(reader), journal_facts.lines(reader, 2)
    except FarmopsError:
        return None  # what is wrong with the store is said where it is read
    if len(lines) < 2 or lines[0].at >= lines[1].at - SKEW:
        return None
    now, before = (f"{one.at.astimezone(clock.time_zone(farm.time_zone)):%Y-%m-%d %H:%M}" for one in lines)
    return (
        f"Booked, but by this computer it is {now} now, and what was booked before that bears {before}. "
        "One of them is wrong: look at the clock, then at the days of what was booked: farmops journal"
    )


def keep_daily(store: Store) -> str | None:
    """Make the backup of today where there is none yet, then thin out the older ones.

    Call it when what was booked has been acknowledged: it takes nothing back. Returns None, or, where no backup could
    be made, words about it: there is nobody to catch an error.
    """
    if is_url(store.place) or os.environ.get(VARIABLE, "").lower() in OFF:
        return None
    try:
        _keep(store)
    except Exception as error:  # whatever it is, the booking stands
        return f"What you booked is safe, but today's backup was not made. {_words(error)}"
    return None


def _words(error: Exception) -> str:
    return str(error) if isinstance(error, FarmopsError) else f"Try: farmops backup ({type(error).__name__})"


def _keep(store: Store) -> None:
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
    today = clock.today(farm.time_zone)
    made = [one for one in copies.backups(store.place) if one.made is Made.DAILY]
    if any(_day(one.at, farm.time_zone) == today for one in made):
        return
    copies.copy_beside(store.place, Made.DAILY)
    thin(store.place, today, farm.time_zone)


def thin(place: str, today: date, zone: str) -> list[Backup]:
    """Delete the daily backups that the rule lets go, and what a power cut left of one; returns those that went.

    Those made when asked, before an upgrade, or of what was replaced stay.
    """
    found = [one for one in copies.backups(place) if one.made is Made.DAILY]
    first = {_day(one.at, zone): one for one in found}  # the newest stands first, so the first of a day stays
    staying = {first[day].file for day in kept(first, today)}
    going = [one for one in found if one.file not in staying]
    for one in going:
        one.file.unlink(missing_ok=True)
    _sweep(place)
    return going


def _sweep(place: str) -> None:
    """Parts of backups that were broken off: older than a day, so that nobody is still writing them."""
    for part in copies.folder_of(place).glob(".*.part*"):
        if clock.now().timestamp() - part.stat().st_mtime > LEFT_BEHIND.total_seconds():
            part.unlink(missing_ok=True)


def _day(at: datetime, zone: str) -> date:
    return at.astimezone(clock.time_zone(zone)).date()
