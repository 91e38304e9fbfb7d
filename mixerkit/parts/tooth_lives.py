"""What a tooth bears by its metal: for few loads, for many, and never more than the metal itself carries."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from mixerkit.parts.film import film_share
from mixerkit.results import Numbers, TableRow
from mixerkit.tables import table

__all__ = [
    "REVERSED",
    "STRESSING",
    "THROUGH_HARDENED",
    "carried",
    "lasting_contact",
    "lasting_root",
    "life_factors",
]

STRESSING = 2.0
"""Stress correction of the reference test gears, Y_ST (ISO 6336-3)."""
REVERSED = 0.7
"""Bending strength of a tooth loaded both ways over one way (ISO 6336-3 for idlers; from memory)."""
THROUGH_HARDENED = "structural and through-hardened steel"
_BENDING_LOADS, _BENDING_FALLING = 3e6, 0.02


def life_factors(cycles: Numbers, metal: str = THROUGH_HARDENED) -> tuple[Numbers, Numbers]:
    """Factors on bending and contact strength of a tooth for a limited count of loads.

    Parameters
    ----------
    cycles : float or array
        Loads on one tooth over the life; nought gives the static factors.
    metal : str
        A row of data/tables/gear_lives.csv.

    Returns
    -------
    tuple of float or array
        Y_NT and Z_NT; below 1 beyond three million loads and, by metal, two or fifty million, 0.85 at
        ten thousand million.

    References
    ----------
    ISO 6336-3:2006, table 1, and ISO 6336-2:2006, table 2: life factors; exponents from memory.

    Examples
    --------
    >>> bending, contact = life_factors(2.9e6)
    >>> round(float(bending), 3), round(float(contact), 2)
    (1.005, 1.24)
    >>> [round(float(one), 2) for one in life_factors(1e10)]
    [0.85, 0.85]
    >>> [float(one) for one in life_factors(0.0, "grey cast iron and nitrided steel")]
    [1.6, 1.3]
    """
    return _of_one(cycles, metal) if isinstance(cycles, float) else _of_loads(cycles, metal)


def _of_loads(cycles: Numbers, metal: str) -> tuple[Numbers, Numbers]:
    row = table("gear_lives").find(metal).values
    with np.errstate(divide="ignore"):
        bending = _BENDING_LOADS / np.asarray(cycles, float)
        contact = row["contact_loads"] / np.asarray(cycles, float)
    bent = np.where(bending >= 1, bending ** row["bending_exponent"], bending**_BENDING_FALLING)
    pressed = np.where(
        contact >= 1, contact ** row["contact_exponent"], contact ** row["contact_falling"]
    )
    return (
        np.minimum(bent, row["bending_static"])[()],
        np.minimum(pressed, row["contact_static"])[()],
    )


# every tooth of a machine is asked for the same few counts
_of_one = lru_cache(maxsize=256)(_of_loads)


def carried(
    yields: Numbers, breaks: Numbers, stress_correction: Numbers, *, brittle: bool
) -> Numbers:
    """Root stress that a metal carries at all, whatever its test gears stood.

    A metal that yields evens out the peak at the root: there the stress without Y_S may reach its yield.
    Grey iron does not: the peak itself may reach its tensile strength.

    Parameters
    ----------
    yields, breaks : float or array
        Of the metal in MPa.
    stress_correction : float or array
        Y_S of the tooth.
    brittle : bool

    Returns
    -------
    float or array
        In MPa, to hold a root stress with its Y_S against.

    References
    ----------
    Static loads on ductile and on brittle metals: Shigley, 10th ed., section 3-13 (from memory).

    Examples
    --------
    >>> carried(370.0, 630.0, 1.9, brittle=False), carried(165.0, 250.0, 1.9, brittle=True)
    (703.0, 250.0)
    """
    return breaks if brittle else yields * stress_correction


def lasting_root(steel: TableRow, cycles: Numbers) -> Numbers:
    """Root stress in MPa that a gear's metal bears both ways so many times.

    Parameters
    ----------
    steel : mapping
        Row of data/tables/gear_materials.csv.
    cycles : float or array

    Returns
    -------
    float or array
    """
    life = life_factors(cycles, steel["life"])[0]
    allowed: Numbers = steel["bending_limit"] * STRESSING * REVERSED * life
    return allowed


def lasting_contact(steel: TableRow, cycles: Numbers, between: Numbers) -> Numbers:
    """Contact stress in MPa that a gear's metal bears so many times.

    Parameters
    ----------
    steel : mapping
        Row of data/tables/gear_materials.csv.
    cycles : float or array
    between : float or array
        Product of the factors of :func:`mixerkit.parts.film.film_factors`.

    Returns
    -------
    float or array
    """
    lasting_loads = table("gear_lives").find(steel["life"]).values["contact_loads"]
    life = life_factors(cycles, steel["life"])[1]
    allowed: Numbers = steel["contact_limit"] * life * between ** film_share(cycles, lasting_loads)
    return allowed
