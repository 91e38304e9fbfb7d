"""Pictures, tables, panels and the design report; the only room that draws."""

from mixerkit.units import InputError


def __getattr__(name: str) -> object:
    if name in {"stages", "stages_metal"}:
        raise InputError(
            f"{name}: the panels of the stages are all in panels now; type "
            f'"from mixerkit.show import panels", then for example "panels.gear_paths(bench)".'
        )
    raise AttributeError(f"module 'mixerkit.show' has no attribute {name!r}")
