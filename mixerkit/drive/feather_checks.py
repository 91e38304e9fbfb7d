"""The feather key that the clutch's sleeve slides on."""

from __future__ import annotations

from functools import partial

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.drive import clutch_workings, dogclutch
from mixerkit.drive.dog_checks import clutch_torque
from mixerkit.drive.fuses import weaker_fuse
from mixerkit.results import LoadedMachine
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import InputError

__all__ = ["checks", "outer_and_inner"]


def outer_and_inner(spec: Spec) -> tuple[str, str]:
    """Name the path whose gears stand further along the shaft, then the other."""
    return (
        ("idler", "direct")
        if spec.paths.idler.position > spec.paths.direct.position
        else ("direct", "idler")
    )


def checks(machine: LoadedMachine) -> list[Check]:
    """Check the pressure on the feather key.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    spec = machine.spec
    one = spec.clutch
    bore = getattr(spec, f"shaft_{one.shaft}").diameter
    torque = clutch_torque(machine)
    names = [("clutch", "feather key", f"pressure {when}") for when in ("while mixing", "in a jam")]
    # the sleeve's dogs stand past the key at both ends
    length = one.sleeve_length - 2 * one.dog_height
    if length <= 0:
        why = "the dogs take up the whole sleeve and leave no length for its key; a longer sleeve or shorter dogs are wanted"
        return [make_unjudged(machine, *name, why) for name in names]
    try:
        key = table("keys").only("series", machine.system).bracket(bore, "above", "up_to").values
    except InputError as error:
        return [make_unjudged(machine, *name, "; ".join(error.messages)) for name in names]
    pressure = np.asarray(dogclutch.feather_pressure.formula(torque, bore, key["height"], length))
    make = partial(
        make_check,
        machine,
        demand=pressure,
        unit="MPa",
        working=lambda i: clutch_workings.feather(
            machine, float(torque[i]), key["height"], float(pressure[i])
        ),
        reason=lambda i, say: (
            f"{say(torque[i], 'N*m')} on a key {say(key['width'], 'mm')} x {say(key['height'], 'mm')}, "
            f"{say(length, 'mm')} of it in the sleeve"
        ),
    )
    steel = table("materials").find(one.material).values
    yields, sliding = steel["yield_strength"], 0.25 * steel["yield_strength"]
    safety = spec.safety.shaft_in_jam
    return [
        make(
            *names[0],
            where=machine.load_cases.mixing,
            capacity=sliding,
            source="a quarter of yield for a key that slides: common practice",
            fix=lambda i: [
                *_longer(spec, length, float(pressure[i]) / sliding),
                "paddles.count",
                "paddles.width",
            ],
        ),
        make(
            *names[1],
            where=machine.load_cases.jammed,
            capacity=yields,
            safety=safety,
            source="yield; factor: common practice",
            rung=(1.0, steel["tensile_strength"] / yields),
            fix=lambda i: [
                *_longer(spec, length, float(pressure[i]) * safety / yields),
                *weaker_fuse(
                    spec,
                    float(machine.power_flow.jam_torque[i] * yields / (pressure[i] * safety)),
                ),
            ],
        ),
    ]


def _longer(spec: Spec, length: float, over: float) -> list[Change]:
    """A key of this length in mm so much longer, and the sleeve with it."""
    one = spec.clutch
    wider = length * (over - 1)
    outer, _ = outer_and_inner(spec)
    return [
        {"clutch.sleeve_length": one.sleeve_length + wider},
        # a longer sleeve wants its gears, and the plates, that much further apart
        {
            "clutch.sleeve_length": one.sleeve_length + wider,
            f"paths.{outer}.position": getattr(spec.paths, outer).position + wider,
            "housing.plate_spacing": spec.housing.plate_spacing + wider,
        },
        "clutch.material",
        f"shaft_{one.shaft}.diameter",
    ]
