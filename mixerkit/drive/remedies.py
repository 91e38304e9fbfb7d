"""Changes that several checks of the drive offer."""

from __future__ import annotations

__all__ = ["LESS_CLAY"]

LESS_CLAY = ("paddles.count", "paddles.width", "paddles.set_angle", "paddles.tip_radius")
"""Choices that make the clay ask less."""
