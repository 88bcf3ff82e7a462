"""Rows about fish lots: stocked, closed, and fish on the move between lots and units."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from functools import partial
from typing import Any

from farmops.facts import fish as fish_facts
from farmops.facts import fish_events as event_facts
from farmops.facts import units as unit_facts
from farmops.farm.file_rows.booking import Booking, Mark, by, named, needed, refuse_other
from farmops.farm.fish import change_lot, stock
from farmops.farm.operation import Operation
from farmops.farm.transfers import move_lot, split, transfer
from farmops.library import species as species_facts
from farmops.model.errors import NotFound, Refused
from farmops.model.fish import FishLot, FishLotChange, NewFishLot
from farmops.model.fish_events import NewPlace, NewSplit, NewTransfer
from farmops.model.frozen import dataclass
from farmops.model.text import plain
from farmops.model.values import Measured
from farmops.records.reading import Reader


@dataclass(frozen=True, slots=True)
class LotSaid:
    """What a row says of a fish lot, None where it says nothing. `mean` is the weight of one fish at stocking.

    `sure` as for a lot that is stocked by hand.
    """

    code: str
    species: str | None = None
    unit_id: int | None = None
    stocked_day: date | None = None
    number: int | None = None
    mean: Measured | None = None
    closed_day: date | None = None
    source: str | None = None
    paper_id: int | None = None
    note: str | None = None
    sure: bool = False


@dataclass(frozen=True, slots=True)
class MoveSaid:
    """A `number` of fish of a lot go to another one, or the whole lot to a unit, both by their codes.

    A lot that is not there yet is made of them in the unit of `unit_id`. `mean` is the weight of one of them.
    """

    day: date
    lot: str
    to: str
    number: int | None = None
    mean: Measured | None = None
    unit_id: int | None = None
    note: str | None = None


def _lot_there(op: Operation, said: LotSaid) -> bool:
    lot = fish_facts.lot_called(op.reader, said.code)
    if lot is None:
        return False
    _refuse_other_lot(lot, said)
    return said.closed_day is None or lot.closed_day == said.closed_day


def _refuse_other_lot(lot: FishLot, said: LotSaid) -> None:
    refuse_other(
        lot.code,
        species=(said.species and _species(said.species)[0], lot.species),
        stocking_day=(said.stocked_day, lot.stocked_day),
        number=(said.number, lot.number),
        mean_weight=(said.mean and said.mean.exact, lot.mean_mg),
        last_day=(said.closed_day, lot.closed_day or said.closed_day),
        source=(said.source, lot.source),
        paper=(said.paper_id, lot.paper_id),
        note=(said.note, lot.note),
    )


def _book_lot(op: Operation, said: LotSaid) -> None:
    """Stock a lot, or close one that is there."""
    lot = fish_facts.lot_called(op.reader, said.code) or stock.body(op, _new_lot(said))
    if said.closed_day is not None:
        change_lot.body(op, FishLotChange(lot.id, closed_day=said.closed_day))


def _new_lot(said: LotSaid) -> NewFishLot:
    species, key = _species(needed(said.species, "species"))
    return NewFishLot(
        said.code,
        species,
        needed(said.unit_id, "unit"),
        needed(said.stocked_day, "stocked"),
        needed(said.number, "number"),
        needed(said.mean, "mean"),
        library_key=key,
        note=said.note,
        source=said.source,
        paper_id=said.paper_id,
        sure=said.sure,
    )


def _species(text: str) -> tuple[str, str | None]:
    """The usual name of a species, and the key of the packaged facts about it."""
    facts = species_facts(text)
    return (facts.name.lower(), facts.key) if facts else (" ".join(text.split()).lower(), None)


def _moved_there(op: Operation, said: MoveSaid) -> bool:
    """Whether the whole lot lives in that unit on the day; fish that were counted are known by their marks."""
    lot, unit = fish_facts.lot_called(op.reader, said.lot), unit_facts.unit_called(op.reader, said.to)
    if lot is None or unit is None or (said.number, said.mean, said.note) != (None, None, None):
        return False
    return fish_facts.unit_on(op.reader, lot.id, said.day) == unit.id


def _moves_held(reader: Reader, entries: Sequence[MoveSaid]) -> Iterator[Mark]:
    for code in sorted({entry.lot for entry in entries}):
        lot = fish_facts.lot_called(reader, code)
        for one in event_facts.transfers(reader, lot.id) if lot else ():
            if one.from_lot == code:
                yield one.day, one.from_lot, one.to_lot, one.number


def _book_move(op: Operation, said: MoveSaid) -> None:
    source, target = _lot(op, said.lot), fish_facts.lot_called(op.reader, said.to)
    if said.number is None:
        _move_all(op, source, said)
    elif target is not None:
        transfer.body(op, NewTransfer(source.id, target.id, said.day, said.number, said.mean, said.note))
    elif said.unit_id is not None:
        split.body(op, NewSplit(source.id, said.unit_id, said.to, said.day, said.number, said.mean, said.note))
    else:
        raise NotFound(f"there is no fish lot {plain(said.to)}; say in which unit it is to live, and it is made")


def _move_all(op: Operation, lot: FishLot, said: MoveSaid) -> None:
    unit = unit_facts.unit_called(op.reader, said.to)
    if unit is None:
        raise Refused(f"no number: say how many go to {plain(said.to)}, or to which unit the whole lot goes")
    if said.mean is not None or said.note is not None:
        raise Refused("mean and note go with the number of fish that go to another lot")
    move_lot.body(op, NewPlace(lot.id, unit.id, said.day))


def _lot(op: Operation, code: str) -> FishLot:
    found = fish_facts.lot_called(op.reader, code)
    if found is None:
        raise NotFound(f"there is no fish lot {plain(code)}")
    return found


BOOKINGS: dict[str, Booking[Any]] = {
    "fish lots": named(_lot_there, _book_lot),
    "transfers": Booking(
        lambda one: (one.day, one.lot, one.to, one.number),
        _moves_held,
        by(_book_move),
        one_by_one=True,
        there=lambda op: partial(_moved_there, op),
    ),
}
