"""Forms for chores: described, with the next days of their rule in sight, and corrected."""

from __future__ import annotations

import re
from datetime import date
from difflib import get_close_matches
from typing import Any

from farmops import clock
from farmops.model.chores import Chore, ChoreChange, ChoreClass, NewChore, PartOfDay
from farmops.model.errors import FarmopsError, NotUnderstood, Refused
from farmops.model.frozen import dataclass
from farmops.model.text import LONGEST_NOTE, name_of, plain
from farmops.model.units import UnitState
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, Setting
from farmops.tui.widgets.forms import FormSpec, Hand

PREVIEWED = 3
FISH = " (fish)"
MONTH_NAMES = tuple(name[: clock.SHORTEST].capitalize() for name in clock.MONTHS)
RULES = "Mon Thu; 14 days after; 2000 pump hours; once"
USUAL_RULES = ("day", "2 days", "week", "2 weeks", "14 days after")
"""What is shown first; none begins as the name of a day of the week does, which would be taken for it."""
EXAMPLES = (
    *USUAL_RULES,
    "Mon Thu",
    "weekday",
    "2 weeks on Mon",
    "month on the 1st",
    "month on the last Friday",
    "year on 1 Nov",
    "2000 pump hours",
    "once, 2026-05-01",
    "when planting ready",
)


@dataclass(frozen=True, slots=True)
class Planned:
    """A rule as it was typed, what it means in words, and the next days it falls on, or why none can be told."""

    text: str
    words: str
    days: tuple[date, ...]
    untold: str = ""


def read_rule(text: str, setting: Setting) -> Planned:
    """The rule in plain words, from the start day in the other field. Raises a FarmopsError for one that cannot be."""
    from farmops.reports.evidence import check_condition
    from farmops.schedule.due import upcoming
    from farmops.schedule.preview import untold
    from farmops.schedule.rules import WhenHolds
    from farmops.schedule.words import NoRule, in_words, parse_words

    start = _start(setting)
    try:
        rule = parse_words(text.strip(), start, setting.measures)
    except NoRule:
        raise NotUnderstood(_not_a_rule(text)) from None
    if isinstance(rule, WhenHolds):
        check_condition(rule.condition)
    if untold(rule):
        return Planned(text.strip(), in_words(rule), (), untold(rule))
    days = tuple(upcoming(rule, PREVIEWED))
    if not days:
        raise Refused(f"{plain(text.strip())} falls on no day from {start} on.")
    return Planned(text.strip(), in_words(rule), days)


def _not_a_rule(text: str) -> str:
    near = get_close_matches(text.strip().lower(), [one.lower() for one in EXAMPLES], n=3, cutoff=0)
    named = [one for one in EXAMPLES if one.lower() in near]
    return f"{plain(text.strip())!r} is not understood. Understood, for one: {'; '.join(named)}. F1 lists all."


def all_rules() -> tuple[str, ...]:
    """All that is understood as a rule, by example."""
    from farmops.schedule.words import UNDERSTOOD

    return UNDERSTOOD


def conditions() -> tuple[str, ...]:
    """Rules to choose from: while one of the conditions holds."""
    from farmops.reports.evidence import condition_names
    from farmops.schedule.words import SAID

    return tuple(f"when {SAID.get(name, name)}" for name in condition_names())


def _start(setting: Setting) -> date:
    try:
        return clock.parse_day(setting.typed.get("start_day", ""), setting.today)
    except FarmopsError:
        return setting.today


def rule_told(rule: Planned, setting: Setting) -> str:
    """The rule in words and the next days it falls on."""
    return f"{rule.words}: {rule.untold or ', '.join(short_day(day, setting.today) for day in rule.days)}"


def short_day(day: date, today: date) -> str:
    """`Thu 15 Oct`, with the year where it is another one."""
    return f"{day:%a} {day.day} {day:%b}" + (f" {day.year}" if day.year != today.year else "")


