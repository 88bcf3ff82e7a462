"""Chores settled: once where one settling says all, the last two weeks of what comes every day."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from chance import Chance
from days import HELPER, LAST, SCALE_HIGH, SHARERS, days, helped

from farmops.library import ChoreTemplate, chore_templates, of_state
from farmops.model.chores import AppliesTo
from farmops.model.units import UnitKind, UnitState

Known = dict[str, list[dict[str, str]]]
Row = tuple[Any, ...]
HISTORY = 14
FARM = "farm"
# place and chore: the day it was last done, so that it is due when the story wants it
LAST_DONE = {
    ("TEAL", "pump-intake"): date(2026, 10, 5),
    ("ROOK", "filter-pad-change"): date(2026, 9, 26),
}
# What is past its time and stands on: since when, and why it was left out.
LEFT_STANDING = (
    ("WREN-S", date(2026, 9, 20), date(2026, 9, 22), "the onions stand until the frost"),
    ("ROOK-S", date(2026, 9, 20), date(2026, 9, 22), "the onions stand until the frost"),
    ("TEAL-S", date(2026, 9, 17), date(2026, 9, 22), "the onions stand until the frost"),
    ("TEAL-S", date(2026, 10, 11), date(2026, 10, 12), "the chard is slow, two weeks more"),
    ("PLOVER-S", date(2026, 9, 18), date(2026, 9, 22), "the onions stand until the frost"),
)
DAILY_HISTORY = ("look-round-morning", "look-round-evening", "feed", "cycle-ammonia")
WEIGHT_LENT = "the known weight is lent to the school"
SCALE_CHECKS = (
    (date(2026, 2, 1), "done", "reads true"),
    (date(2026, 3, 3), "skipped", WEIGHT_LENT),
    (date(2026, 4, 2), "skipped", WEIGHT_LENT),
    (date(2026, 5, 2), "skipped", WEIGHT_LENT),
    (date(2026, 6, 1), "skipped", WEIGHT_LENT),
    (SCALE_HIGH[1], "done", "5 lb weight reads 5 lb 2.4 oz: 3 % high; set right"),
    (date(2026, 7, 30), "done", "reads true"),
    (date(2026, 8, 29), "done", "reads true"),
    (date(2026, 9, 28), "done", "reads true"),
)
# What the treatment of the mint called for, as far as its days are past.
TREATED = (
    ("treat-sign", date(2026, 10, 12), "sign hangs"),
    ("treat-test", date(2026, 10, 12), ""),
    ("treat-test", date(2026, 10, 13), ""),
)
TREATED_BED = "PLOVER-N"
LEAK = "level down an inch overnight, drip at the bed's outlet; sealed again, second test first"
DIPPER = (
    ("container-history", date(2026, 9, 7), date(2026, 9, 7), "done", "", "apple juice, label kept"),
    ("site-check", date(2026, 9, 7), date(2026, 9, 12), "done", "", "slab bears it; outlet moved up the wall"),
    ("leak-test", date(2026, 10, 9), date(2026, 10, 9), "done", "", ""),
    ("leak-test-read", date(2026, 10, 10), date(2026, 10, 10), "deferred", "2026-10-18", LEAK),
    ("seal-fittings", date(2026, 10, 11), date(2026, 10, 11), "done", "", "outlet taken out, new gasket"),
    ("seal-cured", date(2026, 10, 13), date(2026, 10, 13), "deferred", "2026-10-16", "9 C at night, still soft"),
    (
        "first-fill",
        date(2026, 10, 16),
        date(2026, 10, 13),
        "skipped",
        "",
        "not before a leak test holds; our own chore stands for it",
    ),
    ("siphon-trials", date(2026, 10, 17), date(2026, 10, 13), "skipped", "", "with the first fill of our own"),
)


@dataclass(frozen=True)
class Held:
    """A chore that a place has, the first day on which it counts, and the last where its states are past."""

    place: str
    template: ChoreTemplate
    since: date
    until: date | None


def settlement_rows(known: Known) -> list[Row]:
    """Every settling, by day."""
    changed = {(row["place"], row["chore"]): row["rule"] for row in known["chore_changes"]}
    rows: list[Row] = []
    for held in _held(known):
        chance = Chance(f"settlings of {held.template.key} at {held.place}")
        if held.place == "DIPPER" and held.template.key != "covers-nets":
            continue
        if held.template.key == "scale-check":
            rows += _scale_checks(chance)
            continue
        rows += _settlings(held, changed.get((held.place, held.template.key)), chance)
    rows += _dipper(Chance("settlings of DIPPER")) + _own(known, Chance("settlings of their own"))
    rows += _treated(Chance("settlements after the treatment"))
    rows += _stocked(known, Chance("settlings after stocking")) + _left_standing(Chance("what is past its time"))
    return sorted(rows, key=lambda row: (row[0], str(row[1]), str(row[2])))


def _held(known: Known) -> Iterator[Held]:
    """What each unit, its beds and the farm are given, as on entering the states."""
    seen: set[tuple[str, str]] = set()
    beds: dict[str, dict[str, None]] = {}
    for row in known["beds"]:
        beds.setdefault(row["unit"], {})[f"{row['unit']}-{row['bed']}"] = None
    fish = {row["unit"]: row["stocked"] for row in reversed(known["fish"])}
    for row in known["unit_states"]:
        state, since = UnitState(row["state"]), date.fromisoformat(row["from"])
        for template in of_state(chore_templates(), UnitKind.COUPLED, state):
            for place in _places(template, row["unit"], list(beds.get(row["unit"], ()))):
                if (place, template.key) in seen or (template.with_fish and row["unit"] not in fish):
                    continue
                seen.add((place, template.key))
                start = max(since, date.fromisoformat(fish[row["unit"]])) if template.with_fish else since
                yield Held(place, template, start, _until(known, row["unit"], template))


def _until(known: Known, unit: str, template: ChoreTemplate) -> date | None:
    """The last day on which the unit was in one of the template's states; None while it still is."""
    states = [row for row in known["unit_states"] if row["unit"] == unit]
    last = max(at for at, row in enumerate(states) if UnitState(row["state"]) in template.states)
    following = states[last + 1 :]
    return date.fromisoformat(following[0]["from"]) - timedelta(days=1) if following else None


