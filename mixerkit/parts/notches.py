"""What shoulders, keyways, cross holes, press fits and threads do to a shaft."""

from __future__ import annotations

from collections.abc import Sequence
from math import pi

import numpy as np

from mixerkit.results import Array, Numbers
from mixerkit.units import in_units, show

__all__ = [
    "fatigue_factor",
    "keyed_section",
    "net_section",
    "notch_factors",
    "notch_range",
    "shoulder_factors",
]
HOLES = (0.02, 0.35)
"""Holes over the diameter for which the factors of a hole across are fitted (from memory)."""
SHARPEST = 4.0
"""Step over fillet to which the factors of a shoulder in torsion reach (Roark, table 17.1, from memory)."""
_KEYED = (3.0, 0.38)
"""Fatigue factor of a keyway in bending at 1000 MPa, and the power of the strength (DIN 743-2, from memory)."""
_PRESSED = (2.7, 0.43)
"""The same under a hub that is pressed on, or a bearing (DIN 743-2, from memory)."""
_GIVEN = {"": (1.0, 1.0), "thread": (3.0, 2.0), "welded paddle": (2.7, 2.0)}


def shoulder_factors(larger: Numbers, smaller: Numbers, fillet: Numbers) -> tuple[Numbers, Numbers]:
    """Theoretical stress concentration of a shoulder with a fillet, in bending and in torsion.

    Parameters
    ----------
    larger, smaller, fillet : float or array
        Diameters either side and radius, in one unit.

    Returns
    -------
    tuple of float or array
        At least 1 each; referred to the smaller diameter.

    References
    ----------
    Roark's Formulas for Stress and Strain, 8th ed., table 17.1, square shoulder with fillet, bending
    (as quoted) and torsion (from memory); after Peterson.

    Examples
    --------
    >>> [round(float(one), 2) for one in shoulder_factors(38.0, 32.0, 3.0)]
    [1.66, 1.34]
    """
    larger, smaller = np.asarray(larger, float), np.asarray(smaller, float)
    step = (larger - smaller) / 2
    # beyond the range of the curves their ends are used; notch_range says where that is
    ratio = np.clip(step / fillet, 0.25, 20.0)
    depth = np.clip(2 * step / larger, 0.0, 1.0)
    root = np.sqrt(ratio)
    flat = np.where(ratio <= 2, 1.0, 0.0)
    bend = [
        flat * one + (1 - flat) * two
        for one, two in (
            (0.927 + 1.149 * root - 0.086 * ratio, 1.225 + 0.831 * root - 0.010 * ratio),
            (0.015 - 3.281 * root + 0.837 * ratio, -3.790 + 0.958 * root - 0.257 * ratio),
            (0.847 + 1.716 * root - 0.506 * ratio, 7.374 - 4.834 * root + 0.862 * ratio),
            (-0.790 + 0.417 * root - 0.246 * ratio, -3.809 + 3.046 * root - 0.595 * ratio),
        )
    ]
    near = np.minimum(ratio, 4.0)
    root = np.sqrt(near)
    turn = (
        0.953 + 0.680 * root - 0.053 * near,
        -0.493 - 1.820 * root + 0.517 * near,
        1.621 + 0.908 * root - 0.529 * near,
        -1.081 + 0.232 * root + 0.065 * near,
    )

    def raised(parts: Sequence[Array]) -> Numbers:
        factor = sum(part * depth**power for power, part in enumerate(parts))
        found: Numbers = np.where(step > 0, np.maximum(factor, 1.0), 1.0)[()]
        return found

    return raised(bend), raised(turn)


