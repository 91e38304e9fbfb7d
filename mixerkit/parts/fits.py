"""ISO limits and fits up to 250 mm: deviations of holes and shafts, and which fit for what."""

from __future__ import annotations

import re
from functools import cache, lru_cache

import numpy as np

from mixerkit.fields import nearest
from mixerkit.frozen import frozen, result
from mixerkit.results import Array, Numbers
from mixerkit.tables import table
from mixerkit.units import InputError, in_units

__all__ = ["LETTERS", "fit", "limits", "recommend", "tolerance"]

LETTERS = ("d", "e", "f", "g", "h", "js", "k", "m", "n", "p", "r", "s", "u")
"""Positions of the tolerance zone that the kit knows, small for shafts, capital for holes."""
MOST = 250.0


@cache
def _column(name: str, head: str) -> tuple[Array, Array]:
    listed = table(name)
    kept: tuple[Array, Array] = frozen((listed.column("up_to"), listed.column(head)))
    return kept


def _of_size(name: str, head: str, size: Numbers) -> Numbers:
    ends, values = _column(name, head)
    found: Numbers = values[np.searchsorted(ends, size)]
    return found


@in_units("um", size="mm > 0 <= 250")
def tolerance(size: Numbers, grade: int) -> Numbers:
    """Width of a standard tolerance grade.

    Parameters
    ----------
    size : quantity, any shape
        Up to 250 mm.
    grade : int
        From 4 to 12.

    Returns
    -------
    quantity [um], the same shape

    References
    ----------
    ISO 286-1, table 1.

    Examples
    --------
    >>> tolerance("45 mm", 7)
    <Quantity(25.0, 'micrometer')>
    """
    if not 4 <= grade <= 12:
        raise InputError(f"grade: IT{grade} is not in the table; 4 to 12 is wanted, for example 7.")
    return _of_size("tolerance_grades", f"it{grade}", size)


def _split(zone: str) -> tuple[str, int]:
    found = re.fullmatch(r"([A-Za-z]{1,2})(\d{1,2})", str(zone).strip())
    if (
        not found
        or found[1].lower() not in LETTERS
        or found[1] not in (found[1].lower(), found[1].upper())
    ):
        raise InputError(
            f'"{zone}" is not a tolerance zone of this kit{nearest(zone, ["H7", "g6", "k6", "p6"])}; one of the letters '
            f'{", ".join(LETTERS)} (capital for a hole) and a grade from 4 to 12 is wanted, for example "H7" or "g6".'
        )
    return found[1], int(found[2])


@in_units("um", size="mm > 0 <= 250")
def limits(size: Numbers, zone: str) -> Array:
    """Lower and upper deviation of a hole or a shaft.

    Parameters
    ----------
    size : quantity, any shape
        Nominal size up to 250 mm.
    zone : str
        Such as ``"H7"`` for a hole or ``"k6"`` for a shaft.

    Returns
    -------
    quantity [um], the size's shape with (lower, upper) as a last axis

    Raises
    ------
    InputError
        If a size or zone is not in the tables.

    References
    ----------
    ISO 286-1, tables 1, 4 and 5 and the rule of the extra Delta for holes K to ZC; ISO 286-2.

    Examples
    --------
    >>> limits("20 mm", "H7").magnitude.tolist(), limits("40 mm", "k6").magnitude.tolist()
    ([0.0, 21.0], [2.0, 18.0])
    """
    if isinstance(size, (int, float)):
        return _limits_of_one(float(size), zone)
    return _deviations(size, zone)


@lru_cache(maxsize=1024)
def _limits_of_one(size: float, zone: str) -> Array:
    """Limits of one size; most knobs leave most fits as they are."""
    kept: Array = frozen(_deviations(size, zone))
    return kept


def _deviations(size: Numbers, zone: str) -> Array:
    letter, grade = _split(zone)
    width = tolerance.formula(size, grade)
    if letter.lower() == "js":
        return np.stack([-width / 2, width / 2], axis=-1)
    base = _of_size("fundamental_deviations", letter.lower(), size)
    if letter.islower():
        if letter in "defgh":
            return np.stack([base - width, base + 0.0 * width], axis=-1)
        # k keeps its deviation only in the finer grades
        low = base if letter != "k" or grade <= 7 else 0.0 * width
        return np.stack([low + 0.0 * width, low + width], axis=-1)
    if letter in "DEFGH":
        return np.stack([0.0 - base, width - base], axis=-1)
    fine = grade <= (8 if letter in "KMN" else 7)
    if letter == "N" and grade >= 9:
        top = 0.0 * width
    elif fine:
        narrower = tolerance.formula(size, grade - 1) if grade > 4 else width
        top = -base + np.where(np.asarray(size) > 3, width - narrower, 0.0)
    else:
        top = 0.0 - base + 0.0 * width
    return np.stack([top - width, top], axis=-1)


@result
class Fit:
    """Limits, clearance and kind of a fit."""

    hole: tuple[float, float]
    shaft: tuple[float, float]
    loosest: float
    tightest: float
    kind: str


def fit(size: float, zones: str) -> Fit:
    """Limits, clearance and kind of a fit.

    Parameters
    ----------
    size : float
        In mm.
    zones : str
        Such as ``"H7/g6"``.

    Returns
    -------
    Fit
        ``hole`` and ``shaft`` (least, most) in mm, ``loosest`` and ``tightest`` clearance in mm
        (below zero is interference), ``kind`` one of clearance, transition, interference.

    Raises
    ------
    InputError
        If the fit is not written so, or a zone is not in the tables.

    Examples
    --------
    >>> fit(20.0, "H7/g6").kind, round(fit(20.0, "H7/g6").tightest, 3)
    ('clearance', 0.007)
    """
    parts = str(zones).split("/")
    if len(parts) != 2 or not parts[0][:1].isupper() or not parts[1][:1].islower():
        raise InputError(f'"{zones}" is not a fit; hole and shaft are wanted, for example "H7/g6".')
    hole, shaft = (size + limits.formula(size, one) / 1e3 for one in parts)
    loosest, tightest = float(hole[1] - shaft[0]), float(hole[0] - shaft[1])
    kind = "clearance" if tightest >= 0 else "interference" if loosest <= 0 else "transition"
    return Fit(
        hole=(float(hole[0]), float(hole[1])),
        shaft=(float(shaft[0]), float(shaft[1])),
        loosest=loosest,
        tightest=tightest,
        kind=kind,
    )


def recommend(use: str) -> tuple[str, str]:
    """Fit for a use of data/tables/fit_uses.csv, and how it feels at the bench.

    Raises
    ------
    InputError
        If the use is not in the table.

    Examples
    --------
    >>> recommend("bush in a gear or plate")[0]
    'H7/p6'
    """
    row = table("fit_uses").find(use).values
    return f"{row['hole']}/{row['shaft']}", row["words"]
