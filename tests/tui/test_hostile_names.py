"""Every place, list, form and answer of the interface on a farm of hostile names: text, and nothing but text."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest

from farmops.tui.actions import ACTIONS, ANYWHERE, LIST, PLACES, Action
from farmops.tui.screens.record_kinds import KINDS
from tests.faults.hostile_names import ENTERED, HOSTILE, MARKUP, hostile_database, hostile_farm, obeyed, swallowed
from tests.profiles import count
from tests.servers import Server, database_of
from tests.tui.demo import LARGE, SMALL, Driver, frame_of, go_to, on_screen, press, running
from tests.tui.test_fuzz import NAMED

TEXTS = {"hostile": HOSTILE, "entered": ENTERED}
RUNS = [
    ("hostile", LARGE, "file"),
    ("hostile", SMALL, "server"),
    ("hostile", SMALL, "file"),
    ("entered", LARGE, "server"),
    ("entered", LARGE, "file"),
    ("entered", SMALL, "file"),
][: count(ci=2, full=6)]
LEFT_OUT = ("quit", "theme", "palette", "take-back", "put-aside", "copy")
"""What shows nothing of the farm, or ends the interface."""
OF_ANY_PLACE = ("weigh", "power-cut", "why", "help", "undo", "redo")
EVERY = count(ci=6, full=1)
SHUT = ("escape", "escape", "escape")


Run = tuple[str, tuple[int, int]]


@pytest.fixture(scope="module")
def files(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """A file of each text that is wanted."""
    folder = tmp_path_factory.mktemp("hostile")
    wanted = {text for text, _, held in RUNS if held == "file"}
    return {text: hostile_farm(sqlite_template, folder / f"{text}.db", TEXTS[text]) for text in wanted}


@pytest.fixture(scope="module")
def databases(postgres_server: Server) -> Iterator[dict[str, str]]:
    """A database of each text that is wanted, by name."""
    wanted = {text for text, _, held in RUNS if held == "server"}
    with ExitStack() as stack:
        yield {text: stack.enter_context(hostile_database(postgres_server, TEXTS[text])) for text in wanted}


@pytest.fixture(params=RUNS, ids=lambda one: f"{one[0]} {one[1][0]} {one[2]}")
def run(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Run]:
    """A farm of its own full of one text, and how large the screen is."""
    text, size, held = request.param
    if held == "file":
        yield str(shutil.copy(request.getfixturevalue("files")[text], tmp_path / "farm.db")), size
        return
    server: Server = request.getfixturevalue("postgres_server")
    with server.database(template=database_of(request.getfixturevalue("databases")[text])) as url:
        yield url, size


def assert_only_text(pilot: Driver, where: str) -> None:
    """Nothing on the screen is obeyed, and no markup was carried out."""
    assert pilot.app._exception is None, where
    text = on_screen(pilot.app)
    assert obeyed(text) == [], f"{where}\n{text}"
    assert swallowed(text) == [], f"{where}\n{text}"


def actions_of(place: str) -> list[Action]:
    """What can be done in a place, each by its first key."""
    return [
        one
        for one in ACTIONS
        if one.id not in LEFT_OUT and (one.where in (place, LIST) or (one.where == ANYWHERE and one.id in OF_ANY_PLACE))
    ]


@pytest.mark.parametrize(("at", "place"), list(enumerate(PLACES)), ids=PLACES)
async def test_no_place_and_nothing_that_opens_in_it_takes_a_name_for_more(run: Run, at: int, place: str) -> None:
    farm, size = run
    async with running(farm, size=size, by="Bea") as pilot:
        await go_to(pilot, place)
        assert_only_text(pilot, place)
        for one in actions_of(place)[at % EVERY :: EVERY]:
            await press(pilot, NAMED.get(one.keys[0], one.keys[0]))
            assert_only_text(pilot, f"{place}, {one.id}")
            await press(pilot, "down", "enter")
            assert_only_text(pilot, f"{place}, {one.id}, enter")
            await press(pilot, *SHUT)
            assert_only_text(pilot, f"{place}, after {one.id}")
            if frame_of(pilot.app).open_place != place:
                await go_to(pilot, place)


async def test_every_list_of_records_its_form_and_its_questions(run: Run) -> None:
    (farm, size), seen = run, 0
    async with running(farm, size=size, by="Bea") as pilot:
        await go_to(pilot, "records")
        for at, kind in enumerate(KINDS):
            assert_only_text(pilot, kind.name)
            seen += MARKUP in on_screen(pilot.app)
            for key in ("e", "x", "w")[at % EVERY :: EVERY]:
                await press(pilot, key)
                assert_only_text(pilot, f"{kind.name}, {key}")
                await press(pilot, *SHUT)
            await press(pilot, "full_stop")
    assert seen > len(KINDS) // 2
