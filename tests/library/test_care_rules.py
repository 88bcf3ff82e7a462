"""What a stand-in is told: every line whole, and the cautions that must not be missing."""

from __future__ import annotations

import pytest

from farmops.library import tables
from farmops.library.care_rules import RuleKind, care_rules, rules_of
from farmops.library.tables import Standing
from tests.labels import common_practice


def test_every_line_has_the_columns_of_the_head() -> None:
    for row in tables.read("care_rules.csv"):
        assert None not in row
        assert all(cell and cell == cell.strip() for cell in row.values())


def test_keys_are_unique_and_every_kind_has_rules() -> None:
    keys = [one.key for one in care_rules()]
    assert len(set(keys)) == len(keys)
    assert sum(len(rules_of(kind)) for kind in RuleKind) == len(keys)
    assert all(rules_of(kind) for kind in RuleKind)


def test_no_line_says_more_than_it_knows() -> None:
    assert {one.standing for one in care_rules()} <= {Standing.COMMON_PRACTICE, Standing.FROM_MEMORY}
    assert all(one.source.startswith("none") == (one.standing is Standing.COMMON_PRACTICE) for one in care_rules())


@common_practice("a stand-in is warned of electricity, drowning, dead fish, chemicals, and of who is of age")
@pytest.mark.parametrize(
    ("kind", "words"),
    [
        (RuleKind.CAUTION, "dry hands at plugs"),
        (RuleKind.CAUTION, "drowns a child"),
        (RuleKind.CAUTION, "dead fish out at once with net and gloves"),
        (RuleKind.CAUTION, "nobody under age"),
        (RuleKind.NEVER, "they stay locked away"),
        (RuleKind.NEVER, "never make up a feed"),
        (RuleKind.NEVER, "never add tap water that was not treated"),
        (RuleKind.STOP, "fish gasp"),
        (RuleKind.STOP, "no flow or no air"),
        (RuleKind.STOP, "power out"),
    ],
)
def test_what_must_not_be_missing(kind: RuleKind, words: str) -> None:
    assert any(words in one.lower() for one in rules_of(kind))
