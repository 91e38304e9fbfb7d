"""Whether the bag goes in whole, lies in the trough, and holds what the batch weighs."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check, Say
from mixerkit.load import trough_workings
from mixerkit.load.trough import bag_sides, batch_volume
from mixerkit.results import LoadedMachine
from mixerkit.spec import Spec

__all__ = ["another_length", "checks"]

_BULGE = 1.1
"""What a soft bag holds over the product of its sides as they are read (common practice)."""


def checks(machine: LoadedMachine) -> list[Check]:
    """Check the bag against opening, trough and batch.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    bag, opening = bag_sides(machine.spec)
    # end on, its two smaller sides have to pass
    return [
        _passes(machine, "length", bag[1], opening[0]),
        _passes(machine, "width", bag[2], opening[1]),
        *_lies(machine),
        _holds_the_batch(machine),
    ]


def another_length(spec: Spec, length: float) -> list[Change]:
    """Give a trough of another length in mm, alone, and with its bearings as far from it as they were."""
    moved = spec.bearings.span + length - spec.trough.length
    both = {"trough.length": length, "bearings.span": moved}
    return [{"trough.length": length}, *([both] if moved > 0 else [])]


def _measures(spec: Spec, say: Say) -> str:
    return f"bag {' x '.join(say(one, 'mm') for one in bag_sides(spec)[0])}"


def _measure_again(_i: int, _say: Say) -> str:
    return "Measure the bag again as it goes in: batch.bag_length, bag_width, bag_height."


def _passes(machine: LoadedMachine, side: str, asked: float, given: float) -> Check:
    """Whether a side of the bag passes that of the opening, both in mm."""
    spec = machine.spec
    return make_check(
        machine,
        "trough",
        "opening",
        f"bag passes the {side} of the opening, end on",
        demand=asked,
        capacity=given,
        unit="mm",
        working=lambda i: trough_workings.bag_passes(asked, given),
        source="the bag whole, end on: common practice",
        reason=lambda i, say: (
            f"{_measures(spec, say)}, opening {' x '.join(say(one, 'mm') for one in bag_sides(spec)[1])}"
        ),
        fix=lambda i: [
            {f"trough.{name}": asked}
            for name in ("opening_length", "opening_width")
            if getattr(spec.trough, name) == given
        ],
        note=_measure_again,
    )


def _lies(machine: LoadedMachine) -> list[Check]:
    """Whether it lies whole in the trough, along the shafts, or across them where only that will do."""
    spec = machine.spec
    bag, _ = bag_sides(spec)
    long = spec.trough.length
    wide = spec.housing.centre_distance + 2 * (spec.paddles.tip_radius + spec.trough.wall_clearance)
    fits_along = bag[0] <= long and bag[1] <= wide
    fits_across = bag[0] <= wide and bag[1] <= long
    along, across = (bag[1], bag[0]) if fits_across and not fits_along else (bag[0], bag[1])
    widened: list[Change] = [
        {"housing.centre_distance": spec.housing.centre_distance + across - wide},
        {"trough.wall_clearance": spec.trough.wall_clearance + (across - wide) / 2},
    ]

    def lies(side: str, asked: float, has: float, mended: list[Change]) -> Check:
        return make_check(
            machine,
            "trough",
            "trough",
            f"bag lies whole in its {side}",
            demand=asked,
            capacity=has,
            unit="mm",
            working=lambda i: trough_workings.trough_side(machine, side, asked, has),
            tight=1.0,
            source="the bag whole: common practice",
            reason=lambda i, say: (
                f"{_measures(spec, say)}, trough {say(long, 'mm')} long and {say(wide, 'mm')} wide"
            ),
            fix=lambda i: mended,
            note=_measure_again,
        )

    return [
        lies("length", along, long, another_length(spec, along)),
        lies("width", across, wide, widened),
    ]


def _holds_the_batch(machine: LoadedMachine) -> Check:
    """Whether it holds as much clay as the batch weighs."""
    spec = machine.spec
    volume, bagged = batch_volume(spec), float(np.prod(bag_sides(spec)[0])) / 1e6
    return make_check(
        machine,
        "trough",
        "bag",
        "holds what the batch weighs",
        demand=volume,
        capacity=_BULGE * bagged,
        unit="L",
        working=lambda i: trough_workings.bag_holds(machine, volume, _BULGE, _BULGE * bagged),
        tight=1.0,
        source="sides of a soft bag are read a tenth too small in all: common practice",
        reason=lambda i, say: (
            f"{say(spec.batch.mass, 'kg')} of clay without air is {say(volume, 'L')}, a {_measures(spec, say)} holds {say(bagged, 'L')}"
        ),
        note=lambda i, say: (
            "batch.mass and the bag's sides (batch.bag_length, bag_width, bag_height) stand against each other: weigh the "
            "bag and measure it; where several bags make a batch, measure them as they go in together."
        ),
    )
