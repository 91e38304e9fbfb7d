"""Live panels for the notebooks, a module a stage: knobs, a picture that answers, the check table."""

import importlib
from importlib.util import find_spec
from types import ModuleType

from mixerkit.show.panels.beginning import Beginning, begin
from mixerkit.show.panels.bench import Bench, OnBench, open_design, place, styled
from mixerkit.show.panels.comparing import comparing
from mixerkit.show.panels.mending import mending
from mixerkit.show.panels.panel import Panel, verdict_words
from mixerkit.stages import STAGES

__all__ = [
    "MAKERS",
    "Beginning",
    "Bench",
    "OnBench",
    "Panel",
    "begin",
    "comparing",
    "mending",
    "open_design",
    "panel_module",
    "place",
    "styled",
    "verdict_words",
]


def _name(key: str) -> str:
    return f"{__name__}.{key.replace(' ', '_')}"


def panel_module(key: str) -> ModuleType:
    """Find the module of a stage's panels: its ``PANEL`` opens the main one, its ``says`` is the sentence.

    Parameters
    ----------
    key : str
        Of :data:`mixerkit.stages.STAGES`.

    Returns
    -------
    module

    Raises
    ------
    LookupError
        If it is not written.
    """
    if find_spec(_name(key)) is None:
        raise LookupError(
            f"stage {key} has no panel: write mixerkit/show/panels/{key.replace(' ', '_')}.py"
        )
    return importlib.import_module(_name(key))


MAKERS: tuple[str, ...] = ()
"""Names of all functions here that open a panel on a bench."""
# what spans stages has modules beside theirs; a function may bear its module's name, so it is put over it
for _key in (*(one.key for one in STAGES), "whole_machine", "plates", "cutting"):
    if find_spec(_name(_key)) is not None:
        _module = importlib.import_module(_name(_key))
        for _one in _module.__all__:
            if _one not in {"PANEL", "says"}:
                globals()[_one] = getattr(_module, _one)
                MAKERS = (*MAKERS, _one)