@in_units("", factor="", radius="mm > 0", tensile_strength="MPa > 0")
def fatigue_factor(
    factor: Numbers, radius: Numbers, tensile_strength: Numbers, torsion: bool = False
) -> Numbers:
    r"""Fatigue notch factor from the theoretical one, by the steel's sensitivity to notches.

    .. math:: K_f = 1 + \frac{K_t - 1}{1 + \sqrt{a / r}}

    Parameters
    ----------
    factor : float or array
        Theoretical stress concentration factor.
    radius : quantity, broadcast
        Radius at the notch's root.
    tensile_strength : quantity
    torsion : bool

    Returns
    -------
    quantity, the broadcast shape

    References
    ----------
    Neuber's equation: Shigley, 10th ed., eq. 6-33 and 6-35 a and b.

    Examples
    --------
    >>> round(fatigue_factor(1.65, "3 mm", "690 MPa"), 2)
    <Quantity(1.55, 'dimensionless')>
    """
    kpsi = tensile_strength / 6.894757
    first = (
        0.190 - 2.51e-3 * kpsi + 1.35e-5 * kpsi**2 - 2.67e-8 * kpsi**3
        if torsion
        else 0.246 - 3.08e-3 * kpsi + 1.51e-5 * kpsi**2 - 2.67e-8 * kpsi**3
    )
    return 1 + (factor - 1) / (1 + first / np.sqrt(radius / 25.4))


def _cross_hole(share: float) -> tuple[float, float]:
    """Theoretical factors of a hole across, referred to the whole section."""
    # at the ends of the fits' range their ends are used; notch_range says where that is
    share = float(np.clip(share, *HOLES))
    bend = 1.5899 - 0.6355 * np.log10(share)
    turn = (
        3.9215
        - 24.435 * share
        + 234.06 * share**2
        - 1200.5 * share**3
        + 3059.5 * share**4
        - 3042.4 * share**5
    )
    # the fits refer to the section with the hole taken out
    left_bend, left_turn = net_section(share)
    return float(bend / left_bend), float(turn / left_turn)


def net_section(share: Numbers) -> tuple[Numbers, Numbers]:
    r"""Section moduli that a hole across leaves of a round bar's, in bending and in torsion.

    .. math:: \frac{Z}{Z_0} = 1 - \frac{16}{3\pi} \frac{h}{d}, \quad \frac{Z_t}{Z_{t0}} = 1 - \frac{8}{3\pi} \frac{h}{d}

    Parameters
    ----------
    share : float or array
        Hole over the bar's diameter.

    Returns
    -------
    tuple of float or array

    References
    ----------
    pi d^3 / 32 - h d^2 / 6 and pi d^3 / 16 - h d^2 / 6: Shigley, 10th ed., table A-15-11 and Peterson's
    charts (from memory).

    Examples
    --------
    >>> [round(one, 3) for one in net_section(0.25)]
    [0.576, 0.788]
    """
    return 1 - (1 / 6) * share * 32 / pi, 1 - (1 / 6) * share * 16 / pi


def keyed_section(width: Numbers, depth: Numbers, diameter: Numbers) -> tuple[Numbers, Numbers]:
    r"""Section moduli that a keyway leaves of a round bar's, in bending and in torsion.

    .. math:: \frac{Z}{Z_0} = 1 - \frac{16 b t (d - t)^2}{\pi d^4}, \quad \frac{Z_t}{Z_{t0}} = 1 - \frac{8 b t (d - t)^2}{\pi d^4}

    Parameters
    ----------
    width, depth, diameter : float or array
        Of the keyway, its depth in the shaft, and of the shaft, in one unit.

    Returns
    -------
    tuple of float or array

    References
    ----------
    pi d^3 / 32 - b t (d - t)^2 / (2 d) and pi d^3 / 16 - b t (d - t)^2 / (2 d): customary in handbooks (from memory).

    Examples
    --------
    >>> [round(one, 3) for one in keyed_section(14.0, 5.5, 45.0)]
    [0.851, 0.925]
    """
    gone = 8 * width * depth * (diameter - depth) ** 2 / (pi * diameter**4)
    return 1 - 2 * gone, 1 - gone


def _by_strength(fitted: tuple[float, float], tensile_strength: float) -> float:
    """Fatigue factor that grows with the strength of the steel in MPa."""
    at, power = fitted
    return float(at * (tensile_strength / 1000) ** power)


