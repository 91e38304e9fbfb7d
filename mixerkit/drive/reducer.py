"""Bought-in reduction box: speeds and torques from one end to the other."""

from __future__ import annotations

from mixerkit.parts.fits import MOST, limits
from mixerkit.results import BoxBush, Numbers
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import in_units

__all__ = [
    "HOLLOW_SHEAR",
    "adapting_bush",
    "input_torque",
    "output_speed",
    "output_torque",
    "service_factor",
]
HOLLOW_SHEAR = 10.0
"""Least shear in MPa that a box's rated torque puts into a shaft filling its hollow end: boxes are built for
20 to 40 (common practice), half of the least leaves room for large bores."""


_FREE = (
    "; it is the stub of the fuse's flange, keyed outside to the hollow end; towards shaft 1 no key in it, or a jam goes past the "
    "fuse: shaft 1 turns free there, and the fuse alone joins both"
)
"""How shaft 1 sits in the hollow end behind a fuse."""


@in_units("N*m", torque="N*m", ratio=" > 0", efficiency=" > 0 <= 1")
def output_torque(torque: Numbers, ratio: Numbers, efficiency: Numbers) -> Numbers:
    r"""Torque at the slow end of a box for a torque at its fast end.

    .. math:: T_2 = T_1\, i\, \eta

    Parameters
    ----------
    torque : quantity, any shape
        At the fast end, e.g. ``"10 N*m"``.
    ratio : float
        Fast speed over slow speed, e.g. ``60``.
    efficiency : float
        Share of the power that comes out, above 0 and at most 1.

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    Conservation of energy.

    Examples
    --------
    >>> output_torque("10 N*m", 60, 0.85)
    <Quantity(510.0, 'newton * meter')>
    """
    return torque * ratio * efficiency


@in_units("N*m", torque="N*m", ratio=" > 0", efficiency=" > 0 <= 1")
def input_torque(torque: Numbers, ratio: Numbers, efficiency: Numbers) -> Numbers:
    r"""Torque needed at the fast end of a box for a torque at its slow end.

    .. math:: T_1 = \frac{T_2}{i\, \eta}

    Parameters
    ----------
    torque : quantity, any shape
        At the slow end, e.g. ``"510 N*m"``.
    ratio, efficiency : float
        As in :func:`output_torque`.

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    Conservation of energy.

    Examples
    --------
    >>> round(input_torque("510 N*m", 60, 0.85), 6)
    <Quantity(10.0, 'newton * meter')>
    """
    return torque / (ratio * efficiency)


@in_units("rpm", speed="rpm", ratio=" > 0")
def output_speed(speed: Numbers, ratio: Numbers) -> Numbers:
    """Speed of the slow end of a box for a speed of its fast end.

    Parameters
    ----------
    speed : quantity, any shape
        Of the fast end, e.g. ``"1440 rpm"``.
    ratio : float
        Fast speed over slow speed.

    Returns
    -------
    quantity [rpm], the broadcast shape

    References
    ----------
    The ratio's definition.

    Examples
    --------
    >>> output_speed("1440 rpm", 60)
    <Quantity(24.0, 'rpm')>
    """
    return speed / ratio


def service_factor(spec: Spec) -> float:
    """Factor on the torque for hours a day and shock, from the design or the table.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    float
    """
    if spec.safety.reducer_service:
        return spec.safety.reducer_service
    row = table("service_factors").bracket(spec.reducer.hours_a_day, "above", "up_to")
    return float(row.values[spec.reducer.shock])


def adapting_bush(bore: float, shaft: float, *, keyed: bool = True) -> BoxBush:
    """Bush between a box's measured bore and a thinner shaft.

    Parameters
    ----------
    bore, shaft : float
        In mm, the bore as measured.
    keyed : bool
        Whether a key goes through both; behind a fuse none does, or it would carry the torque past the fuse.

    Returns
    -------
    BoxBush
        ``wall`` in mm, nought where the shaft goes straight in; and ``words`` on what to turn.

    References
    ----------
    ISO 286-2, H7.

    Examples
    --------
    >>> adapting_bush(50.0, 45.0).wall, adapting_bush(45.025, 45.0).wall
    (2.5, 0.0)
    """
    play = bore - shaft
    # a bore inside H7 of the shaft takes it straight; beyond the table of limits only the same size does
    within = float(limits.formula(shaft, "H7")[1]) / 1e3 if 0 < shaft <= MOST else 0.0
    wall = play / 2
    if 0 <= play <= within + 1e-9:
        wall, words = 0.0, f"no bush: the shaft goes straight into the bore{'' if keyed else _FREE}"
    elif wall < 0:
        words = "the shaft is thicker than the bore: turn its end down or choose another box"
    else:
        words = (
            "turn the bush outside to the bore as measured, H7 and a sliding fit, bore it after to the shaft"
            + ("; one stepped key through both" if keyed else _FREE)
        )
    return BoxBush(wall=wall, words=words)
