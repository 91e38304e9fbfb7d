"""What each format of the design file calls otherwise than the one before it.

Another format is another :class:`Step` at the end; old files are carried through all of them.
"""

from __future__ import annotations

from mixerkit.carried import Renamed, Step

__all__ = ["FORMAT", "STEPS"]

STEPS = (
    Step(
        2,
        (
            Renamed(
                "reducer.play",
                "reducer.backlash",
                "the name that sheets of reduction boxes have for it",
            ),
            Renamed(
                "paths.direct.profile_shifts",
                "paths.direct.profile_shift_coefficients",
                "its name in ISO 21771, for it is counted in modules and is no length",
            ),
            Renamed(
                "paths.idler.profile_shifts",
                "paths.idler.profile_shift_coefficients",
                "its name in ISO 21771, for it is counted in modules and is no length",
            ),
            Renamed(
                "paddles.bearing_factor",
                "paddles.bearing_capacity_factor",
                "its name in soil mechanics, for it has nothing to do with the bearings",
            ),
            Renamed(
                "paddles.bearing_span",
                "bearings.span",
                "for it says where the bearings are and not what a paddle is",
            ),
        ),
    ),
    # new fields only, each with what it was taken to be before
    Step(3, ()),
)
"""From the oldest format to the newest."""
FORMAT = STEPS[-1].format
"""Number of the design file's form; a file of a newer kit has a higher one."""
