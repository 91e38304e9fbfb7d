"""Whether the wall of a sleeve bears a paddle that is caught: a thin one folds in beside the stem's foot."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.parts.blades import WEDGE_FRICTION, extent_at, wedge_push
from mixerkit.parts.remedies import calmer
from mixerkit.parts.sleeve_beam import sleeve_sizes
from mixerkit.parts.sleeve_checks import stronger_sleeve
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import Array, Numbers
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import in_units
from mixerkit.working import Working, worked

__all__ = ["checks", "pressed_share", "wall_stress"]

_SPREAD = 1.56
"""Length of a thin tube that bends with what stands on it, beyond it, in roots of radius times wall: twice 0.78
(Roark's Formulas, thin shells, from memory)."""


@in_units(
    "MPa",
    couple="N*m >= 0",
    push="N >= 0",
    radius="mm > 0",
    wall="mm > 0",
    foot="mm > 0",
    along="mm > 0",
)
def wall_stress(
    couple: Numbers, push: Numbers, radius: Numbers, wall: Numbers, foot: Numbers, along: Numbers
) -> Numbers:
    r"""Bending stress in the wall of a tube beside a foot that is turned over round the tube and pressed into it.

    .. math:: \sigma = \frac{6}{b t^2} \left(M\,\frac{\pi - \alpha - 2\sin\alpha}{2\pi} + N r\,k\right),
        \quad \alpha = \arcsin\frac{s}{2 r}, \quad b = l + 1.56 \sqrt{r t}

    Parameters
    ----------
    couple : quantity, any shape
        Of the foot.
    push : quantity, broadcast
        Of the foot towards the tube's middle; its share k of what a straight arm would feel is :func:`pressed_share`.
    radius, wall : quantity, broadcast
        Middle of the tube's wall, and its thickness.
    foot, along : quantity, broadcast
        The foot's size round the tube and along it.

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Ring under a couple that shear round it bears: Roark's Formulas, table 9.2 (from memory), at the edge of the foot,
    which is taken as rigid; the length that bends with it: thin shells.

    Examples
    --------
    >>> wall_stress("200 N*m", "0 N", "40 mm", "4 mm", "20 mm", "30 mm").round(0)
    <Quantity(573.0, 'megapascal')>
    """
    half = _half(foot, radius)
    turned = np.maximum((pi - half - 2 * np.sin(half)) / (2 * pi), 0.0)
    felt = 1e3 * couple * turned + push * radius * pressed_share(half)
    width = along + _SPREAD * np.sqrt(np.asarray(radius, float) * wall)
    found: Numbers = 6 * felt / (width * np.asarray(wall, float) ** 2)
    return found


def _half(foot: Numbers, radius: Numbers) -> Numbers:
    """Half of the angle that a foot takes up on a tube."""
    share = np.asarray(foot, float) / (2 * np.asarray(radius, float))
    half: Numbers = np.arcsin(np.minimum(share, 1.0))[()]
    return half


def pressed_share(half: Numbers) -> Numbers:
    r"""Moment in a ring at the edge of a rigid foot that is pressed into it, over push times radius.

    .. math:: k(\psi) = \frac{1 - \tfrac12\cos\psi - \psi\sin\psi}{2\pi} + A + B\cos\psi

    at :math:`\psi = \pi - \alpha` from the far side. Shear round the ring bears the push; A and B are such that the foot
    neither turns one edge against the other nor comes apart: :math:`\int k = \int k\cos\psi = 0` from 0 to
    :math:`\pi - \alpha`.

    Parameters
    ----------
    half : float or array
        Half of the angle that the foot takes up.

    Returns
    -------
    float or array

    References
    ----------
    Without a foot's width the 3/(4 pi) of Roark's Formulas, table 9.2, case 20 (from memory); elastic ring, statics.

    Examples
    --------
    >>> round(float(pressed_share(1e-6)), 4), round(float(pressed_share(0.4646)), 4)
    (0.2387, 0.1331)
    """
    arc = pi - np.asarray(half, float)
    sine, cosine = np.sin(arc), np.cos(arc)
    square = arc / 2 + sine * cosine / 2
    # of the ring pressed at a point: its integral, and that times the cosine
    whole = (arc - sine / 2 - (sine - arc * cosine)) / (2 * pi)
    waved = (sine - square / 2 + arc * np.cos(2 * arc) / 4 - sine * cosine / 4) / (2 * pi)
    over = arc * square - sine**2
    even, wave = (sine * waved - square * whole) / over, (sine * whole - arc * waved) / over
    share: Numbers = (1 - cosine / 2 - arc * sine) / (2 * pi) + even + wave * cosine
    return share


def checks(machine: WorkedMachine) -> list[Check]:
    """Check the wall under the foot of a paddle that a jam stops at its tip.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    spec, blade = machine.spec, machine.spec.paddles
    if spec.sleeve.kind == "none":
        return []
    torque: Array = np.maximum(*machine.power_flow.paddles)
    couple = torque * (1 - blade.root_radius / blade.tip_radius)
    push = np.asarray(wedge_push(torque, blade.tip_radius))
    radius, foot, along = _sizes(spec)
    stress = np.asarray(wall_stress.formula(couple, push, radius, spec.sleeve.wall, foot, along))
    steel = table("materials").find(spec.sleeve.material).values
    strength, safety = steel["yield_strength"], spec.safety.shaft_in_jam

    def thicker(i: int) -> list[Change]:
        over = float(stress[i] * safety / strength)
        return [
            *stronger_sleeve(spec, spec.sleeve.wall * float(np.sqrt(over)), over),
            "paddles.stem_thickness",
            *calmer(machine, i, over),
        ]

    return [
        make_check(
            machine,
            "shafts",
            "sleeve",
            "its wall bears a paddle that is caught",
            where=machine.load_cases.jammed,
            demand=stress,
            capacity=strength,
            unit="MPa",
            safety=safety,
            rung=(1.0, steel["tensile_strength"] / strength),
            working=lambda i: _worked(
                machine, float(torque[i]), float(couple[i]), float(stress[i])
            ),
            source="ring under a couple and a push: Roark's Formulas, table 9.2 (from memory); yield",
            reason=lambda i, say: (
                f"M = {say(couple[i], 'N*m')} at the foot of a paddle whose tip is wedged against the wall, which presses "
                f"it in with {say(push[i], 'N')}; wall {say(spec.sleeve.wall, 'mm')}, shaft or none beneath"
            ),
            fix=thicker,
        )
    ]


def _sizes(spec: Spec) -> tuple[float, float, float]:
    """Middle radius of the sleeve, and the foot of a stem round it and along it, in mm."""
    outer, inner = sleeve_sizes(spec)
    blade = spec.paddles
    along = float(extent_at(blade, blade.root_radius))
    foot = min(blade.stem_width, blade.stem_thickness)
    return (outer + inner) / 4, foot, along


def _worked(machine: WorkedMachine, torque: float, couple: float, stress: float) -> list[Working]:
    """How the stress was got."""
    spec = machine.spec
    radius, foot, along = _sizes(spec)
    push = float(wedge_push(torque, spec.paddles.tip_radius))
    return [
        worked(
            "M = T*(1 - r_1/r_2)",
            couple,
            "N*m",
            T=(torque, "N*m", "power flow, torque at the paddles, the greater"),
            r_1=(spec.paddles.root_radius, "mm", "paddles.root_radius"),
            r_2=(spec.paddles.tip_radius, "mm", "paddles.tip_radius"),
        ),
        worked(
            "N = T/(mu*r_2)",
            push,
            "N",
            T=(torque, "N*m", "above"),
            mu=(WEDGE_FRICTION, "", "friction of what is wedged: common practice"),
            r_2=(spec.paddles.tip_radius, "mm", "paddles.tip_radius"),
        ),
        worked(
            "sigma = 6/((l + c*sqrt(r*t))*t**2)*(M*Max(pi - asin(s/(2*r)) - 2*s/(2*r), 0)/(2*pi) + N*r*k)",
            stress,
            "MPa",
            M=(couple, "N*m", "above"),
            N=(push, "N", "above"),
            k=(
                float(pressed_share(_half(foot, radius))),
                "",
                "share of N*r at the edge of a rigid foot: elastic ring",
            ),
            l=(along, "mm", "foot of a stem along the sleeve"),
            c=(_SPREAD, "", "thin shells, Roark (from memory)"),
            r=(radius, "mm", "middle of the sleeve's wall"),
            t=(spec.sleeve.wall, "mm", "sleeve.wall"),
            s=(foot, "mm", "the narrower side of the foot"),
        ),
    ]
