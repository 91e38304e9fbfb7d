"""How unevenly teeth that lean against each other share their load along the face: ISO 6336-1, method C.

The slopes are those of the shafts under their forces, which do not hang on how the teeth share them.
"""

from __future__ import annotations

import numpy as np

from mixerkit.results import Counts, Numbers
from mixerkit.units import in_units

__all__ = [
    "BENT_MORE",
    "face_load_factor",
    "mesh_stiffness",
    "misalignment",
    "run_in",
    "softer",
]

BENT_MORE = 1.33
"""How much more the slope of bent shafts counts than that of a straight lean (ISO 6336-1:2006, clause 7.5, from
memory)."""
_FULL = 100.0
"""Load in N/mm of face width below which teeth are softer, as fewer of their roughnesses touch (ISO 6336-1:2006,
clause 9, from memory)."""
_BODY = 0.8 * (1 + 0.5 * (1.2 - 1.25))
"""Measured over reckoned stiffness, and that of the rack of ISO 53 profile A (ISO 6336-1:2006, clause 9.3, from memory)."""
_ALONG = 0.85
"""Stiffness that a lean meets over that of a whole mesh (ISO 6336-1:2006, clause 9.3, from memory)."""
_STEEL = 189.8
"""Elasticity factor Z_E of steel on steel in sqrt(MPa), see :func:`mixerkit.parts.toothcontact.elastic_factor`."""
_MOST_RUN_IN = 0.5
"""Most of a misalignment that is taken as run in (common practice): the contact limits here are the low ends of their
ranges, and lower ones let more of it run in."""


@in_units("", misaligned="um >= 0", load="N > 0", face_width="mm > 0", stiffness="GPa > 0")
def face_load_factor(
    misaligned: Numbers,
    load: Numbers,
    face_width: Numbers,
    stiffness: Numbers,
    least: Numbers = 1.0,
) -> Numbers:
    r"""Greatest load over mean load along the face of two teeth, K_H-beta.

    .. math:: K_{H\beta} = 1 + \frac{F_{\beta y} c_\gamma b}{2 F_m} \le 2, \quad
        K_{H\beta} = \sqrt{\frac{2 F_{\beta y} c_\gamma b}{F_m}} \ge 2

    Parameters
    ----------
    misaligned : quantity, any shape
        By how much the flanks stand apart at one end of the face, as run in.
    load : quantity, broadcast
        Along the pitch circle, with application and dynamic factor.
    face_width : quantity, broadcast
    stiffness : quantity, broadcast
        Of the mesh against a lean, see :func:`mesh_stiffness`.
    least : float, broadcast
        What it is taken as at least.

    Returns
    -------
    float or array
        It bounds the factor K_F-beta of the root from above.

    References
    ----------
    ISO 6336-1:2006, clause 7.6, method C (from memory). Below 2 the whole face carries, from there on a part of it.

    Examples
    --------
    >>> round(float(face_load_factor("10 um", "4000 N", "40 mm", "14 GPa")), 2)
    1.7
    >>> round(float(face_load_factor("40 um", "4000 N", "40 mm", "14 GPa")), 2)
    3.35
    """
    # teeth that never meet have no stiffness: that they do not, their contact ratio says
    half = np.maximum(misaligned * stiffness * face_width / (2 * load), 0.0)
    return np.maximum(np.where(half <= 1, 1 + half, 2 * np.sqrt(half)), least)[()]


@in_units("um", bent="rad >= 0", off_line="rad >= 0", face_width="mm > 0")
def misalignment(
    bent: Numbers, off_line: Numbers, face_width: Numbers, share_run_in: Numbers = 0.0
) -> Numbers:
    r"""By how much the flanks of two teeth stand apart at one end of the face, as run in.

    .. math:: F_{\beta y} = (1.33 f_{sh} + f_{ma}) (1 - y)

    Parameters
    ----------
    bent : quantity, any shape
        Angle between the shafts at the mesh under their load.
    off_line : quantity, broadcast
        Angle that bearings off their line tilt them by.
    face_width : quantity, broadcast
        An angle times this is f_sh and f_ma.
    share_run_in : float, broadcast
        See :func:`run_in`.

    Returns
    -------
    quantity [um], the broadcast shape

    References
    ----------
    ISO 6336-1:2006, clause 7.5, teeth neither crowned nor relieved (from memory).

    Examples
    --------
    >>> round(misalignment("0.1 mrad", "0.2 mrad", "40 mm", 0.4).to("um"), 3)
    <Quantity(7.992, 'micrometer')>
    """
    return 1e3 * face_width * (BENT_MORE * bent + off_line) * (1 - share_run_in)


