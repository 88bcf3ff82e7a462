"""A farm whose every free text holds what a terminal, a page or a spreadsheet could take for more than text."""

from __future__ import annotations

import re
import shutil
import sqlite3
import unicodedata
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from sqlalchemy import Table
from sqlalchemy import text as sql

from farmops.records.store import Store
from farmops.records.whole import TABLES
from tests.farmhand import TODAY
from tests.frozen import frozen
from tests.land import lay
from tests.servers import Server

MARKUP = "[red]x[/]"
HOSTILE = f"={MARKUP}\x1b[31m\x1b]52;c;eHh4\x07\u202e\u200b<script>{{{{x}}}}%s'\"\\\x9b2J\n\t|"
"""Begins like a formula, holds markup, escapes, an override, a page's script, a template's braces, a line's end."""
ENTERED = f"={MARKUP}<script>&amp;{{{{x}}}}%s'\"\\, -1 {'e' + chr(0x301)} 羽衣甘蓝"
"""What a person can type just so."""
NO_FREE_TEXT = frozenset(
    (
        *("operation", "code", "kind", "category", "library_key", "rule_kind", "rule_text", "rule_words", "rule"),
        *("readings", "months", "states", "kinds", "key", "template_key", "step", "time_zone", "fingerprint"),
        *("receipt", "file", "receipt_sha256", "file_sha256", "measures", "calls_for", "undoes", "redoes"),
        *("schema_version", "state", "started_by", "use", "grade", "part", "applies_to", "occasion", "measure", "form"),
        *("counter", "changed", "driver", "method", "sold_by", "held_by", "cause", "disposal", "ate", "through"),
        *("images", "result", "previous", "hash", "mass", "volume", "area", "length", "temperature", "currency"),
    )
)
"""Columns whose words are one of a few, a rule, a code or a sum; numbers as typed are those that end in typed."""
CODED = {("bed", "name"), ("journal", "name"), ("instrument_check", "against"), ("instrument_check", "showed")}
CHECKS = """
    SELECT conrelid::regclass::text, conname FROM pg_constraint
    WHERE contype = 'c' AND connamespace = current_schema()::regnamespace
"""
OBEYED = ("Cc", "Cf", "Cs", "Zl", "Zp")


def free_texts(table: Table) -> list[str]:
    """The columns of a table into which a person writes what he likes."""
    return [
        column.name
        for column in table.columns
        if column.type.python_type is str
        and column.name not in NO_FREE_TEXT
        and not column.name.endswith("typed")
        and column.name != "typed"
        and (table.name, column.name) not in CODED
    ]


def hostile_farm(template: Path, place: Path, text: str) -> Path:
    """The varied farm with that text, and where it stands, in every free text of every row."""
    store = Store(str(shutil.copy(template, place)))
    with frozen(TODAY):
        lay(store)
    store.close()
    with closing(sqlite3.connect(place)) as connection:
        connection.execute("PRAGMA ignore_check_constraints = ON")
        for statement in fillings():
            connection.execute(statement, {"said": text})
        connection.commit()
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    return place


@contextmanager
def hostile_database(server: Server, said: str) -> Iterator[str]:
    """The same farm in a database of a server, whose rules let the text pass as those of the file did."""
    with server.database() as url:
        store = Store(url)
        with frozen(TODAY):
            lay(store)
        with store.engine.begin() as connection:
            for table, rule in connection.execute(sql(CHECKS)).all():
                connection.execute(sql(f"ALTER TABLE {table} DROP CONSTRAINT {rule}"))
            for statement in fillings():
                connection.execute(sql(statement), {"said": said})
        store.close()
        yield url


def fillings() -> Iterator[str]:
    """What puts the text `:said`, and where it stands, into every free text of every row."""
    for table in TABLES.values():
        row = "seq" if table.name == "journal" else "id"
        for column in free_texts(table):
            hostile = f"CAST(:said AS TEXT) || '{table.name}.{column}.' || {row}"
            yield f"UPDATE {table.name} SET {column} = {hostile} WHERE {column} IS NOT NULL"


def obeyed(text: str, *, harmless: str = "\n") -> list[str]:
    """The signs in what was shown that a terminal would obey."""
    found = {sign for sign in text if unicodedata.category(sign) in OBEYED and sign not in harmless}
    return sorted(map(ascii, found))


SWALLOWED = re.compile(r"=(?!\[red\])x?(?:\[/\])?(?:\\x1b|<script>)")


def swallowed(text: str) -> list[str]:
    """Where markup was carried out: the text begins, and its tags are gone."""
    return SWALLOWED.findall("".join(text.split()))
