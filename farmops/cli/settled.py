"""What became of settled chores, told in words and as JSON, with what was read of their units."""

from __future__ import annotations

from collections.abc import Sequence

from farmops.cli.desk import Desk
from farmops.cli.fish_plain import plain_feeding
from farmops.cli.output import emit, say
from farmops.cli.readings import judged_object, not_read, told
from farmops.model.chores import Chore, Settled, SettledAs
from farmops.model.readings import Measure
from farmops.reports import names
from farmops.reports.fish_book import fed_with, words_of
from farmops.reports.reasons import next_of
from farmops.reports.water import WaterLine, judged_lines, readings_of


def tell_settled(desk: Desk, done: Sequence[tuple[Chore, Settled]], as_json: bool) -> None:
    """Tell what became of chores, what was read of their units and what was not."""
    if as_json:
        emit({"settled": told_objects(desk, done)})
    else:
        say_settled(desk, done)


def say_settled(desk: Desk, done: Sequence[tuple[Chore, Settled]]) -> None:
    """The same in words, a chore on a line, its readings below it."""
    results = [result for _, result in done]
    read, fed = read_with(desk, results), fed_with(desk.store, (one.id for one in results))
    for one, result in done:
        following = next_of(desk.store, names.chore(desk.store, one.id), "")
        further = f"next {following}" if following else "settled for good"
        until_words = f" until {result.until_day}" if result.until_day else ""
        say(f"{result.kind}{until_words}: {one.title}, {one.bed or one.lot or one.unit or 'all units'}; {further}.")
        for line_of_water in read.get(result.id, []):
            say(f"  {told(line_of_water, desk.measures)}")
        for given in (each for each in fed if each.settlement_id == result.id):
            say(f"  {given.lot} {words_of(given, desk.measures)}")
        missing = _missing(one, result, read.get(result.id, []))
        if missing:
            first = missing[0].replace(" ", "-")
            say(f"  Not read: {', '.join(missing)}. Later: farmops water add {one.unit} {first} ...")


def told_objects(desk: Desk, done: Sequence[tuple[Chore, Settled]]) -> list[dict[str, object]]:
    """The same in JSON's words."""
    results = [result for _, result in done]
    read, fed = read_with(desk, results), fed_with(desk.store, (one.id for one in results))
    return [
        {
            **settled_object(result, read.get(result.id, [])),
            "fed": [plain_feeding(given) for given in fed if given.settlement_id == result.id],
            "not_read": _missing(one, result, read.get(result.id, [])),
        }
        for one, result in done
    ]


def read_with(desk: Desk, settled: Sequence[Settled]) -> dict[int, list[WaterLine]]:
    """The readings booked with doings of chores, judged, by the doing."""
    found: dict[int, list[WaterLine]] = {}
    for one in judged_lines(desk.store, readings_of(desk.store, (one.id for one in settled))):
        found.setdefault(one.reading.settlement_id or 0, []).append(one)
    return found


def _missing(chore: Chore, result: Settled, read: Sequence[WaterLine]) -> list[Measure]:
    return not_read(chore.measures, (one.reading for one in read)) if result.kind is SettledAs.DONE else []


def settled_object(one: Settled, read: Sequence[WaterLine] = ()) -> dict[str, object]:
    """One settling in JSON's words, with what was read."""
    return {
        "chore": one.chore_id,
        "occurrence": one.occurrence,
        "settled": one.kind,
        "on": one.on_day,
        "until": one.until_day,
        "reason": one.reason,
        "confirmed": one.confirmed,
        "minutes": one.minutes,
        "by": one.actor,
        "operation": one.operation,
        "readings": [judged_object(line_of_water) for line_of_water in read],
    }
