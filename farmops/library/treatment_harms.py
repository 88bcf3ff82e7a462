"""What treatments can do to fish, filter and plants, by the words of their names."""

from __future__ import annotations

import re
from functools import cache

from farmops.library import tables
from farmops.library.tables import Standing
from farmops.model.frozen import dataclass

THE_LABEL = "The label is the law, and local rules come first: read both before you mix anything."
IN_THE_LOOP = ("fish", "filter")


@dataclass(frozen=True, slots=True)
class Harm:
    """What a kind of product harms, and the words by which it is known."""

    key: str
    words: tuple[str, ...]
    harms: tuple[str, ...]
    says: str
    source: str
    standing: Standing

    @property
    def in_the_loop(self) -> bool:
        """Whether fish or the filter suffer, so that it is asked about where fish live."""
        return not set(self.harms).isdisjoint(IN_THE_LOOP)

    @property
    def told(self) -> str:
        """What it does and to whom, and whether that was read anywhere."""
        return f"{self.says} It harms: {', '.join(self.harms)} ({self.standing})."


@cache
def treatment_harms() -> tuple[Harm, ...]:
    """All kinds, in the order of the table."""
    return tuple(
        Harm(
            row["key"],
            tables.words(row["words"]),
            tables.words(row["harms"]),
            row["says"],
            row["source"],
            Standing(row["standing"]),
        )
        for row in tables.read("treatment_harms.csv")
    )


def harms_of(*names: str | None) -> tuple[Harm, ...]:
    """The kinds that a product and its active ingredient belong to; that none is known clears nothing."""
    text = " ".join(name for name in names if name).casefold()
    return tuple(one for one in treatment_harms() if any(_named(word, text) for word in one.words))


def _named(word: str, text: str) -> bool:
    return re.search(rf"\b{re.escape(word)}", text) is not None
