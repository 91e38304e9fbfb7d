"""First sizes of a draft, along the power path: proportions of a mixer that holds, at the size of this batch.

Machines alike in shape and filled with the same clay feel the same stress: torque goes with the third power of their
size, and so does the strength of their shafts. So lengths are drawn up with the centre distance, shafts and what
goes over them with the third root of the torque besides. Proportions are common practice; what they lack is found
by checking, not here.
"""

from __future__ import annotations

from math import sqrt

import numpy as np

from mixerkit.explore.draft.first_gears import APART, BATCH, distance_and_counts
from mixerkit.explore.draft.sizes import Sizes
from mixerkit.load.clay import water_for_strength
from mixerkit.shop.workshop import Workshop

__all__ = ["first_sizes"]

_BAG = (300.0, 190.0, 135.0)
"""Sides in mm of a bag of 15 kg as clay is sold, and how a bag of another mass is taken to be (common practice)."""
_LENGTH = 330.0
_PRESSED = 22.0
"""Strength in kPa of the clay, set moving, that the proportions are drawn for."""
_THINNEST = 0.85
"""Shafts are no thinner over their machine than so, however soft the clay: a box hangs on them."""


def first_sizes(
    sizes: Sizes, shop: Workshop | None, strength: float, lean: float = 1.0, wide: float = 1.0
) -> None:
    """Put down first sizes of everything but motor and box.

    Parameters
    ----------
    sizes : Sizes
        What is put down is added to it.
    shop : Workshop or None
        Gears are drawn for its cutters, where there is one.
    strength : float
        Of the clay in kPa.
    lean : float
        Share of the usual width of a paddle: less where the socket gives little.
    wide : float
        How many times the usual distance the shafts stand apart; the trough then is the shorter.
    """
    _batch(sizes)
    _water(sizes, strength)
    size = distance_and_counts(sizes, shop, wide)
    stronger = max(float(np.cbrt(strength / _PRESSED * lean) / wide), _THINNEST)
    _trough(sizes)
    _paddles(sizes, size, lean, stronger)
    _shafts(sizes, size, stronger)
    _gears(sizes, size, stronger)
    _clutch(sizes)
    _frame(sizes, size, stronger)
    _materials(sizes)
    _guards(sizes)


def _batch(sizes: Sizes) -> None:
    mass = sizes.number("batch.mass")
    alike = float(np.cbrt(mass / BATCH))
    for name, side in zip(("length", "width", "height"), _BAG, strict=True):
        sizes.put(
            f"batch.bag_{name}",
            side * alike,
            f"a bag of {mass:g} kg as such are sold: measure yours",
        )


def _water(sizes: Sizes, strength: float) -> None:
    """Water that goes with a strength that was measured, where nobody weighed it."""
    sizes.put("clay.liquid_limit", 0.45, "usual for a stoneware body: no verdict hangs on it alone")
    sizes.put("clay.plastic_limit", 0.22, "likewise")
    limits = sizes.number("clay.liquid_limit"), sizes.number("clay.plastic_limit")
    water = float(water_for_strength(strength, *limits))
    sizes.put("clay.water_content", water, "what clay of that strength holds between such limits")


def _trough(sizes: Sizes) -> None:
    mass, apart = sizes.number("batch.mass"), sizes.number("housing.centre_distance")
    length = _LENGTH * mass / BATCH * (APART / apart) ** 2
    bag = sizes.number("batch.bag_length")
    size = apart / APART
    if length < 1.1 * bag:
        sizes.put("batch.goes_in", "cut", "the trough is shorter than the bag")
    whole = {"cut": 0.5, "folded": 0.5}.get(
        str(sizes.values.get("batch.goes_in", sizes.brief.given.get("batch.goes_in"))), 1.0
    )
    sizes.put(
        "trough.length",
        max(length, 1.1 * whole * bag),
        "holds the batch, and the bag laid down in it",
        "up",
    )
    sizes.put(
        "paddles.tip_radius", 0.6 * apart, "paddles of both shafts reach into each other", "down"
    )
    sizes.put(
        "trough.wall_thickness",
        3.0 * max(size, 1.0),
        "sheet that can be welded and keeps its shape",
        "up",
    )
    sizes.put("trough.wall_clearance", 5.0, "a gap that a stone jams in seldom", "near")
    sides = sorted(sizes.number(f"batch.bag_{one}") for one in ("length", "width", "height"))
    long, wide = sizes.number("trough.length"), 2 * sizes.number("paddles.tip_radius") + apart
    sizes.put(
        "trough.opening_length",
        min(long - 20, max(1.4 * sides[1], 1.1 * sides[0])),
        "the bag passes it",
        "down",
    )
    sizes.put(
        "trough.opening_width",
        min(wide - 20, max(1.4 * sides[1], 1.1 * sides[0])),
        "the bag passes it",
        "down",
    )


