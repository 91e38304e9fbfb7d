"""How the numbers of the checks of teeth were worked out."""

from __future__ import annotations

import numpy as np

from mixerkit.parts import face_load, tooth_lives, toothcontact, toothstrength
from mixerkit.parts.tooth_loads import Flank, LoadedTeeth, Root, pitch_speed
from mixerkit.working import Given, Working, by_method, worked

__all__ = [
    "bent",
    "force_in_a_jam",
    "force_with_speed",
    "lasting_bending",
    "lasting_contact",
    "pressed",
    "static_bending",
    "static_contact",
    "uneven",
]

_ROW = "data/tables/gear_materials.csv"
_K = "K_A K_v K_F-alpha of a hand-cut gear at walking pace: common practice"
_LEAN = "ISO 6336-1:2006, clause 7, method C (from memory)"


def _force(teeth: LoadedTeeth, i: int, formula: str, force: float, **more: Given) -> Working:
    """Say which force along the pitch circles a torque into the gear path makes."""
    of = teeth.of
    return worked(
        formula,
        force,
        "N",
        source="",
        T=(
            float(of.machine.power_flow.torque_into_gear_path[i]),
            "N*m",
            "power flow, torque into the gear path",
        ),
        m=(of.path.module, "mm", of.field("module")),
        z=(of.counts[0], "", "gear on shaft 1"),
        **more,
    )


def force_with_speed(teeth: LoadedTeeth, i: int) -> Working:
    """Say which force the teeth carry while mixing, with what speed adds."""
    faster: Given = (teeth.faster, "", "Barth's speed factor over that of walking pace")
    return _force(teeth, i, "F_t = 2*T*K_s/(m*z)", float(teeth.mixing[i]), K_s=faster)


def force_in_a_jam(teeth: LoadedTeeth, i: int) -> Working:
    """Say which force the teeth carry in a jam."""
    shock: Given = (
        toothstrength.HAND_CUT.application,
        "",
        "application factor: a jam is itself the shock that it stands for",
    )
    return _force(teeth, i, "F_t = 2*T/(m*z*K_A)", float(teeth.jam[i]), K_A=shock)


def uneven(
    teeth: LoadedTeeth, at: int, i: int, force: float, *, bends: bool = True
) -> list[Working]:
    """Say how unevenly the face of a mesh carries a force; without what it bends itself where it only dents."""
    of, one = teeth.of, teeth.spreads[at]
    wide: Given = (of.path.face_width, "mm", of.field("face_width"))
    apart = float(one.misaligned[i]) if bends else one.standing
    factor = float((one.factor if bends else one.before)[i])
    load, stiffness = float(one.load[i]), float(one.stiffness[i])
    whole = apart * stiffness * of.path.face_width <= 2 * load
    shock, shakes = toothstrength.HAND_CUT.application, toothstrength.HAND_CUT.dynamic
    return [
        *_leaning(teeth, at, i, bends=bends),
        by_method(
            "c_gamma",
            "ISO 6336-1:2006, clause 9.3, method B (from memory): stiffness of the mesh against a lean",
            stiffness,
            "GPa",
        ),
        worked(
            "F_m = F_t*K_A*K_v",
            load,
            "N",
            source="",
            F_t=(force, "N", "above"),
            K_A=(shock, "", "of a hand-cut gear: common practice"),
            K_v=(shakes, "", "of a hand-cut gear: common practice"),
        ),
        worked(
            "K_beta = Max(1 + F_beta*c_gamma*b/(2*F_m), k)"
            if whole
            else "K_beta = Max(sqrt(2*F_beta*c_gamma*b/F_m), k)",
            factor,
            "",
            source=_LEAN,
            F_beta=(apart, "um", "above"),
            c_gamma=(stiffness, "GPa", "above"),
            b=wide,
            F_m=(load, "N", "above"),
            k=(toothstrength.HAND_CUT.along, "", "teeth cut by hand: common practice"),
        ),
    ]


