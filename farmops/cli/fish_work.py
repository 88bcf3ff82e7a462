"""`farmops fish weigh|fed|move|split|book|correct|cross-out`: what happens to a lot, and putting it right."""

from __future__ import annotations

from typing import Any

import click

from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NUMBER, asked, emptied
from farmops.cli.fish_plain import plain_entry, plain_feeding, plain_lot, plain_sample, plain_transfer
from farmops.cli.options import answer_options, json_option, note_option, on_option, one_of, sure_option, word
from farmops.cli.output import emit, say, table
from farmops.model.errors import Refused
from farmops.model.fish import Ate, Disposal, LossCause
from farmops.model.fish_events import (
    FeedingChange,
    LossChange,
    NewFeeding,
    NewPlace,
    NewSample,
    NewSplit,
    NewTransfer,
    SampleChange,
    TransferChange,
)
from farmops.model.journal import Removal
from farmops.reports import lists, names
from farmops.reports.fish_book import KIND_OF, Booked, Entry, book, entry, words_of
from farmops.reports.supplies_held import supply_called

SLIP = "Slip? farmops undo"
MOVING_LAW = "Between waters only as state and local fish law allows; never release them."
TAKES: dict[Entry, tuple[str, ...]] = {
    Entry.SAMPLE: ("number", "mass"),
    Entry.LOSS: ("number", "mass", "cause", "disposal"),
    Entry.TRANSFER: ("number", "mean"),
    Entry.FEEDING: ("mass", "ate"),
}


@click.command("weigh")
@click.argument("lot")
@click.argument("weights", metavar="WEIGHT...", nargs=-1, required=True)
@click.option("--count", "number", type=NUMBER, help="How many were weighed together.")
@on_option
@note_option
@json_option
@pass_desk
def weigh(
    desk: Desk,
    lot: str,
    weights: tuple[str, ...],
    number: int | None,
    on: str | None,
    note: str | None,
    as_json: bool,
) -> None:
    """Weigh some fish of a LOT: each by itself, or so many together with --count.

    \b
    Examples: farmops fish weigh P1 "41 g" "48 g" "55 g"
              farmops fish weigh P1 "1 lb 2 oz" --count 6
    """
    from farmops.farm.fish_events import weigh_sample

    lists.farm(desk.store)
    found = names.lot(desk.store, lot)
    typed = tuple(desk.mass(text) for text in weights)
    if number is not None and len(typed) > 1:
        raise Refused("Not booked: --count is for fish weighed together, as one weight.")
    how: dict[str, Any] = {"each": typed} if number is None else {"number": number, "mass": typed[0]}
    booked = weigh_sample(desk.store, NewSample(found.id, desk.day(on), note=note, **how), **desk.hand)
    if as_json:
        emit(plain_sample(booked))
    else:
        say(f"Booked: {booked.lot}, {words_of(booked, desk.measures)}, {booked.day}. {SLIP}")


@click.command("fed")
@click.argument("lot")
@click.argument("amount")
@click.option("--ate", type=one_of(Ate), help="How much of it they ate.")
@click.option("--feed", "supply", metavar="SUPPLY", help="The feed it is taken from. [that of the last time]")
@on_option
@note_option
@sure_option
@json_option
@pass_desk
def fed(
    desk: Desk,
    lot: str,
    amount: str,
    ate: str | None,
    supply: str | None,
    on: str | None,
    note: str | None,
    sure: bool,
    as_json: bool,
) -> None:
    """A LOT was fed an AMOUNT, taken from the feed that is held.

    \b
    Examples: farmops fish fed P1 "38 g" --ate all
              farmops fish fed P1 "38 g" --feed "Perch feed"
    """
    from farmops.farm.fish_events import record_feeding

    lists.farm(desk.store)
    found = names.lot(desk.store, lot)
    feed = supply_called(desk.store, supply).id if supply else None
    new = NewFeeding(found.id, desk.day(on), desk.mass(amount), word(Ate, ate), note, feed, sure)
    with asked():
        booked = record_feeding(desk.store, new, **desk.hand)
    if as_json:
        emit(plain_feeding(booked))
        return
    say(f"Booked: {booked.lot} {words_of(booked, desk.measures)}, {booked.day}. {SLIP}")
    if booked.ate is Ate.NONE:
        say("They ate nothing: leftovers out; oxygen, temperature, ammonia and nitrite before the next feed.")


