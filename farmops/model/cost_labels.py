"""Labels for costs: sets of words, such as the lines of a tax form, by which a year is summed up."""

from __future__ import annotations

from farmops.model.frozen import dataclass


@dataclass(frozen=True, slots=True)
class CostLabel:
    """A label of a set, in its place; `category` lists the categories that take it when nothing else is said."""

    id: int
    label_set: str
    label: str
    category: str | None
    position: int

    @property
    def categories(self) -> tuple[str, ...]:
        """The same, one by one."""
        return tuple(word.strip() for word in (self.category or "").split(";") if word.strip())


@dataclass(frozen=True, slots=True)
class LabelToLoad:
    """A label as a set brings it."""

    label: str
    categories: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class NewLabels:
    """A set of labels in their order; a set of the same name gives way to it."""

    label_set: str
    labels: tuple[LabelToLoad, ...]


@dataclass(frozen=True, slots=True)
class LabelsLoaded:
    """How many labels a set holds now."""

    label_set: str
    number: int
