"""From the names people type to the records they mean; a miss names what is near."""

from __future__ import annotations

import shlex
from collections.abc import Iterable, Sequence
from datetime import date
from typing import NoReturn, Protocol, TypeVar

from farmops import library
from farmops.facts import beds as bed_facts
from farmops.facts import chores as chore_facts
from farmops.facts import farm as farm_facts
from farmops.facts import fish as fish_facts
from farmops.facts import instruments as instrument_facts
from farmops.facts import plantings as planting_facts
from farmops.facts import readings as reading_facts
from farmops.facts import sources as source_facts
from farmops.facts import units as unit_facts
from farmops.facts.reading import Reader, Store
from farmops.model.beds import Bed
from farmops.model.chores import Chore
from farmops.model.errors import NotFound, Refused
from farmops.model.farm import Person
from farmops.model.fish import FishLot
from farmops.model.frozen import dataclass
from farmops.model.instruments import Instrument
from farmops.model.nearness import near_names
from farmops.model.plantings import Crop, Planting
from farmops.model.readings import Reading
from farmops.model.text import plain
from farmops.model.units import Unit
from farmops.model.water import WaterSource


class Named(Protocol):
    """What is called by its name."""

    @property
    def name(self) -> str:
        """Its name."""
        ...


N = TypeVar("N", bound=Named)


@dataclass(frozen=True, slots=True)
class Origin:
    """What a weighing comes from: a planting or a fish lot."""

    planting: Planting | None = None
    lot: FishLot | None = None


def unit(store: Store, text: str) -> Unit:
    """The unit of that code."""
    with store.reading() as reader:
        return _unit(reader, text)


def bed(store: Store, text: str) -> Bed:
    """The bed called `UNIT-NAME`, or the only bed of a unit."""
    with store.reading() as reader:
        return _bed(reader, text)


def crop(store: Store, text: str) -> Crop:
    """The crop of that name."""
    with store.reading() as reader:
        return _crop(reader, text)


def crop_to_plant(store: Store, bed: Bed, text: str) -> Crop:
    """The crop of that name; a miss says how the farm begins to grow it, or one with packaged facts that was meant."""
    with store.reading() as reader:
        return _crop_of_bed(reader, bed, text)


def lot(store: Store, text: str) -> FishLot:
    """The fish lot of that code."""
    with store.reading() as reader:
        found = fish_facts.lot_called(reader, text)
        return found or _miss("fish lot", text, (one.code for one in fish_facts.lots(reader)), "farmops fish add")


def chore(store: Store, id: int) -> Chore:
    """The chore of that number."""
    with store.reading() as reader:
        farm_facts.farm(reader)
        found = chore_facts.chore(reader, id)
    if found is None:
        raise NotFound(f"There is no chore {id}. See: farmops chores list")
    return found


def reading(store: Store, id: int) -> Reading:
    """The reading of that number."""
    with store.reading() as reader:
        farm_facts.farm(reader)
        found = reading_facts.reading(reader, id)
    if found is None:
        raise NotFound(f"There is no reading {id}. See: farmops water list")
    return found


def person(store: Store, text: str) -> Person:
    """The person of that name."""
    with store.reading() as reader:
        people = farm_facts.people(reader)
    found = next((one for one in people if one.name.casefold() == text.strip().casefold()), None)
    return found or _miss("person", text, (one.name for one in people), "farmops people add")


def instrument(store: Store, text: str) -> Instrument:
    """The instrument of that name, or of an unmistakable beginning of it."""
    with store.reading() as reader:
        farm_facts.farm(reader)
        return _called("instrument", text, instrument_facts.instruments(reader), "farmops instruments add")


def source(store: Store, text: str) -> WaterSource:
    """The water source of that name, or of an unmistakable beginning of it."""
    with store.reading() as reader:
        farm_facts.farm(reader)
        return _called("water source", text, source_facts.sources(reader), "farmops water sources add")


def _called(kind: str, text: str, known: Sequence[N], add: str) -> N:
    wanted = " ".join(text.split()).casefold()
    exact = [one for one in known if one.name.casefold() == wanted]
    begun = exact or [one for one in known if wanted and one.name.casefold().startswith(wanted)]
    return begun[0] if len(begun) == 1 else _miss(kind, text, (one.name for one in known), add)


