"""Whether what the clay touches stains it, eats at its neighbour, or pits."""

from __future__ import annotations

from functools import cache

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.load.contact import DRY, WET, Touched, clay_map, contact_row, pitting_resistance
from mixerkit.results import LoadedMachine
from mixerkit.tables import table
from mixerkit.working import Working, by_method, worked

__all__ = ["checks", "stainless_rows"]

_APART = 0.15
"""Volts between two metals beyond which the less noble is eaten in a wet place (the strictest of three customary
limits, for salt water and damp heat, as a handbook for designers has it)."""
_CATHODE = 0.1
"""Area of the nobler metals over that of the less noble at most: a tenth (common practice)."""
_NEEDED = {(False, False): 16.0, (False, True): 23.0, (True, False): 23.0, (True, True): 30.0}
"""Pitting resistance wanted by (chloride mixed in, crevice): a grade such as 1.4301 in the open in tap water,
1.4404 in a gap or with chloride, 1.4462 with both (common practice)."""
_ELSEWHERE = ("paddles", "sleeves")
"""Parts whose metal the stage of clay and paddles asks whether it stains."""


@cache
def stainless_rows(own_table: str) -> tuple[str, ...]:
    """Names of the stainless metals that weld, of those that a table has.

    Parameters
    ----------
    own_table : str
        ``"materials"`` or ``"contact_metals"``.

    Returns
    -------
    tuple of str

    Examples
    --------
    >>> stainless_rows("materials")[-1]
    'stainless 1.4462 annealed'
    """
    has = {row.values["name"] for row in table(own_table)}
    rows = (row.values for row in table("contact_metals"))
    kinds = ("austenitic", "duplex")
    return tuple(
        row["name"]
        for row in rows
        if row["name"] in has and row["welds"] == "yes" and row["kind"] in kinds
    )


