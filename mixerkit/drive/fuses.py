"""What gives first in a jam: shear pins and torque limiters, at which torque, and how to make them weaker."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.parts import shaft
from mixerkit.results import Numbers
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import in_units

__all__ = ["fuse_torques", "pin_for_torque", "pins_yield", "shear_pin_torque", "weaker_fuse"]

SHEAR_OVER_TENSILE = 0.8
"""Shear over tensile strength of a steel pin when it is sheared off (common practice 0.75 to 0.82)."""


@in_units("N*m", pin="mm > 0", radius="mm > 0", tensile_strength="MPa > 0")
def shear_pin_torque(
    pin: Numbers, radius: Numbers, tensile_strength: Numbers, pins: int = 1, planes: int = 1
) -> Numbers:
    r"""Torque at which shear pins break.

    .. math:: T = n\,m\,\frac{\pi d^2}{4}\, 0.8\,R_m\, r

    Parameters
    ----------
    pin, radius : quantity, any shape
        Diameter where it shears, and its distance from the shaft's middle.
    tensile_strength : quantity, broadcast
    pins, planes : int
        Pins, and planes in which each shears.

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    Area times shear strength times lever; shear strength 0.8 of tensile: common practice.

    Examples
    --------
    >>> round(shear_pin_torque("6 mm", "60 mm", "360 MPa"), 1)
    <Quantity(488.6, 'newton * meter')>
    """
    area = pi * np.asarray(pin, float) ** 2 / 4
    return (pins * planes * area * SHEAR_OVER_TENSILE * tensile_strength * radius / 1e3)[()]


@in_units("mm", torque="N*m > 0", radius="mm > 0", tensile_strength="MPa > 0")
def pin_for_torque(
    torque: Numbers, radius: Numbers, tensile_strength: Numbers, pins: int = 1, planes: int = 1
) -> Numbers:
    r"""Diameter at which shear pins break at a torque; :func:`shear_pin_torque` solved for it.

    Parameters
    ----------
    torque : quantity, any shape
    radius, tensile_strength, pins, planes
        As in :func:`shear_pin_torque`.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    As :func:`shear_pin_torque`.

    Examples
    --------
    >>> round(pin_for_torque("488.6 N*m", "60 mm", "360 MPa"), 2)
    <Quantity(6.0, 'millimeter')>
    """
    return np.sqrt(torque / shear_pin_torque.formula(1.0, radius, tensile_strength, pins, planes))


def fuse_torques(spec: Spec) -> tuple[float, float]:
    """Least and most torque in N*m at which the design's fuse gives; infinite where it has none."""
    one = spec.fuse
    if one.kind == "none":
        return np.inf, np.inf
    middle = (
        float(
            shear_pin_torque.formula(
                one.pin_diameter,
                one.pin_radius,
                table("materials").find(one.pin_material).values["tensile_strength"],
                one.pins,
                one.planes,
            )
        )
        if one.kind == "shear pin"
        else one.setting
    )
    # in drilled holes several pins do not touch together, and may break one after another
    first = PINS_TOGETHER if one.kind == "shear pin" and one.pins > 1 else 1.0
    return middle * first * (1 - one.scatter), middle * (1 + one.scatter)


def pins_yield(spec: Spec) -> float:
    """Torque in N*m at which the first of the design's shear pins bends instead of springing back.

    References
    ----------
    Shear yield of tensile yield over the root of three: von Mises. Of several pins a share carries at first.
    """
    one = spec.fuse
    row = table("materials").find(one.pin_material).values
    strength = shaft.SHEAR_YIELD * row["yield_strength"] / SHEAR_OVER_TENSILE
    first = PINS_TOGETHER if one.pins > 1 else 1.0
    return first * float(
        shear_pin_torque.formula(one.pin_diameter, one.pin_radius, strength, one.pins, one.planes)
    )


PINS_TOGETHER = 2 / 3
"""Share of several shear pins that carries at first, for the least torque (common practice)."""


def weaker_fuse(spec: Spec, most: float) -> list[dict[str, str | float]]:
    """Changes of a design's fuse so that it lets through no more than a torque in N*m, likeliest first.

    Examples
    --------
    >>> from mixerkit import Design
    >>> weaker_fuse(Design.demo().with_values({"fuse.kind": "torque limiter"}), 560.0)[0]["fuse.setting"]
    500.0
    """
    one = spec.fuse
    middle = round(float(most) / (1 + one.scatter), 6)
    if not middle > 0:
        return []
    strength = table("materials").find(one.pin_material).values["tensile_strength"]
    pin = float(pin_for_torque.formula(middle, one.pin_radius, strength, one.pins, one.planes))
    limiter: dict[str, str | float] = {"fuse.setting": middle}
    if one.kind == "torque limiter":
        return [limiter]
    if one.kind == "shear pin":
        return [{"fuse.pin_diameter": pin}]
    return [
        {"fuse.kind": "shear pin", "fuse.pin_diameter": pin},
        {"fuse.kind": "torque limiter", **limiter},
    ]
