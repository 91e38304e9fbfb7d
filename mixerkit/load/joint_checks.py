"""Whether the metals that the clay touches can be welded to each other, with which filler."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check, Say
from mixerkit.load.contact import contact_row
from mixerkit.load.contact_checks import stainless_rows
from mixerkit.results import LoadedMachine, TableRow
from mixerkit.spec import Spec
from mixerkit.working import by_method

__all__ = ["checks", "fillers_for"]

_THICK = 6.0
"""Thickness in mm from which a weld keeps 1.4301 hot long enough to lose its chromium beside it (common practice)."""


@dataclass(frozen=True)
class _Joint:
    """A weld between two parts: their fields, the field of its filler, and the thicker metal in mm."""

    part: str
    fields: tuple[str, ...]
    filler_field: str
    filler: str
    metals: tuple[str, ...]
    thickness: tuple[float, ...]

    @property
    def rows(self) -> list[TableRow]:
        return [contact_row(one) for one in self.metals]


def fillers_for(kinds: set[str]) -> tuple[str, ...]:
    """Fillers that suit the kinds of metal in a joint, best first.

    Parameters
    ----------
    kinds : set of str
        As in data/tables/contact_metals.csv.

    Returns
    -------
    tuple of str
        None for what is not welded.

    References
    ----------
    EN 1011-3, annex on unlike metals; symbols: EN ISO 3581 (23 12 L is the AWS E309L; from memory).

    Examples
    --------
    >>> fillers_for({"austenitic", "plain"})
    ('23 12 L', '22 9 3 N L')
    """
    if kinds == {"plain"}:
        return ("plain steel",)
    if "duplex" in kinds:
        return ("22 9 3 N L", "23 12 L") if "plain" in kinds else ("22 9 3 N L",)
    if "plain" in kinds:
        return ("23 12 L", "22 9 3 N L")
    if kinds == {"austenitic"}:
        return ("19 12 3 L", "19 9 L", "23 12 L", "22 9 3 N L")
    return ()


def _joints(spec: Spec) -> list[_Joint]:
    own, sleeved = spec.contact, spec.sleeve.kind != "none"
    carrier = ("sleeve.material",) if sleeved else ("shaft_1.material", "shaft_2.material")
    metals = (spec.sleeve.material,) if sleeved else (spec.shaft_1.material, spec.shaft_2.material)
    thick = (spec.sleeve.wall,) if sleeved else (spec.shaft_1.diameter, spec.shaft_2.diameter)
    return [
        _Joint(
            "paddle welds",
            ("paddles.material", *carrier),
            "contact.paddle_filler",
            own.paddle_filler,
            (spec.paddles.material, *metals),
            (spec.paddles.stem_thickness, *thick),
        ),
        _Joint(
            "trough welds",
            ("trough.material",),
            "contact.trough_filler",
            own.trough_filler,
            (spec.trough.material,),
            (spec.trough.wall_thickness,),
        ),
    ]


def checks(machine: LoadedMachine) -> list[Check]:
    """Check the welds that the clay touches.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    return [
        make(machine, one)
        for one in _joints(machine.spec)
        for make in (_can_be_welded, _suits, _keeps_its_chromium)
    ]


def _others(joint: _Joint, bad: list[str]) -> list[Change]:
    """Metals that weld, for those parts of a joint that do not."""
    own = "contact_metals" if joint.fields[0].startswith("contact.") else "materials"
    fields = [f for f, one in zip(joint.fields, joint.metals, strict=True) if one in bad]
    return [dict.fromkeys(fields, name) for name in stainless_rows(own)]


def _made(
    machine: LoadedMachine,
    joint: _Joint,
    name: str,
    does: bool,
    rule: str,
    words: tuple[str, str],
    source: str,
    reason: Callable[[Say], str],
    fix: list[Change],
) -> Check:
    """Make a check that is yes or no."""
    capacity = float(does)
    return make_check(
        machine,
        "contact",
        joint.part,
        name,
        demand=1.0,
        capacity=capacity,
        unit="",
        words=words,
        tight=1.0,
        working=lambda i: [by_method("k", rule, capacity, "")],
        source=source,
        reason=lambda i, say: reason(say),
        fix=lambda i: fix,
    )


def _can_be_welded(machine: LoadedMachine, joint: _Joint) -> Check:
    """Whether each metal of a joint welds."""
    bad = [row["name"] for row in joint.rows if row["welds"] != "yes"]
    return _made(
        machine,
        joint,
        "its metals can be welded",
        not bad,
        "1 where column welds of data/tables/contact_metals.csv says yes of each metal, else 0",
        ("metals that weld", ", ".join(dict.fromkeys(joint.metals))),
        "free-cutting, hardening and high-carbon steels crack beside the weld: common practice",
        lambda say: (
            f"{' on '.join(joint.metals)}; {'does not weld well: ' + ', '.join(bad) if bad else 'each welds'}"
        ),
        _others(joint, bad),
    )


def _suits(machine: LoadedMachine, joint: _Joint) -> Check:
    """Whether the filler suits the metals."""
    kinds = {str(row["kind"]) for row in joint.rows}
    suited = list(fillers_for(kinds))
    # molybdenum lost in the bead would make it the first to pit
    if any((row["molybdenum"] or 0) > 0 for row in joint.rows) and "19 9 L" in suited:
        suited = ["19 12 3 L", "22 9 3 N L"]
    return _made(
        machine,
        joint,
        "filler suits its metals",
        joint.filler in suited,
        "1 where the filler is of those for the kinds of metal in data/tables/contact_metals.csv, else 0",
        (" or ".join(suited) or "metals that weld", joint.filler),
        "EN 1011-3, unlike metals; symbols of EN ISO 3581 (from memory)",
        lambda say: f"{' on '.join(joint.metals)}, welded with {joint.filler}",
        [{joint.filler_field: one} for one in suited],
    )


def _keeps_its_chromium(machine: LoadedMachine, joint: _Joint) -> Check:
    """Whether no thick stainless of ordinary carbon is welded, which then rusts beside the bead."""
    bad = [
        row["name"]
        for row, thick in zip(joint.rows, joint.thickness, strict=True)
        if row["kind"] in ("austenitic", "duplex", "martensitic")
        and row["low_carbon"] != "yes"
        and thick >= _THICK
    ]
    return _made(
        machine,
        joint,
        "stainless does not rust beside the bead",
        not bad,
        "0 where a thick stainless metal is not low in carbon, else 1",
        (
            "low carbon where it is thick",
            f"{', '.join(bad)}, too much carbon" if bad else "low in carbon, thin or plain",
        ),
        "chromium is lost to carbides beside a weld in thick 1.4301: EN 1011-3 (from memory)",
        lambda say: (
            f"{' on '.join(joint.metals)}, thickest {say(max(joint.thickness), 'mm')}; thick is {say(_THICK, 'mm')} and more"
        ),
        _others(joint, bad),
    )
