"""In what unit and how far a field's knob turns."""

from __future__ import annotations

import math

from mixerkit.fields.kinds import Kind, NumberKind, QuantityKind, WholeKind
from mixerkit.fields.lists import WholesKind
from mixerkit.units import (
    Span,
    shown_unit,
)

__all__ = ["knob_range", "knob_unit"]


def knob_unit(kind: Kind, system: str) -> str:
    """Unit in which a field's knob turns for this maker; empty for a plain number."""
    return shown_unit(Span.read(kind.span).unit, system) if isinstance(kind, QuantityKind) else ""


def knob_range(kind: Kind) -> tuple[float, float]:
    """Widest range of a field's plain value, infinite where it has no limit."""
    if isinstance(kind, (QuantityKind, NumberKind)):
        limits = Span.read(kind.span)
        return max(limits.above, limits.least), min(limits.below, limits.most)
    if isinstance(kind, (WholeKind, WholesKind)):
        return kind.least, kind.most
    return -math.inf, math.inf
