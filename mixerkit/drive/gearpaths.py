"""The two gear paths from shaft 1 to shaft 2: speeds, directions, torques, the idler's place.

A path is its tooth counts in order from shaft 1 to shaft 2. The first wheel turns with shaft 1
when the clutch holds it, every one between is an idler, and the last sits on shaft 2; with the
clutch on shaft 2 the first is fixed and the last is the one that is held.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from mixerkit.results import Numbers
from mixerkit.units import InputError, in_units

__all__ = ["path_efficiency", "path_ratio", "path_torque", "solve_speeds", "wheel_name"]


def path_ratio(tooth_counts: Sequence[int]) -> float:
    r"""Speed of shaft 2 for one turn of shaft 1, negative where it turns the other way.

    .. math:: \frac{\omega_2}{\omega_1} = \prod_k \left(-\frac{z_k}{z_{k+1}}\right)

    Parameters
    ----------
    tooth_counts : sequence of int
        From shaft 1 to shaft 2, idlers between.

    Returns
    -------
    float

    References
    ----------
    Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 13-29 and 13-30
    (train value).

    Examples
    --------
    >>> path_ratio([30, 30]), path_ratio([22, 20, 22])
    (-1.0, 1.0)
    """
    meshes = len(tooth_counts) - 1
    return (-1 if meshes % 2 else 1) * tooth_counts[0] / tooth_counts[-1]


def path_efficiency(tooth_counts: Sequence[int], mesh_efficiency: float) -> float:
    """Share of the power that comes through a path: one mesh's share to the power of the meshes.

    Parameters
    ----------
    tooth_counts : sequence of int
    mesh_efficiency : float

    Returns
    -------
    float

    References
    ----------
    Common practice.

    Examples
    --------
    >>> round(path_efficiency([22, 20, 22], 0.97), 4)
    0.9409
    """
    return mesh_efficiency ** (len(tooth_counts) - 1)


@in_units("N*m", torque="N*m")
def path_torque(torque: Numbers, tooth_counts: Sequence[int], mesh_efficiency: float) -> Numbers:
    r"""Torque a path takes from shaft 1 for a torque that shaft 2 is to give.

    .. math:: T_1 = T_2\, \frac{z_1}{z_n}\, \eta^{-(n-1)}

    Parameters
    ----------
    torque : quantity, any shape
        On shaft 2, e.g. ``"150 N*m"``.
    tooth_counts : sequence of int
    mesh_efficiency : float

    Returns
    -------
    quantity [N*m], the shape of torque

    References
    ----------
    Conservation of energy along the path.

    Examples
    --------
    >>> round(path_torque("150 N*m", [20, 40], 0.97), 2)
    <Quantity(77.32, 'newton * meter')>
    """
    return torque * abs(path_ratio(tooth_counts)) / path_efficiency(tooth_counts, mesh_efficiency)


def wheel_name(path: str, place: int, count: int) -> str:
    """Name a wheel by its path and its place, 0 on shaft 1 and ``count - 1`` on shaft 2.

    Examples
    --------
    >>> [wheel_name("idler", place, 3) for place in range(3)]
    ['idler path, shaft 1 gear', 'idler path, idler', 'idler path, shaft 2 gear']
    """
    if place in (0, count - 1):
        return f"{path} path, shaft {1 if place == 0 else 2} gear"
    return f"{path} path, idler" + (f" {place}" if count > 3 else "")


def solve_speeds(
    paths: Mapping[str, Sequence[int]], engaged: Sequence[str], clutch_shaft: int = 1
) -> dict[str, float]:
    """Speeds of both shafts and every wheel for one turn of shaft 1.

    The meshes, the held clutch and the driven shaft make one linear system, so any number of
    paths and idlers needs no new code. With nothing engaged shaft 2 rests in the clay.

    Parameters
    ----------
    paths : mapping of str to sequence of int
        Tooth counts of each path from shaft 1 to shaft 2.
    engaged : sequence of str
        Names of the paths whose wheel the clutch holds: one, or none for neutral.
    clutch_shaft : int
        1 or 2: the shaft on which the wheels run free until held.

    Returns
    -------
    dict of str to float
        ``"shaft 1"``, ``"shaft 2"`` and each wheel by :func:`wheel_name`.

    Raises
    ------
    InputError
        If two paths that ask for different speeds are engaged together, or a path is unknown.

    References
    ----------
    Rolling without slip at each mesh: z_a w_a + z_b w_b = 0 (Shigley, 10th ed., sec. 13-13).

    Examples
    --------
    >>> speeds = solve_speeds({"direct": [30, 30], "idler": [22, 20, 22]}, ["idler"])
    >>> round(speeds["shaft 2"], 6), round(speeds["direct path, shaft 1 gear"], 6)
    (1.0, -1.0)
    """
    _refuse_unknown(paths, engaged)
    bodies = ["shaft 1", "shaft 2"]
    wheels = [
        wheel_name(name, place, len(counts))
        for name, counts in paths.items()
        for place in range(len(counts))
    ]
    index = {body: number for number, body in enumerate(bodies + wheels)}
    rows = _equations(paths, engaged, clutch_shaft)
    matrix = np.zeros((len(rows), len(index)))
    for number, row in enumerate(rows):
        for body, factor in row.items():
            matrix[number, index[body]] = factor
    wanted = np.zeros(len(rows))
    wanted[-1] = 1.0
    speeds, *_ = np.linalg.lstsq(matrix, wanted, rcond=None)
    if not np.allclose(matrix @ speeds, wanted, atol=1e-9):
        raise InputError(
            f"engaging {' and '.join(engaged)} together asks shaft 2 to turn at two speeds at once; "
            "the machine would lock. Engage one path at a time."
        )
    return {body: float(speeds[number]) for body, number in index.items()}


def _refuse_unknown(paths: Mapping[str, Sequence[int]], engaged: Sequence[str]) -> None:
    for name in engaged:
        if name not in paths:
            raise InputError(
                f'"{name}" is not a gear path of this machine; it has {sorted(paths)}.'
            )


def _equations(
    paths: Mapping[str, Sequence[int]], engaged: Sequence[str], clutch_shaft: int
) -> list[dict[str, float]]:
    """Factors of the bodies' speeds in each equation; all come to nought but the last, which is one turn."""
    rows: list[dict[str, float]] = []
    for name, counts in paths.items():
        own = [wheel_name(name, place, len(counts)) for place in range(len(counts))]
        rows += [
            {own[place]: counts[place], own[place + 1]: counts[place + 1]}
            for place in range(len(counts) - 1)
        ]
        fixed, free = (own[-1], own[0]) if clutch_shaft == 1 else (own[0], own[-1])
        rows.append({fixed: 1.0, f"shaft {3 - clutch_shaft}": -1.0})
        if name in engaged:
            rows.append({free: 1.0, f"shaft {clutch_shaft}": -1.0})
    if not engaged:
        rows.append({"shaft 2": 1.0})
    rows.append({"shaft 1": 1.0})
    return rows