def run_in(contact_limit: Numbers, family: str) -> Numbers:
    """Share of a misalignment that the flanks of a metal take off themselves while they run in.

    Parameters
    ----------
    contact_limit : float or array
        Of its flanks in MPa.
    family : str
        Of data/tables/gear_materials.csv; nought for one that the standard does not know.

    Returns
    -------
    float or array
        No more than a half.

    References
    ----------
    ISO 6336-1:2006, clause 7.5: y_beta = 320 MPa / sigma_Hlim of through-hardened steel, 0.55 of grey iron, both at
    no more than 5 m/s (from memory).

    Examples
    --------
    >>> float(run_in(800.0, "steel")), run_in(310.0, "cast iron"), run_in(250.0, "stainless")
    (0.4, 0.5, 0.0)
    """
    if family == "steel":
        return np.minimum(320.0 / np.asarray(contact_limit, float), _MOST_RUN_IN)[()]
    return _MOST_RUN_IN if family == "cast iron" else 0.0


def mesh_stiffness(
    counts: tuple[Counts, Counts],
    shifts: tuple[Numbers, Numbers],
    contact_ratio: Numbers,
    elastic: Numbers,
) -> Numbers:
    """Stiffness c_gamma-beta in GPa, which is N/(mm um) of face width, that a spur mesh sets against a lean.

    It holds from 100 N/mm of face width; below that see :func:`softer`.

    Parameters
    ----------
    counts, shifts : pair of number or array
        Tooth counts and profile shifts.
    contact_ratio : float or array
    elastic : float or array
        See :func:`mixerkit.parts.toothcontact.elastic_factor`.

    Returns
    -------
    float or array

    References
    ----------
    ISO 6336-1:2006, clause 9.3, method B, solid gears of the rack of ISO 53 profile A (from memory).

    Examples
    --------
    >>> round(float(mesh_stiffness((20, 22), (0.0, 0.0), 1.5688, 189.8)), 2)
    14.17
    """
    first, second = (np.asarray(one, float) for one in counts)
    least = first <= second
    z_1, z_2 = np.where(least, first, second), np.where(least, second, first)
    x_1 = np.where(least, shifts[0], shifts[1])
    x_2 = np.where(least, shifts[1], shifts[0])
    gives = (
        0.04723
        + 0.15551 / z_1
        + 0.25791 / z_2
        - 0.00635 * x_1
        - 0.11654 * x_1 / z_1
        - 0.00193 * x_2
        - 0.24188 * x_2 / z_2
        + 0.00529 * x_1**2
        + 0.00182 * x_2**2
    )
    # absurd shifts leave the range of the series, which then gives nothing
    pair = _BODY * (np.asarray(elastic) / _STEEL) ** 2 / np.maximum(gives, 0.02)
    return np.asarray(_ALONG * pair * (0.75 * np.asarray(contact_ratio) + 0.25))[()]


def softer(load: Numbers) -> Numbers:
    """Share of its stiffness that a mesh has under a light load.

    Parameters
    ----------
    load : float or array
        In N/mm of face width, with the application factor.

    Returns
    -------
    float or array
        1 at most.

    References
    ----------
    ISO 6336-1:2006, clause 9.3 (from memory).

    Examples
    --------
    >>> round(float(softer(69.4)), 4), float(softer(250.0))
    (0.9127, 1.0)
    """
    return np.asarray(np.minimum(np.asarray(load, float) / _FULL, 1.0) ** 0.25)[()]
