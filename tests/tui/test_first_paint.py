"""What a fresh interpreter loads before the interface is painted, and before the first chores stand there."""

from __future__ import annotations

import subprocess
import sys

SHELL = "import farmops.tui.start"
ROUND = "import farmops.tui.start, farmops.tui.screens.chores, farmops.reports.row, farmops.reports.round"
NEVER = {"sqlalchemy", "sqlmodel", "alembic", "pandas", "numpy", "scipy"}
NOT_OF_THE_SHELL = {
    f"farmops.{room}" for room in ("facts.chores", "model.chores", "reports.row", "tui.widgets.listing")
}
NOT_OF_THE_ROUND = {
    "farmops.tui.forms",
    "farmops.tui.screens.money",
    "farmops.reports.lists",
    "farmops.reports.returns",
    "farmops.reports.water",
    "farmops.library",
    "farmops.science",
}


def loaded(statement: str) -> set[str]:
    """The modules that a fresh interpreter holds after a statement."""
    program = f"import sys\n{statement}\nprint(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    return set(done.stdout.split())


def test_the_first_paint_waits_for_no_place_and_no_report() -> None:
    found = loaded(SHELL)
    assert "textual.app" in found
    assert not found & (NEVER | NOT_OF_THE_SHELL | NOT_OF_THE_ROUND)


def test_the_round_waits_for_no_form_no_books_and_no_judging_of_water() -> None:
    found = loaded(ROUND)
    assert found >= NOT_OF_THE_SHELL
    assert not found & (NEVER | NOT_OF_THE_ROUND)
