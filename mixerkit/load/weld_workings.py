"""How the stresses in the welds of the paddles were worked out."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from mixerkit.parts import welds
from mixerkit.working import Given, Working, worked

__all__ = ["Pull", "Swing", "caught", "lasts", "stem", "throat"]


@dataclass(frozen=True)
class Pull:
    """How a paddle pulls at its weld.

    Attributes
    ----------
    radius : float
        At which its force acts, from the shaft's middle, in mm.
    flat, edge : float
        Force over its thickness and over its width for 1 in the direction in which it turns.
    arm, lever : float
        Of the force over the weld, and of its twist, in mm.
    width, thickness, throat : float
        Of the foot and of the fillet round it, in mm.
    """

    radius: float
    flat: float
    edge: float
    arm: float
    lever: float
    width: float
    thickness: float
    throat: float

    def stress(self, torque: float) -> float:
        """Stress in the throat in MPa for a torque in N*m."""
        force = 1e3 * torque / self.radius
        return float(
            welds.throat_stress.formula(
                force * self.flat,
                force * self.edge,
                self.arm,
                self.lever,
                self.width,
                self.thickness,
                self.throat,
            )
        )


@dataclass(frozen=True)
class Swing:
    """Stress ranges in MPa of a turn and of a start, how often each comes, and what both come to."""

    turn: float
    start: float
    turns: float
    reversals: float
    lasting: float


def _sides(pull: Pull) -> dict[str, Given]:
    return {
        "b": (pull.width, "mm", "width of a paddle at its foot: paddles.stem_width with a stem"),
        "t": (pull.thickness, "mm", "its thickness there: paddles.stem_thickness with a stem"),
    }


def _forces(pull: Pull, torque: float, whence: str, how: str) -> tuple[list[Working], list[float]]:
    force = 1e3 * torque / pull.radius
    parts = [force * pull.flat, force * pull.edge]
    named = zip(("F_t", "F_b"), ("k_t", "k_b"), (pull.flat, pull.edge), parts, strict=True)
    return [
        worked(
            f"{symbol} = {factor}*T/r",
            part,
            "N",
            **{
                factor: (share, "", how),
                "T": (torque, "N*m", whence),
                "r": (pull.radius, "mm", "from the shaft's middle to the force"),
            },
            source="",
        )
        for symbol, factor, share, part in named
    ], parts


def throat(
    pull: Pull,
    torque: float,
    stress: float,
    whence: str = "one paddle's share of the torque at the paddles, the deepest in the clay",
    how: str = "the clay pushes evenly on face and edge, from root to tip",
) -> list[Working]:
    """Say how the stress in MPa in a throat follows from a torque in N*m."""
    lines, (flat, edge) = _forces(pull, torque, whence, how)
    sides, width, thick = _sides(pull), pull.width, pull.thickness
    forces: dict[str, Given] = {"F_t": (flat, "N", "above"), "F_b": (edge, "N", "above")}
    neck: Given = (pull.throat, "mm", "paddles.weld_throat")
    across = (
        pull.arm
        / pull.throat
        * (flat / (width * thick + thick**2 / 3) + edge / (width * thick + width**2 / 3))
    )
    along = sqrt(max(stress**2 - across**2, 0.0))
    return [
        *lines,
        worked(
            "sigma = x/a*(F_t/(b*t + t**2/3) + F_b/(b*t + b**2/3))",
            across,
            "MPa",
            source="Shigley 10th ed., table 9-2, all round",
            x=(pull.arm, "mm", "from the weld to the force"),
            a=neck,
            **forces,
            **sides,
        ),
        worked(
            "tau = sqrt(F_t**2 + F_b**2)/(2*a*(b + t)) + 3*Max(F_t, F_b)*y*sqrt(b**2 + t**2)/(a*(b + t)**3)",
            along,
            "MPa",
            source="Shigley 10th ed., table 9-1, all round",
            a=neck,
            y=(pull.lever, "mm", "lever of the twist"),
            **forces,
            **sides,
        ),
        worked(
            "sigma_w = sqrt(sigma**2 + tau**2)",
            stress,
            "MPa",
            sigma=(across, "MPa", "above"),
            tau=(along, "MPa", "above"),
        ),
    ]


def stem(pull: Pull, torque: float, stress: float) -> list[Working]:
    """Say how the bending stress in MPa in a stem's foot follows from a torque in N*m."""
    lines, (flat, edge) = _forces(
        pull,
        torque,
        "one paddle's share of the torque at the paddles, the deepest in the clay",
        "the clay pushes evenly on face and edge, from root to tip",
    )
    return [
        *lines,
        worked(
            "sigma_w = 6*x*(F_t/(b*t**2) + F_b/(t*b**2))",
            stress,
            "MPa",
            source="Shigley 10th ed., eq. 3-27",
            x=(pull.arm, "mm", "from the weld to the force"),
            F_t=(flat, "N", "above"),
            F_b=(edge, "N", "above"),
            **_sides(pull),
        ),
    ]


def caught(pull: Pull, torque: float, stress: float, allowed: tuple[float, float]) -> list[Working]:
    """Say how the stress in MPa of a jam follows, and what is allowed."""
    filler, softest = allowed
    return [
        *throat(
            pull,
            torque,
            stress,
            "power flow, torque at the paddles, the greater",
            "caught on face or edge at root or tip, with little or much friction, or wedged at an edge of the tip: the worst",
        ),
        welds.worked_allowed(
            (
                filler,
                "MPa",
                "tensile strength of filler (427 MPa plain, 500 MPa stainless), paddle or what bears it: the least",
            ),
            (softest, "MPa", "yield strength of the softer of both"),
        ),
    ]


def lasts(swing: Swing, borne: float) -> list[Working]:
    """Say how the lasting range in MPa follows from ranges and cycles."""
    return [
        worked(
            "sigma_E = ((N*sigma_w**3 + N_r*(2*sigma_s)**3)/N_0)**(1/3)",
            swing.lasting,
            "MPa",
            source=f"Miner: EN 1993-1-9, annex A; class {borne:g}",
            N=(swing.turns, "", "turns of the shaft in batch.life_hours"),
            sigma_w=(swing.turn, "MPa", "above: it comes and goes every turn"),
            N_r=(swing.reversals, "", "batch.reversals over batch.life_hours"),
            sigma_s=(swing.start, "MPa", "the same of a start, which swings both ways"),
            N_0=(welds.AT, "", "cycles of a class"),
        )
    ]
