"""A corpus of files that mean harm or are not what their name says; large ones are made when they are wanted."""

from __future__ import annotations

import io
import os
import sqlite3
import struct
import zipfile
import zlib
from collections.abc import Callable, Mapping
from contextlib import closing
from pathlib import Path

HEAD = "date,unit,bed,lot,crop,measure,value,what,amount,number,weight,feed,started,label,name,note\n"
DAY = "2026-05-03"
LINE = f"{DAY},WREN,N,P1,CHARD,pH,7.1,feed,5,1,1 lb,1 lb,{DAY},seed,A,\n"
SIGNS = (
    "[red]x[/]",
    "\x1b[31mred",
    "\x1b]52;c;ZXZpbA==\x07",
    "\x9b2J",
    "two\nlines",
    "tab\there",
    "kale\u202egpj",
    "zero\u200bwidth",
    "e" + "\u0301" * 200,
    "羽衣甘蓝" * 20,
    '=HYPERLINK("http://x","y")',
    "+1+cmd|'/C calc'!A0",
    "@SUM(1)",
    "-2+3",
    "<script>alert(1)</script>",
    "{{x}}",
    "{0.__class__}",
    "%s%n%(x)s",
    "\\",
    "'; DROP TABLE unit; --",
    '"',
    "x" * 4_000,
)
"""Texts that a terminal, a page, a spreadsheet, a template or a database could take for more than text."""

Make = Callable[[Path], None]


def as_bytes(content: bytes | Callable[[], bytes]) -> Make:
    """A plain file of that content."""

    def make(path: Path) -> None:
        path.write_bytes(content() if callable(content) else content)

    return make


def zipped(parts: Mapping[str, bytes | str]) -> bytes:
    """A zip of these parts."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as made:
        for name, content in parts.items():
            made.writestr(name, content)
    return out.getvalue()


WORKBOOK = """<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"
 xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships">
<sheets><sheet name="{name}" sheetId="1" r:id="rId1"/></sheets></workbook>"""
RELATED = """<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
<Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet"
 Target="worksheets/sheet1.xml"/></Relationships>"""
TYPES = """<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
<Default Extension="xml" ContentType="application/xml"/>
<Override PartName="/xl/workbook.xml"
 ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>
<Override PartName="/xl/worksheets/sheet1.xml"
 ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>
<Override PartName="/xl/sharedStrings.xml"
 ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml"/></Types>"""
SHEET = '<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">{}</worksheet>'


def workbook(sheet: str, *, name: str = "S", more: Mapping[str, bytes | str] | None = None) -> bytes:
    """A workbook of one sheet, whose XML is given."""
    parts = {
        "[Content_Types].xml": TYPES,
        "xl/workbook.xml": WORKBOOK.format(name=name),
        "xl/_rels/workbook.xml.rels": RELATED,
        "xl/worksheets/sheet1.xml": sheet,
    }
    return zipped({**parts, **(more or {})})


def cells(*texts: str) -> str:
    """The XML of one row of texts."""
    inner = "".join(f'<c t="inlineStr"><is><t>{text}</t></is></c>' for text in texts)
    return f"<row>{inner}</row>"


def rows(*lines: str) -> str:
    """The XML of a sheet with these rows."""
    return SHEET.format(f"<sheetData>{''.join(lines)}</sheetData>")


def lying_zip() -> bytes:
    """A zip whose directory says that its part is small, and which unpacks to 100 MB."""
    whole = bytearray(zipped({"xl/workbook.xml": b"\0" * 100_000_000}))
    at = whole.rindex(b"PK\x01\x02")
    struct.pack_into("<L", whole, at + 24, 10)
    return bytes(whole)


def picture() -> bytes:
    """A PNG of one pixel."""
    parts = ((b"IHDR", struct.pack(">2I5B", 1, 1, 8, 0, 0, 0, 0)), (b"IDAT", zlib.compress(b"\0\0")), (b"IEND", b""))
    chunks = (struct.pack(">L", len(of)) + kind + of + struct.pack(">L", zlib.crc32(kind + of)) for kind, of in parts)
    return b"\x89PNG\r\n\x1a\n" + b"".join(chunks)


def another_database(path: Path) -> None:
    """The SQLite file of some other program."""
    path.unlink(missing_ok=True)
    with closing(sqlite3.connect(path)) as made:
        made.executescript(
            "CREATE TABLE bookmarks (url TEXT); INSERT INTO bookmarks VALUES ('x'); PRAGMA user_version = 9"
        )


