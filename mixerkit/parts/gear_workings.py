"""How the numbers of the gears' checks were worked out."""

from __future__ import annotations

from mixerkit.parts import spurgear
from mixerkit.parts.formcutter import HandOver, cutter_number, made_for
from mixerkit.parts.gear_pairs import Pair, one_word
from mixerkit.parts.idler import idler_leans
from mixerkit.parts.toothed import Toothed
from mixerkit.results import LoadedMachine
from mixerkit.working import Given, Working, by_method, worked

__all__ = [
    "backlash",
    "contact_ratio",
    "idler_beside_plate",
    "of_modules",
    "pointed",
    "root_gap",
    "root_start",
    "tick",
    "undercut",
]

_ALPHA: Given = (20.0, "degree", "pressure angle of the rack of ISO 53 (from memory)")
_TIP = "tip circle m (z + 2 + 2 x)"
_BASE = "base circle m z cos α"


def _module(of: Toothed) -> Given:
    return of.path.module, "mm", of.field("module")


def _distance(one: Pair) -> Given:
    return one.distance, "mm", f"centre distance of {one_word(one)}"


def _working(one: Pair) -> Given:
    return one.working, "degree", "of this mesh: cos α_w = m (z_1 + z_2) cos α / (2 a)"


def of_modules(of: Toothed, symbol: str, share: float) -> Working:
    """Say that a size is a share of the module."""
    size, practice = share * of.path.module, (share, "", "common practice")
    return worked(f"{symbol} = k*m", size, "mm", k=practice, m=_module(of))


def undercut(of: Toothed, place: int, needed: float) -> Working:
    """Say how many teeth a gear needs for a sound foot."""
    shift: Given = (of.shifts[place], "", of.field("profile_shift_coefficients"))
    return worked("z = 2*(1 - x)/sin(alpha)**2", needed, "", x=shift, alpha=_ALPHA)


def pointed(of: Toothed, place: int, tip: float) -> Working:
    """Say how thick a tooth is at its tip."""
    module, count = of.path.module, of.counts[place]
    around = float(spurgear.tip_diameter.formula(module, count, of.shifts[place]))
    base = spurgear.base_diameter.formula(module, count)
    return worked(
        "s_a = d_a*(pi/(2*z) + 2*x*tan(alpha)/z + tan(alpha) - alpha - tan(alpha_a) + alpha_a) - Delta*d_a/(m*z)",
        tip,
        "mm",
        source="ISO 21771 (from memory); thinned by the same angle at every radius",
        d_a=(around, "mm", _TIP),
        z=(count, "", of.field("tooth_counts")),
        x=(of.shifts[place], "", of.field("profile_shift_coefficients")),
        alpha=_ALPHA,
        alpha_a=(
            float(spurgear.pressure_angle_at(base, around)),
            "degree",
            "at the tip: cos α_a = m z cos α / d_a",
        ),
        Delta=(of.path.thinning, "mm", of.field("thinning")),
        m=_module(of),
    )


def contact_ratio(of: Toothed, thin: Pair) -> Working:
    """Say how the contact ratio of the thinnest mesh was got."""
    bases = [float(spurgear.base_diameter.formula(of.path.module, one)) for one in thin.counts]
    return worked(
        "epsilon_alpha = (sqrt(d_a1**2 - d_b1**2)/2 + sqrt(d_a2**2 - d_b2**2)/2 - a*sin(alpha_w))/(pi*m*cos(alpha))",
        thin.ratio,
        "",
        d_a1=(thin.tips[0], "mm", f"{_TIP} of {thin.counts[0]} teeth"),
        d_b1=(bases[0], "mm", f"{_BASE} of {thin.counts[0]} teeth"),
        d_a2=(thin.tips[1], "mm", f"{_TIP} of {thin.counts[1]} teeth"),
        d_b2=(bases[1], "mm", f"{_BASE} of {thin.counts[1]} teeth"),
        a=_distance(thin),
        alpha_w=_working(thin),
        m=_module(of),
        alpha=_ALPHA,
    )


def root_gap(one: Pair, i: int, gap: float) -> Working:
    """Say how the gap between a tip and its mate's root was got."""
    return worked(
        "c_a = a - d_a/2 - d_f/2",
        gap,
        "mm",
        a=_distance(one),
        d_a=(one.tips[i], "mm", f"{_TIP} of {one.counts[i]} teeth"),
        d_f=(one.roots[1 - i], "mm", f"root circle m (z - 2.5 + 2 x) of {one.counts[1 - i]} teeth"),
    )


