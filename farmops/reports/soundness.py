"""Whether the farm's records are whole and say what was booked: what is looked through, and what was found."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from farmops.facts import chores as chore_facts
from farmops.facts import farm as farm_facts
from farmops.facts import journal as journal_facts
from farmops.facts import soundness as facts
from farmops.facts.reading import Reader, Store
from farmops.figures import Figure
from farmops.model.costs import Basis
from farmops.model.errors import DAMAGED, FarmopsError, NoFarm, StoreDamaged, StoreUnavailable
from farmops.model.soundness import PARTS_IN_WORDS, Finding, Looked, Part
from farmops.reports.returns import in_span
from farmops.reports.spans import span_of
from farmops.reports.suspicious import suspicious_in
from farmops.schedule.due import next_due

Probe = Callable[[Store, Reader], Iterator[Finding]]


def look_through(store: Store) -> Looked:
    """Look through everything that can be wrong with a store; what rests on damaged ground is left out.

    That a store is so damaged that it cannot be read is a finding, too. Raises NoFarm, and StoreUnavailable where it
    cannot be reached.
    """
    parts, found = [Part.PAGES, Part.LINKS, Part.NUMBERS, Part.JOURNAL, Part.ROWS], []
    try:
        with store.reading() as reader:
            farm_facts.farm(reader)
            operations = journal_facts.last_seq(reader)
            found += _through(Part.PAGES, lambda: facts.damage(reader))
            for part, probe in PROBES.items() if not found else ():
                parts.append(part)
                found += _through(part, partial(_run, probe, store, reader))
    except NoFarm:
        raise
    except StoreUnavailable as error:
        if not isinstance(error, StoreDamaged):
            raise
        return Looked((Part.PAGES,), 0, (_unreadable(Part.PAGES, error),))
    except Exception as error:
        return Looked((Part.PAGES,), 0, (_unreadable(Part.PAGES, error),))
    return Looked(tuple(parts), operations, tuple(found))


def damage_behind(store: Store) -> StoreUnavailable | None:
    """What to say of a fault where the store is damaged, from which it may come; None where that is sound."""
    try:
        with store.reading() as reader:
            damaged = bool(facts.damage(reader))
    except FarmopsError as error:
        return error if isinstance(error, StoreUnavailable) else None
    except Exception:  # a damaged store can hold anything
        damaged = True
    return StoreUnavailable(DAMAGED.format(place=store.place)) if damaged else None


def _through(part: Part, look: Callable[[], list[Finding]]) -> list[Finding]:
    """What a look finds; that it cannot be brought to an end is a finding."""
    try:
        return look()
    except Exception as error:  # a damaged store can hold anything
        return [_unreadable(part, error)]


def _run(probe: Probe, store: Store, reader: Reader) -> list[Finding]:
    return list(probe(store, reader))


def _unreadable(part: Part, error: Exception) -> Finding:
    known = isinstance(error, FarmopsError)
    why = str(error) if known else f"They hold what no farmops wrote ({type(error).__name__})."
    return Finding(part, f"Not to be read: {PARTS_IN_WORDS[part]}. {why}")


def _of_due_days(store: Store, reader: Reader) -> Iterator[Finding]:
    titles = {one.id: one.title for one in chore_facts.chores(reader)}
    for plan in chore_facts.plans(reader, titles):
        day = next_due(plan.rule, plan.history, plan.activity)
        if day != plan.next_due:
            words = f"{titles[plan.chore_id]} stands as due {plan.next_due or 'never'}; its rule says {day or 'never'}."
            yield Finding(Part.DUE_DAYS, words, "chore", plan.chore_id, mends=True)


def _of_figures(store: Store, reader: Reader) -> Iterator[Finding]:
    """The returns of all days, every figure down to its records, on each basis."""
    farm = farm_facts.farm(reader)
    sound: dict[int, Figure] = {}
    for basis in Basis:
        found = in_span(store, reader, farm, span_of(reader, None, None, farm.today()), basis)
        for line in (*found.units, found.farm):
            for name, figure in line.figures().items():
                if not _adds_up(figure, sound):
                    yield Finding(Part.FIGURES, f"{name} of {line.unit or 'the farm'} ({basis}) does not add up.")


def _adds_up(figure: Figure, sound: dict[int, Figure]) -> bool:
    """Whether a figure and all below it follow from their parts; what many rest on is worked out once."""
    if id(figure) in sound:
        return True
    if not (figure.adds_up() and all(_adds_up(part, sound) for part in figure.parts)):
        return False
    sound[id(figure)] = figure
    return True


def _of_entries(store: Store, reader: Reader) -> Iterator[Finding]:
    for one in suspicious_in(reader):
        yield Finding(Part.ENTRIES, f"{one.words} ({one.suspect})", one.kind, one.ids[0])


PROBES: dict[Part, Probe] = {Part.DUE_DAYS: _of_due_days, Part.FIGURES: _of_figures, Part.ENTRIES: _of_entries}
"""What is looked through once the records themselves are sound."""