def _leaning(teeth: LoadedTeeth, at: int, i: int, *, bends: bool) -> list[Working]:
    """Say how far the flanks of a mesh part at one end of the face."""
    of, one = teeth.of, teeth.spreads[at]
    wide: Given = (of.path.face_width, "mm", of.field("face_width"))
    tilt, bent = 1e3 * one.lean.off_line, float(1e3 * one.lean.bent[i])
    tilted = by_method(
        "phi_s",
        "slope of the shafts as beams at the gears of this mesh, each bearing in turn off its line",
        tilt,
        "mrad",
        delta=(of.machine.spec.bearings.misalignment, "mm", "bearings.misalignment"),
    )
    off: Given = (tilt, "mrad", "above")
    if not bends:
        apart = worked("F_beta = b*phi_s", one.standing, "um", source=_LEAN, b=wide, phi_s=off)
        return [tilted, apart]
    jammed = bool(of.machine.load_cases.jammed[i])
    runs = "run in, of both flanks: ISO 6336-1:2006, clause 7.5 (from memory)"
    return [
        tilted,
        by_method(
            "phi",
            "slope of one shaft, or of the idler's pin between its plates, against the other's, as beams under their "
            "forces, the worst of a turn",
            bent,
            "mrad",
        ),
        worked(
            "F_beta = b*(q*phi + phi_s)*(1 - y)",
            float(one.misaligned[i]),
            "um",
            source=_LEAN,
            b=wide,
            q=(face_load.BENT_MORE, "", "bent, not straight: ISO 6336-1 (from memory)"),
            phi=(bent, "mrad", "above"),
            phi_s=off,
            y=(
                float(np.asarray(one.run_in)[i]),
                "",
                "nothing has run in yet where the first day jams" if jammed else runs,
            ),
        ),
    ]


def bent(teeth: LoadedTeeth, root: Root, force: float, along: float, stress: float) -> Working:
    """Say how hard a root is bent."""
    of, pair, side = teeth.of, root.pair, root.side
    form, notch = toothstrength.root_factors(
        of.path.module, *pair.seen_from(side), pair.distance, of.path.thinning
    )
    return worked(
        "sigma_F = F_t*Y_F*Y_S*K*K_beta/(b*m)",
        stress,
        "MPa",
        F_t=(force, "N", "above"),
        Y_F=(float(form), "", f"form factor of {root.teeth} teeth as thinned, ISO 6336-3"),
        Y_S=(float(notch), "", "stress correction factor, ISO 6336-3"),
        K=(toothstrength.LOAD_FACTOR, "", _K),
        K_beta=(along, "", "above"),
        b=(of.path.face_width, "mm", of.field("face_width")),
        m=(of.path.module, "mm", of.field("module")),
    )


def _limit(root: Root) -> dict[str, Given]:
    name = root.steel["name"]
    return {
        "sigma_Flim": (root.steel["bending_limit"], "MPa", f"{_ROW}, {name}: bending limit"),
        "Y_ST": (tooth_lives.STRESSING, "", "stress correction of the test gears, ISO 6336-3"),
    }


def _carried(root: Root) -> Working:
    """Say what a metal carries at all: yield without the notch, of brittle iron what breaks it."""
    metal, row = root.metal, f"data/tables/materials.csv, {root.steel['name']}"
    breaks: Given = (metal["tensile_strength"], "MPa", f"{row}: tensile strength")
    if root.brittle:
        return worked("sigma_max = R_m", root.carried, "MPa", R_m=breaks)
    return worked(
        "sigma_max = R_e*Y_S",
        root.carried,
        "MPa",
        source="the notch evens out as it yields: Shigley 10th ed., section 3-13 (from memory)",
        R_e=(metal["yield_strength"], "MPa", f"{row}: yield strength"),
        Y_S=(root.notch, "", "stress correction factor, ISO 6336-3"),
    )


def lasting_bending(root: Root) -> list[Working]:
    """Say what bending a root bears both ways over the machine's life."""
    life = float(tooth_lives.life_factors(root.cycles, root.steel["life"])[0])
    return [
        _carried(root),
        worked(
            "sigma_FP = Min(sigma_Flim*Y_ST*Y_N*Y_M, sigma_max)",
            root.lasting,
            "MPa",
            source="",
            **_limit(root),
            Y_N=(life, "", f"life factor for {root.cycles:.3g} loads, ISO 6336-3 (from memory)"),
            Y_M=(tooth_lives.REVERSED, "", "ISO 6336-3, loaded both ways (from memory)"),
            sigma_max=(root.carried, "MPa", "above"),
        ),
    ]


def static_bending(root: Root) -> list[Working]:
    """Say what bending a root bears a few times."""
    kind = root.steel["life"]
    return [
        _carried(root),
        worked(
            "sigma_FP = Min(sigma_Flim*Y_ST*Y_N, sigma_max)",
            root.once,
            "MPa",
            source="",
            **_limit(root),
            Y_N=(root.static_factor, "", f"data/tables/gear_lives.csv, {kind}: bending static"),
            sigma_max=(root.carried, "MPa", "above"),
        ),
    ]