def checks(machine: LoadedMachine) -> list[Check]:
    """Check each part that clay touches.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    parts = clay_map(machine.spec)
    wet = [one for one in parts if one.where == WET]
    return [
        *(_stains(machine, one) for one in parts if one.part not in _ELSEWHERE),
        _cell(machine, wet),
        *(_pits(machine, one) for one in wet if one.stainless),
    ]


def _metals(one: Touched) -> list[Change]:
    own = "contact_metals" if one.field.startswith("contact.") else "materials"
    return [{one.field: name} for name in stainless_rows(own)]


def _stains(machine: LoadedMachine, one: Touched) -> Check:
    """Whether a part leaves no rust or colour in the clay."""
    dark = machine.spec.contact.clay == "dark"
    spotless = one.where == DRY or one.stainless
    rusts = one.kind in ("plain", "cast iron")
    clean = float(spotless or (dark and rusts))
    rule = "1 where a part is dry or stainless, and of iron in clay that fires dark, else 0"
    colour = "fires dark, so that rust does not show" if dark else "is to fire white"

    def mended(_i: int) -> list[Change]:
        others: list[Change] = []
        if one.part == "sleeve pins":
            others = [{"contact.pin_ends": "capped"}]
        elif one.part.startswith("shaft"):
            cover = machine.spec.sleeve.kind == "none"
            others = [{"sleeve.kind": "carried"} if cover else {"sleeve.sealed_ends": True}]
        elif one.part == "plates":
            others = [{"bearings.seal": "packed gland, greased"}]
        return [*others, *_metals(one)]

    return make_check(
        machine,
        "contact",
        one.part,
        "clay stays free of its rust",
        demand=1.0,
        capacity=clean,
        unit="",
        working=lambda i: [by_method("k", rule, clean, "")],
        words=("dry or stainless, or iron in dark clay", f"{one.where}, {one.metal}"),
        tight=1.0,
        source="iron spots white clay and copper colours it: common practice",
        reason=lambda i, say: f"{one.where}: {one.why}; {one.metal}; the clay {colour}",
        fix=mended,
    )


def _potential(one: Touched) -> float:
    return float(contact_row(one.metal)["potential"])


def _cell(machine: LoadedMachine, wet: list[Touched]) -> Check:
    """Whether no small piece of a less noble metal faces a large one of a nobler, both in the same wet clay."""

    def nobler(one: Touched) -> list[Touched]:
        return [other for other in wet if _potential(other) - _potential(one) > _APART]

    def over(one: Touched) -> float:
        return sum(other.area for other in nobler(one)) / one.area

    worst = max(wet, key=over)
    against, ratio = nobler(worst), over(worst)
    cathode = sum(other.area for other in against)
    eaten = [one.field for one in wet if over(one) > _CATHODE]

    def working(_i: int) -> list[Working]:
        how = "no wet metal is nobler by more than the volts that matter"
        if not against:
            return [by_method("c", how, ratio, "")]
        return [
            worked(
                "c = A_c/A_a",
                ratio,
                "",
                A_c=(cathode, "cm**2", f"wet area of {', '.join(other.part for other in against)}"),
                A_a=(worst.area, "cm**2", f"wet area of {worst.part}"),
            )
        ]

    def reason() -> str:
        if not against:
            return f"no two wet metals are {_APART:g} V apart"
        volts = max(_potential(other) for other in against) - _potential(worst)
        names = ", ".join(f"{other.part} of {other.metal}" for other in against)
        return f"{worst.part} of {worst.metal} is {volts:.2f} V less noble than {names}"

    return make_check(
        machine,
        "contact",
        "wet metals",
        "no small anode feeds a large cathode",
        demand=ratio,
        capacity=_CATHODE,
        unit="",
        working=working,
        tight=1.0,
        source="more than 0.15 V apart: the strictest of three customary limits, as quoted in a handbook; a cathode of a tenth at most: common practice",
        reason=lambda i, say: reason(),
        fix=lambda i: [
            *([{"contact.pin_ends": "capped"}] if worst.part == "sleeve pins" else []),
            *([{"sleeve.sealed_ends": True}] if worst.part.startswith("shaft") else []),
            *_metals(worst),
            # where several are eaten, no one of them mends it alone
            *(dict.fromkeys(eaten, name) for name in stainless_rows("materials")),
        ],
    )


def _pits(machine: LoadedMachine, one: Touched) -> Check:
    """Whether a stainless part stands the chloride, in its gaps too."""
    row = contact_row(one.metal)
    number = float(pitting_resistance.formula(row["chromium"], row["molybdenum"], row["nitrogen"]))
    salted = machine.spec.contact.salted
    needed = _NEEDED[salted, one.crevice]
    origin = f"data/tables/contact_metals.csv, {one.metal}"
    where = "in a gap" if one.crevice else "in the open"
    water = "with chloride mixed in" if salted else "in tap water"
    mended: list[Change] = []
    if one.crevice:
        on = one.part in ("trough", "bolts")
        mended = [{"contact.bolted_laps": False} if on else {"sleeve.sealed_ends": True}]
    return make_check(
        machine,
        "contact",
        one.part,
        "stainless does not pit",
        demand=needed,
        capacity=number,
        unit="",
        working=lambda i: [
            worked(
                "N_p = Cr + 3.3*Mo + 16*N",
                number,
                "",
                source="EN 10088-1, annex, as steelmakers' data sheets have it",
                Cr=(row["chromium"], "", f"{origin}: chromium"),
                Mo=(row["molybdenum"], "", f"{origin}: molybdenum"),
                N=(row["nitrogen"], "", f"{origin}: nitrogen"),
            )
        ],
        tight=1.0,
        source="pitting resistance of 16 in the open in tap water, 23 in gaps or with chloride, 30 with both: common practice",
        reason=lambda i, say: f"{one.metal} {where}, {water}: {one.why}",
        fix=lambda i: [*mended, *_metals(one)],
        note=lambda i, say: "Rinse with clean water and let it dry after every day.",
    )
