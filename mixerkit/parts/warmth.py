"""Whether the bearings that slide have room for what a shaft grows as it warms."""

from __future__ import annotations

from typing import NamedTuple

from mixerkit.checking import make_check
from mixerkit.checks import Check
from mixerkit.parts import zones
from mixerkit.parts.along import NAMES, bearing_places
from mixerkit.parts.pressfit import EXPANSION
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.results import Numbers
from mixerkit.units import in_units
from mixerkit.working import by_method, worked

__all__ = ["ROOM", "WARM", "checks", "growth"]

WARM = "bearings have room for its growth as it warms"
"""Name of the check."""
ROOM = 0.5
"""Room in mm that a bearing's outer ring, or a shaft in a bush, is given to slide either way (common practice)."""
_PLAY = 0.1
"""End play in mm of an insert bearing, which is screwed to the shaft and seated in its housing: all the room that it
has (least for a ball bearing of its size with normal clearance; from memory)."""
_WARMER = 20.0
"""By how much in K a shaft gets warmer than the walls, by box, seals and clay (common practice)."""


class _Slides(NamedTuple):
    """A bearing that does not locate: how far it is from the one that does, and its room, in mm."""

    name: str
    far: float
    room: float


@in_units("mm", length="mm >= 0", warmer="K >= 0")
def growth(length: Numbers, warmer: Numbers, expansion: Numbers = 11.5e-6) -> Numbers:
    r"""Growth of a length by warmth.

    .. math:: \Delta l = \alpha\,l\,\Delta T

    Parameters
    ----------
    length, warmer : quantity, broadcast
    expansion : float or array
        A kelvin.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    Linear expansion; any text on machine elements.

    Examples
    --------
    >>> round(growth("1000 mm", "10 K"), 3)
    <Quantity(0.115, 'millimeter')>
    """
    return expansion * length * warmer


def _least_room(beam: ShaftBeam) -> tuple[str, _Slides]:
    """Which bearing locates, and which of the others has the least room for how far it is from that one."""
    spec = beam.machine.spec
    places = bearing_places(spec)
    locating = spec.bearings.locating - 1
    slide = [
        _Slides(
            name,
            abs(at - places[locating]),
            _PLAY if row and row["series"] == zones.INSERT else ROOM,
        )
        for name, at, row in zip(NAMES, places, beam.bearings, strict=True)
        if name != NAMES[locating]
    ]
    return NAMES[locating], max(slide, key=lambda one: one.far / one.room)


def checks(beam: ShaftBeam) -> list[Check]:
    """Check the bearing with the least room for the growth of the shaft between it and the locating one.

    Parameters
    ----------
    beam : ShaftBeam

    Returns
    -------
    list of Check
    """
    locates, worst = _least_room(beam)
    expansion = EXPANSION.get(beam.steel["family"], max(EXPANSION.values()))
    grows = float(growth.formula(worst.far, _WARMER, expansion))
    return [
        make_check(
            beam.machine,
            "shafts",
            f"shaft {beam.number}",
            WARM,
            demand=grows,
            capacity=worst.room,
            unit="mm",
            tight=1.0,
            source="linear expansion; how much warmer than the walls, and the room to slide: common practice",
            reason=lambda i, say: (
                f"{say(worst.far, 'mm')} from the {locates}, which holds it, to the {worst.name}, and "
                f"{say(_WARMER, 'K')} warmer than the walls"
            ),
            working=lambda i: [
                worked(
                    "d = epsilon*l",
                    grows,
                    "mm",
                    epsilon=(
                        expansion * _WARMER,
                        "",
                        f"{beam.own.material}, so much warmer than the walls",
                    ),
                    l=(worst.far, "mm", "between the two bearings"),
                ),
                by_method(
                    "s", "room of a bearing that slides, or end play of an insert", worst.room, "mm"
                ),
            ],
            fix=lambda i: [{"bearings.locating": one} for one in (3, 2, 1)],
        )
    ]
