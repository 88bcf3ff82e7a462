"""Every action of the interface, once: its words, its keys, where it applies and what it needs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path

from textual.binding import Binding

from farmops.model.errors import NotUnderstood
from farmops.model.frozen import dataclass
from farmops.tui.settings import settings_in

ANYWHERE = "anywhere"
LIST = "list"
PLACES = ("chores", "beds", "fish", "money", "returns", "records")
POWER_CUT = "power cut"
"""The screen of a power cut, which stands over all places."""


@dataclass(frozen=True, slots=True)
class Action:
    """Something a person can do. `where` names a place, a list in any place, or anywhere; `needs` what it works on.

    `call` is the Textual action it runs; `brief` is its word in the footer, None keeps it out of there.
    """

    id: str
    words: str
    keys: tuple[str, ...]
    where: str
    call: str
    brief: str | None = None
    needs: str | None = None


ACTIONS: tuple[Action, ...] = (
    Action("done", "Settle the chore as done", ("space",), "chores", "done", "done", "a chore"),
    Action(
        "done-all", "Settle all chores of the same name as done", ("a",), "chores", "done_all", "all alike", "a chore"
    ),
    Action("skip", "Leave the chore out this time, with a reason", ("s",), "chores", "skip", "skip", "a chore"),
    Action("defer", "Put the chore off to a day", ("d",), "chores", "defer", "defer", "a chore"),
    Action("pause", "Let the chore rest, or go on", ("p",), "chores", "pause", None, "a chore"),
    Action("note", "Write a note on the chore, with a photo or a file", ("N",), "chores", "note", None, "a chore"),
    Action("book-back", "Book the sheet back: a line for each chore", ("b",), "chores", "book_back"),
    Action("print", "Print the round: a page or plain text", ("P",), "chores", "write('round')"),
    Action("calendar", "Chores as a calendar file, for a phone", ("C",), "chores", "write('calendar')"),
    Action("here", "Say who is here today", ("i",), "chores", "here"),
    Action("whose", "One person's round, or everybody's", ("f",), "chores", "whose"),
    Action("past", "How the chore went: times, lateness, minutes", ("t",), "chores", "past", None, "a chore"),
    Action("all-past", "How all chores went", ("T",), "chores", "all_past"),
    Action("set", "Give a set of chores: dosing, treatment, a power cut", ("g",), "chores", "give_set"),
    Action("load", "The minutes of the days ahead", ("o",), "chores", "load"),
    Action("month", "A month at a glance", ("m",), "chores", "month"),
    Action("paper", "Print a unit's wall card or an absence's care sheet", ("P",), "records", "paper", None, "a line"),
    Action("renew", "File the paper that follows this one", ("R",), "records", "renew", None, "a paper that runs out"),
    Action("tick", "Tick the step: it is done, it was seen", ("space", "enter"), POWER_CUT, "tick", "tick", "a step"),
    Action("tick-all", "Tick all that is left in this unit", ("a",), POWER_CUT, "tick_all", "all here", "a step"),
    Action("power-back", "The power is back and all is running", ("e",), POWER_CUT, "power_back", "power is back"),
    Action("read-water", "Read the water of the unit", ("r",), POWER_CUT, "read_water", "read water", "a unit"),
    Action("began", "It began at another hour", ("b",), POWER_CUT, "began", "began"),
    Action("print-card", "Print the wall card of the unit", ("P",), POWER_CUT, "card", "card", "a unit"),
    Action("list-out", "Write the list into a file", ("Y",), POWER_CUT, "write_out", "file"),
    Action("take-back", "Take back what you ticked last", ("u",), POWER_CUT, "undo", "undo"),
    Action("put-aside", "Back to the farm; the power cut goes on", ("escape", "q"), POWER_CUT, "leave", "leave"),
    Action("weigh", "Weigh a harvest", ("h",), ANYWHERE, "weigh", "weigh"),
    Action("power-cut", "The power is out: how long, what first", ("!", "f11"), ANYWHERE, "app.power_cut", "power cut"),
    Action("undo", "Take back what you booked last", ("u",), ANYWHERE, "undo", "undo"),
    Action("find", "Find in the list", ("/",), LIST, "find", "find"),
    Action("new", "New record here", ("n",), LIST, "new", "new"),
    Action("like", "New record like this one", ("l",), LIST, "like", "like this", "a line"),
    Action("edit", "Edit the record", ("e",), LIST, "edit", "edit", "a line"),
    Action("remove", "Remove the record", ("x", "delete"), LIST, "remove", None, "a line"),
    Action("clear-bed", "Clear the planting out of its bed", ("c",), "beds", "clear_bed", "clear", "a planting"),
    Action("treat", "Book a treatment of the bed, with its holds", ("t",), "beds", "treat", "treat", "a bed"),
    Action("new-bed", "Enter a bed", ("b",), "beds", "new_bed"),
    Action("bed-size", "The bed has another size from a day on", ("z",), "beds", "bed_size", None, "a bed"),
    Action("state", "The unit enters a state", ("s",), "beds", "state", "state", "a unit"),
    Action("readings", "Book readings of a unit", ("r",), "fish", "readings", "readings"),
    Action("deaths", "Fish of the lot died or went", ("d",), "fish", "deaths", "deaths", "a fish lot"),
    Action("fed", "The lot was fed, and how it ate", ("f",), "fish", "of_lot('fed')", "fed", "a fish lot"),
    Action("weigh-fish", "Weigh some fish of the lot", ("g",), "fish", "of_lot('weigh fish')", None, "a fish lot"),
    Action("move-fish", "Fish go to another unit or lot", ("m",), "fish", "of_lot('move')", None, "a fish lot"),
    Action("split-lot", "Split some off as a lot of their own", ("s",), "fish", "of_lot('split')", None, "a fish lot"),
    Action("dose", "Something was added to the water", ("a",), "fish", "of_water('doses')", "added", "a unit"),
    Action("top-up", "Water was topped up", ("t",), "fish", "of_water('top-ups')", "topped up", "a unit"),
    Action("check", "Hold the instrument against something known", ("k",), "fish", "check", None, "an instrument"),
    Action("instrument", "Take an instrument into service", ("i",), "fish", "instrument", None),
    Action("balance", "Weigh up the unit over four weeks", ("b",), "fish", "balance", "balance", "a unit"),
    Action("close-lot", "Close the fish lot: none are left", ("c",), "fish", "close_lot", None, "a fish lot"),
    Action("pay", "Book what comes again and is paid", ("p",), "money", "pay", "pay", "a cost that comes again"),
    Action("again", "Describe a cost that comes again", ("a",), "money", "again"),
    Action("share", "Say anew how costs are shared, what an hour or a crop is worth", ("g",), "money", "share"),
    Action("sell", "Book a sale", ("s",), "money", "sell", "sell"),
    Action("meter", "Read a meter of power", ("m",), "money", "meter"),
    Action("new-supply", "Enter a supply", ("S",), "money", "new_supply"),
    Action("buy-supply", "Book what was bought of the supply", ("+",), "money", "supply('buy')", None, "a supply"),
    Action("use-supply", "Book what was used of the supply", ("-",), "money", "supply('use')", None, "a supply"),
    Action("count-supply", "Book what is left of the supply", ("=",), "money", "supply('count')", None, "a supply"),
    Action("back", "Some of the sale came back, or was not sold", ("b",), "money", "back", "back", "a sale"),
    Action("order", "A standing order: what a buyer takes again and again", ("o",), "money", "order"),
    Action("picks", "The pick list: what is ordered, what is ready, and where", ("k",), "money", "picks", "picks"),
    Action("basis", "Count other costs: cash, operating, full", ("o",), "returns", "basis", "basis"),
    Action("span", "Another span of days", ("t",), "returns", "span", "span"),
    Action("group", "By unit, bed, crop, fish lot, month or year", ("g",), "returns", "group", "by"),
    Action("sort", "Sort by another column", ("s",), "returns", "sort", "sort"),
    Action("view", "Another picture below: verdicts, cost, weeks, prices", ("b",), "returns", "view", "picture"),
    Action("beside", "Two side by side, and which is better", ("c",), "returns", "beside", "compare", "a line"),
    Action("rank", "What the order of the units hangs on", ("r",), "returns", "rank", "rank"),
    Action("payback", "Whether the units are earned back", ("p",), "returns", "payback"),
    Action("own-span", "From a day to a day, typed", ("T",), "returns", "own_span"),
    Action("trace", "Follow the lot of a weighing to its buyer", ("t",), "records", "trace", "trace", "a weighing"),
    Action("take-in", "Take in a file: CSV or a workbook", ("I",), "records", "take_in"),
    Action("season", "Write a season report to carry away", ("P",), "returns", "season"),
    Action("why", "Why is it so: open the number", ("w",), ANYWHERE, "why", "why"),
    Action("copy", "Copy the line, the cell or the table", ("y",), LIST, "copy", None),
    Action("write-out", "Write the list, or its picture, into a file", ("Y",), LIST, "write_out", None),
    Action("redo", "Do again what you took back", ("U", "f10"), ANYWHERE, "redo", None),
    Action("help", "Help with what is in focus", ("?", "f1"), ANYWHERE, "help", "help"),
    Action("palette", "All actions by name", ("f9", ":"), ANYWHERE, "palette", None),
    Action("chores", "Chores", ("f2",), ANYWHERE, "place('chores')", None),
    Action("beds", "Beds", ("f3",), ANYWHERE, "place('beds')", None),
    Action("fish", "Fish & water", ("f4",), ANYWHERE, "place('fish')", None),
    Action("money", "Money", ("f5",), ANYWHERE, "place('money')", None),
    Action("returns", "Returns", ("f6",), ANYWHERE, "place('returns')", None),
    Action("records", "Records", ("f7",), ANYWHERE, "place('records')", None),
    Action("next-place", "The next place", ("tab",), ANYWHERE, "next_place(1)", None),
    Action("last-place", "The place before", ("shift+tab",), ANYWHERE, "next_place(-1)", None),
    Action("left", "One unit to the left; shuts an open line", ("left",), ANYWHERE, "walk(-1)", None),
    Action("right", "One unit to the right; opens a line of several", ("right",), ANYWHERE, "walk(1)", None),
    *(
        Action(f"unit-{n}", "The whole farm" if n == 0 else f"Unit {n} of the row", (str(n),), ANYWHERE, f"stand({n})")
        for n in range(10)
    ),
    Action("theme", "Other colours", ("f8",), ANYWHERE, "app.next_theme", None),
    Action("quit", "Leave", ("q",), ANYWHERE, "app.quit", "leave"),
)


def bindings(where: str, actions: Iterable[Action] = ACTIONS) -> list[Binding]:
    """The key bindings of one place, of lists, or of anywhere."""
    return [
        Binding(",".join(_textual_key(key) for key in one.keys), one.call, one.words, show=False, id=one.id)
        for one in actions
        if one.where == where
    ]


def _textual_key(key: str) -> str:
    named = {"/": "slash", "?": "question_mark", ":": "colon", "!": "exclamation_mark", "+": "plus"}
    named |= {"-": "minus", "=": "equals_sign"}
    return named.get(key, key)


def footer_of(place: str, actions: Iterable[Action] = ACTIONS) -> list[Action]:
    """What the footer shows in a place: its own actions, then the others in their order, help at the end.

    A narrow terminal drops the last ones: a new record, its edit and the scale come first, but in the round, which is
    settled.
    """
    found = [one for one in actions if one.brief and one.where in (place, LIST, ANYWHERE) and not _hidden(one, place)]
    first = () if place == "chores" else ("new", "edit", "weigh")
    return sorted(found, key=lambda one: (one.id == "help", *_place_in(first, one.id), one.where != place))


def _place_in(first: tuple[str, ...], id: str) -> tuple[bool, int]:
    return (False, first.index(id)) if id in first else (True, 0)


def _hidden(action: Action, place: str) -> bool:
    numbers = place == "returns"
    return action.id in (("new", "like", "edit") if numbers else ("why",))


def remapped(keys: Mapping[str, str], actions: Iterable[Action] = ACTIONS) -> tuple[Action, ...]:
    """The actions with keys of a person's own. Raises NotUnderstood for an unknown action or a clash."""
    known = {one.id: one for one in actions}
    for id, typed in keys.items():
        if id not in known:
            raise NotUnderstood(f"There is no action {id!r} to give a key. Known: {', '.join(known)}.")
        chosen = tuple(key.strip() for key in typed.split(",") if key.strip())
        if not chosen:
            raise NotUnderstood(f"The action {id} would have no key.")
        known[id] = replace(known[id], keys=chosen)
    changed = tuple(known.values())
    refuse_clashes(changed)
    return changed


def refuse_clashes(actions: Iterable[Action]) -> None:
    """Raises NotUnderstood when one key would mean two things in one place."""
    listed = list(actions)
    for place in (*PLACES, POWER_CUT):
        taken: dict[str, Action] = {}
        for one in listed:
            if one.where not in ((place,) if place == POWER_CUT else (place, LIST, ANYWHERE)):
                continue
            for key in one.keys:
                other = taken.setdefault(key, one)
                if other is not one:
                    raise NotUnderstood(f"The key {key} means two things in {place}: {other.id} and {one.id}.")


def keys_from(path: Path) -> dict[str, str]:
    """The `[keys]` table of a TOML file: action id to keys parted by commas. Raises NotFound or NotUnderstood."""
    table = settings_in(path).get("keys", {})
    if not isinstance(table, dict) or not all(isinstance(value, str) for value in table.values()):
        raise NotUnderstood(f'{path}: [keys] holds lines such as  weigh = "h"')
    return dict(table)
