"""What a micrometer ought to say of a finished gear."""

from __future__ import annotations

from mixerkit.frozen import result
from mixerkit.parts.measuring import (
    base_tangent,
    base_tangent_teeth,
    chordal_thickness,
    over_pins,
    pin_diameter,
)

__all__ = ["gear_values"]


@result
class Measure:
    """What a gear measures, over what, and its limits."""

    value: float
    least: float
    most: float
    how: str


def gear_values(
    module: float,
    tooth_count: int,
    profile_shift: float = 0.0,
    thinning: float = 0.0,
    tolerance: float = 0.0,
) -> dict[str, Measure]:
    """Everything a maker may measure on a gear, with what a band of tooth thickness makes of it.

    Parameters
    ----------
    module : float
        In mm.
    tooth_count : int
    profile_shift : float
    thinning : float
        Wanted, or as measured, off the circular thickness in mm.
    tolerance : float
        Of the circular thickness, either way, in mm.

    Returns
    -------
    dict of str to Measure
        ``"base tangent"``, ``"size over two pins"``, ``"chordal thickness"`` and
        ``"chordal height"``, each with ``value``, ``least`` and ``most`` in mm and ``how`` in words.

    Examples
    --------
    >>> found = gear_values(5.0, 30, thinning=0.1, tolerance=0.03)
    >>> [round(float(getattr(found["base tangent"], one)), 3) for one in ("least", "value", "most")]
    [53.641, 53.669, 53.697]
    """
    spanned, pin = int(base_tangent_teeth(tooth_count, profile_shift)), float(pin_diameter(module))

    def all_at(taken: float) -> dict[str, float]:
        thickness, height = chordal_thickness.formula(module, tooth_count, profile_shift, taken)
        return {
            "base tangent": float(
                base_tangent.formula(module, tooth_count, spanned, profile_shift, taken)
            ),
            "size over two pins": float(
                over_pins.formula(module, tooth_count, pin, profile_shift, taken)
            ),
            "chordal thickness": float(thickness),
            "chordal height": float(height),
        }

    how = {
        "base tangent": f"over {spanned} teeth",
        "size over two pins": f"pins of {pin:.3f} mm",
        "chordal thickness": "on the pitch circle",
        "chordal height": "from the tip, set on the calliper",
    }
    thick, wanted, thin = (
        all_at(thinning - tolerance),
        all_at(thinning),
        all_at(thinning + tolerance),
    )
    return {
        name: Measure(
            value=wanted[name],
            least=min(thick[name], thin[name]),
            most=max(thick[name], thin[name]),
            how=how[name],
        )
        for name in how
    }
