"""Forms for notes: what was seen or changed, with a photo or another file."""

from __future__ import annotations

from typing import Any

from farmops.model.chores import Chore
from farmops.model.notes import Changed, NewNote, Note, NoteChange
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind
from farmops.tui.widgets.forms import FormSpec, Hand


def new(context: Context) -> FormSpec:
    """Write something down, on a unit or bed or on the farm."""
    places = (*(line.unit.code for line in context.units), *(line.bed.code for line in context.beds))
    where = Field(
        "where",
        "Where",
        Kind.NAME,
        context.unit_code,
        places,
        strict=True,
        hint="empty: the farm",
        otherwise="A unit, a bed, or nothing for the farm.",
    )

    def place(values: dict[str, Any]) -> dict[str, int]:
        named = values.pop("where") or ""
        units = {line.unit.code: line.unit.id for line in context.units}
        beds = {line.bed.code: line.bed.id for line in context.beds}
        return {"unit_id": units[named]} if named in units else {"bed_id": beds[named]} if named in beds else {}

    return _spec("A note", where, place, context)


def on_chore(record: Chore, context: Context) -> FormSpec:
    """Write something down on a chore."""
    return _spec(f"A note on {record.title}", None, lambda values: {"chore_id": record.id}, context)


def _spec(title: str, where: Field | None, place: Any, context: Context) -> FormSpec:
    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.exchange.kept_files import keep
        from farmops.farm.notes import add_note

        found, file = place(values), values.pop("file")
        kept = keep(store, file) if file else None
        entry = NewNote(**making.mapped(values, changed=Changed), **found, file=kept)
        return f"Noted on {add_note(store, entry, **making.hand_of(hand, operation)).where or 'the farm'}."

    blamed = ("no file", "plain file", "bytes", "cannot be read")
    file = Field("file", "File", Kind.TEXT, "", hint="a photo; a copy is kept", blamed=blamed)
    fields = (making.note(name="text"), _changed("", blamed=("on which unit",)), file, making.day("day", "Day"))
    return FormSpec(title, fields if where is None else (where, *fields), save, context.setting)


def edit(record: Note, context: Context) -> FormSpec:
    """Correct a note."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.notes import change_note

        entry = NoteChange(record.id, **making.mapped(values, changed=Changed))
        return f"Note {change_note(store, entry, **making.hand_of(hand, operation)).id} changed."

    changed = record.changed.value if record.changed else ""
    fields = (making.note(record.text, name="text"), _changed(changed), making.day("day", "Day", record.day))
    return FormSpec(f"Note {record.id}", fields, save, context.setting, edits=True, verb="Change")


def _changed(value: str, **more: Any) -> Field:
    return Field(
        "changed",
        "Changed",
        Kind.NAME,
        value,
        making.words_of(Changed),
        strict=True,
        hint="pump, media; else empty",
        **more,
    )
