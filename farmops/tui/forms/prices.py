"""Forms for list prices: what a crop, or fish of a species, is worth from a day on."""

from __future__ import annotations

from typing import Any

from farmops.model.costs import ListPrice, NewPrice
from farmops.model.errors import OutOfRange
from farmops.quantities import Price, show_price
from farmops.reports.store import Store
from farmops.tui.forms import making
from farmops.tui.forms.context import Context
from farmops.tui.widgets.fields import Field, Kind, TypedPrice
from farmops.tui.widgets.forms import FormSpec, Hand

MOST_KEPT = 2**63 - 1


def new(context: Context) -> FormSpec:
    """A price from a day on; the days before keep theirs."""
    return _spec(context, "New price", "", "today", again=True)


def like(record: ListPrice, context: Context) -> FormSpec:
    """A new price of the same, from today on."""
    return _spec(context, f"New price of {record.what}", _word(record), "today")


def edit(record: ListPrice, context: Context) -> FormSpec:
    """Correct a price: the same product and day with another sum."""
    price = Field("price", "Price", Kind.PRICE, record.typed, required=True, blamed=("more digits",))

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        worth = values["price"]
        return _book(store, context, record.crop_id, record.species, record.from_day, worth, hand, operation)

    title = f"Price of {record.what} from {record.from_day}"
    return FormSpec(title, (price,), save, context.setting, verb="Change")


def _word(record: ListPrice) -> str:
    return record.species or record.what


def _spec(context: Context, title: str, what: str, from_day: str, *, again: bool = False) -> FormSpec:
    species = making.unique(lot.species for lot in context.lots)
    names = (*(crop.name for crop in context.crops), *species)
    fields = (
        Field(
            "what",
            "Of",
            Kind.NAME,
            what,
            names,
            required=True,
            strict=True,
            otherwise="A crop is added in Records, fish are stocked in Fish & water.",
        ),
        Field("price", "Price", Kind.PRICE, required=True, blamed=("more digits",)),
        making.day("from_day", "From", from_day, keep=True),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        crop = next((crop.id for crop in context.crops if crop.name == values["what"]), None)
        fish = values["what"] if crop is None else None
        return _book(store, context, crop, fish, values["from_day"], values["price"], hand, operation)

    return FormSpec(title, fields, save, context.setting, again=again)


def _book(
    store: Store,
    context: Context,
    crop_id: int | None,
    species: str | None,
    from_day: Any,
    worth: TypedPrice,
    hand: Hand,
    operation: str,
) -> str:
    from farmops.farm.costs import set_price

    if max(worth.price.minor, worth.price.per_mg) > MOST_KEPT:
        raise OutOfRange(f"{worth.typed!r} has more digits than a price can keep. Write it with fewer.")
    entry = NewPrice(from_day, worth.price.minor, worth.price.per_mg, worth.typed, crop_id=crop_id, species=species)
    booked = set_price(store, entry, **making.hand_of(hand, operation))
    shown = show_price(Price(booked.price_minor, booked.per_mg), context.farm.measures)
    return f"{booked.what} is worth {shown} from {booked.from_day}."
