"""The farm itself and its people."""

from __future__ import annotations

from farmops.model.errors import NoFarm
from farmops.model.farm import Farm, Person
from farmops.quantities import Measures
from farmops.records.dialects import FIRST_STEP
from farmops.records.reading import Reader, day

FARM = """
    SELECT name, mass, volume, area, length, temperature, currency, decimal_comma, time_zone, opened_day,
        altitude_um, stands_on_day
    FROM farm
"""
PEOPLE = "SELECT id, name, note, minor FROM person"


def farm(reader: Reader) -> Farm:
    """The farm of this store. Raises NoFarm when none was opened yet."""
    found = next(reader.rows(FARM), None)
    if found is None:
        raise NoFarm(FIRST_STEP)
    measures = Measures(
        mass=found["mass"],
        volume=found["volume"],
        area=found["area"],
        length=found["length"],
        temperature=found["temperature"],
        currency=found["currency"],
        decimal_comma=bool(found["decimal_comma"]),
    )
    return Farm(
        found["name"],
        measures,
        found["time_zone"],
        day(found["opened_day"]),
        altitude_um=found["altitude_um"],
        stands_on=day(found["stands_on_day"]) if found["stands_on_day"] else None,
    )


def people(reader: Reader, after: int = 0) -> list[Person]:
    """Everybody who works here, by name; of those entered after one of them, by its number, where that is asked for."""
    return reader.all(Person, f"{PEOPLE} WHERE id > :after ORDER BY name", after=after)


def person(reader: Reader, id: int) -> Person | None:
    """Who has that number."""
    return reader.one(Person, f"{PEOPLE} WHERE id = :id", id=id)
