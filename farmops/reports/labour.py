"""What work was worth in a span: minutes booked on chores and weighings at the rate of their days."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from farmops.economics.allocation import allot
from farmops.facts import labour as labour_facts
from farmops.facts.labour import Work, Worked
from farmops.facts.reading import Reader, Store
from farmops.figures import Figure, RecordLine, Records, of_records, total
from farmops.model.costs import Category, Product
from farmops.reports.pools import Pool, summed
from farmops.reports.sharing import Sharing
from farmops.reports.spans import Span

NO_RATE = "Labour is not counted: no rate of an hour is set."
FORMULA = "minutes on chores and weighings at the rate of their days"
FEWEST_IN = 4
"""One day in so many must have minutes before an hour of work is given a price."""
MINUTES_FORMULA = "minutes booked on chores and weighings"


def pool(store: Store, reader: Reader, span: Span, sharing: Sharing) -> Pool:
    """Work on each unit, and work for the whole farm, shared like hired labour."""
    worked, days = sharing.worked, sharing.days_with_minutes
    if not labour_facts.rates(reader):
        return Pool(note=f"{NO_RATE} {_booked(days, span)}" if days else NO_RATE)
    own = [one for one in worked if one.unit_id is not None and one.sixtieths]
    shared = [one for one in worked if one.unit_id is None and one.sixtieths]
    driver = sharing.in_force(Category.LABOUR, span.last)
    return Pool(
        tuple((one.unit_id or 0, Product.JOINT, _figure("labour", store, span, one)) for one in own),
        tuple((driver, _figure("labour for the whole farm", store, span, one)) for one in shared),
        _complete(days, span, worked),
    )


def minutes(store: Store, span: Span, sharing: Sharing) -> dict[int, Figure]:
    """Minutes worked for each unit, with its part of those for the whole farm; none where nothing is booked."""
    parts: dict[int, list[Figure]] = {}
    for one in sharing.worked:
        if one.unit_id is not None:
            parts.setdefault(one.unit_id, []).append(_minutes("minutes on it", store, span, one))
        else:
            shared = _minutes("minutes for the whole farm", store, span, one)
            for unit, part in sharing.parts(shared, sharing.in_force(Category.LABOUR, span.last)).items():
                parts.setdefault(unit, []).append(part)
    return {unit: total("minutes worked", "minutes", found, MINUTES_FORMULA) for unit, found in parts.items()}


def too_few(span: Span, sharing: Sharing) -> str | None:
    """Why no hour of work can be priced: minutes are booked on too few days of the span."""
    days = sharing.days_with_minutes
    if not days or days * FEWEST_IN >= span.days:
        return None
    booked = f"minutes are booked on {days} of {span.days} days"
    return f"not enough records: {booked}, and an hour is priced from one in {FEWEST_IN}"


def _minutes(name: str, store: Store, span: Span, worked: Worked) -> Figure:
    def fetch() -> Sequence[RecordLine]:
        with store.reading() as reader:
            found = [one for one in labour_facts.work(reader, span.first, span.last) if one.unit_id == worked.unit_id]
        return [RecordLine(one.kind, one.id, _words(one), one.minutes) for one in found]

    records = Records("work", worked.entries, fetch)
    return of_records(name, worked.minutes, "minutes", MINUTES_FORMULA, records)


def _complete(days: int, span: Span, worked: Sequence[Worked]) -> str:
    unrated = sum(one.unrated_minutes for one in worked)
    said = _booked(days, span)
    return f"{said} {unrated} of them fall on days without a rate and add nothing." if unrated else said


def _booked(days: int, span: Span) -> str:
    return f"Minutes are booked on {days} of {span.days} days."


def _figure(name: str, store: Store, span: Span, worked: Worked) -> Figure:
    amount = round(Fraction(worked.sixtieths, 60))
    return summed(name, "work", amount, worked.entries, FORMULA, _lines(store, span, worked.unit_id, amount))


def _lines(store: Store, span: Span, unit: int | None, amount: int) -> Callable[[], Sequence[RecordLine]]:
    def fetch() -> Sequence[RecordLine]:
        with store.reading() as reader:
            found = [one for one in labour_facts.work(reader, span.first, span.last) if one.unit_id == unit]
        weights = [one.minutes * (one.rate_minor or 0) for one in found]
        parts = allot(amount, weights) if amount else [0] * len(found)
        return [RecordLine(one.kind, one.id, _words(one), part) for one, part in zip(found, parts, strict=True)]

    return fetch


def _words(one: Work) -> str:
    return f"{one.day} {one.words}, {one.minutes} min ({one.actor})"