def impostor(path: Path) -> None:
    """A SQLite file that calls itself a farm's store, whose tables are views and triggers."""
    path.unlink(missing_ok=True)
    with closing(sqlite3.connect(path)) as made:
        made.executescript(
            """CREATE TABLE alembic_version (version_num TEXT); INSERT INTO alembic_version VALUES ('0005');
            CREATE VIEW farm AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT i FROM n;
            CREATE TABLE journal (seq INTEGER)"""
        )


def newer(path: Path) -> None:
    """A store of a version that is not written yet, whose name would mean something to a terminal."""
    path.unlink(missing_ok=True)
    with closing(sqlite3.connect(path)) as made:
        made.execute("CREATE TABLE alembic_version (version_num TEXT)")
        made.execute("INSERT INTO alembic_version VALUES (?)", ("9999\x1b[31m\u202e",))
        made.commit()


def sparse(path: Path) -> None:
    """A file that says it has three gigabytes."""
    with path.open("wb") as file:
        file.truncate(3_000_000_000)


def unreadable(path: Path) -> None:
    """A file that may not be read; where this is root's run, a link that leads nowhere."""
    if os.geteuid():
        path.write_text(HEAD + LINE, encoding="utf-8")
        path.chmod(0)
    else:
        path.symlink_to(path.with_name("nowhere"))


def loop(path: Path) -> None:
    """A link to itself."""
    path.symlink_to(path.name)


def folder(path: Path) -> None:
    """A folder where a file should be."""
    path.mkdir()


def pipe(path: Path) -> None:
    """A named pipe into which nobody writes: opening it would wait for ever."""
    os.mkfifo(path)


def device(path: Path) -> None:
    """A link to a device that never ends."""
    path.symlink_to("/dev/zero")


def texts(*, encoding: str = "utf-8") -> bytes:
    """A row for each hostile sign, in every column."""
    import csv

    out = io.StringIO()
    out.write(HEAD)
    writer = csv.writer(out)
    width = HEAD.count(",") + 1
    for sign in SIGNS:
        writer.writerow([sign] * width)
        for at in range(width):
            whole = next(csv.reader([LINE]))
            writer.writerow([*whole[:at], sign, *whole[at + 1 :]])
    return out.getvalue().encode(encoding, "replace")


