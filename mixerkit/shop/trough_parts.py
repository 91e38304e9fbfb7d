"""What turns in the trough: paddles, sleeves with their seats, pins."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import ceil

import numpy as np

from mixerkit.parts.along import trough_ends
from mixerkit.parts.blades import section_at
from mixerkit.parts.sleeve_beam import sleeve_sizes
from mixerkit.parts.sleeve_seats import SLEEVE_END, SleeveSeats, seats_in
from mixerkit.shop.part import Part, at_least, density, ring, sawn
from mixerkit.spec import Spec

__all__ = ["trough_parts"]


def trough_parts(spec: Spec, say: Callable[..., str]) -> list[Part]:
    """List paddles, sleeves, rings of their seats and pins.

    Parameters
    ----------
    spec : Spec
    say : callable
        Writes a length in mm.

    Returns
    -------
    list of Part
    """
    blade, sleeve = spec.paddles, spec.sleeve
    heavy = density(blade.material)
    reach = blade.tip_radius - blade.root_radius
    radii = np.linspace(blade.root_radius, blade.tip_radius, 101)
    metal = np.multiply(*section_at(blade, radii))
    found = [
        Part(
            "paddle",
            2 * blade.count,
            blade.material,
            f"flat {say(blade.width)} x {say(blade.thickness)}, {say(reach, 4)} long, stem {say(blade.stem_width)} x {say(blade.stem_thickness)} at the sleeve, bare {say(blade.stem_height, 4)} from it",
            float(metal.mean()) * reach * heavy * 1e-9,
        )
    ]
    if sleeve.kind != "none":
        outer = 2 * blade.root_radius
        found += [
            *_sleeves(spec, say),
            sawn(
                "sleeve pin",
                2 * sleeve.pins,
                sleeve.pin_material,
                f"round {say(sleeve.pin_diameter, 4)}",
                outer,
                ring(sleeve.pin_diameter, 0, outer, density(sleeve.pin_material)),
                say,
                sleeve.pin_diameter,
            ),
        ]
    return found


def _sleeves(spec: Spec, say: Callable[..., str]) -> Iterator[Part]:
    """Both sleeves in one line where they are alike, and the rings of their seats."""
    seats = [seats_in(spec, number) for number in (1, 2)]
    alike = len({one.bores for one in seats if one}) < 2
    for number, one in enumerate(seats[:1] if alike else seats, 1):
        of, count = ("", 2) if alike else (f" on shaft {number}", 1)
        yield _sleeve(spec, f"sleeve{of}", count, one, say)
        yield from _rings(spec, f"seat ring of the sleeve{of}", count, one, say)


def _sleeve(
    spec: Spec, name: str, count: int, seats: SleeveSeats | None, say: Callable[..., str]
) -> Part:
    sleeve, (start, end) = spec.sleeve, trough_ends(spec)
    (outer, inner), long = sleeve_sizes(spec), end - start - 2 * SLEEVE_END
    bar = f"tube {say(outer)} x {say(sleeve.wall)}"
    words = f"{bar}, {say(long, 4)} long"
    if seats and not all(seats.ring):
        # a seat bored in the sleeve itself wants more metal than its wall between the seats
        bar = f"hollow or round bar {say(outer)}"
        sizes = " and ".join(say(one, 4) for one in dict.fromkeys(seats.bores))
        words = f"{bar} x {say(long, 4)}, seats {sizes} H8"
    return Part(
        name,
        count,
        sleeve.material,
        words,
        ring(outer, inner, long, density(sleeve.material)),
        (f"{sleeve.material}, {bar}", long),
    )


def _rings(
    spec: Spec, name: str, count: int, seats: SleeveSeats | None, say: Callable[..., str]
) -> Iterator[Part]:
    """Rings welded in, those of one size in one line."""
    if not seats:
        return
    sizes = [size for size, ringed in zip(seats.bores, seats.ring, strict=True) if ringed]
    material = spec.sleeve.material
    for size in dict.fromkeys(sizes):
        mass = ring(seats.between, size, seats.length, density(material))
        bar = at_least(seats.between + 2, say)
        least = ceil(seats.between + 2)
        yield sawn(name, count * sizes.count(size), material, bar, seats.length, mass, say, least)
