"""Whether the trough takes the bag and the batch, and mixes it in the wanted time."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from mixerkit.checking import make_check
from mixerkit.checks import Check
from mixerkit.load import bag_checks, trough_workings
from mixerkit.load.bag_checks import another_length
from mixerkit.load.trough import (
    LEAST_TURNS,
    batch_volume,
    clean_volume,
    swept_length,
    working_volume,
)
from mixerkit.parts.blades import extent_at
from mixerkit.results import LoadedMachine
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
    return [
        *bag_checks.checks(machine),
        *_batch(machine),
        *_rows(machine),
        _gap(machine),
        _mixed(machine),
        _sheet(machine),
    ]


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


_REACHED = 0.5
"""Share of the trough's length that blades pass over at least (common practice)."""


_STANDS = 0.1
"""Gap between tips and wall over the tips' radius at most (common practice)."""


def _gap(machine: LoadedMachine) -> Check:
    """Whether the clay that stays on the wall is no more than a skin."""
    spec = machine.spec
    gap, most = spec.trough.wall_clearance, _STANDS * spec.paddles.tip_radius
    return make_check(
        machine,
        "trough",
        "paddles",
        "tips reach the clay at the wall",
        demand=gap,
        capacity=most,
        unit="mm",
        working=lambda i: [
            as_given("s", gap, "mm", "trough.wall_clearance"),
            trough_workings.widest_gap(machine, _STANDS, most),
        ],
        tight=1.0,
        source="a gap of a tenth of the tips' radius at most: common practice",
        reason=lambda i, say: (
            f"tips at {say(spec.paddles.tip_radius, 'mm')}; clay farther out stays on the wall from batch to batch, "
            "unmixed, and dries there"
        ),
        fix=lambda i: [
            {"trough.wall_clearance": most},
            {"paddles.tip_radius": gap / _STANDS},
        ],
    )


def _batch(machine: LoadedMachine) -> list[Check]:
    """Whether the batch fits the trough."""
    spec = machine.spec
    volume, room = batch_volume(spec), working_volume(spec)
    clean = clean_volume(spec)

    def filled(
        name: str,
        within: float,
        share: float,
        asked: float,
        has: float,
        how: Callable[[int], Sequence[Working]],
        bound: str,
    ) -> Check:
        # where paddles leave no room at all, no length helps
        per_length = within / spec.trough.length
        longer = another_length(spec, volume / share / per_length) if per_length > 0 else []
        nearer = ["trough.wall_clearance"] if bound == "least" else []
        return make_check(
            machine,
            "trough",
            "trough",
            name,
            demand=asked,
            capacity=has,
            unit="L",
            working=how,
            source=f"filled to {share:g} of the working volume at {bound}: common practice",
            reason=lambda i, say: (
                f"{say(spec.batch.mass, 'kg')} of clay; working volume {say(within, 'L')}"
            ),
            fix=lambda i: [*longer, "paddles.tip_radius", "housing.centre_distance", *nearer],
            note=lambda i, say: (
                "The batch is yours to split: weigh what goes in at once and put it in batch.mass."
            ),
        )

    least, most = spec.trough.least_fill * clean, spec.trough.most_fill * room
    return [
        filled(
            "batch fits below the paddles' tops",
            room,
            spec.trough.most_fill,
            volume,
            most,
            lambda i: trough_workings.batch_fits(machine, volume, room, most),
            "most",
        ),
        filled(
            "batch is enough for the paddles to bite",
            clean,
            spec.trough.least_fill,
            least,
            volume,
            lambda i: trough_workings.batch_bites(machine, volume, clean, least),
            "least",
        ),
    ]


def _rows(machine: LoadedMachine) -> list[Check]:
    """Whether the paddles find room in the trough's length, and sweep enough of it."""
    spec = machine.spec
    ends = extent_at(spec.paddles, (spec.paddles.root_radius, spec.paddles.tip_radius))
    widest = float(ends.max())
    length = (spec.paddles.count - 1) * spec.paddles.spacing + spec.paddles.offset_2
    swept = length + widest + 2 * spec.trough.wall_clearance
    return [
        make_check(
            machine,
            "trough",
            "paddles",
            "paddles fit in the trough's length",
            demand=swept,
            capacity=spec.trough.length,
            unit="mm",
            working=lambda i: trough_workings.row_length(machine, widest, swept),
            tight=1.0,
            source="geometry, with the gap to the wall at both ends",
            reason=lambda i, say: (
                f"{spec.paddles.count} paddles every {say(spec.paddles.spacing, 'mm')}, those of shaft 2 "
                f"{say(spec.paddles.offset_2, 'mm')} along, {say(spec.trough.wall_clearance, 'mm')} free at each end"
            ),
            fix=lambda i: [
                *another_length(spec, swept),
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
            working=lambda i: trough_workings.blades_reach(
                machine, _REACHED, _REACHED * spec.trough.length, swept_length(spec.paddles)
            ),
            source="blades of both shafts pass over half of the length at least, or clay stands between them: common practice",
            reason=lambda i, say: (
                f"{spec.paddles.count} paddles a shaft, each {say(widest, 'mm')} along it; trough {say(spec.trough.length, 'mm')} long"
            ),
            fix=lambda i: [
                "paddles.count",
                "paddles.width",
                "paddles.set_angle",
                {"trough.length": swept_length(spec.paddles) / _REACHED},
            ],
        ),
    ]
