"""How far the gears of candidate paths would lean against each other on the shafts of a design."""

from __future__ import annotations

import numpy as np

from mixerkit.machine import Machine
from mixerkit.parts import mesh
from mixerkit.parts.mesh_lean import Lean, leaning
from mixerkit.parts.shaft_loads import tooth_forces
from mixerkit.results import Array, Counts, Indices

__all__ = ["candidate_leans", "mixing_on"]


def mixing_on(machine: Machine, name: str) -> Indices:
    """Load cases that mix with a path engaged."""
    cases = machine.load_cases
    return np.flatnonzero(cases.mixing & (cases.clutch == name))


def _lines(machine: Machine, counts: list[Counts], module: Array) -> tuple[Array, Array]:
    """From the middle of the gears of shaft 1 and 2 to their mates', (candidates, 2), each of length 1."""
    apart, side = machine.spec.housing.centre_distance, machine.spec.housing.idler_side
    if len(counts) == 2:
        line = np.broadcast_to([1.0, 0.0], (len(module), 2))
        return line, -line
    ends = [
        np.asarray(mesh.centre_distance.formula(module, counts[k], counts[k + 1])) for k in (0, 1)
    ]
    x, y = (np.asarray(one) for one in mesh.idler_place.formula(apart, *ends))
    y = y if side == "above" else -y
    found = [np.stack([x - start, y], axis=-1) for start in (0.0, apart)]
    first, second = (one / np.linalg.norm(one, axis=-1, keepdims=True) for one in found)
    return first, second


def candidate_leans(machine: Machine, name: str, module: Array, counts: list[Counts]) -> list[Lean]:
    """How the gears of each mesh lean while they mix.

    Parameters
    ----------
    machine : Machine
        Whose shafts and torques are taken.
    name : str
        ``"direct"`` or ``"idler"``.
    module : array (candidates,)
        In mm.
    counts : list of array
        Tooth counts from shaft 1 to shaft 2.

    Returns
    -------
    list of Lean
        ``bent`` of each candidate in each of :func:`mixing_on`.
    """
    here, beams = mixing_on(machine, name), machine.shaft_beams
    apart, ends = machine.spec.housing.centre_distance, (counts[0], counts[-1])
    # an idler is put where its own meshes close, at the rack's angle
    lean = (
        np.asarray(mesh.working_pressure_angle.formula(module, *ends, apart))
        if name == "direct"
        else np.full(len(module), 20.0)
    )
    still, swung, forces = [], [], []
    for beam, count, line in zip(beams, ends, _lines(machine, counts, module), strict=True):
        place = beam.gears[name]
        stands, turns = (one[..., here] for one in beam.tilt(place))
        torque = machine.power_flow.at_gears[beam.number][here]
        push = 2e3 * torque / (module * count)[:, None]
        force = np.moveaxis(tooth_forces(push, beam.pushed[here], line, lean), -1, 0)
        forces.append(force)
        own = beam.gear_forces[here].T[:, None]
        still.append(stands[:, None] + beam.by_newton(place) * (force - own))
        swung.append(turns)
    return leaning(beams, name, still, swung, forces)
