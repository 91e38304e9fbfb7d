"""Changes that may mend a failing check, where the checks of several parts share them.

Each is a guess at what would help, with a value to begin at; none is tried here.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import pi, sqrt

import numpy as np

from mixerkit.checks import Change
from mixerkit.parts.formcutter import FEWEST
from mixerkit.results import LoadedMachine
from mixerkit.spec import GearPath
from mixerkit.tables import table

__all__ = ["LIGHTER", "calmer", "lengths", "pairs_on", "resized", "stronger"]

LIGHTER: tuple[Change, ...] = ("paddles.width", "paddles.tip_radius", "paddles.count")
"""Choices that ask less torque of everything while it mixes."""
_INCH = 25.4


def lengths(values: Iterable[float], system: str) -> list[str]:
    """Lengths in mm as a list of a design file has them, in the unit this maker works in.

    Parameters
    ----------
    values : iterable of float
        In mm.
    system : str
        ``"metric"`` or ``"inch"``.

    Returns
    -------
    list of str

    Examples
    --------
    >>> lengths([208.5, 38.0], "metric"), lengths([38.1], "inch")
    (['208.5 mm', '38 mm'], ['1.5 in'])
    """
    per, unit = (_INCH, "in") if system == "inch" else (1.0, "mm")
    return [f"{float(one) / per:.10g} {unit}" for one in values]


def calmer(machine: LoadedMachine, i: int, over: float) -> list[Change]:
    """Fuses that let less through, where a state is a jam.

    Parameters
    ----------
    machine : LoadedMachine
    i : int
        Of the state.
    over : float
        Torque over the torque that would do.

    Returns
    -------
    list of Change
        Empty where the state is no jam, or where how much less is wanted is not known.
    """
    if not machine.load_cases.jammed[i] or not 0 < over < np.inf:
        return []
    fuse, over = machine.spec.fuse, float(over)
    if fuse.kind == "shear pin":
        return [{"fuse.pin_diameter": fuse.pin_diameter / sqrt(over)}]
    if fuse.kind == "torque limiter":
        return [{"fuse.setting": fuse.setting / over}]
    # no more than a place to begin: the fuse's own checks know how a pin shears
    steel = table("materials").find(fuse.pin_material).values["tensile_strength"]
    torque = float(machine.power_flow.torque_at_box_output[i]) / over
    area = 1e3 * torque / (0.8 * steel * fuse.pin_radius * fuse.pins * fuse.planes)
    return [{"fuse.kind": "shear pin", "fuse.pin_diameter": sqrt(4 * area / pi)}]


def stronger(
    fields: tuple[str, ...],
    now: str,
    name: str,
    columns: tuple[str, ...],
    over: float,
    families: tuple[str, ...] = ("steel",),
) -> list[Mapping[str, str]]:
    """Materials of a table that are better in every column by some factor: the nearest and the best.

    Parameters
    ----------
    fields : tuple of str
        Dotted fields that are to name the material.
    now : str
        The one they name.
    name : str
        Of the table.
    columns : tuple of str
        Strengths that count.
    over : float
        Factor by which they must be better; any better one where it is not known.
    families : tuple of str
        Keep to these, in a table that has them; empty for all.

    Returns
    -------
    list of mapping of str to str

    Examples
    --------
    >>> stronger(("shaft_1.material",), "steel S235JR", "materials", ("yield_strength",), 2.0)
    [{'shaft_1.material': 'steel 1045 cold drawn'}, {'shaft_1.material': 'steel 42CrMo4 quenched and tempered'}]
    """
    has = table(name).find(now).values
    factor = over if 1 < over < np.inf else 1.0 + 1e-9
    rows = [
        row.values
        for row in table(name)
        if all(row.values[one] >= factor * has[one] for one in columns)
        and (not families or row.values["family"] in families)
    ]
    rows.sort(key=lambda row: row[columns[0]])
    picked = [*rows[:1], *rows[1:][-1:]]
    return [dict.fromkeys(fields, row["name"]) for row in picked]


def modules(system: str) -> list[tuple[float, str]]:
    """Modules in mm with how they are written in a file, rising."""
    if system == "inch":
        rows = [
            (25.4 / row.values["pitch"], f"{row.values['pitch']:g} / in")
            for row in table("diametral_pitches")
        ]
    else:
        rows = [(row.values["module"], f"{row.values['module']:g} mm") for row in table("modules")]
    return sorted(rows)


def pairs_on(apart: float, ratio: float, system: str) -> list[tuple[float, str, tuple[int, int]]]:
    """Pairs without profile shifts that close on a distance of the shafts, nearest a ratio.

    Parameters
    ----------
    apart : float
        In mm.
    ratio : float
        First count over the second.
    system : str
        ``"metric"`` or ``"inch"``: modules or diametral pitches.

    Returns
    -------
    list of tuple
        Module in mm, how it is written, and the counts; those of 12 teeth at least.

    Examples
    --------
    >>> [one for one in pairs_on(150.0, 1.0, "metric") if one[0] == 5]
    [(5.0, '5 mm', (30, 30))]
    """
    found = []
    for module, written in modules(system):
        total = round(2 * apart / module)
        first = round(total * ratio / (1 + ratio))
        # what the check of the paths allows either way: 0.02 modules
        if abs(total * module / 2 - apart) <= 0.02 * module and min(first, total - first) >= FEWEST:
            found.append((module, written, (first, total - first)))
    return found


def resized(name: str, path: GearPath, apart: float, system: str) -> list[tuple[float, Change]]:
    """A path of other modules, with counts that keep it where it is: module in mm, and the change.

    Parameters
    ----------
    name : str
        ``"direct"`` or ``"idler"``.
    path : GearPath
        In plain numbers.
    apart : float
        Distance of the shafts in mm.
    system : str

    Returns
    -------
    list of tuple
        Without the module it has, the nearest first; shifts are taken back to none.
    """
    counts, now = path.tooth_counts, path.module
    found: list[tuple[float, Change]] = []

    def change(written: str, teeth: Iterable[int]) -> Change:
        given: dict[str, str | list[int]] = {
            f"paths.{name}.module": written,
            f"paths.{name}.tooth_counts": list(teeth),
        }
        return (
            {**given, f"paths.{name}.profile_shift_coefficients": []}
            if path.profile_shift_coefficients
            else given
        )

    if len(counts) == 2:
        rows = pairs_on(apart, counts[0] / counts[1], system)
        found = [(module, change(written, teeth)) for module, written, teeth in rows]
    else:
        for module, written in modules(system):
            teeth = [round(count * now / module) for count in counts]
            if min(teeth) >= FEWEST and max(teeth) <= 200:
                found.append((module, change(written, teeth)))
    found = [one for one in found if abs(one[0] - now) > 1e-6]
    return sorted(found, key=lambda one: abs(np.log(one[0] / now)))
