"""A change loads the rules and the tables of what it writes: all of them, and no others."""

from __future__ import annotations

import subprocess
import sys
from collections import defaultdict
from collections.abc import Iterator
from importlib import import_module
from pkgutil import iter_modules

import farmops.farm
from farmops.farm.operation import ALONE, OVER, RULES
from farmops.farm.ruled import RULED_BY
from farmops.records.rows import HOMES, row_of

FARM = "farmops.farm."
BOOKS_A_HARVEST = """
import sys, farmops.farm.harvests
from farmops.farm.ruled import load_rules
from farmops.records.rows import load_linked, row_of
load_rules(["harvest"])
load_linked([row_of("harvest")])
print(*sys.modules)
"""


def ruled() -> Iterator[tuple[str, str]]:
    """Each table and the module of a rule over it."""
    for rules in (RULES, ALONE):
        for kind, checks in rules.items():
            yield from ((kind.table_name(), check.__module__) for check in checks)
    for tables, over in OVER:
        yield from ((table, over.__module__) for table in tables)


def test_every_table_names_the_modules_that_hold_rules_over_it() -> None:
    for module in iter_modules(farmops.farm.__path__):
        import_module(FARM + module.name)
    found: dict[str, set[str]] = defaultdict(set)
    for table, module_name in ruled():
        if module_name.startswith(FARM):  # tests register some of their own
            found[table].add(module_name.removeprefix(FARM))
    assert {table: set(modules) for table, modules in RULED_BY.items()} == found


def test_every_table_is_found_by_its_name() -> None:
    assert {table: row_of(table).table_name() for table in HOMES} == {table: table for table in HOMES}


def test_who_books_a_weighing_waits_for_no_other_books() -> None:
    done = subprocess.run([sys.executable, "-c", BOOKS_A_HARVEST], check=True, capture_output=True, text=True)
    loaded = set(done.stdout.split())
    assert loaded >= {"farmops.farm.holds", "farmops.farm.populations", "farmops.records.plantings"}
    assert not loaded & {"farmops.farm.sales", "farmops.records.sales", "farmops.records.tables", "farmops.farm.undo"}
