"""Parts that come from a dealer or the shelf: box, motor, bearings, keys, bolts, seals, rings, what drives the box."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from math import isclose

from mixerkit.parts.along import NAMES
from mixerkit.parts.bodies import bodies
from mixerkit.parts.flanges import (
    flange_across,
    flange_thickness,
    hub_across,
    stub_keyway,
    stub_wall,
)
from mixerkit.parts.idler import WASHER
from mixerkit.parts.keyed import key_for
from mixerkit.parts.keyways import keyways
from mixerkit.parts.plate_feet import FOOT_BOLTS
from mixerkit.parts.stack import Stack
from mixerkit.parts.zones import BOX, INSERT, bearing_on, seat
from mixerkit.shop.part import Part, ring
from mixerkit.shop.shelf import Shelf, bearing_count
from mixerkit.spec import Spec
from mixerkit.units import InputError, show

__all__ = ["bought", "fuse_parts", "held_along"]


def bought(
    spec: Spec, shelf: Shelf, system: str, say: Callable[..., str], rows: Sequence[Stack]
) -> Iterator[Part]:
    """What comes from a dealer unless it is on the shelf, and the keys; ``rows`` are both shafts laid out."""
    drive = f"{show(spec.motor.rated_power, 'kW', system)}, {spec.reducer.ratio:g} : 1"
    there = _drive_on_shelf(spec, shelf)
    yield Part("reduction box with motor", 1, "bought", drive + there, spec.reducer.mass)
    yield from _between(spec, say)
    used = Counter[tuple[float, ...]]()
    for number in (1, 2):
        found = [one for name in NAMES if (one := bearing_on(spec, number, name))]
        for row in {str(one["name"]): one for one in found}.values():
            of, housed = ("insert ", ", in its housing") if row["series"] == INSERT else ("", "")
            size = " x ".join(say(row[one]) for one in ("bore", "outer", "width"))
            mass = 0.6 * ring(row["outer"], row["bore"], row["width"], 7850.0)
            words, count = f"{size}, sealed both sides{housed}", found.count(row)
            if not housed:
                sizes = tuple(float(row[one]) for one in ("bore", "outer", "width"))
                here = min(bearing_count(shelf, *sizes) - used[sizes], count)
                used[sizes] += here
                words += f"; {here} of {count} from the shelf" if here else ""
            yield Part(f"{of}bearing of shaft {number}", count, "bought", words, mass)
    yield from _keys(spec, system, say, rows)
    reach = say(spec.housing.plate_spacing + 2 * spec.housing.plate_thickness + 20, 4)
    bolt = f"{spec.housing.tie_bolt} x {reach}, with tubes"
    yield Part("tie bolt with nut", 4, "bought", bolt, 0.3)
    feet = f"{spec.housing.tie_bolt} of class {spec.frame.bolt_class}, {FOOT_BOLTS} through the feet of each plate and of the far wall"
    yield Part("bolt of the feet with nut", 3 * FOOT_BOLTS, "bought", feet, 0.1)
    pinned = f"{say(spec.housing.dowel, 4)} m6 x {say(spec.housing.plate_thickness + 2 * spec.housing.dowel, 4)}"
    yield Part("dowel", 4, "bought", pinned, 0.05)
    yield Part("seal", 4, "bought", spec.bearings.seal, 0.05)


def _keys(
    spec: Spec, system: str, say: Callable[..., str], rows: Sequence[Stack]
) -> Iterator[Part]:
    """Keys of both shafts, each the one of its keyway, as long as that, and that of the fuse's stub."""
    found = Counter(
        (one.key["width"], one.key["height"], round(one.end - one.start, 3))
        for number in (1, 2)
        for one in keyways(spec, rows[number - 1], number, system)
    )
    if stub := _key_of_stub(spec, system):
        found[stub] += 1
    for (wide, high, long), count in sorted(found.items()):
        size, mass = f"{say(wide)} x {say(high)}, {say(long, 4)} long", wide * high * long * 7.85e-6
        yield Part("key", count, spec.hubs.key_material, size, mass)


def _drive_on_shelf(spec: Spec, shelf: Shelf) -> str:
    """Which of motor and box are on the shelf, as they are drawn."""
    motor, box = spec.motor, spec.reducer
    motor_there = any(
        one.kind == motor.kind
        and one.poles == motor.poles
        and isclose(one.rated_power, motor.rated_power, rel_tol=0.02)
        and isclose(one.rated_speed, motor.rated_speed, rel_tol=0.02)
        and isclose(one.shaft_end, motor.shaft_end, abs_tol=0.05)
        for one in shelf.motors
    )
    box_there = any(
        one.kind == box.kind
        and isclose(one.ratio, box.ratio, rel_tol=0.01)
        and one.rated_torque >= box.rated_torque * 0.999
        and isclose(one.output_bore, box.output_bore, abs_tol=0.05)
        for one in shelf.boxes
    )
    there = [what for what, here in (("motor", motor_there), ("box", box_there)) if here]
    return f"; {' and '.join(there)} from the shelf" if there else ""


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


