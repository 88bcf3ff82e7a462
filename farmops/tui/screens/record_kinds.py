"""The kinds of records: how each is read, and how a line of it looks."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from typing import Any

from farmops.model.frozen import dataclass
from farmops.model.harvests import Harvest
from farmops.model.journal import JournalLine
from farmops.quantities import MASS, VOLUME, Measures
from farmops.reports import evidence, lists
from farmops.reports.keeping import Kept, keeping_of
from farmops.reports.lists import UnitLine
from farmops.reports.store import Store
from farmops.reports.treatments import Told, treatments_of
from farmops.tui.widgets import water_lines
from farmops.tui.widgets.backup_lines import (
    ALL_WHOLE,
    BACKUP_COLUMNS,
    FINDING_COLUMNS,
    NO_BACKUP,
    backup_line,
    backups_beside,
    finding_line,
    findings,
)
from farmops.tui.widgets.evidence_lines import (
    chore_line,
    chores,
    condition_line,
    conditions,
    forecast_line,
    usage,
    usage_line,
)
from farmops.tui.widgets.held_paper_lines import NO_PAPER, PAPER_COLUMNS, held, paper_line
from farmops.tui.widgets.label_lines import LABEL_COLUMNS, NO_LABEL, label_line, labels
from farmops.tui.widgets.listing_lines import Column, Line
from farmops.tui.widgets.past_incidents import PAST_COLUMNS, past_line, past_of
from farmops.tui.widgets.power_lines import (
    DEVICE_COLUMNS,
    METER_COLUMNS,
    PRICE_COLUMNS,
    device_line,
    devices,
    price_line,
    prices,
    reading_line,
    readings,
)
from farmops.tui.widgets.supply_lines import (
    BOUGHT_COLUMNS,
    USED_COLUMNS,
    all_bought,
    all_used,
    bought_line,
    used_line,
)
from farmops.tui.widgets.template_lines import COLUMNS, EMPTY, template_line, templates

DAYS_BACK = 400
DAYS_OF_FORECASTS = 7
OTHERS = ", . others"


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of record: how it is read, and how a line of it looks."""

    name: str
    title: str
    columns: tuple[Column, ...]
    read: Callable[[Store, date, str | None], list[Any]]
    line: Callable[[Any, Measures], Line]
    empty: str


def _harvests(store: Store, today: date, unit: str | None) -> list[Harvest]:
    found = lists.harvests(store, today - timedelta(days=DAYS_BACK), today)
    return [one for one in found if unit in (None, one.unit)][::-1]


def _harvest_line(one: Harvest, measures: Measures) -> Line:
    weight = MASS.show(one.mass_mg, measures)
    count = str(one.number or "")
    cells = (str(one.day), one.bed or one.unit, one.what, weight, count, one.use.value, one.note or "")
    return Line(f"harvests {one.id}", cells, look="quiet" if not one.use.counts else "normal", data=one)


def _unit_line(one: UnitLine, measures: Measures) -> Line:
    unit = one.unit
    state = f"{one.states[-1].state} since {one.states[-1].from_day}" if one.states else ""
    tank = VOLUME.show(unit.tank_ml, measures) if unit.tank_ml else ""
    return Line(f"units {unit.id}", (str(unit.position), unit.code, unit.kind.value, state, tank), data=unit)


def _treatment_line(one: Told, measures: Measures) -> Line:
    done = one.one
    cells = (str(done.day), done.where, done.product, one.enter, one.pick, one.fish)
    return Line(f"treatments {done.id}", cells, data=done)


def _keeping_line(one: Kept, measures: Measures) -> Line:
    until = f"{one.until} ({one.rule.years} years)" if one.until else f"{one.rule.years} years"
    cells = (one.rule.kind, str(one.number), str(one.oldest or ""), until, f"{one.rule.applies}; {one.rule.source}")
    return Line(f"keeping {one.rule.kind}", cells)


def _journal_line(one: JournalLine, measures: Measures) -> Line:
    about = one.undoes or one.redoes
    what = f"{one.name} {about[:8]}" if about else one.name
    cells = (f"{one.at:%Y-%m-%d %H:%M}Z", one.by, one.through.value, what)
    return Line(f"journal {one.seq}", cells, look="done" if one.undone else "normal", data=one)


