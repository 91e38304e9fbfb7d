"""Bolts drawn up: what holds a joint together, how much of a pull they feel, and how they tire."""

from __future__ import annotations

from math import inf, pi

import numpy as np

from mixerkit.checks import Change
from mixerkit.frozen import result
from mixerkit.results import Numbers
from mixerkit.spec import Frame
from mixerkit.tables import table
from mixerkit.units import in_units
from mixerkit.working import Working, worked

__all__ = [
    "GRIP",
    "Drawn",
    "bolt_endurance",
    "drawn",
    "joint_constant",
    "larger_bolts",
    "stronger_class",
    "worked_preload",
]

GRIP = 0.15
"""Friction between plate and distance tube or foot, dry steel with a trace of oil (common practice)."""
_TAN_30 = 0.5774


@in_units("", diameter="mm > 0", grip="mm > 0")
def joint_constant(diameter: Numbers, grip: Numbers) -> Numbers:
    r"""Share of a pull on a drawn-up joint that its bolt feels, bolt and plates of steel.

    .. math::
        C = \frac{k_b}{k_b + k_m}, \quad k_b = \frac{\pi d^2 E}{4 l}, \quad
        k_m = \frac{0.5774\,\pi E d}{2 \ln\left(5\,\frac{0.5774\,l + 0.5\,d}{0.5774\,l + 2.5\,d}\right)}

    The whole shank counts as stiff as its full diameter, so that the bolt's share comes out large.

    Parameters
    ----------
    diameter, grip : quantity, broadcast
        Of the bolt, and thickness that it clamps.

    Returns
    -------
    float or array

    References
    ----------
    Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 8-17 and 8-22 (from memory).

    Examples
    --------
    >>> round(float(joint_constant("12 mm", "30 mm").m), 3)
    0.238
    """
    bolt = pi * diameter**2 / (4 * grip)
    cone = _TAN_30 * grip
    plates = (
        _TAN_30
        * pi
        * diameter
        / (2 * np.log(5 * (cone + 0.5 * diameter) / (cone + 2.5 * diameter)))
    )
    return bolt / (bolt + plates)


@in_units("MPa", diameter="mm > 0")
def bolt_endurance(diameter: Numbers) -> Numbers:
    r"""Swing of stress either way that a bolt endures, its thread rolled before it was hardened.

    .. math:: \sigma_A = 0.85 \left(\frac{150}{d} + 45\right)

    Parameters
    ----------
    diameter : quantity, any shape
        In mm in the formula.

    Returns
    -------
    quantity [MPa], the shape of the diameter

    References
    ----------
    VDI 2230 part 1, endurance limit of threads rolled before heat treatment (from memory). Shigley 10th ed.,
    table 8-17, allows more than twice as much.

    Examples
    --------
    >>> round(bolt_endurance("12 mm"), 1)
    <Quantity(48.9, 'megapascal')>
    """
    return 0.85 * (150 / diameter + 45)


@result
class Drawn:
    """A bolt as it is drawn up.

    Attributes
    ----------
    name : str
        Of its thread.
    diameter, area : float
        In mm and mm^2.
    proof, yields : float
        Strengths of its class in MPa.
    least, most : float
        Preload in N at either end of its scatter.
    room : float
        Pull in N that is left to its yield when it was drawn up most; below nought it yields at the wrench.
    """

    name: str
    diameter: float
    area: float
    proof: float
    yields: float
    least: float
    most: float
    room: float


def drawn(frame: Frame, thread: str) -> Drawn:
    """Draw up a bolt of the frame's class.

    Parameters
    ----------
    frame : Frame
    thread : str
        A row of data/tables/threads.csv.

    Returns
    -------
    Drawn

    References
    ----------
    Shigley 10th ed., eq. 8-31: preload as a share of the proof strength; its scatter is common practice.
    """
    bolt, steel = table("threads").find(thread).values, table("bolt_classes").find(frame.bolt_class)
    strength = steel.values
    middle = frame.preload_share * strength["proof_strength"] * bolt["stress_area"]
    most = (1 + frame.preload_scatter) * middle
    return Drawn(
        name=thread,
        diameter=bolt["diameter"],
        area=bolt["stress_area"],
        proof=strength["proof_strength"],
        yields=strength["yield_strength"],
        least=(1 - frame.preload_scatter) * middle,
        most=most,
        room=strength["yield_strength"] * bolt["stress_area"] - most,
    )


def larger_bolts(field: str, now: str, over: float) -> list[Change]:
    """The next bolt of a series that has so many times the stress area.

    Parameters
    ----------
    field : str
        Dotted name of what names the thread.
    now : str
        The one it names.
    over : float

    Returns
    -------
    list of Change
        Empty where there is none, or where how much more is wanted is not known.

    Examples
    --------
    >>> larger_bolts("housing.tie_bolt", "M12", 1.5)
    [{'housing.tie_bolt': 'M16'}]
    """
    if not 0 < over < inf:
        return []
    bolt = table("threads").find(now).values
    rows = [row.values for row in table("threads").only("series", bolt["series"])]
    wide = [row for row in rows if row["stress_area"] >= over * bolt["stress_area"]]
    return [{field: row["name"]} for row in wide[:1]]


def worked_preload(frame: Frame, bolt: Drawn, field: str) -> Working:
    """Say how much of its preload a bolt has for sure."""
    return worked(
        "F_V = (1 - s)*c*R_p*A_s",
        bolt.least,
        "N",
        source="Shigley 10th ed., eq. 8-31; scatter common practice",
        s=(frame.preload_scatter, "", "frame.preload_scatter"),
        c=(frame.preload_share, "", "frame.preload_share"),
        R_p=(
            bolt.proof,
            "MPa",
            f"data/tables/bolt_classes.csv, {frame.bolt_class}: proof strength",
        ),
        A_s=(bolt.area, "mm**2", f"data/tables/threads.csv, {bolt.name}: stress area ({field})"),
    )


def stronger_class(frame: Frame, over: float, system: str) -> list[Change]:
    """The next class of bolts that is so many times as strong, in this maker's names.

    Examples
    --------
    >>> stronger_class(Frame(), 1.2, "metric"), stronger_class(Frame(), 1.2, "inch")
    ([{'frame.bolt_class': '10.9'}], [{'frame.bolt_class': 'SAE grade 8'}])
    """
    if not 0 < over < inf:
        return []
    has = table("bolt_classes").find(frame.bolt_class).values["proof_strength"]
    rows = sorted(
        (row.values for row in table("bolt_classes")), key=lambda row: row["proof_strength"]
    )
    ours = [row for row in rows if row["name"].startswith("SAE") == (system == "inch")]
    better = [row for row in ours if row["proof_strength"] >= max(over, 1 + 1e-9) * has]
    return [{"frame.bolt_class": row["name"]} for row in better[:1]]
