"""Frozen dataclasses to JSON's types and back, for stored results and for output."""

from __future__ import annotations

import types
from dataclasses import fields, is_dataclass
from datetime import date, datetime
from enum import Enum
from functools import cache
from typing import Any, TypeVar, Union, cast, get_args, get_origin, get_type_hints

T = TypeVar("T")
AS_THEY_ARE = frozenset((str, int, float, bool, type(None)))


def to_plain(value: Any) -> Any:
    """A value in JSON's types: days and instants in ISO 8601, enums as their word, dataclasses as objects."""
    if type(value) in AS_THEY_ARE:
        return value
    if is_dataclass(value) and not isinstance(value, type):
        return {field.name: to_plain(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, list | tuple):
        return [to_plain(item) for item in value]
    if isinstance(value, dict):
        return {str(key): to_plain(item) for key, item in value.items()}
    return value


def from_plain(kind: Any, plain: Any) -> Any:
    """The value of the annotated type that `to_plain` made these JSON types from."""
    if plain is None or kind is Any:
        return plain
    origin = get_origin(kind)
    if origin in (Union, types.UnionType):
        (inner,) = (part for part in get_args(kind) if part is not type(None))
        return from_plain(inner, plain)
    if origin in (tuple, list):
        inner = get_args(kind)[0]
        return origin(from_plain(inner, item) for item in plain)
    if origin is dict:
        inner = get_args(kind)[1]
        return {key: from_plain(inner, item) for key, item in plain.items()}
    if is_dataclass(kind):
        hints = _hints(cast("type", kind))
        return cast("Any", kind)(**{name: from_plain(hints[name], item) for name, item in plain.items()})
    return _scalar(kind, plain)


def _scalar(kind: Any, plain: Any) -> Any:
    if not isinstance(kind, type):
        return plain
    if issubclass(kind, datetime):
        return datetime.fromisoformat(plain)
    if issubclass(kind, date):
        return date.fromisoformat(plain)
    return kind(plain) if issubclass(kind, Enum) else plain


@cache
def _hints(kind: type) -> dict[str, Any]:
    return get_type_hints(kind)
