"""All places by name; each is loaded when it is first gone to."""

from __future__ import annotations

from importlib import import_module

from farmops.tui.actions import PLACES
from farmops.tui.screens.place import Place

CLASSES = {name: f"{name.capitalize()}Place" for name in PLACES}


def kind_of(name: str) -> type[Place]:
    """The kind of place of that name, which lives in the module of that name."""
    kind: type[Place] = getattr(import_module(f"farmops.tui.screens.{name}"), CLASSES[name])
    return kind


def made(name: str) -> Place:
    """The place of that name, not mounted yet."""
    return kind_of(name)(id=name)
