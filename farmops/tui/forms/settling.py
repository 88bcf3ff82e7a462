"""Forms that settle a chore: left out with a reason, put off to a day, resting for a while."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Any

from farmops import clock
from farmops.model.chores import Chore, ChoreClass, NewPause, Resuming, SettledAs, Settling
from farmops.model.errors import NotUnderstood
from farmops.model.text import LONGEST_NOTE
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting, day_words
from farmops.tui.widgets.forms import FormSpec, Hand

REASONS = ("not needed this time", "weather", "away", "out of supplies", "no time", "waiting for a part")
COMING_DAYS = "1 to 9 days ahead, sat, or 20 oct"
WITHIN_THE_DAY = "today at most; or Esc, and s leaves it out with a reason"
RESTS, GOES_ON = "rest", "go on"


def skip(record: Sequence[Chore], context: Context) -> FormSpec:
    """Leave chores out this time; a digit picks a common reason."""
    reason = Field(
        "reason",
        "Why",
        Kind.NAME,
        "",
        REASONS,
        required=True,
        numbered=True,
        longest=LONGEST_NOTE,
        hint="a digit, or your own words",
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        reason = values["reason"]
        entries = [Settling(one.id, SettledAs.SKIPPED, context.farm.today(), reason=reason) for one in record]
        _settle(store, entries, hand, operation)
        return f"Left out: {_called(record)}, {reason}. u takes it back."

    return FormSpec(f"Leave out: {_called(record)}", (reason,), save, context.setting, verb="Leave out")


def defer(record: Sequence[Chore], context: Context) -> FormSpec:
    """Put chores off to a day; a digit counts the days ahead."""
    until = Field(
        "until",
        "Until",
        Kind.DAY,
        required=True,
        hint=WITHIN_THE_DAY if _keeps_alive(record) else COMING_DAYS,
        read=coming_day,
        told=lambda day, setting: day_words(day),
        blamed=("Not deferred", *making.BOOK_DAYS),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        until = values["until"]
        entries = [Settling(one.id, SettledAs.DEFERRED, context.farm.today(), until=until) for one in record]
        _settle(store, entries, hand, operation)
        return f"Put off: {_called(record)}, until {day_words(until)}. u takes it back."

    return FormSpec(f"Put off: {_called(record)}", (until,), save, context.setting, verb="Put off")


def _keeps_alive(chores: Sequence[Chore]) -> bool:
    return any(one.grade is ChoreClass.LIFE_SUPPORT for one in chores)


def coming_day(text: str, setting: Setting) -> date:
    """A day to come: a digit counts days ahead, a weekday is the next of that name. Raises NotUnderstood."""
    typed = text.strip().lower()
    if len(typed) == 1 and typed in "123456789":
        return setting.today + timedelta(days=int(typed))
    try:
        return clock.parse_day(typed, setting.today, ahead=True)
    except NotUnderstood:
        raise NotUnderstood(f"{text!r} is no day to come. Understood: {COMING_DAYS}.") from None


def _settle(store: Store, entries: Sequence[Settling], hand: Hand, operation: str) -> None:
    from farmops.farm.chores import SettlingMany, settle_many

    settle_many(store, SettlingMany(tuple(entries)), **making.hand_of(hand, operation))


def pause(record: Chore, context: Context) -> FormSpec:
    """A chore rests from a day, until a day or until it is told to go on."""
    until = Field(
        "until",
        "Last day",
        Kind.DAY,
        hint="empty: until it goes on",
        read=coming_day,
        told=lambda day, setting: day_words(day),
        blamed=("Not paused",),
    )
    fields = (
        Field("how", "It is to", Kind.CHOICE, RESTS, (RESTS, GOES_ON), blamed=("Not resumed",)),
        making.day("from_day", "From"),
        until,
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm import chores

        first, last = values["from_day"], values["until"]
        if values["how"] == GOES_ON:
            chores.resume(store, Resuming(record.id, first), **making.hand_of(hand, operation))
            return f"{record.title} goes on from {first}."
        chores.pause(store, NewPause(record.id, first, last), **making.hand_of(hand, operation))
        return f"{record.title} rests from {first}{f' to {last}' if last else ' until it goes on'}."

    return FormSpec(f"Rest: {_called([record])}", fields, save, context.setting)


def where(chore: Chore) -> str:
    """Where a chore belongs."""
    return chore.bed or chore.lot or chore.unit or "all"


def _called(chores: Sequence[Chore]) -> str:
    return f"{chores[0].title}, {', '.join(where(one) for one in chores)}"
