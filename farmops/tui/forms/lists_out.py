"""The form that writes what a list shows into a file, or its picture: CSV, JSON, a workbook, SVG."""

from __future__ import annotations

from typing import Any

from farmops.exchange.files import offered_place
from farmops.exchange.tables import CSV, JSON, SVG, XLSX, as_object, write_tables
from farmops.reports.store import Store
from farmops.tui.forms.context import Context
from farmops.tui.forms.papers import WRITE, file_field, replace_field
from farmops.tui.widgets.fields import Field, Kind
from farmops.tui.widgets.forms import FormSpec, Hand
from farmops.tui.widgets.listing_tables import GoesOut

WORDS = {XLSX: "workbook", CSV: "csv", JSON: "json", SVG: "picture"}
ENDINGS = {word: ending for ending, word in WORDS.items()}


def list_out(out: GoesOut, context: Context) -> FormSpec:
    """Where to, and as what; an ending that is typed says it, too."""
    kinds = tuple(word for ending, word in WORDS.items() if ending != SVG or out.chart is not None)
    name = f"{name_of_file(out.title)}-{context.today}"
    fields = (
        Field("kind", "As", Kind.CHOICE, kinds[0], kinds),
        replace_field(),
        file_field(f"{name}{XLSX}", follows=("kind",), guess=lambda typed: offered_place(f"{name}{_ending(typed)}")),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        return written(out, with_ending(values["file"], ENDINGS[values["kind"]]), replace=values["replace"])

    about = "All lines that the list shows now: real numbers and days, units in the heads."
    return FormSpec(f"As a file: {out.title}", fields, save, context.setting, about=about, verb=WRITE, start="file")


def written(out: GoesOut, place: str, *, replace: bool) -> str:
    """Write it, and say where and how much.

    Raises:
        NotFound: there is no such folder.
        Refused: something is there already, there is nothing to draw with, or the disk does not take it.
    """
    if place.lower().endswith(SVG) and out.chart is not None:
        from farmops.exchange.charts import write_chart

        return f"A picture is in {write_chart(place, out.chart(), replace=replace)}."
    tables = out.tables()
    file = write_tables(place, tables, as_object(out.title, tables), replace=replace)
    rows = len(tables[0].rows)
    return f"1 line is in {file}." if rows == 1 else f"{rows:,} lines are in {file}."


def with_ending(place: str, ending: str) -> str:
    """The name as it was typed where its ending is a known one, else with the one of the kind that was chosen."""
    return place if place.lower().endswith(tuple(WORDS)) else f"{place}{ending}"


def name_of_file(title: str) -> str:
    """A title as the name of a file."""
    kept = "".join(sign if sign.isalnum() else " " for sign in title.lower())
    return "-".join(kept.split()) or "list"


def _ending(typed: dict[str, str]) -> str:
    return ENDINGS.get(typed.get("kind", ""), XLSX)
