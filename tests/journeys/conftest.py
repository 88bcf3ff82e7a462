"""What journeys through the interface need."""

from tests.tui.stillness import be_still

be_still()
