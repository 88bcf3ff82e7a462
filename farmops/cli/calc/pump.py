"""`farmops calc pump`: the head a pump must meet, the flow it reaches, its power and what that costs a day."""

from __future__ import annotations

import click

from farmops.cli.calc import shown, typed
from farmops.cli.calc.answer import Answer, belong_together, give, together
from farmops.cli.options import answer_options
from farmops.science.energy import energy_per_day, hydraulic_power, overall_efficiency
from farmops.science.flow import DutyPoint, Pipe, PumpCurve, duty_point, head_loss, system_head
from farmops.science.ranges import check_range

ELBOW_K = 0.9
JET_K = 1.0
PLUGS = (
    "Pump, heater and air on a ground-fault breaker, tested monthly; drip loops; plugs above water. "
    "Unplug before you reach into the tank. Wiring is the work of a licensed electrician, by the local code."
)
DARCY = "Darcy-Weisbach with Colebrook (1939), J. Inst. Civ. Eng. 11:133-156."


@click.command()
@click.option("--flow", type=typed.FLOW, help="Flow wanted: 2000L/h or 530gph.")
@click.option("--lift", type=typed.LENGTH_M, help="From the tank's surface up to the outlet: 1.5m or 5ft.")
@click.option("--bore", type=typed.LENGTH_M, help="Inner width of the pipe: 26.6mm or 1in. [no pipe loss]")
@click.option("--pipe", type=typed.LENGTH_M, default="0", help="Its length: 3m or 10ft. [0]")
@click.option("--elbows", type=typed.COUNT, default="0", help="Bends in it. [0]")
@click.option("--temp", type=typed.WATER_C, default="20C", show_default=True, help="Water temperature.")
@click.option(
    "--point",
    "points",
    type=typed.POINT,
    multiple=True,
    help="A point of the pump's curve, flow@head: 0@2.5m, 1000L/h@2m. Give two or more, the smallest flow first.",
)
@click.option("--watts", type=typed.WATTS, help="What the pump draws.")
@click.option("--hours", type=typed.HOURS, default="24", show_default=True, help="Hours it runs a day.")
@click.option("--price", type=typed.PRICE, help="Price of a kWh.")
@answer_options
def pump(
    flow: float | None,
    lift: float | None,
    bore: float | None,
    pipe: float,
    elbows: float,
    temp: float,
    points: tuple[tuple[float, float], ...],
    watts: float | None,
    hours: float,
    price: float | None,
    as_json: bool,
) -> None:
    """Head, flow, power and daily cost of a pump.

    \b
    Says what it can from what you give:
    lift and flow     the head the pump must make, and the power in the water
    lift and points   where the pump's curve meets the pipe: the flow that runs
    watts             kWh a day, and with --price the cost
    Examples: farmops calc pump --lift 1.5m --flow 2000L/h --bore 26.6mm --pipe 3m --watts 24 --price 0.16
              farmops calc pump --lift 1m --point 0@2.5m --point 1000L/h@2m --point 2500L/h@0m
    """
    if flow is not None and points:
        raise click.UsageError("Give --flow or the pump's --point, not both.")
    if flow is not None or points:
        belong_together(**{"flow" if flow is not None else "point": True, "lift": lift})
    pipes = _pipes(bore, pipe, elbows)
    parts = []
    if lift is not None and points:
        duty = duty_point(PumpCurve(points), lift, pipes, temp)
        parts = [_duty(duty), _power(duty.flow_l_per_h, duty.head_m, temp, watts)]
    elif lift is not None and flow is not None:
        parts = [
            _head(flow, lift, pipes, temp),
            _power(flow, system_head(flow, lift, pipes, temp), temp, watts),
        ]
    if watts is not None:
        parts.append(_cost(watts, hours, price))
    give(together(parts, missing="Give --lift with --flow or --point, or --watts. See --help."), as_json=as_json)


