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
    how = {
        "base tangent": f"over {spanned} teeth",
        "size over two pins": f"pins of {pin:.3f} mm",
        "chordal thickness": "on the pitch circle",
        "chordal height": "from the tip, set on the calliper",
    }

    def sizes(taken: float) -> list[float]:
        of = (module, tooth_count)
        found = (
            base_tangent.formula(*of, spanned, profile_shift, taken),
            over_pins.formula(*of, pin, profile_shift, taken),
            *chordal_thickness.formula(*of, profile_shift, taken),
        )
        return [float(one) for one in found]

    band = zip(*(sizes(thinning + off) for off in (-tolerance, 0.0, tolerance)), strict=True)
    return {
        name: Measure(value=wanted, least=min(thick, thin), most=max(thick, thin), how=how[name])
        for name, (thick, wanted, thin) in zip(how, band, strict=True)
    }