def read_months(text: str, setting: Setting) -> tuple[int, ...]:
    """`apr-sep`, `4-9`, `nov dec jan`, `11, 12` as numbers of months. Raises NotUnderstood."""
    found: set[int] = set()
    for part in re.split(r"[\s,]+", re.sub(r"\s*-\s*", "-", text.strip().lower())):
        first, _, last = part.partition("-")
        begin, end = _month(first), _month(last or first)
        found |= {(begin + step - 1) % 12 + 1 for step in range((end - begin) % 12 + 1)}
    return tuple(sorted(found))


def _month(text: str) -> int:
    if text.isascii() and text.isdigit() and 1 <= int(text) <= 12:
        return int(text)
    found = [n for n, name in enumerate(clock.MONTHS, start=1) if name.startswith(text)]
    if len(text) < clock.SHORTEST or not found:
        raise NotUnderstood(f"{plain(text)!r} is no month. Understood: apr-sep, 4-9, nov dec jan.")
    return found[0]


def months_told(months: tuple[int, ...], setting: Setting) -> str:
    """The months by name."""
    return " ".join(MONTH_NAMES[month - 1] for month in months)


def read_states(text: str, setting: Setting) -> tuple[UnitState, ...]:
    """States by name or by how their names begin, parted by blanks or commas. Raises NotUnderstood."""
    return tuple(dict.fromkeys(_state(part) for part in re.split(r"[\s,]+", text.strip().lower())))


def _state(text: str) -> UnitState:
    found = [state for state in UnitState if state.value.startswith(text)]
    if len(found) != 1:
        raise NotUnderstood(f"{plain(text)!r} is no state. Understood: {', '.join(making.words_of(UnitState))}.")
    return found[0]


def read_list(text: str, setting: Setting) -> tuple[str, ...]:
    """Words parted by commas."""
    return tuple(name_of(part, "reading") for part in text.split(",") if part.strip())


def places(context: Context) -> dict[str, dict[str, Any]]:
    """Where a chore can belong, by the word for it, as fields of its entry; where one stands comes first."""
    found: dict[str, dict[str, Any]] = {line.unit.code: {"unit_id": line.unit.id} for line in context.units}
    found |= {line.bed.code: {"bed_id": line.bed.id} for line in context.beds}
    found |= {f"{lot.code}{FISH}": {"fish_lot_id": lot.id} for lot in context.lots}
    here = context.unit_code
    return dict(sorted(found.items(), key=lambda item: bool(here) and not item[0].startswith(here)))


def _fields(context: Context, values: dict[str, str], where: tuple[Field, ...] = ()) -> tuple[Field, ...]:
    def text(name: str, label: str, hint: str = "") -> Field:
        return making.note(values.get(name), name=name, label=label, hint=hint)

    return (
        Field("title", "Chore", Kind.TEXT, values.get("title", ""), required=True),
        Field(
            "rule",
            "Due",
            Kind.NAME,
            values.get("rule", ""),
            (*USUAL_RULES, *conditions()),
            required=True,
            hint=RULES,
            read=read_rule,
            told=rule_told,
            lists=all_rules,
            follows=("start_day",),
        ),
        making.day("start_day", "First day", values.get("start_day", "today")),
        *where,
        Field(
            "minutes", "Minutes", Kind.COUNT, values.get("minutes", "5"), required=True, zero_ok=True, blamed=("min",)
        ),
        Field("part", "Part of day", Kind.CHOICE, values.get("part", "none"), making.words_of(PartOfDay)),
        Field("grade", "Class", Kind.CHOICE, values.get("grade", "upkeep"), making.words_of(ChoreClass)),
        text("instructions", "How"),
        text("caution", "Caution"),
        Field(
            "readings",
            "Read",
            Kind.TEXT,
            values.get("readings", ""),
            longest=LONGEST_NOTE,
            hint="such as pH, ammonia",
            read=read_list,
        ),
        text("confirmation", "Confirm", "such as flow seen"),
        Field("adults_only", "Adults only", Kind.YES, values.get("adults_only", "no")),
        Field(
            "person_id",
            "Who",
            Kind.NAME,
            values.get("person_id", ""),
            tuple(one.name for one in context.people),
            strict=True,
            hint="empty: whoever is here",
            otherwise="Somebody new is added in Records.",
            blamed=("is a minor",),
        ),
        Field(
            "months",
            "Months",
            Kind.TEXT,
            values.get("months", ""),
            hint="apr-sep; empty: all the year",
            read=read_months,
            told=months_told,
        ),
        Field(
            "states",
            "In states",
            Kind.TEXT,
            values.get("states", ""),
            hint="running; empty: in all of them",
            read=read_states,
            told=lambda states, setting: ", ".join(states),
        ),
        Field("with_fish", "Only with fish", Kind.YES, values.get("with_fish", "no")),
    )


