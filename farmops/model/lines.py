"""Lines of a file by their numbers, told as stretches: `lines 2-7, 9`."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from farmops.model.frozen import dataclass

MOST_TOLD = 40


@dataclass(frozen=True, slots=True)
class Stretch:
    """Lines that follow each other, from the first to the last."""

    first: int
    last: int

    def __str__(self) -> str:
        return f"{self.first}" if self.first == self.last else f"{self.first}-{self.last}"


def stretches(lines: Iterable[int]) -> tuple[Stretch, ...]:
    """The lines in their order, each once, those that follow each other together."""
    found: list[list[int]] = []
    for line in sorted(set(lines)):
        if found and line == found[-1][1] + 1:
            found[-1][1] = line
        else:
            found.append([line, line])
    return tuple(Stretch(first, last) for first, last in found)


def lines_told(found: Sequence[Stretch]) -> str:
    """`line 9`, `lines 2-7, 9`; of very many stretches the first, and how many more there are."""
    more = f" and {len(found) - MOST_TOLD} more stretches" if len(found) > MOST_TOLD else ""
    one = len(found) == 1 and found[0].first == found[0].last
    return f"line{'' if one else 's'} {', '.join(map(str, found[:MOST_TOLD]))}{more}"
