"""The round and chores on paper and as JSON."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from textwrap import wrap

from farmops.cli.output import line, say, terminal_width
from farmops.model.chores import Chore
from farmops.model.frozen import dataclass
from farmops.model.rations import LotRation
from farmops.model.text import width
from farmops.reports.round import Fold, Item, Round, RoundLine

LEAST_ROOM = 20
HOLD_PLACES = 7


@dataclass(frozen=True, slots=True)
class Cells:
    """What stands in a line of the round on paper."""

    number: str
    place: str
    title: str
    grade: str
    minutes: int
    lateness: str
    reason: str


def print_round(found: Round) -> None:
    """The round as a person reads it; a calm word when nothing is due."""
    due = found.due
    head = f"{found.farm.name}, {found.on:%A} {found.on.day} {found.on:%B %Y}"
    if found.person is not None:
        head += f", for {found.person.name}"
    if not found.units and not found.lines and found.person is None:
        say(f"{head}: no unit yet. Add the first: farmops units add WREN --state building")
        return
    if not due:
        line(f"{head}: nothing to do.")
    else:
        late = f", {len(found.late)} late" if found.late else ""
        line(f"{head}: {len(due)} to do{late}, {found.minutes} min")
    for one in found.holds:
        if one.people:
            line(f"! {one.where}: {one.words}")
    _print_crew(found)
    _print_sections([(section.title, [_cells(one) for one in section.items]) for section in found.sections])
    _print_holds(found)
    _print_undated(found)
    if found.settled:
        line(f"Settled this day: {len(found.settled)}")


def _print_holds(found: Round) -> None:
    held = [one for one in found.holds if not one.people]
    if held:
        line("Holds")
        for one in held:
            line(_below(f"{one.where}: {one.words}", HOLD_PLACES, terminal_width()))


def _print_undated(found: Round) -> None:
    if found.undated:
        line("No day yet")
        for one in found.undated:
            line(_below(f"{one.where}  {one.chore.title}: {one.why}", 0, terminal_width()))
        say("Book what was used: farmops usage add UNIT COUNTER AMOUNT")


def _print_crew(found: Round) -> None:
    here = found.crew.here
    if found.person is not None and found.person not in here:
        say(f"{found.person.name} is not here that day. Say who is: farmops people here NAME...")
    elif len(here) < len(found.crew.members):
        line(f"Here: {', '.join(one.name for one in here) or 'nobody'}")


def _print_sections(sections: Sequence[tuple[str, Sequence[Cells]]]) -> None:
    rows = [one for _, lines in sections for one in lines]
    places = max((width(one.place) for one in rows), default=0)
    titles = max((width(one.title) for one in rows), default=0)
    room = terminal_width()
    fits = all(width(_row(one, places, titles)) <= room for one in rows)
    for title, lines in sections:
        line(title)
        for one in lines:
            line(_row(one, places, titles) if fits else _narrow_row(one, places, room))
            if one.reason:
                line(_below(one.reason, places, room))


def _cells(one: Item) -> Cells:
    """The line of a chore; of the same work in several places, with the number of each behind its place."""
    if isinstance(one, Fold):
        places = ", ".join(f"{each.where} {each.chore.id}" for each in one.lines)
        grade = one.first.chore.grade
        return Cells("", one.where, f"{one.name}: {places}", grade, one.minutes, one.lateness, one.reason)
    chore = one.chore
    return Cells(str(chore.id), one.where, one.title, chore.grade, chore.minutes, one.lateness, one.reason)


def _row(one: Cells, places: int, titles: int) -> str:
    place = one.place + " " * (places - width(one.place))
    title = one.title + " " * max(0, titles - width(one.title))
    return f"{one.number:>5}  {place}  {title}  {one.grade:<12} {one.minutes:>3} min  {one.lateness}".rstrip()


def _narrow_row(one: Cells, places: int, room: int) -> str:
    """The same in as many lines as it takes: number, place and minutes stay in their columns."""
    place = one.place + " " * (places - width(one.place))
    start = f"{one.number:>5}  {place}  {one.minutes:>3} min  "
    told = ", ".join(part for part in (one.title, one.lateness, one.grade) if part)
    return "\n".join(
        wrap(told, max(room, width(start) + LEAST_ROOM), initial_indent=start, subsequent_indent=" " * width(start))
    )


def _below(words: str, places: int, room: int) -> str:
    """Words under a line, in the column of the places."""
    start = " " * 7
    return "\n".join(wrap(words, max(room, places + LEAST_ROOM), initial_indent=start, subsequent_indent=start))


def print_overdue(found: Round) -> None:
    """The life support that is overdue; nothing at all where none is."""
    if found.overdue_life_support:
        _print_sections([("Life support, overdue", [_cells(one) for one in found.overdue_life_support])])


def overdue_words(found: Round) -> str:
    """Which life support is overdue, for a mail."""
    late = [f"{one.title} in {one.where}, {one.lateness}" for one in found.overdue_life_support]
    kinds = "1 chore of life support is" if len(late) == 1 else f"{len(late)} chores of life support are"
    return f"{found.farm.name}, {found.on}: {kinds} overdue. {'; '.join(late)}."


def round_rows(lines: Iterable[RoundLine]) -> Iterator[list[str]]:
    """One row a chore: number, where, title, class, part of day, due, days late, missed, minutes, reason."""
    for one in lines:
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
            one.reason,
        ]


def round_object(found: Round) -> dict[str, object]:
    """The round in JSON's words; each chore by itself, with the group it is shown in where that is one."""
    return {
        "farm": found.farm.name,
        "on": found.on,
        "for": found.person.name if found.person else None,
        "here": [one.name for one in found.crew.here],
        "to_do": len(found.due),
        "late": len(found.late),
        "minutes": found.minutes,
        "settled": len(found.settled),
        "chores": [
            line_object(one, section.title, item)
            for section in found.sections
            for item in section.items
            for one in (item.lines if isinstance(item, Fold) else (item,))
        ],
        "without_day": [
            {"id": one.chore.id, "title": one.chore.title, "where": one.where, "why": one.why} for one in found.undated
        ],
        "holds": [
            {"where": one.where, "unit": one.unit, "product": one.product, "says": one.words, "until": one.until}
            for one in found.holds
        ],
    }


