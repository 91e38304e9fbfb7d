"""The gear paths and the housing they run in.

Ranges of defaults are common practice unless they say more.
"""

from __future__ import annotations

from mixerkit.fields import Record, choice, number, numbers, quantity, section, wholes, words

__all__ = ["GearPath", "Housing", "Paths"]


class GearPath(Record, role="choice"):
    """One train of gears from shaft 1 to shaft 2."""

    tooth_counts: tuple[int, ...] = wholes(
        6, 200, 2, 4, "tooth counts from shaft 1 to shaft 2", "[30, 30]"
    )
    module: float = quantity(
        "mm >= 0.5 <= 25",
        "module, or the diametral pitch in teeth per inch",
        "5 mm",
        reciprocal=True,
    )
    face_width: float = quantity("mm > 0 <= 300", "width of the teeth", "40 mm")
    position: float = quantity(
        "mm > 0 <= 1000",
        "distance of the gears' middle from the inside of the plate at the reducer",
        "40 mm",
    )
    profile_shift_coefficients: tuple[float, ...] = numbers(
        ">= -0.6 <= 1.2",
        4,
        "profile shift coefficient of each gear, its shift in modules; empty for none",
        "[0.2, 0.2]",
        (),
    )
    thinning: float = quantity(
        "mm >= 0 <= 2", "taken off each tooth's thickness for backlash", "0.1 mm", "0.1 mm"
    )
    material: str = words(
        "a material of data/tables/gear_materials.csv for every gear of the path",
        "steel C45 quenched and tempered",
        "steel C45 quenched and tempered",
    )
    idler_material: str = words(
        "the same for the idlers",
        "steel C45 quenched and tempered",
        "steel C45 quenched and tempered",
    )
    flank_roughness: float = quantity(
        "um > 0 <= 200",
        "R_z of the flanks as cut; 25 um is what a form cutter on a small mill may leave (common practice)",
        "12.5 um",
        "25 um",
    )
    mesh_efficiency: float = number(
        ">= 0.5 <= 1", "share of the power through one mesh", "0.97", 0.97, role="practice"
    )


class Paths(Record, role="choice"):
    """Both gear paths: the direct pair and the one with an idler."""

    direct: GearPath = section(GearPath, "the pair that turns the shafts against each other")
    idler: GearPath = section(
        GearPath, "the pair with an idler, that turns both shafts the same way"
    )


class Housing(Record, role="choice"):
    """The two plates that hold the gears, and the distance of the shafts."""

    centre_distance: float = quantity(
        "mm > 0 <= 2000", "distance between the paddle shafts", "150 mm"
    )
    idler_side: str = choice(
        ("above", "below"), "side of the line of the shafts on which the idler sits", "above"
    )
    hub_diameter: float = quantity(
        "mm > 0 <= 500", "of the hubs beside the shafts' gears", "70 mm", "70 mm"
    )
    plate_thickness: float = quantity(
        "mm > 0 <= 200", "thickness of each plate, machined", "20 mm", "20 mm"
    )
    plate_material: str = words(
        "a material of data/tables/materials.csv", "steel S355J2", "steel S355J2"
    )
    tie_bolt: str = words("thread of the four bolts that tie the plates", "M12", "M12")
    dowel: float = quantity("mm > 0 <= 50", "of the two dowels of the plates", "10 mm", "10 mm")
    idler_pin: float = quantity("mm > 0 <= 200", "diameter of the idler's pin", "30 mm", "30 mm")
    lubricant_viscosity: float = quantity(
        "mm**2/s > 0 <= 5000",
        "at 40 degC of the oil, or of the oil in the grease, on the gears; thin greases are of ISO VG 100 "
        "(common practice)",
        "460 mm^2/s",
        "100 mm^2/s",
    )
    wall_distance: float = quantity(
        "mm > 0 <= 2000",
        "from the shafts' middles to the nearest wall of the gear case",
        "170 mm",
        "170 mm",
    )
    plate_spacing: float = quantity(
        "mm > 0 <= 1000", "distance between the insides of the two plates", "150 mm"
    )
