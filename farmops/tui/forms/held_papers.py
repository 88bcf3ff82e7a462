"""Forms for papers that run out: filed, corrected, renewed."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from farmops.model.papers import NewPaper, PaperChange, PaperKind, Renewal
from farmops.reports.papers_held import PaperHeld
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind
from farmops.tui.widgets.forms import FormSpec, Hand

ENDS = ("would end", "no last day")


def new(context: Context) -> FormSpec:
    """File a paper."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.papers import add_paper

        added = add_paper(store, NewPaper(**_values(store, context, values)), **making.hand_of(hand, operation))
        return f"{added.name} filed."

    fields = (*_described(context, {}, context.unit_code), making.day("from_day", "From"), _until(None), _file(""))
    return FormSpec("A paper", fields, save, context.setting)


def _described(context: Context, values: dict[str, str], unit: str) -> tuple[Field, ...]:
    kinds = making.words_of(PaperKind)
    return (
        Field("kind", "Paper", Kind.NAME, values.get("kind", ""), kinds, required=True, strict=True),
        Field("name", "Name", Kind.TEXT, values.get("name", ""), required=True, hint="such as fish permit"),
        Field("number", "Number", Kind.TEXT, values.get("number", ""), hint="the number on it"),
        Field("issued_by", "Issued by", Kind.TEXT, values.get("issued_by", ""), hint="who issued it"),
        making.unit(context, unit, required=False, hint="empty: the farm"),
        making.note(values.get("note", "")),
    )


def _until(value: Any) -> Field:
    return making.last_day("until_day", "Until", value, blamed=ENDS)


def _file(value: str) -> Field:
    blamed = ("no file", "plain file", "bytes", "cannot be read")
    return Field("file", "File", Kind.TEXT, value, hint="a photo or PDF; a copy is kept", blamed=blamed)


def _values(store: Store, context: Context, values: dict[str, Any]) -> dict[str, Any]:
    from farmops.exchange.kept_files import keep

    known = making.mapped(
        values, kind=PaperKind, unit=lambda code: context.unit_called(code).id, file=lambda file: keep(store, file)
    )
    return {("unit_id" if name == "unit" else name): value for name, value in known.items()}


def edit(record: PaperHeld, context: Context) -> FormSpec:
    """Correct a paper."""
    one = record.paper

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.papers import change_paper

        entry = PaperChange(one.id, **_values(store, context, values))
        return f"{change_paper(store, entry, **making.hand_of(hand, operation)).name} changed."

    values = {
        "kind": one.kind.value,
        "name": one.name,
        "number": one.number or "",
        "issued_by": one.issued_by or "",
        "note": one.note or "",
    }
    described = _described(context, values, one.unit or "")
    fields = (
        *described,
        making.day("from_day", "From", one.from_day),
        _until(one.until_day),
        _file(one.file_name or ""),
    )
    return FormSpec(f"Paper {one.id}: {one.name}", fields, save, context.setting, edits=True, verb="Change")


def renew(record: PaperHeld, context: Context) -> FormSpec:
    """File the paper that follows this one."""
    one = record.paper

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.exchange.kept_files import keep
        from farmops.farm.papers import renew_paper

        entry = Renewal(one.id, **making.mapped(values, file=lambda file: keep(store, file)))
        renewed = renew_paper(store, entry, **making.hand_of(hand, operation))
        return f"{renewed.name} renewed{f' until {renewed.until_day}' if renewed.until_day else ''}."

    follows = one.until_day + timedelta(days=1) if one.until_day else context.today
    fields = (
        _until(None),
        making.day("from_day", "From", follows, blamed=("begins after",)),
        Field("number", "Number", Kind.TEXT, one.number or "", hint="the number on it"),
        _file(""),
    )
    about = f"Good until {one.until_day or 'it is taken back'}. It stays in the list."
    return FormSpec(f"{one.name} renewed", fields, save, context.setting, about=about, start="until_day", verb="Renew")
