"""Files of records row by row: each kind is booked in the room of what it is about, all of a file in one operation."""

from __future__ import annotations

from farmops.farm.file_rows.rows import Aside, FileRow, FileRows, RowsBooked
from farmops.farm.file_rows.run import book_rows

__all__ = ["Aside", "FileRow", "FileRows", "RowsBooked", "book_rows"]
