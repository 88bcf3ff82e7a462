"""What happens to fish lots: samples weighed, fish lost, moved to another lot or unit, fed."""

from __future__ import annotations

from datetime import date
from enum import StrEnum

from farmops.model.fish import Ate, Disposal, LossCause
from farmops.model.frozen import dataclass
from farmops.model.values import KEEP, Keep, Measured


class Happened(StrEnum):
    """What changes the number of a lot or what is known of its weight."""

    STOCKED = "stocked"
    SAMPLED = "weighed"
    MOVED_IN = "moved in"
    MOVED_OUT = "moved out"
    DIED = "died"
    HARVESTED = "harvested"


@dataclass(frozen=True, slots=True)
class FishEvent:
    """One change in the life of a lot; `id` is that of the record in its own table.

    `number` None: a harvest that was not counted. `mass_mg` is that of all these fish, None where they were not
    weighed; of stocked fish it is the mean times the number. `other_id` is the lot at the other end of a transfer.
    """

    lot_id: int
    day: date
    kind: Happened
    id: int
    number: int | None
    mass_mg: int | None
    other_id: int | None = None


@dataclass(frozen=True, slots=True)
class Sample:
    """Some fish of a lot that were weighed, in milligrams; `each_mg` is empty where they were weighed together."""

    id: int
    day: date
    lot_id: int
    lot: str
    number: int
    mass_mg: int
    mass_typed: str
    note: str | None
    each_mg: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class NewSample:
    """A sample weighing: fish weighed one by one as `each`, or a `number` of them together as `mass`."""

    lot_id: int
    day: date
    number: int | None = None
    mass: Measured | None = None
    each: tuple[Measured, ...] = ()
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Loss:
    """Fish that died or went; `mass_mg` is that of all of them, None where they were not weighed."""

    id: int
    day: date
    lot_id: int
    lot: str
    number: int
    cause: LossCause
    disposal: Disposal | None
    mass_mg: int | None
    mass_typed: str | None
    note: str | None


@dataclass(frozen=True, slots=True)
class NewLoss:
    """Fish of a lot that died or went."""

    lot_id: int
    day: date
    number: int = 1
    cause: LossCause = LossCause.UNKNOWN
    disposal: Disposal | None = None
    mass: Measured | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class LossBooked:
    """A loss, and where several died at once: the chores it gave, those it left out, and whom to call."""

    loss: Loss
    steps: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()
    call: str | None = None


@dataclass(frozen=True, slots=True)
class Transfer:
    """Fish that went from one lot to another; `mean_mg` is the weight of one, None where they were not weighed."""

    id: int
    day: date
    from_lot_id: int
    from_lot: str
    to_lot_id: int
    to_lot: str
    number: int
    mean_mg: int | None
    mean_typed: str | None
    note: str | None


@dataclass(frozen=True, slots=True)
class NewTransfer:
    """Some fish of a lot go to another lot that is there already."""

    from_lot_id: int
    to_lot_id: int
    day: date
    number: int
    mean: Measured | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class NewSplit:
    """Some fish of a lot become a lot of their own in a unit: graded out, or kept apart because they are sick."""

    from_lot_id: int
    unit_id: int
    code: str
    day: date
    number: int
    mean: Measured | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class NewPlace:
    """A whole lot goes to another unit."""

    lot_id: int
    unit_id: int
    day: date


@dataclass(frozen=True, slots=True)
class Feeding:
    """What a lot was fed on a day, in milligrams, and how it ate; None where nobody noted it."""

    id: int
    day: date
    lot_id: int
    lot: str
    mass_mg: int
    mass_typed: str
    ate: Ate | None
    supply_use_id: int | None
    settlement_id: int | None
    note: str | None


@dataclass(frozen=True, slots=True)
class NewFeeding:
    """A lot is fed; `supply_id` is the feed it is taken from, None the one the lot was fed from last.

    Where a person is `sure`, far more than the ration is booked without asking.
    """

    lot_id: int
    day: date
    mass: Measured
    ate: Ate | None = None
    note: str | None = None
    supply_id: int | None = None
    sure: bool = False


@dataclass(frozen=True, slots=True)
class SampleChange:
    """A correction of a sample weighing: fish weighed together, or one by one as `each`."""

    sample_id: int
    day: date | Keep = KEEP
    number: int | Keep = KEEP
    mass: Measured | Keep = KEEP
    each: tuple[Measured, ...] | Keep = KEEP
    note: str | Keep | None = KEEP


@dataclass(frozen=True, slots=True)
class LossChange:
    """A correction of a loss."""

    loss_id: int
    day: date | Keep = KEEP
    number: int | Keep = KEEP
    cause: LossCause | Keep = KEEP
    disposal: Disposal | Keep | None = KEEP
    mass: Measured | Keep | None = KEEP
    note: str | Keep | None = KEEP


@dataclass(frozen=True, slots=True)
class TransferChange:
    """A correction of a transfer; the lots at its ends stay."""

    transfer_id: int
    day: date | Keep = KEEP
    number: int | Keep = KEEP
    mean: Measured | Keep | None = KEEP
    note: str | Keep | None = KEEP


@dataclass(frozen=True, slots=True)
class FeedingChange:
    """A correction of a feeding."""

    feeding_id: int
    day: date | Keep = KEEP
    mass: Measured | Keep = KEEP
    ate: Ate | Keep | None = KEEP
    note: str | Keep | None = KEEP
