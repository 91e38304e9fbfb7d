"""Whether the reduction box carries what is asked of it, at the speed it is asked."""

from __future__ import annotations

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.constants import STANDARD_GRAVITY
from mixerkit.drive import box_workings, fuses, motor
from mixerkit.drive.reducer import service_factor
from mixerkit.drive.remedies import LESS_CLAY, more_reduction
from mixerkit.parts.shaft_loads import arm_pull
from mixerkit.results import LoadedMachine
from mixerkit.tables import table

__all__ = ["checks"]


def checks(machine: LoadedMachine) -> list[Check]:
    """Check the box's torque, speed, ratio, heat and reaction.

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
        _across_in_a_jam(machine),
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
        fix=lambda i: [*slower, *more_reduction(machine.spec), "motor", "reducer"],
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
    power = flow.into_box[2]
    reaction, hanging = arm_pull(machine), STANDARD_GRAVITY * box.mass
    lasting = box.radial_load - hanging
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
            capacity=lasting,
            unit="N",
            working=lambda i: [
                *box_workings.box_load(machine, float(reaction[i]), i),
                box_workings.box_holds(machine, lasting, momentary=False),
            ],
            source="F = T / arm beside the weight that hangs on shaft 1; allowed load: the box's sheet",
            reason=lambda i, say: (
                f"{say(flow.torque_at_box_output[i], 'N*m')} held at {say(box.torque_arm, 'mm')}, and "
                f"{say(hanging, 'N')} of box and motor"
            ),
            fix=lambda i: [
                *(
                    [{"reducer.torque_arm": float(reaction[i] * box.torque_arm / lasting)}]
                    if lasting > 0
                    else []
                ),
                "reducer",
                *LESS_CLAY,
            ],
        ),
    ]


def _across_in_a_jam(machine: LoadedMachine) -> Check:
    """Whether the box's slow end bears what its arm holds in a jam, beside box and motor that hang there."""
    box, flow = machine.spec.reducer, machine.power_flow
    reaction = arm_pull(machine)
    weight = STANDARD_GRAVITY * box.mass
    moment = box.peak_torque_ratio * box.radial_load - weight

    def eased(i: int) -> list[Change]:
        """A longer arm, or a fuse that lets less through: neither helps a box that its own weight overloads."""
        if moment <= 0:
            return []
        arm = float(reaction[i] * box.torque_arm / moment)
        most = float(flow.torque_at_box_output[i] * moment / reaction[i])
        return [{"reducer.torque_arm": arm}, *fuses.weaker_fuse(machine.spec, most)]

    return make_check(
        machine,
        "reducer",
        "reducer",
        "load across its slow end in a jam",
        where=machine.load_cases.jammed,
        demand=reaction,
        capacity=moment,
        unit="N",
        working=lambda i: [
            *box_workings.box_load(machine, float(reaction[i]), i),
            box_workings.box_holds(machine, moment, momentary=True),
        ],
        rung=(1.0, 1.3),
        source="F = T / arm beside the weight that hangs on shaft 1; allowed load: the box's sheet, for a moment as its torque",
        reason=lambda i, say: (
            f"{say(flow.torque_at_box_output[i], 'N*m')} held at {say(box.torque_arm, 'mm')}, and {say(weight, 'N')} of "
            f"box and motor; for a moment {box.peak_torque_ratio:g} times {say(box.radial_load, 'N')}"
        ),
        fix=lambda i: [*eased(i), "reducer"],
    )
