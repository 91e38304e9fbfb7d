"""How the numbers of the checks of the trough's sheet were worked out."""

from __future__ import annotations

from mixerkit.constants import STANDARD_GRAVITY
from mixerkit.load import clay
from mixerkit.load.trough_sheet import Sheet
from mixerkit.parts import sheet_plates
from mixerkit.results import LoadedMachine
from mixerkit.working import Given, Working, worked

__all__ = ["end", "gives", "side"]


def _pressed(machine: LoadedMachine, found: Sheet) -> list[Working]:
    """Say what a paddle and the clay's weight press with."""
    spec = machine.spec
    return [
        worked(
            "W = c*F",
            found.force,
            "N",
            c=(spec.clay.start_factor, "", "clay.start_factor"),
            F=(machine.clay_load.force, "N", "clay load, force of one buried blade"),
        ),
        worked(
            "p = rho*g*h",
            found.pressure,
            "MPa",
            rho=(
                float(clay.wet_density.formula(spec.clay.water_content)),
                "kg/m**3",
                "clay load, density with no air in it, of clay.water_content",
            ),
            g=(STANDARD_GRAVITY, "m/s**2", "standard gravity"),
            h=(found.height, "mm", "from the bottom of the trough to the paddles' tops"),
        ),
    ]


def _span(machine: LoadedMachine, found: Sheet) -> Working:
    return worked(
        "b = L/(n + 1)",
        found.span,
        "mm",
        L=(machine.spec.trough.length, "mm", "trough.length"),
        n=(machine.spec.frame.ribs, "", "frame.ribs"),
    )


def _strip(found: Sheet) -> dict[str, Given]:
    return {
        "W": (found.force, "N", "above"),
        "p": (found.pressure, "MPa", "above"),
        "b": (found.span, "mm", "above"),
        "t": (found.thickness, "mm", "trough.wall_thickness"),
    }


def side(machine: LoadedMachine, found: Sheet) -> list[Working]:
    """Say how the stress of a side was got."""
    return [
        *_pressed(machine, found),
        _span(machine, found),
        worked(
            "sigma = 3*W/(2*pi*t**2)*(1.3*Max(log(2*b/(pi*r)), 0) + 1) + 0.75*p*b**2/t**2",
            found.side,
            "MPa",
            source="",
            **_strip(found),
            r=(
                float(sheet_plates.patch_radius(found.patch, found.thickness)),
                "mm",
                "half of a blade's smaller side, spread in the sheet where that is thick",
            ),
        ),
    ]


def _modulus(machine: LoadedMachine, found: Sheet) -> Given:
    name = machine.spec.trough.material
    return found.modulus / 1e3, "GPa", f"data/tables/materials.csv, {name}: elastic modulus"


def gives(machine: LoadedMachine, found: Sheet, share: float, allowed: float) -> list[Working]:
    """Say how far a side gives, and how far it may."""
    return [
        *_pressed(machine, found),
        _span(machine, found),
        worked(
            "y = (0.1851*W*b**2 + 0.1421*p*b**4)/(E*t**3)",
            found.gives,
            "mm",
            source="",
            **_strip(found),
            E=_modulus(machine, found),
        ),
        worked(
            "y_max = c*s",
            allowed,
            "mm",
            c=(share, "", "common practice"),
            s=(machine.spec.trough.wall_clearance, "mm", "trough.wall_clearance"),
        ),
    ]


def end(machine: LoadedMachine, found: Sheet) -> list[Working]:
    """Say how the stress of an end was got."""
    weight = _pressed(machine, found)[1]
    return [
        weight,
        worked(
            "sigma = 0.75*(W/(b*h) + p)*h**2/t**2",
            found.end,
            "MPa",
            W=(
                found.push,
                "N",
                "clay load, push along both shafts, by clay.start_factor",
            ),
            b=(found.width, "mm", "of the trough over the shafts"),
            h=(found.height, "mm", "from the bottom of the trough to the paddles' tops"),
            p=(found.pressure, "MPa", "above"),
            t=(found.thickness, "mm", "trough.wall_thickness"),
        ),
    ]
