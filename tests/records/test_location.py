"""Where a farm lies: named, from the environment, or in the platform's data folder."""

from __future__ import annotations

from pathlib import Path

import pytest
from platformdirs import user_data_path

from farmops.records.location import VARIABLE, resolve

URL = "postgresql+psycopg://ada@barn/farm"


def test_what_is_named_counts_before_the_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(VARIABLE, "/srv/other.db")
    assert resolve("/srv/farm.db") == "/srv/farm.db"
    assert resolve(None) == "/srv/other.db"
    assert resolve("") == "/srv/other.db"


def test_without_a_name_it_is_a_file_in_the_data_folder(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(VARIABLE, raising=False)
    assert resolve(None) == str(user_data_path("farmops", appauthor=False) / "farm.db")


def test_the_home_folder_may_be_a_tilde_and_a_url_stays_as_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HOME", "/home/ada")
    assert resolve("~/farm.db") == str(Path("/home/ada/farm.db"))
    assert resolve(URL) == URL
