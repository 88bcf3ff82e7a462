"""The desk a command works at: the store, who, and which day stands for today."""

from __future__ import annotations

from datetime import date
from functools import cached_property
from typing import TYPE_CHECKING, Any, TypedDict

import click

from farmops.model.errors import NotUnderstood, StoreUnavailable
from farmops.model.values import Measured

if TYPE_CHECKING:
    from farmops.model.farm import Farm
    from farmops.quantities import Dimension, Measures
    from farmops.reports.store import Store


class Hand(TypedDict):
    """Who does a change and under which id."""

    by: str
    operation: str | None


class Desk:
    """What every command needs, made only when it is asked for; `thrown_away` is a folder that goes with it."""

    def __init__(self, place: str | None, by: str, operation: str | None) -> None:
        self.place = place
        self.by = by
        self.operation = operation
        self.thrown_away: str | None = None

    @cached_property
    def store(self) -> Store:
        """The farm's store, not opened yet."""
        from farmops.reports.store import Store, resolve

        return Store(resolve(self.place))

    @cached_property
    def farm(self) -> Farm:
        """The farm. Raises NoFarm."""
        from farmops.reports import lists

        return lists.farm(self.store)

    def leave(self) -> None:
        """After the last word of a command: the backup of the day if something was booked, and the store is let go."""
        if "store" in self.__dict__:
            if self.store.wrote and self.thrown_away is None:
                self._look_after()
            self.store.close()

    def _look_after(self) -> None:
        """The backup of the day, a word on a wrong clock."""
        import sys

        from farmops.cli.output import say
        from farmops.farm.daily import clock_set_back, keep_daily

        sys.stdout.flush()
        for trouble in (keep_daily(self.store), clock_set_back(self.store)):
            if trouble is not None:
                say(trouble)

    def damage(self) -> StoreUnavailable | None:
        """What is to be said of a fault where the store that was worked on is damaged; else None."""
        if "store" not in self.__dict__:
            return None
        from farmops.reports.soundness import damage_behind

        return damage_behind(self.store)

    @property
    def measures(self) -> Measures:
        """How the farm weighs and measures."""
        return self.farm.measures

    @property
    def hand(self) -> Hand:
        """Who does the change of this command; its keywords go to every operation."""
        return {"by": self.by, "operation": self.operation}

    @cached_property
    def today(self) -> date:
        """The day it is on the farm."""
        return self.farm.today()

    def day(self, text: str | None) -> date:
        """The day typed, or today."""
        return self.day_or_none(text) or self.today

    def day_or_none(self, text: str | None, *, ahead: bool = False, today_too: bool = False) -> date | None:
        """The day typed, or none; `ahead` looks forward for one without a year, `today_too` from today on."""
        from farmops import clock

        return clock.parse_day(text, self.today, ahead=ahead, today_too=today_too) if text else None

    def mass(self, text: str) -> Measured:
        """A weight as typed, in milligrams."""
        from farmops.quantities import MASS

        return self._measured(MASS, text)

    def area(self, text: str) -> Measured:
        """An area as typed, in square millimetres."""
        from farmops.quantities import AREA

        return self._measured(AREA, text)

    def length(self, text: str) -> Measured:
        """A length as typed, in micrometres."""
        from farmops.quantities import LENGTH

        return self._measured(LENGTH, text)

    def volume(self, text: str) -> Measured:
        """A volume as typed, in millilitres."""
        from farmops.quantities import VOLUME

        return self._measured(VOLUME, text)

    def money(self, text: str, *, zero_ok: bool = False) -> Measured:
        """A sum as typed, in minor units."""
        from farmops.quantities import parse_money

        return Measured(parse_money(text, self.measures, zero_ok=zero_ok), text)

    def _measured(self, dimension: Dimension, text: str) -> Measured:
        return Measured(dimension.parse(text, self.measures), text)


pass_desk = click.make_pass_decorator(Desk)


def changes(**typed: Any) -> dict[str, Any]:
    """The options of an edit that were given; the others stay. Raises NotUnderstood when none was."""
    given = {name: value for name, value in typed.items() if value is not None}
    if not given:
        raise NotUnderstood("Nothing to change: name at least one option. See --help.")
    return given


def cleared(text: str) -> str | None:
    """`-` clears a field."""
    return None if text == "-" else text
