"""Forms, one module per kind of record: made from a snapshot of the farm's names and where one stands."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, TypeVar

from farmops.model.errors import NotFound
from farmops.tui.forms import (
    absences,
    backups,
    beds,
    chores,
    contacts,
    cost_labels,
    costs,
    crops,
    doses,
    farm,
    files_in,
    fish,
    fish_work,
    forecasts,
    harvests,
    held_papers,
    incidents,
    instruments,
    lists_out,
    notes,
    orders,
    own_limits,
    papers,
    people,
    plantings,
    power,
    presence,
    prices,
    readings,
    recurring,
    sales,
    sets,
    settling,
    sharing,
    sheets,
    sources,
    supplies,
    templates,
    treatments,
    units,
    usage,
)
from farmops.tui.forms.context import Context, load_context
from farmops.tui.widgets.forms import FormSpec

__all__ = [
    "EDIT",
    "FILES",
    "KEPT",
    "LIKE",
    "NEW",
    "Context",
    "edit_form",
    "file_form",
    "kept_form",
    "like_form",
    "load_context",
    "new_form",
]

F = TypeVar("F")

NEW: Mapping[str, Callable[[Context], FormSpec]] = {
    "units": units.new,
    "states": lambda context: units.state(None, context),
    "beds": beds.new,
    "sizes": lambda context: beds.size(None, context),
    "crops": crops.new,
    "plantings": plantings.new,
    "fish": fish.new,
    "readings": readings.new,
    "instruments": instruments.new,
    "own limits": own_limits.new,
    "doses": doses.new,
    "water sources": sources.new,
    "top-ups": sources.new_top_up,
    "treatments": treatments.new,
    "usage": usage.new,
    "supplies": supplies.new,
    "devices": power.new,
    "meter readings": power.new_reading,
    "power prices": power.new_price,
    "forecasts": forecasts.new,
    "costs": costs.new,
    "recurring": recurring.new,
    "labels": cost_labels.new,
    "drivers": lambda context: sharing.driver(None, context),
    "splits": lambda context: sharing.split(None, context),
    "labour rates": lambda context: sharing.rate(None, context),
    "prices": prices.new,
    "sales": sales.new,
    "orders": orders.new,
    "people": people.new,
    "papers": held_papers.new,
    "notes": notes.new,
    "contacts": contacts.new,
    "absences": absences.new,
    "chores": chores.new,
    "sets": sets.new,
}
EDIT: Mapping[str, Callable[[Any, Context], FormSpec]] = {
    "units": units.edit,
    "states": units.state,
    "beds": beds.edit,
    "sizes": beds.size,
    "crops": crops.edit,
    "plantings": plantings.edit,
    "clear": plantings.clear,
    "fish": fish.edit,
    "readings": readings.edit,
    "instruments": instruments.edit,
    "check": instruments.check,
    "instrument checks": instruments.edit_check,
    "own limits": own_limits.edit,
    "doses": doses.edit,
    "water sources": sources.edit,
    "source values": sources.values,
    "top-ups": sources.edit_top_up,
    "treatments": treatments.edit,
    "treat": treatments.of_bed,
    "usage": usage.edit,
    "supplies": supplies.edit,
    "buy": supplies.buy,
    "use": supplies.use,
    "count": supplies.count,
    "bought supplies": supplies.edit_bought,
    "used supplies": supplies.edit_used,
    "devices": power.edit,
    "meter readings": power.edit_reading,
    "power": power.of_place,
    "power prices": power.edit_price,
    "forecasts": forecasts.edit,
    "sheet": sheets.book_back,
    "close": fish.close,
    "deaths": fish.deaths,
    "weigh fish": fish_work.weigh,
    "fed": fish_work.fed,
    "move": fish_work.move,
    "split": fish_work.split,
    "samples": fish_work.sample,
    "losses": fish_work.loss,
    "transfers": fish_work.transfer,
    "feedings": fish_work.feeding,
    "harvests": harvests.edit,
    "costs": costs.edit,
    "recurring": recurring.edit,
    "drivers": sharing.driver,
    "splits": sharing.split,
    "labour rates": sharing.rate,
    "pay": recurring.book,
    "prices": prices.edit,
    "sales": sales.edit,
    "back": sales.back,
    "orders": orders.edit,
    "fill": orders.fill,
    "people": people.edit,
    "papers": held_papers.edit,
    "renew": held_papers.renew,
    "here": presence.edit,
    "notes": notes.edit,
    "note": notes.on_chore,
    "contacts": contacts.edit,
    "absences": absences.edit,
    "incidents": incidents.edit,
    "farm": farm.edit,
    "chores": chores.edit,
    "templates": templates.edit,
    "skip": settling.skip,
    "defer": settling.defer,
    "pause": settling.pause,
}
LIKE: Mapping[str, Callable[[Any, Context], FormSpec]] = {
    "units": units.like,
    "beds": beds.like,
    "plantings": plantings.like,
    "fish": fish.like,
    "readings": readings.like,
    "doses": doses.like,
    "top-ups": sources.like_top_up,
    "treatments": treatments.like,
    "usage": usage.like,
    "supplies": supplies.like,
    "devices": power.like,
    "meter readings": power.like_reading,
    "costs": costs.like,
    "prices": prices.like,
    "sales": sales.like,
    "orders": orders.like,
    "chores": chores.like,
}

FILES: Mapping[str, Callable[[Any, Context], FormSpec]] = {
    "round": papers.round_sheet,
    "calendar": papers.calendar,
    "card": papers.wall_card,
    "care": papers.care_sheet,
    "season": papers.season,
    "list": lists_out.list_out,
}

KEPT: Mapping[str, Callable[[Any, Context], FormSpec]] = {
    "make": lambda record, context: backups.make(context),
    "put back": backups.put_back,
    "take in": files_in.take_in,
}


def new_form(kind: str, context: Context) -> FormSpec:
    """The form for a new record of a kind. Raises NotFound where there is none."""
    return _known(NEW, kind, "A new one")(context)


def edit_form(kind: str, record: Any, context: Context) -> FormSpec:
    """The form that changes a record, or does to it what the kind says. Raises NotFound where there is none."""
    return _known(EDIT, kind, "A change")(record, context)


def like_form(kind: str, record: Any, context: Context) -> FormSpec:
    """The form for a new record like one, today, with the amount left to say. Raises NotFound where there is none."""
    return _known(LIKE, kind, "A copy")(record, context)


def file_form(kind: str, about: Any, context: Context) -> FormSpec:
    """The form that writes a file of a kind, about a person, unit or absence. Raises NotFound where there is none."""
    return _known(FILES, kind, "A file")(about, context)


def kept_form(kind: str, record: Any, context: Context) -> FormSpec:
    """The form that makes a backup, puts one back, or takes in a file. Raises NotFound where there is none."""
    return _known(KEPT, kind, "A backup")(record, context)


def _known(forms: Mapping[str, F], kind: str, what: str) -> F:
    if kind not in forms:
        raise NotFound(f"{what} of {kind} is not made here. What is: {', '.join(forms)}.")
    return forms[kind]
