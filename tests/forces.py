"""The forces on a turning shaft put together again, each at its place."""

import numpy as np


def forces(line):
    """Forces in N over a turn: rows are (states, angles of the turn, places, planes)."""
    rows = line.turning
    shape = (2, len(rows.states), rows.reach.shape[1], len(line.places))
    each = np.broadcast_to(rows.still[:, :, None], shape).copy()
    each[..., line.paddles] += rows.push[:, None, None] * rows.reach[:, None]
    return np.moveaxis(each, 0, -1)
