"""The pick list of a day: what is ordered, what is ready to pick for it, and where."""

from __future__ import annotations

from datetime import date

from farmops import library
from farmops.facts import farm as farm_facts
from farmops.facts import fish as fish_facts
from farmops.facts import picking
from farmops.facts import treatments as treatment_facts
from farmops.facts.conditions.of_plantings import Standing, overdue_from, ready_from
from farmops.facts.picking import StandingOn
from farmops.facts.reading import Reader, Store
from farmops.library import CropFacts
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.model.treatments import Hold
from farmops.reports.ordering import Wanted, next_day_wanted, wanted_on
from farmops.reports.reasons import short_day


@dataclass(frozen=True, slots=True)
class Place:
    """Where a product is: a bed, or a fish lot in its unit. `ready` is None where nothing tells; `words` say why."""

    name: str
    ready: bool | None
    words: str
    since: date | None = None
    held: str | None = None
    in_bed: bool = True

    def source(self, what: str) -> str:
        """The name to sell it by: `WREN-N CHARD`, or the code of a lot."""
        return f"{self.name} {what}" if self.in_bed else self.name

    @property
    def can_be_picked(self) -> bool:
        """Whether it is ready, or nothing says that it is not, and no treatment holds it."""
        return self.ready is not False and self.held is None


@dataclass(frozen=True, slots=True)
class Pick:
    """One crop or species: who wants it, and where it is."""

    what: str
    wanted: tuple[Wanted, ...]
    places: tuple[Place, ...]

    @property
    def short(self) -> bool:
        """Whether something is still wanted, and nowhere can it be picked."""
        return any(not one.filled for one in self.wanted) and not any(one.can_be_picked for one in self.places)


@dataclass(frozen=True, slots=True)
class PickList:
    """What is wanted on a day, then what is ready besides; `coming` is the next day after it with an order."""

    settings: Farm
    day: date
    ordered: tuple[Pick, ...]
    besides: tuple[Pick, ...]
    coming: date | None = None

    @property
    def nothing_words(self) -> str:
        """That nothing is ordered for the day, and for which day something is."""
        later = f" Next for {self.coming:%a} {self.coming}." if self.coming else ""
        return f"Nothing is ordered for {self.day:%a} {self.day}.{later}"


def picks(store: Store, on: date | None = None) -> PickList:
    """The pick list of a day, or of today."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        day = on or farm.today()
        places = _places(reader, day)
        wanted: dict[str, list[Wanted]] = {}
        for one in wanted_on(reader, day):
            wanted.setdefault(one.order.what, []).append(one)
        coming = next_day_wanted(reader, day)
    ordered = tuple(Pick(what, tuple(orders), tuple(places.get(what, ()))) for what, orders in sorted(wanted.items()))
    ready = {what: [one for one in found if one.ready] for what, found in places.items() if what not in wanted}
    besides = tuple(Pick(what, (), tuple(found)) for what, found in sorted(ready.items()) if found)
    return PickList(farm, day, ordered, besides, coming)


def _places(reader: Reader, day: date) -> dict[str, list[Place]]:
    """Where each crop and species is on a day, in walking order."""
    found: dict[str, list[Place]] = {}
    beds, lots = treatment_facts.bed_holds(reader), treatment_facts.lot_holds(reader)
    for one in picking.standing_on(reader, day):
        found.setdefault(one.crop, []).append(_in_bed(one, day, _held(beds.get(one.bed_id, []), day)))
    for lot in fish_facts.lots(reader):
        if lot.stocked_day <= day and (lot.closed_day is None or lot.closed_day >= day):
            held = _held(lots.get(lot.id, []), day)
            found.setdefault(lot.species, []).append(Place(lot.code, None, f"in {lot.unit}", None, held, in_bed=False))
    return found


def _held(holds: list[Hold], day: date) -> str | None:
    return next((one.words for one in reversed(holds) if one.covers(day)), None)


def _in_bed(one: StandingOn, day: date, held: str | None) -> Place:
    known = _known(one)
    since = ready_from(*known) if known else None
    picked = f"last picked {short_day(one.picked_day, day)}" if one.picked_day else "not picked yet"
    if since is None:
        return Place(one.bed, None, picked, None, held)
    if since > day:
        return Place(one.bed, False, f"ready from {short_day(since, day)}; {picked}", since, held)
    late = overdue_from(*known) if known else None
    past = f", past its time since {short_day(late, day)}" if late is not None and late <= day else ""
    return Place(one.bed, True, f"ready since {short_day(since, day)}{past}; {picked}", since, held)


def _known(one: StandingOn) -> tuple[Standing, CropFacts] | None:
    """The planting beside the facts on its crop, where there are some."""
    key = one.library_key
    facts = library.crop(key) if key else None
    if key is None or facts is None:
        return None
    return Standing(one.id, one.bed_id, one.crop, key, one.started_day, one.started_by, one.picked_day), facts
