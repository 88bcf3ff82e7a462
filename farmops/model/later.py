"""Names that a module lends from another one, which is loaded only when one of them is asked for."""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module


def later(module: str, home: str, *names: str) -> Callable[[str], object]:
    """The `__getattr__` of `module` for `names` that live in `home`: who only reads loads nothing that is entered."""

    def find(name: str) -> object:
        if name not in names:
            raise AttributeError(f"module {module!r} has no attribute {name!r}")
        return getattr(import_module(home), name)

    return find
