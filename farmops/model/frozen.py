"""Frozen dataclasses that cost little to make: a command makes hundreds at each start and few objects of them.

The standard library writes and compiles six methods for each class. Here all classes share them but `__init__`, which
is compiled when it is first looked for; that takes a sixth of the time. Nothing else is different, and type checkers
see the standard decorator.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from dataclasses import MISSING, Field, FrozenInstanceError, fields
from functools import cache
from types import FunctionType
from typing import TYPE_CHECKING, Any

__all__ = ["dataclass"]


def _dataclass(*, frozen: bool = False, slots: bool = False) -> Callable[[type], Any]:
    """The decorator for `@dataclass(frozen=True, slots=True)`; other kinds are left to the standard library."""
    return _frozen if frozen and slots else dataclasses.dataclass(frozen=frozen, slots=slots)


if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:
    dataclass = _dataclass


def _frozen(body: type) -> Any:
    for name, method in SHARED.items():
        if name not in body.__dict__:
            setattr(body, name, method)
    made: Any = dataclasses.dataclass(init=False, repr=False, eq=False, slots=True)(body)
    made.__init__ = _Later(made)
    return made


class _Later:
    """Stands for `__init__` until somebody looks for it, to make an object or to know how it is made."""

    def __init__(self, kind: Any) -> None:
        self.kind = kind

    def __get__(self, one: object, kind: type) -> Any:
        self.kind.__init__ = real = _init_of(self.kind)
        return real.__get__(one, kind)


def _init_of(kind: Any) -> FunctionType:
    known: dict[str, Any] = {"_MISSING": MISSING}
    parameters, lines = ["self"], []
    for field in fields(kind):
        parameter, value = _parameter(field, known)
        parameters.append(parameter)
        known[f"_set_{field.name}"] = getattr(kind, field.name).__set__
        lines.append(f"_set_{field.name}(self, {value})")
    if hasattr(kind, "__post_init__"):
        lines.append("self.__post_init__()")
    text = f"def __init__({', '.join(parameters)}):\n " + "\n ".join(lines or ["pass"])
    exec(text, known)  # noqa: S102 - names of fields alone, as the standard library does
    init: FunctionType = known["__init__"]
    init.__qualname__ = f"{kind.__qualname__}.__init__"
    return init


def _parameter(field: Field[Any], known: dict[str, Any]) -> tuple[str, str]:
    """A parameter of `__init__`, and the words for its value; defaults are told to `known`."""
    name, default = field.name, f"_default_{field.name}"
    if field.default is not MISSING:
        known[default] = field.default
        return f"{name}={default}", name
    if field.default_factory is not MISSING:
        known[default] = field.default_factory
        return f"{name}=_MISSING", f"{default}() if {name} is _MISSING else {name}"
    return name, name


def _values(one: Any) -> tuple[Any, ...]:
    """What two objects are compared by."""
    return tuple([getattr(one, name) for name in _compared(one.__class__)])


@cache
def _compared(kind: Any) -> tuple[str, ...]:
    return tuple(field.name for field in fields(kind) if field.compare)


def _equal(self: Any, other: object) -> bool:
    return _values(self) == _values(other) if type(other) is type(self) else NotImplemented


def _hash(self: Any) -> int:
    return hash(_values(self))


def _shown(self: Any) -> str:
    shown = ", ".join(f"{field.name}={getattr(self, field.name)!r}" for field in fields(self) if field.repr)
    return f"{type(self).__qualname__}({shown})"


def _refuse(self: object, name: str, value: object = None) -> None:
    raise FrozenInstanceError(f"cannot change field {name!r}")


def _again(self: Any) -> tuple[type, tuple[Any, ...]]:
    """How copies and pickles are made: through `__init__`, for nothing can be set afterwards."""
    return type(self), tuple(getattr(self, field.name) for field in fields(self))


SHARED: dict[str, Any] = {
    "__eq__": _equal,
    "__hash__": _hash,
    "__repr__": _shown,
    "__setattr__": _refuse,
    "__delattr__": _refuse,
    "__reduce__": _again,
}
"""The methods all frozen classes share, by name; a class that has one of its own keeps it."""
