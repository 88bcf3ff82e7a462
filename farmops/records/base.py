"""What all tables share: the base row, names of constraints, and types that SQLite keeps strictly."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, datetime
from enum import StrEnum
from typing import Any, ClassVar

from sqlalchemy import BigInteger, CheckConstraint, Column, DateTime, ForeignKey, Text, UniqueConstraint
from sqlalchemy.ext.compiler import compiles
from sqlalchemy.types import Boolean, Date, Float, Integer, String, TypeDecorator
from sqlmodel import Field, SQLModel

SQLModel.metadata.naming_convention = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s",
    "pk": "pk_%(table_name)s",
}
metadata = SQLModel.metadata

STRICT_NAMES = {
    String: "TEXT",
    Text: "TEXT",
    Date: "TEXT",
    DateTime: "TEXT",
    Integer: "INTEGER",
    Float: "REAL",
}
for _type, _name in (*STRICT_NAMES.items(), (BigInteger, "INTEGER"), (Boolean, "INTEGER")):
    compiles(_type, "sqlite")(lambda element, compiler, name=_name, **kw: name)


class Instant(TypeDecorator[datetime]):
    """An instant in UTC: `timestamptz` on PostgreSQL, ISO text on SQLite, aware in Python on both."""

    impl = DateTime(timezone=True)
    cache_ok = True

    @property
    def python_type(self) -> type[datetime]:
        """What a value is in Python."""
        return datetime

    def process_bind_param(self, value: datetime | None, dialect: Any) -> datetime | None:
        """Store in UTC."""
        return value.astimezone(UTC) if value else None

    def process_result_value(self, value: datetime | None, dialect: Any) -> datetime | None:
        """Read back as UTC, which SQLite does not keep."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


class Row(SQLModel):
    """A record of the farm: an id that is never used again and the operation that last wrote it."""

    derived: ClassVar[frozenset[str]] = frozenset()

    id: int = Field(default=None, sa_type=BigInteger, primary_key=True)
    operation: str = Field(default="", sa_type=Text)

    @classmethod
    def table_name(cls) -> str:
        """The name of the table these rows live in."""
        return str(cls.__tablename__)


def table_options(*constraints: Any) -> tuple[Any, ...]:
    """Table arguments: the constraints, then STRICT and AUTOINCREMENT for SQLite."""
    return (*constraints, {"sqlite_autoincrement": True, "sqlite_strict": True})


def check(name: str, condition: str) -> CheckConstraint:
    """A CHECK with a name of its own."""
    return CheckConstraint(condition, name=name)


def one_of(column: str, words: Iterable[StrEnum]) -> CheckConstraint:
    """A CHECK that a column holds one of an enum's words."""
    listed = ", ".join(f"'{word.value}'" for word in words)
    return CheckConstraint(f"{column} IN ({listed})", name=f"{column}_known")


def unique(*columns: str) -> UniqueConstraint:
    """A UNIQUE over columns, named by convention."""
    return UniqueConstraint(*columns)


def link(table: str, *, required: bool = True) -> Any:
    """A column that points to a row of another table, indexed."""
    target = ForeignKey(f"{table}.id", deferrable=True, initially="IMMEDIATE")
    column: Column[int] = Column(BigInteger, target, nullable=not required, index=True)
    return Field(default=None, sa_column=column)


def whole(*, required: bool = True) -> Any:
    """A column of big whole numbers."""
    return Field(default=None, sa_type=BigInteger, nullable=not required)


def words(*, required: bool = True) -> Any:
    """A column of text."""
    return Field(default=None, sa_type=Text, nullable=not required)
