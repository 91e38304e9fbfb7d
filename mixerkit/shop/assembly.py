"""In which order the machine goes together, with what to feel at each step."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from mixerkit.parts import fits
from mixerkit.parts.along import NAMES
from mixerkit.parts.bush_walls import RUNNING_FIT
from mixerkit.parts.idler import END_PLAY
from mixerkit.parts.passing import way_of
from mixerkit.parts.retainers import retainer
from mixerkit.parts.seated import SLEEVE, over_seat
from mixerkit.parts.sleeve_seats import seats_in
from mixerkit.parts.warmth import ROOM
from mixerkit.parts.zones import (
    CLUTCH,
    INSERT,
    as_turned,
    bearing_on,
    seat,
    series_at,
    thickest_free_gear,
)
from mixerkit.shop.wanted_bushes import own_bushes
from mixerkit.spec import Spec
from mixerkit.units import lengths, show

__all__ = ["assembly_order"]


def assembly_order(spec: Spec, system: str = "metric") -> list[tuple[str, str, str]]:
    """In which order the machine goes together, with the clearance to feel at each step.

    Parameters
    ----------
    spec : Spec
    system : str
        ``"metric"`` or ``"inch"``: how sizes are said.

    Returns
    -------
    list of tuple of str
        Step, clearance, and how to know it is right.
    """
    return [
        *_bushes_in(spec, system),
        *_shafts_loaded(spec, system),
        *_rings_held(spec, system, "inner", (0, 1)),
        *_case_closed(spec, system),
        *_rings_held(spec, system, "outer", (0, 1)),
        *_trough_and_drive(spec, system),
    ]


def _bushes_in(spec: Spec, system: str) -> list[tuple[str, str, str]]:
    """The bushes that the shafts themselves turn in, none where they have ball bearings."""
    own, say = own_bushes(spec), lengths(system)
    if not own:
        return []
    fitted = [fits.fit(min(one.bore, fits.MOST), "H8/f7") for one in own]
    least, most = min(one.tightest for one in fitted), max(one.loosest for one in fitted)
    force = max(one.sizes.force for one in own) / 1e3
    return [
        (
            (
                f"press the {len(own)} bushes of both shafts into plates and far wall, up to "
                f"{show(force, 'kN', system)} each; ream or bore them in line, all on dowels"
            ),
            f"shafts {say(least, 2)} to {say(most, 2)}",
            "each shaft alone goes through its three bushes and turns by hand",
        )
    ]


def _shafts_loaded(spec: Spec, system: str) -> list[tuple[str, str, str]]:
    """Each shaft and the idler with what sits on it, at the bench."""
    say, on = lengths(system), spec.clutch.shaft

    def gap(size: float, zones: str) -> str:
        one = fits.fit(min(size, 250.0), zones)
        return f"{say(one.tightest, 2)} to {say(one.loosest, 2)}"

    warmed = f"warmed to {show(_WARM, 'degC', system)} in water, and slid on at once"
    by_blows = _over_a_seat(spec, 3 - on, say, "by light blows")
    diameter, sleeve = thickest_free_gear(spec), seat(spec, on, CLUTCH)
    return [
        (
            "press and ream the bushes of free gears and idler",
            gap(diameter, RUNNING_FIT),
            f"each turns on its seat by its own weight, without rocking; idler {gap(spec.housing.idler_pin, RUNNING_FIT)}",
        ),
        (
            _along(spec, on),
            f"{_BETWEEN}; clutch sleeve on its feather key {gap(sleeve, 'H7/f7')}{_over_a_seat(spec, on, say, warmed)}",
            f"the sleeve slides the whole way with one finger; both gears spin free in neutral; {_RINGED}",
        ),
        (
            _along(spec, 3 - on),
            f"{_BETWEEN}; fixed gears none: pushed on by hand with oil{by_blows}",
            f"faces in line with their mates within {say(0.5, 1)}; {_RINGED}",
        ),
        (
            "on the idler's pin: spacer, thrust washer, idler, thrust washer, spacer",
            f"end play {say(END_PLAY, 4)} between the plates",
            "spins free; a screw and a washer wider than the bore at either end hold the pin",
        ),
    ]


_WARM = 80.0
"""In degC: 60 K widen a bore of steel by 0.0007 of its size, more than a k6 seat is over it (common practice)."""


def _over_a_seat(spec: Spec, number: int, say: Callable[..., str], how: str) -> str:
    """What a bore must be driven over on its way, where a bearing's seat is of the same nominal size."""
    from_left = way_of(spec, number).from_left
    alike = [
        size
        for gear in ("direct gear", "idler gear")
        for name in (NAMES[:1] if gear in from_left else NAMES[1:])
        if bearing_on(spec, number, name)
        and (size := as_turned(spec, number, name)) == seat(spec, number, gear)
    ]
    if not alike:
        return ""
    over = over_seat(max(alike)) - max(alike)
    return f"; over a bearing's seat, up to {say(over, 3)} thicker, {how}"


_BETWEEN = "spacers between; keys just before their hubs"
_RINGED = "each ring snaps in and turns; nothing wanders"


