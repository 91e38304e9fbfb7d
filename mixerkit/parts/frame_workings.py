"""How the numbers of the checks of plates and far wall were worked out."""

from __future__ import annotations

from mixerkit.parts.frame_layout import hole_factor, tie_spans
from mixerkit.parts.frame_plate import PushedPlate
from mixerkit.working import Working, by_method, worked

__all__ = ["bends", "tilts"]


def bends(plate: PushedPlate, one: float, two: float) -> list[Working]:
    """Say how the stress beside the bores follows from the pushes in N along both shafts."""
    small = min(plate.bores)
    factor = float(hole_factor.formula(small, plate.thickness))
    notch = worked(
        "K = 1.79 + 0.25/(0.39 + d/t) + 0.81/(1 + (d/t)**2) - 0.26/(1 + (d/t)**3)",
        factor,
        "",
        source="Peterson's Stress Concentration Factors, hole in a bent plate (from memory)",
        d=(small, "mm", "smaller of the two bores"),
        t=(plate.thickness, "mm", plate.field),
    )
    level, upright = plate.stresses(one, two)
    if plate.far or level >= upright:
        return [notch, _level_moment(plate, one, two), _stress(plate, factor, 0, one, two)]
    return [notch, _upright_moment(plate, one, two), _stress(plate, factor, 1, one, two)]


def _level_moment(plate: PushedPlate, one: float, two: float) -> Working:
    moment = float(plate.moments(one, two)[0]) / 1e3
    pushed = {
        "W_1": (one, "N", "push along shaft 1, of its paddles or of one that is caught"),
        "W_2": (two, "N", "push along shaft 2, of its paddles or of one that is caught"),
    }
    if plate.far:
        height = (plate.spec.frame.shaft_height, "mm", "frame.shaft_height")
        return worked("M = (W_1 + W_2)*h", moment, "N*m", source="", **pushed, h=height)
    up = (tie_spans(plate.spec)[1], "mm", "free height between the tie bolts")
    return worked("M = (W_1 + W_2)*H/4", moment, "N*m", source="", **pushed, H=up)


def _upright_moment(plate: PushedPlate, one: float, two: float) -> Working:
    return worked(
        "M = a*(W*(L - a) + W_0*a)/L",
        float(plate.moments(one, two)[1]) / 1e3,
        "N*m",
        a=(plate.lever, "mm", "from a shaft to the tie bolts beside it"),
        W=(
            max(one, two),
            "N",
            "larger push along a shaft, of its paddles or of one that is caught",
        ),
        W_0=(min(one, two), "N", "push along the other shaft"),
        L=(tie_spans(plate.spec)[0], "mm", "free width between the tie bolts"),
    )


def _stress(plate: PushedPlate, factor: float, cut: int, one: float, two: float) -> Working:
    metal, words = (
        (plate.level, "metal left on the level cut through both bores"),
        (plate.upright, "metal left on an upright cut through the larger bore"),
    )[cut]
    return worked(
        "sigma = K*6*M/(b*t**2)",
        float(plate.stresses(one, two)[cut]),
        "MPa",
        K=(factor, "", "above"),
        M=(float(plate.moments(one, two)[cut] / 1e3), "N*m", "above"),
        b=(metal, "mm", words),
        t=(plate.thickness, "mm", plate.field),
    )


def tilts(
    plate: PushedPlate, push: float, shaft: float, limit: float, left: float
) -> list[Working]:
    """Say how far a bore tilts of a push in N, and what the shaft leaves of the limit, in rad."""
    by = by_method(
        "phi_l",
        "limit of the bearings less the slope of the shaft as a beam on three bearings, at the worst angle of a turn; "
        "none where that slope takes it all",
        1e3 * left,
        "mrad",
        phi=(1e3 * shaft, "mrad", "shaft as a beam, slope while mixing"),
        phi_0=(
            1e3 * limit,
            "mrad",
            "the low end of Shigley, table 7-2, as reprinted, or common practice",
        ),
    )
    metal = plate.level if plate.far else plate.upright
    steel = f"data/tables/materials.csv, {plate.material}: elastic modulus"
    given = {
        "W": (push, "N", "clay load, push along each shaft while mixing"),
        "E": (plate.steel["elastic_modulus"], "GPa", steel),
        "b": (metal, "mm", "metal left beside the bore"),
        "t": (plate.thickness, "mm", plate.field),
    }
    formula = "theta = 6*W*a*c/(E*b*t**3)"
    if plate.far:
        formula = "theta = 12*W*h**2/(E*b*t**3)"
        given["h"] = (plate.spec.frame.shaft_height, "mm", "frame.shaft_height")
    else:
        given["a"] = (plate.lever, "mm", "from a shaft to the tie bolts beside it")
        given["c"] = (plate.spec.housing.centre_distance, "mm", "housing.centre_distance")
    return [worked(formula, 1e3 * plate.tilt(push), "mrad", source="", **given), by]
