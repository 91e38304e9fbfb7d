"""Whether a paddle bends off its sleeve: its stem in a jam and while it mixes."""

from __future__ import annotations

from typing import Any

import numpy as np

from mixerkit.cases import Case
from mixerkit.checks import Check
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

    Raises
    ------
    InputError
        If a size is not positive or a unit does not fit.

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


def checks(case: Case) -> list[Check]:
    """Check the stem of one paddle that is stopped at its tip.

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
    moment = torque * (1 - blade.root_radius / blade.tip_radius)
    stress = stem_stress.plain(moment, blade.stem_width, blade.stem_thickness, blade.set_angle)
    safety, strength = case.plain.safety.shaft_in_jam, steel["yield_strength"]
    return [
        case.check(
            "paddles", "paddles", "a paddle stopped at its tip does not bend", where=case.jammed, demand=stress, capacity=strength,
            unit="MPa", safety=safety, rung=(1.0, steel["tensile_strength"] / strength),
            source="bending about both axes: Shigley 10th ed., eq. 3-27; yield",
            reason=lambda i, say: (
                f"{say(torque[i], 'N*m')} held at the tip of one paddle: {say(moment[i], 'N*m')} at its stem "
                f"{say(blade.stem_width, 'mm')} x {say(blade.stem_thickness, 'mm')}"
            ),
            advice=lambda i, say: (
                f"A stem {say(blade.stem_thickness * np.sqrt(stress[i] * safety / strength), 'mm')} thick would do, or ribs."
            ),
        )
    ]  # fmt: skip