KINDS = (
    Kind(
        "harvests",
        "Harvests",
        (
            Column("day", "day"),
            Column("where", "where"),
            Column("what", "what", grow=True),
            Column("weight", "weight", align="right"),
            Column("count", "count", align="right", priority=2),
            Column("use", "for"),
            Column("note", "note", priority=3),
        ),
        _harvests,
        _harvest_line,
        "Nothing weighed yet. h weighs a harvest.",
    ),
    Kind(
        "units",
        "Units",
        (
            Column("place", "", align="right"),
            Column("unit", "unit"),
            Column("kind", "kind", priority=2),
            Column("state", "state", grow=True),
            Column("tank", "tank", align="right", priority=1),
        ),
        lambda store, today, unit: lists.units(store),
        _unit_line,
        "No unit yet. n adds the first.",
    ),
    Kind(
        "chores",
        "All chores",
        (
            Column("where", "where"),
            Column("chore", "chore", grow=True),
            Column("rule", "rule", priority=1),
            Column("next", "next"),
        ),
        chores,
        chore_line,
        "No chore yet. n adds one.",
    ),
    Kind("templates", "Templates", COLUMNS, templates, template_line, EMPTY),
    Kind(
        "crops",
        "Crops",
        (Column("name", "crop"), Column("note", "note", grow=True)),
        lambda store, today, unit: lists.crops(store),
        lambda one, measures: Line(f"crops {one.id}", (one.name, one.note or ""), data=one),
        "No crop yet. n adds one.",
    ),
    Kind(
        "people",
        "People",
        (Column("name", "name"), Column("age", ""), Column("note", "note", grow=True)),
        lambda store, today, unit: lists.people(store),
        lambda one, measures: Line(
            f"people {one.id}", (one.name, "minor" if one.minor else "", one.note or ""), data=one
        ),
        "Nobody is named yet. n adds somebody.",
    ),
    Kind(
        "notes",
        "Notes",
        (
            Column("day", "day"),
            Column("where", "where", priority=1),
            Column("changed", "changed"),
            Column("note", "note", grow=True),
            Column("file", "file", priority=2),
        ),
        lambda store, today, unit: [one for one in lists.notes(store, date.min, date.max) if unit in (None, one.unit)],
        lambda one, measures: Line(
            f"notes {one.id}",
            (str(one.day), one.where or "farm", one.changed or "", one.text or "", one.file_name or ""),
            data=one,
        ),
        "No note yet. n writes one, with a photo or with what was changed.",
    ),
    Kind(
        "contacts",
        "Contacts",
        (
            Column("for", "for"),
            Column("name", "name", grow=True),
            Column("phone", "phone"),
            Column("note", "note", priority=2),
        ),
        lambda store, today, unit: lists.contacts(store),
        lambda one, measures: Line(
            f"contacts {one.id}", (one.calls_for, one.name, one.phone, one.note or ""), data=one
        ),
        "Nobody to call yet. n writes somebody down: a vet, an electrician, a neighbour.",
    ),
    Kind(
        "absences",
        "Away",
        (
            Column("who", "who"),
            Column("from", "from"),
            Column("to", "to"),
            Column("stand-in", "stands in", grow=True),
            Column("note", "note", priority=2),
        ),
        lambda store, today, unit: lists.absences(store),
        lambda one, measures: Line(
            f"absences {one.id}",
            (one.person, str(one.from_day), str(one.until_day), one.stand_in or "nobody", one.note or ""),
            data=one,
        ),
        "Nobody is away. n books a journey: it shows what to do before and what can wait.",
    ),
    Kind(
        "incidents",
        "Power cuts",
        PAST_COLUMNS,
        lambda store, today, unit: past_of(store),
        lambda one, measures: past_line(one),
        "No power cut yet. If the power goes: !",
    ),
    Kind(
        "treatments",
        "Treatments",
        (
            Column("day", "day"),
            Column("where", "where"),
            Column("product", "product", grow=True),
            Column("people", "people from", priority=2),
            Column("harvest", "harvest from"),
            Column("fish", "fish from", priority=1),
        ),
        lambda store, today, unit: treatments_of(store, date.min, date.max, unit),
        _treatment_line,
        "No treatment yet. n books one: what the label says holds the harvest.",
    ),
    Kind(
        "bought supplies",
        "Bought",
        BOUGHT_COLUMNS,
        all_bought,
        bought_line,
        "Nothing bought to be held. In Money, S enters a supply and + books what was bought.",
    ),
    Kind(
        "used supplies",
        "Used up",
        USED_COLUMNS,
        all_used,
        used_line,
        "Nothing used or counted. In Money, - and = on a supply book what was used and what is left.",
    ),
    Kind("devices", "Power", DEVICE_COLUMNS, devices, device_line, "No device yet. n enters one: a pump, a blower."),
    Kind(
        "meter readings",
        "Meters",
        METER_COLUMNS,
        readings,
        reading_line,
        "No meter read yet. n reads one: where it tells the use, rated watts do not count.",
    ),
    Kind(
        "power prices",
        "Price of power",
        PRICE_COLUMNS,
        prices,
        price_line,
        "No price yet. n sets what a kilowatt-hour costs: without it power counts nothing.",
    ),
    Kind(
        "instruments",
        "Instruments",
        water_lines.INSTRUMENT_COLUMNS,
        water_lines.instruments,
        water_lines.instrument_line,
        "No instrument yet. n takes a kit or a meter into service: then its readings know what they came from.",
    ),
    Kind(
        "instrument checks",
        "Checks",
        water_lines.CHECK_COLUMNS,
        water_lines.checks,
        water_lines.check_line,
        "No check yet. k on the line of an instrument in Fish & water books one.",
    ),
    Kind(
        "own limits",
        "Own limits",
        water_lines.LIMIT_COLUMNS,
        water_lines.own_limits,
        water_lines.limit_line,
        "No limit of your own. n sets one: it is held beside those of fish, filter and plants.",
    ),
    Kind(
        "doses",
        "Added",
        water_lines.DOSE_COLUMNS,
        water_lines.doses,
        water_lines.dose_line,
        "Nothing added to the water yet. n books it, and works out how much.",
    ),
    Kind(
        "water sources",
        "Water sources",
        water_lines.SOURCE_COLUMNS,
        water_lines.sources,
        water_lines.source_line,
        "No water source yet. n names one: rain, a well, mains.",
    ),
    Kind(
        "top-ups",
        "Topped up",
        water_lines.TOP_UP_COLUMNS,
        water_lines.top_ups,
        water_lines.top_up_line,
        "Nothing topped up yet. n books it.",
    ),
    Kind(
        "usage",
        "Use",
        (
            Column("day", "day"),
            Column("unit", "unit"),
            Column("used", "used", grow=True),
            Column("note", "note", priority=2),
        ),
        usage,
        usage_line,
        "No use booked yet. n books the hours of a pump, feed, or cycles of a siphon: chores by use fall due by it.",
    ),
    Kind(
        "forecasts",
        "Forecasts",
        (
            Column("day", "day"),
            Column("low", "low", align="right"),
            Column("high", "high", align="right"),
            Column("note", "note", grow=True),
        ),
        lambda store, today, unit: evidence.forecasts(store, today - timedelta(days=DAYS_OF_FORECASTS)),
        forecast_line,
        "No forecast for the days to come. n types one in: frost and heat call for chores.",
    ),
    Kind(
        "conditions",
        "What holds",
        (
            Column("condition", "when"),
            Column("where", "where"),
            Column("since", "since"),
            Column("why", "", grow=True),
        ),
        conditions,
        condition_line,
        "No condition is known.",
    ),
    Kind("papers", "Papers", PAPER_COLUMNS, held, paper_line, NO_PAPER),
    Kind("labels", "Labels", LABEL_COLUMNS, labels, label_line, NO_LABEL),
    Kind(
        "keeping",
        "Kept until",
        (
            Column("kind", "records"),
            Column("number", "number", align="right"),
            Column("oldest", "oldest", priority=2),
            Column("until", "newest until"),
            Column("applies", "for", grow=True),
        ),
        lambda store, today, unit: list(keeping_of(store, today).kinds),
        _keeping_line,
        "Nothing is kept yet.",
    ),
    Kind(
        "journal",
        "Journal",
        (
            Column("when", "when"),
            Column("who", "who"),
            Column("through", "through", priority=1),
            Column("what", "what", grow=True),
        ),
        lambda store, today, unit: lists.journal(store, 1000),
        _journal_line,
        "Nothing booked yet.",
    ),
    Kind("backups", "Backups", BACKUP_COLUMNS, backups_beside, backup_line, NO_BACKUP),
    Kind("findings", "Look through", FINDING_COLUMNS, findings, finding_line, ALL_WHOLE),
)
