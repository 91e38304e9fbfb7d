"""How the numbers of the gear paths' checks were worked out."""

from __future__ import annotations

from mixerkit.parts.gear_pairs import shifts_of
from mixerkit.parts.spurgear import ADDENDUM
from mixerkit.results import LoadedMachine
from mixerkit.spec import GearPath
from mixerkit.working import Working, by_method, worked

__all__ = ["idler_reach", "pair_closes", "tips_apart"]


def pair_closes(
    machine: LoadedMachine, path: GearPath, name: str, standard: float, off: float, allowed: float
) -> list[Working]:
    """Say how far the shafts stand off the distance on which a pair closes."""
    first, last = path.tooth_counts
    return [
        by_method(
            "a_w",
            "involute function of the working pressure angle solved for the angle, from tooth counts, "
            "module and profile shifts",
            standard,
            "mm",
            source="ISO 21771",
            z_1=(first, "", f"paths.{name}.tooth_counts"),
            z_2=(last, "", f"paths.{name}.tooth_counts"),
            m=(path.module, "mm", f"paths.{name}.module"),
            x_1=(shifts_of(path)[0], "", f"paths.{name}.profile_shift_coefficients"),
            x_2=(shifts_of(path)[-1], "", f"paths.{name}.profile_shift_coefficients"),
        ),
        worked(
            "delta = Abs(a - a_w)",
            off,
            "mm",
            a=(machine.spec.housing.centre_distance, "mm", "housing.centre_distance"),
            a_w=(standard, "mm", "above"),
        ),
        worked("delta_max = 0.02*m", allowed, "mm", m=(path.module, "mm", f"paths.{name}.module")),
    ]


def idler_reach(distances: list[float], reach: float) -> list[Working]:
    """Say how the reach over the idlers adds up."""
    given = {
        f"a_{k}": (one, "mm", "mesh distance of the path") for k, one in enumerate(distances, 1)
    }
    return [worked(f"a = {' + '.join(given)}", reach, "mm", source="", **given)]


def tips_apart(machine: LoadedMachine, path: GearPath, name: str, asked: float) -> list[Working]:
    """Say how the room for the tips of both shaft gears adds up."""
    counts, shifts = f"paths.{name}.tooth_counts", f"paths.{name}.profile_shift_coefficients"
    return [
        worked(
            "a_min = m*((z_1 + z_2)/2 + x_1 + x_2 + 2*h) + s",
            asked,
            "mm",
            m=(path.module, "mm", f"paths.{name}.module"),
            z_1=(path.tooth_counts[0], "", counts),
            z_2=(path.tooth_counts[-1], "", counts),
            x_1=(shifts_of(path)[0], "", shifts),
            x_2=(shifts_of(path)[-1], "", shifts),
            h=(ADDENDUM, "", "addendum of the rack of ISO 53 in modules (from memory)"),
            s=(machine.spec.safety.tip_clearance, "mm", "safety.tip_clearance"),
        )
    ]
