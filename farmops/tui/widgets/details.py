"""What stands below a list: words about the line under the cursor."""

from __future__ import annotations

from rich.segment import Segment
from textual.content import Content
from textual.strip import Strip
from textual.widgets import Static

MORE = " … ? tells all"


class Details(Static):
    """Words that change with every line; the screen is laid out anew only where they take another height."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.words = Content("")

    def tell(self, words: Content) -> None:
        """Show these words."""
        if words != self.words:
            width = self.content_size.width
            fits = width > 0 and self._height(words, width) == self._height(self.words, width)
            self.words = words
            self.update(words, layout=not fits)

    def render_line(self, y: int) -> Strip:
        """A line; the last one says where the rest is told, where there is no room for all."""
        strip, size = super().render_line(y), self.content_size
        if y < size.height - 1 or self._height(self.words, size.width) <= size.height:
            return strip
        shown = len(strip.text.rstrip())
        told = strip.crop(0, min(strip.index_to_cell_position(shown), size.width - len(MORE)))
        return Strip([*told, Segment(MORE, self.rich_style)]).extend_cell_length(size.width, self.rich_style)

    def _height(self, words: Content, width: int) -> int:
        return words.get_height(self.styles.get_rules(), width)
