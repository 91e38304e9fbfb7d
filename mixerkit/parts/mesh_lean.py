"""How far the gears of each mesh lean against each other, by what bends their shafts and the idler's pin."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from mixerkit.parts import shaft
from mixerkit.parts.shaft_loads import together
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.results import Array
from mixerkit.spec import Spec
from mixerkit.tables import table

__all__ = ["Lean", "leaning", "leans", "pin_tilt"]


class Lean(NamedTuple):
    """How two gears lean against each other at their mesh, in rad.

    ``bent`` by the forces of each load case, the worst of a turn; ``off_line`` by bearings off their line.
    """

    bent: Array
    off_line: float


def pin_tilt(spec: Spec, force: Array) -> Array:
    """Slope in rad of the idler's pin under the idler, in the plane of each force in N.

    It rests in both plates, which let it turn: their holes are slack, as it goes in by hand.
    """
    modulus = table("materials").find(spec.shaft_1.material).values["elastic_modulus"]
    return np.asarray(
        shaft.span_slope.formula(
            force,
            spec.paths.idler.position,
            spec.housing.plate_spacing,
            1e3 * modulus,
            spec.housing.idler_pin,
        )
    )


def leans(beams: tuple[ShaftBeam, ShaftBeam], name: str) -> list[Lean]:
    """How the gears of each mesh of a path lean.

    Parameters
    ----------
    beams : pair of ShaftBeam
    name : str
        ``"direct"`` or ``"idler"``.

    Returns
    -------
    list of Lean
        From shaft 1 to shaft 2; see :func:`leaning`.
    """
    still, swung = zip(*(beam.tilt(beam.gears[name]) for beam in beams), strict=True)
    here = beams[0].machine.load_cases.clutch == "idler"
    forces = [beam.gear_forces.T * here for beam in beams] if name == "idler" else []
    return leaning(beams, name, list(still), list(swung), forces)


def leaning(
    beams: tuple[ShaftBeam, ShaftBeam],
    name: str,
    still: Sequence[Array],
    swung: Sequence[Array],
    forces: Sequence[Array],
) -> list[Lean]:
    """How gears lean on shafts that slope so.

    Parameters
    ----------
    beams : pair of ShaftBeam
    name : str
    still, swung : pair of array
        Slopes in rad of both shafts at the path's gears, see :meth:`mixerkit.parts.shaftline.ShaftBeam.tilt`.
    forces : pair of array
        On the gears of both shafts in N, in both planes; of the path with an idler.

    Notes
    -----
    Both planes are taken together, though only a lean in the plane of action parts the flanks. The paddles of
    two shafts may stand at any angle to each other, so that what they add is added plainly; bearings that are off
    their line on two shafts know nothing of each other, and go together as the sum of squares. A free gear leans
    as its shaft does, an idler as its pin, on whichever side of its bush the load lies.
    """
    off = [float(beam.forced.slope[beam.gears[name]]) for beam in beams]
    if name == "direct":
        both = float(np.hypot(off[0], off[1]))
        return [Lean(together(still[0] - still[1]) + swung[0] + swung[1], both)]
    pin = pin_tilt(beams[0].machine.spec, -(forces[0] + forces[1]))
    return [
        Lean(together(one - pin) + turned, tilted)
        for one, turned, tilted in zip(still, swung, off, strict=True)
    ]
