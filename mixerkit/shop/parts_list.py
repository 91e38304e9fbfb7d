"""Every part of the machine: what is cut from which bar, and what is bought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator

import numpy as np

from mixerkit.parts.along import NAMES
from mixerkit.parts.bodies import bodies
from mixerkit.parts.bush_walls import bush_sizes
from mixerkit.parts.flanges import flange_across, flange_thickness, through_flanges
from mixerkit.parts.idler import WASHER
from mixerkit.parts.keys import key_for
from mixerkit.parts.shaft_checks import stock_sizes
from mixerkit.parts.zones import CLUTCH, INSERT, bearing_on, free_gear_bores, seat
from mixerkit.shop import flatpattern, turning
from mixerkit.shop.blanks import gear_blank, gears
from mixerkit.shop.holes import PLATES, plate
from mixerkit.shop.parts import Part, at_least, density, ring_mass, sawn
from mixerkit.shop.retainer_parts import retainer_parts
from mixerkit.shop.shaftwork import shaft_work
from mixerkit.shop.trough_parts import trough_parts
from mixerkit.shop.workshop import Workshop
from mixerkit.spec import Spec
from mixerkit.units import lengths, show

__all__ = ["Part", "bars", "parts"]


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
    return [
        *_shafts(spec, system, say),
        *_gears(spec, shop, system, say),
        _clutch_sleeve(spec, say),
        *_plates(spec, shop, say),
        _far_wall(spec, say),
        *retainer_parts(spec, say),
        *_bushes(spec, say),
        _idler_pin(spec, say),
        *trough_parts(spec, say),
        *_bought(spec, system, say),
        *_fuse_parts(spec, say),
        *_along(spec, say),
    ]


def _shafts(spec: Spec, system: str, say: Callable[..., str]) -> Iterator[Part]:
    for number in (1, 2):
        one = shaft_work(spec, number, system)
        largest = max(size for _, _, size in one.segments)
        # a press fit stands above the nominal size, so a bar of just that size is too thin
        bar = turning.bar_for(largest, stock_sizes(system))
        of = (
            f"round {say(bar, 4)}" if np.isfinite(bar) else f"round, at least {say(largest + 1, 4)}"
        )
        yield sawn(f"shaft {number}", 1, one.material, of, one.length, one.mass, say)


def _gears(spec: Spec, shop: Workshop, system: str, say: Callable[..., str]) -> Iterator[Part]:
    for name in gears(spec):
        gear = gear_blank(spec, name, shop, system)
        of = at_least(gear.outside[0] + 2, say)
        yield sawn(gear.words, 1, gear.material, of, gear.length, gear.mass, say)


def _clutch_sleeve(spec: Spec, say: Callable[..., str]) -> Part:
    clutch = spec.clutch
    outer, length = clutch.outer_diameter, clutch.sleeve_length
    bore = seat(spec, clutch.shaft, CLUTCH)
    mass = ring_mass(outer, bore, length, density(clutch.material))
    return sawn("clutch sleeve", 1, clutch.material, at_least(outer + 2, say), length, mass, say)


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


def _far_wall(spec: Spec, say: Callable[..., str]) -> Part:
    """The wall beyond the trough, as large as the plate before it."""
    frame, like = spec.frame, plate(spec, "trough")
    heavier = frame.wall_thickness / like.thickness * density(frame.wall_material)
    bosses = f", bosses {say(frame.boss_length)} long" if frame.boss_length > 0 else ""
    return Part(
        "far wall",
        1,
        frame.wall_material,
        f"{say(frame.wall_thickness)} plate, {say(like.width)} x {say(like.height)} finished{bosses}",
        like.mass * heavier / density(like.material),
    )


def _bushes(spec: Spec, say: Callable[..., str]) -> Iterator[Part]:
    one, free = spec.bearings, free_gear_bores(spec)
    rows = [
        *(
            (f"bush of a free gear{of}", count, bore, one.free_gear_length)
            for of, count, bore in free
        ),
        ("idler's bush", 1, spec.housing.idler_pin, one.idler_length),
    ]
    if one.kind == "plain bush":
        rows += [
            (f"bush of shaft {n}", count, bore, one.bush_length)
            for n in (1, 2)
            for bore, count in sorted(Counter(seat(spec, n, at) for at in NAMES).items())
        ]
    for name, count, bore, length in rows:
        outside = bush_sizes(spec, bore, spec.housing.hub_diameter).outside
        mass = ring_mass(outside, bore, length, 8800.0)
        yield sawn(name, count, one.bush_material, at_least(outside + 1, say), length, mass, say)


def _idler_pin(spec: Spec, say: Callable[..., str]) -> Part:
    pin, steel = spec.housing.idler_pin, spec.shaft_1.material
    length = spec.housing.plate_spacing + 2 * spec.housing.plate_thickness
    mass = ring_mass(pin, 0, length, density(steel))
    return sawn("idler's pin", 1, steel, f"round {say(pin, 4)}", length, mass, say)


def _bought(spec: Spec, system: str, say: Callable[..., str]) -> Iterator[Part]:
    """What comes from a dealer, and the keys."""
    drive = f"{show(spec.motor.rated_power, 'kW', system)}, {spec.reducer.ratio:g} : 1"
    yield Part("reduction box with motor", 1, "bought", drive, spec.reducer.mass)
    yield from _between(spec, say)
    for number in (1, 2):
        rows = [one for name in NAMES if (one := bearing_on(spec, number, name))]
        for row in {str(one["name"]): one for one in rows}.values():
            of, housed = ("insert ", ", in its housing") if row["series"] == INSERT else ("", "")
            size = " x ".join(say(row[one]) for one in ("bore", "outer", "width"))
            mass = 0.6 * ring_mass(row["outer"], row["bore"], row["width"], 7850.0)
            words, count = f"{size}, sealed both sides{housed}", rows.count(row)
            yield Part(f"{of}bearing of shaft {number}", count, "bought", words, mass)
    key, long = key_for(seat(spec, spec.clutch.shaft, CLUTCH), system), spec.hubs.gear_length
    yield Part(
        "key",
        4,
        spec.hubs.key_material,
        f"{say(key['width'])} x {say(key['height'])}, {say(long, 4)} and longer",
        key["width"] * key["height"] * long * 7.85e-6,
    )
    reach = say(spec.housing.plate_spacing + 2 * spec.housing.plate_thickness + 20, 4)
    bolt = f"{spec.housing.tie_bolt} x {reach}, with tubes"
    yield Part("tie bolt with nut", 4, "bought", bolt, 0.3)
    pinned = f"{say(spec.housing.dowel, 4)} m6 x {say(spec.housing.plate_thickness + 2 * spec.housing.dowel, 4)}"
    yield Part("dowel", 4, "bought", pinned, 0.05)
    yield Part("seal", 4, "bought", spec.bearings.seal, 0.05)


def _between(spec: Spec, say: Callable[..., str]) -> Iterator[Part]:
    """What sits between motor and box, but for a flange; its mass is in that of the box with motor."""
    one = spec.motor_drive
    if one.kind == "elastic coupling":
        yield Part("elastic coupling", 1, "bought", "by its sheet, hubs bored for both shafts", 0.0)
    if one.kind == "V-belt":
        for where, size in (("motor", one.belt.motor_pulley), ("box", one.belt.box_pulley)):
            words = f"{one.belt.section}, {one.belt.belts} grooves, datum diameter {say(size, 4)}"
            yield Part(f"pulley on the {where}", 1, "bought", words, 0.0)
        yield Part("V-belt", one.belt.belts, "bought", f"{one.belt.section}, one matched set", 0.0)
    if one.kind == "chain":
        for where, teeth in (("motor", one.chain.motor_teeth), ("box", one.chain.box_teeth)):
            words = f"{one.chain.size}, {one.chain.strands} strand(s), {teeth} teeth"
            yield Part(f"sprocket on the {where}", 1, "bought", words, 0.0)
        yield Part("roller chain", 1, "bought", f"{one.chain.size}, an even count of links", 0.0)


def _fuse_parts(spec: Spec, say: Callable[..., str]) -> Iterator[Part]:
    """Flanges of the fuse, and its pins with some to spare."""
    fuse = spec.fuse
    if fuse.kind == "none":
        return
    pinned = fuse.kind == "shear pin"
    wide, across, thick = through_flanges(spec), flange_across(spec), flange_thickness(spec)
    yield Part(
        "flange of the fuse",
        2,
        spec.shaft_1.material,
        f"about {say(across, 3)} across: one held by the box's hollow shaft, one keyed on shaft 1",
        2 * ring_mass(across, wide, thick, 7850.0),
    )
    if pinned:
        yield Part(
            "shear pin",
            6 * fuse.pins,
            fuse.pin_material,
            f"neck {say(fuse.pin_diameter, 4)}; one in, five in the drawer, all from one bar",
            0.02,
        )


def _along(spec: Spec, say: Callable[..., str]) -> Iterator[Part]:
    """Spacers and rings that hold things along the shafts."""
    rings, spacers = Counter[tuple[float, float]](), Counter[tuple[float, float, float]]()
    pin = spec.housing.idler_pin
    washers = Counter({(pin + 2 * spec.bearings.bush_wall, pin): 2})
    for one in bodies(spec):
        long = round(one.end - one.start, 3)
        if one.name.startswith("spacer"):
            spacers[one.outer, one.inner, long] += 1
        elif one.name.startswith("ring"):
            rings[one.inner, long] += 1
        elif one.name.startswith("washer"):
            washers[one.outer, one.inner] += 1
    for (outer, inner, long), count in sorted(spacers.items()):
        tube = f"tube {say(outer, 3)} x {say((outer - inner) / 2, 3)}"
        faced, cut = f"{tube}, faced to {say(long, 4)}", (f"steel S235JR, {tube}", long)
        yield Part(
            "spacer", count, "steel S235JR", faced, ring_mass(outer, inner, long, 7850.0), cut
        )
    for (groove, thick), count in sorted(rings.items()):
        size = f"groove {say(groove, 4)}, {say(thick, 3)} thick"
        yield Part("retaining ring", count, "bought", size, 0.01)
    for (outer, inner), count in sorted(washers.items()):
        size = f"sheet {say(WASHER)}, {say(outer, 4)} outside, {say(inner, 4)} inside"
        mass = ring_mass(outer, inner, WASHER, 8800.0)
        yield Part("thrust washer", count, spec.bearings.bush_material, size, mass)


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
