"""Whether a paddle bends off its sleeve in a jam, and whether its metal stains the clay."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache, partial

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check, Say
from mixerkit.load import load_workings
from mixerkit.parts.blades import held_forces, projected_width, section_at, turning_width
from mixerkit.results import LoadedMachine, Numbers
from mixerkit.tables import table
from mixerkit.units import in_units
from mixerkit.working import Working

__all__ = ["checks", "stem_stress"]


@in_units(
    "MPa",
    force="N",
    arm="mm >= 0",
    width="mm > 0",
    thickness="mm > 0",
    tip_width="mm > 0",
    tip_thickness="mm > 0",
)
def stem_stress(
    force: Numbers,
    arm: Numbers,
    width: Numbers,
    thickness: Numbers,
    tip_width: Numbers,
    tip_thickness: Numbers,
    set_angle: float,
) -> Numbers:
    r"""Equivalent stress in a paddle that is caught at a corner of its tip, at some place along it.

    .. math:: \sigma_t = \frac{6 F_t x}{b\,t^2}, \quad \sigma_b = \frac{6 F_b x}{t\,b^2}, \quad
              \tau = \frac{T}{b\,t^2} \left(3 + 1.8\,\frac{t}{b}\right), \quad
              \sigma = \max\left(\sigma_t + \sigma_b, \sqrt{\sigma_t^2 + 3\tau^2}\right)

    Parameters
    ----------
    force : quantity, any shape
        In the direction in which the paddle turns, at its tip.
    arm : quantity, broadcast
        From the place looked at to the tip.
    width, thickness : quantity, broadcast
        At the place looked at.
    tip_width, tip_thickness : quantity, broadcast
        Half of one is the lever that twists the paddle, of the other where it is caught on its edge.
    set_angle : float
        In degrees between its face and the plane it turns in.

    Returns
    -------
    quantity [MPa], the broadcast shape
        The worst of being caught on the face and on the edge, with little and with much friction.

    References
    ----------
    Forces: :func:`mixerkit.parts.blades.held_forces`. Bending about both axes of a rectangle: Shigley,
    10th ed., eq. 3-27; its twist: eq. 3-40; both together in the middle of the wide side: eq. 5-15.

    Examples
    --------
    >>> round(stem_stress("5 kN", "60 mm", "35 mm", "22 mm", "30 mm", "6 mm", 60.0), 1)
    <Quantity(132.0, 'megapascal')>
    """
    wide, thin = np.maximum(width, thickness), np.minimum(width, thickness)
    twisted = (3 + 1.8 * thin / wide) / (wide * thin**2)
    worst: Numbers = 0.0
    for k, (flat, edge, _) in enumerate(held_forces(set_angle)):
        over_flat = 6 * flat * arm / (width * thickness**2)
        over_edge = 6 * edge * arm / (thickness * width**2)
        lever = (tip_thickness if k % 2 else tip_width) / 2
        shear = max(flat, edge) * lever * twisted
        at_side = np.maximum(over_flat, over_edge)
        both = np.maximum(over_flat + over_edge, np.sqrt(at_side**2 + 3 * shear**2))
        worst = np.maximum(worst, both)
    return force * worst


_STATIONS = np.linspace(0.0, 1.0, 9)
"""Places along the stem, from the sleeve to the bare blade, at which it may bend first."""


def checks(machine: LoadedMachine) -> list[Check]:
    """Check one paddle that is stopped at its tip, stem and blade, and the metal that is wet.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    blade = machine.spec.paddles
    steel = table("materials").find(blade.material).values
    torque = np.maximum(*machine.power_flow.paddles)
    top = blade.root_radius + blade.stem_height
    radii = blade.root_radius + _STATIONS * min(
        blade.stem_height, max(blade.tip_radius - blade.root_radius, 0.0)
    )
    width, thickness = section_at(blade, radii)
    # of a torque of 1 N*m; which place is worst is the same whatever the torque
    each = np.asarray(
        stem_stress.formula(
            1e3 / blade.tip_radius,
            blade.tip_radius - radii,
            width,
            thickness,
            blade.width,
            blade.thickness,
            blade.set_angle,
        )
    )
    strengths = np.full(len(radii), steel["yield_strength"])
    if machine.spec.sleeve.kind != "none":
        # at the sleeve the weld holds no more than the softer of the two metals
        sleeve = table("materials").find(machine.spec.sleeve.material).values
        strengths[0] = min(strengths[0], sleeve["yield_strength"])
    worst = int((each / strengths).argmax())
    stress = torque * float(each[worst])
    safety, strength = machine.spec.safety.shaft_in_jam, float(strengths[worst])
    across, along = (
        float(size.formula(*section_at(blade, blade.root_radius), blade.set_angle))
        for size in (turning_width, projected_width)
    )

    def stronger(i: int) -> list[Change]:
        more = float(np.sqrt(stress[i] * safety / strength))
        stem: list[Change] = [
            {"paddles.stem_thickness": blade.stem_thickness * more},
            {"paddles.stem_width": blade.stem_width * more},
        ]
        bare: list[Change] = [
            "paddles.stem_height",
            {"paddles.thickness": blade.thickness * more},
            {"paddles.width": blade.width * more},
        ]
        first, second = (bare, stem) if worst else (stem, bare)
        return [
            *first,
            *second,
            *({"paddles.material": one} for one in _clean_rows()),
            "sleeve.material",
            *_eased(
                machine, float(machine.power_flow.jam_torque[i] * strength / (stress[i] * safety))
            ),
        ]

    return [
        make_check(
            machine,
            "paddles",
            "paddles",
            "a paddle stopped at its tip does not bend",
            where=machine.load_cases.jammed,
            demand=stress,
            capacity=strength,
            unit="MPa",
            working=lambda i: load_workings.paddle_stress(
                machine, float(torque[i]), float(each[worst]), float(stress[i]), float(radii[worst])
            ),
            safety=safety,
            rung=(1.0, steel["tensile_strength"] / strength),
            source="caught at a corner: bending over both sides, Shigley 10th ed., eq. 3-27, and twist, eq. 3-40; yield",
            reason=lambda i, say: (
                f"{say(torque[i], 'N*m')} held at the tip of one paddle: {say(torque[i] * (1 - radii[worst] / blade.tip_radius), 'N*m')} "
                f"at {say(radii[worst], 'mm')} from the shaft's middle, where it is {say(width[worst], 'mm')} x {say(thickness[worst], 'mm')}"
            ),
            fix=stronger,
        ),
        make_check(
            machine,
            "paddles",
            "paddles",
            "stems end before the tips",
            demand=top,
            capacity=blade.tip_radius,
            unit="mm",
            working=lambda i: load_workings.stem_ends(machine, top),
            source="geometry",
            reason=lambda i, say: (
                f"sleeve {say(blade.root_radius, 'mm')} and stem {say(blade.stem_height, 'mm')} from the shaft's middle"
            ),
            fix=lambda i: [
                {"paddles.stem_height": blade.tip_radius - blade.root_radius},
                "paddles.tip_radius",
            ],
        ),
        make_check(
            machine,
            "paddles",
            "paddles",
            "stems find room on the sleeve",
            demand=across,
            capacity=2 * blade.root_radius,
            unit="mm",
            working=lambda i: load_workings.sleeve_across(machine, across, 2 * blade.root_radius),
            tight=1.0,
            source="a stem no wider across than the sleeve that carries it: common practice",
            reason=lambda i, say: (
                f"stem {say(blade.stem_width, 'mm')} x {say(blade.stem_thickness, 'mm')} set at {blade.set_angle:g} deg, "
                f"sleeve {say(2 * blade.root_radius, 'mm')} across"
            ),
            fix=lambda i: [
                "paddles.stem_width",
                "paddles.stem_thickness",
                {"paddles.root_radius": across / 2},
                "paddles.set_angle",
            ],
        ),
        make_check(
            machine,
            "paddles",
            "paddles",
            "stems find room along the sleeve",
            demand=along,
            capacity=blade.spacing,
            unit="mm",
            working=lambda i: load_workings.stem_extent(machine, along),
            tight=1.0,
            source="stems side by side do not overlap: geometry",
            reason=lambda i, say: f"stems every {say(blade.spacing, 'mm')}",
            fix=lambda i: [
                "paddles.stem_width",
                "paddles.stem_thickness",
                {"paddles.spacing": along},
            ],
        ),
        *_clean(machine),
    ]


