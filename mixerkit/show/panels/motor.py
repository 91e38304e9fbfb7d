"""Panels of motor and supply: what is asked and given, and the risk of a stall."""

from __future__ import annotations

from mixerkit.drive import motor, reducer
from mixerkit.explore import uncertainty
from mixerkit.machine import Machine
from mixerkit.parts.zones import BOX, seat
from mixerkit.show import driveplots, loadplots
from mixerkit.show.knobs import POWER, RATIO, WATER, Knob
from mixerkit.show.panels.bench import Bench
from mixerkit.show.panels.panel import Panel, verdict_words
from mixerkit.units import show

__all__ = ["PANEL", "motor_and_box", "says", "stall_risk"]


def says(machine: Machine) -> str:
    """Say in a sentence or two how this stage stands."""
    spec = machine.design
    speed = show(machine.running_speed, "rpm")
    bore, thick = spec.reducer.output_bore, seat(spec, 1, BOX)
    bush = reducer.adapting_bush(bore, thick, keyed=spec.fuse.kind == "none")
    system = machine.system
    mixing, able = (
        float(machine.power_flow.torque_at_motor[machine.load_cases.mixing].max()),
        machine.power_flow.abilities,
    )
    lasting = motor.duty_torque.formula(mixing, machine.batch.minutes, spec.batch.loading_time)
    return (
        f"Shaft 1 turns at about {speed}. Service factor of the box {reducer.service_factor(spec):g}. "
        f"Slow end: {bush.words}. {motor.reversal(spec)} Over a batch with its loading pause the motor feels "
        f"{show(float(lasting), 'N*m', system)} "
        f"against {show(able.lasting, 'N*m', system)} it gives all day. {verdict_words(machine, 'motor', 'reducer')}"
    )


def motor_and_box(bench: Bench) -> Panel:
    """Show what the clay asks of motor, socket and box, and what they give.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("motor.kind", "Kind of motor"),
        Knob("motor.fed_by", "Fed by"),
        POWER,
        Knob("motor.rated_speed", "Motor speed", 700, 3000),
        Knob("motor.start_torque_ratio", "Torque at rest / rated", 0.3, 4),
        Knob("motor.run_at", "Converter set to", 20, 80),
        Knob("motor.shaft_end", "Motor's shaft end", 11, 42),
        Knob("supply.socket_current", "Socket", 6, 32),
        RATIO,
        Knob("reducer.efficiency", "Box efficiency", 0.4, 0.98),
        Knob("reducer.rated_torque", "Box rated torque", 100, 2000),
        Knob("reducer.hours_a_day", "Hours a day", 0.5, 12),
        Knob("reducer.shock", "Shock"),
        Knob("reducer.input_bore", "Fast end, bore", 11, 42),
        Knob("reducer.output_bore", "Slow end, bore", 20, 80),
        Knob("reducer.torque_arm", "Torque arm", 100, 600),
    ]

    return Panel(
        bench,
        "Motor and reduction box",
        knobs,
        driveplots.motor_and_box,
        says,
        ("motor", "reducer"),
    )


def stall_risk(bench: Bench) -> Panel:
    """Show the risk of a stall over the stated ranges, and what to measure first.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("clay.strength_from", "Strength from"),
        WATER,
        Knob("clay.cone_penetration", "Cone sinks", 1, 25),
        POWER,
        RATIO,
        Knob("ranges.water_spread", "Water, either way", 0.002, 0.05),
        Knob("ranges.fill_spread", "Batch, either way", 0.01, 0.5),
        Knob("ranges.start_low", "Start factor, least", 1, 3),
        Knob("ranges.start_high", "Start factor, greatest", 1, 3),
        Knob("ranges.voltage_low", "Voltage, least", 0.8, 1),
    ]

    def says(machine: Machine) -> str:
        risk = uncertainty.stall_risk(machine, 100_000)
        return (
            f"It stalls in {100 * risk.starting:.2g} % of starts with a full trough and in "
            f"{100 * risk.mixing:.2g} % while mixing, over the stated ranges. The longest bar on the right is what to "
            f"measure first. {verdict_words(machine, 'motor')}"
        )

    return Panel(bench, "Will it stall?", knobs, loadplots.stall, says, ("motor",))


PANEL = motor_and_box
"""The stage's main panel."""