def _key_of_stub(spec: Spec, system: str) -> tuple[float, float, float] | None:
    """Width, height and length in mm of the key between the stub of the fuse's flange and the hollow shaft, if any."""
    if spec.fuse.kind == "none" or stub_wall(spec) <= 0:
        return None
    try:
        key = key_for(spec.reducer.output_bore, system)
    except InputError:
        return None
    deep = stub_keyway(spec, key)
    high = key["height"] - key["shaft_depth"] + deep
    return (key["width"], high, min(spec.hubs.box_length, key["longest"])) if deep > 0 else None


def _keyway_of_stub(spec: Spec, system: str, say: Callable[..., str]) -> str:
    """Say the keyway of the stub, whose key is planed down to what its wall has room for."""
    found = _key_of_stub(spec, system)
    if found is None:
        return ", in whose wall no keyway finds room"
    wide, high, _ = found
    key = key_for(spec.reducer.output_bore, system)
    deep = stub_keyway(spec, key)
    planed = (
        f", its key planed from {say(key['height'])} to {say(high)}" if high < key["height"] else ""
    )
    return f", keyway {say(wide)} wide and {say(deep)} deep{planed}"


def fuse_parts(spec: Spec, system: str, say: Callable[..., str]) -> Iterator[Part]:
    """Flanges of the fuse, and its pins with some to spare."""
    fuse = spec.fuse
    if fuse.kind == "none":
        return
    pinned = fuse.kind == "shear pin"
    across, thick, size = flange_across(spec), flange_thickness(spec), seat(spec, 1, BOX)
    hub, bore, long = hub_across(spec), spec.reducer.output_bore, spec.hubs.box_length
    yield Part(
        "flange of the fuse on shaft 1",
        1,
        spec.shaft_1.material,
        f"about {say(across, 3)} across, bored {say(size)}, keyed; hub {say(hub, 3)} outside",
        ring(across, hub, thick, 7850.0) + ring(hub, size, spec.hubs.box_length, 7850.0),
    )
    yield Part(
        "flange of the fuse on the hollow shaft",
        1,
        spec.shaft_1.material,
        f"about {say(across, 3)} across, one piece with a stub {say(bore)} outside, {say(long, 4)} long, that fills the hollow "
        f"shaft as measured{_keyway_of_stub(spec, system, say)}; bored {say(size)}, free on shaft 1",
        ring(across, size, thick, 7850.0) + ring(bore, size, long, 7850.0),
    )
    if pinned:
        yield Part(
            "shear pin",
            6 * fuse.pins,
            fuse.pin_material,
            f"neck {say(fuse.pin_diameter, 4)}; one in, five in the drawer, all from one bar: starts tire them",
            0.02,
        )


def held_along(spec: Spec, say: Callable[..., str], laid: Sequence[Stack]) -> Iterator[Part]:
    """Spacers, rings and washers that hold things along the shafts and the idler along its pin."""
    rings, spacers = Counter[tuple[float, float]](), Counter[tuple[float, float, float]]()
    pin = spec.housing.idler_pin
    washers = Counter({(pin + 2 * spec.bearings.bush_wall, pin): 2})
    supports = Counter[tuple[float, float, float]]()
    for one in bodies(spec, laid):
        long = round(one.end - one.start, 3)
        if one.name.startswith("spacer"):
            spacers[one.outer, one.inner, long] += 1
        elif one.name.startswith("ring"):
            rings[one.inner, long] += 1
        elif one.name.startswith("support washer"):
            supports[one.outer, one.inner, long] += 1
        elif one.name.startswith("washer"):
            washers[one.outer, one.inner] += 1
    for (outer, inner, long), count in sorted(spacers.items()):
        tube = f"tube {say(outer, 3)} x {say((outer - inner) / 2, 3)}"
        faced, cut = f"{tube}, faced to {say(long, 4)}", (f"steel S235JR, {tube}", long)
        yield Part("spacer", count, "steel S235JR", faced, ring(outer, inner, long, 7850.0), cut)
    for (groove, thick), count in sorted(rings.items()):
        size = f"groove {say(groove, 4)}, {say(thick, 3)} thick"
        yield Part("retaining ring", count, "bought", size, 0.01)
    for (outer, inner), count in sorted(washers.items()):
        size = f"sheet {say(WASHER)}, {say(outer, 4)} outside, {say(inner, 4)} inside"
        mass = ring(outer, inner, WASHER, 8800.0)
        yield Part("thrust washer", count, spec.bearings.bush_material, size, mass)
    for (outer, inner, thick), count in sorted(supports.items()):
        size = (
            f"DIN 988 S for {say(inner, 4)}, {say(thick)} thick, {say(outer, 4)} outside at least"
        )
        yield Part("support washer", count, "bought", size, ring(outer, inner, thick, 7850.0))
