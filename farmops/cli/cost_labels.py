"""`farmops costs labels`: sets of labels for costs, and a year summed up by them."""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.entries import NUMBER, numbered
from farmops.cli.options import answer_options, json_option
from farmops.cli.output import emit, line, say, table
from farmops.model.cost_labels import CostLabel
from farmops.model.journal import Removal
from farmops.quantities import show_money
from farmops.reports.label_totals import LabelTotals, Paid, label_totals, labels_of

NO_ADVICE = "No tax advice: whoever does the taxes decides what goes where, and what is spread over years."


@click.group()
def labels() -> None:
    """Labels for costs, such as the lines of a tax form. Optional; no tax advice."""


@labels.command("load")
@click.argument("file", required=False)
@click.option("--set", "name", metavar="NAME", help="The name of the set. [Schedule F, or the name of the file]")
@json_option
@pass_desk
def load(desk: Desk, file: str | None, name: str | None, as_json: bool) -> None:
    """Load the expense lines of US Schedule F, or a set from a CSV FILE with columns label and category.

    \b
    Examples: farmops costs labels load
              farmops costs labels load our-labels.csv --set ours
    """
    from farmops.exchange.label_sets import label_set
    from farmops.farm.cost_labels import load_labels

    labels_of(desk.store)
    loaded = load_labels(desk.store, label_set(file, name), **desk.hand)
    if as_json:
        emit({"set": loaded.label_set, "labels": loaded.number})
    else:
        say(f"{loaded.number} labels of {loaded.label_set} loaded. See: farmops costs labels list")
        say(NO_ADVICE)


@labels.command("list")
@answer_options
@pass_desk
def list_labels(desk: Desk, as_json: bool) -> None:
    """List the labels, set by set, and the kinds of cost that take each when nothing else is said.

    \b
    Example: farmops costs labels list
    """
    found = labels_of(desk.store)
    if as_json:
        emit({"labels": [plain_label(one) for one in found]})
    elif not found:
        say("No labels here. Load the expense lines of US Schedule F: farmops costs labels load")
    else:
        table(
            ["no.", "set", "label", "taken by"],
            [[str(one.id), one.label_set, one.label, one.category or ""] for one in found],
            right=[0],
        )


@labels.command("totals")
@click.option("--year", type=click.IntRange(1900, 9998), help="The year. [this year]")
@click.option("--set", "name", metavar="NAME", help="The set of labels. [the first]")
@answer_options
@pass_desk
def totals(desk: Desk, year: int | None, name: str | None, as_json: bool) -> None:
    """A year summed up by label: what was paid in it, as it was booked.

    \b
    Example: farmops costs labels totals --year 2026
    """
    found = label_totals(desk.store, year or desk.today.year, name)
    if as_json:
        emit(plain_totals(desk, found))
        return
    rows = [[one.label.label, str(one.paid.entries), _money(desk, one.paid)] for one in found.lines if one.paid.entries]
    rows += [
        [words, str(paid.entries), _money(desk, paid)]
        for words, paid in (("without a label", found.unlabelled), ("bought to last, without a label", found.lasting))
        if paid.entries
    ]
    if not rows:
        say(f"Nothing was paid in {found.year}.")
        return
    line(f"{found.label_set}, {found.year}")
    table(["label", "costs", "paid"], rows, right=[1, 2])
    say(NO_ADVICE)


def _money(desk: Desk, paid: Paid) -> str:
    return show_money(paid.amount_minor, desk.measures)


@labels.command("remove")
@click.argument("number", type=NUMBER)
@pass_desk
def remove(desk: Desk, number: int) -> None:
    """Remove a label by its number in the list; costs that bear it keep the word.

    \b
    Example: farmops costs labels remove 3
    """
    from farmops.farm.removal import remove_record

    one = numbered(labels_of(desk.store), number, "label", "farmops costs labels list")
    remove_record(desk.store, Removal("labels", one.id), **desk.hand)
    say(f"{one.label} removed. farmops undo brings it back.")


def plain_label(one: CostLabel) -> dict[str, object]:
    """A label in JSON's words."""
    return {"id": one.id, "set": one.label_set, "label": one.label, "categories": list(one.categories)}


def plain_totals(desk: Desk, found: LabelTotals) -> dict[str, object]:
    """A year by label in JSON's words."""
    return {
        "year": found.year,
        "set": found.label_set,
        "currency": desk.measures.currency,
        "totals": [{"label": one.label.label, **_plain(one.paid)} for one in found.lines],
        "unlabelled": _plain(found.unlabelled),
        "lasting": _plain(found.lasting),
    }


def _plain(paid: Paid) -> dict[str, int]:
    return {"costs": paid.entries, "paid_cents": paid.amount_minor}