def _paddles(sizes: Sizes, size: float, lean: float, stronger: float) -> None:
    tip, length = sizes.number("paddles.tip_radius"), sizes.number("trough.length")
    size = tip / 90.0
    sizes.put(
        "paddles.spacing", 60 * size, "two thirds of the tips' radius, so that rows pass each other"
    )
    spacing = sizes.number("paddles.spacing")
    count = int((length * 0.88 - spacing / 2) / spacing) + 1
    sizes.put("paddles.count", max(count, 1), "as many as the trough is long for")
    sizes.put(
        "paddles.width",
        16 * size * lean,
        "narrow, so that the clay asks no more than the drive has",
    )
    sizes.put("paddles.thickness", 12 * size * sqrt(stronger), "bears a tip that is caught")
    sizes.put(
        "paddles.stem_width", 22 * size * sqrt(stronger), "carries the blade where it is bent most"
    )
    sizes.put("paddles.stem_thickness", 20 * size * sqrt(stronger), "likewise")
    sizes.put("paddles.stem_height", 38 * size, "tapers to the blade before the tip", "down")
    sizes.put("paddles.weld_throat", 6 * size * sqrt(stronger), "all round each stem", "up")
    sizes.put("paddles.set_angle", "45 deg", "moves the clay along as well as round")
    sizes.put("paddles.phase_step", "72 deg", "one paddle after the other meets the clay")
    sizes.put(
        "sleeve.wall", 19 * size, "thick enough for welds, and what is caught there pushes less"
    )


def _shafts(sizes: Sizes, size: float, stronger: float) -> None:
    bar = 45 * size * stronger
    for number in (1, 2):
        sizes.put(
            f"shaft_{number}.diameter",
            bar,
            "bar that can be had, for torsion, bending and fatigue",
            "up",
        )
        sizes.put(f"shaft_{number}.keyway", True, "box or fuse, clutch and gears are keyed")
    bar = sizes.number("shaft_1.diameter")
    sizes.put(
        "sleeve.pin_diameter", 0.28 * bar, "under 0.3 of the shaft, which a hole weakens", "down"
    )
    sizes.put("sleeve.pins", 2, "at the driving end of each sleeve")
    sizes.put("housing.hub_diameter", 1.55 * bar, "metal over the keyways")
    sizes.put("housing.idler_pin", 0.8 * bar, "carries the idler in a jam", "up")
    if sizes.brief.system == "inch":
        sizes.put(
            "bearings.kind",
            "plain bush",
            "on inch bar, of which bearings of millimetres are turned down",
        )
        sizes.put("bearings.bush_length", 0.9 * bar, "as long as the shaft is thick", "up")
    else:
        sizes.put("bearings.kind", "rolling", "ball bearings can be had for this bar")
        sizes.put("bearings.series", "64", "a jam dents the tracks of lighter ones")
    sizes.put("bearings.bush_wall", 0.11 * bar, "can be pressed in and reamed", "up")
    sizes.put("hubs.box_length", 1.55 * bar, "as much of the box's hollow shaft as a key fills")


def _gears(sizes: Sizes, size: float, stronger: float) -> None:
    for name in ("direct", "idler"):
        sizes.put(
            f"paths.{name}.face_width", 40 * size * stronger, "teeth strong enough in a jam", "up"
        )
        sizes.put(
            f"paths.{name}.flank_roughness",
            "10 um",
            "a light last cut, held against a roughness plate",
        )
    sizes.put("housing.lubricant_viscosity", "460 mm^2/s", "grease for open gears")


