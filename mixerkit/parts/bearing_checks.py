"""What everything turns in: bearings or bushes of the shafts, of free gears and idler; seals."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np

from mixerkit.cases import Case
from mixerkit.checks import Check, Say
from mixerkit.parts import bearing, fits, pressfit
from mixerkit.parts.gear_checks import idler_forces
from mixerkit.parts.shaftline import NAMES, Line
from mixerkit.tables import table

__all__ = ["axial_push", "bush_sizes", "checks", "seal_room", "seal_share"]


def axial_push(case: Case) -> float:
    """Push in N along one shaft, all its buried paddles set the same way."""
    blade = case.plain.paddles
    return (
        float(case.asks.push * case.asks.buried.sum(axis=1).max()) if blade.set_angle < 90 else 0.0
    )


def checks(case: Case) -> list[Check]:
    """Check bearings, bushes and seals.

    Parameters
    ----------
    case : Case

    Returns
    -------
    list of Check
    """
    found = []
    for line in case.lines:
        found += _rolling(line) if case.plain.bearings.kind == "rolling" else _bushes(line)
    return found + _idler_bush(case) + _free_gears(case) + _seals(case)


def _by_state(case: Case, states: np.ndarray, values: np.ndarray) -> np.ndarray:
    whole = np.zeros(len(case.states))
    whole[states] = values
    return whole


def _loads(line: Line, place: int) -> tuple[np.ndarray, np.ndarray]:
    """Force on one bearing in N over the states: lasting while it turns, and the most in a jam."""
    case, run, stop = line.case, line.running, line.stopped
    # the cube mean over a turn is what wears a rolling bearing: ISO 281
    lasting = np.cbrt((run.reaction[..., place] ** 3).mean(axis=1))
    return (
        _by_state(case, run.states, lasting),
        _by_state(case, stop.states, stop.reaction[..., place].max(axis=1)),
    )


def _size(row: dict[str, Any], say: Say) -> str:
    return " x ".join(say(row[one], "mm") for one in ("bore", "outer", "width"))


def _rolling(line: Line) -> list[Check]:
    case, plain = line.case, line.case.plain
    part = f"bearings of shaft {line.number}"
    if any(row is None for row in line.bearings):
        least = float(table("rolling_bearings").column("bore").min())
        thin = float(line.diameters[line.supports].min())
        return [
            case.check(
                "bearings", part, "a bearing for the shaft's seats", demand=least, capacity=thin, unit="mm", tight=1.0,
                source="ISO 15 as far as the table goes", reason=lambda i, say: "seat turned down from the shaft",
                advice=lambda i, say: f"A shaft of {say(least, 'mm')} would do, or plain bushes.",
            )
        ]  # fmt: skip
    speed = plain.motor.rated_speed / plain.reducer.ratio
    push = axial_push(case)
    lives, statics = [], []
    for k, row in enumerate(line.bearings):
        axial = push if k + 1 == plain.bearings.locating else 0.0
        lasting, most = _loads(line, k)
        load = bearing.equivalent_load.plain(lasting, axial, 1e3 * row["static_rating"])
        life = bearing.rating_life.plain(1e3 * row["dynamic_rating"], np.maximum(load, 1.0), speed)
        lives.append((float(life[case.mixing].min()), k, life, load))
        rest = bearing.static_load.plain(most, axial)
        statics.append((float(rest.max()) / row["static_rating"], k, rest))
    _, k_life, life, load = min(lives, key=lambda one: one[0])
    _, k_rest, rest = max(statics, key=lambda one: one[0])
    safety = plain.safety.bearing_static
    return [
        case.check(
            "bearings", part, "rating life", where=case.mixing, demand=plain.batch.life_hours, capacity=life, unit="hour",
            source="ISO 281; ratings of data/tables/rolling_bearings.csv",
            reason=lambda i, say: (
                f"{_size(line.bearings[k_life], say)} at the {NAMES[k_life]}: P = {say(load[i], 'N')}, "
                f"C = {say(1e3 * line.bearings[k_life]['dynamic_rating'], 'N')}, {say(speed, 'rpm')}"
            ),
            advice=lambda i, say: (
                f"A bearing with C of {say(1e3 * line.bearings[k_life]['dynamic_rating'] * (plain.batch.life_hours / life[i]) ** (1 / 3), 'N')} would do."
            ),
        ),
        case.check(
            "bearings", part, "static load in a jam", where=case.jammed, demand=rest,
            capacity=1e3 * line.bearings[k_rest]["static_rating"], unit="N", safety=safety,
            source="ISO 76 (from memory): what dents its track; slow shafts are governed by it",
            reason=lambda i, say: f"{_size(line.bearings[k_rest], say)} at the {NAMES[k_rest]}: P0 = {say(rest[i], 'N')}",
            advice=lambda i, say: f"A bearing with C0 of {say(rest[i] * safety, 'N')} would do.",
        ),
    ]  # fmt: skip


def _bush_checks(case: Case, part: str, bore: float, length: float, load: np.ndarray, stopped: np.ndarray, speed: np.ndarray, share: float) -> list[Check]:  # fmt: skip
    """Pressure turning and stopped, pressure times speed, and wear over the machine's life."""
    one = case.plain.bearings
    bush = table("bush_materials").find(one.bush_material).plain
    pressure = bearing.bush_pressure.plain(load, bore, length)
    rest = bearing.bush_pressure.plain(stopped, bore, length)
    sliding = bearing.sliding_speed.plain(speed, bore)
    hours = case.plain.batch.life_hours * share
    worn = bearing.wear_depth.plain(pressure, sliding * 3.6 * hours, bush["wear_rate"])
    turning = case.mixing & (sliding > 0)
    if not turning.any():
        turning = case.mixing

    def longer(value: float, allowed: float) -> float:
        return length * value / allowed

    def where(i: int, say: Any) -> str:
        return f"{say(load[i], 'N')} on {say(bore, 'mm')} x {say(length, 'mm')}, sliding {say(sliding[i], 'm/s')}"

    source = f"{one.bush_material}: data/tables/bush_materials.csv"
    return [
        case.check(
            "bearings", part, f"pressure in {part} in a jam", where=case.jammed, demand=rest, capacity=2 * bush["pressure"], unit="MPa",
            source=f"{source}; at rest twice that: common practice",
            reason=lambda i, say: f"{say(stopped[i], 'N')} on {say(bore, 'mm')} x {say(length, 'mm')}",
            advice=lambda i, say: f"A bush {say(longer(rest[i], 2 * bush['pressure']), 'mm')} long would do.",
        ),
        case.check(
            "bearings", part, f"pressure times speed in {part}", where=turning, demand=pressure * sliding, capacity=bush["pv"],
            unit="MPa*m/s", source=source, reason=where,
            advice=lambda i, say: f"A bush {say(longer(pressure[i] * sliding[i], bush['pv']), 'mm')} long would do.",
        ),
        case.check(
            "bearings", part, f"wear of {part}", where=turning, demand=worn, capacity=one.wear_allowed, unit="mm",
            source=f"Archard's law; {source}",
            reason=lambda i, say: f"{where(i, say)} for {hours:g} h",
            advice=lambda i, say: f"A bush {say(longer(worn[i], one.wear_allowed), 'mm')} long would do, or grease and a change after {say(hours * one.wear_allowed / worn[i], 'hour')}.",
        ),
    ]  # fmt: skip


