"""The journal: an append-only chain of operations, each sealed with the hash of the one before."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import BigInteger, Text
from sqlmodel import Field, SQLModel

from farmops.records.base import Instant, check, table_options, unique, words


class JournalRow(SQLModel, table=True):
    """One operation: who, when, through what, its rows before and after, its result."""

    __tablename__ = "journal"
    __table_args__ = table_options(unique("operation"), check("hash_length", "length(hash) = 64"))

    seq: int = Field(sa_type=BigInteger, primary_key=True, sa_column_kwargs={"autoincrement": False})
    operation: str = words()
    at: datetime = Field(sa_type=Instant)
    actor: str = words()
    through: str = words()
    name: str = words()
    undoes: str | None = Field(default=None, sa_type=Text, index=True)
    redoes: str | None = words(required=False)
    schema_version: str = words()
    images: str = words()
    result: str = words()
    previous: str = words()
    hash: str = words()
