"""The round as lines of a list, and what is told of the one under the cursor."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from dataclasses import replace

from textual.content import Content

from farmops.model.chores import Chore
from farmops.model.readings import NewReading
from farmops.model.text import plain
from farmops.reports.holds import HoldLine
from farmops.reports.round import Fold, Round, RoundLine, Section, SettledLine, Undated
from farmops.tui.widgets.listing_lines import Column, Heading, Line

COLUMNS = (
    Column("where", ""),
    Column("chore", "", grow=True),
    Column("class", "", priority=2),
    Column("late", ""),
    Column("minutes", "", align="right", priority=1),
)
SHUT, OPENED, INSIDE = "+ ", "- ", "  "
"""What stands before a line that holds several, before one that shows them, and before each of these."""


BESIDE = (Column("part", ""), *COLUMNS)
"""The columns where it is low: sections take no lines of their own, their names stand beside their first line."""
HOLDS, NO_DAY, SETTLED = "Holds", "No day yet", "Settled today"
BRIEF = {"Late": "Late", "Morning": "Morning", "Midday": "Midday", "Evening": "Evening", "No set hour": "Any hour"}
BRIEF |= {HOLDS: "Holds", NO_DAY: "No day", SETTLED: "Settled"}


def beside(items: Iterable[Line | Heading]) -> Iterator[Line | Heading]:
    """The same lines for the columns BESIDE; headings that cannot be said in a word stay."""
    name = ""
    for item in items:
        if isinstance(item, Line):
            yield replace(item, cells=(name, *item.cells))
            name = ""
        elif item.words in BRIEF:
            name = BRIEF[item.words]
        else:
            yield item


def lines_of(found: Round, opened: Collection[str] = ()) -> list[Line | Heading]:
    """The round as lines under their headings, what was settled today at the end; `opened` folds show their lines."""
    items: list[Line | Heading] = [Heading(f"! {one.where}: {one.words}") for one in found.holds if one.people]
    items += _whose(found)
    for section in found.sections:
        if section is not found.look:
            items.append(Heading(section.title))
        for one in section.items:
            items += _fold_lines(one, fold_key(section, one), opened) if isinstance(one, Fold) else [_line(one)]
    held = [one for one in found.holds if not one.people]
    if held:
        items.append(Heading(HOLDS))
        items += [_hold_line(at, one) for at, one in enumerate(held)]
    if found.undated:
        items.append(Heading(NO_DAY))
        items += [_undated_line(one) for one in found.undated]
    if found.settled:
        items.append(Heading(SETTLED))
        items += [_settled_line(one) for one in found.settled]
    return items


def _whose(found: Round) -> Iterator[Heading]:
    """Whose round it is, and who is here where somebody is not."""
    here = found.crew.here
    if found.person is not None:
        away = "" if found.person in here else ", who is not here: nothing falls to them"
        yield Heading(f"For {found.person.name}{away}")
    elif len(here) < len(found.crew.members):
        yield Heading(f"Here: {', '.join(one.name for one in here) or 'nobody'}")


def fold_key(section: Section, fold: Fold) -> str:
    """What tells a fold from all other lines."""
    return f"fold {section.title} {fold.name}"


def _fold_lines(fold: Fold, key: str, opened: Collection[str]) -> list[Line]:
    look = "late" if fold.days_late else "normal"
    mark, title = (OPENED, fold.name) if key in opened else (SHUT, fold.title)
    cells = (f"{mark}{fold.where}", title, fold.first.chore.grade.value, fold.lateness, f"{fold.minutes} min")
    head = Line(key, cells, look=look, data=fold)  # type: ignore[arg-type]
    return [head, *(_line(one, INSIDE) for one in fold.lines)] if key in opened else [head]


def _line(one: RoundLine, indent: str = "") -> Line:
    title = f"{one.title} · {one.why}" if one.why else one.title
    cells = (f"{indent}{one.where}", title, one.chore.grade.value, one.lateness, f"{one.chore.minutes} min")
    return Line(f"chore {one.chore.id}", cells, look="late" if one.days_late else "normal", data=one)


def _hold_line(at: int, one: HoldLine) -> Line:
    return Line(f"hold {at}", (one.where, one.words, "", "", ""), data=one)


def _undated_line(one: Undated) -> Line:
    cells = (one.where, f"{one.chore.title} · {one.why}", one.chore.grade.value, "", "")
    return Line(f"undated {one.chore.id}", cells, look="quiet", data=one)


def _settled_line(one: SettledLine) -> Line:
    how = one.settled.kind.value + (f" until {one.settled.until_day}" if one.settled.until_day else "")
    cells = (one.where, one.chore.title, one.settled.actor, how, "")
    return Line(f"settled {one.settled.id}", cells, look="done", data=one)


def details(data: object, *, brief: bool = False) -> Content:
    """What a line asks for: its rule, how much is fed, its caution before its instructions, what must be read.

    A `brief` one does not say the title again, which stands under the cursor.
    """
    match data:
        case RoundLine():
            head, caution, *rest = _of_chore(data.chore)
            head = head.removeprefix(f"{data.chore.title} · ") if brief else head
            why = [data.reason, caution] if data.rations else [caution, data.reason]
            lines = [head, *why, *rest]
        case SettledLine():
            lines = _of_chore(data.chore)
        case Undated():
            lines = [*_of_chore(data.chore)[:1], f"{data.why}. Book it in Records, Use: n."]
        case HoldLine():
            lines = [f"{data.where}: {data.words}.", "What is weighed there until then books as waste only."]
        case Fold():
            head, *rest = _of_fold(data)
            lines = [head.removeprefix(f"{data.title} · ") if brief else head, *rest]
        case _:
            return Content("")
    return Content("\n".join(plain(line) for line in lines if line))


def _of_chore(chore: Chore) -> list[str]:
    first = f"{chore.title} · {chore.rule_words} · {chore.minutes} min"
    if chore.confirmation:
        first += f" · not done without: {chore.confirmation}"
    read = f"Read: {chore.readings.replace(',', ', ')}" if chore.readings else ""
    return [first, f"! {chore.caution}" if chore.caution else "", chore.instructions or "", read]


def _of_fold(fold: Fold) -> list[str]:
    does = "Each asks for its own answer: open it with Enter" if fold.asks else "Space does all, Enter opens"
    first = f"{fold.title} · {fold.minutes} min · {does}"
    return [
        first,
        *_differing(fold, lambda chore: f"! {chore.caution}" if chore.caution else ""),
        fold.reason,
        *_differing(fold, lambda chore: chore.instructions or ""),
    ]


def _differing(fold: Fold, words: Callable[[Chore], str]) -> Iterable[str]:
    """What is said of each, once where it is the same for all, else with the places it is said of."""
    said: dict[str, list[str]] = {}
    for one in fold.lines:
        said.setdefault(words(one.chore), []).append(one.where)
    if len(said) == 1:
        return said
    return [f"{', '.join(places)}: {text}" for text, places in said.items() if text]


def folds_of(found: Round) -> Iterator[tuple[str, Fold]]:
    """Every fold of a round with what tells it from all others."""
    for section in found.sections:
        yield from ((fold_key(section, one), one) for one in section.items if isinstance(one, Fold))


def chores_of(data: object) -> tuple[RoundLine, ...]:
    """The chores that a line stands for, if they are still to do."""
    return data.lines if isinstance(data, Fold) else (data,) if isinstance(data, RoundLine) else ()


def done_words(chosen: Sequence[RoundLine], read: Sequence[NewReading] = (), bad: str = "") -> str:
    """What was done, in a line; below it what is bad in what was read."""
    if len(chosen) > 1:
        return f"Done: {chosen[0].chore.title}, {len(chosen)} of them. u takes all back."
    one = chosen[0]
    known = {reading.measure for reading in read}
    missing = ", ".join(measure for measure in one.chore.measures if measure not in known)
    unread = f" Not read: {missing}." if missing else ""
    words = f"Done: {one.chore.title}, {one.where}.{unread} u takes it back."
    return f"{words}\n{bad}" if bad else words
