"""Fillet welds: stress in a throat all round a bar, and how long a weld lasts."""

from __future__ import annotations

from math import sqrt

import numpy as np
import numpy.typing as npt

from mixerkit.results import Array, Numbers
from mixerkit.units import in_units
from mixerkit.working import Given, Working, worked

__all__ = [
    "allowed_in_throat",
    "attachment_class",
    "lasting_range",
    "throat_stress",
    "worked_allowed",
]

ALLOWED = 0.30
"""Allowed stress in a fillet's throat over the tensile strength of its filler (AISC allowable stresses and
Shigley, table 9-6, both as reprinted)."""
ALLOWED_BESIDE = 0.40
"""Allowed shear beside it over the yield strength of the welded metal (AISC as in Shigley, table 9-4, from memory)."""
PLAIN, STAINLESS = 427.0, 500.0
"""Least tensile strength in MPa of a filler's metal: plain, E60 of Shigley, table 9-3, as reprinted (ISO 2560 has 440
in class 35 and 500 in class 42); stainless, the low end of the 500 to 550 of EN ISO 3581 (from memory)."""
ROOT, TOE, SHEAR = 36.0, 63.0, 80.0
"""Stress range in MPa borne two million times: across a fillet's throat, its crack beginning at the root
(EN 1993-1-9 table 8.5, detail 3), at the toe on the bar that it holds (IIW recommendations, detail 413), and in
shear (EN 1993-1-9 table 8.5, details 8 and 9); all from memory."""
SLOPE, SHEAR_SLOPE = 3, 5
"""Slopes of the fatigue lines in tension and in shear (EN 1993-1-9, 7.1, from memory)."""
AT = 2e6
"""Cycles for which a class is given (EN 1993-1-9, 7.1)."""
_ATTACHED = ((50.0, 80.0), (80.0, 71.0), (100.0, 63.0), (np.inf, 56.0))


def attachment_class(length: float) -> float:
    """Stress range in MPa borne two million times at the toe of something welded on to what is stretched.

    Parameters
    ----------
    length : float
        Over both toes in mm, the way it is stretched.

    Returns
    -------
    float

    References
    ----------
    EN 1993-1-9, table 8.4, detail 1 (from memory).

    Examples
    --------
    >>> attachment_class(48.0), attachment_class(60.0)
    (80.0, 71.0)
    """
    return next(found for most, found in _ATTACHED if length <= most)


@in_units("MPa", filler="MPa > 0", yield_strength="MPa > 0")
def allowed_in_throat(filler: Numbers, yield_strength: Numbers) -> Numbers:
    r"""Stress that a fillet's throat may feel at rest, by its metal and by the metal beside its leg.

    .. math:: \tau = \min(0.30\,R_m, \sqrt{2} \cdot 0.40\,R_e)

    Parameters
    ----------
    filler : quantity, any shape
        Tensile strength of the weakest metal in the throat.
    yield_strength : quantity, broadcast
        Of the softer of the metals that are welded.

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    AISC and AWS D1.1 as in Shigley, 10th ed., tables 9-4 (from memory) and 9-6 (as reprinted); the leg is the root of two times the throat.

    Examples
    --------
    >>> round(allowed_in_throat("500 MPa", "190 MPa"), 1)
    <Quantity(107.5, 'megapascal')>
    """
    return np.minimum(ALLOWED * filler, sqrt(2) * ALLOWED_BESIDE * yield_strength)


def worked_allowed(filler: Given, yield_strength: Given) -> Working:
    """Say how the stress that a throat may feel follows from both strengths, see :func:`allowed_in_throat`."""
    return worked(
        "tau_a = Min(c_1*R_m, sqrt(2)*c_2*R_e)",
        float(allowed_in_throat.formula(filler[0], yield_strength[0])),
        "MPa",
        c_1=(ALLOWED, "", "Shigley, table 9-6, as reprinted"),
        R_m=filler,
        c_2=(ALLOWED_BESIDE, "", "Shigley, table 9-4, from memory"),
        R_e=yield_strength,
    )


@in_units(
    "MPa",
    flat="N",
    edge="N",
    arm="mm >= 0",
    lever="mm >= 0",
    width="mm > 0",
    thickness="mm > 0",
    throat="mm > 0",
)
def throat_stress(
    flat: Numbers,
    edge: Numbers,
    arm: Numbers,
    lever: Numbers,
    width: Numbers,
    thickness: Numbers,
    throat: Numbers,
) -> Numbers:
    r"""Stress in the throat of a fillet all round a rectangular bar that is pushed across at some height.

    .. math:: \sigma = \frac{x}{a}\left(\frac{F_t}{b t + t^2/3} + \frac{F_b}{b t + b^2/3}\right), \quad
        \tau = \frac{\sqrt{F_t^2 + F_b^2}}{2 a (b + t)} + \frac{3 \max(F_t, F_b)\, y \sqrt{b^2 + t^2}}{a (b + t)^3},
        \quad \sigma_w = \sqrt{\sigma^2 + \tau^2}

    Parameters
    ----------
    flat, edge : quantity, any shape
        Forces over the bar's thickness and over its width.
    arm : quantity, broadcast
        Height of the forces over the weld.
    lever : quantity, broadcast
        With which the greater of them twists the bar.
    width, thickness : quantity, broadcast
        Of the bar at the weld.
    throat : quantity, broadcast

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Weld treated as a line: Shigley, 10th ed., sections 9-3 and 9-4, tables 9-1 and 9-2, all round (from memory).
    What the forces and their twist shear is added as if it pointed one way.

    Examples
    --------
    >>> round(throat_stress("5 kN", "0 N", "80 mm", "0 mm", "35 mm", "22 mm", "5.657 mm"), 1)
    <Quantity(76.3, 'megapascal')>
    """
    both, force = width + thickness, np.hypot(flat, edge)
    across = arm * (
        flat / (width * thickness + thickness**2 / 3) + edge / (width * thickness + width**2 / 3)
    )
    along = (
        force / (2 * both)
        + 3 * np.maximum(flat, edge) * lever * np.hypot(width, thickness) / both**3
    )
    return np.sqrt(across**2 + along**2) / throat


def lasting_range(ranges: npt.ArrayLike, cycles: npt.ArrayLike, slope: float) -> Array:
    r"""Stress range that does in two million cycles what several do, each so often as it comes.

    .. math:: \Delta_E = \left(\frac{\sum N_i \Delta_i^m}{2 \cdot 10^6}\right)^{1/m}

    Parameters
    ----------
    ranges : array (kinds, ...)
        In MPa.
    cycles : array (kinds, ...), broadcast
    slope : float

    Returns
    -------
    array (...)

    References
    ----------
    Miner's rule on a line that goes on below any limit, which is the safe side: EN 1993-1-9, annex A.

    Examples
    --------
    >>> round(float(lasting_range([30.0, 0.0], [16e6, 0.0], 3)), 6)
    60.0
    """
    summed = (np.asarray(cycles, float) * np.asarray(ranges, float) ** slope).sum(axis=0)
    return np.asarray((summed / AT) ** (1 / slope))
