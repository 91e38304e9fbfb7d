"""Every part of the machine: what is cut from which bar, what is bought, in which order it goes together."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import pi

import numpy as np

from mixerkit.parts import fits
from mixerkit.parts.blades import section_at
from mixerkit.parts.bush_walls import bush_sizes
from mixerkit.parts.keys import key_for
from mixerkit.parts.shaft_checks import stock_sizes
from mixerkit.parts.shaft_places import trough_ends
from mixerkit.shop import flatpattern, turning
from mixerkit.shop.blanks import gear_blank, gears
from mixerkit.shop.holes import PLATES, plate
from mixerkit.shop.shaftwork import shaft_work
from mixerkit.shop.workshop import Workshop
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import lengths, show

__all__ = ["Part", "assembly_order", "bars", "parts"]


@dataclass(frozen=True)
class Part:
    """One line of the bill of materials.

    Attributes
    ----------
    name : str
    count : int
    material : str
    size : str
        As bought or sawn.
    mass : float
        Of one, finished, in kg.
    cut : tuple of (str, float) or None
        Bar it is sawn from, and its length in mm; none for what is bought or cut from plate.
    """

    name: str
    count: int
    material: str
    size: str
    mass: float
    cut: tuple[str, float] | None = None


def _density(material: str) -> float:
    return float(table("materials").find(material).values["density"])


def _ring(outer: float, inner: float, length: float, density: float) -> float:
    return pi / 4 * (outer**2 - inner**2) * length * density * 1e-9


def parts(spec: Spec, shop: Workshop, system: str = "metric") -> list[Part]:
    """Bill of materials of the mixer's own parts and of what is bought for them.

    Parameters
    ----------
    spec : Spec
    shop : Workshop
    system : str
        Whose keys and stock: ``"metric"`` or ``"inch"``.

    Returns
    -------
    list of Part
    """
    say = lengths(system)
    sizes = stock_sizes(system)
    found: list[Part] = []
    for number in (1, 2):
        one = shaft_work(spec, number, system)
        largest = max(size for _, _, size in one.segments)
        # a press fit stands above the nominal size, so a bar of just that size is too thin
        bar = turning.bar_for(largest, sizes)
        of = (
            f"round {say(bar, 4)}" if np.isfinite(bar) else f"round, at least {say(largest + 1, 4)}"
        )
        found.append(
            Part(
                f"shaft {number}",
                1,
                one.material,
                f"{of} x {say(one.length, 4)}",
                one.mass,
                (f"{one.material}, {of}", one.length),
            )
        )
    for name in gears(spec):
        gear = gear_blank(spec, name, shop, system)
        of = f"round, at least {say(np.ceil(gear.outside[0] + 2), 4)}"
        found.append(
            Part(
                gear.words,
                1,
                gear.material,
                f"{of} x {say(gear.width, 4)}",
                gear.mass,
                (f"{gear.material}, {of}", gear.width),
            )
        )
    clutch = spec.clutch
    bore = getattr(spec, f"shaft_{clutch.shaft}").diameter
    of = f"round, at least {say(np.ceil(clutch.outer_diameter + 2), 4)}"
    found.append(
        Part(
            "clutch sleeve",
            1,
            clutch.material,
            f"{of} x {say(clutch.sleeve_length, 4)}",
            _ring(clutch.outer_diameter, bore, clutch.sleeve_length, _density(clutch.material)),
            (f"{clutch.material}, {of}", clutch.sleeve_length),
        )
    )
    found += _plates(spec, shop, say) + _bushes(spec, say) + _trough_parts(spec, say)
    return found + _bought(spec, system, say)


def _plates(spec: Spec, shop: Workshop, say: Callable[..., str]) -> list[Part]:
    need = flatpattern.sheet_needed(spec, shop)
    thick = (
        f"{say(need.thickness, 4)} plate"
        if np.isfinite(need.thickness)
        else "no plate in stock is thick enough"
    )
    return [
        Part(
            f"plate at the {which}",
            1,
            one.material,
            f"{thick}, {say(one.width)} x {say(one.height)} finished",
            one.mass,
        )
        for which in PLATES
        for one in [plate(spec, which)]
    ]


def _bushes(spec: Spec, say: Callable[..., str]) -> list[Part]:
    on = getattr(spec, f"shaft_{spec.clutch.shaft}").diameter
    one = spec.bearings
    rows = [
        ("bush of a free gear", 2, on, one.free_gear_length),
        ("idler's bush", 1, spec.housing.idler_pin, one.idler_length),
    ]
    if one.kind == "plain bush":
        rows += [
            (f"bush of shaft {n}", 3, getattr(spec, f"shaft_{n}").diameter, one.bush_length)
            for n in (1, 2)
        ]
    found = []
    for name, count, bore, length in rows:
        outside = bush_sizes(spec, bore, spec.housing.hub_diameter).outside
        of = f"round, at least {say(np.ceil(outside + 1), 4)}"
        found.append(
            Part(
                name,
                count,
                one.bush_material,
                f"{of} x {say(length, 4)}",
                _ring(outside, bore, length, 8800.0),
                (f"{one.bush_material}, {of}", length),
            )
        )
    pin = spec.housing.idler_pin
    length = spec.housing.plate_spacing + 2 * spec.housing.plate_thickness
    steel = spec.shaft_1.material
    found.append(
        Part(
            "idler's pin",
            1,
            steel,
            f"round {say(pin, 4)} x {say(length, 4)}",
            _ring(pin, 0, length, _density(steel)),
            (f"{steel}, round {say(pin, 4)}", length),
        )
    )
    return found


def _trough_parts(spec: Spec, say: Callable[..., str]) -> list[Part]:
    blade, sleeve = spec.paddles, spec.sleeve
    density = _density(blade.material)
    reach = blade.tip_radius - blade.root_radius
    radii = np.linspace(blade.root_radius, blade.tip_radius, 101)
    metal = np.multiply(*section_at(blade, radii))
    found = [
        Part(
            "paddle",
            2 * blade.count,
            blade.material,
            f"flat {say(blade.width)} x {say(blade.thickness)}, {say(reach, 4)} long, stem {say(blade.stem_width)} x {say(blade.stem_thickness)} at the sleeve, bare {say(blade.stem_height, 4)} from it",
            float(metal.mean()) * reach * density * 1e-9,
        )
    ]
    if sleeve.kind != "none":
        start, end = trough_ends(spec)
        outer = 2 * blade.root_radius
        found += [
            Part(
                "sleeve",
                2,
                sleeve.material,
                f"tube {say(outer)} x {say(sleeve.wall)}, {say(end - start, 4)} long",
                _ring(outer, outer - 2 * sleeve.wall, end - start, _density(sleeve.material)),
                (f"{sleeve.material}, tube {say(outer)} x {say(sleeve.wall)}", end - start),
            ),
            Part(
                "sleeve pin",
                2 * sleeve.pins,
                sleeve.pin_material,
                f"round {say(sleeve.pin_diameter, 4)} x {say(outer, 4)}",
                _ring(sleeve.pin_diameter, 0, outer, _density(sleeve.pin_material)),
                (f"{sleeve.pin_material}, round {say(sleeve.pin_diameter, 4)}", outer),
            ),
        ]
    return found


def _bought(spec: Spec, system: str, say: Callable[..., str]) -> list[Part]:
    found = [
        Part(
            "reduction box with motor",
            1,
            "bought",
            f"{show(spec.motor.rated_power, 'kW', system)}, {spec.reducer.ratio:g} : 1",
            spec.reducer.mass,
        )
    ]
    for number in (1, 2):
        one = shaft_work(spec, number, system)
        if one.bearing:
            row = one.bearing
            mass = 0.6 * _ring(row["outer"], row["bore"], row["width"], 7850.0)
            found.append(
                Part(
                    f"bearing of shaft {number}",
                    3,
                    "bought",
                    f"{say(row['bore'])} x {say(row['outer'])} x {say(row['width'])}, sealed both sides",
                    mass,
                )
            )
    key = key_for(getattr(spec, f"shaft_{spec.clutch.shaft}").diameter, system)
    long = spec.hubs.gear_length
    found += [
        Part(
            "key",
            4,
            spec.hubs.key_material,
            f"{say(key['width'])} x {say(key['height'])}, {say(long, 4)} and longer",
            key["width"] * key["height"] * long * 7.85e-6,
        ),
        Part(
            "tie bolt with nut",
            4,
            "bought",
            f"{spec.housing.tie_bolt} x {say(spec.housing.plate_spacing + 2 * spec.housing.plate_thickness + 20, 4)}, with distance tubes",
            0.3,
        ),
        Part("dowel", 2, "bought", f"{say(spec.housing.dowel, 4)} m6", 0.05),
        Part("seal", 4, "bought", spec.bearings.seal, 0.05),
    ]
    if spec.fuse.kind != "none":
        wide = max(spec.shaft_1.diameter, spec.reducer.output_bore)
        across = (
            2 * spec.fuse.pin_radius + 4 * spec.fuse.pin_diameter
            if spec.fuse.kind == "shear pin"
            else 2.5 * wide
        )
        found.append(
            Part(
                "flange of the fuse",
                2,
                spec.shaft_1.material,
                f"about {say(across, 3)} across: one held by the box's hollow shaft, one keyed on shaft 1",
                2 * _ring(across, wide, wide / 4, 7850.0),
            )
        )
    if spec.fuse.kind == "shear pin":
        found.append(
            Part(
                "shear pin",
                6 * spec.fuse.pins,
                spec.fuse.pin_material,
                f"neck {say(spec.fuse.pin_diameter, 4)}; one in, five in the drawer, all from one bar",
                0.02,
            )
        )
    return found


def bars(spec: Spec, shop: Workshop, system: str = "metric") -> list[turning.Bar]:
    """Bars to buy with what is sawn from each; see :func:`mixerkit.shop.turning.cut_list`."""
    stock = shop.stock
    pieces = [
        (f"{one.name} {k + 1}" if one.count > 1 else one.name, one.cut[0], one.cut[1], 4.0)
        for one in parts(spec, shop, system)
        if one.cut
        for k in range(one.count)
    ]
    return turning.cut_list(pieces, stock.bar_length, stock.saw_cut)


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
    say = lengths(system)
    on = spec.clutch.shaft
    diameter = getattr(spec, f"shaft_{on}").diameter
    bush = fits.fit(min(diameter, 250.0), "H8/f7")
    slide = fits.fit(min(diameter, 250.0), "H7/f7")
    pin = fits.fit(min(spec.housing.idler_pin, 250.0), "H8/f7")
    end_play = 0.3
    # a key between shaft 1 and the hollow end would carry the torque past the fuse
    held = (
        "with its key"
        if spec.fuse.kind == "none"
        else "without a key between them: it turns free in the hollow end; one flange held by the hollow shaft, the other "
        "keyed on shaft 1, and the fuse alone joins both"
    )

    def gap(one: fits.Fit) -> str:
        return f"{say(one.tightest, 2)} to {say(one.loosest, 2)}"

    return [
        (
            "press and ream the bushes of free gears and idler",
            gap(bush),
            f"each turns on its seat by its own weight, without rocking; idler {gap(pin)}",
        ),
        (
            f"shaft {on}: free gear, clutch sleeve on its feather key, free gear",
            f"sleeve {gap(slide)}",
            "the sleeve slides the whole way with one finger; both gears spin free in neutral",
        ),
        (
            f"shaft {3 - on}: keys and fixed gears",
            "none: pushed on by hand with oil",
            "faces in line with their mates within half a millimetre",
        ),
        ("idler on its pin between thrust washers", f"end play {say(end_play, 4)}", "spins free"),
        (
            "both shafts and idler into the plate at the reducer, then the second plate over all on its dowels",
            "dowels: hand pressure",
            "every shaft turns by hand before and after the bolts are drawn up",
        ),
        (
            "feel the backlash of every mesh with a feeler or paper",
            f"about {say(2 * spec.paths.direct.thinning, 3)}",
            "the same all round: if not, a bore or a blank runs out",
        ),
        (
            "shift the clutch through its three positions",
            "neutral gap felt on both sides",
            "in neutral shaft 2 stands while shaft 1 is turned; never both gears held",
        ),
        (
            "trough, seals, sleeves with paddles, pins",
            f"paddle to wall {say(spec.trough.wall_clearance, 4)}",
            "turn by hand through two whole turns in both clutch positions: nothing touches",
        ),
        (
            "far bearings, then align them until both shafts turn as easily as before",
            "none",
            "slacken, turn, tighten in turn",
        ),
        (
            f"box on shaft 1 {held}, torque arm with rubber",
            f"arm free by {say(1.0)}",
            "the box is carried by the shaft alone, the arm only keeps it from turning",
        ),
        (
            "guards and lid with its interlock, then wiring by a licensed person",
            "see the guard list",
            "pull the plug and try every guard and switch before clay goes in",
        ),
    ]