@click.command("move")
@click.argument("lot")
@click.argument("to", metavar="UNIT|LOT")
@click.option("--count", "number", type=NUMBER, help="So many go to another lot; without it the whole lot moves.")
@click.option("--mean", metavar="WEIGHT", help="What one of them weighs.")
@on_option
@note_option
@json_option
@pass_desk
def move(
    desk: Desk,
    lot: str,
    to: str,
    number: int | None,
    mean: str | None,
    on: str | None,
    note: str | None,
    as_json: bool,
) -> None:
    """Move a whole LOT to another unit, or some of its fish to another lot.

    \b
    Examples: farmops fish move P1 SWIFT
              farmops fish move P1 P2 --count 12 --mean "60 g"
    """
    from farmops.farm.transfers import move_lot, transfer

    lists.farm(desk.store)
    found, day = names.lot(desk.store, lot), desk.day(on)
    if number is None:
        if mean is not None or note is not None:
            raise Refused("Not moved: --mean and --note go with --count, the number of fish that go to another lot.")
        moved = move_lot(desk.store, NewPlace(found.id, names.unit(desk.store, to).id, day), **desk.hand)
        told: dict[str, object] = {"lot": moved.code, "unit": moved.unit, "day": day}
        words = f"Moved: {moved.code} lives in {moved.unit} from {day}. {SLIP}"
    else:
        typed = desk.mass(mean) if mean is not None else None
        new = NewTransfer(found.id, names.lot(desk.store, to).id, day, number, typed, note)
        booked = transfer(desk.store, new, **desk.hand)
        told = plain_transfer(booked)
        words = f"Moved: {booked.number} of {booked.from_lot} to {booked.to_lot}, {booked.day}. {SLIP}"
    if as_json:
        emit(told)
    else:
        say(f"{words}\n{MOVING_LAW}")


@click.command("split")
@click.argument("lot")
@click.argument("number", type=NUMBER)
@click.argument("code")
@click.argument("unit")
@click.option("--mean", metavar="WEIGHT", help="What one of them weighs. [as the last weighing says]")
@on_option
@note_option
@json_option
@pass_desk
def split(
    desk: Desk,
    lot: str,
    number: int,
    code: str,
    unit: str,
    mean: str | None,
    on: str | None,
    note: str | None,
    as_json: bool,
) -> None:
    """A NUMBER of fish of a LOT become a lot of their own: its CODE, and the UNIT they go to.

    Graded out, or kept apart in a holding unit because they are sick or new.

    \b
    Example: farmops fish split P1 6 P1-SMALL SWIFT --mean "30 g"
    """
    from farmops.farm.transfers import split as split_lot

    lists.farm(desk.store)
    found, typed = names.lot(desk.store, lot), desk.mass(mean) if mean is not None else None
    where = names.unit(desk.store, unit)
    new = NewSplit(found.id, where.id, code, desk.day(on), number, typed, note)
    made = split_lot(desk.store, new, **desk.hand)
    if as_json:
        emit(plain_lot(made))
    else:
        say(
            f"{made.code}: {number} {made.species} out of {found.code}, in {made.unit} since {made.stocked_day}. {SLIP}"
        )
        say("Nets and hands clean between the two; the sick are seen to last.")


@click.command("book")
@click.argument("lot")
@answer_options
@pass_desk
def list_book(desk: Desk, lot: str, as_json: bool) -> None:
    """List all that was booked of a LOT: samples, losses, transfers, feedings, each with its number.

    \b
    Example: farmops fish book P1
    """
    lists.farm(desk.store)
    found = names.lot(desk.store, lot)
    known = book(desk.store, found.id)
    if as_json:
        emit({"lot": found.code, "entries": [{"kind": KIND_OF[type(one)], **plain_entry(one)} for one in known]})
    elif not known:
        say(f"Nothing is booked of {found.code} yet. Weigh some: farmops fish weigh {found.code} WEIGHT --count NUMBER")
    else:
        rows = [_book_row(desk, one, found.id) for one in known]
        table(["day", "entry", "no.", "what", "note"], rows, right=[2])