def _bushes(line: Line) -> list[Check]:
    case, plain = line.case, line.case.plain
    worst = int(np.argmax(line.running.reaction.max(axis=(0, 1))))
    lasting, most = _loads(line, worst)
    speed = np.full(len(case.states), plain.motor.rated_speed / plain.reducer.ratio)
    return _bush_checks(
        case, f"bushes of shaft {line.number}", float(line.diameters[line.supports[worst]]), plain.bearings.bush_length,
        lasting, most, speed, 1.0,
    )  # fmt: skip


def _idler_bush(case: Case) -> list[Check]:
    plain = case.plain
    path = plain.paths.idler
    force = idler_forces(case)
    if not np.isfinite(force).all():
        return []
    speed = (
        plain.motor.rated_speed / plain.reducer.ratio * path.tooth_counts[0] / path.tooth_counts[1]
    )
    # half of the time in each mode
    return _bush_checks(
        case, "idler's bush", plain.housing.idler_pin, plain.bearings.idler_length, force * ~case.jammed, force * case.jammed,
        np.where(case.clutch == "idler", speed, 0.0), 0.5,
    )  # fmt: skip


def _free_gears(case: Case) -> list[Check]:
    """The gears that the clutch frees: loaded only while they are held, sliding only while free."""
    plain = case.plain
    line = case.lines[plain.clutch.shaft - 1]
    held = np.hypot(*line.gear_forces.T)
    diameter = float(min(line.diameters[place] for place in line.gears.values()))
    slow = plain.motor.rated_speed / plain.reducer.ratio
    path = plain.paths.direct
    count = path.tooth_counts[0 if plain.clutch.shaft == 1 else -1]
    weight = 9.81 * np.pi / 4 * (path.module * count) ** 2 * path.face_width * 7.85e-6
    free = case.clutch != "direct"
    return _bush_checks(
        case, "bushes of the free gears", diameter, plain.bearings.free_gear_length, np.where(free, weight, 0.0), held * case.jammed,
        np.where(case.clutch == "idler", 2 * slow, np.where(free, slow, 0.0)), 0.5,
    )  # fmt: skip


