"""Chores: the list, what each one's due date follows from, and how they were settled."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from datetime import date, datetime
from typing import TYPE_CHECKING

from farmops.facts import fish, units
from farmops.model.chores import Chore, Pause, Settled, SettledAs, Settlement
from farmops.model.frozen import dataclass
from farmops.model.units import StateFrom, UnitState
from farmops.records.reading import Reader, day, instant

if TYPE_CHECKING:
    from farmops.schedule.activity import Activity
    from farmops.schedule.due import Standing
    from farmops.schedule.rules import Rule

CHORES = """
    SELECT chore.id, chore.title, COALESCE(chore.unit_id, bed.unit_id, lot_place.unit_id) AS unit_id,
        unit.code AS unit, chore.bed_id, unit.code || '-' || bed.name AS bed, chore.fish_lot_id, fish_lot.code AS lot,
        chore.grade, chore.rule_kind, chore.rule_text, chore.rule_words, chore.start_day, chore.part, chore.minutes,
        chore.instructions, chore.caution, chore.readings, chore.confirmation, chore.adults_only, chore.months,
        chore.states, chore.with_fish, chore.template_key, chore.template_version, chore.next_due, chore.person_id,
        person.name AS person
    FROM chore
    LEFT JOIN bed ON bed.id = chore.bed_id
    LEFT JOIN fish_lot ON fish_lot.id = chore.fish_lot_id
    LEFT JOIN lot_place ON lot_place.fish_lot_id = chore.fish_lot_id AND lot_place.from_day = (
        SELECT MAX(latest.from_day) FROM lot_place AS latest WHERE latest.fish_lot_id = chore.fish_lot_id
    )
    LEFT JOIN unit ON unit.id = COALESCE(chore.unit_id, bed.unit_id, lot_place.unit_id)
    LEFT JOIN person ON person.id = chore.person_id
"""
IN_ORDER = "ORDER BY COALESCE(unit.position, -1), unit.id, chore.id"
SETTLEMENTS = """
    SELECT id, chore_id, occurrence, kind, on_day, until_day, reason, confirmed, minutes, actor, operation
    FROM settlement
"""


@dataclass(frozen=True, slots=True)
class Plan:
    """What the due date of a chore follows from, and the one that is stored."""

    chore_id: int
    rule: Rule
    history: tuple[Settlement, ...]
    activity: Activity
    next_due: date | None

    @property
    def over(self) -> bool:
        """Whether it is settled for good."""
        from farmops.schedule.due import open_occurrence
        from farmops.schedule.endings import ends

        return ends(self.rule) and open_occurrence(self.rule, self.history) is None


def chores(reader: Reader) -> list[Chore]:
    """Every chore, the farm's own first, then unit by unit in walking order."""
    return reader.all(Chore, f"{CHORES} {IN_ORDER}")


def chore(reader: Reader, id: int) -> Chore | None:
    """The chore of that id."""
    return reader.one(Chore, f"{CHORES} WHERE chore.id = :id", id=id)


def due_by(reader: Reader, last: date) -> list[Chore]:
    """The chores that are due on or before a day."""
    return reader.all(Chore, f"{CHORES} WHERE chore.next_due <= :last {IN_ORDER}", last=last)


def adults_only_of(reader: Reader, person: int) -> list[Chore]:
    """The chores for adults only that fall to a person as a rule."""
    where = "WHERE chore.person_id = :person AND chore.adults_only"
    return reader.all(Chore, f"{CHORES} {where} {IN_ORDER}", person=person)


def by_use_without_day(reader: Reader) -> list[Chore]:
    """The chores by use that are due on no day."""
    return reader.all(Chore, f"{CHORES} WHERE chore.next_due IS NULL AND chore.rule_kind = 'use' {IN_ORDER}")


def settled(reader: Reader, chore: int) -> list[Settled]:
    """How a chore was settled, the newest day first."""
    return reader.all(Settled, f"{SETTLEMENTS} WHERE chore_id = :chore ORDER BY on_day DESC, id DESC", chore=chore)


def with_ids(reader: Reader, ids: Iterable[int]) -> list[Chore]:
    """The chores of those ids, in walking order."""
    listed = ", ".join(str(int(id)) for id in sorted(set(ids))) or "NULL"
    return reader.all(Chore, f"{CHORES} WHERE chore.id IN ({listed}) {IN_ORDER}")


def settled_on(reader: Reader, on: date) -> list[Settled]:
    """Everything that was settled on a day."""
    return reader.all(Settled, f"{SETTLEMENTS} WHERE on_day = :on_day ORDER BY id", on_day=on)


def settled_between(reader: Reader, first: date, last: date) -> list[Settled]:
    """Everything that was settled on the days of a span, the oldest day first."""
    query = f"{SETTLEMENTS} WHERE on_day BETWEEN :first AND :last ORDER BY on_day, id"
    return reader.all(Settled, query, first=first, last=last)


def booked_between(reader: Reader, first: date, last: date) -> dict[int, datetime]:
    """When each settlement of the days of a span was booked, by its id."""
    query = """
        SELECT settlement.id, journal.at FROM settlement JOIN journal ON journal.operation = settlement.operation
        WHERE settlement.on_day BETWEEN :first AND :last
    """
    return {row["id"]: instant(row["at"]) for row in reader.rows(query, first=first, last=last)}


