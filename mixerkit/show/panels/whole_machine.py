"""The panel of the whole machine."""

from __future__ import annotations

from mixerkit.show import plots
from mixerkit.show.knobs import POWER, RATIO, Knob
from mixerkit.show.panels.bench import Bench
from mixerkit.show.panels.panel import Panel, verdict_words

__all__ = ["whole_machine"]


def whole_machine(bench: Bench) -> Panel:
    """Show the whole machine: the numbers that matter most, and every check.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("batch.mass", "Batch", 5, 40),
        POWER,
        RATIO,
        Knob("shaft_1.diameter", "Shaft 1 diameter", 20, 70),
        Knob("shaft_2.diameter", "Shaft 2 diameter", 20, 70),
    ]
    return Panel(bench, "The whole machine", knobs, plots.power_path, verdict_words)
