"""All places by name; each is loaded when it is first gone to."""

from __future__ import annotations

from asyncio import Lock
from importlib import import_module

from textual.widgets import ContentSwitcher

from farmops.tui.actions import PLACES
from farmops.tui.screens.place import Place

CLASSES = {name: f"{name.capitalize()}Place" for name in PLACES}
WAITING = "waiting"
"""The id of the empty place that stands in for one that is not made yet."""


class Places(ContentSwitcher):
    """Shows one place at a time, and mounts each when it is first gone to."""

    DEFAULT_CSS = "Places { height: 1fr; }"

    def __init__(self) -> None:
        super().__init__(Place(id=WAITING), initial=WAITING)
        self._made: set[str] = set()
        self._making = Lock()

    async def make(self, name: str) -> None:
        """Load and mount a place, unless it is there."""
        async with self._making:
            if name not in self._made:
                await self.add_content(kind_of(name)(id=name))
                self._made.add(name)

    def called(self, name: str) -> Place:
        """The place of that name, or one that does nothing while it is being made."""
        return self.get_child_by_id(name if name in self._made else WAITING, Place)


def kind_of(name: str) -> type[Place]:
    """The kind of place of that name, which lives in the module of that name."""
    kind: type[Place] = getattr(import_module(f"farmops.tui.screens.{name}"), CLASSES[name])
    return kind
