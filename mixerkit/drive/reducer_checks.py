"""Whether the reduction box carries what is asked of it, and fits both of its ends."""

from __future__ import annotations

from math import pi

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Check
from mixerkit.drive import box_workings, fuses, motor
from mixerkit.drive.reducer import HOLLOW_SHEAR, adapting_bush, service_factor
from mixerkit.drive.remedies import LESS_CLAY
from mixerkit.results import BoxBush, LoadedMachine
from mixerkit.tables import table

__all__ = ["checks"]


_BORE_OVER_SHAFT = 2.0
"""Widest bore over the shaft that a bush is put between (common practice)."""


def checks(machine: LoadedMachine) -> list[Check]:
    """Check the box's torque, speed, heat, reaction and both of its ends.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    return [
        *_torque(machine),
        _speed(machine),
        _ratio(machine),
        *_heat_and_reaction(machine),
        *_ends(machine),
    ]


def _torque(machine: LoadedMachine) -> list[Check]:
    box, flow = machine.spec.reducer, machine.power_flow
    peak = box.rated_torque * box.peak_torque_ratio
    factor = service_factor(machine.spec)
    return [
        make_check(
            machine,
            "reducer",
            "reducer",
            "torque while mixing",
            where=machine.load_cases.mixing,
            demand=flow.torque_at_box_output,
            capacity=box.rated_torque,
            unit="N*m",
            working=lambda i: [box_workings.at_box_output(machine, i)],
            safety=factor,
            source=f"service factor for {box.hours_a_day:g} h a day and {box.shock} shock: AGMA practice (from memory)",
            reason=lambda i, say: (
                f"paddles of shaft 1 {say(flow.paddles[0][i], 'N*m')} + its seals {say(flow.drag[1][i], 'N*m')} + "
                f"gear path {say(flow.torque_into_gear_path[i], 'N*m')}"
            ),
            fix=lambda i: ["reducer", *LESS_CLAY],
        ),
        make_check(
            machine,
            "reducer",
            "reducer",
            "torque in a jam",
            where=machine.load_cases.jammed,
            demand=flow.jam_torque,
            capacity=peak,
            unit="N*m",
            working=lambda i: box_workings.box_peak(machine, peak, i),
            rung=(1.0, 1.3),
            source="peak torque ratio: the box's sheet, else common practice; it breaks at some 1.3 times that",
            reason=lambda i, say: (
                f"motor {say(flow.greatest, 'N*m')} and the wound-up train: {say(flow.jam_torque_without_fuse[i], 'N*m')}, "
                f"fuse: {machine.spec.fuse.kind}; box {box.peak_torque_ratio:g} x {say(box.rated_torque, 'N*m')}"
            ),
            fix=lambda i: [
                *fuses.weaker_fuse(machine.spec, peak),
                "reducer",
                "motor.run_at",
                "motor",
            ],
        ),
        _loss(machine),
    ]


def _loss(machine: LoadedMachine) -> Check:
    """Whether the box passes no more of the power than the best of its kind."""
    box = machine.spec.reducer
    best = table("reducer_kinds").find(box.kind).values["best"]
    least, has = round(1 - best, 6), round(1 - box.efficiency, 6)
    return make_check(
        machine,
        "reducer",
        "reducer",
        "loss is believable for its kind",
        demand=least,
        capacity=has,
        unit="",
        working=lambda i: box_workings.box_loss(machine, best, least, has),
        source="best efficiency by kind: common practice, data/tables/reducer_kinds.csv",
        reason=lambda i, say: (
            f"a {box.kind} box passes {best:g} of the power at best; reckoned {box.efficiency:g}"
        ),
        fix=lambda i: ["reducer"],
        note=lambda i, say: (
            f"Such a box cannot pass more than {best:g} of the power: read reducer.kind and reducer.efficiency again "
            "on its plate or its maker's sheet."
        ),
    )


def _speed(machine: LoadedMachine) -> Check:
    """Whether the box may be driven as fast as the motor turns with the trough empty."""
    box, turning = machine.spec.reducer, machine.empty_speed * machine.spec.reducer.ratio
    most = table("reducer_kinds").find(box.kind).values["input_speed"]
    by_converter = machine.spec.motor.fed_by == "frequency converter"
    slower = [{"motor.run_at": machine.spec.motor.run_at * most / turning}] if by_converter else []
    return make_check(
        machine,
        "reducer",
        "reducer",
        "speed it is driven at",
        demand=turning,
        capacity=most,
        unit="rpm",
        working=lambda i: box_workings.box_speed(machine, turning, most),
        tight=1.0,
        source="greatest input speed by kind: common practice, data/tables/reducer_kinds.csv",
        reason=lambda i, say: (
            f"a {box.kind} box; the motor keeps step with its field when the trough is empty"
        ),
        fix=lambda i: [*slower, "motor", "reducer"],
        note=lambda i, say: "Faster, its oil foams and its seals burn.",
    )


def _ratio(machine: LoadedMachine) -> Check:
    """Whether a box of this kind is made with so high a ratio."""
    box = machine.spec.reducer
    most = table("reducer_kinds").find(box.kind).values["ratio"]
    return make_check(
        machine,
        "reducer",
        "reducer",
        "ratio is one of its kind",
        demand=box.ratio,
        capacity=most,
        unit="",
        working=lambda i: box_workings.box_ratio(machine, most),
        tight=1.0,
        source="greatest ratio by kind: common practice, data/tables/reducer_kinds.csv",
        reason=lambda i, say: (
            f"a {box.kind} box with its usual stages; beyond, another stage takes more of the power"
        ),
        fix=lambda i: ["reducer"],
        note=lambda i, say: (
            "Turn its fast end by hand and count the turns to one of the slow end: reducer.ratio."
        ),
    )


def _heat_and_reaction(machine: LoadedMachine) -> list[Check]:
    box, flow = machine.spec.reducer, machine.power_flow
    power = flow.stations["motor shaft"][2]
    reaction = flow.torque_at_box_output * 1e3 / box.torque_arm
    heat = ("reducer", "reducer", "heat all day")
    slower = ["motor.run_at"] if machine.spec.motor.fed_by == "frequency converter" else []
    return [
        make_unjudged(machine, *heat, motor.STANDS)
        if not (flow.speed_while_mixing[machine.load_cases.mixing] != 0).all()
        else make_check(
            machine,
            *heat,
            where=machine.load_cases.mixing,
            demand=power,
            capacity=box.thermal_power,
            unit="kW",
            working=lambda i: box_workings.box_power(machine, float(power[i]), i),
            source="thermal power: the box's sheet",
            reason=lambda i, say: (
                f"{say(power[i], 'kW')} goes in, {say(power[i] * (1 - box.efficiency), 'kW')} of it becomes heat"
            ),
            fix=lambda i: ["reducer", *slower, *LESS_CLAY],
        ),
        make_check(
            machine,
            "reducer",
            "reducer",
            "load across its slow end",
            where=~machine.load_cases.jammed,
            demand=reaction,
            capacity=box.radial_load,
            unit="N",
            working=lambda i: box_workings.box_load(machine, float(reaction[i]), i),
            source="F = T / arm; allowed load: the box's sheet",
            reason=lambda i, say: (
                f"{say(flow.torque_at_box_output[i], 'N*m')} held at {say(box.torque_arm, 'mm')}"
            ),
            fix=lambda i: [
                {"reducer.torque_arm": float(reaction[i] * box.torque_arm / box.radial_load)},
                "reducer",
                *LESS_CLAY,
            ],
        ),
    ]


_LOOSE = 0.05
"""By how much in mm a motor's shaft may be thinner than its bore (common practice)."""
_TIGHT = 0.02
"""By how much it may be thicker: k6 in H7 is up to 0.015 mm so up to 30 mm, 0.018 up to 50 (ISO 286-2)."""


