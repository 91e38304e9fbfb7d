"""Whether a paddle that is stopped does not bend, its stem finds room, and what is wet leaves clay clean."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.load import paddle_workings
from mixerkit.load.stems import stem_stress, wedged_stress
from mixerkit.parts.blades import projected_width, section_at, turning_width
from mixerkit.parts.kept import kept_by
from mixerkit.results import Array, LoadedMachine
from mixerkit.spec import Paddles, Spec
from mixerkit.tables import table

__all__ = ["checks"]


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
    return [_not_bent(machine), *_find_room(machine), *_clean(machine)]


@dataclass(frozen=True)
class _Held:
    """One paddle held at its tip: where it bends first, and at what.

    Attributes
    ----------
    radius, width, thickness : float
        Of that place, in mm.
    each : float
        Stress there in MPa for 1 N*m on the shaft.
    strength : float
        Yield there in MPa.
    bare : bool
        Whether it is in the stem or blade, and not at the sleeve.
    """

    radius: float
    width: float
    thickness: float
    each: float
    strength: float
    bare: bool


@kept_by("paddles", "sleeve")
def _held(spec: Spec) -> _Held:
    """Find the place of a held paddle that bends first; which it is is the same whatever the torque."""
    blade, sleeve = spec.paddles, spec.sleeve
    radii = blade.root_radius + _STATIONS * min(
        blade.stem_height, max(blade.tip_radius - blade.root_radius, 0.0)
    )
    width, thickness = section_at(blade, radii)
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
    each = np.maximum(each, _wedged(blade, radii, (width, thickness)))
    yields = table("materials").find(blade.material).values["yield_strength"]
    strengths = np.full(len(radii), yields)
    if sleeve.kind != "none":
        # at the sleeve the weld holds no more than the softer of the two metals
        softer = table("materials").find(sleeve.material).values["yield_strength"]
        strengths[0] = min(yields, softer)
    worst = int((each / strengths).argmax())
    return _Held(
        radius=float(radii[worst]),
        width=float(width[worst]),
        thickness=float(thickness[worst]),
        each=float(each[worst]),
        strength=float(strengths[worst]),
        bare=worst > 0,
    )


def _wedged(blade: Paddles, radii: Array, sides: tuple[Array, Array]) -> Array:
    """Stress in MPa for 1 N*m in a paddle with a thing wedged between its tip and the wall, along its stem.

    In the middle of the tip all of the paddle bears it. At an edge the tip may dent and the blade's end bend beside
    it; the foot, by which the rest of the machine is spared, must not. At the corner behind it the wall only
    squeezes a thing, and one at the corner in front straightens the stem as it presses.
    """
    arms = blade.tip_radius - radii
    middle = np.asarray(wedged_stress(arms, sides, blade.set_angle))
    foot = (float(sides[0][0]), float(sides[1][0]))
    for beside in ((blade.width / 2, 0.0), (0.0, blade.thickness / 2)):
        at_edge = wedged_stress(float(arms[0]), foot, blade.set_angle, beside)
        middle[0] = max(middle[0], float(at_edge))
    return middle * 1e3 / blade.tip_radius


def _not_bent(machine: LoadedMachine) -> Check:
    """Whether a paddle stopped at its tip does not bend."""
    blade, held = machine.spec.paddles, _held(machine.spec)
    torque = np.maximum(*machine.power_flow.paddles)
    stress = torque * held.each
    safety = machine.spec.safety.shaft_in_jam
    breaks = table("materials").find(blade.material).values["tensile_strength"]

    def stronger(i: int) -> list[Change]:
        over = float(stress[i] * safety / held.strength)
        more = float(np.sqrt(over))
        stem: list[Change] = [
            {"paddles.stem_thickness": blade.stem_thickness * more},
            {"paddles.stem_width": blade.stem_width * more},
        ]
        bare: list[Change] = [
            "paddles.stem_height",
            {"paddles.thickness": blade.thickness * more},
            {"paddles.width": blade.width * more},
        ]
        first, second = (bare, stem) if held.bare else (stem, bare)
        return [
            *first,
            *second,
            *({"paddles.material": one} for one in _clean_rows()),
            "sleeve.material",
            *_eased(machine, float(machine.power_flow.jam_torque[i]) / over),
        ]

    return make_check(
        machine,
        "paddles",
        "paddles",
        "a paddle stopped at its tip does not bend",
        where=machine.load_cases.jammed,
        demand=stress,
        capacity=held.strength,
        unit="MPa",
        working=lambda i: paddle_workings.paddle_stress(
            machine, float(torque[i]), held.each, float(stress[i]), held.radius
        ),
        safety=safety,
        rung=(1.0, breaks / held.strength),
        source="caught at a corner: bending over both sides, Shigley 10th ed., eq. 3-27, and twist, eq. 3-40 (from memory); "
        "wedged at the wall: thrust with bending, its foot by a push on the tip's edge, whose corners may dent; yield",
        reason=lambda i, say: (
            f"{say(torque[i], 'N*m')} held at the tip of one paddle: "
            f"{say(torque[i] * (1 - held.radius / blade.tip_radius), 'N*m')} "
            f"at {say(held.radius, 'mm')} from the shaft's middle, where it is "
            f"{say(held.width, 'mm')} x {say(held.thickness, 'mm')}"
        ),
        fix=stronger,
    )


def _find_room(machine: LoadedMachine) -> list[Check]:
    """Whether stems end before the tips, and find room on the sleeve."""
    blade = machine.spec.paddles
    top = blade.root_radius + blade.stem_height
    return [
        make_check(
            machine,
            "paddles",
            "paddles",
            "stems end before the tips",
            demand=top,
            capacity=blade.tip_radius,
            unit="mm",
            working=lambda i: paddle_workings.stem_ends(machine, top),
            source="geometry",
            reason=lambda i, say: (
                f"sleeve {say(blade.root_radius, 'mm')} and stem {say(blade.stem_height, 'mm')} from the shaft's middle"
            ),
            fix=lambda i: [
                {"paddles.stem_height": blade.tip_radius - blade.root_radius},
                "paddles.tip_radius",
            ],
        ),
        *_feet_find_room(machine),
    ]


def _feet_find_room(machine: LoadedMachine) -> list[Check]:
    """Whether the feet of the stems find room across the sleeve and along it."""
    blade = machine.spec.paddles
    across, along = (
        float(size.formula(*section_at(blade, blade.root_radius), blade.set_angle))
        for size in (turning_width, projected_width)
    )
    return [
        make_check(
            machine,
            "paddles",
            "paddles",
            "stems find room on the sleeve",
            demand=across,
            capacity=2 * blade.root_radius,
            unit="mm",
            working=lambda i: paddle_workings.sleeve_across(machine, across, 2 * blade.root_radius),
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
            working=lambda i: paddle_workings.stem_extent(machine, along),
            tight=1.0,
            source="stems side by side do not overlap: geometry",
            reason=lambda i, say: f"stems every {say(blade.spacing, 'mm')}",
            fix=lambda i: [
                "paddles.stem_width",
                "paddles.stem_thickness",
                {"paddles.spacing": along},
            ],
        ),
    ]


_CLEAN = ("stainless",)
"""Families of data/tables/materials.csv that leave no colour in clay: iron rusts into it, copper stains it
(common practice)."""

_RUSTING = ("steel", "cast iron")
"""Families that spot clay with iron, which shows in white clay only (common practice)."""


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
    found = [_stainless(machine, "paddles", "paddles.material")]
    if machine.spec.sleeve.kind != "none":
        return [*found, _stainless(machine, "sleeve", "sleeve.material")]
    cover: Change = {"sleeve.kind": "carried", "sleeve.material": _clean_rows()[0]}
    shafts = (
        _stainless(machine, f"shaft {number}", f"shaft_{number}.material", cover)
        for number in (1, 2)
    )
    return [*found, *shafts]


def _stainless(machine: LoadedMachine, part: str, field: str, *cover: Change) -> Check:
    """Whether the metal that a field names leaves clay white; else it is covered, or another is taken."""
    section, name = field.split(".")
    metal = getattr(getattr(machine.spec, section), name)
    family = table("materials").find(metal).values["family"]
    dark = machine.spec.contact.clay == "dark"
    clean = int(metal in _clean_rows() or (dark and family in _RUSTING))
    return make_check(
        machine,
        "paddles",
        part,
        "metal leaves no rust or stain in the clay",
        demand=1,
        capacity=clean,
        unit="",
        working=lambda i: paddle_workings.clean_metal(metal, clean),
        words=("a stainless metal, or iron in dark clay" if dark else "a stainless metal", metal),
        tight=1.0,
        source="stainless where clay is wet: common practice",
        reason=lambda i, say: (
            f"{metal} in wet clay, which iron spots and copper colours"
            + ("; it fires dark, so that iron does not show" if dark else "")
        ),
        fix=lambda i: [*cover, *({field: one} for one in _clean_rows())],
    )
