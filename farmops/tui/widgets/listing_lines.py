"""What a list is made of: columns, lines, headings between them, and the view of them that is shown."""

from __future__ import annotations

import unicodedata
from bisect import bisect_left
from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import Literal, TypeVar, overload

from farmops.model.frozen import dataclass
from farmops.model.text import plain
from farmops.tui.widgets.sparks import Bar, Spark

T = TypeVar("T")
Cell = str | Spark | Bar
Look = Literal["normal", "late", "done", "quiet", "loss"]
Align = Literal["left", "right", "point"]

NEARBY = 2_000
"""Lines looked through on either side for a key that may have moved, where lines are made on demand."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column. Without a width it is as wide as its cells; the one that grows takes what is left.

    `point` lines numbers up at their decimal mark. Where room is short, columns of the highest priority number go
    first; those of 0 stay and are narrowed.
    """

    key: str
    head: str = ""
    width: int | None = None
    align: Align = "left"
    grow: bool = False
    priority: int = 0


@dataclass(frozen=True, slots=True)
class Line:
    """One line a person can stand on; `key` tells it from all others, `data` is the caller's own."""

    key: str
    cells: tuple[Cell, ...]
    look: Look = "normal"
    data: object = None


@dataclass(frozen=True, slots=True)
class Heading:
    """The name of the section that follows; the cursor passes over it."""

    words: str


Item = Line | Heading


@lru_cache(maxsize=8192)
def shown(text: str) -> str:
    """Text that is safe to draw and that every terminal gives the same width."""
    if text.isprintable() and "\ufe0f" not in text:
        return text
    return plain(text).replace("\ufe0f", "")


def folded(text: str) -> str:
    """Text as it is compared in a search: no capitals, no accents."""
    if text.isascii():
        return text.lower()
    apart = unicodedata.normalize("NFKD", text.casefold())
    return "".join(sign for sign in apart if not unicodedata.combining(sign))


class Made(Sequence[Line]):
    """Lines of records, each made when it is first looked at: of a hundred thousand, few ever are."""

    def __init__(self, records: Sequence[T], line_of: Callable[[T], Line]) -> None:
        self._make: Callable[[int], Line] = lambda place: line_of(records[place])
        self._lines: list[Line | None] = [None] * len(records)

    def __len__(self) -> int:
        return len(self._lines)

    @overload
    def __getitem__(self, place: int) -> Line: ...
    @overload
    def __getitem__(self, place: slice) -> list[Line]: ...
    def __getitem__(self, place: int | slice) -> Line | list[Line]:
        if isinstance(place, slice):
            return [self[one] for one in range(*place.indices(len(self)))]
        line = self._lines[place]
        if line is None:
            line = self._lines[place] = self._make(place)
        return line


class View:
    """The items that are shown: all of them, or the ones at the given places."""

    def __init__(self, items: Sequence[Item], places: Sequence[int] | None = None) -> None:
        self.items = items
        self.places = places

    def __len__(self) -> int:
        return len(self.items) if self.places is None else len(self.places)

    def __getitem__(self, index: int) -> Item:
        return self.items[index if self.places is None else self.places[index]]

    def place_at(self, index: int) -> int:
        """Where among all items the one at an index of this view is."""
        return self.places[index] if self.places and index < len(self.places) else index

    def index_near(self, place: int) -> int:
        """The index in this view at or after a place among all items."""
        return place if self.places is None else bisect_left(self.places, place)

    def line_from(self, index: int, step: Literal[1, -1]) -> int | None:
        """The first index from here on, in this direction, that holds a line."""
        while 0 <= index < len(self):
            if isinstance(self[index], Line):
                return index
            index += step
        return None

    def line_near(self, index: int) -> int | None:
        """The line at an index or the one nearest to it, below it first."""
        at = max(0, min(index, len(self) - 1))
        below = self.line_from(at, 1)
        return below if below is not None else self.line_from(at, -1)

    def index_of(self, key: str, near: int = 0, *, reach: int | None = None) -> int | None:
        """Where the line of this key is, looking outward from `near`, at most `reach` to either side.

        Items that offer `place_of(key) -> int | None` are asked instead.
        """
        place_of: Callable[[str], int | None] | None = getattr(self.items, "place_of", None)
        if place_of is not None:
            return self._index_at(place_of(key))
        near = max(0, min(near, len(self)))
        for away in range(max(near, len(self) - near) if reach is None else reach):
            for index in (near + away, near - away - 1):
                if 0 <= index < len(self) and self._has(index, key):
                    return index
        return None

    def _has(self, index: int, key: str) -> bool:
        item = self[index]
        return isinstance(item, Line) and item.key == key

    def _index_at(self, place: int | None) -> int | None:
        if place is None or self.places is None:
            return place
        index = bisect_left(self.places, place)
        return index if index < len(self.places) and self.places[index] == place else None


class Search:
    """Finds the lines whose cells hold all of some words; what it folded once it keeps."""

    def __init__(self, items: Sequence[Item]) -> None:
        self.items = items
        self._texts: list[str | None] = [None] * len(items)
        self._headings: set[int] = set()

    def places(self, text: str, stopped: Callable[[], bool] = lambda: False) -> list[int] | None:
        """The places of the lines that match and of the headings over them; None when stopped on the way."""
        words = folded(text).split()
        found: list[int] = []
        heading: int | None = None
        for place in range(len(self._texts)):
            if place % 500 == 0 and stopped():
                return None
            line = self._text(place)
            if place in self._headings:
                heading = place
            elif all(word in line for word in words):
                found += [place] if heading is None else [heading, place]
                heading = None
        return found

    def lines_in(self, places: Sequence[int]) -> int:
        """How many of these places hold lines."""
        return sum(place not in self._headings for place in places)

    @property
    def lines(self) -> int:
        """How many lines there are in all, once a search has seen them."""
        return len(self._texts) - len(self._headings)

    def _text(self, place: int) -> str:
        known = self._texts[place]
        if known is None:
            item = self.items[place]
            if isinstance(item, Heading):
                self._headings.add(place)
            known = "" if isinstance(item, Heading) else folded("\n".join(map(str, item.cells)))
            self._texts[place] = known
        return known
