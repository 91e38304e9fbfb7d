"""Whether a paddle bends off its sleeve in a jam, and whether its metal stains the clay."""

from __future__ import annotations

from functools import cache
from typing import Any

import numpy as np

from mixerkit.cases import Case
from mixerkit.checks import Change, Check
from mixerkit.parts.blades import projected_width, section_at, turning_width
from mixerkit.tables import table
from mixerkit.units import in_units

__all__ = ["checks", "stem_stress"]


@in_units("MPa", moment="N*m", width="mm > 0", thickness="mm > 0", set_angle="deg >= 0 <= 90")
def stem_stress(moment: Any, width: Any, thickness: Any, set_angle: Any) -> Any:
    r"""Bending stress at the root of a paddle, a flat bar set at an angle.

    .. math:: \sigma = \frac{6 M \sin\beta}{b\,t^2} + \frac{6 M \cos\beta}{t\,b^2}

    Parameters
    ----------
    moment : quantity, any shape
        Of the clay's force about the root, across the shaft.
    width, thickness : quantity, broadcast
        Of the stem where it meets the sleeve.
    set_angle : quantity, broadcast
        Between its face and the plane it turns in; 90 degrees bends it over its thickness.

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Bending about both axes of a rectangle: Shigley, 10th ed., eq. 3-27.

    Examples
    --------
    >>> round(stem_stress("470 N*m", "35 mm", "22 mm", "60 deg"), 1)
    <Quantity(196.5, 'megapascal')>
    """
    lean = np.radians(set_angle)
    over_flat = np.sin(lean) / (width * thickness**2)
    over_edge = np.cos(lean) / (thickness * width**2)
    return 6e3 * moment * (over_flat + over_edge)


_STATIONS = np.linspace(0.0, 1.0, 9)
"""Places along the stem, from the sleeve to the bare blade, at which it may bend first."""


def checks(case: Case) -> list[Check]:
    """Check one paddle that is stopped at its tip, stem and blade, and the metal that is wet.

    Parameters
    ----------
    case : Case

    Returns
    -------
    list of Check
    """
    blade = case.plain.paddles
    steel = table("materials").find(blade.material).plain
    torque = np.maximum(*case.flow.paddles)
    top = blade.root_radius + blade.stem_height
    radii = blade.root_radius + _STATIONS * min(
        blade.stem_height, max(blade.tip_radius - blade.root_radius, 0.0)
    )
    width, thickness = section_at(blade, radii)
    # of a torque of 1 N*m; where it is greatest is the same whatever the torque
    each = stem_stress.plain(1 - radii / blade.tip_radius, width, thickness, blade.set_angle)
    worst = int(each.argmax())
    stress = torque * float(each[worst])
    safety, strength = case.plain.safety.shaft_in_jam, steel["yield_strength"]
    across, along = (
        float(size.plain(*section_at(blade, blade.root_radius), blade.set_angle))
        for size in (turning_width, projected_width)
    )

    def stronger(i: int) -> list[Change]:
        more = float(np.sqrt(stress[i] * safety / strength))
        stem: list[Change] = [
            {"paddles.stem_thickness": blade.stem_thickness * more},
            {"paddles.stem_width": blade.stem_width * more},
        ]
        bare: list[Change] = [
            "paddles.stem_height", {"paddles.thickness": blade.thickness * more}, {"paddles.width": blade.width * more},
        ]  # fmt: skip
        first, second = (bare, stem) if worst else (stem, bare)
        return [
            *first, *second, *({"paddles.material": one} for one in _clean_rows()),
            *_eased(case, float(case.flow.stop[i] * strength / (stress[i] * safety))),
        ]  # fmt: skip

    return [
        case.check(
            "paddles", "paddles", "a paddle stopped at its tip does not bend", where=case.jammed, demand=stress, capacity=strength,
            unit="MPa", safety=safety, rung=(1.0, steel["tensile_strength"] / strength),
            source="bending about both axes: Shigley 10th ed., eq. 3-27; yield",
            reason=lambda i, say: (
                f"{say(torque[i], 'N*m')} held at the tip of one paddle: {say(torque[i] * (1 - radii[worst] / blade.tip_radius), 'N*m')} "
                f"at {say(radii[worst], 'mm')} from the shaft's middle, where it is {say(width[worst], 'mm')} x {say(thickness[worst], 'mm')}"
            ),
            fix=stronger,
        ),
        case.check(
            "paddles", "paddles", "stems end before the tips", demand=top, capacity=blade.tip_radius, unit="mm",
            source="geometry",
            reason=lambda i, say: f"sleeve {say(blade.root_radius, 'mm')} and stem {say(blade.stem_height, 'mm')} from the shaft's middle",
            fix=lambda i: [{"paddles.stem_height": blade.tip_radius - blade.root_radius}, "paddles.tip_radius"],
        ),
        case.check(
            "paddles", "paddles", "stems find room on the sleeve", demand=across, capacity=2 * blade.root_radius, unit="mm", tight=1.0,
            source="a stem no wider across than the sleeve that carries it: common practice",
            reason=lambda i, say: (
                f"stem {say(blade.stem_width, 'mm')} x {say(blade.stem_thickness, 'mm')} set at {blade.set_angle:g} deg, "
                f"sleeve {say(2 * blade.root_radius, 'mm')} across"
            ),
            fix=lambda i: ["paddles.stem_width", "paddles.stem_thickness", {"paddles.root_radius": across / 2}, "paddles.set_angle"],
        ),
        case.check(
            "paddles", "paddles", "stems find room along the sleeve", demand=along, capacity=blade.spacing, unit="mm", tight=1.0,
            source="stems side by side do not overlap: geometry",
            reason=lambda i, say: f"stems every {say(blade.spacing, 'mm')}",
            fix=lambda i: ["paddles.stem_width", "paddles.stem_thickness", {"paddles.spacing": along}],
        ),
        *_clean(case),
    ]  # fmt: skip


