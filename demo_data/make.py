"""Makes the long files of the invented farm from the short ones beside them: the same bytes every time."""

from __future__ import annotations

import argparse
import csv
import shutil
from collections.abc import Iterable, Sequence
from pathlib import Path

import growing
import running
import selling
import settling
import spending
import tending
import watching

HERE = Path(__file__).parent
BY_HAND = (
    "farm",
    "people",
    "units",
    "unit_states",
    "beds",
    "crops",
    "fish",
    "prices",
    "chores",
    "chore_changes",
    "template_changes",
    "forecasts",
    "contacts",
    "absences",
    "incidents",
    "notes",
    "supplies",
    "bought",
    "fed_with",
    "devices",
    "power_prices",
    "sharing",
    "papers",
    "orders",
    "recurring",
    "instruments",
    "instrument_checks",
    "sources",
    "top_ups",
    "doses",
    "treatments",
    "own_limits",
)
MADE = {
    "plantings": ("unit,bed,crop,started,by_means,cleared,plants,area,variety,note", growing.planting_rows),
    "harvests": ("date,unit,bed,crop,weight,tare,count,use,note,by", growing.harvest_rows),
    "costs": ("date,what,amount,category,payee,unit,kind,life_months,salvage,note,by", spending.cost_rows),
    "sales": ("date,buyer,place,what,weight,tare,price,by", selling.sale_rows),
    "settlements": ("date,place,chore,was_due,how,until,reason,confirmed,minutes,by", settling.settlement_rows),
    "usage": ("date,unit,counter,amount,note,by", running.usage_rows),
    "cycles": ("date,unit,fill,drain,by", running.cycle_rows),
    "water": (f"date,unit,{','.join(watching.HEADS)},by", watching.water_rows),
    "feedings": ("date,lot,amount,ate,note,by", tending.feeding_rows),
    "samples": ("date,lot,number,weight,by", tending.sample_rows),
    "losses": ("date,lot,number,cause,disposal,note,by", tending.loss_rows),
}


def read(name: str) -> list[dict[str, str]]:
    """The rows of a file written by hand."""
    with (HERE / f"{name}.csv").open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def write(folder: Path, name: str, heads: Sequence[str], rows: Iterable[Sequence[object]]) -> None:
    """A CSV file with Unix line ends."""
    with (folder / f"{name}.csv").open("w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(heads)
        writer.writerows(rows)


def make(folder: Path) -> None:
    """Every file of the farm into a folder: those made, and copies of those written by hand."""
    folder.mkdir(parents=True, exist_ok=True)
    known = {name: read(name) for name in BY_HAND}
    for name in BY_HAND:
        if folder.resolve() != HERE.resolve():
            shutil.copyfile(HERE / f"{name}.csv", folder / f"{name}.csv")
    for name, (heads, rows) in MADE.items():
        write(folder, name, heads.split(","), rows(known))


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--into", type=Path, default=HERE, help="The folder to write to. [beside this script]")
    make(parser.parse_args().into)