def _texts(chore: Chore) -> dict[str, str]:
    months = tuple(int(month) for month in chore.months.split(",")) if chore.months else ()
    return {
        "title": chore.title,
        "rule": chore.rule_words,
        "start_day": str(chore.start_day),
        "minutes": str(chore.minutes),
        "part": chore.part.value,
        "grade": chore.grade.value,
        "instructions": chore.instructions or "",
        "caution": chore.caution or "",
        "readings": (chore.readings or "").replace(",", ", "),
        "confirmation": chore.confirmation or "",
        "adults_only": "yes" if chore.adults_only else "no",
        "person_id": chore.person or "",
        "months": " ".join(MONTH_NAMES[month - 1] for month in months),
        "states": (chore.states or "").replace(",", ", "),
        "with_fish": "yes" if chore.with_fish else "no",
    }


def new(context: Context) -> FormSpec:
    """A chore of the grower's own, where one stands unless told otherwise."""
    return _new(context, "New chore", {}, context.unit_code)


def like(record: Chore, context: Context) -> FormSpec:
    """A chore like another one, from today on; for another place, say."""
    lot = f"{record.lot}{FISH}" if record.lot else ""
    values = {**_texts(record), "start_day": "today"}
    return _new(context, f"New chore like {record.title}", values, record.bed or lot or record.unit or "")


def _new(context: Context, title: str, values: dict[str, str], place: str) -> FormSpec:
    known = places(context)
    where = Field("where", "Where", Kind.NAME, place, tuple(known), strict=True, hint="empty: the whole farm")

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.chores import add_chore

        place = known.get(values.pop("where") or "", {})
        chore = add_chore(store, NewChore(**_entry(context, values), **place), **making.hand_of(hand, operation))
        return _told(store, chore, "added")

    return FormSpec(title, _fields(context, values, (where,)), save, context.setting)


def _entry(context: Context, values: dict[str, Any]) -> dict[str, Any]:
    """The values as fields of an entry; an empty list is none at all."""
    lists = {name: () for name in ("readings", "months", "states") if values[name] is None}
    people = {one.name: one.id for one in context.people}
    return making.mapped(
        {**values, **lists},
        rule=lambda rule: rule.text,
        part=PartOfDay,
        grade=ChoreClass,
        person_id=people.__getitem__,
    )


def _told(store: Store, chore: Chore, done: str) -> str:
    from farmops.reports.reasons import next_of

    return f"{chore.title} {done}: {chore.rule_words}; next {next_of(store, chore, 'on no day')}."


def edit(record: Chore, context: Context) -> FormSpec:
    """Change a chore; what was settled stays settled."""

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.chores import change_chore

        entry = ChoreChange(record.id, **_entry(context, values))
        return _told(store, change_chore(store, entry, **making.hand_of(hand, operation)), "changed")

    where = record.bed or record.lot or record.unit or "all"
    fields = _fields(context, _texts(record))
    title = f"Chore {record.id}: {record.title}, {where}"
    return FormSpec(title, fields, save, context.setting, edits=True, verb="Change")