def overdue_object(found: Round) -> dict[str, object]:
    """The life support that is overdue, in JSON's words."""
    late = found.overdue_life_support
    chores = [
        line_object(one, section.title, one) for section in found.sections for one in section.lines if one in late
    ]
    return {"farm": found.farm.name, "on": found.on, "overdue": len(late), "chores": chores}


def line_object(one: RoundLine, section: str, item: Item) -> dict[str, object]:
    """A line of the round in JSON's words."""
    return {
        **chore_object(one.chore),
        "section": section,
        "group": item.first.chore.title if isinstance(item, Fold) else None,
        "where": one.where,
        "due": one.due,
        "days_late": one.days_late,
        "missed": one.missed,
        "why": one.why,
        "ends": one.ends,
        "rations": [plain_ration(each) for each in one.rations],
        "who": one.doer.person.name if one.doer.person else None,
        "instead_of": one.doer.usual.name if one.doer.usual else None,
        "waits_for_adult": one.doer.waits,
        "in_trouble": one.troubled,
    }


def plain_ration(one: LotRation) -> dict[str, object]:
    """The ration of a lot in JSON's words, in grams; null where `missing` says what has to be known first."""
    return {
        "lot": one.code,
        "up_to_g": one.grams,
        "left_g": one.left_g,
        "fed_g": one.fed_g,
        "held_by": one.cap,
        "out_of_limits": one.out,
        "temperature_c": one.temperature_c,
        "temperature_read": one.read_day,
        "feeds_a_day": one.feeds_a_day,
        "missing": one.missing,
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
