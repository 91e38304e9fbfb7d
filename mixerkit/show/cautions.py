"""The cautions that stand in README, notebooks, report and sheets."""

from __future__ import annotations

from mixerkit.drive.motor_drive import PULLED
from mixerkit.spec import Spec

__all__ = ["CAUTIONS", "cautions"]

CAUTIONS = (
    "This kit advises; it certifies nothing. Local codes and the judgement of licensed people come first.",
    "Two shafts turning inward make an in-running nip that pulls in hands, sleeves and tools faster than anyone can let go. Never run the mixer without its lid or grid and the interlock that stops it.",
    "Isolate and lock off the supply before cleaning, reaching in or freeing a jam. A jammed train is a wound spring: let the torque off before a tool goes near it.",
    "After a loss of power the machine must stay off until someone starts it again on purpose.",
    "Mains wiring, motor drives and earthing are work for a licensed electrician, to the local wiring code.",
    "Weld stainless and plated steel with the fume drawn away, and never weld near a fitted motor or bearing without its own earth clamp close by.",
)
"""Sentences for everyone who builds, runs or cleans the machine."""


def cautions(spec: Spec) -> tuple[str, ...]:
    """Cautions for one design: with belts or a chain, that of their nips too.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    tuple of str

    Examples
    --------
    >>> from mixerkit import Design
    >>> cautions(Design.demo()) == CAUTIONS
    True
    """
    kind = spec.motor_drive.kind
    if kind not in PULLED:
        return CAUTIONS
    nip = (
        f"Where the {kind} between motor and box runs on to its wheels, either way round, it draws in fingers, cloth and hair: "
        "keep the fixed guard round both wheels, and never touch belt or chain before the supply is locked off."
    )
    return (*CAUTIONS, nip)
