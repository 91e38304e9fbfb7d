"""The trough's sheet as strips between ribs, and what clay and paddles press on it."""

from __future__ import annotations

from mixerkit.constants import STANDARD_GRAVITY
from mixerkit.frozen import result
from mixerkit.load import clay
from mixerkit.parts import sheet_plates
from mixerkit.parts.bearing_loads import axial_push
from mixerkit.results import LoadedMachine
from mixerkit.tables import table

__all__ = ["Sheet", "sheet"]


@result
class Sheet:
    """The trough's sheet, and what presses on it.

    Attributes
    ----------
    span, thickness : float
        From rib to rib, and of the sheet, in mm.
    force : float
        Of one blade on a patch of the wall in N, at the start of a full trough.
    patch : float
        Radius of the patch in mm: half of the blade's smaller side.
    pressure : float
        Of the clay's weight in MPa, at the bottom of a trough full to the paddles' tops.
    height, width : float
        Of the clay on an end wall in mm.
    push : float
        Of all paddles of both shafts on an end wall in N, at the start.
    yields, modulus : float
        In MPa.
    """

    span: float
    thickness: float
    force: float
    patch: float
    pressure: float
    height: float
    width: float
    push: float
    yields: float
    modulus: float

    @property
    def side(self) -> float:
        """Greatest stress of a side wall in MPa."""
        strip = (self.span, self.thickness)
        return float(
            sheet_plates.patch_stress.formula(self.force, *strip, self.patch)
            + sheet_plates.strip_stress.formula(self.pressure, *strip)
        )

    @property
    def gives(self) -> float:
        """Deflection of a side wall in mm."""
        strip = (self.span, self.thickness, self.modulus)
        return float(
            sheet_plates.patch_deflection.formula(self.force, *strip)
            + sheet_plates.strip_deflection.formula(self.pressure, *strip)
        )

    @property
    def end(self) -> float:
        """Stress of an end wall in MPa, a strip between bottom and rim."""
        even = self.push / (self.width * self.height) + self.pressure
        return float(sheet_plates.strip_stress.formula(even, self.height, self.thickness))


def sheet(machine: LoadedMachine) -> Sheet:
    """Say what the trough's sheet is, and what presses on it.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    Sheet
    """
    spec, blade = machine.spec, machine.spec.paddles
    steel = table("materials").find(spec.trough.material).values
    wall = blade.tip_radius + spec.trough.wall_clearance
    height = wall + blade.tip_radius
    density = float(clay.wet_density.formula(spec.clay.water_content))
    return Sheet(
        span=spec.trough.length / (spec.frame.ribs + 1),
        thickness=spec.trough.wall_thickness,
        force=spec.clay.start_factor * machine.clay_load.force,
        patch=min(blade.width, blade.thickness) / 2,
        pressure=density * STANDARD_GRAVITY * height * 1e-9,
        height=height,
        width=spec.housing.centre_distance + 2 * wall,
        push=spec.clay.start_factor * 2 * axial_push(machine),
        yields=steel["yield_strength"],
        modulus=1e3 * steel["elastic_modulus"],
    )
