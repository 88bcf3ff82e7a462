"""`python -m tests.bench [--large] [--write]`: ratios of medians in one run; `--write` keeps them in the docs."""

from __future__ import annotations

import argparse
import os
import platform
import tempfile
from collections.abc import Iterator
from pathlib import Path

from farmops.exchange.demo import make_demo
from farmops.records.store import Store
from tests.bench import commands, reads, screens, stores, writes
from tests.bench.timing import Ratio

PAGE = Path(__file__).parents[2] / "docs" / "benchmarks.md"
HEAD = "| what | ours | against | yardstick | ratio | aim | met |\n|---|---|---|---|---|---|---|"


def ratios(folder: Path, *, large: bool) -> Iterator[Ratio]:
    """All benchmarks, small first."""
    demo = Store(str(folder / "demo.db"))
    make_demo(demo)
    demo.close()
    place = Path(demo.place)
    yield from commands.start_up(place)
    yield from screens.starts(place)
    yield from screens.keys(place)
    yield from screens.at_rest(place)
    small = stores.make(folder / "small.db", stores.SMALL)
    yield from _on(small, stores.SMALL, runs=15)
    yield commands.harvest(small)
    ours, bare = writes.booking(small, folder / "bare.db")
    yield Ratio("one booking in process, small", ours, bare, "a bare durable insert", writes.AIM_BARE)
    if large:
        big = stores.make(folder / "large.db", stores.LARGE)
        yield from _on(big, stores.LARGE, runs=3)
        on_big, _ = writes.booking(big, folder / "bare2.db")
        yield Ratio("one booking in process, large", on_big, ours, "the same on the small store", writes.AIM_LARGE)


def _on(store: Store, size: stores.Size, runs: int) -> Iterator[Ratio]:
    words = f"{size.units} units, {size.weighings:,} weighings"
    yield reads.returns_of(store, f"12 months, {words}", reads.year_before(stores.LAST), runs)
    yield reads.returns_of(store, f"10 years, {words}", stores.LAST.replace(year=stores.LAST.year - 10), runs)
    yield reads.due_list(store, f"{size.chores:,} chores", runs)


def as_installed(folder: Path) -> None:
    """Programs that are started run from compiled files, as an installed package does, and with nobody's settings."""
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    os.environ.update(PYTHONPYCACHEPREFIX=str(folder / "compiled"), FARMOPS_SETTINGS=str(folder / "settings.toml"))


def main() -> None:
    """Measure, print, and keep."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--large", action="store_true", help="also a farm of 500 units and 1,000,000 weighings")
    parser.add_argument("--write", action="store_true", help="keep the figures in docs/benchmarks.md")
    chosen = parser.parse_args()
    print(HEAD)
    rows = []
    with tempfile.TemporaryDirectory() as folder:
        as_installed(Path(folder))
        for one in ratios(Path(folder), large=chosen.large):
            rows.append(one.row())
            print(rows[-1], flush=True)
    if chosen.write:
        machine = f"Python {platform.python_version()}, {platform.system()} {platform.machine()}"
        table = "\n".join((HEAD, *rows))
        text = PAGE.read_text(encoding="utf-8")
        before, _, rest = text.partition("<!-- figures -->")
        _, _, after = rest.partition("<!-- end -->")
        PAGE.write_text(f"{before}<!-- figures -->\n{machine}\n\n{table}\n<!-- end -->{after}", encoding="utf-8")


main()