_CLEAN = ("stainless",)
"""Families of data/tables/materials.csv that leave no colour in clay: iron rusts into it, copper stains it
(common practice)."""


def _eased(case: Case, most: float) -> list[Change]:
    """A fuse that lets no more through than a torque at the slow end in N*m."""
    fuse = case.plain.fuse
    if fuse.kind == "shear pin":
        return ["fuse.pin_diameter"]
    limiter: dict[str, object] = {"fuse.setting": most / (1 + fuse.scatter)}
    return [
        limiter if fuse.kind == "torque limiter" else {"fuse.kind": "torque limiter", **limiter}
    ]


@cache
def _clean_rows() -> tuple[str, ...]:
    """Names of the materials that may be wet, likeliest first."""
    rows = (row.plain for row in table("materials"))
    return tuple(row["name"] for row in rows if row["family"] in _CLEAN)


def _clean(case: Case) -> list[Check]:
    """Whether what turns in the wet clay leaves it white: paddles, and sleeves or, without them, the shafts."""
    plain = case.plain
    wet = {"paddles": "paddles.material"}
    if plain.sleeve.kind == "none":
        wet |= {f"shaft {number}": f"shaft_{number}.material" for number in (1, 2)}
    else:
        wet["sleeve"] = "sleeve.material"
    clean = _clean_rows()
    found = []
    for part, field in wet.items():
        section, name = field.split(".")
        metal = getattr(getattr(plain, section), name)
        covered = (
            [{"sleeve.kind": "carried", "sleeve.material": clean[0]}]
            if part.startswith("shaft")
            else []
        )
        found.append(
            case.check(
                "paddles", part, "metal leaves no rust or stain in the clay", demand=1, capacity=int(metal in clean), unit="",
                words=("a stainless metal", metal), tight=1.0, source="stainless where clay is wet: common practice",
                reason=lambda i, say, metal=metal: f"{metal} in wet clay, which iron spots and copper colours",
                fix=lambda i, field=field, covered=covered: [*covered, *({field: one} for one in clean)],
            )
        )  # fmt: skip
    return found
