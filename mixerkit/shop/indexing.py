"""Dividing: every exact setting for a count, compound and nearest ones, the running list, a wrong row."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from mixerkit.results import Counts, Flags

__all__ = [
    "Compound",
    "Setting",
    "compound",
    "exact",
    "nearest",
    "running_list",
    "settings",
    "what_it_cuts",
]


def exact(tooth_count: Counts, ratio: int, circles: Iterable[int]) -> bool | Flags:
    """Whether some hole circle divides a count exactly: ratio times circle over count is whole.

    Parameters
    ----------
    tooth_count : int or array
    ratio : int
        Turns of the crank for one of the spindle.
    circles : iterable of int
        Holes in each circle the shop has.

    Returns
    -------
    bool or array

    References
    ----------
    The crank moves ratio / count turns, which is whole holes on a circle of h where h ratio / count
    is whole; any handbook on the dividing head.

    Examples
    --------
    >>> bool(exact(28, 40, [21])), bool(exact(53, 40, [15, 20, 21, 49]))
    (True, False)
    """
    counts = np.asarray(tooth_count)
    holes = np.array([1, *circles])
    divides: bool | Flags = np.any((ratio * holes) % counts[..., None] == 0, axis=-1)[()]
    return divides


def _times(turns: int) -> str:
    return "1 turn" if turns == 1 else f"{turns} turns"


@dataclass(frozen=True)
class Setting:
    """One way to move the crank from tooth to tooth.

    Attributes
    ----------
    turns, holes, circle : int
        Whole turns, then so many holes on a circle; no circle is needed where holes is 0.
    plate : int
        Which plate has the circle, counted from 1; 0 where none is needed.
    error : float
        Left at the last tooth after going all the way round, in degrees of the work; 0 is exact.
    """

    turns: int
    holes: int
    circle: int
    plate: int
    error: float = 0.0

    @property
    def moved(self) -> Fraction:
        """Turns of the crank as a fraction."""
        return Fraction(self.turns) + (
            Fraction(self.holes, self.circle) if self.holes else Fraction(0)
        )

    @property
    def arms(self) -> int:
        """Holes the sector arms show, the one the pin stands in counted too."""
        return self.holes + 1

    @property
    def words(self) -> str:
        """Say the setting as it is set."""
        if not self.holes:
            return f"{_times(self.turns)}, any circle"
        turns = f"{_times(self.turns)} and " if self.turns else ""
        return f"{turns}{self.holes} holes on the {self.circle} circle (plate {self.plate})"


def settings(tooth_count: int, ratio: int, plates: Sequence[Sequence[int]]) -> list[Setting]:
    """List every exact setting for a count, best first.

    The largest circle comes first: its holes stand furthest apart from each other on the arm, and an
    error of a hole's place turns the work least.

    Parameters
    ----------
    tooth_count : int
    ratio : int
    plates : sequence of sequences of int
        Hole circles of each plate.

    Returns
    -------
    list of Setting

    References
    ----------
    Simple indexing; any handbook on the dividing head.

    Examples
    --------
    >>> settings(28, 40, [[15, 16, 17, 18, 19, 20], [21, 23], [49]])[0].words
    '1 turn and 21 holes on the 49 circle (plate 3)'
    """
    turns, rest = divmod(ratio, tooth_count)
    if rest == 0:
        return [Setting(turns, 0, 0, 0)]
    found = [
        Setting(turns, rest * circle // tooth_count, circle, number)
        for number, plate in enumerate(plates, 1)
        for circle in plate
        if rest * circle % tooth_count == 0
    ]
    return sorted(found, key=lambda one: -one.circle)


def nearest(
    tooth_count: int, ratio: int, plates: Sequence[Sequence[int]], most: int = 5
) -> list[Setting]:
    """List the settings that come nearest where none is exact, with what is left at the last tooth.

    Parameters
    ----------
    tooth_count, ratio, plates
        As in :func:`settings`.
    most : int
        How many to list.

    Returns
    -------
    list of Setting
        Least error first; exact ones have none.

    Examples
    --------
    >>> round(abs(nearest(51, 40, [[37, 39, 41, 43, 47, 49]])[0].error), 2)
    0.24
    """
    found = []
    for number, plate in enumerate(plates, 1):
        for circle in plate:
            whole = round(Fraction(ratio * circle, tooth_count))
            left = Fraction(whole * tooth_count, circle) - ratio
            turns, holes = divmod(whole, circle)
            found.append(Setting(turns, holes, circle, number, float(left) / ratio * 360.0))
    return sorted(found, key=lambda one: (abs(one.error), -one.circle))[:most]


@dataclass(frozen=True)
class Compound:
    """Two moves on two circles of one plate: the crank on one, then plate and crank on the other.

    Attributes
    ----------
    first, second : tuple of int
        Holes and circle of each move; the second may go backwards.
    plate : int
    error : float
        Left at the last tooth in degrees of the work.
    """

    first: tuple[int, int]
    second: tuple[int, int]
    plate: int
    error: float

    @property
    def moved(self) -> Fraction:
        """Turns of the crank as a fraction."""
        return Fraction(*self.first) + Fraction(*self.second)

    @property
    def words(self) -> str:
        """Say the setting as it is set."""
        way = "forward" if self.second[0] > 0 else "back"
        return (
            f"{self.first[0]} holes on the {self.first[1]} circle, then {abs(self.second[0])} {way} on the "
            f"{self.second[1]} circle (plate {self.plate})"
        )


def compound(
    tooth_count: int, ratio: int, plates: Sequence[Sequence[int]], most: int = 5
) -> list[Compound]:
    """List settings on two circles of one plate, exact ones first, then the nearest.

    Parameters
    ----------
    tooth_count, ratio, plates, most
        As in :func:`nearest`.

    Returns
    -------
    list of Compound

    References
    ----------
    Compound indexing: ratio / count = a / A + b / B; any handbook on the dividing head.

    Examples
    --------
    >>> compound(77, 40, [[21, 33]])[0].words
    '9 holes on the 21 circle, then 3 forward on the 33 circle (plate 1)'
    """
    wanted = Fraction(ratio, tooth_count)
    found = []
    for number, plate in enumerate(plates, 1):
        for circle_1 in plate:
            for circle_2 in plate:
                if circle_1 == circle_2:
                    continue
                holes_2 = np.array([*range(-circle_2 + 1, 0), *range(1, circle_2)])
                holes_1 = np.rint((float(wanted) - holes_2 / circle_2) * circle_1).astype(int)
                off = np.abs(holes_1 / circle_1 + holes_2 / circle_2 - float(wanted))
                off = np.where(holes_1 > 0, off, np.inf)
                k = int(np.argmin(off + 1e-9 * np.abs(holes_2)))
                if not np.isfinite(off[k]):
                    continue
                one, two = (int(holes_1[k]), circle_1), (int(holes_2[k]), circle_2)
                left = (Fraction(*one) + Fraction(*two)) * tooth_count - ratio
                found.append(Compound(one, two, number, float(left) / ratio * 360.0))
    return sorted(found, key=lambda one: (abs(one.error), abs(one.second[0]) + one.first[0]))[:most]


def running_list(
    tooth_count: int, ratio: int, setting: Setting
) -> list[tuple[int, int, int, float]]:
    """List where the crank stands at every tooth, from the first back to where it began.

    Parameters
    ----------
    tooth_count, ratio : int
    setting : Setting

    Returns
    -------
    list of tuple
        Tooth counted from 1, whole turns made so far, hole it stands in, and angle of the work in
        degrees; one row more than teeth: the last one closes the round.

    Examples
    --------
    >>> running_list(4, 40, Setting(10, 0, 0, 0))[-1]
    (5, 40, 0, 360.0)
    """
    rows = []
    circle = setting.circle or 1
    for tooth in range(tooth_count + 1):
        moved = setting.moved * tooth
        turns, part = divmod(moved, 1)
        rows.append((tooth + 1, int(turns), int(part * circle), float(moved / ratio * 360)))
    return rows


def what_it_cuts(turns: int, holes: int, circle: int, ratio: int) -> Fraction:
    """Count that a setting divides into: whole if it closes, broken if it does not.

    Parameters
    ----------
    turns, holes, circle : int
        As set on the head.
    ratio : int

    Returns
    -------
    fractions.Fraction

    Raises
    ------
    ZeroDivisionError
        If the crank does not move.

    Examples
    --------
    >>> what_it_cuts(1, 7, 21, 40), what_it_cuts(1, 9, 21, 40)
    (Fraction(30, 1), Fraction(28, 1))
    """
    return Fraction(ratio) / (Fraction(turns) + Fraction(holes, circle or 1))
