"""How the numbers of the gears' checks were worked out."""

from __future__ import annotations

from mixerkit.parts import mesh, spurgear
from mixerkit.parts.gear_pairs import Pair, one_word
from mixerkit.parts.toothed import Toothed
from mixerkit.working import Given, Working, by_method, worked

__all__ = [
    "backlash",
    "contact_ratio",
    "of_modules",
    "pointed",
    "root_gap",
    "root_start",
    "tick",
    "undercut",
]

_ALPHA: Given = (20.0, "degree", "pressure angle of the rack of ISO 53 (from memory)")


def _module(of: Toothed) -> Given:
    return of.path.module, "mm", of.field("module")


def of_modules(of: Toothed, symbol: str, share: float, size: float) -> Working:
    """Say that a size is a share of the module."""
    return worked(f"{symbol} = k*m", size, "mm", k=(share, "", "common practice"), m=_module(of))


def undercut(of: Toothed, place: int, needed: float) -> list[Working]:
    """Say how many teeth a gear needs for a sound foot."""
    shift: Given = (of.shifts[place], "", of.field("profile_shift_coefficients"))
    return [worked("z = 2*(1 - x)/sin(alpha)**2", needed, "", x=shift, alpha=_ALPHA)]


def pointed(of: Toothed, place: int, least: float, tip: float) -> list[Working]:
    """Say how thick a tooth is at its tip, and ought to be."""
    module, count = of.path.module, of.counts[place]
    around = float(spurgear.tip_diameter.formula(module, count, of.shifts[place]))
    return [
        of_modules(of, "s", least / module, least),
        worked(
            "s_a = d_a*(pi/(2*z) + 2*x*tan(alpha)/z + tan(alpha) - alpha - tan(alpha_a) + alpha_a) - Delta*d_a/(m*z)",
            tip,
            "mm",
            source="ISO 21771 (from memory); thinned by the same angle at every radius",
            d_a=(around, "mm", "tip circle: module, teeth and shift"),
            z=(count, "", of.field("tooth_counts")),
            x=(of.shifts[place], "", of.field("profile_shift_coefficients")),
            alpha=_ALPHA,
            alpha_a=(
                float(
                    spurgear.pressure_angle_at(
                        spurgear.base_diameter.formula(module, count), around
                    )
                ),
                "degree",
                "cos(alpha_a) = m z cos(alpha) / d_a",
            ),
            Delta=(of.path.thinning, "mm", of.field("thinning")),
            m=_module(of),
        ),
    ]


def contact_ratio(thin: Pair) -> list[Working]:
    """Say how the contact ratio of the thinnest mesh was got."""
    return [
        by_method(
            "epsilon_alpha",
            "length of the path of contact between both tip circles, over the base pitch; least of all meshes",
            thin.ratio,
            "",
            a=(thin.distance, "mm", f"centre distance of {one_word(thin)}"),
            d_a1=(thin.tips[0], "mm", "tip circle of the first gear"),
            d_a2=(thin.tips[1], "mm", "tip circle of the second gear"),
        )
    ]


def root_gap(of: Toothed, one: Pair, i: int, gap: float) -> list[Working]:
    """Say how the gap between a tip and its mate's root was got."""
    return [
        of_modules(of, "c", 0.1, 0.1 * of.path.module),
        worked(
            "c_a = a - d_a/2 - d_f/2",
            gap,
            "mm",
            a=(one.distance, "mm", f"centre distance of {one_word(one)}"),
            d_a=(one.tips[i], "mm", f"tip circle of {one.counts[i]} teeth: m (z + 2 + 2 x)"),
            d_f=(
                one.roots[1 - i],
                "mm",
                f"root circle of {one.counts[1 - i]} teeth: m (z - 2.5 + 2 x)",
            ),
        ),
    ]


def backlash(of: Toothed, one: Pair) -> Working:
    """Say how the play of a mesh was got."""
    return worked(
        "j_w = 2*a*(tan(alpha_w) - alpha_w - tan(alpha) + alpha - 2*x*tan(alpha)/(z_1 + z_2)) + 2*Delta*cos(alpha)/cos(alpha_w)",
        one.play,
        "mm",
        source="ISO 21771 (from memory)",
        a=(one.distance, "mm", f"centre distance of {one_word(one)}"),
        alpha_w=(
            float(mesh.working_pressure_angle.formula(of.path.module, *one.counts, one.distance)),
            "degree",
            "cos(alpha_w) = m (z_1 + z_2) cos(alpha) / (2 a)",
        ),
        alpha=_ALPHA,
        x=(sum(one.shifts), "", "both profile shifts together"),
        z_1=(one.counts[0], "", of.field("tooth_counts")),
        z_2=(one.counts[1], "", of.field("tooth_counts")),
        Delta=(of.path.thinning, "mm", of.field("thinning")),
    )


