"""What stands below a list: words about the line under the cursor."""

from __future__ import annotations

from textual.content import Content
from textual.widgets import Static


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

    def _height(self, words: Content, width: int) -> int:
        return words.get_height(self.styles.get_rules(), width)