def seal_room(plain: SimpleNamespace, line: Line) -> float:
    """Room in mm between trough wall and bearing for a seal and an open gap."""
    row = line.bearings[1]
    width = row["width"] if row else plain.bearings.bush_length
    _, near, far = (line.places[i] for i in line.supports)
    wall = plain.trough.wall_thickness
    plate = plain.housing.plate_thickness / 2
    spare = (far - near - plain.trough.length) / 2 - wall
    # at the near end the plate may be thicker than its bearing is wide
    return float(spare - max(width / 2, plate))


def seal_share(case: Case) -> tuple[float, float]:
    """Torque in N*m that all four seals take, and its share of what the clay asks on average."""
    seal = table("seals").find(case.plain.bearings.seal).plain
    total = sum(
        2
        * float(
            bearing.seal_torque.plain(seal["line_load"], float(line.segments[-1]), seal["friction"])
        )
        for line in case.lines
    )
    return total, total / (2 * case.asks.mean)


def _seals(case: Case) -> list[Check]:
    plain = case.plain
    seal = table("seals").find(plain.bearings.seal).plain
    room = min(seal_room(plain, line) for line in case.lines)
    asked = seal["length"] + plain.bearings.drain_gap
    torque, share = seal_share(case)
    more = plain.paddles.bearing_span + 2 * (asked - room)
    return [
        case.check(
            "bearings", "seals", "seal keeps slip from the bearings", demand=1.0, capacity=float(seal["keeps_out_slip"] == "yes"), unit="",
            tight=1.0, source="data/tables/seals.csv: common practice",
            reason=lambda i, say: f"{plain.bearings.seal} where each shaft leaves the trough",
            advice=lambda i, say: "A packed gland would do, or two lips with grease between.",
        ),
        case.check(
            "bearings", "seals", "room for seal and open gap", demand=asked, capacity=room, unit="mm", tight=1.0,
            source="what passes the seal must drop out before the bearing: common practice",
            reason=lambda i, say: f"seal {say(seal['length'], 'mm')}, gap {say(plain.bearings.drain_gap, 'mm')}",
            advice=lambda i, say: f"A bearing span of {say(more, 'mm')} would do.",
        ),
        case.check(
            "bearings", "seals", "seals leave the torque to the clay", demand=share, capacity=0.15, unit="",
            source="15 % of the mean torque: common practice",
            reason=lambda i, say: f"four seals take {say(torque, 'N*m')} together",
            advice=lambda i, say: "Lip seals with grease between would do.",
        ),
    ]  # fmt: skip


def bush_sizes(plain: SimpleNamespace, bore: float, around: float) -> SimpleNamespace:
    """Sizes of a pressed-in bush: fit, squeeze, how far its bore closes, and what to ream.

    Parameters
    ----------
    plain : SimpleNamespace
        The design in plain numbers.
    bore : float
        Nominal bore in mm, that of the shaft or pin.
    around : float
        Outside of the gear's hub or of the metal round the bush, in mm.

    Returns
    -------
    SimpleNamespace
        ``outside`` nominal; ``fit`` as :func:`mixerkit.parts.fits.fit` gives it; ``pressure`` at most in
        MPa, ``closing`` at least and at most in mm, ``force`` at most to press it in, in N; ``bored``
        the size to bore it to before pressing, so that there is something left to ream; ``reamed``
        least and most size after reaming.

    References
    ----------
    Lame, as in :mod:`mixerkit.parts.pressfit`; 0.2 mm left to ream: common practice.
    """
    one = plain.bearings
    bush = table("bush_materials").find(one.bush_material).plain
    outside = bore + 2 * one.bush_wall
    fitted = fits.fit(outside, one.bush_fit)
    squeeze = np.maximum([-fitted.loosest, -fitted.tightest], 0.0)
    pressure = pressfit.fit_pressure.plain(
        squeeze, outside, max(around, 1.2 * outside), 210.0, bush["elastic_modulus"], bore
    )
    closing = pressfit.bore_closing.plain(pressure, outside, bore, bush["elastic_modulus"])
    reamed = bore + fits.limits.plain(bore, "H8") / 1e3
    return SimpleNamespace(
        outside=outside, fit=fitted, pressure=float(pressure[1]), closing=(float(closing[0]), float(closing[1])),
        force=float(pressfit.press_force.plain(pressure[1], outside, one.idler_length)),
        bored=float(np.floor(10 * (bore - 0.2 + closing[0])) / 10), reamed=(float(reamed[0]), float(reamed[1])),
    )  # fmt: skip