def ids_in_units(reader: Reader, unit_ids: Collection[int]) -> set[int]:
    """The chores that belong to units, or to the beds and lots in them."""
    if not unit_ids:
        return set()
    listed = ", ".join(str(int(id)) for id in sorted(unit_ids))
    query = f"SELECT id FROM ({CHORES}) AS placed WHERE unit_id IN ({listed})"
    return {row["id"] for row in reader.rows(query)}


def ids_by_use_in(reader: Reader, unit_ids: Collection[int]) -> set[int]:
    """The chores by use that belong to units, or to the beds and lots in them."""
    if not unit_ids:
        return set()
    listed = ", ".join(str(int(id)) for id in sorted(unit_ids))
    query = f"SELECT id FROM ({CHORES}) AS placed WHERE rule_kind = 'use' AND unit_id IN ({listed})"
    return {row["id"] for row in reader.rows(query)}


def ids_while(reader: Reader, conditions: Collection[str]) -> set[int]:
    """The chores that are due while one of some conditions holds."""
    listed = ", ".join(f":c{number}" for number in range(len(conditions)))
    if not listed:
        return set()
    query = f"SELECT id FROM chore WHERE rule_kind = 'when' AND rule_text IN ({listed})"
    return {row["id"] for row in reader.rows(query, **{f"c{n}": name for n, name in enumerate(conditions)})}


def units_of_lot(reader: Reader, lot: int) -> set[int]:
    """The units a fish lot has lived in."""
    query = "SELECT unit_id FROM lot_place WHERE fish_lot_id = :lot"
    return {row["unit_id"] for row in reader.rows(query, lot=lot)}


def plans(reader: Reader, ids: Iterable[int]) -> list[Plan]:
    """What the due dates of chores follow from; ids of removed chores are passed over."""
    wanted = sorted(set(ids))
    if not wanted:
        return []
    listed = ", ".join(str(int(id)) for id in wanted)
    found = reader.all(Chore, f"{CHORES} WHERE chore.id IN ({listed}) {IN_ORDER}")
    histories = _histories(reader, listed)
    pauses = _pauses(reader, listed)
    states = units.all_states(reader)
    spans = fish.fish_spans(reader)
    return [
        Plan(
            one.id,
            rule,
            histories.get(one.id, ()),
            _activity(one, states.get(one.unit_id or 0, []), pauses.get(one.id, ()), spans.get(one.unit_id or 0, [])),
            one.next_due,
        )
        for one, rule in zip(found, _rules(reader, found), strict=True)
    ]


def _rules(reader: Reader, found: list[Chore]) -> list[Rule]:
    """The rule of each chore, with its evidence where it needs some, which is read for no others."""
    from farmops.schedule.stored import USE, WHEN, rule_from

    if not any(one.rule_kind in (USE, WHEN) for one in found):
        return [rule_from(one.rule_kind, one.rule_text, one.start_day) for one in found]
    from farmops.facts.evidence import rules_of

    return rules_of(reader, found)


def standing_on(reader: Reader, ids: Iterable[int], today: date) -> dict[int, Standing]:
    """For chores that fell due before a day, what stands open on it; those that are suspended are left out."""
    wanted = list(ids)
    if not wanted:
        return {}
    from farmops.schedule.due import standing

    found = {one.chore_id: standing(one.rule, one.history, one.activity, today) for one in plans(reader, wanted)}
    return {id: one for id, one in found.items() if one is not None}


def _activity(chore: Chore, states: list[StateFrom], pauses: tuple[Pause, ...], spans: list[fish.Span]) -> Activity:
    from farmops.schedule.activity import Activity

    return Activity(
        months=frozenset(int(month) for month in chore.months.split(",")) if chore.months else frozenset(),
        states=states_of(chore) if chore.unit_id is not None else frozenset(),
        history=tuple(states),
        pauses=pauses,
        fish_spans=tuple(spans),
        keeps_fish_alive=chore.grade.keeps_fish_alive,
        with_fish=chore.with_fish,
    )


def states_of(chore: Chore) -> frozenset[UnitState]:
    """The states of its unit in which a chore is active; none means all."""
    return frozenset(UnitState(word) for word in chore.states.split(",")) if chore.states else frozenset()


def _histories(reader: Reader, listed: str) -> dict[int, tuple[Settlement, ...]]:
    query = (
        f"SELECT chore_id, occurrence, kind, on_day, until_day FROM settlement WHERE chore_id IN ({listed}) ORDER BY id"
    )
    found: dict[int, list[Settlement]] = {}
    for row in reader.rows(query):
        until = day(row["until_day"]) if row["until_day"] else None
        one = Settlement(day(row["occurrence"]), SettledAs(row["kind"]), day(row["on_day"]), until)
        found.setdefault(row["chore_id"], []).append(one)
    return {chore: tuple(history) for chore, history in found.items()}


def _pauses(reader: Reader, listed: str) -> dict[int, tuple[Pause, ...]]:
    query = f"SELECT chore_id, from_day, until_day FROM chore_pause WHERE chore_id IN ({listed}) ORDER BY from_day"
    found: dict[int, tuple[Pause, ...]] = {}
    for row in reader.rows(query):
        one = Pause(day(row["from_day"]), day(row["until_day"]) if row["until_day"] else None)
        found[row["chore_id"]] = (*found.get(row["chore_id"], ()), one)
    return found
