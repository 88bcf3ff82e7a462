"""The kinds of rows a file may hold, as a grower is told of them: one list for the commands, the form and the docs.

It loads nothing, so that a help or a form is there at once.
"""

from __future__ import annotations

from collections.abc import Mapping

from farmops.model.frozen import dataclass


@dataclass(frozen=True, slots=True)
class FileWords:
    """What a kind is and its columns, the needed ones first; examples of the command; and what else is to be known."""

    columns: str
    examples: tuple[str, ...]
    more: str = ""


FILE_WORDS: Mapping[str, FileWords] = {
    "units": FileWords(
        "Units: columns unit, from, state; also kind, position, tank (a volume), breaker, valve, cure (a time), chores "
        "(yes or no), note.",
        ("units row.csv --dry-run", 'units row.csv --column "tank size=tank (gal)"'),
        "A row for a unit that is there says which state it enters from that day. A new one gets its chores. An "
        "unlikely tank is named, and booked with --sure.",
    ),
    "beds": FileWords(
        "Beds: columns bed (WREN-N, or N beside its unit), from, area; also unit, kind, depth, note.",
        ("beds beds.xlsx --dry-run",),
        "A row for a bed that is there gives it that area from that day on. Its unit has to be there. An unlikely "
        "depth is named, and booked with --sure.",
    ),
    "crops": FileWords(
        "Crops: column crop; also facts (packaged ones to go by, none for none) and note.",
        ("crops crops.csv --dry-run",),
        "Packaged facts of its name go with a crop that names no others.",
    ),
    "fish lots": FileWords(
        "Fish lots: columns lot, species, unit, stocked (a day), number, mean (the weight of one); also closed (the "
        "last day), source, paper (its number), note.",
        ("fish-lots stocked.csv --dry-run", 'fish-lots stocked.csv --column "g each=mean (g)"'),
        "A row for a lot that is there closes it. A species without packaged facts is named, and booked with --sure. "
        "Check fish law and permits before buying or moving fish.",
    ),
    "transfers": FileWords(
        "Fish on the move: columns date, from (a lot), to (a lot, or a unit for the whole lot); also number, mean (the "
        "weight of one), unit, note.",
        ("transfers graded.csv --dry-run",),
        "A lot that is not there yet is made in the unit of the row; rows below it can name it.",
    ),
    "doses": FileWords(
        "Doses: columns date, unit, what, amount (a weight or a volume); also why, supply (what it is taken "
        "from) and note.",
        ('doses added.csv --column "grams=amount (g)"',),
        "Labels and local rules come first.",
    ),
    "top-ups": FileWords(
        "Top-ups: columns date, unit, volume; also source (one that is there) and note.",
        ('top-ups filled.csv --column "litres=volume (L)"',),
    ),
    "water sources": FileWords(
        "Water sources: column source; also kind, from, measure, value, or a column for each measure (pH, hardness); "
        "note.",
        ("water-sources tap.csv --dry-run",),
        "A row for a source that is there says what its water is like from that day on.",
    ),
    "treatments": FileWords(
        "Treatments: columns date, time, for (a unit, bed or lot; or unit, bed, lot), product, amount, re-entry "
        "(hours), harvest (days); also fish (days), against, active, registration, who, note.",
        ("treatments sprayed.csv --dry-run",),
        "Holds follow as by hand; what harms fish or lies over a weighing is asked about. The label is the law.",
    ),
    "instruments": FileWords(
        "Instruments: columns instrument, reads (measures, parted by commas), from; also reports (n or ion), expires, "
        "until, check-days, note.",
        ("instruments kits.csv --dry-run",),
    ),
    "instrument checks": FileWords(
        "Checks of instruments: columns date, instrument, passed (yes or no); also against, showed, note.",
        ("instrument-checks pens.csv --dry-run",),
        "One that failed makes readings doubtful, back to the last that passed.",
    ),
    "own limits": FileWords(
        "Limits of your own: columns from, measure, low, high; also unit (all where none is named) and note.",
        ('own-limits wanted.csv --column "at most=high"',),
    ),
    "chores": FileWords(
        "Chores: columns chore (its title), rule (14 days after, Mon Thu, or RFC 5545 text), start (a day); also for "
        "(a unit, bed or lot; or unit, bed, lot), class, part, minutes, instructions, caution, readings, confirmation, "
        "adults-only, months, states, with-fish, person.",
        ("chores our-chores.csv --dry-run",),
        "What names no place is for the farm.",
    ),
    "chores done": FileWords(
        "Chores done or left out: columns date, chore (its title); also for (a unit, bed or lot; or unit, bed, lot), "
        "settled (done, skipped or deferred), minutes, who, why, confirmed, until, occurrence.",
        ("chores-done clipboard.csv --dry-run", 'chores-done clipboard.csv --column "nr=chore id"'),
        "A chore is named by its title and its place, or by its number below the head chore id.",
    ),
    "usage": FileWords(
        "Use of pumps, feed and siphons: columns date, unit, counter, amount (since the record before); also note.",
        ("usage pumps.csv --dry-run",),
    ),
    "people": FileWords(
        "People: column name; also minor (yes or no) and note.",
        ("people helpers.csv --dry-run",),
    ),
    "contacts": FileWords(
        "Contacts: columns name, phone, for (what they are called for); also note.",
        ("contacts numbers.csv --dry-run",),
    ),
    "presence": FileWords(
        "Who is here on a day: columns date, who; a row for each of them.",
        ("presence rota.csv --dry-run",),
        "Of a day of which nothing is said, whoever is not away is here.",
    ),
    "forecasts": FileWords(
        "Forecasts: columns date, low, high; also note.",
        ('forecasts week.csv --column "min C=low (C)"',),
        "The newest word of a day counts.",
    ),
    "absences": FileWords(
        "Absences: columns who, from, until; also stand-in and note.",
        ("absences holidays.csv --dry-run",),
        "What can wait moves out of the time, as by hand.",
    ),
    "incidents": FileWords(
        "Power cuts: columns began, ended (each a day and an hour); also kind, all-running (yes: seen running), note.",
        ("incidents cuts.csv --dry-run",),
        "One at a time, none longer ago than 30 days.",
    ),
    "readings": FileWords(
        "Readings: columns date, unit, measure, value; or date, unit and one for each measure: pH, temperature (F). "
        "Also time and note.",
        (
            "readings june.csv --dry-run",
            'readings pond-log.csv --column "tank temp=temperature (F)" --as-ion',
        ),
        "Unlikely values are named, and booked with --sure.",
    ),
    "costs": FileWords(
        "Costs: columns date, what, amount; also category, payee, for (a unit, bed or lot; or a column "
        "unit, bed or lot), kind, life, salvage, label, note.",
        ('costs bank-june.csv --column "paid in EUR=amount" --dates day-first --dry-run',),
        "What is for no place is shared. What looks paid twice is booked with --sure.",
    ),
    "recurring costs": FileWords(
        "Costs that come again: columns what, amount, every (month on the 1st), from; also until, category, payee, "
        "unit, label, note.",
        ("recurring-costs contracts.csv --dry-run",),
        "Nothing is booked by them: each time is booked by you when it is due.",
    ),
    "labour rates": FileWords(
        "What an hour of work is worth: columns from, rate; also person (everybody where none is named).",
        ("labour-rates rates.csv --dry-run",),
        "Another rate for a day that has one is booked with --sure.",
    ),
    "drivers": FileWords(
        "What shared costs go by: columns from, driver (bed area, fixed shares, ...); also category (all "
        "where none is named) and shares (WREN=2 ROOK=1).",
        ("drivers sharing.csv --dry-run",),
        "Another driver for a day that has one is booked with --sure.",
    ),
    "splits": FileWords(
        "How produce and fish split costs: columns from, method (weight, sales value, fixed shares, ...); also "
        "produce (70 %, for fixed shares).",
        ('splits split.csv --column "for produce=produce (%)"',),
        "Another split for a day that has one is booked with --sure.",
    ),
    "devices": FileWords(
        "What runs on power: columns device, watts, from; also hours or minutes (a day), unit, until, note.",
        ('devices plates.csv --column "rating=watts (kW)"',),
        "What names no unit runs for all, and without hours all day.",
    ),
    "meter readings": FileWords(
        "What meters of power showed: columns date, shown (kWh); also unit (the farm where none is named) and note.",
        ('meter-readings meter.csv --column "stand=shown (kWh)"',),
        "What else a meter would have shown on a day that has a reading is booked with --sure.",
    ),
    "power prices": FileWords(
        "What a kilowatt-hour costs: columns from, price.",
        ('power-prices tariff.csv --column "ct=price (kWh)"',),
        "Another price from a day that has one is booked with --sure.",
    ),
    "sales": FileWords(
        "Sales, a row for each line: columns date, buyer, what, amount, and price (each) or paid (for all of it); also "
        "unit, bed, lot, unsold, returned, weighing, sale, note.",
        (
            "sales stall-2025.csv --dry-run",
            'sales market.csv --column "kg=amount (kg)" --column "per kilo=price (kg)"',
        ),
        "Rows of one day and buyer are one sale; where they were several, number them in the column sale.",
    ),
    "orders": FileWords(
        "Standing orders: columns buyer, what, amount, every (Tue Fri), from, and price (each) or paid (in all); also "
        "species, until, note.",
        ("orders standing.csv --dry-run",),
    ),
    "prices": FileWords(
        "The price list: columns what (a crop or a species), from, price (3.50/lb); also species.",
        ('prices list-2026.csv --column "euro=price (kg)"',),
        "Another price from a day that has one is booked with --sure.",
    ),
    "papers": FileWords(
        "Permits, insurance, certificates: columns kind, name, from; also until, number, issuer, unit, note.",
        ("papers folder.csv --dry-run",),
        "A later row of the same kind, name and unit renews the one before.",
    ),
    "notes": FileWords(
        "Notes: columns date, text; also unit, bed, chore (its title), changed (pump, media, filter, ...).",
        ("notes diary.csv --dates day-first",),
    ),
    "supplies": FileWords(
        "Supplies: column supply; also by (mass, volume or count), category, reorder (what is left when more is to be "
        "bought) and note.",
        ("supplies shelf.csv --dry-run",),
        "What says nothing of it is counted by weight.",
    ),
    "supplies bought": FileWords(
        "Supplies bought: columns date, supply, amount; also paid (for all of it), payee, lot, opened, expires, note.",
        ('supplies-bought feed-2025.csv --column "bags=amount (kg)"',),
        "What was paid becomes a cost; what has no sum was there already.",
    ),
    "supplies used": FileWords(
        "Supplies used or counted: columns date, supply, amount; also kind (used, thrown away or counted), left (what "
        "a count found), unit, note.",
        ("supplies-used shelf-count.csv --column count=left",),
        "What is for no unit is shared.",
    ),
    "feedings": FileWords(
        "Feedings: columns date, lot, feed (a weight); also ate (all, some, none) and note.",
        ('feedings feed-log.csv --column "grams=feed (g)"',),
    ),
    "samples": FileWords(
        "Sample weighings: columns date, lot, number, weight (of all of them together); also note.",
        ("samples weighed.csv --dry-run",),
    ),
    "losses": FileWords(
        "Fish that died or went: columns date, lot, number; also cause, disposal, weight (of all of them), note.",
        ("losses deaths.csv --dry-run",),
    ),
    "plantings": FileWords(
        "Plantings: columns bed, crop, started; also unit, cleared, by (sowing or transplanting), variety, plants, "
        "area, note.",
        ("plantings beds-2025.csv --dates day-first",),
        "An area that its bed hardly has is named, and booked with --sure.",
    ),
}
