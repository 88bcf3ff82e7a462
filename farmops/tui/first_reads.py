"""What the frame reads in a thread; each report is loaded there, so that the first paint waits for none of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from farmops.reports.round import Round
    from farmops.reports.row import Row
    from farmops.reports.scale import Scale
    from farmops.reports.store import Store


def beginning(store: Store) -> tuple[Row, Round]:
    """The row, and the round of the whole farm, which is shown first."""
    from farmops.reports.opening import opening_of

    return opening_of(store)


def row(store: Store) -> Row:
    """The row of units."""
    from farmops.reports.row import row_of

    return row_of(store)


def scale(store: Store) -> Scale:
    """What can be weighed."""
    from farmops.reports.scale import scale_of

    return scale_of(store)


def pulse(store: Store) -> int:
    """The journal's last number."""
    from farmops.reports.row import pulse

    return pulse(store)


def warm_up(store: Store) -> str | None:
    """Load the forms and what writes, so that neither the first form nor the first booking waits for them.

    Gives what to know about the place where the farm is kept, or None.
    """
    from farmops.farm import undo  # noqa: F401 - loading it is all that is wanted
    from farmops.tui import forms  # noqa: F401 - as above

    return store.advice()
