"""The invented farm for journeys through the interface."""

from tests.tui.demo import demo_place, demo_store
from tests.tui.stillness import be_still

__all__ = ["demo_place", "demo_store"]

be_still()
