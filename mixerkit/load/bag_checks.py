"""Whether the bag goes in whole, lies in the trough, and holds what the batch weighs."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check, Say
from mixerkit.load import bag_ways, trough_workings
from mixerkit.load.trough import bag_sides, batch_volume
from mixerkit.results import LoadedMachine
from mixerkit.spec import Spec

__all__ = ["another_length", "checks"]

_BULGE = 1.1
"""What a soft bag holds over the product of its sides as they are read (common practice)."""
_SLACK = 4 / 3
"""Product of a bag's sides over its clay at most (common practice)."""


def checks(machine: LoadedMachine) -> list[Check]:
    """Check the bag, as it is said to go in, against opening, trough and batch.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    return [
        _passes(machine, "length", 0),
        _passes(machine, "width", 1),
        *_lies(machine),
        _finds_depth(machine),
        _holds_the_batch(machine),
        _no_larger(machine),
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


def _other_ways(spec: Spec) -> list[Change]:
    """The other ways to put the bag in that would do."""
    return [{"batch.goes_in": one} for one in bag_ways.ways_that_do(spec)]


def _passes(machine: LoadedMachine, side: str, place: int) -> Check:
    """Whether a side of the bag passes that of the opening, the longer the longer: so it does turned the best way."""
    spec = machine.spec
    way = spec.batch.goes_in
    what, asked = bag_ways.pack(spec, way).through[place]
    given = bag_sides(spec)[1][place]
    against = "goes through" if asked <= given else "does not go through"
    return make_check(
        machine,
        "trough",
        "opening",
        f"bag passes the {side} of the opening",
        demand=asked,
        capacity=given,
        unit="mm",
        working=lambda i: trough_workings.bag_passes(way, what, asked, given),
        source="the bag turned length along or across, whichever goes: geometry",
        reason=lambda i, say: (
            f"{_measures(spec, say)}, opening {' x '.join(say(one, 'mm') for one in bag_sides(spec)[1])}; "
            f"{way}, its {what} of {say(asked, 'mm')} {against} {say(given, 'mm')}"
        ),
        fix=lambda i: [
            *_other_ways(spec),
            *(
                {f"trough.{name}": asked}
                for name in ("opening_length", "opening_width")
                if getattr(spec.trough, name) == given
            ),
        ],
        note=_measure_again,
    )


def _lies(machine: LoadedMachine) -> list[Check]:
    """Whether it lies whole in the trough, along the shafts, or across them where only that will do."""
    spec = machine.spec
    way, long, wide = spec.batch.goes_in, spec.trough.length, bag_ways.trough_width(spec)
    along, across = bag_ways.lies(spec, way)
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
            source="what goes in lies whole: common practice",
            reason=lambda i, say: (
                f"{_measures(spec, say)}, {way}, trough {say(long, 'mm')} long and {say(wide, 'mm')} wide"
            ),
            fix=lambda i: mended,
            note=_measure_again,
        )

    return [
        lies("length", along, long, another_length(spec, along)),
        lies("width", across, wide, widened),
    ]


def _finds_depth(machine: LoadedMachine) -> Check:
    """Whether the lid shuts over the bag while it lies on the paddles."""
    spec = machine.spec
    way, has = spec.batch.goes_in, bag_ways.free_depth(spec)
    what, asked = bag_ways.pack(spec, way).deep
    return make_check(
        machine,
        "trough",
        "trough",
        "bag finds depth above the paddles",
        demand=asked,
        capacity=has,
        unit="mm",
        working=lambda i: trough_workings.depth(machine, what, asked, has),
        tight=1.0,
        source="the lid shuts before the bag is drawn in: geometry",
        reason=lambda i, say: (
            f"{_measures(spec, say)}, {way}: its {what} of {say(asked, 'mm')} stands up, {say(has, 'mm')} are free"
        ),
        fix=lambda i: [{"trough.free_depth": asked}, *_other_ways(spec)],
        note=_measure_again,
    )


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


def _no_larger(machine: LoadedMachine) -> Check:
    """Whether the bag is not far larger than what the batch weighs fills."""
    spec = machine.spec
    volume, bagged = batch_volume(spec), float(np.prod(bag_sides(spec)[0])) / 1e6
    most = _SLACK * volume
    return make_check(
        machine,
        "trough",
        "bag",
        "is filled by what the batch weighs",
        demand=bagged,
        capacity=most,
        unit="L",
        working=lambda i: trough_workings.bag_filled(machine, volume, _SLACK, most, bagged),
        tight=1.0,
        source="air, folds and round edges make a bag a third larger than its clay at most: common practice",
        reason=lambda i, say: (
            f"a {_measures(spec, say)} is {say(bagged, 'L')}, {say(spec.batch.mass, 'kg')} of clay without air only {say(volume, 'L')}"
        ),
        note=lambda i, say: (
            "batch.mass and the bag's sides (batch.bag_length, bag_width, bag_height) stand against each other: weigh the "
            "bag and measure it as it goes in; where a batch is less than a bag, measure the piece that goes in."
        ),
    )
