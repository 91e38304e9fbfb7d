"""What the clay touches: which parts are wet, splashed or dry, of which metal, and how large."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from math import pi

from mixerkit.frozen import result
from mixerkit.results import Numbers, TableRow
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import in_units

__all__ = ["DRY", "SPLASHED", "WET", "Touched", "clay_map", "contact_row", "pitting_resistance"]

WET, SPLASHED, DRY = "wet", "splashed", "dry"
"""In clay all the time, reached by drops and crumbs of it, and never reached."""


@in_units("", chromium=" >= 0", molybdenum=" >= 0", nitrogen=" >= 0")
def pitting_resistance(chromium: Numbers, molybdenum: Numbers, nitrogen: Numbers) -> Numbers:
    r"""Pitting resistance equivalent number of a stainless steel.

    .. math:: \mathrm{PREN} = \mathrm{Cr} + 3.3\,\mathrm{Mo} + 16\,\mathrm{N}

    Parameters
    ----------
    chromium, molybdenum, nitrogen : float, any shape
        In percent by mass.

    Returns
    -------
    quantity, plain number, the broadcast shape

    Raises
    ------
    InputError
        If one of them is below nothing.

    References
    ----------
    EN 10088-1, annex, as steelmakers' data sheets have it: 23.1 for the least of 1.4404.

    Examples
    --------
    >>> round(float(pitting_resistance(16.5, 2.0, 0.0)), 2)
    23.1
    """
    return chromium + 3.3 * molybdenum + 16 * nitrogen


@cache
def contact_row(metal: str) -> TableRow:
    """Give the row of data/tables/contact_metals.csv of a metal."""
    return table("contact_metals").find(metal).values


@result
class Touched:
    """One part of the machine as the clay meets it.

    Attributes
    ----------
    part : str
    metal : str
        A row of data/tables/contact_metals.csv.
    field : str
        Dotted name of the field that names it.
    where : str
        :data:`WET`, :data:`SPLASHED` or :data:`DRY`.
    area : float
        That clay touches, in cm^2; nothing where it is not wet.
    crevice : bool
        Whether clay stands in a gap of it.
    why : str
        What in the design makes it so.
    """

    part: str
    metal: str
    field: str
    where: str
    area: float
    crevice: bool
    why: str

    @property
    def kind(self) -> str:
        """Its metal's kind: plain, austenitic, duplex, martensitic, cast iron or copper."""
        return str(contact_row(self.metal)["kind"])

    @property
    def stainless(self) -> bool:
        """Whether its metal is a stainless steel."""
        return self.kind in ("austenitic", "duplex", "martensitic")


def clay_map(spec: Spec) -> tuple[Touched, ...]:
    """Say of each part whether clay reaches it.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    tuple of Touched
        From the trough outwards.
    """
    return (*_in_the_trough(spec), *_shafts(spec), *_about(spec))


def _in_the_trough(spec: Spec) -> Iterator[Touched]:
    """Trough, paddles, sleeves and their pins."""
    blade, sleeve, own = spec.paddles, spec.sleeve, spec.contact
    wall = blade.tip_radius + spec.trough.wall_clearance
    # two half-round bottoms; what the clay leaves on the straight walls comes and goes
    sheet = 2 * pi * wall * spec.trough.length / 100
    laps = "bolted laps below the clay" if own.bolted_laps else "holds the clay"
    yield Touched(
        "trough", spec.trough.material, "trough.material", WET, sheet, own.bolted_laps, laps
    )
    faces = 4 * blade.count * (blade.width + blade.thickness)
    area = faces * (blade.tip_radius - blade.root_radius) / 100
    yield Touched(
        "paddles", blade.material, "paddles.material", WET, area, False, "work in the clay"
    )
    if sleeve.kind == "none":
        return
    tubes = 4 * pi * blade.root_radius * spec.trough.length / 100
    gap = not sleeve.sealed_ends
    ends = "clay creeps in at its open ends" if gap else "its ends are sealed"
    yield Touched("sleeves", sleeve.material, "sleeve.material", WET, tubes, gap, ends)
    capped = own.pin_ends == "capped"
    ends_of_pins = 0.0 if capped else 4 * sleeve.pins * pi * sleeve.pin_diameter**2 / 400
    yield Touched(
        "sleeve pins",
        sleeve.pin_material,
        "sleeve.pin_material",
        DRY if capped else WET,
        ends_of_pins,
        False,
        "their ends are capped" if capped else "their ends are bare on the sleeve",
    )


def _shafts(spec: Spec) -> Iterator[Touched]:
    """Both shafts, under their sleeves or bare."""
    sleeve = spec.sleeve
    bare, open_ends = sleeve.kind == "none", not sleeve.sealed_ends
    wet = bare or open_ends
    why = (
        "no sleeve covers it"
        if bare
        else f"under a sleeve {'open' if open_ends else 'sealed'} at its ends"
    )
    for number in (1, 2):
        own = getattr(spec, f"shaft_{number}")
        area = pi * own.diameter * spec.trough.length / 100 if wet else 0.0
        where = WET if wet else DRY
        yield Touched(
            f"shaft {number}",
            own.material,
            f"shaft_{number}.material",
            where,
            area,
            wet and not bare,
            why,
        )


def _about(spec: Spec) -> Iterator[Touched]:
    """Bolts, lid and plates."""
    own = spec.contact
    laps = own.bolted_laps
    # twelve heads of M8, 13 mm across (common practice)
    heads = 12 * pi * 13.0**2 / 400 if laps else 0.0
    yield Touched(
        "bolts",
        own.bolt_material,
        "contact.bolt_material",
        WET if laps else SPLASHED,
        heads,
        laps,
        "in laps below the clay" if laps else "on the rim above the clay",
    )
    lidded = spec.guard.lid != "none"
    why = "over the clay" if lidded else "there is none"
    yield Touched(
        "lid",
        own.lid_material,
        "contact.lid_material",
        SPLASHED if lidded else DRY,
        0.0,
        False,
        why,
    )
    tight = table("seals").find(spec.bearings.seal).values["keeps_out_slip"] == "yes"
    why = f"behind {spec.bearings.seal}" if tight else f"slip passes the seal: {spec.bearings.seal}"
    yield Touched(
        "plates",
        spec.housing.plate_material,
        "housing.plate_material",
        DRY if tight else SPLASHED,
        0.0,
        False,
        why,
    )
