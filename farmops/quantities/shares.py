"""Shares of a cost in plain words: `70 %` for the produce, `WREN=2 ROOK=1` for units."""

from __future__ import annotations

from fractions import Fraction

from farmops.model.errors import NotUnderstood
from farmops.model.text import plain


def parse_produce_share(text: str) -> int:
    """How much of a cost the produce bears, in thousandths; raises NotUnderstood."""
    try:
        return round(Fraction(text.strip().removesuffix("%").strip().replace(",", ".")) * 10)
    except (ValueError, ZeroDivisionError):
        raise NotUnderstood(f"{plain(text)!r} is no share of the produce. Understood: 70% or 62.5%.") from None


def parse_parts(text: str) -> tuple[str, int]:
    """A unit, or what else stands for one, and its parts of all shares; raises NotUnderstood."""
    code, sign, parts = text.partition("=")
    if not code.strip() or not sign or not (parts.strip().isascii() and parts.strip().isdigit()):
        raise NotUnderstood(f"{plain(text)!r} is no share. Understood: a unit and its parts, as in WREN=2 ROOK=1.")
    return code.strip(), int(parts)