def _ends(machine: LoadedMachine) -> list[Check]:
    spec = machine.spec
    box = spec.reducer
    bush = adapting_bush(box.output_bore, spec.shaft_1.diameter)
    gap = box.input_bore - spec.motor.shaft_end
    # a shaft that is thicker does not go in, one that is thinner only fits badly
    off = max(gap, -gap * _LOOSE / _TIGHT)
    found = [
        make_check(
            machine,
            "reducer",
            "fast end",
            "motor's shaft fits the bore at the fast end",
            demand=off,
            capacity=_LOOSE,
            unit="mm",
            working=lambda i: box_workings.fast_end(machine, off, _LOOSE, _TIGHT),
            source="sizes as measured; 0.05 mm loose, or 0.02 mm tight as k6 in H7 is at most (ISO 286-2): common practice",
            reason=lambda i, say: (
                f"shaft {say(spec.motor.shaft_end, 'mm')}, bore {say(box.input_bore, 'mm')}: measure the end the "
                "motor goes on, not the hollow slow end"
            ),
            fix=lambda i: ["motor", "reducer"],
            note=lambda i, say: "Measure both again: motor.shaft_end and reducer.input_bore.",
        ),
        make_check(
            machine,
            "reducer",
            "slow end",
            "shaft 1 goes into the hollow slow end",
            demand=spec.shaft_1.diameter,
            capacity=box.output_bore,
            unit="mm",
            working=lambda i: box_workings.slow_end(machine),
            tight=1.0,
            source="sizes as measured",
            reason=lambda i, say: (
                f"shaft {say(spec.shaft_1.diameter, 'mm')}, bore {say(box.output_bore, 'mm')}, so a bush wall "
                f"of {say(bush.wall, 'mm')}: {bush.words}"
            ),
            fix=lambda i: [{"shaft_1.diameter": box.output_bore}, "reducer"],
            note=lambda i, say: "Measure reducer.output_bore again.",
        ),
    ]
    found += _bores(machine)
    if bush.wall > 0:
        found.append(_bush(machine, bush))
    return found


