"""Welding: the fillet for a load, how much it draws, and in which order to weld and machine."""

from __future__ import annotations

from math import sqrt

import numpy as np

from mixerkit.frozen import result
from mixerkit.parts.blades import held_forces
from mixerkit.results import Numbers
from mixerkit.spec import Spec
from mixerkit.units import in_units, lengths

__all__ = ["fillet_stress", "order_of_work", "stem_weld", "transverse_shrinkage"]

ALLOWED = 0.30
"""Allowed stress in a fillet's throat over the tensile strength of its filler (AWS D1.1 as in Shigley 10th
ed., table 9-6, from memory)."""
FILLER = 500.0
"""Tensile strength in MPa of a common filler (ISO 2560 class 42 has 500 to 640, from memory)."""


@in_units("MPa", moment="N*m", width="mm > 0", depth="mm > 0", leg="mm > 0")
def fillet_stress(moment: Numbers, width: Numbers, depth: Numbers, leg: Numbers) -> Numbers:
    r"""Stress in the throat of a fillet all round a rectangular bar that is bent.

    .. math:: \tau = \frac{M}{0.707\,h\,\left(b d + d^2 / 3\right)}

    Parameters
    ----------
    moment : quantity, any shape
    width, depth : quantity, broadcast
        Of the bar, along the axis it is bent about and across it.
    leg : quantity, broadcast
        Of the fillet.

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Weld treated as a line: Shigley, 10th ed., table 9-2, pattern 6 (from memory).

    Examples
    --------
    >>> round(fillet_stress("400 N*m", "35 mm", "22 mm", "8 mm"), 1)
    <Quantity(75.9, 'megapascal')>
    """
    return 1e3 * moment / (leg / sqrt(2) * (width * depth + depth**2 / 3))


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


@result
class Weld:
    """A fillet weld: leg in mm, its stress and what is allowed in MPa."""

    leg: float
    stress: float
    allowed: float


def stem_weld(spec: Spec, torque: float) -> Weld:
    """Fillet for a paddle's stem on its sleeve, one paddle stopped at its tip.

    Parameters
    ----------
    spec : Spec
    torque : float
        That a jam brings to one shaft, in N*m.

    Returns
    -------
    Weld
        ``leg`` in whole mm, ``stress`` in MPa with it, ``allowed``.
    """
    blade = spec.paddles
    moment = torque * (1 - blade.root_radius / blade.tip_radius)
    allowed = ALLOWED * FILLER

    def stress(leg: float) -> float:
        return max(
            float(
                fillet_stress.formula(
                    moment * over_flat, blade.stem_width, blade.stem_thickness, leg
                )
            )
            + float(
                fillet_stress.formula(
                    moment * over_edge, blade.stem_thickness, blade.stem_width, leg
                )
            )
            for over_flat, over_edge, _ in held_forces(blade.set_angle)
        )

    leg = max(3.0, float(np.ceil(stress(1.0) / allowed)))
    return Weld(leg=leg, stress=stress(leg), allowed=allowed)


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
    draws = float(transverse_shrinkage.formula(8.0, spec.housing.plate_thickness))
    leave = max(1.0, float(np.ceil(4 * draws)))
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
            f"True one broad face and one long edge; {say(leave, 4)} was left on for it",
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
