"""Ways out for teeth cut too thin: live with the backlash they have, or begin again."""

from __future__ import annotations

from collections.abc import Mapping

from mixerkit.design import Design
from mixerkit.explore.rework.record import Rework, new_blank, sized
from mixerkit.explore.thinned import loosest
from mixerkit.machine import Machine
from mixerkit.parts.mesh_checks import TOO_MUCH
from mixerkit.shop.blanks import GEARS, gear_blank
from mixerkit.shop.workshop import Workshop

__all__ = ["thin_teeth"]


def thin_teeth(
    design: Design,
    name: str,
    made: Machine,
    sizes: Mapping[str, float],
    shop: Workshop | None,
    *,
    holds: bool,
) -> list[Rework]:
    """Ways out for a gear whose teeth were cut too thin.

    Parameters
    ----------
    design : Design
        As drawn.
    name : str
        A key of :data:`mixerkit.shop.blanks.GEARS`.
    made : Machine
        With the measured sizes in it, those of this gear too.
    sizes : mapping
        Measured sizes in mm by dotted name, but for what is a slip.
    shop : Workshop
    holds : bool
        Whether nothing fails with these teeth that holds without them.

    Returns
    -------
    list of Rework
        Least effort first.
    """
    path_name, say = GEARS[name][0], sized(design)
    play, pair = loosest(design, path_name, sizes, made.design.housing.centre_distance)
    bound = next(
        (one for one in made.checks if one.part == f"{path_name} path" and one.name == TOO_MUCH),
        None,
    )
    found = [new_blank(design, gear_blank(design, name, shop, design.show_units))]
    if bound is not None and holds and play <= bound.capacity:
        told = (
            f"backlash becomes {say(play)} between {pair}, by all teeth measured, and {say(bound.capacity)} is the most",
            "everything else holds with teeth so thin",
            "holes, mates and speeds stay",
        )
        found.insert(0, Rework("leave it", {}, told, 0, bound.spare, lives=True))
    return found
