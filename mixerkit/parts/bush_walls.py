"""How thick bushes are, and how they close in when pressed home."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Check
from mixerkit.frozen import result
from mixerkit.parts import bearing_workings, fits, pressfit
from mixerkit.parts.worked import WorkedMachine
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.working import worked

__all__ = [
    "HUB_OVER_BUSH",
    "REAMED",
    "RUNNING_FIT",
    "TURNS",
    "bush_sizes",
    "bush_walls",
    "pressed_in",
]
REAMED, TURNS = "H8", "f7"
"""Zone to which a bush is reamed, and that of what turns in it (common practice)."""
RUNNING_FIT = f"{REAMED}/{TURNS}"
HUB_OVER_BUSH = 1.2
"""Least hub over the outside of a bush pressed into it (common practice)."""


_SQUEEZE = 0.001
"""Least interference in mm with which a bush is held (common practice)."""
_THINNEST = 1.0
"""Thinnest wall of a bush in mm that can be turned, pressed in and reamed (common practice)."""
_WALL_SHARE = 1 / 25
"""Least wall of a bush over its bore: ISO 4379 has none so thin (from memory)."""


def _bush_bores(machine: WorkedMachine) -> list[float]:
    """Bores in mm of all the bushes of a design."""
    spec = machine.spec
    line = machine.shaft_beams[spec.clutch.shaft - 1]
    bores = [
        spec.housing.idler_pin,
        *(float(line.diameters[place]) for place in line.gears.values()),
    ]
    if spec.bearings.kind == "plain bush":
        bores += [
            float(one.diameters[place]) for one in machine.shaft_beams for place in one.supports
        ]
    return bores


def pressed_in(machine: WorkedMachine) -> Check:
    """Whether every bush is held by its fit even where its seat came out large and the bush small."""
    one = machine.spec.bearings
    outsides = [bore + 2 * one.bush_wall for bore in _bush_bores(machine)]
    squeeze, outside = min((-fits.fit(size, one.bush_fit).loosest, size) for size in outsides)
    return make_check(
        machine,
        "bearings",
        "bushes",
        "fit holds them",
        demand=_SQUEEZE,
        capacity=round(squeeze, 6),
        unit="mm",
        tight=1.0,
        working=lambda i: bearing_workings.bush_held(outside, round(squeeze, 6)),
        source="least interference of ISO 286-2: a bush that nothing holds turns in its seat; 1 um: common practice",
        reason=lambda i, say: (
            f"{one.bush_fit} at {say(outside, 'mm')} outside, seat at its largest and bush at its smallest"
        ),
        fix=lambda i: [{"bearings.bush_fit": tighter} for tighter in ("H7/p6", "H7/r6", "H7/s6")],
    )


def bush_walls(machine: WorkedMachine) -> Check:
    """Whether every bush has a wall that stands being pressed in; all of a design have the same."""
    spec = machine.spec
    bore = max(_bush_bores(machine))
    least = max(_THINNEST, _WALL_SHARE * bore)
    return make_check(
        machine,
        "bearings",
        "bushes",
        "walls are thick enough to press in and ream",
        demand=least,
        capacity=spec.bearings.bush_wall,
        unit="mm",
        tight=1.0,
        working=lambda i: [
            worked(
                "s = Max(s_0, c*d)",
                least,
                "mm",
                s_0=(_THINNEST, "mm", "common practice"),
                c=(_WALL_SHARE, "", "ISO 4379 has none so thin (from memory)"),
                d=(bore, "mm", "largest bore of all bushes"),
            )
        ],
        source="1 mm, and a twenty-fifth of the bore: thinner than ISO 4379 has any (from memory)",
        reason=lambda i, say: f"largest bush, bore {say(bore, 'mm')}",
        fix=lambda i: [{"bearings.bush_wall": least}],
    )


@result
class BushSizes:
    """Sizes of a pressed-in bush."""

    outside: float
    fit: fits.Fit
    pressure: float
    closing: tuple[float, float]
    force: float
    bored: float
    reamed: tuple[float, float]


def bush_sizes(spec: Spec, bore: float, around: float, length: float | None = None) -> BushSizes:
    """Sizes of a pressed-in bush: fit, squeeze, how far its bore closes, and what to ream.

    Parameters
    ----------
    spec : Spec
    bore : float
        Nominal bore in mm, that of the shaft or pin.
    around : float
        Outside of the gear's hub or of the metal round the bush, in mm.
    length : float, optional
        Over which it is pressed, in mm; that of the idler's bush if not given.

    Returns
    -------
    BushSizes
        ``outside`` nominal; ``fit`` as :func:`mixerkit.parts.fits.fit` gives it; ``pressure`` at most in
        MPa, ``closing`` at least and at most in mm, ``force`` at most to press it in, in N; ``bored``
        the size to bore it to before pressing, so that there is something left to ream; ``reamed``
        least and most size after reaming.

    References
    ----------
    Lame, as in :mod:`mixerkit.parts.pressfit`; 0.2 mm left to ream: common practice.
    """
    one = spec.bearings
    bush = table("bush_materials").find(one.bush_material).values
    outside = bore + 2 * one.bush_wall
    fitted = fits.fit(outside, one.bush_fit)
    # a hub too thin for its bush fails by its own check; here the least that would do stands in
    squeeze = np.maximum([-fitted.loosest, -fitted.tightest], 0.0)
    pressure = np.asarray(
        pressfit.fit_pressure.formula(
            squeeze,
            outside,
            max(around, HUB_OVER_BUSH * outside),
            210.0,
            bush["elastic_modulus"],
            bore,
        )
    )
    closing = np.asarray(
        pressfit.bore_closing.formula(pressure, outside, bore, bush["elastic_modulus"])
    )
    reamed = bore + fits.limits.formula(bore, REAMED) / 1e3
    return BushSizes(
        outside=outside,
        fit=fitted,
        pressure=float(pressure[1]),
        closing=(float(closing[0]), float(closing[1])),
        force=float(pressfit.press_force.formula(pressure[1], outside, length or one.idler_length)),
        bored=float(np.floor(10 * (bore - 0.2 + closing[0])) / 10),
        reamed=(float(reamed[0]), float(reamed[1])),
    )
