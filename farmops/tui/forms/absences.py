"""Forms for absences: who is away, and what will move, shown before it is booked."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from farmops.model.absences import Absence, AbsenceChange, Moved, Moves, NewAbsence
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.forms.settling import COMING_DAYS, coming_day
from farmops.tui.widgets.fields import Field, Kind, day_words
from farmops.tui.widgets.forms import FormSpec, Hand

NAMED = 6
"""How many chores a preview names; the others are counted."""
LACKING_NAMED = 4
"""The same of what is missing on the care sheet."""


def new(context: Context) -> FormSpec:
    """Somebody goes away."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.absences import go_away

        away = go_away(store, _entry(values, context), **making.hand_of(hand, operation))
        said = f"{_booked(away.absence)} {_counted(away.moves)} u takes it back.".replace("  ", " ")
        return "\n".join([said, *_to_mind(away.moves), *_lacking(store, away.absence)])

    def preview(store: Store, values: dict[str, Any], hand: Hand) -> str:
        from farmops.farm.absences import go_away

        return moves_told(go_away.rehearse(store, _entry(values, context), by=hand.by).moves)

    first = context.people[0].name if len(context.people) == 1 else ""
    return FormSpec("Going away", _fields(context, first), save, context.setting, preview=preview)


def edit(record: Absence, context: Context) -> FormSpec:
    """Correct an absence, or come home early."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.absences import change_absence

        away = change_absence(store, _change(record, values, context), **making.hand_of(hand, operation))
        said = f"{_booked(away.absence)} {_counted(away.moves)}".strip()
        return "\n".join([said, *_to_mind(away.moves), *_lacking(store, away.absence)])

    def preview(store: Store, values: dict[str, Any], hand: Hand) -> str:
        from farmops.farm.absences import change_absence

        return moves_told(change_absence.rehearse(store, _change(record, values, context), by=hand.by).moves)

    days = (str(record.from_day), str(record.until_day))
    fields = _fields(context, record.person, *days, record.stand_in or "", record.note)
    title = f"{record.person} away from {day_words(record.from_day)}"
    return FormSpec(title, fields, save, context.setting, edits=True, verb="Change", preview=preview)


def _fields(
    context: Context, who: str, first: str = "", last: str = "", stand_in: str = "", note: str | None = None
) -> tuple[Field, ...]:
    return (
        _somebody(context, "person_id", "Who", who, required=True, blamed=("already", "stands in for")),
        _day("from_day", "From", first, ("before the first",)),
        _day("until_day", "To", last, ()),
        _somebody(context, "stand_in_id", "Stands in", stand_in, blamed=("cannot stand in", "themselves")),
        making.note(note),
    )


def _somebody(context: Context, name: str, label: str, value: str, **more: Any) -> Field:
    names = tuple(one.name for one in context.people)
    return Field(name, label, Kind.NAME, value, names, strict=True, otherwise="People are added in Records.", **more)


def _day(name: str, label: str, value: str, blamed: tuple[str, ...]) -> Field:
    return Field(
        name,
        label,
        Kind.DAY,
        value,
        required=True,
        hint=COMING_DAYS,
        read=coming_day,
        told=lambda day, setting: day_words(day),
        blamed=(*making.BOOK_DAYS, *blamed),
    )


def _entry(values: dict[str, Any], context: Context) -> NewAbsence:
    return NewAbsence(**_with_people(values, context))


def _change(record: Absence, values: dict[str, Any], context: Context) -> AbsenceChange:
    return AbsenceChange(record.id, **_with_people(values, context))


def _with_people(values: dict[str, Any], context: Context) -> dict[str, Any]:
    ids = {one.name: one.id for one in context.people}
    return making.mapped(values, person_id=ids.__getitem__, stand_in_id=ids.__getitem__)


def _booked(one: Absence) -> str:
    return f"{one.person} is away from {day_words(one.from_day)} to {day_words(one.until_day)}."


def _counted(moves: Moves) -> str:
    if moves.put_off:
        return f"{len(moves.put_off)} {'chore' if len(moves.put_off) == 1 else 'chores'} put off."
    return moves.staying


def moves_told(moves: Moves) -> str:
    """What would move, in a few lines: what to do before leaving, what is put off, and what to mind."""
    lines = _to_mind(moves)
    for until in sorted({one.until for one in moves.put_off if one.until}):
        own = [one for one in moves.put_off if one.until == until]
        lines.append(f"Put off until {_short(until)}: {_named(own)}.")
    return "\n".join(lines or [moves.staying or "Nothing has to move."])


def _to_mind(moves: Moves) -> list[str]:
    """What nobody there can do or does not find, and what to do before leaving."""
    before = [f"Do before you go: {_named(moves.before)}."] if moves.before else []
    return [*moves.warnings, *before]


def _lacking(store: Store, one: Absence) -> list[str]:
    """What who stands in would look for in vain on the care sheet, without how to book it."""
    from farmops.reports.care import care_sheet

    if one.stand_in is None:
        return []
    found = [words.partition(": ")[0] for words in care_sheet(store, one.from_day, one.from_day).lacking]
    more = f", and {len(found) - LACKING_NAMED} more" if len(found) > LACKING_NAMED else ""
    return [f"Missing on the care sheet: {', '.join(found[:LACKING_NAMED])}{more}."] if found else []


def _named(moved: Sequence[Moved]) -> str:
    words = [f"{one.title} ({one.where}, {_short(one.due)})" for one in moved[:NAMED]]
    more = f", and {len(moved) - NAMED} more" if len(moved) > NAMED else ""
    return ", ".join(words) + more


def _short(day: date) -> str:
    return f"{day:%a} {day.day} {day:%b}"
