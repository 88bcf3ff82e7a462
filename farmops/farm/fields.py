"""From entries to columns: what was given, what stays, measures with their typed text."""

from __future__ import annotations

from typing import Any

from farmops.model.values import KEEP, Keep, Measured


def given(entry: Any, *names: str) -> dict[str, Any]:
    """The fields of a change that are not to stay as they are."""
    return {name: getattr(entry, name) for name in names if getattr(entry, name) is not KEEP}


def measured(value: Measured | Keep | None, exact: str, typed: str) -> dict[str, Any]:
    """The two columns of a measure; none when it is to stay."""
    if isinstance(value, Keep):
        return {}
    return {exact: value.exact if value else None, typed: value.typed if value else None}


def mapped(values: dict[str, Any], **functions: Any) -> dict[str, Any]:
    """The values, some passed through a function of their name."""
    return {name: functions[name](value) if name in functions else value for name, value in values.items()}