_CLEAN = ("stainless",)
"""Families of data/tables/materials.csv that leave no colour in clay: iron rusts into it, copper stains it
(common practice)."""


def _eased(machine: LoadedMachine, most: float) -> list[Change]:
    """A fuse that lets no more through than a torque at the slow end in N*m."""
    fuse = machine.spec.fuse
    if fuse.kind == "shear pin":
        return ["fuse.pin_diameter"]
    limiter: dict[str, object] = {"fuse.setting": most / (1 + fuse.scatter)}
    return [
        limiter if fuse.kind == "torque limiter" else {"fuse.kind": "torque limiter", **limiter}
    ]


@cache
def _clean_rows() -> tuple[str, ...]:
    """Names of the materials that may be wet, likeliest first."""
    rows = (row.values for row in table("materials"))
    return tuple(row["name"] for row in rows if row["family"] in _CLEAN)


def _clean(machine: LoadedMachine) -> list[Check]:
    """Whether what turns in the wet clay leaves it white: paddles, and sleeves or, without them, the shafts."""
    spec = machine.spec
    wet = {"paddles": "paddles.material"}
    if spec.sleeve.kind == "none":
        wet |= {f"shaft {number}": f"shaft_{number}.material" for number in (1, 2)}
    else:
        wet["sleeve"] = "sleeve.material"
    clean = _clean_rows()
    found = []
    for part, field in wet.items():
        section, name = field.split(".")
        metal = getattr(getattr(spec, section), name)
        covered = (
            [{"sleeve.kind": "carried", "sleeve.material": clean[0]}]
            if part.startswith("shaft")
            else []
        )
        found.append(
            make_check(
                machine,
                "paddles",
                part,
                "metal leaves no rust or stain in the clay",
                demand=1,
                capacity=int(metal in clean),
                unit="",
                working=partial(_by_family, metal, clean),
                words=("a stainless metal", metal),
                tight=1.0,
                source="stainless where clay is wet: common practice",
                reason=partial(_stains, metal),
                fix=partial(_other_metals, field, clean, covered),
            )
        )
    return found


def _by_family(metal: str, clean: Sequence[str], _i: int) -> list[Working]:
    return load_workings.clean_metal(metal, float(metal in clean))


def _stains(metal: str, _i: int, _say: Say) -> str:
    return f"{metal} in wet clay, which iron spots and copper colours"


def _other_metals(
    field: str, clean: Sequence[str], covered: Sequence[Change], _i: int
) -> list[Change]:
    return [*covered, *({field: one} for one in clean)]
