"""Changing a table that exists already: in place on PostgreSQL, by building it anew on SQLite.

SQLite can neither add a link nor change a CHECK, and a column it adds stands behind the constraints of the
statement it keeps. Building anew keeps AUTOINCREMENT, STRICT and the highest id that was ever given.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

import sqlalchemy as sa
from alembic import op
from sqlalchemy.schema import CreateColumn


def change_table(
    table: str,
    *,
    columns: Sequence[sa.Column[object]] = (),
    links: Mapping[str, str] | None = None,
    checks: Mapping[str, str | None] | None = None,
) -> None:
    """Add columns at the end, links from new columns to tables, and write named CHECKs anew or for the first time.

    A CHECK that is given as None is dropped.
    """
    change = _build_anew if op.get_bind().dialect.name == "sqlite" else _alter
    change(table, columns, links or {}, checks or {})
    for column in links or {}:
        op.create_index(f"ix_{table}_{column}", table, [column])


def _alter(
    table: str, columns: Sequence[sa.Column[object]], links: Mapping[str, str], checks: Mapping[str, str | None]
) -> None:
    for column in columns:
        op.add_column(table, column)
    for column_name, target in links.items():
        name = f"fk_{table}_{column_name}"
        op.create_foreign_key(name, table, target, [column_name], ["id"], initially="IMMEDIATE", deferrable=True)
    for name, condition in checks.items():
        op.execute(f"ALTER TABLE {table} DROP CONSTRAINT IF EXISTS ck_{table}_{name}")
        if condition is not None:
            op.create_check_constraint(op.f(f"ck_{table}_{name}"), table, condition)


def _build_anew(
    table: str, columns: Sequence[sa.Column[object]], links: Mapping[str, str], checks: Mapping[str, str | None]
) -> None:
    connection = op.get_bind()
    statement = _value(f"SELECT sql FROM sqlite_master WHERE type = 'table' AND name = '{table}'")
    indexes = connection.exec_driver_sql(
        f"SELECT sql FROM sqlite_master WHERE type = 'index' AND tbl_name = '{table}' AND sql IS NOT NULL"
    ).fetchall()
    kept = ", ".join(f'"{row[1]}"' for row in connection.exec_driver_sql(f"PRAGMA table_info({table})"))
    highest = _value(f"SELECT COALESCE(MAX(seq), 0) FROM sqlite_sequence WHERE name = '{table}'")
    op.execute(_rewritten(str(statement), table, columns, links, checks))
    op.execute(f"INSERT INTO {table}_anew ({kept}) SELECT {kept} FROM {table}")
    op.execute(f"DROP TABLE {table}")
    op.execute(f"ALTER TABLE {table}_anew RENAME TO {table}")
    op.execute(f"DELETE FROM sqlite_sequence WHERE name = '{table}'")
    op.execute(f"INSERT INTO sqlite_sequence (name, seq) VALUES ('{table}', {highest})")
    for (index,) in indexes:
        op.execute(index)


def _value(query: str) -> object:
    return op.get_bind().exec_driver_sql(query).scalar_one()


def _rewritten(
    statement: str,
    table: str,
    columns: Sequence[sa.Column[object]],
    links: Mapping[str, str],
    checks: Mapping[str, str | None],
) -> str:
    """The statement that made the table with the changes in it, for a table called anew."""
    head, _, rest = statement.partition("(")
    body, _, tail = rest.rpartition(")")
    lines = [line.strip().rstrip(",") for line in body.splitlines() if line.strip()]
    plain = [line for line in lines if not line.startswith("CONSTRAINT ")]
    named = {line.split()[1].strip('"'): line for line in lines if line.startswith("CONSTRAINT ")}
    dialect = op.get_bind().dialect
    plain += [str(CreateColumn(column).compile(dialect=dialect)) for column in columns]
    for name, condition in checks.items():
        named.pop(f"ck_{table}_{name}", None)
        if condition is not None:
            named[f"ck_{table}_{name}"] = f"CONSTRAINT ck_{table}_{name} CHECK ({condition})"
    for column_name, target in links.items():
        name = f"fk_{table}_{column_name}"
        named[name] = (
            f"CONSTRAINT {name} FOREIGN KEY({column_name}) REFERENCES {target} (id) DEFERRABLE INITIALLY IMMEDIATE"
        )
    made = re.sub(rf'CREATE TABLE "?{table}"?', f"CREATE TABLE {table}_anew", head)
    return f"{made}(\n\t" + ", \n\t".join([*plain, *named.values()]) + f"\n){tail}"
