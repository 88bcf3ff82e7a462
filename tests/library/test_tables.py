"""Reading of packaged tables: comments, lists, empty cells, months, names."""

from __future__ import annotations

import pytest

from farmops.library import tables


@pytest.mark.parametrize("table", ["chore_templates.csv", "crops.csv", "species.csv"])
def test_every_line_has_the_columns_of_the_head(table: str) -> None:
    for row in tables.read(table):
        assert None not in row
        assert None not in row.values()
        assert not row["key"].startswith("#")
        assert all(cell == cell.strip() for cell in row.values())


@pytest.mark.parametrize(("cell", "parts"), [("", ()), ("pH", ("pH",)), ("a; b ;c", ("a", "b", "c"))])
def test_list_cell(cell: str, parts: tuple[str, ...]) -> None:
    assert tables.words(cell) == parts


def test_empty_number_is_unknown_not_zero() -> None:
    assert tables.number("") is None
    assert tables.whole("") is None
    assert tables.number("0.5") == 0.5
    assert tables.whole("7") == 7


@pytest.mark.parametrize(("cell", "value"), [("yes", True), ("no", False)])
def test_yes_and_no(cell: str, value: bool) -> None:
    assert tables.yes(cell) is value


@pytest.mark.parametrize("cell", ["", "maybe", "Yes"])
def test_neither_yes_nor_no(cell: str) -> None:
    with pytest.raises(ValueError, match="neither yes nor no"):
        tables.yes(cell)


@pytest.mark.parametrize(
    ("cell", "months"), [("", ()), ("4-9", (4, 5, 6, 7, 8, 9)), ("11-2", (11, 12, 1, 2)), ("7-7", (7,))]
)
def test_span_of_months(cell: str, months: tuple[int, ...]) -> None:
    assert tables.span_of_months(cell) == months


@pytest.mark.parametrize("name", ["spring-onion", "Spring  Onion", " SPRING ONION "])
def test_names_are_compared_without_case_and_hyphens(name: str) -> None:
    assert tables.lookup_name(name) == "spring onion"
