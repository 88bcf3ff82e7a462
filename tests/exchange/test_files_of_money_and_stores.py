"""Files of money and stores: each kind is booked as by hand, known again, taken back as one, and refused in words."""

from __future__ import annotations

import pytest

from tests.exchange.file_desk import Desk
from tests.farmhand import everything_stored

pytestmark = pytest.mark.usefixtures("stands_still")
FILES = {
    "supplies": (
        "supply,by,category,reorder,note\n",
        "filter pads,count,repairs,2,blue\nkelp,volume,,2 gal,\nseed trays,,seed and plants,,\n",
        3,
    ),
    "supplies bought": (
        "date,supply,amount,paid,payee,lot,opened,expires,note\n",
        "2026-05-02,pellets,50 lb,42.50,the mill,L-7,2026-05-03,2031-12-31,\n2026-05-02,pellets,10 lb,,,,,,a gift\n",
        2,
    ),
    "supplies used": (
        "date,supply,amount,left,kind,unit,note\n",
        "2026-05-04,pellets,2 lb,,,WREN,\n2026-05-05,pellets,8 oz,,thrown away,,damp\n2026-05-06,pellets,,0,,,\n",
        3,
    ),
    "devices": (
        "device,watts,hours,unit,from,until,note\n",
        "pump,40,24,WREN,2026-03-01,,\nlamp,1.2 kW,15 min,,2026-03-01,,\n",
        2,
    ),
    "meter readings": (
        "date,shown (kWh),unit,note\n",
        "2026-05-01,100.5,,\n2026-05-08,112,,\n2026-05-01,7,WREN,\n",
        3,
    ),
    "power prices": ("from,price\n", "2026-01-01,0.168/kWh\n2026-04-01,0.182\n", 2),
    "recurring costs": (
        "what,amount,every,from,until,category,payee,unit,note\n",
        "stall rent,25,month on the 1st,2026-03-01,2026-12-31,other,the market,,\n"
        "well,30,year on 3 may,2026-05-03,,water,,WREN,\n",
        2,
    ),
    "labour rates": ("from,rate,person\n", "2026-03-01,15.00,\n2026-03-01,18.50,Ada\n", 2),
    "drivers": (
        "from,driver,category,shares\n",
        "2026-01-01,fixed shares,,WREN=1\n2026-01-01,bed area,power,\n2026-03-01,equal,all,\n",
        3,
    ),
    "splits": ("from,method,produce\n", "2026-01-01,fixed shares,62.5 %\n2026-03-01,sales value,\n", 2),
    "prices": (
        "what,from,price\n",
        "chard,2026-03-01,3.50/lb\nyellow perch,2026-03-01,6 per lb\nCHARD,2026-05-01,3.75\n",
        3,
    ),
    "orders": (
        "buyer,what,amount,price,paid,every,from,until,note\n",
        "the inn,CHARD,2 lb,3.50/lb,,Tue Fri,2026-05-05,2026-10-30,\n"
        "the inn,yellow perch,4 lb,,30,2 weeks on Sat,2026-05-02,,\n",
        2,
    ),
    "sales": (
        "date,buyer,what,amount,price,paid,unit,bed,unsold,returned,weighing,sale,note\n",
        "2026-05-05,the inn,CHARD,2 lb,3.50/lb,,,,,,,,\n2026-05-05,The Inn,PERCH-24,3 lb,,21,,,,8 oz,,,\n"
        "2026-05-06,the gate,CHARD,12 bunches,2.50,,WREN,N,2,,6 lb,,\n",
        3,
    ),
    "papers": (
        "kind,name,from,until,number,issuer,unit,note\n",
        "permit,fish permit,2026-01-01,2028-12-31,F-118,state,,\nscale seal,stall scale,2026-06-01,,,,WREN,\n",
        2,
    ),
    "notes": (
        "date,text,unit,bed,changed\n",
        "2026-05-04,pale new leaves,,WREN-N,\n2026-05-04,,WREN,,pump\n2026-05-04,rain,,,\n",
        3,
    ),
}
"""Heads, rows and how many there are, by kind."""


