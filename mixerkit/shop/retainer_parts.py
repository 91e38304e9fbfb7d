"""The plates that hold the outer rings of the locating bearings, with their distance rings and screws, as parts."""

from __future__ import annotations

from collections.abc import Callable
from math import ceil, pi

from mixerkit.parts.retainers import Retainer, retainer
from mixerkit.shop.part import Part, at_least, density, ring, sawn
from mixerkit.spec import Spec

__all__ = ["retainer_parts", "screw_length"]


def screw_length(one: Retainer) -> float:
    """Length in mm of its screws: through all three, in whole steps of 5 mm, the end filed flush."""
    return 5.0 * ceil((one.between + 2 * one.thickness) / 5 - 1e-9)


def retainer_parts(spec: Spec, say: Callable[..., str]) -> list[Part]:
    """List the retaining plates and what belongs to them.

    Parameters
    ----------
    spec : Spec
    say : callable
        Writes a length in mm.

    Returns
    -------
    list of Part
        Empty where bushes or insert bearings locate.
    """
    one, material = retainer(spec), spec.housing.plate_material
    if one is None:
        return []
    wide, high = one.size
    area = wide * high - sum(pi / 4 * size**2 for size in one.openings)
    mass = area * one.thickness * density(material) * 1e-9
    size = f"{say(one.thickness, 3)} plate, {say(wide, 4)} x {say(high, 4)}"
    found = [Part("retaining plate", 2, material, size, mass)]
    for outer, inner, thick in dict.fromkeys(one.rings) if one.has_rings else ():
        mass = ring(outer, inner, thick, density(material))
        words = (
            f"{say(outer, 4)} outside, {say(inner, 4)} inside, faced or shimmed to {say(thick, 3)}"
        )
        count = 2 * one.rings.count((outer, inner, thick))
        if thick < 1.0:
            found.append(Part("distance ring", count, material, words, mass))
        else:
            bar = at_least(outer + 2, say)
            least = ceil(outer + 2)
            found.append(sawn("distance ring", count, material, bar, thick, mass, say, least))
    screw = f"{one.screw} x {say(screw_length(one), 3)}, class {spec.frame.bolt_class}"
    return [*found, Part("screw of the retaining plates", len(one.screws), "bought", screw, 0.05)]
