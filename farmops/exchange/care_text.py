"""The care sheet as plain text for any printer: 72 columns, each week on its own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from farmops.exchange.round_text import BOX, COLUMNS, packed, wrapped
from farmops.model.chores import PartOfDay
from farmops.model.text import plain
from farmops.reports.care import CareLine, CareSheet, UnitCare

INDENT = "  "
RULED = "-" * COLUMNS


def text_of(sheet: CareSheet) -> str:
    """The whole sheet, each line at most 72 columns wide."""
    parts = ["\n".join(_week(week)) for week in sheet.weeks]
    return f"\n\n{RULED}\n\n".join(parts) + "\n"


def title_of(sheet: CareSheet) -> str:
    """`Care sheet, Quillet Bank`."""
    return f"Care sheet, {sheet.farm.name}"


def days_of(sheet: CareSheet) -> str:
    """The days of a sheet in full, with their year."""
    first, last = sheet.first, sheet.last
    if first == last:
        return f"{first:%A} {first.day} {first:%B %Y}"
    return f"{first:%A} {first.day} {first:%B} to {last:%A} {last.day} {last:%B %Y}"


def for_whom(sheet: CareSheet) -> str:
    """For whom it is, and while who is away: `For Ines, while Maren and Tobit are away`."""
    away = list(dict.fromkeys(one.person for one in sheet.absences))
    if not away:
        return ""
    stand_ins = list(dict.fromkeys(one.stand_in for one in sheet.absences if one.stand_in))
    whom = f"For {' and '.join(stand_ins)}, while" if stand_ins else "While"
    return f"{whom} {' and '.join(away)} {'is' if len(away) == 1 else 'are'} away"


def notes_of(sheet: CareSheet) -> tuple[str, ...]:
    """What was noted for the absences."""
    return tuple(f"{one.person}: {one.note}" for one in sheet.absences if one.note)


def _week(sheet: CareSheet) -> Iterator[str]:
    yield from wrapped(title_of(sheet).upper(), COLUMNS)
    yield days_of(sheet)
    yield from _some(for_whom(sheet))
    for note in notes_of(sheet):
        yield from wrapped(note, COLUMNS)
    yield from _call(sheet)
    yield from _chores(sheet)
    yield from _feed(sheet)
    for title, rules in (("DO NOT FEED", sheet.stop), ("NEVER", sheet.never), ("TAKE CARE", sheet.cautions)):
        yield from _list(title, rules)
    yield from _shut_off(sheet.units)


def _some(words: str) -> Iterator[str]:
    if words:
        yield from wrapped(words, COLUMNS)


def _call(sheet: CareSheet) -> Iterator[str]:
    yield ""
    yield "CALL"
    if not sheet.contacts:
        yield f"{INDENT}whom? write it here: {'_' * 40}"
    for one in sheet.contacts:
        yield from _hung(f"{one.calls_for}: ", f"{one.name}, {one.phone}")


def _hung(head: str, words: str, indent: str = INDENT) -> Iterator[str]:
    """Words beside a head, further lines below the first word."""
    start = f"{indent}{plain(head)}"
    for at, text in enumerate(wrapped(words, COLUMNS - len(start))):
        yield (start if at == 0 else " " * len(start)) + text


def _chores(sheet: CareSheet) -> Iterator[str]:
    yield ""
    yield "TO DO"
    yield from (f"{INDENT}{text}" for text in packed(minutes_words(sheet), COLUMNS - len(INDENT)))
    for one in sheet.lines:
        yield from _line(one, sheet)


def minutes_words(sheet: CareSheet) -> list[str]:
    """How long each day takes."""
    if len(sheet.days) == 1:
        return [f"{sheet.minutes_on(sheet.first)} min"]
    return [f"{day_words(day)} {sheet.minutes_on(day)} min" for day in sheet.days]


def day_words(day: date) -> str:
    """`Tue 20 Oct`."""
    return f"{day:%a} {day.day} {day:%b}"


def where_words(places: Sequence[str]) -> str:
    """The places of a chore; the farm's own are for every unit."""
    return ", ".join("every unit" if place == "all" else place for place in places)


def when_words(line: CareLine) -> str:
    """When in the day, for how long, and for whom."""
    chore = line.chore
    part = "" if chore.part is PartOfDay.NONE else chore.part.value
    adults = "adults only" if chore.adults_only else ""
    each = " each" if any(len(due.places) > 1 for due in line.due) else ""
    return ", ".join(word for word in (part, f"{chore.minutes} min{each}", adults) if word)


def how_words(line: CareLine) -> Iterator[tuple[str, str]]:
    """How it is done: a caution, the instructions, what must be seen, what is read; each with its word before it."""
    chore = line.chore
    for head, words in (
        ("Caution: ", chore.caution),
        ("", chore.instructions),
        ("Not done without: ", chore.confirmation),
        ("Read and write down: ", (chore.readings or "").replace(",", ", ")),
    ):
        if words:
            yield head, words


def _line(line: CareLine, sheet: CareSheet) -> Iterator[str]:
    same = line.everywhere
    where = f" · {where_words(same)}" if same else ""
    yield from _hung("* ", f"{line.chore.title} ({when_words(line)}){where}", "")
    yield from (f"{INDENT}{text}" for text in packed(_boxes(line, sheet), COLUMNS - len(INDENT)))
    for head, words in how_words(line):
        yield from _hung("", f"{head}{words}", INDENT * 2)


def _boxes(line: CareLine, sheet: CareSheet) -> list[str]:
    if len(sheet.days) == 1:
        return [BOX]
    same = line.everywhere
    return [f"{BOX} {one.day:%a}" if same else f"{BOX} {one.day:%a} {where_words(one.places)}" for one in line.due]


def _feed(sheet: CareSheet) -> Iterator[str]:
    fed = [one for one in sheet.units if one.feed is not None]
    if not fed:
        return
    yield ""
    yield "FEED, ONE BAG A DAY AND UNIT: A CEILING, STOP WHEN THEY SLOW"
    for one in fed:
        yield from _hung(f"{one.unit.code}: ", feed_words(one))
    for day in sheet.days:
        own = [one.label for one in sheet.bags if one.day == day]
        if own:
            yield from (
                f"{INDENT}{text}" for text in packed([f"{BOX} {label}" for label in own], COLUMNS - len(INDENT))
            )


def feed_words(one: UnitCare) -> str:
    """The fish of a unit and what is to be known of their feed."""
    feed = one.feed
    if feed is None:
        return "no fish"
    portions = f"in {feed.portions} feeds a day" if feed.grams and feed.portions > 1 else ""
    known = f"not worked out, weigh what you give yourself: {feed.why}" if feed.grams is None else feed.why
    parts = (one.fish, portions, known, feed.stop, *feed.remarks)
    return "; ".join(part for part in parts if part) + "."


def _list(title: str, rules: Sequence[str]) -> Iterator[str]:
    yield ""
    yield title
    for one in rules:
        yield from _hung("- ", one)


def _shut_off(units: Sequence[UnitCare]) -> Iterator[str]:
    yield ""
    yield "WHERE TO SHUT IT OFF"
    for one in units:
        yield from _hung(f"{one.unit.code}: ", shut_off_words(one))


def shut_off_words(one: UnitCare) -> str:
    """Where power and water of a unit are shut off, with a blank where it is not written down."""
    blank = "_" * 18
    return f"breaker {one.unit.breaker or blank}; valve {one.unit.valve or blank}"
