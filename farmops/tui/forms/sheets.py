"""The form that books a sheet back: one line of input for each chore of the round."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from functools import partial
from typing import Any

from farmops import clock
from farmops.exchange.sheet_lines import How, settling_for
from farmops.model.chores import Chore, SettledAs, Settling
from farmops.model.errors import FarmopsError, Refused
from farmops.model.readings import Measure, NewReading
from farmops.reports.store import Store
from farmops.reports.water import Taken, Waters, taken
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting, day_words
from farmops.tui.widgets.forms import FormSpec, Hand

TITLE = "Book back the sheet"
ABOUT = "x is done, or: 6 min ph=7.1 amm=0.25, and what it insists on; skip why; defer +2. Empty: left alone."
DAY = "on"


def book_back(chores: Sequence[Chore], context: Context) -> FormSpec:
    """A line for each chore; those left empty are left alone, all others are booked in one operation."""
    fields = (
        making.day(DAY, "Day of the sheet"),
        *(_field(number, chore, context.waters) for number, chore in enumerate(chores, start=1)),
    )
    save = partial(_save, chores=tuple(chores))
    start = field_name(chores[0]) if chores else DAY
    return FormSpec(TITLE, fields, save, context.setting, about=ABOUT, start=start, wide=True)


def field_name(chore: Chore) -> str:
    """The name of the field that takes the line of a chore."""
    return f"chore_{chore.id}"


def _field(number: int, chore: Chore, waters: Waters) -> Field:
    where = chore.bed or chore.lot or chore.unit or "all"
    return Field(
        field_name(chore),
        f"{chore.id} {where} {chore.title}",
        Kind.TEXT,
        longest=1000,
        hint=_hint(chore),
        read=partial(_line, chore=chore, waters=waters),
        told=_told,
        heeds=_heeds,
        follows=(DAY,),
        blamed=(f"line {number}:",),
    )


def _hint(chore: Chore) -> str:
    """What the chore asks for."""
    asked = [*(f"{one}=" for one in chore.measures), *([chore.confirmation] if chore.confirmation else [])]
    return " ".join(asked) or "x"


class _Line:
    """What was understood of a line, and the readings in it as they are judged."""

    def __init__(self, settling: Settling, read: Sequence[Taken], missing: Sequence[Measure]) -> None:
        self.settling = replace(settling, readings=tuple(one.reading for one in read))
        self.read = tuple(read)
        self.missing = tuple(missing)


def _line(text: str, setting: Setting, *, chore: Chore, waters: Waters) -> _Line:
    how = How(setting.measures, _day(setting))
    settling = settling_for(chore, text, how)
    sure = setting.is_sure(field_name(chore), text)
    read = [_taken(one, settling.readings, waters, chore, sure=sure) for one in settling.readings]
    known = {one.reading.measure for one in read}
    done = settling.kind is SettledAs.DONE
    return _Line(settling, read, [one for one in chore.measures if done and one not in known])


def _taken(one: NewReading, beside: Sequence[NewReading], waters: Waters, chore: Chore, *, sure: bool) -> Taken:
    texts = {other.measure: other.typed for other in beside if other is not one}
    return taken(one.typed, one.measure, waters, chore.unit_id, texts, sure=sure)


def _day(setting: Setting) -> date:
    """The day that the sheet tells of, as it stands in its field."""
    try:
        return clock.parse_day(setting.typed.get(DAY, ""), setting.today)
    except FarmopsError:
        return setting.today


def _told(line: _Line, setting: Setting) -> str:
    settling = line.settling
    parts = [
        {SettledAs.SKIPPED: "left out", SettledAs.DEFERRED: "put off"}.get(settling.kind, "done"),
        f"until {day_words(settling.until)}" if settling.until else settling.reason or "",
        f"{settling.minutes} min" if settling.minutes is not None else "",
        *(f"{one.reading.measure} {one.reading.typed}" for one in line.read),
        settling.confirmed or "",
    ]
    missing = f"; not read: {', '.join(line.missing)}" if line.missing else ""
    return ", ".join(part for part in parts if part) + missing


def _heeds(line: _Line, setting: Setting) -> str:
    bad = [one for one in line.read if one.judged.bad]
    return " ".join(f"{one.reading.measure} {one.judged.brief}. {one.judged.first}" for one in bad)


def _save(store: Store, values: dict[str, Any], hand: Hand, operation: str, *, chores: Sequence[Chore]) -> str:
    from farmops.farm.sheets import Sheet, SheetLine, SheetRefused, book_sheet

    given = [(number, values[field_name(one)]) for number, one in enumerate(chores, start=1)]
    lines = tuple(SheetLine(number, replace(line.settling, on=values[DAY])) for number, line in given if line)
    if not lines:
        raise Refused("Not booked: no line says anything yet. x is done.")
    try:
        done = book_sheet(store, Sheet(lines, all_or_nothing=True), **making.hand_of(hand, operation))
    except SheetRefused as error:
        first = error.refused[0]
        raise Refused(f"line {first.number}: {first.reason}") from None
    chores_word = "1 chore" if len(done.booked) == 1 else f"{len(done.booked)} chores"
    return f"Booked back: {chores_word}. u takes the whole sheet back."
