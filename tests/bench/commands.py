"""Whole commands: what a person waits for at the prompt."""

from __future__ import annotations

import itertools
import os
import sys
from pathlib import Path

from farmops.farm.beds import add_bed
from farmops.farm.plantings import add_crop, plant
from farmops.farm.units import add_unit
from farmops.model.beds import NewBed
from farmops.model.plantings import NewCrop, NewPlanting
from farmops.model.units import NewUnit, UnitState
from farmops.records.store import Store
from tests.bench.stores import LAST
from tests.bench.timing import Ratio, command, in_turn

BARE = (sys.executable, "-c", "import sqlite3")
RUNS = 9
AIM_START, AIM_HARVEST = 4.0, 36.0


def farmops(place: Path, *arguments: str) -> tuple[str, ...]:
    """The command line of farmops on a store, started as its script starts it."""
    return (sys.executable, "-c", "from farmops.main import main; main()", "--farm", str(place), *arguments)


def start_up(place: Path) -> list[Ratio]:
    """Commands that only read, against a bare interpreter that opens SQLite."""
    env = {**os.environ, "FARMOPS_FARM": str(place)}
    named = {"--version": ("--version",), "--help": ("--help",), "chores": ("chores",)}
    times = in_turn(RUNS, command(BARE, env), *(command(farmops(place, *words), env) for words in named.values()))
    return [
        Ratio(f"farmops {name}", ours, times[0], "python -c 'import sqlite3'", AIM_START)
        for name, ours in zip(named, times[1:], strict=True)
    ]


def harvest(store: Store) -> Ratio:
    """A weighing booked by command, on disk when it returns."""
    unit = add_unit(store, NewUnit("SCALE", LAST, state=UnitState.RUNNING, chores=False), by="bench")
    bed = add_bed(store, NewBed(unit.id, "N", LAST), by="bench")
    crop = add_crop(store, NewCrop("KALE"), by="bench")
    plant(store, NewPlanting(bed.id, crop.id, LAST), by="bench")
    store.close()
    ounces = itertools.cycle(range(1, 16))

    def weigh() -> None:
        command(farmops(Path(store.place), "harvest", "SCALE-N", "KALE", f"1 {next(ounces)}"))()

    bare, ours = in_turn(RUNS, command(BARE), weigh)
    return Ratio("farmops harvest, durable", ours, bare, "python -c 'import sqlite3'", AIM_HARVEST)