def origin(store: Store, where: str, what: str, on: date) -> Origin:
    """What `what` weighed at `where` on a day comes from: a crop in a bed, or a fish lot or species in a unit."""
    with store.reading() as reader:
        farm_facts.farm(reader)
        lot = _lot_in(reader, where, what)
        return Origin(lot=lot) if lot else Origin(planting=_planting(reader, where, what, on))


def _lot_in(reader: Reader, where: str, what: str) -> FishLot | None:
    """The lot of that code, or the one lot of that species, in the unit named."""
    here = [one for one in fish_facts.lots(reader) if one.unit == where.strip().upper()]
    wanted = " ".join(what.split()).lower()
    found = [one for one in here if one.code.lower() == wanted] or [one for one in here if one.species == wanted]
    if len(found) > 1:
        codes = ", ".join(one.code for one in found)
        raise Refused(f"Which lot? {plain(where)} holds {codes}. Name one of them instead of {plain(what)}.")
    return found[0] if found else None


def _planting(reader: Reader, where: str, what: str, on: date) -> Planting:
    bed = _bed(reader, where)
    crop = _crop_of_bed(reader, bed, what)
    known = planting_facts.of_crop_in_bed(reader, bed.id, crop.id)
    growing = [one for one in known if one.started_day <= on and (one.cleared_day is None or on <= one.cleared_day)]
    if growing:
        return growing[-1]
    if not known:
        raise Refused(f"Not booked: no {crop.name} was planted in {bed.code}. Plant it: {_planting_of(bed, crop.name)}")
    last = known[-1]
    if last.started_day > on:
        raise Refused(f"Not booked: {crop.name} in {bed.code} started on {last.started_day}, after {on}.")
    raise Refused(
        f"Not booked: {crop.name} in {bed.code} was cleared on {last.cleared_day}. "
        f"Start a new planting ({_planting_of(bed, crop.name)}), or change the date with --on."
    )


def _planting_of(bed: Bed, crop: str) -> str:
    """The command that plants it there."""
    return f"farmops plantings add {bed.code} {shlex.quote(plain(crop))}"


def _unit(reader: Reader, text: str) -> Unit:
    farm_facts.farm(reader)
    found = unit_facts.unit_called(reader, text)
    return found or _miss("unit", text, (one.code for one in unit_facts.units(reader)), "farmops units add")


def _bed(reader: Reader, text: str) -> Bed:
    farm_facts.farm(reader)
    beds = bed_facts.beds(reader)
    wanted = text.strip().upper()
    found = [one for one in beds if one.code == wanted] or [one for one in beds if one.unit == wanted]
    if len(found) > 1:
        raise Refused(f"Which bed? {wanted} has {', '.join(one.code for one in found)}.")
    return found[0] if found else _miss("bed", text, (one.code for one in beds), "farmops beds add")


def _crop_of_bed(reader: Reader, bed: Bed, text: str) -> Crop:
    grown = [one.name for one in planting_facts.crops(reader)]
    packaged = [] if library.crop(text) else [one.name for one in library.crops() if one.name not in grown]
    known = [*grown, *packaged]
    meant = next((name for name in near_names(text, known) if name in packaged), text)
    found = planting_facts.crop_called(reader, text)
    return found or _miss("crop", text, known, f"{_planting_of(bed, meant)} --new-crop")


def _crop(reader: Reader, text: str) -> Crop:
    found = planting_facts.crop_called(reader, text)
    return found or _miss("crop", text, (one.name for one in planting_facts.crops(reader)), "farmops crops add")


def _miss(kind: str, text: str, known: Iterable[str], add: str) -> NoReturn:
    names = list(known)
    near = near_names(text, [name.upper() for name in names])
    raise NotFound(f"There is no {kind} {plain(text)}. {_hint(near, names)}Add one with: {add}")


def _hint(near: Sequence[str], names: Sequence[str]) -> str:
    if near:
        return f"Did you mean {' or '.join(near)}? "
    return f"Known: {', '.join(names[:12])}{' and others' if len(names) > 12 else ''}. " if names else ""
