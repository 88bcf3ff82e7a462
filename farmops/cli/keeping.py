"""`farmops keeping`: until when records are kept."""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import answer_options, on_option
from farmops.cli.output import emit, say, table
from farmops.reports.keeping import Kept, keeping_of


@click.command()
@on_option
@answer_options
@pass_desk
def keeping(desk: Desk, on: str | None, as_json: bool) -> None:
    """Until when records of each kind are kept, by whose rule, and to whom it speaks.

    \b
    Example: farmops keeping
    """
    found = keeping_of(desk.store, desk.day(on))
    if as_json:
        emit({"kinds": [_plain(one) for one in found.kinds], "applies": list(found.applies)})
        return
    rows = [
        [one.rule.kind, str(one.number), str(one.oldest or ""), f"{one.rule.years} years", str(one.until or "")]
        for one in found.kinds
    ]
    table(["records", "number", "oldest", "kept for", "newest until"], rows, right=[1])
    for kept in found.kinds:
        say(f"- {kept.rule.kind}: {kept.rule.applies}. {kept.rule.source}; {kept.rule.standing}.")
    for words in found.applies:
        say(words)


def _plain(one: Kept) -> dict[str, object]:
    return {
        "kind": one.rule.kind,
        "number": one.number,
        "oldest": one.oldest,
        "years": one.rule.years,
        "keep_newest_until": one.until,
        "older_than_asked_before": one.free,
        "applies": one.rule.applies,
        "source": one.rule.source,
        "standing": one.rule.standing,
    }