def _places(template: ChoreTemplate, unit: str, beds: list[str]) -> list[str]:
    if template.applies_to is AppliesTo.FARM:
        return [FARM]
    return beds if template.applies_to is AppliesTo.BED else [unit]


def _settlings(held: Held, changed: str | None, chance: Chance) -> list[Row]:
    template, rule = held.template, _by_days(changed or held.template.rule)
    if rule.startswith("when "):
        return []
    if template.once_after_days is not None:
        due = held.since + timedelta(days=template.once_after_days)
        return [] if due > LAST else [_done(held, due, due + timedelta(days=chance.whole(0, 1)), chance)]
    if held.place != FARM and held.until is not None:
        return [_done(held, held.until, held.until, chance)]
    if rule.endswith("after"):
        return _after_doing(held, rule, chance)
    return [_done(held, day, _on(day, rule, chance), chance) for day in _calendar(held, rule)]


def _by_days(rule: str) -> str:
    """A rule by use goes by its latest day here: `2000 pump hours or 12 weeks` is done as every 12 weeks."""
    used, _, latest = rule.partition(" or ")
    return f"{latest} after" if latest and used.endswith("hours") else rule


def _after_doing(held: Held, rule: str, chance: Chance) -> list[Row]:
    every = int(rule.split()[0]) * (7 if "week" in rule else 1)
    first_due = held.since + timedelta(days=every)
    last = LAST_DONE.get((held.place, held.template.key)) or LAST - timedelta(days=chance.whole(1, min(every - 1, 70)))
    if every == 7 and (held.place, held.template.key) not in LAST_DONE:
        last = LAST - timedelta(days=chance.whole(1, 6))
    if last < first_due - timedelta(days=every // 3):
        return []
    done = [last - timedelta(days=every * step) for step in range(2 if every <= 14 else 1)]
    return [
        _done(held, max(day - timedelta(days=chance.whole(0, 1) if every > 7 else 0), first_due), day, chance)
        for day in done
        if day >= first_due - timedelta(days=every // 3)
    ]


def _calendar(held: Held, rule: str) -> list[date]:
    """The latest days of a calendar rule before the last day of the farm's clock."""
    past = [
        day for day in days(max(held.since, LAST - timedelta(days=400)), LAST - timedelta(days=1)) if _falls(rule, day)
    ]
    most = HISTORY if held.template.key in DAILY_HISTORY else 3
    return past[-most:] if rule == "day" else past[-1:]


MONTHS = {"Jul": 7, "Oct": 10, "Jun": 6}


def _falls(rule: str, day: date) -> bool:
    """Whether a rule in the words that the demo uses falls on a day."""
    words = rule.split()
    if words[0] == "day":
        return True
    if words[0] == "week":
        return day.strftime("%a") in words
    if words[0] == "month":
        return day.day == 1
    if words[0] == "year":
        return (day.day, day.month) == (int(words[-2]), MONTHS[words[-1]])
    raise ValueError(f"no demo chore has the rule {rule}")


def _on(day: date, rule: str, chance: Chance) -> date:
    """The day it was done: the same, or a little later for what has time."""
    late = chance.whole(0, 5) if rule.startswith("year") else chance.whole(0, 1) if rule.startswith("month") else 0
    return min(day + timedelta(days=late), LAST - timedelta(days=1))


def _done(held: Held, due: date, on: date, chance: Chance) -> Row:
    template = held.template
    on = min(on, LAST - timedelta(days=1))
    minutes = max(1, round(chance.about(template.minutes, template.minutes * 0.4)))
    confirmed = template.confirmation or ""
    return on, held.place, template.key, due, "done", "", "", confirmed, minutes, _who(on, chance)


def _who(day: date, chance: Chance) -> str:
    if helped(day):
        return HELPER
    return SHARERS[0] if chance.happens(0.55) else SHARERS[1]


def _scale_checks(chance: Chance) -> list[Row]:
    return [
        (day, FARM, "scale-check", day, how, "", said, "", 3 if how == "done" else "", _who(day, chance))
        for day, how, said in SCALE_CHECKS
    ]


def _dipper(chance: Chance) -> list[Row]:
    return [
        (on, "DIPPER", chore, due, how, until, said, "", 15 if how == "done" else "", _who(on, chance))
        for chore, due, on, how, until, said in DIPPER
    ]


def _left_standing(chance: Chance) -> list[Row]:
    return [
        (on, bed, "past-its-time", since, "skipped", "", why, "", "", _who(on, chance))
        for bed, since, on, why in LEFT_STANDING
    ]


def _treated(chance: Chance) -> list[Row]:
    return [
        (day, TREATED_BED, chore, day, "done", "", "", confirmed, chance.whole(3, 8), _who(day, chance))
        for chore, day, confirmed in TREATED
    ]


def _stocked(known: Known, chance: Chance) -> list[Row]:
    """Fish that came lately: their papers filed, the water tested every morning since."""
    rows: list[Row] = []
    for lot in known["fish"]:
        stocked = date.fromisoformat(lot["stocked"])
        if stocked <= LAST - timedelta(days=HISTORY):
            continue
        rows.append((stocked, lot["unit"], "stock-papers", stocked, "done", "", "", "", 6, _who(stocked, chance)))
        for day in days(stocked, LAST - timedelta(days=1)):
            minutes = max(1, round(chance.about(8, 3)))
            rows.append((day, lot["unit"], "stock-test", day, "done", "", "", "", minutes, _who(day, chance)))
    return rows


def _own(known: Known, chance: Chance) -> list[Row]:
    """The grower's own chores: what was due last is done."""
    rows: list[Row] = []
    for row in known["chores"]:
        rule, start = row["rule"], date.fromisoformat(row["from"])
        months = _months(row["months"])
        if rule == "once":
            continue
        if rule.endswith("after"):
            due = on = LAST_DONE[row["place"], row["title"]]
        else:
            past = [day for day in days(start, LAST - timedelta(days=1)) if _falls(rule, day) and day.month in months]
            due = on = past[-1]
        minutes = max(1, round(chance.about(float(row["minutes"]), 2)))
        rows.append((on, row["place"], row["title"], due, "done", "", "", "", minutes, _who(on, chance)))
    return rows


def _months(cell: str) -> range:
    first, _, last = cell.partition("-")
    return range(int(first), int(last) + 1) if cell else range(1, 13)
