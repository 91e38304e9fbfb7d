"""Constants of nature and of standards that more than one room needs."""

from __future__ import annotations

__all__ = ["STANDARD_GRAVITY"]

STANDARD_GRAVITY = 9.80665
"""Fall acceleration in m/s2 (3rd CGPM, 1901: exact by definition)."""
