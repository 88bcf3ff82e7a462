"""The form that takes in a file: told row by row before anything is booked."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from farmops.exchange.file_words import FILE_WORDS
from farmops.model.errors import NotUnderstood, Refused
from farmops.model.lines import Stretch, lines_told
from farmops.model.text import LONGEST_NOTE
from farmops.reports.store import Store
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand

if TYPE_CHECKING:
    from farmops.exchange.customs import Decimals, Order

WEIGHINGS = "weighings"
KINDS = (WEIGHINGS, *FILE_WORDS)
OF_RECORDS = {
    "harvests": WEIGHINGS,
    "fish": "fish lots",
    "bought supplies": "supplies bought",
    "used supplies": "supplies used",
    "recurring": "recurring costs",
}
AS_SHOWN = "as the file shows"
ORDERS = (AS_SHOWN, "day first", "month first")
MARKS = (AS_SHOWN, "point", "comma")
MOST_TOLD = 3


def take_in(record: str | None, context: Context) -> FormSpec:
    """A CSV file or a workbook of one kind of record; `record` is the kind that stands on the screen."""
    first = OF_RECORDS.get(record or "", record or "")
    fields = (
        Field(
            "file",
            "File",
            Kind.TEXT,
            required=True,
            hint="a CSV file or a workbook",
            longest=LONGEST_NOTE,
            blamed=("cannot be read", "is empty", "is a damaged", "no column", "unpacks"),
            read=lambda text, _: str(Path(text.strip()).expanduser()),
        ),
        Field("kind", "Of", Kind.NAME, first if first in KINDS else WEIGHINGS, KINDS, required=True, strict=True),
        Field(
            "sheet",
            "Sheet",
            Kind.TEXT,
            hint="of a workbook; else the best fit",
            blamed=("has no sheet", "The sheet", "is no workbook, so"),
        ),
        Field(
            "meant",
            "Heads",
            Kind.TEXT,
            hint="picked=weight (kg); bin=bed",
            longest=LONGEST_NOTE,
            read=_meant,
            blamed=("has no head", "is no column"),
        ),
        Field("dates", "Days", Kind.CHOICE, AS_SHOWN, ORDERS),
        Field("decimals", "Decimals", Kind.CHOICE, AS_SHOWN, MARKS),
        Field("sure", "Unlikely too", Kind.YES, "no"),
        Field("make", "Make missing", Kind.YES, "no", hint="units, beds, crops"),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        return _taken(store, values, hand, operation, context)

    def preview(store: Store, values: dict[str, Any], hand: Hand) -> str:
        return _taken(store, values, hand, None, context)

    about = "Each row is booked, is there already, or is refused and named. The same file twice adds nothing."
    return FormSpec("Take in a file", fields, save, context.setting, about=about, verb="Take it in", preview=preview)


def _meant(text: str, setting: Setting) -> dict[str, str]:
    pairs = [part.rpartition("=")[::2] for part in text.split(";") if part.strip()]
    if any(not head.strip() or not column.strip() for head, column in pairs):
        raise NotUnderstood("Understood: a head of the file, = and what it is: picked=weight (kg); bin=bed")
    return {head.strip(): column.strip() for head, column in pairs}


def _taken(store: Store, values: dict[str, Any], hand: Hand, operation: str | None, context: Context) -> str:
    """Book the file, or say what would come of it where there is no operation."""
    if values["kind"] == WEIGHINGS:
        return _weighings(store, values, hand, operation, context)
    from farmops.exchange.file_imports import Said, carry_out, foresee, read_rows

    said = Said(values["meant"], _order(values), _decimals(values), sure=values["sure"], sheet=values["sheet"])
    read = read_rows(store, values["kind"], values["file"], said, today=context.setting.today, watch=hand.watch)
    if operation is None:
        found = foresee(store, read, said, by=hand.by, watch=hand.watch)
    else:
        found = carry_out(store, read, said, by=hand.by, operation=operation, watch=hand.watch)
    asked = [f"look again at {one}" for one in found.asked]
    counts = _counts(found.booked, found.already, len(found.refused), len(asked), would=operation is None)
    lines = _lines(found.booked_lines, found.already_lines) if operation is None else []
    return _told(counts, [*lines, *read.told], [*map(str, found.refused), *asked], found.booked, operation)


def _weighings(store: Store, values: dict[str, Any], hand: Hand, operation: str | None, context: Context) -> str:
    from farmops.exchange.imports import carry_out, foresee, plan, read_rows

    planned = plan(
        store,
        read_rows(values["file"], values["meant"], values["sheet"]),
        create_missing=values["make"],
        today=context.setting.today,
        order=_order(values),
        decimals=_decimals(values),
        watch=hand.watch,
    )
    if operation is None:
        found = foresee(planned)
    else:
        found = carry_out(store, planned, by=hand.by, operation=operation, watch=hand.watch)
    counts = _counts(found.booked, found.already, len(found.refused), 0, would=operation is None)
    asked = [f"look again at {one}" for one in found.questioned]
    lines = _lines(planned.booked_lines, planned.already_lines) if operation is None else []
    return _told(counts, [*lines, *planned.told], [*map(str, found.refused), *asked], found.booked, operation)


def _lines(booked: Sequence[Stretch], already: Sequence[Stretch]) -> list[str]:
    """Which lines of the file would be booked, and which are there already."""
    pairs = (("Would be booked", booked), ("Already there", already))
    return [f"{words}: {lines_told(lines)}." for words, lines in pairs if lines]


def _order(values: dict[str, Any]) -> Order | None:
    from farmops.exchange.customs import Order

    return None if values["dates"] == AS_SHOWN else Order(values["dates"].replace(" ", "-"))


def _decimals(values: dict[str, Any]) -> Decimals | None:
    from farmops.exchange.customs import Decimals

    return None if values["decimals"] == AS_SHOWN else Decimals(values["decimals"])


def _counts(booked: int, already: int, refused: int, asked: int, *, would: bool) -> str:
    verb = "would be booked" if would else "booked"
    looked = f", {asked} to look at" if asked else ""
    return f"{booked} {verb}, {already} already there, {refused} refused{looked}."


def _told(counts: str, how: Sequence[str], aside: Sequence[str], booked: int, operation: str | None) -> str:
    """The counts, how the file was read, and the first rows that are not as they should be."""
    words = ("\n" if operation is None else " ").join((counts, *how, *_first(aside)))
    if operation is not None and aside and not booked:
        raise Refused(f"Not booked: {words}")
    return f"{words} u takes the whole file back." if operation is not None and booked else words


def _first(aside: Sequence[str]) -> Iterable[str]:
    yield from (f"{one.rstrip('.')}." for one in aside[:MOST_TOLD])
    if len(aside) > MOST_TOLD:
        yield f"And {len(aside) - MOST_TOLD} more: farmops import lists them."
