"""What seats a carried sleeve on its shaft: bored in a thick one, or a ring in either end of a thin tube."""

from __future__ import annotations

from mixerkit.frozen import result
from mixerkit.parts import fits, zones
from mixerkit.parts.along import sleeve_seats, trough_ends
from mixerkit.parts.sleeve_beam import sleeve_sizes
from mixerkit.spec import Spec
from mixerkit.units import lengths

__all__ = ["SLEEVE_END", "SleeveSeats", "seats_in", "seats_told"]

SLEEVE_END = 1.0
"""Gap in mm between an end of the sleeve and the trough's wall (common practice)."""
_RING = 4.0
"""Thinnest wall in mm of a ring that can be turned, welded in and bored after (common practice)."""
_BAR, _REACH = 0.7, 4.0
"""Boring bar of steel over the bore that it goes into, and how many times its thickness it reaches (common
practice)."""


@result
class SleeveSeats:
    """The seats of a carried sleeve on one shaft; sizes in mm.

    Attributes
    ----------
    bores : tuple of float
        Nominal sizes of the seat at the driving end and of the one at the far end: those of the shaft there.
    between : float
        Bore between the seats.
    length : float
        Of each seat: to the middle of the last pin, where the beam has the sleeve bear.
    ring : tuple of bool
        Whether each is a ring welded in.
    start, end : float
        Of the sleeve along the machine.
    """

    bores: tuple[float, float]
    between: float
    length: float
    ring: tuple[bool, bool]
    start: float
    end: float

    @property
    def places(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Where each seat begins and ends along the machine."""
        return (self.start, self.start + self.length), (self.end - self.length, self.end)

    @property
    def lips(self) -> tuple[tuple[float, float, float], ...]:
        """Start, end and bore of all that must go over the shaft, each seat and what is between."""
        seats = tuple((*span, bore) for span, bore in zip(self.places, self.bores, strict=True))
        return (*seats, (self.start, self.end, self.between))


def seats_in(spec: Spec, number: int) -> SleeveSeats | None:
    """Seats of the sleeve on a shaft, none unless it is carried.

    Parameters
    ----------
    spec : Spec
    number : int
        1 or 2.

    Returns
    -------
    SleeveSeats or None
        A ring where the sleeve stands clear of the shaft by 4 mm, else a seat bored into the sleeve itself.
    """
    if spec.sleeve.kind != "carried":
        return None
    (near, far), between = trough_ends(spec), sleeve_sizes(spec)[1]
    start, end = near + SLEEVE_END, far - SLEEVE_END
    length = max(sleeve_seats(spec)[0] - start, 0.0)
    shaft = zones.own(spec, number)
    one = zones.thickest(shaft, start, start + length)
    two = zones.thickest(shaft, end - length, end)
    rings = (between - one) / 2 >= _RING, (between - two) / 2 >= _RING
    return SleeveSeats((one, two), between, length, rings, start, end)


def seats_told(spec: Spec, number: int, system: str = "metric") -> list[str]:
    """Say what seats a carried sleeve at both ends of its shaft.

    Parameters
    ----------
    spec : Spec
    number : int
        1 or 2.
    system : str
        ``"metric"`` or ``"inch"``: how sizes are said.

    Returns
    -------
    list of str

    References
    ----------
    Statics: a sleeve that sits at its pins alone hangs from them as a cantilever. Ways of making: common practice.
    """
    found, say = seats_in(spec, number), lengths(system)
    if found is None:
        return []
    outer = sleeve_sizes(spec)[0]
    ends = []
    for where, size, ring in zip(("driving", "far"), found.bores, found.ring, strict=True):
        low, high = (size + off / 1e3 for off in fits.limits.formula(min(size, fits.MOST), "H8"))
        bored = f"{say(low, 5)} - {say(high, 5)}, {say(found.length, 3)} long"
        wall = say((found.between - size) / 2, 3)
        ends.append(
            f"{where} end: weld in a ring of {wall} wall, bored last to {bored}"
            if ring
            else f"{where} end: bored in the sleeve itself to {bored}, no ring"
        )
    if all(found.ring):
        clear = f"Tube {say(outer, 4)}, {say(found.between, 4)} inside."
    else:
        clear = f"Out of hollow or round bar {say(outer, 4)}, relieved to {say(found.between, 4)} between the seats."
    deep = (found.end - found.start) / 2
    if not all(found.ring) and deep > _REACH * _BAR * found.between:
        clear += (
            " Too deep for a bar in the toolpost: bore it on the saddle, on a bar between centres."
        )
    return [f"Sleeve, seated at both ends. {ends[0][0].upper()}{ends[0][1:]}; {ends[1]}. {clear}"]
