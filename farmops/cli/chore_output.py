"""The round and chores on paper and as JSON."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap

from farmops.cli.output import line, say, terminal_width
from farmops.model.chores import Chore
from farmops.model.text import width
from farmops.reports.round import Round, RoundLine

LEAST_ROOM = 20


def print_round(found: Round) -> None:
    """The round as a person reads it; a calm word when nothing is due."""
    due = found.due
    head = f"{found.farm.name}, {found.on:%A} {found.on.day} {found.on:%B %Y}"
    if not found.units and not found.lines:
        say(f"{head}: no unit yet. Add the first: farmops units add WREN --state building")
        return
    if not due:
        line(f"{head}: nothing to do.")
    else:
        late = f", {len(found.late)} late" if found.late else ""
        line(f"{head}: {len(due)} to do{late}, {found.minutes} min")
    spread, room = _widths(found), terminal_width()
    fits = max((width(_row(one, spread)) for one in found.lines), default=0) <= room
    for section in found.sections:
        line(section.title)
        for one in section.lines:
            line(_row(one, spread) if fits else _narrow_row(one, spread[0], room))
    if found.settled:
        line(f"Settled this day: {len(found.settled)}")


def _widths(found: Round) -> tuple[int, int]:
    places = [width(one.where) for one in found.lines] or [0]
    titles = [width(_title(one)) for one in found.lines] or [0]
    return max(places), max(titles)


def _title(one: RoundLine) -> str:
    adults = " (adults only)" if one.chore.adults_only else ""
    return f"{one.chore.title}{adults}"


def _row(one: RoundLine, spread: tuple[int, int]) -> str:
    place = one.where + " " * (spread[0] - width(one.where))
    title = _title(one) + " " * max(0, spread[1] - width(_title(one)))
    row = f"{one.chore.id:>5}  {place}  {title}  {one.chore.grade:<12} {one.chore.minutes:>3} min  {one.lateness}"
    return row.rstrip()


def _narrow_row(one: RoundLine, places: int, room: int) -> str:
    """The same in as many lines as it takes: number, place and minutes stay in their columns."""
    place = one.where + " " * (places - width(one.where))
    start = f"{one.chore.id:>5}  {place}  {one.chore.minutes:>3} min  "
    told = ", ".join(part for part in (_title(one), one.lateness, one.chore.grade) if part)
    return "\n".join(
        wrap(told, max(room, width(start) + LEAST_ROOM), initial_indent=start, subsequent_indent=" " * width(start))
    )


def round_rows(found: Round) -> Iterator[list[str]]:
    """One row a chore: number, where, title, class, part of day, due, days late, missed, minutes."""
    for one in found.lines:
        chore = one.chore
        yield [
            str(chore.id),
            one.where,
            chore.title,
            chore.grade,
            chore.part,
            one.due.isoformat(),
            str(one.days_late),
            str(one.missed),
            str(chore.minutes),
        ]


def round_object(found: Round) -> dict[str, object]:
    """The round in JSON's words."""
    return {
        "farm": found.farm.name,
        "on": found.on,
        "to_do": len(found.due),
        "late": len(found.late),
        "minutes": found.minutes,
        "settled": len(found.settled),
        "chores": [
            {
                **chore_object(one.chore),
                "section": section.title,
                "where": one.where,
                "due": one.due,
                "days_late": one.days_late,
                "missed": one.missed,
            }
            for section in found.sections
            for one in section.lines
        ],
    }


def chore_object(chore: Chore) -> dict[str, object]:
    """A chore in JSON's words."""
    return {
        "id": chore.id,
        "title": chore.title,
        "unit": chore.unit,
        "bed": chore.bed,
        "lot": chore.lot,
        "class": chore.grade,
        "part": chore.part,
        "rule": chore.rule_words,
        "rule_kind": chore.rule_kind,
        "rule_text": chore.rule_text,
        "start": chore.start_day,
        "minutes": chore.minutes,
        "instructions": chore.instructions,
        "caution": chore.caution,
        "readings": chore.readings.split(",") if chore.readings else [],
        "confirmation": chore.confirmation,
        "adults_only": chore.adults_only,
        "person": chore.person,
        "months": [int(month) for month in chore.months.split(",")] if chore.months else [],
        "states": chore.states.split(",") if chore.states else [],
        "with_fish": chore.with_fish,
        "template": chore.template_key,
        "next_due": chore.next_due,
    }
