"""`farmops calc`: sums of water, fish, crops and flow that need no farm."""

from __future__ import annotations

import click

from farmops.cli.calc.balance import balance
from farmops.cli.calc.doses import dose
from farmops.cli.calc.fish import growth, ration
from farmops.cli.calc.plants import crop_plan, plants
from farmops.cli.calc.power_cut import power_cut
from farmops.cli.calc.pump import pump
from farmops.cli.calc.siphon import siphon
from farmops.cli.calc.water import ammonia, oxygen
from farmops.cli.calc.weight import weight


@click.group()
def calc() -> None:
    """Sums of water, fish, crops and flow; no farm is needed and nothing is kept.

    \b
    Amounts name their unit: 24C or 75F, 1000L or 275gal, 125g or 4.4oz, 1.2m2 or 25sqft, 500L/h or 130gph.
    Example: farmops calc ammonia --tan 1.0 --ph 8.0 --temp 24C
    """


for _command in (
    ammonia,
    oxygen,
    power_cut,
    dose,
    ration,
    growth,
    balance,
    plants,
    crop_plan,
    siphon,
    pump,
    weight,
):
    calc.add_command(_command)
