"""How the numbers of the checks of bearings, bushes, plates and seals were worked out."""

from __future__ import annotations

from mixerkit.results import LoadedMachine
from mixerkit.working import Given, Working, by_method, worked

__all__ = ["bush_held", "hub_round", "life", "pressure", "sliding", "static", "taken", "wear"]


def taken(symbol: str, rule: str, value: float, unit: str, **given: Given) -> list[Working]:
    """Say by which rule a number was taken."""
    return [by_method(symbol, rule, value, unit, source="", **given)]


def pressure(load: float, bore: float, length: float, result: float, part: str) -> Working:
    """Say how the mean pressure in a bush follows from its load."""
    return worked(
        "p = F/(d*l)",
        result,
        "MPa",
        source="Shigley 10th ed., eq. 12-37 in its form",
        F=(
            load,
            "N",
            f"load on {part}: while mixing of a shaft its cube mean over a turn, of a free gear its weight; in a jam the greatest",
        ),
        d=(bore, "mm", f"bore of {part}"),
        l=(length, "mm", f"length of {part}"),
    )


def sliding(speed: float, bore: float, result: float, part: str) -> Working:
    """Say how fast a shaft slides in its bush."""
    return worked(
        "v = Abs(omega)*d/2",
        result,
        "m/s",
        source="geometry",
        omega=(speed, "rpm", f"power flow, speed in {part}"),
        d=(bore, "mm", f"bore of {part}"),
    )


def wear(
    p: Working, v: Working, hours: float, rate: float, result: float, material: str
) -> list[Working]:
    """Say how deep a bush wears over the machine's life."""
    return [
        p,
        v,
        worked(
            "h = k*p*v*t",
            result,
            "mm",
            p=(p.result, "MPa", "above"),
            v=(v.result, "m/s", "above"),
            t=(hours, "hour", "batch.life_hours, and the share of it that the bush slides"),
            k=(rate, "mm**3/(N*m)", f"data/tables/bush_materials.csv, {material}: wear rate"),
        ),
    ]


def static(radial: float, axial: float, result: float, at: str) -> list[Working]:
    """Say how the equivalent static load of a bearing was got."""
    return [
        worked(
            "P_0 = Max(F_r, 0.6*F_r + 0.5*F_a)",
            result,
            "N",
            F_r=(radial, "N", f"shaft as a beam, most at the {at} in a jam"),
            F_a=(axial, "N", "push along the shaft where this bearing locates it"),
        )
    ]


def life(rating: float, load: float, speed: float, axial: float, result: float) -> list[Working]:
    """Say how the rating life follows from the load on a bearing."""
    felt = max(load, 1.0)
    equivalent = by_method(
        "P",
        "cube mean of the reaction over a turn, with the push along the shaft by the factors for axial load; a newton at least",
        felt,
        "N",
        source="ISO 281; Shigley 10th ed., table 11-1 (from memory)",
        F_a=(axial, "N", "clay load, push along the shaft where this bearing locates it"),
    )
    if not speed > 0:
        rule = "a bearing that stands in this load case does not wear"
        return [equivalent, by_method("L_10h", rule, result, "hour")]
    return [
        equivalent,
        worked(
            "L_10 = (C/P)**3",
            (rating / felt) ** 3,
            "",
            C=(rating, "N", "data/tables/rolling_bearings.csv: dynamic rating"),
            P=(felt, "N", "above"),
        ),
        by_method(
            "L_10h",
            "time that L_10 million turns take at the speed of the shaft",
            result,
            "hour",
            n=(speed, "rpm", "power flow, speed of the shaft"),
        ),
    ]


def hub_round(
    machine: LoadedMachine, bore: float, over: float, inner: str, result: float
) -> list[Working]:
    """Say how large a hub round a bush has to be."""
    return [
        worked(
            "D = c*(d + 2*s)",
            result,
            "mm",
            c=(over, "", "common practice"),
            d=(bore, "mm", f"bore of the bush, from {inner} and the steps at it"),
            s=(machine.spec.bearings.bush_wall, "mm", "bearings.bush_wall"),
        )
    ]


def bush_held(outside: float, result: float) -> list[Working]:
    """Say how the least interference of the bushes was found."""
    return [
        by_method(
            "delta",
            "least interference over all bushes: the bush at its smallest in its seat at its largest, bearings.bush_fit by ISO 286-2",
            result,
            "mm",
            D=(outside, "mm", "outside of the bush held least"),
        )
    ]
