"""What the records say to chores by use and while something holds: how much was used, and what holds since when."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date

from farmops.facts.conditions import CONDITIONS, Condition, Held
from farmops.model.chores import AppliesTo, Chore
from farmops.model.usage import Counter
from farmops.records.reading import Reader, day
from farmops.schedule.rules import ByUse, Holding, Rule, Use, WhenHolds
from farmops.schedule.stored import USE, WHEN, rule_from

KINDS = (USE, WHEN)
USED = """
    SELECT unit_id, counter, day, CAST(SUM(amount) AS BIGINT) AS amount FROM usage
    WHERE unit_id IN ({units}) GROUP BY unit_id, counter, day ORDER BY unit_id, counter, day
"""
FED = """
    SELECT lot_place.unit_id, feeding.day, CAST(SUM(feeding.mass_mg) AS BIGINT) AS amount
    FROM feeding
    JOIN lot_place ON lot_place.fish_lot_id = feeding.fish_lot_id AND lot_place.from_day = (
        SELECT MAX(held.from_day) FROM lot_place AS held
        WHERE held.fish_lot_id = feeding.fish_lot_id AND held.from_day <= feeding.day
    )
    WHERE lot_place.unit_id IN ({units}) AND feeding.mass_mg > 0
    GROUP BY lot_place.unit_id, feeding.day ORDER BY lot_place.unit_id, feeding.day
"""
Record = Mapping[tuple[int, Counter], Sequence[Use]]


def rules_of(reader: Reader, chores: Iterable[Chore]) -> list[Rule]:
    """The rule of each chore with the evidence it needs, read once for all of them."""
    asked = list(chores)
    rules = [rule_from(one.rule_kind, one.rule_text, one.start_day) for one in asked]
    counted = {one.unit_id for one in asked if one.rule_kind == USE and one.unit_id is not None}
    record = used_in(reader, counted) if counted else {}
    held = holding_now(reader, {rule.condition for rule in rules if isinstance(rule, WhenHolds)})
    homes = _homes(reader) if _asks_for_beds_of_a_unit(asked, held) else {}
    return [_with_evidence(rule, one, record, held, homes) for rule, one in zip(rules, asked, strict=True)]


def used_in(reader: Reader, units: Collection[int]) -> Record:
    """What was used in units, counter by counter and day by day, in the units in which counters are stored.

    Feed is what was fed; a record of it counts where nobody fed since the record before it.
    """
    listed = ", ".join(str(int(id)) for id in sorted(units)) or "NULL"
    found: dict[tuple[int, Counter], list[Use]] = {}
    for row in reader.rows(USED.format(units=listed)):
        used = Use(day(row["day"]), row["amount"])
        found.setdefault((row["unit_id"], Counter(row["counter"])), []).append(used)
    fed: dict[int, list[Use]] = {}
    for row in reader.rows(FED.format(units=listed)):
        fed.setdefault(row["unit_id"], []).append(Use(day(row["day"]), row["amount"]))
    for unit, feedings in fed.items():
        found[unit, Counter.FEED] = _with_feedings(found.get((unit, Counter.FEED), []), feedings)
    return found


def _with_feedings(records: Sequence[Use], fed: Sequence[Use]) -> list[Use]:
    """Feedings, and the records of days on which, and before which since the last record, nobody booked any."""
    befores = [date.min, *(one.day for one in records)]
    pairs = zip(befores, records, strict=False)
    alone = [one for before, one in pairs if not any(before < feeding.day <= one.day for feeding in fed)]
    return sorted([*alone, *fed], key=lambda one: one.day)


def holding_now(reader: Reader, names: Collection[str]) -> dict[str, Held]:
    """What holds where, for each of some conditions; one that this program does not know holds nowhere."""
    return {name: CONDITIONS[name].read(reader) for name in sorted(names) if name in CONDITIONS}


def _homes(reader: Reader) -> dict[int, int]:
    """The unit of every bed."""
    return {row["id"]: row["unit_id"] for row in reader.rows("SELECT id, unit_id FROM bed")}


def _asks_for_beds_of_a_unit(chores: Sequence[Chore], held: Mapping[str, Held]) -> bool:
    of_beds = {name for name in held if CONDITIONS[name].place is AppliesTo.BED}
    return any(one.rule_kind == WHEN and one.rule_text in of_beds and one.bed_id is None for one in chores)


def _with_evidence(
    rule: Rule, chore: Chore, record: Record, held: Mapping[str, Held], homes: Mapping[int, int]
) -> Rule:
    match rule:
        case ByUse(_, counter) if chore.unit_id is not None:
            return replace(rule, record=tuple(record.get((chore.unit_id, counter), ())))
        case WhenHolds(condition) if condition in held:
            return replace(rule, holdings=_holdings(chore, CONDITIONS[condition], held[condition], homes))
        case _:
            return rule


def _holdings(chore: Chore, condition: Condition, held: Held, homes: Mapping[int, int]) -> tuple[Holding, ...]:
    """What holds where the chore belongs: the farm's own chores ask for every place, those of a unit for its beds."""

    def concerns(place: int | None) -> bool:
        if condition.place is AppliesTo.FARM or chore.unit_id is None:
            return True
        if condition.place is AppliesTo.UNIT:
            return place == chore.unit_id
        return place == chore.bed_id if chore.bed_id is not None else homes.get(place or 0) == chore.unit_id

    found = [holding for place, holdings in held.items() if concerns(place) for holding in holdings]
    return tuple(sorted(found, key=lambda one: (one.since, one.why)))
