"""Welding: the fillet to lay, how much it draws, and in which order to weld and machine."""

from __future__ import annotations

from math import sqrt

import numpy as np

from mixerkit.parts.plate_feet import FOOT_LEG
from mixerkit.results import Numbers
from mixerkit.spec import Spec
from mixerkit.units import in_units, lengths

__all__ = ["left_for_truing", "order_of_work", "stem_leg", "transverse_shrinkage"]


@in_units("mm", leg="mm > 0", thickness="mm > 0", gap="mm >= 0")
def transverse_shrinkage(leg: Numbers, thickness: Numbers, gap: Numbers = 0.0) -> Numbers:
    r"""How much a weld draws plates together across itself.

    .. math:: \Delta = 0.2\,\frac{A_w}{t} + 0.05\,g

    Parameters
    ----------
    leg : quantity, any shape
        Of a fillet, whose area is half its square.
    thickness, gap : quantity, broadcast
        Of the plate, and between the parts.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    Blodgett, Design of Welded Structures (from memory).

    Examples
    --------
    >>> round(transverse_shrinkage("8 mm", "20 mm"), 2)
    <Quantity(0.32, 'millimeter')>
    """
    return 0.2 * (leg**2 / 2) / thickness + 0.05 * gap


def stem_leg(spec: Spec) -> float:
    """Leg in mm of the fillet round each paddle's stem, the root of two times its throat.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    float
    """
    return sqrt(2) * spec.paddles.weld_throat


def _drawn(spec: Spec) -> float:
    """Shrinkage in mm across the fillet of a gear plate's foot."""
    return float(transverse_shrinkage.formula(FOOT_LEG, spec.housing.plate_thickness))


def left_for_truing(spec: Spec) -> float:
    """Metal in mm left on a plate's faces, to true them once its feet are welded on.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    float
        Four times what a fillet draws in whole millimetres, one at least (common practice).
    """
    return max(1.0, float(np.ceil(4 * _drawn(spec))))


def order_of_work(spec: Spec, system: str = "metric") -> list[tuple[str, str]]:
    """In which order to weld and machine, and why.

    Parameters
    ----------
    spec : Spec
    system : str
        ``"metric"`` or ``"inch"``: how sizes are said.

    Returns
    -------
    list of tuple of str
    """
    say = lengths(system)
    draws, leave = _drawn(spec), left_for_truing(spec)
    return [
        (
            "Cut plates, feet, trough and guards; leave cut width and stock on",
            "the cut edge is hard and tapered and must be milled away",
        ),
        (
            "Weld each gear plate to its feet: tack, then short runs from side to side",
            f"every fillet draws about {say(draws, 2)}; opposite runs draw each other straight",
        ),
        ("Let it cool wholly, better overnight", "it goes on moving as long as it is warm"),
        (
            f"True one broad face and one long edge; {say(leave, 1)} was left on for it",
            "all that follows is measured from these two; mark them",
        ),
        (
            "Clamp both plates together on those faces and drill two dowel holes",
            "from here on they are one part and every hole falls in line",
        ),
        (
            "Bore shafts and idler in both plates in one setup, from the marked edges",
            "two setups would add the mill's error twice and tilt the shafts",
        ),
        (
            "Weld trough ends to the second plate's frame, trough bolted in place, shafts' dummies in the bores",
            "a second weldment pulls at the first: the dummies show how far",
        ),
        (
            "True again: faces of the bearing seats, lightly, from the same edges",
            "welding after boring has moved them by some tenths",
        ),
        (
            "Weld paddles to sleeves on a mandrel, one each side in turn; true the sleeve's ends after",
            "a row welded from one side bends its sleeve like a bow",
        ),
        (
            "Turn shafts last, to the bores as measured",
            "a shaft is easier made to a hole than a hole to a shaft",
        ),
    ]
