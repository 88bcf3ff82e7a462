"""What was booked of a fish lot: samples, losses, transfers and feedings in the order of their days."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import date
from enum import StrEnum

from farmops.facts import farm as farm_facts
from farmops.facts import fish_events as event_facts
from farmops.facts.live_fish import live_on
from farmops.facts.reading import Reader, Store
from farmops.model.errors import NotFound
from farmops.model.fish_events import Feeding, Loss, Sample, Transfer
from farmops.model.frozen import dataclass
from farmops.quantities import MASS, Measures

Booked = Sample | Loss | Transfer | Feeding


@dataclass(frozen=True, slots=True)
class Alive:
    """What is left of a lot on a day: the number, and the weight of one as last weighed [mg]."""

    number: int
    mean_mg: int


class Entry(StrEnum):
    """The kinds of entry in the book of a lot."""

    SAMPLE = "sample"
    LOSS = "loss"
    TRANSFER = "transfer"
    FEEDING = "feeding"

    @property
    def removed_as(self) -> str:
        """The word by which removal knows the kind."""
        return {Entry.LOSS: "losses"}.get(self, f"{self}s")


KIND_OF: Mapping[type, Entry] = {
    Sample: Entry.SAMPLE,
    Loss: Entry.LOSS,
    Transfer: Entry.TRANSFER,
    Feeding: Entry.FEEDING,
}
READ: Mapping[Entry, Callable[[Reader, int], Booked | None]] = {
    Entry.SAMPLE: event_facts.sample,
    Entry.LOSS: event_facts.loss,
    Entry.TRANSFER: event_facts.transfer,
    Entry.FEEDING: event_facts.feeding,
}


def alive(store: Store, on: date) -> dict[int, Alive]:
    """What is left of each lot that is alive on a day, by its id."""
    with store.reading() as reader:
        return {one.lot_id: Alive(one.number, one.mean_mg) for one in live_on(reader, on)}


def book(store: Store, lot: int) -> list[Booked]:
    """All that was booked of a lot, the oldest day first."""
    with store.reading() as reader:
        found: list[Booked] = [
            *event_facts.samples(reader, lot),
            *event_facts.transfers(reader, lot),
            *event_facts.losses(reader, lot),
            *event_facts.feedings(reader, lot),
        ]
    return sorted(found, key=lambda one: one.day)


def entry(store: Store, kind: Entry, id: int) -> Booked:
    """The entry of that kind and number. Raises NotFound."""
    with store.reading() as reader:
        farm_facts.farm(reader)
        found = READ[kind](reader, id)
    if found is None:
        raise NotFound(f"There is no {kind} {id}. See: farmops fish book LOT")
    return found


def fed_with(store: Store, settlements: Iterable[int]) -> list[Feeding]:
    """What was fed when chores were done, by the ids of their settlements."""
    with store.reading() as reader:
        return event_facts.fed_with(reader, settlements)


def words_of(one: Booked, measures: Measures, lot_id: int | None = None) -> str:
    """What an entry says, in a line; a transfer as the lot of that id sees it."""
    if isinstance(one, Sample):
        mean = MASS.show(round(one.mass_mg / one.number), measures)
        how = "one by one" if one.each_mg else "together"
        return f"{one.number} weighed {how}, {mean} each"
    if isinstance(one, Loss):
        return f"{one.number} lost, {one.cause}" + (f", {one.disposal}" if one.disposal else "")
    if isinstance(one, Transfer):
        each = f", {MASS.show(one.mean_mg, measures)} each" if one.mean_mg else ""
        where = f"from {one.from_lot}" if lot_id == one.to_lot_id else f"to {one.to_lot}"
        return f"{one.number} moved {where}{each}"
    return f"fed {MASS.show(one.mass_mg, measures)}" + (f", ate {one.ate}" if one.ate else "")
