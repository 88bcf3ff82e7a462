"""`farmops water sources` and `farmops water top-ups`: where water comes from, and what of it went into units."""

from __future__ import annotations

from datetime import date

import click

from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NOTHING, NUMBER, asked, emptied, numbered
from farmops.cli.options import answer_options, json_option, note_option, on_option, one_of, span_options, word
from farmops.cli.output import emit, line, say, table
from farmops.model.errors import NotUnderstood
from farmops.model.journal import Removal
from farmops.model.readings import NITROGEN, READ_IN
from farmops.model.values import Measured
from farmops.model.water import (
    NewSource,
    NewSourceValues,
    NewTopUp,
    SourceChange,
    SourceKind,
    SourceValue,
    TopUp,
    TopUpChange,
    WaterSource,
)
from farmops.quantities import VOLUME
from farmops.quantities.readings import show_value, typed_reading
from farmops.reports import lists, names
from farmops.reports.top_ups import cautions_on, top_up_totals

NO_SOURCE = "No water source yet. Name one: farmops water sources add Mains mains-with-chlorine"
NO_TOP_UP = "Nothing topped up here. Book some: farmops water top-ups add WREN 20gal --from Mains"


@click.group()
def sources() -> None:
    """Where water comes from, and what it is like there from a day on."""


@sources.command("list")
@answer_options
@pass_desk
def list_sources(desk: Desk, as_json: bool) -> None:
    """List the sources, with what they are like now.

    \b
    Example: farmops water sources list
    """
    lists.farm(desk.store)
    found, values = lists.sources(desk.store), lists.source_values(desk.store)
    if as_json:
        emit({"sources": [plain_source(one, [x for x in values if x.source_id == one.id]) for one in found]})
    elif not found:
        say(NO_SOURCE)
    else:
        rows = [[one.name, one.kind, like_words(desk, one, values), one.note or ""] for one in found]
        table(["name", "kind", "like", "note"], rows)


def like_words(desk: Desk, source: WaterSource, values: list[SourceValue]) -> str:
    """`pH 7.8, alkalinity 120 mg/L`: what counts today."""
    now = {x.measure: x for x in values if x.source_id == source.id and x.from_day <= desk.today}
    return ", ".join(f"{x.measure} {show_value(x.value, x.measure, desk.measures)}" for x in now.values())


@sources.command("show")
@click.argument("name")
@answer_options
@pass_desk
def show_source(desk: Desk, name: str, as_json: bool) -> None:
    """Show what a source is like, and since when.

    \b
    Example: farmops water sources show Mains
    """
    one = names.source(desk.store, name)
    values = [x for x in lists.source_values(desk.store) if x.source_id == one.id]
    if as_json:
        emit(plain_source(one, values))
        return
    line(f"{one.name}, {one.kind}")
    if values:
        rows = [[str(x.id), str(x.from_day), x.measure, show_value(x.value, x.measure, desk.measures)] for x in values]
        table(["no.", "from", "measure", "value"], rows, right=[0])


@sources.command("add")
@click.argument("name")
@click.argument("kind", type=one_of(SourceKind))
@note_option
@json_option
@pass_desk
def add_source(desk: Desk, name: str, kind: str, note: str | None, as_json: bool) -> None:
    """Name a source, and what kind of water it gives.

    \b
    Example: farmops water sources add Mains mains-with-chloramine
    """
    from farmops.farm.sources import add_source as add

    lists.farm(desk.store)
    one = add(desk.store, NewSource(name, word(SourceKind, kind), note), **desk.hand)
    _told_source(one, "named", as_json)


