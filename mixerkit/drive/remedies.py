"""Changes that several checks of the drive offer."""

from __future__ import annotations

from mixerkit.spec import Spec

__all__ = ["LESS_CLAY", "more_reduction"]

LESS_CLAY = ("paddles.count", "paddles.width", "paddles.set_angle", "paddles.tip_radius")
"""Choices that make the clay ask less."""


def more_reduction(spec: Spec) -> tuple[str, ...]:
    """Choices by which belts or a chain turn the box slower; none on a flange.

    Examples
    --------
    >>> from mixerkit import Design
    >>> more_reduction(Design.demo())
    ()
    """
    return {
        "V-belt": ("motor_drive.belt.box_pulley", "motor_drive.belt.motor_pulley"),
        "chain": ("motor_drive.chain.box_teeth", "motor_drive.chain.motor_teeth"),
    }.get(spec.motor_drive.kind, ())
