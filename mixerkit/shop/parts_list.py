"""Every part of the machine: what is cut from which bar, and what is bought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from math import inf

import numpy as np

from mixerkit.parts import stack
from mixerkit.parts.along import NAMES
from mixerkit.parts.bush_walls import bush_sizes
from mixerkit.parts.zones import CLUTCH, free_gear_bores, seat
from mixerkit.shop import flatpattern, turning
from mixerkit.shop.blanks import gear_blank, gears
from mixerkit.shop.bought_parts import bought, fuse_parts, held_along
from mixerkit.shop.holes import PLATES, Plate, plate
from mixerkit.shop.idler_pin import idler_pin
from mixerkit.shop.part import FACING, Part, at_least, density, ring, sawn
from mixerkit.shop.retainer_parts import retainer_parts
from mixerkit.shop.shaftwork import shaft_bar, shaft_work, thickest
from mixerkit.shop.shelf import Shelf, WantedBar, allocate, gear_count, offcut_for
from mixerkit.shop.trough_parts import trough_parts
from mixerkit.shop.welding import left_for_truing
from mixerkit.shop.workshop import Stock, Workshop
from mixerkit.spec import Spec
from mixerkit.units import lengths

__all__ = ["Part", "bars", "parts"]


def parts(
    spec: Spec,
    shop: Workshop | None,
    system: str = "metric",
    laid: Sequence[stack.Stack] = (),
) -> list[Part]:
    """Bill of materials of the mixer's own parts and of what is bought for them.

    Parameters
    ----------
    spec : Spec
    shop : Workshop, or None
    system : str
        Whose keys and stock: ``"metric"`` or ``"inch"``.
    laid : sequence of Stack, optional
        Both shafts laid out, where they are already.

    Returns
    -------
    list of Part
    """
    say, laid = lengths(system), laid or [stack.laid(spec, number) for number in (1, 2)]
    shelf = shop.shelf if shop else Shelf.from_table({})
    listed = [
        *_shafts(spec, system, say, laid),
        *_gears(spec, shop, shelf, system, say),
        _clutch_sleeve(spec, say),
        *_plates(spec, shop, shelf, say),
        *retainer_parts(spec, say),
        *_bushes(spec, say),
        _idler_pin(spec, system, say),
        *trough_parts(spec, say),
        *bought(spec, shelf, system, say, laid),
        *fuse_parts(spec, system, say),
        *held_along(spec, say, laid),
    ]
    return _from_shelf(listed, shelf, shop.stock.saw_cut if shop else 0.0, system)


def _from_shelf(listed: list[Part], shelf: Shelf, saw: float, system: str) -> list[Part]:
    """Take what is sawn off round bars from the shelf as far as it goes, and say so."""
    if not shelf.bars:
        return listed
    wanted = [
        WantedBar(one.name, one.least, one.cut[1] + FACING, one.material)
        for one in listed
        if one.cut and one.least
        for _ in range(one.count)
    ]
    taken = iter(allocate(wanted, shelf.bars, saw))
    found = []
    for one in listed:
        if not (one.cut and one.least):
            found.append(one)
            continue
        bars = tuple(next(taken) for _ in range(one.count))
        there = dict.fromkeys(bar.words(system) for bar in bars if bar)
        share = "" if all(bars) else f"{sum(map(bool, bars))} of {one.count} "
        said = f"{share}from the shelf: {'; '.join(there)}"
        size = f"{one.size}; {said}" if share else f"{one.size.rpartition(' x ')[2]} long, {said}"
        found.append(replace(one, size=size if there else one.size, taken=bars))
    return found


def _shafts(
    spec: Spec, system: str, say: Callable[..., str], laid: Sequence[stack.Stack]
) -> Iterator[Part]:
    for number, row in enumerate(laid, 1):
        one, of = shaft_work(spec, number, system, row), shaft_bar(spec, number, system, row)
        least = thickest(spec, number, row) + turning.SKIN
        yield sawn(f"shaft {number}", 1, one.material, of, one.length, one.mass, say, least)


def _gears(
    spec: Spec, shop: Workshop | None, shelf: Shelf, system: str, say: Callable[..., str]
) -> Iterator[Part]:
    used = Counter[tuple[float, ...]]()
    for name in gears(spec):
        gear = gear_blank(spec, name, shop, system)
        like = (gear.module, gear.count, gear.width, gear.bore[0])
        # dogs are of one piece with their gear, and a shifted gear is no stock gear
        plain = not gear.dogs and not gear.shift
        if plain and gear_count(shelf, *like, gear.material) > used[like]:
            used[like] += 1
            words = f"from the shelf: {gear.count} teeth, to bore to {say(gear.bore[0], 4)} and face to {say(gear.width, 4)}"
            yield Part(gear.words, 1, gear.material, words, gear.mass)
            continue
        least = np.ceil(gear.outside[0] + 2)
        of = at_least(least, say)
        yield sawn(gear.words, 1, gear.material, of, gear.length, gear.mass, say, least)


def _clutch_sleeve(spec: Spec, say: Callable[..., str]) -> Part:
    clutch = spec.clutch
    outer, length = clutch.outer_diameter, clutch.sleeve_length
    bore = seat(spec, clutch.shaft, CLUTCH)
    mass = ring(outer, bore, length, density(clutch.material))
    least = np.ceil(outer + 2)
    of = at_least(least, say)
    return sawn("clutch sleeve", 1, clutch.material, of, length, mass, say, least)


def _plates(spec: Spec, shop: Workshop | None, shelf: Shelf, say: Callable[..., str]) -> list[Part]:
    """Both gear plates, and the wall beyond the trough."""
    rows = [plate(spec, which) for which in PLATES]
    need = flatpattern.sheet_needed(spec, shop, rows[0])
    thick = (
        f"{say(need.thickness, 4)} plate"
        if np.isfinite(need.thickness)
        else "no plate in stock is thick enough"
    )
    thick = _plates_from_shelf(spec, rows[0], shelf, say) or thick
    found = [
        Part(
            f"plate at the {one.which}",
            1,
            one.material,
            f"{thick}, {say(one.width)} x {say(one.height)} finished",
            one.mass,
        )
        for one in rows
    ]
    return [*found, _far_wall(spec, rows[-1], say)]


def _plates_from_shelf(spec: Spec, one: Plate, shelf: Shelf, say: Callable[..., str]) -> str:
    """Offcut of which there are enough for both gear plates, in words; nothing where there is none."""
    edge = 2 * flatpattern.MILLED
    thick = one.thickness + left_for_truing(spec)
    found = offcut_for(shelf, thick, one.width + edge, one.height + edge, one.material, len(PLATES))
    if found is None:
        return ""
    sizes = " x ".join(say(size, 4) for size in (found.thickness, found.length, found.width))
    return f"from the shelf: {sizes}, {found.sure}"


def _far_wall(spec: Spec, like: Plate, say: Callable[..., str]) -> Part:
    """The wall beyond the trough, as large as the plate before it."""
    frame = spec.frame
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
        mass = ring(outside, bore, length, 8800.0)
        least = np.ceil(outside + 1)
        of = at_least(least, say)
        yield sawn(name, count, one.bush_material, of, length, mass, say, least)


def _idler_pin(spec: Spec, system: str, say: Callable[..., str]) -> Part:
    pin = idler_pin(spec, system)
    mass, least = (
        ring(pin.diameter, 0, pin.length, density(pin.material)),
        pin.diameter + turning.SKIN,
    )
    return sawn("idler's pin", 1, pin.material, pin.bar, pin.length, mass, say, least)


def bars(spec: Spec, shop: Workshop | None, system: str = "metric") -> list[turning.Bar]:
    """Bars with what is sawn from each, those of the shelf first; see :func:`mixerkit.shop.turning.cut_list`.

    Without a shop file nobody knows how long bars are: then all of a kind stands as one.
    """
    stock = shop.stock if shop else Stock.from_table({})
    pieces: list[tuple[str, str, float, float]] = []
    taken_from: dict[int, turning.Bar] = {}
    for one in parts(spec, shop, system):
        if one.cut is None:
            continue
        for k in range(one.count):
            name = f"{one.name} {k + 1}" if one.count > 1 else one.name
            taken = one.taken[k] if one.taken else None
            if taken is None:
                pieces.append((name, *one.cut, FACING))
                continue
            before = taken_from[taken.number].cuts if taken.number in taken_from else ()
            taken_from[taken.number] = turning.Bar(
                f"from the shelf: {taken.words(system)}",
                (*before, (name, one.cut[1] + FACING)),
                taken.left,
            )
    shelf = [taken_from[number] for number in sorted(taken_from)]
    return shelf + turning.cut_list(pieces, stock.bar_length if shop else inf, stock.saw_cut)
