"""Forms for instruments: taken into service, corrected or retired, held against something known."""

from __future__ import annotations

from typing import Any

from farmops.model.instruments import (
    CheckChange,
    Checked,
    Instrument,
    InstrumentChange,
    InstrumentCheck,
    NewCheck,
    NewInstrument,
)
from farmops.model.readings import Form, Measure, measure_called
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand

EITHER = "as the last time"
FORMS = (EITHER, *making.words_of(Form))
PASSED, FAILED = "passed", "failed"
ABOUT_CHECK = "Its own paper says what passes. One that fails makes readings doubtful, back to the last good check."


def new(context: Context) -> FormSpec:
    """Take an instrument into service."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.instruments import add_instrument

        values["form"] = _form(values["form"])
        return f"{add_instrument(store, NewInstrument(**values), **making.hand_of(hand, operation)).name} in service."

    fields = (*_fields("", "", EITHER, "", ""), making.day("from_day", "From"), making.note())
    return FormSpec("An instrument", fields, save, context.setting)


def edit(record: Instrument, context: Context) -> FormSpec:
    """Correct or retire an instrument."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.instruments import change_instrument

        changes = making.mapped(values, form=_form)
        changed = change_instrument(store, InstrumentChange(record.id, **changes), **making.hand_of(hand, operation))
        return f"{changed.name} changed."

    every = str(record.check_days or "")
    fields = (
        *_fields(record.name, ", ".join(record.reads), record.form or EITHER, str(record.expires_day or ""), every),
        making.day("from_day", "From", record.from_day),
        making.day("until_day", "Retired", str(record.until_day or ""), required=False, hint="its last day in service"),
        making.note(record.note),
    )
    return FormSpec(record.name, fields, save, context.setting, edits=True, verb="Change")


def check(record: Instrument, context: Context) -> FormSpec:
    """Book how an instrument stood against something known."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.instruments import check_instrument

        entry = NewCheck(record.id, **making.mapped(values, passed=lambda word: word == PASSED))
        return _told(check_instrument(store, entry, **making.hand_of(hand, operation)))

    return FormSpec(f"Check of {record.name}", _check_fields(), save, context.setting, about=ABOUT_CHECK)


def edit_check(record: InstrumentCheck, context: Context) -> FormSpec:
    """Correct a check."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.instruments import change_check

        entry = CheckChange(record.id, **making.mapped(values, passed=lambda word: word == PASSED))
        return _told(change_check(store, entry, **making.hand_of(hand, operation)))

    title = f"Check {record.id} of {record.instrument}"
    return FormSpec(title, _check_fields(record), save, context.setting, edits=True, about=ABOUT_CHECK, verb="Change")


def _check_fields(one: InstrumentCheck | None = None) -> tuple[Field, ...]:
    result = PASSED if one is None or one.passed else FAILED
    against, showed, note = (one.against, one.showed, one.note) if one else (None, None, None)
    return (
        Field("against", "Against", Kind.TEXT, against or "", hint="what is known: pH 7.00, ice water"),
        Field("showed", "It showed", Kind.TEXT, showed or ""),
        Field("passed", "Result", Kind.CHOICE, result, (PASSED, FAILED)),
        making.day("day", "Day", one.day if one else "today"),
        making.note(note),
    )


def _told(done: Checked) -> str:
    doubt = f" {done.doubtful} readings are doubtful now." if done.doubtful else ""
    return f"{done.check.instrument} {PASSED if done.check.passed else FAILED}.{doubt}"


def _fields(name: str, reads: str, form: str, expires: str, every: str) -> tuple[Field, ...]:
    return (
        Field(
            "name", "Name", Kind.TEXT, name, required=True, hint="drop kit, pH pen", blamed=("there is an instrument",)
        ),
        Field(
            "reads",
            "Reads",
            Kind.TEXT,
            reads,
            required=True,
            hint="ammonia, nitrite",
            longest=200,
            read=_reads,
            told=lambda found, _: ", ".join(found),
            blamed=("reads",),
        ),
        Field("form", "Reports", Kind.CHOICE, form, FORMS),
        making.day(
            "expires_day", "Good until", expires, required=False, hint="the date on it", blamed=("past its date",)
        ),
        Field(
            "check_days", "Check every", Kind.COUNT, every, hint="days; empty for never", blamed=("is checked every",)
        ),
    )


def _reads(text: str, setting: Setting) -> tuple[Measure, ...]:
    return tuple(measure_called(word) for word in text.split(",") if word.strip())


def _form(word: str) -> Form | None:
    return None if word == EITHER else Form(word)
