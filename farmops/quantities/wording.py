"""How a refusal names what was typed and what would be understood."""

from __future__ import annotations

from collections.abc import Iterable

from farmops.model.errors import NotUnderstood, OutOfRange

LONGEST_QUOTE = 40


class UnclearError(Exception):
    """Why a text was refused, worded to follow the quoted text; becomes a NotUnderstood."""


class TooFarError(Exception):
    """Why a number was refused, worded to follow the quoted text; becomes an OutOfRange."""


def quoted(text: str) -> str:
    """What was typed, in quotes, control characters made visible, shortened if long."""
    seen = text if len(text) <= LONGEST_QUOTE else text[: LONGEST_QUOTE - 1] + "…"
    return '"' + "".join(map(_visible, seen)) + '"'


def _visible(char: str) -> str:
    return char if char.isprintable() else char.encode("unicode_escape").decode("ascii")


def not_understood(text: str, why: str, examples: Iterable[str]) -> NotUnderstood:
    """`"12 oz 1 lb" puts ounces before pounds. Understood: 1 lb 6 oz, 22 oz.`"""
    return NotUnderstood(_sentence(text, why, examples))


def out_of_range(text: str, why: str, examples: Iterable[str]) -> OutOfRange:
    """`"900000 kg" is more than 10000 kg, the largest weight taken. Understood: 620 g, 0.62 kg.`"""
    return OutOfRange(_sentence(text, why, examples))


def _sentence(text: str, why: str, examples: Iterable[str]) -> str:
    subject = f"{quoted(text.strip())} {why}" if text.strip() else "Nothing was typed"
    return f"{subject}. Understood: {', '.join(examples)}."
