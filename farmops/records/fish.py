"""Fish lots, where they live, what is fed to them, and how their number and weight change."""

from __future__ import annotations

from datetime import date

from sqlalchemy import Index

from farmops.model.fish import Ate, Disposal, LossCause
from farmops.records.base import Row, check, link, one_of, table_options, unique, whole, words


class FishLotRow(Row, table=True):
    """Fish kept together; mean weight at stocking in milligrams.

    The number stocked is 0 where they all came out of another lot, by transfers on the day of stocking.
    """

    __tablename__ = "fish_lot"
    __table_args__ = table_options(
        unique("code"),
        check("number_not_negative", "number >= 0"),
        check("mean_positive", "mean_mg > 0"),
        check("closed_after_stocking", "closed_day >= stocked_day"),
    )

    code: str = words()
    species: str = words()
    library_key: str | None = words(required=False)
    stocked_day: date
    number: int = whole()
    mean_mg: int = whole()
    mean_typed: str = words()
    closed_day: date | None
    source: str | None = words(required=False)
    paper_id: int | None = link("paper", required=False)
    note: str | None = words(required=False)


class LotPlaceRow(Row, table=True):
    """The unit a fish lot lives in, from a day on."""

    __tablename__ = "lot_place"
    __table_args__ = table_options(unique("fish_lot_id", "from_day"))

    fish_lot_id: int = link("fish_lot")
    unit_id: int = link("unit")
    from_day: date


class SampleWeighingRow(Row, table=True):
    """Some fish of a lot that were weighed, together in milligrams; their single weights stand in `sample_fish`."""

    __tablename__ = "sample_weighing"
    __table_args__ = table_options(
        check("number_positive", "number > 0"),
        check("mass_positive", "mass_mg > 0"),
        Index(None, "fish_lot_id", "day"),
    )

    day: date
    fish_lot_id: int = link("fish_lot")
    number: int = whole()
    mass_mg: int = whole()
    mass_typed: str = words()
    settlement_id: int | None = link("settlement", required=False)
    note: str | None = words(required=False)


class SampleFishRow(Row, table=True):
    """One fish of a sample that was weighed one by one, in milligrams."""

    __tablename__ = "sample_fish"
    __table_args__ = table_options(check("mass_positive", "mass_mg > 0"))

    sample_weighing_id: int = link("sample_weighing")
    mass_mg: int = whole()


class LossRow(Row, table=True):
    """Fish of a lot that died or went, and what was done with them."""

    __tablename__ = "loss"
    __table_args__ = table_options(
        check("number_positive", "number > 0"),
        check("mass_positive", "mass_mg > 0"),
        one_of("cause", LossCause),
        one_of("disposal", Disposal),
        Index(None, "fish_lot_id", "day"),
    )

    day: date
    fish_lot_id: int = link("fish_lot")
    number: int = whole()
    cause: str = words()
    disposal: str | None = words(required=False)
    mass_mg: int | None = whole(required=False)
    mass_typed: str | None = words(required=False)
    note: str | None = words(required=False)


class TransferRow(Row, table=True):
    """Some fish that went from one lot to another; mean weight of one of them in milligrams, where it was weighed."""

    __tablename__ = "transfer"
    __table_args__ = table_options(
        check("number_positive", "number > 0"),
        check("mean_positive", "mean_mg > 0"),
        check("two_lots", "from_lot_id <> to_lot_id"),
    )

    day: date
    from_lot_id: int = link("fish_lot")
    to_lot_id: int = link("fish_lot")
    number: int = whole()
    mean_mg: int | None = whole(required=False)
    mean_typed: str | None = words(required=False)
    note: str | None = words(required=False)


class FeedingRow(Row, table=True):
    """What a lot was fed on a day, in milligrams, how it ate, and the supply it came from."""

    __tablename__ = "feeding"
    __table_args__ = table_options(
        check("mass_positive", "mass_mg > 0"),
        one_of("ate", Ate),
        Index(None, "fish_lot_id", "day"),
    )

    day: date
    fish_lot_id: int = link("fish_lot")
    mass_mg: int = whole()
    mass_typed: str = words()
    ate: str | None = words(required=False)
    supply_use_id: int | None = link("supply_use", required=False)
    settlement_id: int | None = link("settlement", required=False)
    note: str | None = words(required=False)