@pytest.mark.parametrize("kind", FILES)
def test_a_file_is_booked_once_however_often_it_comes_and_taken_back_as_one(store_room: Desk, kind: str) -> None:
    heads, rows, count = FILES[kind]
    store_room.book_once(kind, heads + rows, count)


WRONG = [
    ("supplies", "supply", "", "The supply is empty"),
    ("supplies", "by", "metres", "metres is no by; understood: mass, volume, count"),
    ("supplies", "category", "toys", "toys is no category"),
    ("supplies", "reorder", "2 lb", "'2 lb' is no number of pieces"),
    ("supplies", "note", "x" * 1001, ""),
    ("supplies bought", "date", "2026-05", "2026-05 is no day"),
    ("supplies bought", "supply", "pelets", "there is no supply pelets (did you mean pellets?)"),
    ("supplies bought", "amount", "a bag", ""),
    ("supplies bought", "amount", "", "no amount"),
    ("supplies bought", "paid", "lots", ""),
    ("supplies bought", "opened", "soon", "soon is no day"),
    ("supplies bought", "expires", "2190-01-01", "2190-01-01 lies before 1900 or more than 100 years ahead"),
    ("supplies used", "supply", "kelp", "there is no supply kelp"),
    ("supplies used", "amount", "0", ""),
    ("supplies used", "left", "3 lb", "a row says what was taken or what is left, not both"),
    ("supplies used", "kind", "lost", "lost is no kind; understood: used, thrown away, counted"),
    ("supplies used", "unit", "WRAN", "there is no unit WRAN (did you mean WREN?)"),
    ("devices", "device", "", "The device is empty"),
    ("devices", "watts", "", "no watts"),
    ("devices", "watts", "40 V", ""),
    ("devices", "hours", "25", ""),
    ("devices", "unit", "ROOK", "there is no unit ROOK"),
    ("devices", "from", "", "no from"),
    ("devices", "until", "2029-01-01", "2029-01-01 lies before 1900 or more than a year ahead"),
    ("meter readings", "date", "3/4/26", "3/4/26 may put the month or the day first"),
    ("meter readings", "shown", "", "no reading of the meter"),
    ("meter readings", "shown", "many", ""),
    ("meter readings", "unit", "ROOK", "there is no unit ROOK"),
    ("power prices", "from", "may", "may is no day"),
    ("power prices", "price", "", "no price"),
    ("power prices", "price", "0.16/lb", ""),
    ("recurring costs", "what", "", "The what is empty"),
    ("recurring costs", "amount", "", "no amount"),
    ("recurring costs", "every", "", "no rule; understood: Tue Fri"),
    ("recurring costs", "every", "now and then", ""),
    ("recurring costs", "every", "\x1b[2J", "'\\x1b[2J' is not understood"),
    ("recurring costs", "from", "", "no from"),
    ("recurring costs", "category", "toys", "toys is no category"),
    ("recurring costs", "unit", "ROOK", "there is no unit ROOK"),
    ("labour rates", "from", "", "no from"),
    ("labour rates", "rate", "", "no rate"),
    ("labour rates", "person", "Zoe", "there is no person ZOE"),
    ("drivers", "from", "", "no from"),
    ("drivers", "driver", "", "no driver; understood: equal"),
    ("drivers", "driver", "moon", "moon is no driver; understood: equal"),
    ("drivers", "category", "toys", "toys is no category"),
    ("drivers", "shares", "WREN", "'WREN' is no share"),
    ("drivers", "shares", "ROOK=2", "there is no unit ROOK"),
    ("splits", "from", "", "no from"),
    ("splits", "method", "", "no method; understood: weight"),
    ("splits", "method", "moon", "moon is no method"),
    ("splits", "produce", "half", "'half' is no share of the produce"),
    ("prices", "what", "BEET", "There is no crop BEET"),
    ("prices", "price", "", "no price"),
    ("prices", "price", "3.50/bunch", ""),
    ("orders", "buyer", "", "The buyer is empty"),
    ("orders", "what", "BEET", "There is no crop BEET"),
    ("orders", "amount", "some", ""),
    ("orders", "price", "", "no price and no sum"),
    ("orders", "paid", "7", "a price and a sum; leave one empty"),
    ("orders", "every", "Tue and so on", ""),
    ("orders", "until", "never", "never is no day"),
    ("sales", "date", "", "no date"),
    ("sales", "buyer", "", "The buyer is empty"),
    ("sales", "what", "BEET", "There is no BEET to sell"),
    ("sales", "amount", "", "no amount"),
    ("sales", "amount", "2.5 bunches", ""),
    ("sales", "price", "3.50/bunch", ""),
    ("sales", "paid", "7", "a price and a sum; leave one empty"),
    ("sales", "unsold", "3 lb", "more came back than was taken along"),
    ("sales", "returned", "2 bunches", ""),
    ("sales", "weighing", "heavy", ""),
    ("papers", "kind", "", "no kind; understood: permit"),
    ("papers", "name", "", "The name is empty"),
    ("papers", "from", "", "no from"),
    ("papers", "until", "2226-01-01", "2226-01-01 lies before 1900 or more than 100 years ahead"),
    ("papers", "unit", "ROOK", "there is no unit ROOK"),
    ("notes", "bed", "WREN-S", "there is no bed WREN-S"),
    ("notes", "changed", "hat", "hat is no changed; understood: pump"),
]


