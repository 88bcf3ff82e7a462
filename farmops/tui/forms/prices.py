"""Forms for list prices: what a crop, or fish of a species, is worth from a day on."""

from __future__ import annotations

from typing import Any

from farmops.model.costs import ListPrice, NewPrice, PriceChange
from farmops.model.errors import OutOfRange
from farmops.model.values import KEEP
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
    """Correct a price, or the day it holds from."""
    fields = (
        Field("price", "Price", Kind.PRICE, record.typed, required=True, blamed=("more digits",)),
        making.day("from_day", "From", record.from_day, blamed=("has a price from",)),
    )

    def save(store: Store, values: dict[str, Any], hand: Hand, operation: str) -> str:
        from farmops.farm.costs import change_price

        worth = values["price"]
        given = {} if worth is KEEP else _columns(worth)
        entry = PriceChange(record.id, values["from_day"], **given)
        return f"{_told(change_price(store, entry, **making.hand_of(hand, operation)), context)} Changed."

    title = f"Price of {record.what} from {record.from_day}"
    return FormSpec(title, fields, save, context.setting, edits=True, verb="Change")


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

    entry = NewPrice(from_day, crop_id=crop_id, species=species, **_columns(worth))
    return _told(set_price(store, entry, **making.hand_of(hand, operation)), context)


def _columns(worth: TypedPrice) -> dict[str, Any]:
    """A price as it is kept. Raises OutOfRange for one with more digits than fit."""
    if max(worth.price.minor, worth.price.per_mg) > MOST_KEPT:
        raise OutOfRange(f"{worth.typed!r} has more digits than a price can keep. Write it with fewer.")
    return {"price_minor": worth.price.minor, "per_mg": worth.price.per_mg, "typed": worth.typed}


def _told(booked: ListPrice, context: Context) -> str:
    shown = show_price(Price(booked.price_minor, booked.per_mg), context.farm.measures)
    return f"{booked.what} is worth {shown} from {booked.from_day}."
