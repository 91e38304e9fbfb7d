"""How the numbers of the checks of teeth were worked out."""

from __future__ import annotations

from mixerkit.parts.toothstrength import REVERSED, STATIC
from mixerkit.working import Given, Working, worked

__all__ = ["bent", "lasting_bending", "lasting_contact", "pressed", "static_bending"]

_ROW = "data/tables/gear_materials.csv"


def bent(each: float, force: float, stress: float) -> Working:
    """Say how hard a root is bent."""
    return worked(
        "sigma_F = y*F_t",
        stress,
        "MPa",
        y=(each, "mm**-2", "root stress of a newton: ISO 6336-3 method B"),
        F_t=(
            force,
            "N",
            "torque into the gear path over the pitch radius, times the speed factor while mixing, over the application factor in a jam",
        ),
    )


def _limit(limit: float) -> Given:
    return limit, "MPa", f"{_ROW}: bending limit, times Y_ST = 2 of ISO 6336-3"


def lasting_bending(limit: float, life: float, allowed: float) -> Working:
    """Say what bending a root bears both ways over the machine's life."""
    return worked(
        "sigma_FP = Y_N*Y_M*sigma_FE",
        allowed,
        "MPa",
        Y_N=(life, "", "life factor for the loads of the machine's life"),
        Y_M=(REVERSED, "", "ISO 6336-3, loaded both ways (from memory)"),
        sigma_FE=_limit(limit),
    )


def static_bending(limit: float, allowed: float) -> Working:
    """Say what bending a root bears a few times."""
    return worked(
        "sigma_FP = Y_N*sigma_FE",
        allowed,
        "MPa",
        Y_N=(STATIC, "", "ISO 6336-3, static (from memory)"),
        sigma_FE=_limit(limit),
    )


def pressed(each: float, force: float, faster: float, stress: float) -> Working:
    """Say how hard two flanks press."""
    return worked(
        "sigma_H = sigma_1*sqrt(K*F_t/F_1)",
        stress,
        "MPa",
        sigma_1=(each, "MPa", "contact stress of F_1: ISO 6336-2 method B; greatest of all meshes"),
        F_1=(1.0, "N", "a newton"),
        K=(faster, "", "Barth's speed factor over that of walking pace"),
        F_t=(force, "N", "power flow, torque into the gear path over the pitch radius"),
    )


def lasting_contact(limit: float, life: float, allowed: float) -> Working:
    """Say what pressing flanks bear over the machine's life."""
    return worked(
        "sigma_HP = Z_N*sigma_Hlim",
        allowed,
        "MPa",
        Z_N=(life, "", "life factor for the loads of the machine's life"),
        sigma_Hlim=(limit, "MPa", f"{_ROW}: contact limit, the lesser of both gears"),
    )
