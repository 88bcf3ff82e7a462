"""Templates as the grower has them: what differs from the packaged ones, and how many chores stand open from each."""

from __future__ import annotations

from collections import Counter
from dataclasses import fields
from typing import Any

from farmops.facts import farm as farm_facts
from farmops.facts import templates as template_facts
from farmops.facts.reading import Store
from farmops.facts.sets import sets
from farmops.library import ChoreTemplate, chore_templates
from farmops.model.chores import Occasion
from farmops.model.errors import NotFound
from farmops.model.frozen import dataclass
from farmops.model.text import plain

SAME = ("key", "version", "applies_to", "occasion", "source", "standing")
"""What a grower does not change, or what says nothing of the chore."""


@dataclass(frozen=True, slots=True)
class Difference:
    """A field of a template that the grower has changed, and what the packaged one says there."""

    field: str
    packaged: Any


@dataclass(frozen=True, slots=True)
class TemplateLine:
    """A template with the packaged one of its key, if there is one, and the number of open chores made from it."""

    template: ChoreTemplate
    packaged: ChoreTemplate | None
    dropped: bool
    open_chores: int

    @property
    def own(self) -> bool:
        """Whether the grower has changed or dropped it."""
        return self.template is not self.packaged

    @property
    def differences(self) -> tuple[Difference, ...]:
        """What differs from the packaged one, field by field."""
        if self.packaged is None or not self.own:
            return ()
        names = [field.name for field in fields(ChoreTemplate) if field.name not in SAME]
        pairs = ((name, getattr(self.packaged, name)) for name in names)
        return tuple(Difference(name, value) for name, value in pairs if getattr(self.template, name) != value)

    @property
    def changed_words(self) -> str:
        """What differs, in a few words; nothing for a packaged one."""
        if self.dropped:
            return "dropped"
        return ", ".join(FIELD_WORDS.get(one.field, one.field) for one in self.differences) or ("yours" * self.own)

    @property
    def given_by(self) -> str:
        """What gives it: the states, or the occasion."""
        if self.template.occasion is Occasion.STATE:
            return ", ".join(self.template.states) or "every state"
        return self.template.occasion.value


FIELD_WORDS = {"grade": "class", "adults_only": "adults only", "with_fish": "with fish"}


def template_lines(store: Store) -> list[TemplateLine]:
    """Every template, dropped ones included, in the order of the packaged table."""
    with store.reading() as reader:
        farm_facts.farm(reader)
        own = {one.key: one for one in template_facts.own_templates(reader)}
        made = sets(reader).made
    counted = Counter(key for (_, key), one in made.items() if one.open_chore is not None)
    packaged = {one.key: one for one in chore_templates()}
    return [
        TemplateLine(
            template_facts.template_of(own[key]) if key in own else packaged[key],
            packaged.get(key),
            key in own and own[key].dropped,
            counted[key],
        )
        for key in dict.fromkeys((*packaged, *own))
    ]


def template_line(store: Store, key: str) -> TemplateLine:
    """The template of that key. Raises NotFound."""
    found = next((one for one in template_lines(store) if one.template.key == key.strip().lower()), None)
    if found is None:
        raise NotFound(f"There is no template {plain(key)}. See: farmops chores templates")
    return found
