"""From what a maker has to a whole machine: a brief read, a design drafted that holds, or what stands against it."""

from mixerkit.explore.draft.brief import Brief, parse_brief, read_brief

__all__ = ["Brief", "parse_brief", "read_brief"]
