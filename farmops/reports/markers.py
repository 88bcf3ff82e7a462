"""What was changed on a unit, to stand beside its readings: doses, top-ups, sources, parts, states, instruments."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from farmops.facts import doses as dose_facts
from farmops.facts import farm as farm_facts
from farmops.facts import instruments as instrument_facts
from farmops.facts import notes as note_facts
from farmops.facts import sources as source_facts
from farmops.facts import units as unit_facts
from farmops.facts.reading import Reader, Store
from farmops.model.frozen import dataclass
from farmops.model.readings import Measure
from farmops.quantities import VOLUME, Measures
from farmops.quantities.doses import show_dose
from farmops.quantities.readings import show_value


@dataclass(frozen=True, slots=True)
class Marker:
    """Something that was changed on a day, in words; `unit` None where it touches all."""

    day: date
    unit: str | None
    words: str


def markers_of(store: Store, first: date, last: date, unit: str | None = None) -> list[Marker]:
    """What was changed in a span, oldest first: on one unit, or on all."""
    with store.reading() as reader:
        measures = farm_facts.farm(reader).measures
        found = [*_added(reader, first, last, measures), *_around(reader, first, last, measures)]
    own = [one for one in found if one.unit in (None, unit) or unit is None]
    return sorted(own, key=lambda one: (one.day, one.unit or "", one.words))


def _added(reader: Reader, first: date, last: date, measures: Measures) -> Iterator[Marker]:
    for dose in dose_facts.doses(reader, first, last):
        yield Marker(dose.day, dose.unit, f"{show_dose(dose, measures)} of {dose.what} added")
    for put in source_facts.top_ups(reader, first, last):
        source = f" from {put.source}" if put.source else ""
        yield Marker(put.day, put.unit, f"{VOLUME.show(put.volume_ml, measures)} topped up{source}")
    for note in note_facts.notes(reader, first, last):
        if note.changed is not None and note.unit is not None:
            yield Marker(note.day, note.unit, f"{note.changed} changed")


def _around(reader: Reader, first: date, last: date, measures: Measures) -> Iterator[Marker]:
    codes = {unit.id: unit.code for unit in unit_facts.units(reader)}
    for unit, states in unit_facts.all_states(reader).items():
        for state in states:
            if first <= state.from_day <= last:
                yield Marker(state.from_day, codes[unit], f"{state.state} from this day")
    for value in source_facts.values(reader):
        if first <= value.from_day <= last:
            words = f"{value.source}: {value.measure} {show_value(value.value, value.measure, measures)} from this day"
            yield Marker(value.from_day, None, words)
    for check in instrument_facts.checks(reader):
        if first <= check.day <= last and not check.passed:
            yield Marker(check.day, None, f"{check.instrument} failed its check")


def concerns(marker: Marker, measure: Measure) -> bool:
    """Whether a marker says something about a measure; only those that name another measure do not."""
    named = [one for one in Measure if f": {one} " in marker.words]
    return not named or measure in named
