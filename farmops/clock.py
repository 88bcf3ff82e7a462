"""What day and what instant it is; nothing else in the project asks the system clock."""

from __future__ import annotations

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from farmops.model.errors import NotUnderstood


def now() -> datetime:
    """The present instant in UTC, to the microsecond."""
    return datetime.now(UTC)


def today(zone: str) -> date:
    """The calendar day it is now in an IANA time zone."""
    return datetime.now(time_zone(zone)).date()


def time_zone(name: str) -> ZoneInfo:
    """The zone of that IANA name. Raises NotUnderstood for a name the tz database lacks."""
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        raise NotUnderstood(
            f"{name!r} is no time zone. Understood: names of the IANA database, such as America/New_York, "
            "Europe/Lisbon or Pacific/Auckland."
        ) from None