def _sleeves_over_seats(spec: Spec, system: str) -> str:
    """What the seats of carried sleeves must be driven over, where a bearing's seat is of the same nominal size."""
    say, tight = lengths(system), list[float]()
    for number in (1, 2):
        seats, way = seats_in(spec, number), way_of(spec, number)
        passed = NAMES[:2] if SLEEVE in way.from_left else NAMES[2:]
        tight += [
            size
            for name in passed
            if seats
            and bearing_on(spec, number, name)
            and (size := as_turned(spec, number, name)) in seats.bores
            and series_at(spec, name) != INSERT
        ]
    if not tight:
        return ""
    over = over_seat(max(tight)) - max(tight)
    return (
        f"; a sleeve's H8 seats go over a bearing's seat, up to {say(over, 3)} thicker, warmed to "
        f"{show(_WARM, 'degC', system)}"
    )


def _short(name: str) -> str:
    """A thing's name, of a ring or a washer without where it is."""
    if name.startswith("washer "):
        return "thrust washer"
    return next((kind for kind in ("support washer", "ring") if name.startswith(f"{kind} ")), name)


def _along(spec: Spec, number: int) -> str:
    """In which order things go on a shaft from either end; those beyond the plates go on in their turn."""
    way = way_of(spec, number)
    turns_in = "bush" if spec.bearings.kind == "plain bush" else "bearing"

    def listed(row: Sequence[str]) -> str:
        # in brackets, or a bearing and the place it sits in read as two things to put on
        short = [re.sub("bearing at the (.*)", rf"{turns_in} (\1)", one) for one in row]
        return ", ".join(_short(one) for one in short) or "nothing"

    return (
        f"shaft {number} in this order, what lies beyond the plates in its turn. From the reducer's end: "
        f"{listed(way.from_left)}. From the trough's end: {listed(way.from_right)}"
    )


def _rings_held(
    spec: Spec, system: str, which: str, places: tuple[int, ...]
) -> list[tuple[str, str, str]]:
    """The plates over the outer rings that take the push: the inner one goes over both shafts before the bearings."""
    one, say = retainer(spec), lengths(system)
    if one is None or one.place not in places:
        return []
    at = NAMES[one.place]
    thick = max(as_turned(spec, number, at) for number in (1, 2))
    rings = "distance rings and " * one.has_rings
    if which == "inner":
        return [
            (
                f"both shafts side by side; over both of them the inner retaining plate, then {rings}bearings of the {at}",
                f"hangs free, {say((min(one.openings) - thick) / 2, 2)} round the shafts",
                "it is on the gears' side of those bearings, its notch by the idler"
                if one.notch
                else "it is on the trough's side of those bearings",
            )
        ]
    return [
        (
            (
                f"{rings}outer retaining plate on the {at}; {len(one.screws)} screws {one.screw} through both "
                "plates, crosswise"
            ),
            f"{say(0.0, 2)} to {say(0.05, 2)} of play along either shaft: face or shim the rings to it",
            "screws end flush inside; both shafts turn as before, and neither moves along",
        )
    ]


def _case_closed(spec: Spec, system: str) -> list[tuple[str, str, str]]:
    """Both plates over the shafts, the teeth and the clutch felt."""
    return [
        (
            "both shafts and idler into the plate at the reducer, then the second plate over all, on the dowels of both spacers",
            "dowels: hand pressure",
            "every shaft turns by hand before and after the bolts are drawn up",
        ),
        (
            "feel the backlash of every mesh with a feeler or paper",
            f"about {lengths(system)(2 * spec.paths.direct.thinning, 3)}",
            "the same all round: if not, a bore or a blank runs out",
        ),
        (
            "shift the clutch through its three positions",
            "neutral gap felt on both sides",
            "in neutral shaft 2 stands while shaft 1 is turned; never both gears held",
        ),
    ]


def _trough_and_drive(spec: Spec, system: str) -> list[tuple[str, str, str]]:
    """Trough, far bearings and box, and what keeps hands out."""
    say = lengths(system)
    # a key between shaft 1 and the hollow end would carry the torque past the fuse
    held = (
        "with its key"
        if spec.fuse.kind == "none"
        else "without a key between them: it turns free in the stub of the one flange, which the box's own key holds in the "
        "hollow end, put in before; the other is keyed on shaft 1, and the fuse alone joins both"
    )
    return [
        (
            "trough, seals, sleeves with paddles, pins",
            f"paddle to wall {say(spec.trough.wall_clearance, 4)}{_sleeves_over_seats(spec, system)}",
            "turn by hand through two whole turns in both clutch positions: nothing touches",
        ),
        *_rings_held(spec, system, "inner", (2,)),
        (
            "far bearings, then align them until both shafts turn as easily as before",
            f"{say(ROOM, 2)} left either side of every outer ring that slides",
            "slacken, turn, tighten in turn",
        ),
        *_rings_held(spec, system, "outer", (2,)),
        (
            f"box on shaft 1 {held}, torque arm with rubber",
            f"arm free by {say(1.0, 1)}",
            "the box is carried by the shaft alone, the arm only keeps it from turning",
        ),
        (
            "guards and lid with its interlock, then wiring by a licensed person",
            "see the guard list",
            "pull the plug and try every guard and switch before clay goes in",
        ),
    ]
