"""How large a hole may go across a shaft, and what a maker says who wants a larger one."""

from __future__ import annotations

from mixerkit.parts.notches import HOLES
from mixerkit.spec.shafts import NO_REASON
from mixerkit.working import Given, Working, worked

__all__ = ["LARGEST", "largest_share", "of_what_it_may_be", "told"]

LARGEST = 0.3
"""Hole across a shaft over its diameter beyond which it is refused without a reason (common practice)."""


def largest_share(reason: str) -> float:
    """Largest hole over its shaft: beyond 0.3 only for a reason, and never beyond the curves of its notch.

    Parameters
    ----------
    reason : str
        The maker's, as it stands in the file.

    Returns
    -------
    float

    Examples
    --------
    >>> largest_share("none"), largest_share("taper pins of a third are customary here")
    (0.3, 0.35)
    """
    return LARGEST if reason == NO_REASON else HOLES[1]


def told(hole: float, diameter: float, reason: str, field: str) -> str:
    """Say what there is to say of a hole beyond 0.3 of its shaft; empty where it is smaller.

    Parameters
    ----------
    hole, diameter : float
        In mm.
    reason : str
    field : str
        Dotted name of the field that holds the reason.

    Returns
    -------
    str
    """
    if hole <= LARGEST * diameter:
        return ""
    if reason == NO_REASON:
        return (
            f"; taper pins of a third are customary: whoever wants up to {HOLES[1]:g} writes why, such as "
            f'{field} = "taper pins of a third are customary here"'
        )
    return f"; more than {LARGEST:g} because, says the file, {reason}"


def of_what_it_may_be(most: float, diameter: float, where: str, reason: str) -> Working:
    """Say how large a hole may be.

    Parameters
    ----------
    most, diameter : float
        In mm.
    where : str
        Where the diameter is from.
    reason : str

    Returns
    -------
    Working
    """
    stated = "what the curves of its notch reach to, as a reason is stated (from memory)"
    share: Given = (
        largest_share(reason),
        "",
        "common practice" if reason == NO_REASON else stated,
    )
    return worked("d_max = k*d", most, "mm", k=share, d=(diameter, "mm", where))
