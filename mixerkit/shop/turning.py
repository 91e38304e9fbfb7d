"""Turning: does it fit the lathe, how far does it give under the tool, stock and cut list."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import numpy as np

from mixerkit.frozen import result
from mixerkit.parts.beam import bending_stiffness
from mixerkit.parts.shaft_checks import stock_sizes
from mixerkit.results import Numbers
from mixerkit.shop.workshop import Lathe, Workshop
from mixerkit.units import in_units, lengths

__all__ = ["HOLDINGS", "bar_for", "cut_list", "give", "round_bar", "turning_notes"]

HOLDINGS = {"chuck only": 3.0, "between centres": 48.0, "chuck and tailstock": 102.0}
"""How stiffly work is held: F L^3 / (k E I) at the tool's worst place. Shigley 10th ed., table A-9, beams
1, 5 and 11 (for the last the load at 0.586 of the length, 9.8e-3 F L^3 / E I)."""
CENTRES = 5.0
"""Left of a lathe's length for the points of its centres, in mm (common practice)."""
SLENDER = 10.0
"""Length over diameter beyond which a steady is due between centres (common practice 8 to 12)."""


@in_units("mm", force="N >= 0", length="mm > 0", diameter="mm > 0", modulus="GPa > 0")
def give(
    force: Numbers,
    length: Numbers,
    diameter: Numbers,
    modulus: Numbers = 210.0,
    holding: str = "between centres",
) -> Numbers:
    r"""How far work gives under the tool at its softest place.

    .. math:: \delta = \frac{F\,L^3}{k\,E\,I}

    Parameters
    ----------
    force : quantity, any shape
        Of the tool across the work; 150 N for a light finishing cut (common practice).
    length, diameter : quantity, broadcast
        Free length and diameter of the work.
    modulus : quantity
    holding : str
        A key of :data:`HOLDINGS`.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    See :data:`HOLDINGS`.

    Examples
    --------
    >>> round(give("150 N", "600 mm", "45 mm"), 4)
    <Quantity(0.016, 'millimeter')>
    """
    return force * length**3 / (HOLDINGS[holding] * bending_stiffness(1e3 * modulus, diameter))


@result
class Turned:
    """Whether and how a part is turned between centres."""

    fits: bool
    slenderness: float
    steady: bool
    gives: Mapping[str, float]
    taper: float
    words: tuple[str, ...]


def turning_notes(
    length: float, diameter: float, shop: Workshop | None, system: str = "metric"
) -> Turned:
    """Whether a shaft fits the lathe, how to hold it, and what to look out for.

    Parameters
    ----------
    length, diameter : float
        In mm.
    shop : Workshop, or None
    system : str
        ``"metric"`` or ``"inch"``: how sizes are said.

    Returns
    -------
    Turned
        ``fits``, ``slenderness``, ``steady`` whether one is due, ``gives`` the give in mm by holding,
        ``taper`` on the diameter that this leaves between centres, ``words``. Without a shop file nothing
        is held against a lathe.
    """
    say = lengths(system)
    fits, words = _in_lathe(length, diameter, shop.lathe, say) if shop else (True, [])
    slender = length / diameter
    gives = {one: float(give.formula(150.0, length, diameter, 210.0, one)) for one in HOLDINGS}
    steady = slender > SLENDER
    if steady:
        words.append(
            f"{slender:.0f} times as long as thick: use a travelling or fixed steady, fine feed, sharp tool"
        )
    words.append(
        f"a finishing cut makes it barrelled by {say(2 * gives['between centres'], 2)} between centres, "
        f"{say(2 * gives['chuck and tailstock'], 2)} in chuck and tailstock"
    )
    if slender > 15:
        words.append("it will chatter: smaller nose radius, lower speed")
    return Turned(
        fits=fits,
        slenderness=slender,
        steady=steady,
        gives=gives,
        taper=2 * gives["between centres"],
        words=tuple(words),
    )


def _in_lathe(
    length: float, diameter: float, lathe: Lathe, say: Callable[..., str]
) -> tuple[bool, list[str]]:
    """Whether a shaft goes into a lathe, and what to do or to know where it hardly does."""
    fits = length + CENTRES <= lathe.between_centres and diameter <= lathe.swing
    if length + CENTRES > lathe.between_centres:
        how = (
            "feed it through the spindle and turn it in two halves"
            if diameter < lathe.spindle_bore
            else "use a fixed steady off the bed's end, or a larger lathe"
        )
        return fits, [
            f"{say(length, 4)} with a centre each end is too long for {say(lathe.between_centres, 4)} between centres: {how}"
        ]
    if length + 100 > lathe.between_centres:
        return fits, ["it just goes between centres; there is no room for a chuck"]
    return fits, []


@result
class Bar:
    """A bar as bought: of what, what is sawn from it (name, length in mm), and what is left over in mm."""

    of: str
    cuts: tuple[tuple[str, float], ...]
    left: float


def cut_list(pieces: Sequence[tuple[str, str, float, float]], bar: float, saw: float) -> list[Bar]:
    """Put pieces on bars as bought, the longest first, each on the first bar where it goes.

    Parameters
    ----------
    pieces : sequence of tuple
        Name, what it is cut from (material and size), length and facing allowance in mm.
    bar, saw : float
        Length of a bar as bought, and width of a saw cut, in mm.

    Returns
    -------
    list of Bar
        Bars: ``of`` what, ``cuts`` list of (name, length), ``left`` over in mm. A piece longer than a bar
        gets a bar of its own with ``left`` below zero.

    References
    ----------
    First fit, longest first.

    Examples
    --------
    >>> [bar.left for bar in cut_list([("a", "round 45", 600, 4), ("b", "round 45", 300, 4)], 1000, 3)]
    [86]
    """
    opened: list[tuple[str, list[tuple[str, float]], list[float]]] = []
    for name, of, length, facing in sorted(pieces, key=lambda one: -one[2]):
        needed = length + facing + saw
        place = next((one for one in opened if one[0] == of and one[2][-1] >= needed), None)
        if place is None:
            place = (of, [], [bar])
            opened.append(place)
        place[1].append((name, length + facing))
        place[2].append(place[2][-1] - needed)
    return [Bar(of, tuple(cuts), left[-1]) for of, cuts, left in opened]


SKIN = 1.0
"""Turned off a bar's diameter at least, in mm, to be rid of its skin (common practice)."""


def bar_for(diameter: float, sizes: Sequence[float], skin: float = SKIN) -> float:
    """Smallest round bar in mm that a diameter can be turned from, infinite if there is none."""
    big = [size for size in sizes if size >= diameter + skin - 1e-9]
    return float(min(big, default=np.inf))


def round_bar(diameter: float, system: str) -> str:
    """Round bar in stock to turn a diameter from, in words.

    Parameters
    ----------
    diameter : float
        In mm.
    system : str
        Whose bars and units: ``"metric"`` or ``"inch"``.

    Returns
    -------
    str

    Examples
    --------
    >>> round_bar(32.0, "metric"), round_bar(31.75, "inch")
    ('round 35 mm', 'round 1.375 in')
    """
    say, bar = lengths(system), bar_for(diameter, stock_sizes(system))
    # bar comes at its nominal size or under, and its skin comes off
    return f"round {say(bar, 4)}" if np.isfinite(bar) else f"round, at least {say(diameter + 1, 4)}"
