"""Packaged values that were read in their sources stand unchanged in the tables."""

from __future__ import annotations

import pytest

from farmops.library import Standing, all_species, chore_templates, crops, tables
from tests.labels import published, rows

VALUES = rows("library_facts.csv", "table", "key", "column", "value", "source")


def cell(table: str, key: str, column: str) -> str:
    return next(row[column] for row in tables.read(f"{table}.csv") if row["key"] == key)


@pytest.mark.parametrize(
    ("table", "key", "column", "value"),
    [pytest.param(*row, marks=published(source), id="-".join(row[:3])) for *row, source in VALUES],
)
def test_value_is_the_one_of_its_source(table: str, key: str, column: str, value: str) -> None:
    assert cell(table, key, column) == value


def test_rows_called_verified_are_those_whose_source_was_read() -> None:
    standings = [(row.key, row.standing) for row in crops()]
    standings += [(row.key, row.standing) for row in all_species()]
    standings += [(row.key, row.standing) for row in chore_templates()]
    verified = {key for key, standing in standings if standing is Standing.VERIFIED}
    assert verified == {"basil", "container-history", "first-fill", "stocking-papers", "ground-fault-test"}
