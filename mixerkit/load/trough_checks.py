"""Whether the trough takes the bag and the batch, and mixes it in the wanted time."""

from __future__ import annotations

from functools import partial

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check, Say
from mixerkit.load import load_workings, trough_workings
from mixerkit.load.trough import LEAST_TURNS, bag_sides, batch_volume, swept_length, working_volume
from mixerkit.parts.blades import extent_at
from mixerkit.results import LoadedMachine
from mixerkit.spec import Spec
from mixerkit.working import Working, as_given

__all__ = ["checks"]


def checks(machine: LoadedMachine) -> list[Check]:
    """Check the bag against the opening, the batch against the trough, and the turns it gets.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    return [*_bag(machine), *_batch(machine), _mixed(machine), _sheet(machine)]


def _mixed(machine: LoadedMachine) -> Check:
    """Whether a batch is turned often enough to come out even."""
    turns = machine.spec.batch.turns_to_mix
    return make_check(
        machine,
        "trough",
        "batch",
        "turns enough to mix it",
        demand=LEAST_TURNS,
        capacity=turns,
        unit="",
        working=lambda i: [as_given("n", turns, "", "batch.turns_to_mix")],
        tight=1.0,
        source="100 to 300 turns even out a batch: common practice",
        reason=lambda i, say: (
            f"batch.turns_to_mix is {turns:g}; time, warming and wear are reckoned from it"
        ),
        note=lambda i, say: (
            "Mix a batch with coloured clay, cut it and measure after how many turns it is even; put that in "
            "batch.turns_to_mix, at least 100."
        ),
    )


_WELDED = 1.5
"""Thinnest sheet in mm that is welded by hand without burning through, TIG in a home shop (common practice)."""


def _sheet(machine: LoadedMachine) -> Check:
    wall = machine.spec.trough.wall_thickness
    return make_check(
        machine,
        "trough",
        "trough",
        "wall is thick enough to weld",
        demand=_WELDED,
        capacity=wall,
        unit="mm",
        working=lambda i: [as_given("t", wall, "mm", "trough.wall_thickness")],
        tight=1.0,
        source="1.5 mm for TIG by hand: common practice",
        reason=lambda i, say: f"sheet of {say(wall, 'mm')}",
        fix=lambda i: [{"trough.wall_thickness": _WELDED}],
    )


def _bag(machine: LoadedMachine) -> list[Check]:
    """Whether the bag goes in whole, lies in the trough, and holds what the batch weighs."""
    spec = machine.spec
    bag, opening = bag_sides(spec)
    sides = {
        "length": spec.trough.length,
        "width": spec.housing.centre_distance
        + 2 * (spec.paddles.tip_radius + spec.trough.wall_clearance),
    }
    # along the shafts, or across them where only that will do
    fits_along = bag[0] <= sides["length"] and bag[1] <= sides["width"]
    fits_across = bag[0] <= sides["width"] and bag[1] <= sides["length"]
    along, across = (bag[1], bag[0]) if fits_across and not fits_along else (bag[0], bag[1])
    volume, bagged = batch_volume(spec), float(np.prod(bag)) / 1e6

    def measures(say: Say) -> str:
        return f"bag {' x '.join(say(one, 'mm') for one in bag)}"

    def widened(side: str, asked: float) -> list[Change]:
        if side == "length":
            return _longer(spec, asked)
        more = asked - sides["width"]
        return [
            {"housing.centre_distance": spec.housing.centre_distance + more},
            {"trough.wall_clearance": spec.trough.wall_clearance + more / 2},
        ]

    def opened(asked: float, given: float, _i: int) -> list[Change]:
        return [
            {f"trough.{name}": asked}
            for name in ("opening_length", "opening_width")
            if getattr(spec.trough, name) == given
        ]

    def lengthened(side: str, asked: float, _i: int) -> list[Change]:
        return widened(side, asked)

    # end on, the bag's two smaller sides have to pass
    passes = [
        make_check(
            machine,
            "trough",
            "opening",
            f"bag passes the {side} of the opening, end on",
            demand=asked,
            capacity=given,
            unit="mm",
            working=partial(_bag_passes, asked, given),
            source="the bag whole, end on: common practice",
            reason=lambda i, say: (
                f"{measures(say)}, opening {' x '.join(say(one, 'mm') for one in opening)}"
            ),
            fix=partial(opened, asked, given),
            note=lambda i, say: _MEASURE_BAG,
        )
        for side, asked, given in (("length", bag[1], opening[0]), ("width", bag[2], opening[1]))
    ]
    lies = [
        make_check(
            machine,
            "trough",
            "trough",
            f"bag lies whole in its {side}",
            demand=asked,
            capacity=sides[side],
            unit="mm",
            working=partial(_bag_lies, machine, side, asked, sides[side]),
            tight=1.0,
            source="the bag whole: common practice",
            reason=lambda i, say: (
                f"{measures(say)}, trough {say(sides['length'], 'mm')} long and {say(sides['width'], 'mm')} wide"
            ),
            fix=partial(lengthened, side, asked),
            note=lambda i, say: _MEASURE_BAG,
        )
        for side, asked in (("length", along), ("width", across))
    ]
    return [
        *passes,
        *lies,
        make_check(
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
                f"{say(spec.batch.mass, 'kg')} of clay without air is {say(volume, 'L')}, a {measures(say)} holds {say(bagged, 'L')}"
            ),
            note=lambda i, say: (
                "batch.mass and the bag's sides (batch.bag_length, bag_width, bag_height) stand against each other: weigh the "
                "bag and measure it; where several bags make a batch, measure them as they go in together."
            ),
        ),
    ]


_BULGE = 1.1
_REACHED = 0.5
_MEASURE_BAG = "Measure the bag again as it goes in: batch.bag_length, bag_width, bag_height."


def _bag_passes(asked: float, given: float, _i: int) -> list[Working]:
    return trough_workings.bag_passes(asked, given)


def _bag_lies(
    machine: LoadedMachine, side: str, asked: float, has: float, _i: int
) -> list[Working]:
    return trough_workings.trough_side(machine, side, asked, has)


def _longer(spec: Spec, length: float) -> list[Change]:
    """A trough of another length, alone, and with its bearings as far from it as they were."""
    moved = spec.bearings.span + length - spec.trough.length
    both = {"trough.length": length, "bearings.span": moved}
    return [{"trough.length": length}, *([both] if moved > 0 else [])]


def _batch(machine: LoadedMachine) -> list[Check]:
    """Whether the batch fits the trough and the paddles fit in its length."""
    spec = machine.spec
    volume, room = batch_volume(spec), working_volume(spec)
    least, most = spec.trough.least_fill, spec.trough.most_fill
    length = (spec.paddles.count - 1) * spec.paddles.spacing + spec.paddles.offset_2
    ends = extent_at(spec.paddles, (spec.paddles.root_radius, spec.paddles.tip_radius))
    swept = length + float(ends.max()) + 2 * spec.trough.wall_clearance
    per_length = room / spec.trough.length

    def holds(say: Say) -> str:
        return f"{say(spec.batch.mass, 'kg')} of clay; working volume {say(room, 'L')}"

    def other_length(share: float) -> list[Change]:
        # where paddles leave no room at all, no length helps
        return _longer(spec, volume / share / per_length) if per_length > 0 else []

    weigh = "The batch is yours to split: weigh what goes in at once and put it in batch.mass."
    return [
        make_check(
            machine,
            "trough",
            "trough",
            "batch fits below the paddles' tops",
            demand=volume,
            capacity=room * most,
            unit="L",
            working=lambda i: trough_workings.batch_fits(machine, volume, room, room * most),
            source=f"filled to {most:g} of the working volume at most: common practice",
            reason=lambda i, say: holds(say),
            fix=lambda i: [
                *other_length(most),
                "paddles.tip_radius",
                "housing.centre_distance",
                "trough.wall_clearance",
            ],
            note=lambda i, say: weigh,
        ),
        make_check(
            machine,
            "trough",
            "trough",
            "batch is enough for the paddles to bite",
            demand=room * least,
            capacity=volume,
            unit="L",
            working=lambda i: trough_workings.batch_bites(machine, volume, room, room * least),
            source=f"filled to {least:g} of the working volume at least: common practice",
            reason=lambda i, say: holds(say),
            fix=lambda i: [*other_length(least), "paddles.tip_radius", "housing.centre_distance"],
            note=lambda i, say: weigh,
        ),
        make_check(
            machine,
            "trough",
            "paddles",
            "paddles fit in the trough's length",
            demand=swept,
            capacity=spec.trough.length,
            unit="mm",
            working=lambda i: load_workings.row_length(machine, float(ends.max()), swept),
            tight=1.0,
            source="geometry, with the gap to the wall at both ends",
            reason=lambda i, say: (
                f"{spec.paddles.count} paddles every {say(spec.paddles.spacing, 'mm')}, those of shaft 2 "
                f"{say(spec.paddles.offset_2, 'mm')} along, {say(spec.trough.wall_clearance, 'mm')} free at each end"
            ),
            fix=lambda i: [
                *_longer(spec, swept),
                "paddles.count",
                "paddles.spacing",
                "paddles.offset_2",
            ],
        ),
        make_check(
            machine,
            "trough",
            "paddles",
            "paddles reach the clay along the trough",
            demand=_REACHED * spec.trough.length,
            capacity=swept_length(spec.paddles),
            unit="mm",
            working=lambda i: load_workings.blades_reach(
                machine, _REACHED, _REACHED * spec.trough.length, swept_length(spec.paddles)
            ),
            source="blades of both shafts pass over half of the length at least, or clay stands between them: common practice",
            reason=lambda i, say: (
                f"{spec.paddles.count} paddles a shaft, each {say(ends.max(), 'mm')} along it; trough {say(spec.trough.length, 'mm')} long"
            ),
            fix=lambda i: [
                "paddles.count",
                "paddles.width",
                "paddles.set_angle",
                {"trough.length": swept_length(spec.paddles) / _REACHED},
            ],
        ),
    ]
