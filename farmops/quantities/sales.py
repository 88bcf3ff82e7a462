"""A line of a sale in plain words: `WREN-N CHARD 12 bunches weighing 6 lb at 2.50 unsold 2`."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager

from farmops.model.frozen import dataclass
from farmops.model.sales import SaleLine, SoldBy, Terms
from farmops.model.values import Measured
from farmops.quantities.dimensions import MASS
from farmops.quantities.measures import Measures
from farmops.quantities.money import parse_money, show_money
from farmops.quantities.prices import Price, parse_price, show_price
from farmops.quantities.wording import UnclearError, not_understood

LARGEST_COUNT = 10**6
MOST_KEPT = 2**63 - 1
WORDS = {
    **dict.fromkeys(("bunch", "bunches"), SoldBy.BUNCH),
    **dict.fromkeys(("head", "heads"), SoldBy.HEAD),
    **dict.fromkeys(("dozen", "dozens"), SoldBy.DOZEN),
    **dict.fromkeys(("each", "piece", "pieces"), SoldBy.EACH),
}
PLURALS = {SoldBy.BUNCH: "bunches", SoldBy.HEAD: "heads", SoldBy.DOZEN: "dozen", SoldBy.EACH: "pieces"}
NAMED = re.compile(r"(?P<what>[^:]*\S(?=\s*:)|[^:]*?\S)(?:\s*:\s*|\s+)(?P<amount>[0-9.,½¼¾⅓⅔][^:]*)")
PARTED = re.compile(r"\s+(at|for|weighing|unsold|returned)\s+", re.IGNORECASE)
EXAMPLES = ("CHARD 2 lb at 3.50/lb", "WREN-N KALE 12 bunches at 2.50 unsold 2", "PERCH-24 3 lb for 21")


@dataclass(frozen=True, slots=True)
class TypedLine:
    """A line as understood. `what` is still a name; `unsold` and `returned` are in the unit of the amount."""

    what: str
    terms: Terms
    unsold: int = 0
    returned: int = 0
    mass: Measured | None = None


def parse_sale_line(text: str, measures: Measures) -> TypedLine:
    """What was sold, how much, `at` a price each or `for` a sum in all, and what came back.

    Raises:
        NotUnderstood: something is missing, said twice, or has no one clear meaning.
        OutOfRange: an amount or a sum is too large.
    """
    with _in_words(text):
        return _line(text, measures)


def parse_order(text: str, measures: Measures) -> TypedLine:
    """What a buyer wants: as a line of a sale, of which nothing came back; raises as `parse_sale_line`."""
    line = parse_sale_line(text, measures)
    if line.unsold or line.returned or line.mass:
        raise not_understood(text, "says more than what is wanted, how much and for what", EXAMPLES[:2])
    return line


@contextmanager
def _in_words(text: str) -> Iterator[None]:
    try:
        yield
    except UnclearError as error:
        raise not_understood(text, str(error), EXAMPLES) from None


def parse_amount(text: str, measures: Measures) -> tuple[SoldBy, Measured]:
    """`2 lb 4 oz`, `12 bunches`, `3 heads`, `2 dozen` or `6 pieces`; raises as `parse_sale_line`."""
    number, _, word = text.strip().rpartition(" ")
    sold_by = WORDS.get(word.lower())
    if sold_by is None:
        return SoldBy.WEIGHT, Measured(MASS.parse(text, measures), text.strip())
    with _in_words(text):
        return sold_by, Measured(_count(number), text.strip())


def part_of(text: str, sold_by: SoldBy, measures: Measures) -> int:
    """A part of an amount, such as what came back: in the same unit, which need not be said again."""
    bare = text.strip()
    if sold_by is not SoldBy.WEIGHT and bare.isascii() and bare.isdigit():
        with _in_words(text):
            return _counted(bare)
    found, amount = parse_amount(bare, measures)
    if found is not sold_by:
        raise not_understood(text, f"is not said {_unit_of(sold_by)}, as the amount is", EXAMPLES)
    return amount.exact


def parse_terms(
    price: str, sold_by: SoldBy, amount: Measured, measures: Measures, *, sold: int = 0, in_all: bool = False
) -> Terms:
    """A price for each, `3.50/lb` or `2.50`, or `in_all` a sum for what was `sold`; raises as `parse_sale_line`."""
    with _in_words(price):
        return _terms({"for" if in_all else "at": price.strip()}, sold_by, amount, sold, measures)


def _unit_of(sold_by: SoldBy) -> str:
    return "by weight" if sold_by is SoldBy.WEIGHT else f"in {PLURALS[sold_by]}"


def show_amount(sold_by: SoldBy, amount: int, measures: Measures) -> str:
    """An amount as it is read: `2 lb 4 oz`, `1 bunch`, `12 bunches`."""
    if sold_by is SoldBy.WEIGHT:
        return MASS.show(amount, measures)
    if amount == 1:
        return f"1 {'piece' if sold_by is SoldBy.EACH else sold_by.value}"
    return f"{amount} {PLURALS[sold_by]}"


def show_terms(terms: Terms, measures: Measures) -> str:
    """A price as it is read: `at $3.50 per lb`, `at $2.50 per bunch`, `for $9.00`."""
    money = show_money(terms.price_minor, measures)
    if terms.price_typed.startswith("for "):
        return f"for {money}"
    if terms.sold_by is SoldBy.WEIGHT:
        return f"at {show_price(Price(terms.price_minor, terms.per_amount), measures)}"
    return f"at {money} each" if terms.sold_by is SoldBy.EACH else f"at {money} per {terms.sold_by.value}"


def show_line(line: SaleLine, measures: Measures) -> str:
    """A line of a sale and what was paid for it: `CHARD 2 lb at $3.50 per lb: $7.00`."""
    return f"{show_sold(line, measures)}: {show_money(line.paid_minor, measures)}"


def show_sold(line: SaleLine, measures: Measures) -> str:
    """A line of a sale as it is read: `WREN-N KALE 12 bunches at $2.50 per bunch, less 2 bunches unsold`."""
    back = [
        f"{show_amount(line.sold_by, amount, measures)} {word}"
        for amount, word in ((line.unsold, "unsold"), (line.returned, "returned"))
        if amount
    ]
    weighing = f" weighing {line.mass_typed}" if line.mass_typed else ""
    less = f", less {' and '.join(back)}" if back else ""
    taken = f"{show_amount(line.sold_by, line.amount, measures)}{weighing}"
    return f"{line.name} {taken} {show_terms(line.terms, measures)}{less}"


def typed_line(line: TypedLine, measures: Measures) -> str:
    """The line as `parse_sale_line` reads it back."""
    terms = line.terms
    words = [line.what, terms.amount.typed]
    if line.mass is not None:
        words.append(f"weighing {line.mass.typed}")
    words.append(terms.price_typed)
    for word, part in (("unsold", line.unsold), ("returned", line.returned)):
        if part:
            words.append(f"{word} {exact_amount(terms.sold_by, part, measures)}")
    return " ".join(words)


def exact_amount(sold_by: SoldBy, amount: int, measures: Measures) -> str:
    """An amount as `parse_amount` reads it back."""
    return MASS.show_exact(amount, measures) if sold_by is SoldBy.WEIGHT else show_amount(sold_by, amount, measures)


def _line(text: str, measures: Measures) -> TypedLine:
    head, *rest = PARTED.split(f" {text.strip()} ")
    said = _said(rest)
    named = NAMED.fullmatch(head.strip())
    if named is None:
        raise UnclearError("does not say what was sold and how much")
    sold_by, amount = parse_amount(named["amount"], measures)
    unsold, returned = (part_of(said[one], sold_by, measures) if one in said else 0 for one in ("unsold", "returned"))
    if unsold + returned > amount.exact:
        raise UnclearError("brings back more than was taken along")
    terms = _terms(said, sold_by, amount, amount.exact - unsold - returned, measures)
    return TypedLine(" ".join(named["what"].split()), terms, unsold, returned, _mass(said, sold_by, measures))


def _said(rest: list[str]) -> dict[str, str]:
    words = [word.lower() for word in rest[::2]]
    if len(set(words)) < len(words) or {"at", "for"} <= set(words):
        raise UnclearError("says the same thing twice")
    if not {"at", "for"} & set(words):
        raise UnclearError("names no price: 'at' for each, or 'for' a sum in all")
    return dict(zip(words, (part.strip() for part in rest[1::2]), strict=True))


def _mass(said: dict[str, str], sold_by: SoldBy, measures: Measures) -> Measured | None:
    if "weighing" not in said:
        return None
    if sold_by is SoldBy.WEIGHT:
        raise UnclearError("says its weight twice")
    return Measured(MASS.parse(said["weighing"], measures), said["weighing"])


def _terms(said: dict[str, str], sold_by: SoldBy, amount: Measured, sold: int, measures: Measures) -> Terms:
    if "for" in said:
        minor = parse_money(said["for"], measures, zero_ok=True)
        return Terms(sold_by, amount, minor, sold or amount.exact, f"for {said['for']}")
    price = _weight_price(said["at"], measures) if sold_by is SoldBy.WEIGHT else _each(said["at"], sold_by, measures)
    return Terms(sold_by, amount, price.minor, price.per_mg, f"at {said['at']}")


def _weight_price(text: str, measures: Measures) -> Price:
    price = parse_price(text, measures, zero_ok=True)
    if max(price.minor, price.per_mg) > MOST_KEPT:
        raise UnclearError("has a price of more digits than can be kept")
    return price


def _each(text: str, sold_by: SoldBy, measures: Measures) -> Price:
    """A price for one, whose word may follow: `2.50`, `2.50/bunch`, `40 per dozen`, `1 each`."""
    money, *unit = re.split(r"\s*/\s*|\s+per\s+|\s+(?=each\b)", text.strip(), maxsplit=1, flags=re.IGNORECASE)
    if unit and WORDS.get(unit[0].strip().lower()) is not sold_by:
        raise UnclearError(f"has a price that is not per {sold_by.value}")
    return Price(parse_money(money, measures, zero_ok=True), 1)


def _count(text: str) -> int:
    if not (text.strip().isascii() and text.strip().isdigit()):
        raise UnclearError("has a count that is no whole number")
    return _counted(text.strip())


def _counted(digits: str) -> int:
    if len(digits) > len(str(LARGEST_COUNT)) or not 0 < int(digits) <= LARGEST_COUNT:
        raise UnclearError(f"has a count that is not from 1 to {LARGEST_COUNT:,}")
    return int(digits)
