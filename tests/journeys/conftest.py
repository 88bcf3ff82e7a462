"""The invented farm for journeys through the interface."""

from tests.tui.demo import demo_place, demo_store

__all__ = ["demo_place", "demo_store"]