def tick(of: Toothed, one: Pair, step: float) -> list[Working]:
    """Say how the step between two form-cut teeth was got, and what is allowed."""
    return [
        by_method(
            "f_t",
            "form of the cutter's own count against the gear's, half a base pitch from the pitch point, along the "
            "line of action; greatest of all gears",
            step,
            "mm",
            m=_module(of),
            z_1=(one.counts[0], "", of.field("tooth_counts")),
            z_2=(one.counts[1], "", of.field("tooth_counts")),
            a=(one.distance, "mm", f"centre distance of {one_word(one)}"),
        ),
        of_modules(of, "f", 0.05, 0.05 * of.path.module),
    ]


def root_start(of: Toothed, one: Pair, i: int, starts: float, reaches: float) -> list[Working]:
    """Say where on the line of action a flank begins, and where its mate's tip first touches it."""
    mate = 1 - i
    base = spurgear.base_diameter.formula(of.path.module, one.counts[mate])
    return [
        worked(
            "rho_F = m*(z*sin(alpha)/2 - (h - r*(1 - sin(alpha)) - x)/sin(alpha))",
            starts,
            "mm",
            m=_module(of),
            z=(one.counts[i], "", of.field("tooth_counts")),
            alpha=_ALPHA,
            h=(spurgear.DEDENDUM, "", "dedendum of the rack of ISO 53 in modules (from memory)"),
            r=(spurgear.FILLET, "", "its rounding in modules (from memory)"),
            x=(one.shifts[i], "", of.field("profile_shift_coefficients")),
        ),
        worked(
            "rho = a*sin(alpha_w) - sqrt(d_a**2 - d_b**2)/2",
            reaches,
            "mm",
            a=(one.distance, "mm", f"centre distance of {one_word(one)}"),
            alpha_w=(one.working, "degree", "working pressure angle of this mesh"),
            d_a=(one.tips[mate], "mm", f"tip circle of {one.counts[mate]} teeth"),
            d_b=(float(base), "mm", f"base circle of {one.counts[mate]} teeth"),
        ),
    ]


def idler_beside(
    free: float, distances: tuple[float, float], radii: tuple[float, float], tip: float
) -> list[Working]:
    """Say how the room between the idler and shafts or hubs was got."""
    return [
        worked(
            "s = Min(a_1 - r_1, a_2 - r_2) - r_a",
            free,
            "mm",
            a_1=(distances[0], "mm", "idler from shaft 1: its mesh"),
            a_2=(distances[1], "mm", "idler from shaft 2: its place"),
            r_1=(radii[0], "mm", "half of shaft_1.diameter or housing.hub_diameter, the larger"),
            r_2=(radii[1], "mm", "half of shaft_2.diameter or housing.hub_diameter, the larger"),
            r_a=(tip, "mm", "tip radius of the idler"),
        )
    ]


def pin_beside(
    free: float, distances: tuple[float, float], tips: tuple[float, float], pin: float
) -> list[Working]:
    """Say how the room between the idler's pin and the direct pair was got."""
    return [
        worked(
            "s = Min(a_1 - r_1, a_2 - r_2) - d/2",
            free,
            "mm",
            a_1=(distances[0], "mm", "pin from shaft 1: the idler's mesh"),
            a_2=(distances[1], "mm", "pin from shaft 2: the idler's place"),
            r_1=(tips[0], "mm", "tip radius of the direct gear on shaft 1"),
            r_2=(tips[1], "mm", "tip radius of the direct gear on shaft 2"),
            d=(pin, "mm", "housing.idler_pin"),
        )
    ]


def idler_reach(aside: float, tip: float, gap: float, reach: float) -> list[Working]:
    """Say how far the idler reaches, with its gap."""
    return [
        worked(
            "h = y + r_a + s",
            reach,
            "mm",
            y=(aside, "mm", "place of the idler off the shafts' line"),
            r_a=(tip, "mm", "tip radius of the idler"),
            s=(gap, "mm", "safety.tip_clearance"),
        )
    ]


def idler_pin(pin: float, force: float, moment: float, stress: float) -> list[Working]:
    """Say how the bending of the idler's pin was got."""
    return [
        by_method(
            "M",
            "vector sum of both tooth forces on a pin held at both plates",
            moment,
            "N*m",
            F=(force, "N", "tooth forces on the idler"),
        ),
        worked(
            "sigma = 32*M/(pi*d**3)",
            stress,
            "MPa",
            M=(moment, "N*m", "above"),
            d=(pin, "mm", "housing.idler_pin"),
        ),
    ]
