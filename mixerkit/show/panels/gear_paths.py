"""The panel of both gear paths."""

from __future__ import annotations

from mixerkit.machine import Machine
from mixerkit.show import plots
from mixerkit.show.knobs import Knob
from mixerkit.show.panels.bench import Bench
from mixerkit.show.panels.panel import Panel, verdict_words
from mixerkit.states import MODES
from mixerkit.units import show

__all__ = ["PANEL", "gear_paths", "says"]


def says(machine: Machine) -> str:
    """Say in a sentence or two how this stage stands."""
    second = machine.station("paddles of shaft 2").speed.m_as("rpm")
    speeds = [
        f"{MODES[clutch]} shaft 2 turns at {show(abs(float(second[machine.index(clutch)])), 'rpm')}"
        for clutch in ("direct", "idler")
    ]
    return f"While {' and while '.join(speeds)}. {verdict_words(machine, 'gear paths')}"


def gear_paths(bench: Bench) -> Panel:
    """Show both gear paths to scale, with speeds and directions.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("clutch.drawn_in", "Clutch on"),
        Knob("housing.centre_distance", "Shafts apart", 80, 300),
        Knob("paths.direct.module", "Direct path pitch"),
        Knob("paths.direct.tooth_counts[0]", "Direct, shaft 1 teeth", 12, 60),
        Knob("paths.direct.tooth_counts[1]", "Direct, shaft 2 teeth", 12, 60),
        Knob("paths.idler.module", "Idler path pitch"),
        Knob("paths.idler.tooth_counts[0]", "Idler path, shaft 1 teeth", 12, 60),
        Knob("paths.idler.tooth_counts[1]", "Idler teeth", 12, 60),
    ]
    if len(bench.design.paths.idler.tooth_counts) == 3:
        knobs.append(Knob("paths.idler.tooth_counts[2]", "Idler path, shaft 2 teeth", 12, 60))

    return Panel(
        bench,
        "The two gear paths",
        knobs,
        lambda a, angle: plots.train(a, angle=angle),
        says,
        ("gear paths",),
        turns=True,
    )


PANEL = gear_paths
"""The stage's main panel."""