def pressed(teeth: LoadedTeeth, flank: Flank, force: float, along: float, stress: float) -> Working:
    """Say how hard two flanks press."""
    path, pair = teeth.of.path, flank.pair
    zone, share = toothcontact.contact_factors(path.module, *pair.counts, pair.distance, pair.ratio)
    alone = toothcontact.single_contact_factor(
        path.module, pair.counts, pair.tips, pair.distance, pair.ratio
    )
    return worked(
        "sigma_H = Z_B*Z_H*Z_epsilon*sqrt(F_t*(u + 1)*K*K_beta*E_r/(d_1*b*u))",
        stress,
        "MPa",
        Z_B=(float(alone), "", "where one pair begins to bear alone, ISO 6336-2 (from memory)"),
        Z_H=(float(zone), "", "zone factor of this mesh, ISO 6336-2"),
        Z_epsilon=(float(share), "", "contact ratio factor, ISO 6336-2"),
        F_t=(force, "N", "above"),
        u=(max(pair.counts) / min(pair.counts), "", "larger over smaller tooth count"),
        K=(toothstrength.LOAD_FACTOR, "", _K),
        K_beta=(along, "", "above"),
        E_r=(flank.elastic**2, "MPa", "elasticity factor Z_E of both steels, squared"),
        d_1=(path.module * min(pair.counts), "mm", "reference circle of the smaller gear"),
        b=(path.face_width, "mm", teeth.of.field("face_width")),
    )


def static_contact(flank: Flank) -> list[Working]:
    """Say what pressing flanks bear a few times."""
    limit, name, kind = flank.steel["contact_limit"], flank.steel["name"], flank.steel["life"]
    return [
        worked(
            "sigma_HP = sigma_Hlim*Z_N",
            flank.once,
            "MPa",
            source="ISO 6336-2:2006, clause 5: for static strength nothing counts that is between the flanks (from memory)",
            sigma_Hlim=(limit, "MPa", f"{_ROW}, {name}: contact limit"),
            Z_N=(flank.static_factor, "", f"data/tables/gear_lives.csv, {kind}: contact static"),
        ),
    ]


def _film(teeth: LoadedTeeth) -> list[Working]:
    """Say what grease, speed and roughness leave of the flanks' strength."""
    of, flank = teeth.of, teeth.flank
    viscosity: Given = (
        of.machine.spec.housing.lubricant_viscosity,
        "mm**2/s",
        "housing.lubricant_viscosity",
    )
    speed: Given = (pitch_speed(of.machine, of.path), "m/s", "of the pitch line while mixing")
    rough: Given = (of.path.flank_roughness, "um", of.field("flank_roughness"))
    radius: Given = (flank.radius, "mm", "relative curvature at the pitch point, from the mesh")
    limit: Given = (
        flank.steel["contact_limit"],
        "MPa",
        f"{_ROW}, {flank.steel['name']}: contact limit",
    )
    way = "ISO 6336-2:2006, clause 12, method B"
    return [
        by_method("Z_L", way, flank.film[0], "", nu_40=viscosity, sigma_Hlim=limit),
        by_method("Z_v", way, flank.film[1], "", v=speed, sigma_Hlim=limit),
        by_method("Z_R", way, flank.film[2], "", R_z=rough, rho=radius, sigma_Hlim=limit),
    ]


def lasting_contact(teeth: LoadedTeeth) -> list[Working]:
    """Say what pressing flanks bear over the machine's life."""
    flank = teeth.flank
    limit, name = flank.steel["contact_limit"], flank.steel["name"]
    loads = f"{flank.cycles:.3g} loads"
    return [
        *_film(teeth),
        worked(
            "sigma_HP = sigma_Hlim*Z_N*(Z_L*Z_v*Z_R)**s",
            flank.lasting,
            "MPa",
            source="ISO 6336-2:2006, clauses 5 and 12 (from memory)",
            sigma_Hlim=(limit, "MPa", f"{_ROW}, {name}: contact limit"),
            Z_N=(flank.life, "", f"life factor for {loads}, ISO 6336-2 (from memory)"),
            Z_L=(flank.film[0], "", "lubricant factor, above"),
            Z_v=(flank.film[1], "", "speed factor, above"),
            Z_R=(flank.film[2], "", "roughness factor, above"),
            s=(
                flank.share,
                "",
                f"share of them that counts for {loads}: on logarithms none at 1e5, all at {flank.lasting_loads:.0e}",
            ),
        ),
    ]
