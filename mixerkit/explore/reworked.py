"""What a spoiled part of each stage can still become: which module finds it, or what a machinist does."""

from __future__ import annotations

from mixerkit.stages import stage_of

__all__ = ["NO_REWORK", "REWORK", "rework_module"]

REWORK = {
    "gear paths": "rework.holes",
    "gears": "rework.gears",
    "shafts": "rework.shafts",
    "hubs": "rework.hubs",
    "bearings": "rework.bores",
}
"""Module of this room that finds ways out for a stage's spoiled parts, by the stage's key."""
# the advice is common practice
NO_REWORK = {
    "trough": "A trough cut too short gets a strip welded on and the seam ground flush inside; bent out of round, it is "
    "drawn to a template before its ends are welded.",
    "paddles": "A paddle cut too short gets a new tip welded on and is dressed to the tip radius; one cut too long is "
    "filed back until it clears the wall.",
    "contact": "A bead of the wrong filler is ground out whole and welded again; where stainless has turned blue or brown "
    "beside it, it is pickled or ground bright, or it rusts there.",
    "clutch": "A dog milled too narrow only adds play: measure it, set clutch.angular_play to what it is and see whether "
    "it still holds; a cracked or short dog means a new face.",
    "frame": "A far wall bored off its place is set by its bores with a shaft through them and dowelled anew; a bore cut too "
    "large gets a ring, as those of the gear plates do; a dented trough is dressed over a former and gets a rib there.",
    "guards": "An opening cut too large is closed with a plate that takes a tool to remove; a lid cut too small gets a "
    "wider rim.",
    "jam": "A shear pin whose neck is turned too thin goes in the bin and a new one is turned: a weak pin only stops work, "
    "but a pin too thick lets something dearer break.",
}
"""What to do where no module looks for ways out, by the stage's key."""


def rework_module(key: str) -> str | None:
    """Find the module that knows what a stage's spoiled parts can become.

    Parameters
    ----------
    key : str
        Of :data:`mixerkit.stages.STAGES`.

    Returns
    -------
    str or None
        Name of a module of this room; none where the stage is bought or :data:`NO_REWORK` says what to do.

    Raises
    ------
    LookupError
        If there is no such stage, or its parts are made here and nothing is said of spoiled ones.

    Examples
    --------
    >>> rework_module("hubs"), rework_module("motor")
    ('rework.hubs', None)
    """
    if key in REWORK:
        return REWORK[key]
    if stage_of(key).made_here and key not in NO_REWORK:
        raise LookupError(
            f"stage {key} is cut in the shop, but nothing says what its spoiled parts become: "
            "add it to REWORK or NO_REWORK in mixerkit/explore/reworked.py"
        )
    return None
