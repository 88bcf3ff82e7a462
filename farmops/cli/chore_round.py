"""`farmops chores`: the round for everybody or for one person, or a check on life support for cron."""

from __future__ import annotations

from typing import TYPE_CHECKING

from farmops.cli.chore_output import (
    overdue_object,
    overdue_words,
    print_overdue,
    print_round,
    round_object,
    round_rows,
)
from farmops.cli.desk import Desk
from farmops.cli.output import emit, tabbed
from farmops.model.errors import CheckFailed
from farmops.reports.round import Round, round_of

if TYPE_CHECKING:
    from farmops.model.farm import Person


def tell(
    desk: Desk,
    *,
    on: str | None,
    days: int,
    unit: str | None,
    person: str | None,
    check: bool,
    as_json: bool,
    as_plain: bool,
) -> None:
    """Print the round. Raises CheckFailed when that was asked for and life support is overdue."""
    found = round_of(
        desk.store,
        desk.day(on) if on else None,
        days=days,
        unit=unit,
        person=_called(desk, person) if person is not None else None,
    )
    if check:
        _check(found, as_json=as_json, as_plain=as_plain)
    elif as_json:
        emit(round_object(found))
    elif as_plain:
        tabbed(round_rows(found.lines))
    else:
        print_round(found)


def _called(desk: Desk, name: str) -> Person | None:
    """The person of that name; only who asks for one waits for all that names can mean to be loaded."""
    from farmops.reports import names

    _ = desk.farm
    return names.person(desk.store, name) if name else None


def _check(found: Round, *, as_json: bool, as_plain: bool) -> None:
    if as_json:
        emit(overdue_object(found))
    elif as_plain:
        tabbed(round_rows(found.overdue_life_support))
    else:
        print_overdue(found)
    if found.overdue_life_support:
        raise CheckFailed(overdue_words(found))
