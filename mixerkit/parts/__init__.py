"""What must not break: gears and shafts."""

from mixerkit.parts import shaft, shaft_checks, spurgear

__all__ = ["shaft", "shaft_checks", "spurgear"]
