"""Marks and short texts shared by tables, report and command line."""

from __future__ import annotations

import math

__all__ = ["MARKS", "spare_text"]

MARKS = {"holds": "●", "tight": "▲", "fails": "✖"}
"""Verdicts are words first, then one of these shapes, then a colour."""


def spare_text(spare: float) -> str:
    """Write a spare as a factor, such as ``"1.3 x"``.

    Examples
    --------
    >>> spare_text(1.302), spare_text(float("inf")), spare_text(0.412)
    ('1.30 x', 'ample', '0.41 x')
    """
    if math.isnan(spare):
        return "unknown"
    if spare < -99:
        return "none"
    return "ample" if spare > 99 else f"{spare:.2f} x"