SMALL: dict[str, Make] = {
    "nothing": as_bytes(b""),
    "a blank": as_bytes(b" \n\n \r\n"),
    "a mark": as_bytes(b"\xef\xbb\xbf"),
    "half a mark": as_bytes(b"\xff\xfe\xff"),
    "nuls": as_bytes(b"\0" * 5_000),
    "every byte": as_bytes(bytes(range(256)) * 8),
    "a NUL within": as_bytes(f"{HEAD}{LINE}".replace("feed", "fe\0ed").encode()),
    "cut off in a quote": as_bytes(f'{HEAD}{DAY},"WREN,N'.encode()),
    "cut off in a sign": as_bytes(f"{HEAD}{LINE}caf".encode() + b"\xc3"),
    "no head": as_bytes(LINE.encode()),
    "a head alone": as_bytes(HEAD.encode()),
    "a head twice": as_bytes((HEAD.strip() + "," + HEAD).encode()),
    "old line ends": as_bytes((HEAD + LINE).replace("\n", "\r").encode()),
    "hostile texts": as_bytes(texts),
    "hostile texts in UTF-16": as_bytes(lambda: texts(encoding="utf-16")),
    "hostile heads": as_bytes((",".join(f'"{one.replace(chr(34), chr(34) * 2)}"' for one in SIGNS) + "\n1\n").encode()),
    "wrong types": as_bytes((HEAD + "9e999," * 15 + "\n" + "nan," * 15 + "\n" + "-0," * 15 + "\n").encode()),
    "endless numbers": as_bytes((HEAD + ("9" * 5_000 + ",") * 15 + "\n").encode()),
    "a picture": as_bytes(picture),
    "a page": as_bytes(b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"),
    "a program": as_bytes(b"\x7fELF\x02\x01\x01" + b"\0" * 60),
    "JSON": as_bytes(b'{"$schema": 1, "resources": [[[[]]]], "farmops": {"numbers_given": {}, "schema": "0005"}}'),
    "nested JSON": as_bytes(b"[" * 200_000),
    "TOML": as_bytes(b'theme = "\x1b[31m"\n[keys]\nweigh = 1\n'),
    "nested TOML": as_bytes(b"a = " + b"[" * 50_000),
    "endless cells": as_bytes(
        "".join(
            [HEAD, *(f"{sign * (30_000 // len(sign))}," * 15 + "\n" for sign in ("[", "1 ", "a", "1,", "+", " a:"))]
        ).encode()
    ),
    "endless lines": as_bytes("".join(f"1 {sign * 30_000}\n" for sign in ("a", "a-", "1 min ", "=", "ph=7 ")).encode()),
    "a calendar": as_bytes(b"BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\n"),
    "an empty zip": as_bytes(zipped({})),
    "half a zip": as_bytes(workbook(rows(cells("date")))[:-60]),
    "another zip": as_bytes(zipped({"../../evil": b"x", "/etc/evil": b"x"})),
    "a zip of many parts": as_bytes(lambda: zipped({f"{at}": b"" for at in range(3_000)})),
    "no XML": as_bytes(workbook("<")),
    "a sheet beyond its edge": as_bytes(workbook(rows('<row r="0"><c r="ZZZZZZ1"><v>1</v></c></row>'))),
    "a sheet that lies": as_bytes(
        workbook(SHEET.format('<dimension ref="A1:XFD1048576"/><sheetData>' + cells("date", "x") + "</sheetData>"))
    ),
    "wrong types in a workbook": as_bytes(
        workbook(rows(cells(*HEAD.strip().split(",")), '<row><c t="d"><v>x</v></c><c t="e"><v>#REF!</v></c></row>'))
    ),
    "hostile texts in a workbook": as_bytes(
        workbook(rows(cells(*HEAD.strip().split(",")), cells(*["[red]x[/]", "\u202e", "=1+1", "%s", "{{x}}"])))
    ),
    "strings from elsewhere": as_bytes(
        workbook(
            '<!DOCTYPE w [<!ENTITY e SYSTEM "file:///etc/passwd">]>' + rows("<row><c t='str'><v>&e;</v></c></row>")
        )
    ),
    "another program's database": another_database,
    "an impostor": impostor,
    "a newer store": newer,
    "half a database": as_bytes(b"SQLite format 3\0" + b"\x10\0" + b"\1" * 82),
    "a folder": folder,
    "a pipe": pipe,
    "a device": device,
    "a loop": loop,
    "not to be read": unreadable,
}
"""Each is small on the disk and quickly made."""

LARGE: dict[str, Make] = {
    "three gigabytes of nothing": sparse,
    "one cell of 10 MB": as_bytes(lambda: (HEAD + f"{DAY},{'a' * 10_000_000}\n").encode()),
    "10,000 columns": as_bytes(lambda: b"date," + b"x," * 10_000 + b"\n" + b"1," * 10_000),
    "a bomb of cells": as_bytes(lambda: workbook(rows(cells("date"), cells(*["1"] * 3_000_000)))),
    "one line of 30 MB": as_bytes(lambda: b"1" * 30_000_000),
    "a million short rows": as_bytes(lambda: HEAD.encode() + b"1,2\n" * 1_000_000),
    "many cells": as_bytes(lambda: HEAD.encode() + (b"ab," * 900 + b"\n") * 14_000),
    "blank lines": as_bytes(lambda: HEAD.encode() + b"\n" * 30_000_000),
    "commas": as_bytes(lambda: HEAD.encode() + b"," * 30_000_000),
    "quotes": as_bytes(lambda: HEAD.encode() + b'"' * 20_000_001),
    "a bomb": as_bytes(lambda: workbook(rows(cells("date")), more={"xl/media/x": b"\0" * 300_000_000})),
    "a bomb in a sheet": as_bytes(lambda: workbook(rows(cells("date"), cells("a" * 190_000_000)))),
    "a bomb of rows": as_bytes(lambda: workbook(rows(cells("date"), cells("1") * 3_000_000))),
    "a bomb of strings": as_bytes(
        lambda: workbook(
            rows(cells("date")),
            more={"xl/sharedStrings.xml": SHEET.format("<si><t>x</t></si>" * 2_500_000)},
        )
    ),
    "a lying zip": as_bytes(lying_zip),
    "laughs": as_bytes(
        lambda: workbook(
            "<!DOCTYPE w ["
            + '<!ENTITY e0 "ha">'
            + "".join(f'<!ENTITY e{n} "{f"&e{n - 1};" * 10}">' for n in range(1, 12))
            + "]>"
            + rows("<row><c t='str'><v>&e11;</v></c></row>")
        )
    ),
}
"""Each claims more than a machine should give for it."""
