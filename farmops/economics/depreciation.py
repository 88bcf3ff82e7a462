"""What a thing that lasts for years costs in a span of days: straight line, by the day."""

from __future__ import annotations

from calendar import monthrange
from datetime import MAXYEAR, date, timedelta

from farmops.economics.allocation import proportion
from farmops.model.errors import OutOfRange, Refused
from farmops.model.frozen import dataclass


@dataclass(frozen=True, slots=True)
class StraightLine:
    """A cost spread evenly over the days of its life; money in cents.

    Attributes:
        cost: what was paid, delivery and set-up included [cents].
        salvage: what it will still be worth at the end [cents].
        in_service: the first day of its life.
        last_day: the last day of its life.
    """

    cost: int
    salvage: int
    in_service: date
    last_day: date

    @property
    def days(self) -> int:
        """Days of the life, first and last included."""
        return (self.last_day - self.in_service).days + 1

    def charge(self, first: date, last: date) -> int:
        """Depreciation of the days from `first` to `last`, both included [cents].

        Days outside the life cost nothing. Each charge is the difference of two rounded sums since the
        start, so periods that follow one another add up to cost less salvage, to the cent.

        Raises:
            Refused: the last day comes before the first.
        """
        if last < first:
            raise Refused(f"The period ends on {last} before it begins on {first}.")
        return self._charged((last - self.in_service).days + 1) - self._charged((first - self.in_service).days)

    def book_value(self, on: date) -> int:
        """What it stands in the books at the end of a day [cents]; its cost before it is in service."""
        return self.cost - self._charged((on - self.in_service).days + 1)

    def _charged(self, days: int) -> int:
        """Depreciation of the first `days` days of the life [cents]."""
        lived = min(max(days, 0), self.days)
        return proportion(self.cost - self.salvage, lived, self.days)


def straight_line(cost: int, salvage: int, in_service: date, life_months: int) -> StraightLine:
    """Spread cost less salvage evenly over the days of a life counted in months.

    A life of n months ends the day before the same day of the month n months on, or before the last day of
    that month where it is shorter.

    Args:
        cost: what was paid [cents], zero or more.
        salvage: worth at the end of the life [cents], from zero to the cost.
        in_service: the first day of its life.
        life_months: length of the life [months], one or more.

    Raises:
        Refused: the salvage value is negative or above the cost, the cost is negative, or the life is shorter
            than a month.
        OutOfRange: the life ends after the year 9999.

    Source:
        d = (C - S) / n, OpenStax (2019), Principles of Accounting, Volume 1, 11.3; here by
        the day, not by the year.
    """
    if not 0 <= salvage <= cost:
        raise Refused("The value at the end of its life must lie between zero and what was paid.")
    if life_months < 1:
        raise Refused("A life is one month or longer.")
    return StraightLine(cost, salvage, in_service, _months_on(in_service, life_months) - timedelta(days=1))


def _months_on(day: date, months: int) -> date:
    years, month = divmod(day.month - 1 + months, 12)
    year = day.year + years
    if year > MAXYEAR:
        raise OutOfRange(f"A life of {months} months from {day} ends after the year {MAXYEAR}.")
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))
