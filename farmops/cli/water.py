"""`farmops water`: readings of the water, judged for those who live in it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, Any

import click

from farmops import clock
from farmops.cli.balance import balance
from farmops.cli.cycling import cycling
from farmops.cli.desk import Desk, changes, cleared, pass_desk
from farmops.cli.drift import drift
from farmops.cli.entries import NOTHING, asked
from farmops.cli.options import answer_options, chart_options, json_option, note_option, on_option, span_options
from farmops.cli.output import emit, line, say, table
from farmops.cli.own_limits import limits
from farmops.cli.readings import (
    doubt_words,
    form_of_options,
    form_options,
    instrument_named,
    judged_object,
    reading_object,
    told,
    value_words,
    with_option,
)
from farmops.cli.water_sources import sources, top_ups
from farmops.model.errors import NotUnderstood
from farmops.model.journal import Removal
from farmops.model.limits import Level
from farmops.model.readings import Measure, NewReadings, Reading, ReadingChange, measure_called
from farmops.quantities.readings import typed_reading
from farmops.reports import lists, names
from farmops.reports.markers import Marker, concerns, markers_of
from farmops.reports.water import WaterLine, judged_lines, series_of, waters_of

if TYPE_CHECKING:
    from farmops.exchange.charts import Chart

NO_READING = "No reading here. Book some: farmops water add WREN pH 7.2 temperature 72F ammonia 0.25"
at_option = click.option("--at", "hour", metavar="HH:MM", help="The time of day it was read.")


@click.group()
def water() -> None:
    """Readings of the water: pH, temperature, ammonia and others, judged for those who live in it.

    \b
    A kit that reads only down to a limit is booked as it says: "<0.25".
    What is read: pH, temperature, lowest-temperature and highest-temperature of a day, ammonia, nitrite, nitrate,
    oxygen, alkalinity, hardness, iron, chlorine, potassium, calcium, conductivity, flow, fill-time, drain-time; a
    beginning is enough.
    """


water.add_command(limits)
water.add_command(sources)
water.add_command(top_ups)
water.add_command(cycling)


@water.command("add")
@click.argument("unit")
@click.argument("pairs", nargs=-1, required=True, metavar="MEASURE VALUE [MEASURE VALUE]...")
@at_option
@form_options
@with_option
@note_option
@on_option
@json_option
@pass_desk
def add(
    desk: Desk,
    unit: str,
    pairs: tuple[str, ...],
    hour: str | None,
    form: str | None,
    sure: bool,
    instrument: str | None,
    note: str | None,
    on: str | None,
    as_json: bool,
) -> None:
    """Book readings of a unit, each a MEASURE and its VALUE.

    \b
    Nitrogen compounds are kept as N; say --as-ion where the kit reports NH4, NO2 or NO3.
    Examples: farmops water add WREN pH 7.2 temperature 72F ammonia 0.25 nitrite 0 --at 7:30
              farmops water add WREN nitrate 40 --as-ion --on yesterday
              farmops water add WREN ammonia 0.5 --with "drop kit"
              farmops water add WREN fill-time 11:30 drain-time "2.5 min"
    """
    from farmops.farm.readings import record_readings

    place, day = names.unit(desk.store, unit), desk.day(on)
    if len(pairs) % 2:
        raise NotUnderstood(f"The value of {pairs[-1]!r} is missing. Understood: WREN pH 7.2 ammonia 0.25")
    typed = tuple(
        typed_reading(measure, text, desk.measures, form_of_options(form), sure=sure)
        for measure, text in zip(pairs[::2], pairs[1::2], strict=True)
    )
    entry = NewReadings(place.id, day, typed, clock.parse_minute(hour) if hour is not None else None)
    entry = _all(entry, instrument_id=instrument_named(desk.store, instrument), note=note)
    with asked():
        booked = record_readings(desk.store, entry, **desk.hand).readings
    _tell(desk, booked, "Booked", as_json)


def _all(entry: NewReadings, **more: Any) -> NewReadings:
    return replace(entry, readings=tuple(replace(one, **more) for one in entry.readings))


def _tell(desk: Desk, booked: tuple[Reading, ...], done: str, as_json: bool) -> None:
    lines = judged_lines(desk.store, booked)
    if as_json:
        emit({"readings": [judged_object(one) for one in lines]})
        return
    for one in lines:
        say(f"{done}: {told(one, desk.measures)}")
    say("Slip? farmops undo")


@water.command("list")
@click.option("--unit", metavar="CODE", help="Only of one unit.")
@click.option("--measure", metavar="NAME", help="Only of one measure.")
@span_options
@chart_options
@pass_desk
def list_readings(
    desk: Desk, unit: str | None, measure: str | None, first: str | None, last: str | None, as_json: bool
) -> None:
    """List readings, oldest first, each judged for those who live there; lines with a star are what was changed.

    \b
    Examples: farmops water list --unit WREN --measure nitrite --from "1 sep"
              farmops water list --from -7
    """
    span = (desk.day_or_none(first) or date.min, desk.day_or_none(last) or date.max)
    lists.farm(desk.store)
    place = names.unit(desk.store, unit).id if unit is not None else None
    what = measure_called(measure) if measure is not None else None
    found = series_of(desk.store, *span, place, what)
    changed = _markers(desk, found, what, unit)
    if as_json:
        told = {"readings": [judged_object(one) for one in found], "changes": [marker_object(one) for one in changed]}
        emit(told, lambda: _drawn(desk, found, changed))
    elif not found:
        say(NO_READING)
    else:
        rows = [*((one.day, _marker_row(one)) for one in changed), *((x.reading.day, _row(desk, x)) for x in found)]
        heads = ["no.", "day", "time", "unit", "measure", "value", "verdict", "with", "note"]
        table(heads, [row for _, row in sorted(rows, key=lambda row: row[0])], right=[0])


def _drawn(desk: Desk, found: list[WaterLine], changed: list[Marker]) -> Chart:
    """The curve of one measure of one unit. Raises NotUnderstood for several."""
    from farmops.exchange.chart_of import readings_chart

    curves = {(one.reading.unit_id, one.reading.unit, one.reading.measure) for one in found}
    if len(curves) > 1:
        raise NotUnderstood("A chart is of one measure of one unit: name them with --unit and --measure.")
    (unit_id, unit, measure) = next(iter(curves), (0, "", Measure.PH))
    band = waters_of(desk.store).band(unit_id, measure) if found else (None, None)
    return readings_chart(found, band, changed, unit, desk.measures)


def _markers(desk: Desk, found: list[WaterLine], measure: Measure | None, unit: str | None) -> list[Marker]:
    """What was changed while these were read."""
    if not found:
        return []
    code = names.unit(desk.store, unit).code if unit is not None else None
    every = markers_of(desk.store, found[0].reading.day, found[-1].reading.day, code)
    return [one for one in every if measure is None or concerns(one, measure)]


def _marker_row(one: Marker) -> list[str]:
    return ["", one.day.isoformat(), "", one.unit or "all", "* changed", "", "", "", one.words]


def marker_object(one: Marker) -> dict[str, object]:
    """What was changed in JSON's words."""
    return {"date": one.day, "unit": one.unit, "says": one.words}


