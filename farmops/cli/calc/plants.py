"""`farmops calc plants` and `farmops calc crop-plan`: room for plants, and what a weekly harvest asks of a unit."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from farmops.cli.calc import shown, typed
from farmops.cli.calc.answer import Answer, give
from farmops.cli.calc.balance import RATES, ROUGH
from farmops.cli.options import answer_options
from farmops.model.errors import NotFound
from farmops.quantities.wording import quoted
from farmops.science.balance import FAO_589, plan_crop
from farmops.science.crops import density_on_square_grid, density_staggered, plants_on_area

if TYPE_CHECKING:
    from farmops.library import CropFacts


@click.command()
@click.option("--spacing", type=typed.LENGTH_M, required=True, help="From plant to plant in the row: 25cm or 10in.")
@click.option("--rows", type=typed.LENGTH_M, help="From row to row. [as in the row]")
@click.option("--staggered", is_flag=True, help="Every second row set off by half: all neighbours equally far.")
@click.option("--area", type=typed.AREA_M2, help="Bed to plant: 4m2, 43sqft or 4x10ft.")
@click.option("--crop", metavar="NAME", help="Shows beside it what is published for this crop, such as chard.")
@answer_options
def plants(
    spacing: float, rows: float | None, staggered: bool, area: float | None, crop: str | None, as_json: bool
) -> None:
    """Plants to an area at a spacing.

    \b
    Example: farmops calc plants --spacing 10in --staggered --area 24sqft --crop chard
    """
    if staggered and rows is not None:
        raise click.UsageError("--staggered sets the rows itself: leave --rows out.")
    density = density_staggered(spacing) if staggered else density_on_square_grid(spacing, rows)
    number = plants_on_area(area, density) if area is not None else None
    published = _published(_facts_of(crop)) if crop else None
    give(_plants_told(density, number, area, published), as_json=as_json)


def _facts_of(crop: str) -> CropFacts:
    from farmops.library import crop as find
    from farmops.library import crops

    found = find(crop)
    if found is None:
        raise NotFound(f"No facts about {quoted(crop)}. Known: {', '.join(facts.key for facts in crops())}.")
    return found


def _published(facts: CropFacts) -> tuple[str, str]:
    said = []
    if facts.spacing_cm_low is not None and facts.spacing_cm_high is not None:
        said.append(f"{shown.span(facts.spacing_cm_low, facts.spacing_cm_high)} cm apart")
    if facts.plants_per_m2_low is not None and facts.plants_per_m2_high is not None:
        said.append(f"{shown.span(facts.plants_per_m2_low, facts.plants_per_m2_high)} plants/m2")
    words = f"{facts.name}: {', '.join(said)}." if said else f"{facts.name}: no spacing known."
    return words, f"{facts.source}: {facts.standing}."


def _plants_told(density: float, number: int | None, area: float | None, published: tuple[str, str] | None) -> Answer:
    per_sq_ft = density * float(typed.AREA_M2.read("1 sq ft"))
    on_area = f"{number} plants on {shown.area(area)}. " if number is not None and area is not None else ""
    words, source = ((published[0],), (published[1],)) if published else ((), ())
    return Answer(
        (f"{on_area}{shown.few(density)} plants/m2 ({shown.few(per_sq_ft)} per sq ft).", *words),
        {"plants_per_m2": density, "area_m2": area, "plants": number},
        (
            "Square grid: 1 / (spacing x row spacing). Staggered: rows lie 0.866 of the spacing apart, "
            "so 15 % more stand. Parts of a plant are not counted.",
        ),
        ("Any spacing above 0; the edge of the bed is not looked at.",),
        ("Geometry.", *source),
        ("Closer plants shade each other and hold damp: leave room to reach, to see pests and to let air through.",),
    )


@click.command("crop-plan")
@click.option("--per-week", type=typed.PLAIN, required=True, help="Plants to harvest every week.")
@click.option("--weeks", type=typed.WEEKS, required=True, help="Weeks in the bed, from setting to harvest.")
@click.option("--density", type=typed.DENSITY, required=True, help="Plants per area: 25/m2 or 2.3/sqft.")
@click.option("--plants", type=click.Choice(list(RATES)), default="leafy", show_default=True, help="What grows there.")
@answer_options
def crop_plan(per_week: float, weeks: float, density: float, plants: str, as_json: bool) -> None:
    """A weekly harvest back to bed, feed and fish.

    \b
    Example: farmops calc crop-plan --per-week 25 --weeks 4 --density 25/m2
    """
    rate = RATES[plants]
    low, high = (plan_crop(per_week, weeks, density, grams) for grams in (rate.low, rate.high))
    give(
        Answer(
            (
                f"{high.plants} plants stand on {shown.area(high.area_m2)} of bed.",
                f"Feed {shown.grams(low.feed_g_per_day)} to {shown.grams(high.feed_g_per_day)} a day, "
                f"eaten by {shown.grams(low.fish_kg_low * 1000)} to {shown.grams(high.fish_kg_high * 1000)} of fish.",
            ),
            {
                "plants": high.plants,
                "area_m2": high.area_m2,
                "feed_low_g_per_day": low.feed_g_per_day,
                "feed_high_g_per_day": high.feed_g_per_day,
                "at_low_rate": low,
                "at_high_rate": high,
            },
            (
                "plants = per week x weeks; bed = plants / density; "
                f"feed = bed x {shown.span(rate.low, rate.high)} g/m2 a day; fish = feed / 2 to 1 % of weight.",
            ),
            ("Steady weekly sowings, feed of about 32 % protein, fish growing out in warm water.",),
            (f"The chain of {FAO_589}, s.8.1.1; {rate.source}: {'read' if rate.verified else 'from memory'}.",),
            (ROUGH,),
        ),
        as_json=as_json,
    )