def _book_row(desk: Desk, one: Booked, lot_id: int) -> list[str]:
    return [str(one.day), KIND_OF[type(one)], str(one.id), words_of(one, desk.measures, lot_id), one.note or ""]


@click.command("correct")
@click.argument("kind", type=one_of(Entry))
@click.argument("number", type=NUMBER)
@click.option("--count", "fish", type=NUMBER, help="How many fish.")
@click.option("--weight", metavar="WEIGHT", help="What they weighed together, or the feed; - clears that of dead fish.")
@click.option("--each", metavar="WEIGHT", multiple=True, help="One weight per fish of a sample; repeat it.")
@click.option("--mean", metavar="WEIGHT", help="What one of those moved weighed; - clears it.")
@click.option("--cause", type=one_of(LossCause))
@click.option("--disposal", type=one_of(Disposal))
@click.option("--ate", type=one_of(Ate), help="How much of the feed they ate.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@click.option("--on", metavar="DAY", help="The day it happened.")
@json_option
@pass_desk
def correct(desk: Desk, /, kind: str, number: int, on: str | None, as_json: bool, **typed: Any) -> None:
    """Correct an entry of the book of a lot: its KIND and its NUMBER as `farmops fish book` lists them.

    \b
    Examples: farmops fish correct loss 3 --cause oxygen
              farmops fish correct feeding 12 --weight "30 g" --ate some
    """
    which = word(Entry, kind)
    one = entry(desk.store, which, number)
    given = changes(
        day=desk.day_or_none(on),
        number=typed["fish"],
        mass=typed["weight"],
        each=tuple(desk.mass(text) for text in typed["each"]) or None,
        mean=typed["mean"],
        cause=word(LossCause, typed["cause"]),
        disposal=word(Disposal, typed["disposal"]),
        ate=word(Ate, typed["ate"]),
        note=typed["note"],
    )
    given = emptied(given, "note", "mean", *(["mass"] if which is Entry.LOSS else []))
    for name in ("mass", "mean"):
        if given.get(name) is not None:
            given[name] = desk.mass(given[name])
    _refuse_foreign(which, given)
    changed = _change(desk, which, one.id, given)
    if as_json:
        emit({"kind": which, **plain_entry(changed)})
    else:
        say(f"Changed: {which} {changed.id}, {words_of(changed, desk.measures)}, {changed.day}. {SLIP}")


def _refuse_foreign(kind: Entry, given: dict[str, Any]) -> None:
    each = ("each",) if kind is Entry.SAMPLE else ()
    foreign = [name for name in given if name not in ("day", "note", *TAKES[kind], *each)]
    if foreign:
        options = {"number": "--count", "mass": "--weight"}
        said = ", ".join(options.get(name, f"--{name}") for name in foreign)
        raise Refused(f"Not changed: a {kind} has nothing like {said}.")


def _change(desk: Desk, kind: Entry, id: int, given: dict[str, Any]) -> Booked:
    from farmops.farm import fish_corrections as put

    if kind is Entry.SAMPLE:
        return put.change_sample(desk.store, SampleChange(id, **given), **desk.hand)
    if kind is Entry.LOSS:
        return put.change_loss(desk.store, LossChange(id, **given), **desk.hand)
    if kind is Entry.TRANSFER:
        return put.change_transfer(desk.store, TransferChange(id, **given), **desk.hand)
    return put.change_feeding(desk.store, FeedingChange(id, **given), **desk.hand)


@click.command("cross-out")
@click.argument("kind", type=one_of(Entry))
@click.argument("number", type=NUMBER)
@json_option
@pass_desk
def cross_out(desk: Desk, kind: str, number: int, as_json: bool) -> None:
    """Cross an entry out of the book of a lot: its KIND and its NUMBER as `farmops fish book` lists them.

    \b
    Example: farmops fish cross-out loss 3
    """
    from farmops.farm.removal import remove_record

    which = word(Entry, kind)
    one = entry(desk.store, which, number)
    remove_record(desk.store, Removal(which.removed_as, number), **desk.hand)
    if as_json:
        emit({"kind": which, **plain_entry(one)})
    else:
        say(f"Crossed out: {which} {number}, {words_of(one, desk.measures)}. farmops undo brings it back.")


WORK = (weigh, fed, move, split, list_book, correct, cross_out)