def notch_range(
    notch: str, diameter: float, larger: float, fillet: float, hole: float, system: str = "metric"
) -> str:
    """Say where a notch is beyond the curves that :func:`notch_factors` is fitted to; empty within them.

    Parameters
    ----------
    notch, diameter, larger, fillet, hole
        As for :func:`notch_factors`.
    system : str
        ``"metric"`` or ``"inch"``: how sizes are said.

    Returns
    -------
    str

    Examples
    --------
    >>> notch_range("cross hole", 45.0, 0.0, 1.5, 40.0)
    'a hole of 40 mm across 45 mm is 0.89 of it, and the curves reach from 0.02 to 0.35'
    """
    if notch == "cross hole" and not HOLES[0] <= hole / diameter <= HOLES[1]:
        return (
            f"a hole of {show(hole, 'mm', system)} across {show(diameter, 'mm', system)} is {hole / diameter:.2g} of it, "
            f"and the curves reach from {HOLES[0]:g} to {HOLES[1]:g}"
        )
    step = (larger - diameter) / 2
    if notch == "shoulder" and step > SHARPEST * fillet:
        return (
            f"a step of {show(step, 'mm', system)} with a fillet of {show(fillet, 'mm', system)} is sharper than "
            f"the curves, which reach to {SHARPEST:g} times the fillet"
        )
    return ""


def notch_factors(
    notch: str,
    diameter: float,
    tensile_strength: float,
    *,
    larger: float = 0.0,
    fillet: float = 1.5,
    hole: float = 0.0,
) -> tuple[float, float]:
    """Fatigue notch factors in bending and torsion of what weakens a shaft.

    Parameters
    ----------
    notch : str
        ``"shoulder"``, ``"groove"``, ``"keyway"``, ``"cross hole"``, ``"thread"``, ``"press fit"``
        or ``"welded paddle"``; ``""`` for a plain bar.
    diameter, tensile_strength : float
        Of the thinner section in mm, and in MPa.
    larger, fillet : float
        Of a shoulder, in mm.
    hole : float
        Of a cross hole, in mm.

    Returns
    -------
    tuple of float

    References
    ----------
    Shoulder: :func:`shoulder_factors`. Keyway cut with an end mill, Kt 2.14 and 3.0 at a root radius of 0.02 d, and
    groove for a retaining ring, 5.0 and 3.0 at 0.01 d: Shigley 10th ed., table 7-1; keyway with its key, of both the
    greater, and press fit: DIN 743-2; cross hole: curve fits to Peterson's charts; thread, cut: 3.0 in bending,
    Shigley table 8-16; weld's end: 2.7, Shigley table 9-5 (all from memory); the torsion of both: common practice.

    Examples
    --------
    >>> [round(one, 2) for one in notch_factors("keyway", 45.0, 630.0)]
    [2.52, 2.56]
    """
    if notch == "press fit":
        pressed = _by_strength(_PRESSED, tensile_strength)
        return pressed, 0.65 * pressed
    if notch in _GIVEN:
        return _GIVEN[notch]
    theory, radius = {
        "shoulder": (shoulder_factors(max(larger, diameter), diameter, fillet), fillet),
        "keyway": ((2.14, 3.0), 0.02 * diameter),
        "groove": ((5.0, 3.0), 0.01 * diameter),
        "cross hole": (_cross_hole(hole / diameter), max(hole / 2, 0.5)),
    }[notch]
    bend = float(fatigue_factor.formula(theory[0], radius, tensile_strength))
    turn = float(fatigue_factor.formula(theory[1], radius, tensile_strength, torsion=True))
    if notch != "keyway":
        return bend, turn
    # what a key does beside the sharp corners of its way: of both the greater
    keyed = _by_strength(_KEYED, tensile_strength)
    return max(bend, keyed), max(turn, 0.56 * keyed + 0.1)
