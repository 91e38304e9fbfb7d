"""The motor against the clay and against the socket."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from mixerkit.cases import Case
from mixerkit.checks import Check, Say
from mixerkit.drive import motor
from mixerkit.tables import next_up, table

__all__ = ["checks"]

_TORQUE = "rated torque: Shigley 10th ed., eq. 3-40; factor: common practice"


def checks(case: Case) -> list[Check]:
    """Check the motor's feed, its torque, mixing and starting, and its current, mixing and starting.

    Parameters
    ----------
    case : Case

    Returns
    -------
    list of Check
    """
    return [_feed(case), *_torque(case), *_current(case)]


def _feed(case: Case) -> Check:
    """Whether the motor gets the phases it needs."""
    plate, supply = case.plain.motor, case.plain.supply
    three = plate.kind == "three-phase"
    converter = plate.fed_by == "frequency converter"
    given = (3 if converter else supply.phases) if three else (0 if converter else 1)
    return case.check(
        "motor", "socket", "phases the motor needs", demand=3 if three else 1, capacity=given, unit="", tight=1.0,
        source="a converter makes three phases of one, and does not suit capacitor motors: common practice",
        reason=lambda i, say: f"a {plate.kind} motor fed by {plate.fed_by} from {supply.phases} phase(s)",
        advice=lambda i, say: (
            "A frequency converter between socket and motor would do."
            if three
            else "A capacitor motor fed direct, or a three-phase motor, would do."
        ),
    )  # fmt: skip


def _torque(case: Case) -> list[Check]:
    plate, flow, box, able = case.plain.motor, case.flow, case.plain.reducer, case.flow.able
    ratings = table("motors").column("rated_power")
    mixing, starting = case.plain.safety.motor_mixing, case.plain.safety.motor_starting

    def demand_reason(i: int, say: Say) -> str:
        share = flow.box_efficiency[i]
        return f"T = {say(flow.slow[i], 'N*m')} / ({box.ratio:g} x {share:g})"

    def advice_for(given: float, safety: float) -> Callable[[int, Say], str]:
        def advice(i: int, say: Say) -> str:
            more = flow.motor[i] * safety / given
            rating = next_up(plate.rated_power * more, ratings)
            listed = f" (next preferred rating {say(rating, 'kW')})" if np.isfinite(rating) else ""
            water = case.asks.softer(float(more))
            # rounded up, so that the water named is enough
            wetter = f", or clay at {np.ceil(1000 * water) / 10:.1f} % water" if water else ""
            return (
                f"A motor of {say(plate.rated_power * more, 'kW')} would do{listed}; or a reduction of "
                f"{np.ceil(box.ratio * more):.0f} : 1, which mixes slower{wetter}."
            )

        return advice

    run_up = min(able.start, able.pull_up)
    at_most = f"the motor gives {say_how(plate.fed_by)} at most"
    return [
        case.check(
            "motor", "motor", "torque while mixing", where=case.mixing, demand=flow.motor,
            capacity=able.lasting, unit="N*m", safety=mixing, source=_TORQUE,
            reason=lambda i, say: (
                f"{demand_reason(i, say)}; rated T = {say(plate.rated_power, 'kW')} at "
                f"{say(plate.rated_speed, 'rpm')}, fed by {plate.fed_by}"
            ),
            advice=advice_for(able.lasting, mixing),
        ),
        case.check(
            "motor", "motor", "no stall while mixing", where=case.mixing, demand=flow.motor,
            capacity=able.greatest, unit="N*m", source="breakdown torque: the motor's sheet",
            reason=lambda i, say: f"{demand_reason(i, say)}; {at_most}",
            advice=advice_for(able.greatest, 1.0),
        ),
        case.check(
            "motor", "motor", "no stall when starting a full trough", where=case.starting,
            demand=flow.motor, capacity=run_up, unit="N*m", safety=starting,
            source="torque at rest and while running up: the motor's sheet (minima: IEC 60034-12); factor: common practice",
            reason=lambda i, say: (
                f"{demand_reason(i, say)}; running up the motor gives at least {say(run_up, 'N*m')}"
            ),
            advice=advice_for(run_up, starting),
        ),
    ]  # fmt: skip


def say_how(fed_by: str) -> str:
    """Say what bounds the greatest torque of a motor fed one way or another."""
    return (
        "what its converter allows" if fed_by == "frequency converter" else "its breakdown torque"
    )


def _current(case: Case) -> list[Check]:
    plain, flow = case.plain, case.flow
    plate, supply = plain.motor, plain.supply
    power = motor.shaft_power.plain(flow.motor, np.abs(flow.speed_while_mixing))
    drawn = motor.input_current(plain, power)
    full = float(motor.input_current(plain, plate.rated_power))
    at_start = {
        "direct": plate.start_current_ratio,
        "soft starter": min(motor.SOFT_START_CURRENT, plate.start_current_ratio),
        "frequency converter": plate.converter_torque_ratio,
    }[plate.fed_by]
    phases = "single-phase" if supply.phases == 1 else "three-phase"
    allowed = supply.socket_current * supply.inrush_factor
    return [
        case.check(
            "motor", "socket", "current while mixing", where=case.mixing, demand=drawn,
            capacity=supply.socket_current, unit="A", source="P = sqrt(phases) V I cos(phi) eta",
            reason=lambda i, say: (
                f"{say(power[i], 'kW')} at the shaft, {say(supply.voltage, 'V')} {phases}, fed by {plate.fed_by}; "
                f"at full rating {say(full, 'A')}"
            ),
            advice=lambda i, say: (
                f"A circuit for {say(float(np.ceil(drawn[i])), 'A')} would do (for a licensed electrician), "
                "or a slower mixer."
            ),
        ),
        case.check(
            "motor", "socket", "current when switched on", demand=full * at_start, capacity=allowed,
            unit="A",
            source="breaker of type C lets 5 to 10 times through for a moment, B 3 to 5: EN 60898-1 (from memory)",
            reason=lambda i, say: (
                f"{at_start:g} x {say(full, 'A')}; socket {say(supply.socket_current, 'A')} x {supply.inrush_factor:g}"
            ),
            advice=lambda i, say: "A soft starter or a frequency converter would do.",
        ),
    ]  # fmt: skip
