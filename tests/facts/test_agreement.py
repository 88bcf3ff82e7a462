"""Every answer that facts give by SQL is what the tables say row by row, on both databases."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
from collections.abc import Callable, Iterator
from types import ModuleType
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings

import farmops.facts
from farmops.records.store import Store
from tests.facts import (
    of_absences,
    of_books,
    of_chores,
    of_conditions,
    of_drifting,
    of_fish,
    of_incidents,
    of_journal,
    of_keeping,
    of_limits,
    of_picking,
    of_places,
    of_rations,
    of_readings,
    of_sales,
    of_soundness,
    of_templates,
    of_treatments,
    of_unit_feed,
    of_usage,
    of_water,
    of_work,
)
from tests.facts.tables import CHECKS, Tables
from tests.farmhand import emptied
from tests.farms import Script, carry_out, scripts
from tests.land import Land
from tests.profiles import count

ANSWERED = (
    of_absences,
    of_books,
    of_chores,
    of_conditions,
    of_drifting,
    of_fish,
    of_incidents,
    of_journal,
    of_keeping,
    of_limits,
    of_places,
    of_picking,
    of_rations,
    of_readings,
    of_soundness,
    of_sales,
    of_templates,
    of_treatments,
    of_unit_feed,
    of_usage,
    of_water,
    of_work,
)


def modules() -> Iterator[ModuleType]:
    for found in pkgutil.walk_packages(farmops.facts.__path__, "farmops.facts."):
        yield importlib.import_module(found.name)


def functions_that_read() -> set[Callable[..., Any]]:
    """The public functions of facts that are given a reader."""
    return {
        function
        for module in modules()
        for name, function in inspect.getmembers(module, inspect.isfunction)
        if function.__module__ == module.__name__
        and not name.startswith("_")
        and next(iter(inspect.signature(function).parameters), None) == "reader"
    }


def told(function: Callable[..., Any]) -> str:
    return f"{function.__module__.rpartition('.')[2]}.{function.__name__}"


def disagreements(store: Store, rows: Tables, function: Callable[..., Any]) -> tuple[int, list[str]]:
    """How many questions were put, and those to which SQL and tables say something else."""
    asked, found = 0, []
    with store.reading() as reader:
        for arguments, expected in CHECKS[function](rows):
            asked += 1
            said = function(reader, *arguments)
            if not expected == said:  # noqa: SIM201 - an unordered answer knows how to compare itself
                found.append(f"{told(function)}{arguments}: {said} but {expected}")
    return asked, found


def test_every_function_that_reads_is_checked_here():
    assert functions_that_read() == set(CHECKS)


@pytest.fixture(scope="session")
def laid_rows(laid: Land) -> Tables:
    """All rows of the varied farm."""
    return Tables(laid.store)


@pytest.mark.parametrize("function", sorted(functions_that_read(), key=told), ids=told)
def test_sql_says_what_the_tables_say(laid: Land, laid_rows: Tables, function: Callable[..., Any]):
    asked, found = disagreements(laid.store, laid_rows, function)
    assert asked
    assert found == []


@settings(
    max_examples=count(ci=4, full=300),
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(script=scripts())
def test_sql_says_what_the_tables_say_on_any_farm(store: Store, script: Script):
    carry_out(emptied(store), script)
    rows = Tables(store)
    for function in CHECKS:
        assert disagreements(store, rows, function)[1] == []