@sources.command("edit")
@click.argument("name")
@click.option("--name", "new_name", metavar="NAME", help="Another name.")
@click.option("--kind", type=one_of(SourceKind), help="Another kind.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@json_option
@pass_desk
def edit_source(desk: Desk, name: str, new_name: str | None, kind: str | None, note: str | None, as_json: bool) -> None:
    """Correct a source.

    \b
    Example: farmops water sources edit Mains --kind mains-with-chlorine
    """
    from farmops.farm.sources import change_source

    one = names.source(desk.store, name)
    given = emptied(changes(name=new_name, kind=word(SourceKind, kind), note=note), "note")
    _told_source(change_source(desk.store, SourceChange(one.id, **given), **desk.hand), "changed", as_json)


@sources.command("set")
@click.argument("name")
@click.argument("pairs", nargs=-1, required=True, metavar="MEASURE VALUE [MEASURE VALUE]...")
@click.option("--sure", is_flag=True, help="Book an unlikely value all the same.")
@on_option
@json_option
@pass_desk
def set_values(desk: Desk, name: str, pairs: tuple[str, ...], sure: bool, on: str | None, as_json: bool) -> None:
    """Say what the water of a source is like from a day on; it shows beside the readings.

    \b
    Example: farmops water sources set Mains pH 7.8 alkalinity 140 chlorine 1.5 --on "1 may"
    """
    from farmops.farm.sources import set_source_values

    one, day = names.source(desk.store, name), desk.day(on)
    if len(pairs) % 2:
        raise NotUnderstood(f"The value of {pairs[-1]!r} is missing. Understood: Mains pH 7.8 alkalinity 140")
    texts = zip(pairs[::2], pairs[1::2], strict=True)
    typed = tuple(typed_reading(measure, text, desk.measures, sure=sure) for measure, text in texts)
    with asked():
        done = set_source_values(desk.store, NewSourceValues(one.id, day, typed), **desk.hand)
    if as_json:
        emit({"source": one.name, "values": [plain_value(x) for x in done.values]})
    else:
        told = ", ".join(f"{x.measure} {show_value(x.value, x.measure, desk.measures)}" for x in done.values)
        say(f"{one.name} from {day}: {told}.")


@sources.command("remove")
@click.argument("name", required=False)
@click.option("--value", "number", type=NUMBER, help="Remove this value of farmops water sources show instead.")
@pass_desk
def remove_source(desk: Desk, name: str | None, number: int | None) -> None:
    """Remove a source that nothing was topped up from, or one value by its number.

    \b
    Examples: farmops water sources remove Bore
              farmops water sources remove --value 2
    """
    from farmops.farm.removal import remove_record

    lists.farm(desk.store)
    if number is not None:
        value = numbered(lists.source_values(desk.store), number, "value", "farmops water sources show Mains")
        removal, what = Removal("source values", value.id), f"{value.measure} of {value.source} from {value.from_day}"
    elif name is not None:
        one = names.source(desk.store, name)
        removal, what = Removal("water sources", one.id), one.name
    else:
        raise click.UsageError("Name a source, or a value by --value.")
    remove_record(desk.store, removal, **desk.hand)
    say(f"{what} removed. farmops undo brings it back.")


@click.group("top-ups")
def top_ups() -> None:
    """Water that was put into units, and from where."""


@top_ups.command("add")
@click.argument("unit")
@click.argument("volume")
@click.option("--from", "source", metavar="SOURCE", help="The source it came from.")
@note_option
@on_option
@json_option
@pass_desk
def add_top_up(
    desk: Desk, unit: str, volume: str, source: str | None, note: str | None, on: str | None, as_json: bool
) -> None:
    """Book water that was put into a unit; says what to mind where fish live in it.

    \b
    Example: farmops water top-ups add WREN 20gal --from "rain butt"
    """
    from farmops.farm.sources import record_top_up

    place, day = names.unit(desk.store, unit), desk.day(on)
    held = names.source(desk.store, source) if source is not None else None
    entry = NewTopUp(place.id, day, _volume(desk, volume), held.id if held else None, note)
    one = record_top_up(desk.store, entry, **desk.hand)
    _told_top_up(desk, one, "Topped up", as_json)


@top_ups.command("list")
@click.option("--unit", metavar="CODE", help="Only of one unit.")
@span_options
@answer_options
@pass_desk
def list_top_ups(desk: Desk, unit: str | None, first: str | None, last: str | None, as_json: bool) -> None:
    """List what was topped up, the latest first, and how much by unit and source.

    \b
    Example: farmops water top-ups list --unit WREN --from -30
    """
    lists.farm(desk.store)
    code = names.unit(desk.store, unit).code if unit is not None else None
    every = lists.top_ups(desk.store, desk.day_or_none(first) or date.min, desk.day_or_none(last) or date.max)
    found = [one for one in every if code in (None, one.unit)]
    totals = top_up_totals(found)
    if as_json:
        sums = [{"unit": x.unit, "source": x.source, "volume_l": x.volume_ml / 1000} for x in totals]
        emit({"top_ups": [plain_top_up(one) for one in found], "totals": sums})
    elif not found:
        say(NO_TOP_UP)
    else:
        rows = [[str(x.id), str(x.day), x.unit, _shown(desk, x.volume_ml), x.source or "", x.note or ""] for x in found]
        table(["no.", "day", "unit", "volume", "from", "note"], rows, right=[0, 3])
        for x in totals:
            line(f"{x.unit}: {_shown(desk, x.volume_ml)} from {x.source or 'no source named'}")


@top_ups.command("edit")
@click.argument("number", type=NUMBER)
@click.option("--volume", metavar="VOLUME", help="How much.")
@click.option("--from", "source", metavar="SOURCE", help="The source it came from; - for none.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@on_option
@json_option
@pass_desk
def edit_top_up(
    desk: Desk, number: int, volume: str | None, source: str | None, note: str | None, on: str | None, as_json: bool
) -> None:
    """Correct a top-up by its number.

    \b
    Example: farmops water top-ups edit 1 --volume 25gal
    """
    from farmops.farm.sources import change_top_up

    one = _numbered(desk, number)
    given = emptied(
        changes(
            volume=_volume(desk, volume) if volume is not None else None,
            source_id=source if source in (None, NOTHING) else names.source(desk.store, source).id,
            note=note,
            day=desk.day_or_none(on),
        ),
        "source_id",
        "note",
    )
    changed = change_top_up(desk.store, TopUpChange(one.id, **given), **desk.hand)
    _told_top_up(desk, changed, "Changed", as_json)


@top_ups.command("remove")
@click.argument("number", type=NUMBER)
@pass_desk
def remove_top_up(desk: Desk, number: int) -> None:
    """Remove a top-up by its number.

    \b
    Example: farmops water top-ups remove 1
    """
    from farmops.farm.removal import remove_record

    one = _numbered(desk, number)
    remove_record(desk.store, Removal("top-ups", one.id), **desk.hand)
    say(f"Top-up {one.id} of {one.unit} removed. farmops undo brings it back.")


def _numbered(desk: Desk, number: int) -> TopUp:
    lists.farm(desk.store)
    return numbered(lists.top_ups(desk.store, date.min, date.max), number, "top-up", "farmops water top-ups list")


def _volume(desk: Desk, text: str) -> Measured:
    return Measured(VOLUME.parse(text, desk.measures), text)


def _shown(desk: Desk, volume_ml: int) -> str:
    return VOLUME.show(volume_ml, desk.measures)


def plain_source(one: WaterSource, values: list[SourceValue]) -> dict[str, object]:
    """A source in JSON's words, with what it is like."""
    return {
        "id": one.id,
        "name": one.name,
        "kind": one.kind,
        "note": one.note,
        "values": [plain_value(x) for x in values],
    }


def plain_value(one: SourceValue) -> dict[str, object]:
    """What a source is like in JSON's words."""
    return {
        "id": one.id,
        "from": one.from_day,
        "measure": one.measure,
        "value": one.value,
        "in": READ_IN[one.measure] + (" as N" if one.measure in NITROGEN else ""),
        "typed": one.typed,
    }


def plain_top_up(one: TopUp) -> dict[str, object]:
    """A top-up in JSON's words."""
    return {
        "id": one.id,
        "date": one.day,
        "unit": one.unit,
        "volume_l": one.volume_ml / 1000,
        "volume_typed": one.volume_typed,
        "source": one.source,
        "kind": one.kind,
        "note": one.note,
    }


def _told_source(one: WaterSource, done: str, as_json: bool) -> None:
    if as_json:
        emit({"id": one.id, "name": one.name, "kind": one.kind, "note": one.note})
    else:
        say(f"{one.name} {done}: {one.kind}. What it is like: farmops water sources set {one.name!r} pH 7.4")


def _told_top_up(desk: Desk, one: TopUp, done: str, as_json: bool) -> None:
    cautions = cautions_on(desk.store, one)
    if as_json:
        emit({**plain_top_up(one), "cautions": list(cautions)})
        return
    source = f" from {one.source}" if one.source else ""
    say(f"{done}: {one.unit} {_shown(desk, one.volume_ml)}{source}, {one.day}. Slip? farmops undo")
    for words in cautions:
        say(f"! {words}")
