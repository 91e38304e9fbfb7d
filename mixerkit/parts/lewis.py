"""Bending of a tooth by Lewis, as a second opinion."""

from __future__ import annotations

import numpy as np

from mixerkit.results import Counts, Numbers
from mixerkit.tables import table
from mixerkit.units import in_units

__all__ = ["lewis_stress", "lewis_y", "velocity_factor"]


@in_units("", speed="m/s >= 0")
def velocity_factor(speed: Numbers, kind: str = "cut") -> Numbers:
    r"""Velocity factor K_v of Barth for a pitch-line speed.

    .. math:: K_v = \frac{3.05 + V}{3.05}\ \text{(cast)}, \quad \frac{6.1 + V}{6.1}\ \text{(cut)}

    Parameters
    ----------
    speed : quantity, any shape
        Of the pitch line.
    kind : str
        ``"cast"`` or ``"cut"``.

    Returns
    -------
    quantity, plain number, the shape of speed

    References
    ----------
    Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 14-4 and 14-6.

    Examples
    --------
    >>> round(float(velocity_factor("628 ft/min")), 2)
    1.52
    """
    base = {"cast": 3.05, "cut": 6.1}[kind]
    return (base + speed) / base


def lewis_y(tooth_count: Counts) -> Numbers:
    """Lewis form factor Y of a full-depth tooth of 20 degrees, load at the tip.

    Parameters
    ----------
    tooth_count : int or array
        From 12; a count between two of the table is found on a straight line.

    Returns
    -------
    float or array

    References
    ----------
    data/tables/lewis.csv: Shigley 10th ed., table 14-2.

    Examples
    --------
    >>> float(lewis_y(16)), float(lewis_y(30))
    (0.296, 0.359)
    """
    rows = table("lewis")
    factor: Numbers = np.interp(tooth_count, rows.column("tooth_count"), rows.column("form_factor"))
    return factor


@in_units("MPa", force="N >= 0", face_width="mm > 0", module="mm > 0", speed="m/s >= 0")
def lewis_stress(
    force: Numbers, face_width: Numbers, module: Numbers, tooth_count: Counts, speed: Numbers
) -> Numbers:
    r"""Bending stress of a tooth by Lewis with the velocity factor of cut teeth.

    .. math:: \sigma = \frac{K_v W_t}{F m Y}

    Parameters
    ----------
    force : quantity, any shape
        Along the pitch circle.
    face_width, module : quantity, broadcast
    tooth_count : int, broadcast
    speed : quantity, broadcast
        Of the pitch line.

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 14-8.

    Examples
    --------
    >>> stress = lewis_stress("365 lbf", "1.5 in", "0.125 in", 16, "628 ft/min")
    >>> round(stress.to("ksi"), 1)
    <Quantity(10.0, 'ksi')>
    """
    return velocity_factor.formula(speed) * force / (face_width * module * lewis_y(tooth_count))