def _clutch(sizes: Sizes) -> None:
    bar, wall = sizes.number("shaft_1.diameter"), sizes.number("bearings.bush_wall")
    inner = max(1.3 * bar + 1.5, bar + 2 * wall + 5)
    sizes.put("clutch.dogs", 3, "odd counts can be milled straight across")
    sizes.put("clutch.inner_diameter", inner, "outside of the free gears' bushes", "up")
    inner = sizes.number("clutch.inner_diameter")
    sizes.put("clutch.outer_diameter", inner + 0.66 * bar, "dogs broad enough for the jam", "up")
    sizes.put("clutch.dog_height", 0.22 * bar, "a good hold before the dogs bear", "up")
    height = sizes.number("clutch.dog_height")
    sizes.put("clutch.overlap", 0.8 * height, "most of the dogs' height", "down")
    sizes.put(
        "clutch.sleeve_length", 2 * height + 0.7 * bar, "room for fork groove and feather key", "up"
    )
    sizes.put("clutch.detent_force", "70 N", "a ball in a groove keeps neutral")


def _frame(sizes: Sizes, size: float, stronger: float) -> None:
    bar = sizes.number("shaft_1.diameter")
    sizes.put("housing.plate_thickness", 0.67 * bar, "as thick as the bearings are wide", "up")
    sizes.put("frame.wall_thickness", 0.67 * bar, "as thick as the bearings are wide", "up")
    sizes.put("frame.ribs", 3, "keep the trough's sides from bending")
    apart = sizes.number("housing.centre_distance")
    sizes.put("housing.wall_distance", 1.15 * apart, "the idler stays inside the case", "up")
    sizes.put("frame.arm_held_by", "frame", "the torque arm pulls on a rail of the machine itself")
    sizes.put("frame.shaft_height", 750.0, "a bag is heaved to waist height")
    sizes.put(
        "frame.edge_height",
        750 + 2.2 * sizes.number("paddles.tip_radius"),
        "of the trough over the shafts",
    )
    sizes.put("frame.foot_length", 800 * max(size, 0.8), "reaches under the box")
    sizes.put("frame.foot_width", 650 * max(size, 0.8), "stands while a bag is laid on the edge")
    sizes.put("reducer.torque_arm", 250 * size, "the longer, the less it pulls")
    sizes.put("fuse.kind", "shear pin", "a pin for pence gives before anything dear")
    sizes.put("fuse.pin_radius", 0.4 * apart, "outside of hub and hollow shaft, clear of shaft 2")
    sizes.put("fuse.pin_diameter", 5.6 * size * stronger**1.5, "holds at every start")
    sizes.put(
        "fuse.pin_material", "steel 1018 cold drawn", "yields late, so that starts do not bend it"
    )
    sizes.put(
        "fuse.pin_condition",
        "tested",
        "one pin of the bar is broken on purpose: nothing else bounds a jam so well",
    )
    sizes.put("fuse.scatter", 0.05, "of pins cut from that one bar")


def _materials(sizes: Sizes) -> None:
    strong, clean = "steel 42CrMo4 quenched and tempered", "stainless 1.4462 annealed"
    for name in ("shaft_1", "shaft_2", "paths.direct", "paths.idler"):
        sizes.put(f"{name}.material", strong, "small parts for a large jam")
    sizes.put("paths.idler.idler_material", strong, "as its mates")
    sizes.put("trough.material", clean, "does not rust or pit in clay")
    for name, why in (
        ("paddles.material", "strong, and leaves no rust in the clay"),
        ("sleeve.material", "as the paddles that are welded to it"),
        ("sleeve.pin_material", "their ends are bare in the clay"),
    ):
        sizes.put(name, clean, why)
    sizes.put("contact.lid_material", "stainless 1.4301 annealed", "clay splashes on it")
    sizes.put("contact.bolt_material", "stainless 1.4404 annealed", "clay splashes on them")
    sizes.put("contact.paddle_filler", "22 9 3 N L", "for duplex paddles on a duplex sleeve")
    sizes.put("contact.trough_filler", "22 9 3 N L", "for a trough of duplex sheet")


def _guards(sizes: Sizes) -> None:
    sizes.put(
        "guard.lid", "interlocked and locked until rest", "no hand reaches a paddle that turns"
    )
    sizes.put("guard.lid_distance", 250.0, "a bag lies in between")
    sizes.put("guard.opening", "12 mm", "of the mesh round gears and shafts")
    sizes.put("guard.opening_distance", 100.0, "from that mesh to what moves")
    sizes.put("batch.reversals", 20.0, "as counted by others; count yours")