def backlash(of: Toothed, one: Pair) -> Working:
    """Say how the play of a mesh was got."""
    return worked(
        "j_w = 2*a*(tan(alpha_w) - alpha_w - tan(alpha) + alpha - 2*x*tan(alpha)/(z_1 + z_2)) + 2*Delta*cos(alpha)/cos(alpha_w)",
        one.play,
        "mm",
        source="ISO 21771 (from memory)",
        a=_distance(one),
        alpha_w=_working(one),
        alpha=_ALPHA,
        x=(sum(one.shifts), "", "both profile shifts together"),
        z_1=(one.counts[0], "", of.field("tooth_counts")),
        z_2=(one.counts[1], "", of.field("tooth_counts")),
        Delta=(of.path.thinning, "mm", of.field("thinning")),
    )


def tick(of: Toothed, one: Pair, felt: HandOver) -> list[Working]:
    """Say how the step between two form-cut teeth was got."""
    own = int(made_for(cutter_number(felt.teeth)))
    return [
        by_method(
            "e",
            "half the space of the cutter's own count less that of the gear's, set alike on the pitch circle, where "
            "the next tooth takes over",
            felt.error,
            "mm",
            m=_module(of),
            z=(felt.teeth, "", of.field("tooth_counts")),
            z_0=(own, "", "data/tables/form_cutters.csv, the fewest teeth of its range"),
            h=(felt.height, "", "height over the pitch circle, half a base pitch on, in modules"),
        ),
        worked(
            "f_t = e*cos(alpha_w)",
            felt.step,
            "mm",
            e=(felt.error, "mm", "above"),
            alpha_w=_working(one),
        ),
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
            a=_distance(one),
            alpha_w=_working(one),
            d_a=(one.tips[mate], "mm", f"{_TIP} of {one.counts[mate]} teeth"),
            d_b=(float(base), "mm", f"{_BASE} of {one.counts[mate]} teeth"),
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
            r_1=(radii[0], "mm", "half of shaft 1 there or housing.hub_diameter, the larger"),
            r_2=(radii[1], "mm", "half of shaft 2 there or housing.hub_diameter, the larger"),
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
            d=(pin, "mm", "pin in its spacer: housing.idler_pin and twice a wall"),
        )
    ]


def idler_beside_plate(
    machine: LoadedMachine, room: float, longest: float, behind: bool
) -> list[Working]:
    """Say how the room between the idler and the nearer plate was got."""
    spec = machine.spec
    at: Given = (spec.paths.idler.position, "mm", "paths.idler.position")
    long: Given = (longest, "mm", "the longer of paths.idler.face_width and bearings.idler_length")
    if behind:
        apart: Given = (spec.housing.plate_spacing, "mm", "housing.plate_spacing")
        return [worked("s = L - x - l/2", room, "mm", L=apart, x=at, l=long)]
    return [worked("s = x - l/2", room, "mm", x=at, l=long)]


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


def idler_pin(
    machine: LoadedMachine, i: int, force: float, moment: float, stress: float
) -> list[Working]:
    """Say how the bending of the idler's pin was got."""
    spec, (first, last) = machine.spec, idler_leans(machine.spec)
    path = spec.paths.idler
    return [
        by_method(
            "F",
            "vector sum of both tooth forces F_t = 2 T / d, each leaning by the pressure angle of its mesh",
            force,
            "N",
            T=(
                float(machine.power_flow.torque_into_gear_path[i]),
                "N*m",
                "power flow, torque into the gear path",
            ),
            d=(path.module * path.tooth_counts[0], "mm", "pitch circle of the gear on shaft 1"),
            alpha_w1=(first, "degree", "working pressure angle of the idler's first mesh"),
            alpha_w2=(last, "degree", "and of its last"),
        ),
        worked(
            "M = F*x*(L - x)/L",
            moment,
            "N*m",
            source="held at both plates: Shigley 10th ed., table A-9, beam 6",
            F=(force, "N", "above"),
            x=(path.position, "mm", "paths.idler.position"),
            L=(spec.housing.plate_spacing, "mm", "housing.plate_spacing"),
        ),
        worked(
            "sigma = 32*M/(pi*d**3)",
            stress,
            "MPa",
            M=(moment, "N*m", "above"),
            d=(spec.housing.idler_pin, "mm", "housing.idler_pin"),
        ),
    ]