@pytest.mark.parametrize("kind", FILES)
def test_a_wrong_cell_is_named_by_its_line_and_column(store_room: Desk, kind: str) -> None:
    heads, rows, _ = FILES[kind]
    wrong = [one[1:] for one in WRONG if one[0] == kind]
    names = [head.partition(" (")[0] for head in heads.strip().split(",")]
    text = heads
    for column, cell, _ in wrong:
        cells = rows.splitlines()[0].split(",")
        cells[names.index(column)] = cell
        text += f"{','.join(cells)}\n"
    before = everything_stored(store_room.store)
    refused = store_room.take(kind, text).refused
    assert everything_stored(store_room.store) == before
    assert [(one.line, one.column) for one in refused] == [
        (at, column) for at, (column, *_) in enumerate(wrong, start=2)
    ]
    assert [
        one.reason for one, (*_, reason) in zip(refused, wrong, strict=True) if not one.reason.startswith(reason)
    ] == []


RULES = [
    ("supplies", "supply,by\nPellets,count\n", "pellets is there with another way of counting"),
    ("supplies bought", "date,supply,amount,payee\n2026-05-02,pellets,1 lb,the mill\n", "somebody was paid"),
    ("supplies used", "date,supply,left,unit\n2026-05-02,pellets,1 lb,WREN\n", "a count is of all that is held"),
    ("devices", "device,watts,from,until\nlamp,10,2026-05-02,2026-05-01\n", "it would run for the last time on"),
    ("recurring costs", "what,amount,every,from\nrent,5,3 days after done,2026-05-02\n", "a cost comes again on the"),
    (
        "orders",
        "buyer,what,amount,price,every,from,until\nAl,CHARD,1 lb,2,Tue,2026-05-05,2026-05-01\n",
        "the order would",
    ),
    ("sales", "date,buyer,what,amount,price\n2026-03-02,Al,PERCH-24,1 lb,2\n", "PERCH-24 was sold on 2026-03-02"),
    ("drivers", "from,driver\n2026-05-02,fixed shares\n", "fixed shares name the units"),
    ("splits", "from,method,produce\n2026-05-02,weight,70 %\n", "fixed shares say how much the produce bears"),
    ("papers", "kind,name,from,until\npermit,fish,2026-05-02,2026-05-01\n", "fish would end on 2026-05-01, before"),
    ("notes", "date,text,unit,changed\n2026-05-02,new,,pump\n", "say on which unit the pump was changed"),
]


def test_the_rules_of_a_single_entry_hold_for_a_row(store_room: Desk) -> None:
    for kind, text, reason in RULES:
        (said,) = store_room.reasons(kind, text)
        assert reason in said
