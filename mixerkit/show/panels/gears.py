"""Panels of the gears: teeth in mesh, and whether they last."""

from __future__ import annotations

from mixerkit.machine import Machine
from mixerkit.parts import gear_pairs, idler, tooth_loads
from mixerkit.show import gearplots
from mixerkit.show.knobs import Knob
from mixerkit.show.panels.bench import Bench
from mixerkit.show.panels.panel import Panel, verdict_words
from mixerkit.tables import table
from mixerkit.units import show

__all__ = ["PANEL", "mesh", "says", "tooth_strength"]


def says(machine: Machine) -> str:
    """Say in a sentence or two how this stage stands."""
    lines = []
    for name in ("direct", "idler"):
        path = getattr(machine.spec.paths, name)
        speed = tooth_loads.pitch_speed(machine, path)
        grease = table("gear_materials").find(path.material).values["lubrication"]
        lines.append(f"{name} path at {show(speed, 'm/s', machine.system, 2)}: {grease}")
    return (
        f"No oil film carries at this pace ({'; '.join(lines)}). {verdict_words(machine, 'gears')}"
    )


_TEETH = [
    Knob("housing.centre_distance", "Shafts apart", 80, 300),
    Knob("paths.direct.module", "Direct path pitch"),
    Knob("paths.direct.tooth_counts[0]", "Direct, shaft 1 teeth", 12, 60),
    Knob("paths.direct.tooth_counts[1]", "Direct, shaft 2 teeth", 12, 60),
    Knob("paths.direct.thinning", "Direct, teeth thinned", 0, 0.5),
]


def mesh(bench: Bench) -> Panel:
    """Show the direct pair's teeth in mesh, with contact ratio and backlash.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        *_TEETH,
        Knob("paths.idler.module", "Idler path pitch"),
        Knob("paths.idler.tooth_counts[1]", "Idler teeth", 12, 60),
        Knob("paths.idler.thinning", "Idler path, teeth thinned", 0, 0.5),
        Knob("housing.idler_side", "Idler sits"),
        Knob("housing.idler_pin", "Idler's pin", 12, 60),
        Knob("housing.hub_diameter", "Hubs", 40, 120),
    ]

    def says(machine: Machine) -> str:
        system = machine.system
        turning = machine.load_cases.mixing & (machine.load_cases.clutch == "idler")
        forces = idler.idler_forces(machine)
        pins = [
            float(forces[turning & (machine.load_cases.direction == way)].max()) for way in (1, -1)
        ]
        needed = gear_pairs.ideal_sum(
            machine.spec.paths.direct,
            gear_pairs.pairs(machine.spec.paths.direct, machine.spec.housing.centre_distance)[0],
        )
        side = "below" if machine.spec.housing.idler_side == "above" else "above"
        return (
            f"On this centre distance the direct pair wants profile shifts that add up to {needed:.3f}. While mixing, the "
            f"idler's pin carries {show(pins[0], 'N', system)} forward and {show(pins[1], 'N', system)} in reverse; {side} the "
            f"line it would be the other way round. {verdict_words(machine, 'gears', 'gear paths')}"
        )

    return Panel(
        bench,
        "Teeth in mesh",
        knobs,
        lambda a, angle: gearplots.mesh_picture(a, angle=angle),
        says,
        ("gear paths", "gears"),
        turns=True,
    )


def tooth_strength(bench: Bench) -> Panel:
    """Show the gear case in plan, and whether the teeth last.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("paths.direct.material", "Direct path material"),
        Knob("paths.direct.face_width", "Direct, face width", 10, 100),
        Knob("paths.direct.position", "Direct, middle of teeth at", 10, 200),
        Knob("paths.idler.material", "Idler path material"),
        Knob("paths.idler.idler_material", "Idler's material"),
        Knob("paths.idler.face_width", "Idler path, face width", 10, 100),
        Knob("paths.idler.position", "Idler path, middle at", 10, 300),
        Knob("housing.plate_spacing", "Between the plates", 80, 400),
        Knob("batch.life_hours", "Hours to last", 100, 10000),
    ]

    return Panel(bench, "Gear case and teeth", knobs, gearplots.plan, says, ("gears",))


PANEL = tooth_strength
"""The stage's main panel."""