def _pipes(bore: float | None, length: float, elbows: float) -> tuple[Pipe, ...]:
    """The run of pipe, and the speed of the jet that leaves it, which is lost too."""
    if bore is None:
        return ()
    return Pipe(bore, length, ELBOW_K * elbows), Pipe(bore, 0.0, JET_K)


def _head(flow: float, lift: float, pipes: tuple[Pipe, ...], temp: float) -> Answer:
    head = system_head(flow, lift, pipes, temp)
    losses = [head_loss(flow, one, temp) for one in pipes]
    pipe_m, jet_m = (losses[0].head_m, losses[1].head_m) if losses else (0.0, 0.0)
    speed = losses[0].velocity_m_per_s if losses else None
    loss_words = (f"Lift {_m(lift)}, pipe {_m(pipe_m)}, jet at the outlet {_m(jet_m)}.",) if losses else ()
    return Answer(
        (f"The pump must make {_m(head)} of head at {shown.flow(flow)}.", *loss_words),
        {
            "flow_l_per_h": flow,
            "lift_m": lift,
            "head_m": head,
            "pipe_loss_m": pipe_m,
            "outlet_loss_m": jet_m,
            "velocity_m_per_s": speed,
            "regime": losses[0].regime if losses else None,
        },
        ("Head = lift + (friction x length / bore + 0.9 for each elbow + 1 at the outlet) x velocity^2 / 2g.",),
        ("Full round pipe, smooth and new; water of 0 to 40 C.",),
        (DARCY,),
        ("Slime narrows a pipe: choose a pump with a third to spare.", PLUGS),
    )


def _duty(duty: DutyPoint) -> Answer:
    doubt = " In this pipe the flow is neither smooth nor rough: take it as a guess." if duty.guessed else ""
    return Answer(
        (f"{shown.flow(duty.flow_l_per_h)} will run, at {_m(duty.head_m)} of head.{doubt}",),
        {
            "flow_l_per_h": duty.flow_l_per_h,
            "head_m": duty.head_m,
            "loss_m": duty.loss_m,
            "guessed": duty.guessed,
        },
        ("Where the pump's curve, straight between its points, meets lift + losses of the pipe.",),
        ("Between the first and the last point of the curve; water of 0 to 40 C.",),
        (DARCY,),
        ("Measure it at the outlet with a bucket and a watch.", PLUGS),
    )


def _power(flow: float, head: float, temp: float, watts: float | None) -> Answer:
    power = hydraulic_power(flow, head, temp)
    share = overall_efficiency(power, watts) if watts is not None else None
    of_drawn = f", {shown.few(100 * share)} % of the {shown.few(watts or 0.0)} W drawn" if share is not None else ""
    return Answer(
        (f"Power in the water {shown.few(power)} W{of_drawn}.",),
        {"hydraulic_w": power, "efficiency": share},
        ("Power = density x g x flow x head.",),
        ("Water of 0 to 40 C.",),
        ("Mechanics; density by Kell (1975), from memory.",),
        (PLUGS,),
    )


def _cost(watts: float, hours: float, price: float | None) -> Answer:
    kwh = energy_per_day(watts, hours)
    if price is not None:
        check_range(price=(price, 0, float("inf")))
    paid = kwh * price if price is not None else None
    words = f", {paid:.2f} a day and {30 * paid:.2f} in 30 days" if paid is not None else ""
    return Answer(
        (f"{shown.few(kwh)} kWh a day{words}.",),
        {"watts": watts, "hours_per_day": hours, "kwh_per_day": kwh, "price_per_kwh": price, "cost_per_day": paid},
        ("kWh = watts x hours / 1000; cost = kWh x price, in the money of the price.",),
        ("0 to 24 hours a day.",),
        ("Arithmetic.",),
        ("A plug-in meter for a week beats the plate on the pump.", PLUGS),
    )


def _m(length: float) -> str:
    return shown.length(length)
