"""The sheets that are lists: order of work, what to saw, what to buy, how it goes together."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

import numpy as np

from mixerkit.shop import flatpattern, parts_list, turning, welding
from mixerkit.shop.assembly import assembly_order
from mixerkit.shop.part import Part
from mixerkit.shop.workshop import Workshop
from mixerkit.show.sheet import Sheet, Words
from mixerkit.spec import Spec
from mixerkit.units import show

__all__ = ["assembly", "bills", "cut_list", "order"]

_ROWS = 24
"""Parts on one side of paper, whose words may take two lines each."""


def order(spec: Spec, shop: Workshop | None, words: Words) -> Sheet:
    """Write the order of work, and for whose shop the sheets are."""
    rows = tuple(
        (str(k), what, why, "")
        for k, (what, why) in enumerate(welding.order_of_work(spec, words.system), 1)
    )
    return Sheet(
        "Order of work",
        "weld first, let it move, then machine all from one datum",
        "",
        (),
        (("Step by step", ("", "What", "Why", "Done"), rows),),
        (),
        (
            f"Paddle stems: fillet all round, throat {words.size(spec.paddles.weld_throat, 3)}, leg {words.size(welding.stem_leg(spec), 2)}.",
            "Weld with the fume drawn away, stainless above all; earth clamp close by, never through a bearing; look for cracks when cold.",
            f"These sheets are for {shop.name}."
            if shop
            else "No shop file: cutters, dividing plates, drills, machines and stock are not held against yours.",
        ),
    )


def cut_list(spec: Spec, shop: Workshop | None, words: Words) -> Sheet:
    """Write what to saw off which bar."""
    rows = tuple(
        (
            bar.of,
            ", ".join(f"{name} {words.size(length, 4)}" for name, length in bar.cuts),
            _left(bar, words),
            "",
        )
        for bar in parts_list.bars(spec, shop, words.system)
    )
    bought = (
        f"from bars of {words.size(shop.stock.bar_length)}, {words.size(shop.stock.saw_cut)} lost to each cut"
        if shop
        else "no shop file says how long bars are; the saw's cuts come on top"
    )
    need = flatpattern.sheet_needed(spec, shop)
    thick = (
        f"{'' if shop else 'at least '}{words.size(need.thickness)}: {show(need.mass, 'kg', words.system)}"
        if np.isfinite(need.thickness)
        else f"thicker than any in stock: {show(need.mass, 'kg', words.system)} at least"
    )
    return Sheet(
        "Cut list",
        f"{bought}, {words.size(4.0, 2)} to face",
        "",
        (),
        (("Bars", ("Bar", "Saw off", "Left over" if shop else "In all", "Done"), rows),),
        (),
        (
            f"Both gear plates come out of {words.size(need.width, 4)} x {words.size(need.height, 4)} of plate, {thick}.",
            "Mark each piece with its material before it leaves the bar: once turned, steels look alike.",
        ),
    )


def _left(bar: turning.Bar, words: Words) -> str:
    """What is left of a bar; where nobody knows how long it is, what is sawn off in all."""
    if np.isinf(bar.left):
        return words.size(sum(length for _, length in bar.cuts), 4)
    return words.size(bar.left, 3) if bar.left >= 0 else "TOO LONG"


def bills(spec: Spec, shop: Workshop | None, words: Words) -> list[Sheet]:
    """Write what to buy: material for what is made here, and what comes as it is."""
    listed = parts_list.parts(spec, shop, words.system)
    total = sum(one.count * one.mass for one in listed)
    head = f"{show(total, 'kg', words.system)} in all, without trough, frame and guards"
    made = [one for one in listed if one.material != "bought"]
    pages = [("Bill of what is bought", [one for one in listed if one.material == "bought"])]
    count = max(1, ceil(len(made) / _ROWS))
    for k in reversed(range(count)):
        # as many on each
        rows = made[k * len(made) // count : (k + 1) * len(made) // count]
        title = "Bill of materials" + (f", {k + 1} of {count}" if count > 1 else "")
        pages.insert(0, (title, rows))
    return [_bill(title, head, rows, words) for title, rows in pages]


def _bill(title: str, head: str, listed: Sequence[Part], words: Words) -> Sheet:
    """One side of paper of it."""
    rows = tuple(
        (
            str(one.count),
            one.name,
            one.material,
            one.size,
            show(one.count * one.mass, "kg", words.system),
            "",
        )
        for one in listed
    )
    columns = ("", "Part", "Material", "As bought or sawn", "Mass", "Here")
    return Sheet(title, head, "", (), (("Parts", columns, rows),), dense=True)


def assembly(spec: Spec, words: Words) -> Sheet:
    """Write how it goes together."""
    rows = tuple((str(k), *row, "") for k, row in enumerate(assembly_order(spec, words.system), 1))
    return Sheet(
        "Putting it together",
        "isolated, plug out, until the last step",
        "",
        (),
        (("Step by step", ("", "What", "Clearance", "Right when", "Done"), rows),),
        (),
        (
            "Turn everything by hand after every step; what goes stiff is wrong now, not later.",
            "A nip between two shafts closes on fingers by hand as well: one person turns, and only that one.",
        ),
        dense=True,
    )