def _bush(machine: LoadedMachine, bush: BoxBush) -> Check:
    """Whether the wall of the bush between bore and shaft stays round."""
    spec, box = machine.spec, machine.spec.reducer
    return make_check(
        machine,
        "reducer",
        "adapting bush",
        "wall of the adapting bush",
        demand=2.0,
        capacity=bush.wall,
        unit="mm",
        working=lambda i: box_workings.bush_wall(machine, bush.wall),
        source="thinnest wall that stays round: common practice",
        reason=lambda i, say: (
            f"({say(box.output_bore, 'mm')} - {say(spec.shaft_1.diameter, 'mm')}) / 2"
        ),
        fix=lambda i: [
            {"shaft_1.diameter": box.output_bore},
            {"shaft_1.diameter": box.output_bore - 4.0},
            "reducer",
        ],
        note=lambda i, say: "Measure reducer.output_bore again.",
    )


def _bores(machine: LoadedMachine) -> list[Check]:
    """Whether the bore of the hollow end is believable beside shaft 1 and the box's torque."""
    spec, box = machine.spec, machine.spec.reducer
    found = []
    most = _BORE_OVER_SHAFT * spec.shaft_1.diameter
    found.append(
        make_check(
            machine,
            "reducer",
            "slow end",
            "bore is of shaft 1's size",
            demand=box.output_bore,
            capacity=most,
            unit="mm",
            working=lambda i: box_workings.most_bore(machine, _BORE_OVER_SHAFT, most),
            tight=1.0,
            source="a bush that makes up for half of the bore at most, with one stepped key through it: common practice",
            reason=lambda i, say: (
                f"shaft {say(spec.shaft_1.diameter, 'mm')} in a bore of {say(box.output_bore, 'mm')}"
            ),
            fix=lambda i: ["reducer", {"shaft_1.diameter": box.output_bore / _BORE_OVER_SHAFT}],
            note=lambda i, say: "Measure reducer.output_bore again.",
        )
    )
    widest = (16e3 * box.rated_torque / (pi * HOLLOW_SHEAR)) ** (1 / 3)
    found.append(
        make_check(
            machine,
            "reducer",
            "slow end",
            "bore is that of a box for its torque",
            demand=box.output_bore,
            capacity=widest,
            unit="mm",
            working=lambda i: box_workings.widest_bore(machine, HOLLOW_SHEAR, widest),
            tight=1.0,
            source="16 T / (pi d^3) of a shaft that fills the bore, 10 MPa at least under rated torque: common practice",
            reason=lambda i, say: (
                f"bore {say(box.output_bore, 'mm')} and a rated torque of {say(box.rated_torque, 'N*m')}: a shaft that fills it "
                "would be all but idle, and a box so large is rated for far more"
            ),
            fix=lambda i: ["reducer"],
            note=lambda i, say: (
                "reducer.output_bore and reducer.rated_torque stand against each other: measure the bore again and read the plate."
            ),
        )
    )
    return found