def _row(desk: Desk, one: WaterLine) -> list[str]:
    read = one.reading
    return [
        str(read.id),
        read.day.isoformat(),
        "" if read.minute is None else clock.show_minute(read.minute),
        read.unit,
        read.measure,
        value_words(read, desk.measures),
        ", ".join(word for word in (one.judged.level or "", "doubtful" if read.doubt else "") if word),
        read.instrument or "",
        read.note or "",
    ]


@water.command("show")
@click.argument("unit")
@on_option
@answer_options
@pass_desk
def show(desk: Desk, unit: str, on: str | None, as_json: bool) -> None:
    """The water of a unit: the latest reading of each measure, who is at risk and what to do first.

    \b
    Example: farmops water show WREN
    """
    code = names.unit(desk.store, unit).code
    found = waters_of(desk.store, desk.day(on))
    lines = sorted(found.lines(code), key=lambda one: -(one.judged.level or Level.GOOD).gravity)
    if as_json:
        emit({"unit": code, "on": found.on, "readings": [judged_object(one) for one in lines]})
    elif not lines:
        say(NO_READING)
    else:
        line(f"{code}, latest readings up to {found.on}")
        for one in lines:
            _print(desk, one)


def _print(desk: Desk, one: WaterLine) -> None:
    read, verdict = one.reading, one.judged
    says = verdict.says or "no limit known here"
    line(f"{read.measure:<13} {value_words(read, desk.measures)}, {read.day}: {says}")
    if read.doubtful:
        line(f"{'':<13} {doubt_words(read)}.")
    if verdict.first:
        line(f"{'':<13} {verdict.first}")
        line(f"{'':<13} Source: {verdict.source}")


@water.command("edit")
@click.argument("number", type=int)
@click.option("--value", metavar="VALUE", help="What was read.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@click.option("--at", "hour", metavar="HH:MM", help="The time of day it was read; - for none.")
@click.option("--on", metavar="DAY", help="The day it was read.")
@form_options
@with_option
@json_option
@pass_desk
def edit(
    desk: Desk,
    /,
    number: int,
    value: str | None,
    hour: str | None,
    form: str | None,
    sure: bool,
    instrument: str | None,
    on: str | None,
    as_json: bool,
    **typed: Any,
) -> None:
    """Correct a reading by its number in the list.

    \b
    Example: farmops water edit 12 --value 7.1
    """
    from farmops.farm.readings import change_reading

    one = names.reading(desk.store, number)
    if form and value is None:
        value = one.typed
    said = form_of_options(form)
    given = changes(
        read=typed_reading(one.measure, value, desk.measures, said, sure=sure) if value is not None else None,
        day=desk.day_or_none(on),
        minute=hour,
        note=typed["note"],
        instrument_id=instrument,
    )
    if instrument is not None:
        given["instrument_id"] = instrument_named(desk.store, instrument)
    if hour is not None:
        given["minute"] = None if hour == NOTHING else clock.parse_minute(hour)
    if typed["note"] is not None:
        given["note"] = cleared(typed["note"])
    with asked():
        changed = change_reading(desk.store, ReadingChange(number, **given), **desk.hand)
    if as_json:
        emit(reading_object(changed))
    else:
        say(f"Changed: {told(judged_lines(desk.store, [changed])[0], desk.measures)} Slip? farmops undo")


@water.command("remove")
@click.argument("number", type=int)
@pass_desk
def remove(desk: Desk, number: int) -> None:
    """Remove a reading by its number in the list.

    \b
    Example: farmops water remove 12
    """
    from farmops.farm.removal import remove_record

    one = names.reading(desk.store, number)
    remove_record(desk.store, Removal("readings", number), **desk.hand)
    say(f"Reading {number} removed: {one.unit} {one.measure} of {one.day}. farmops undo brings it back.")


water.add_command(drift)
water.add_command(balance)
