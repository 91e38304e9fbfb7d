"""What a search of gear paths found: candidates of each path, those that go together, and what emptied it."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from mixerkit.results import Indices

__all__ = ["Candidates", "Found", "pitch", "purchases"]


@dataclass(frozen=True)
class Candidates:
    """One path's candidates after all rules.

    Attributes
    ----------
    module, counts, shift, spare, ratio, tip, place : numpy.ndarray
        Of those left: module in mm, tooth counts (n, 2 or 3), shift of each gear of a direct pair,
        strength over load, contact ratio, largest tip diameter in mm, and the idler's distance
        from the line of the shafts in mm.
    looked_at : int
    struck : dict of str to int
        For each rule, how many candidates it alone or first struck out.
    near : dict of tuple to int
        Candidates that only a missing cutter (module, number) strikes out.
    """

    module: np.ndarray
    counts: np.ndarray
    shift: np.ndarray
    spare: np.ndarray
    ratio: np.ndarray
    tip: np.ndarray
    place: np.ndarray
    looked_at: int
    struck: dict[str, int]
    near: dict[tuple[float, int], int] = field(default_factory=dict)


def pitch(module: float, *, typed: bool = False) -> str:
    """Say a module in mm as its cutter has it: a module, or a diametral pitch; or as it is typed.

    Examples
    --------
    >>> pitch(5.0), pitch(25.4 / 6), pitch(25.4 / 6, typed=True)
    ('module 5 mm', 'diametral pitch 6', '6 / in')
    """
    per_inch = round(25.4 / module)
    if abs(25.4 / module - per_inch) > 1e-5:
        return f"{module:g} mm" if typed else f"module {module:g} mm"
    return f"{per_inch} / in" if typed else f"diametral pitch {per_inch}"


@dataclass(frozen=True)
class Found:
    """Answer of a search.

    Attributes
    ----------
    direct, idler : Candidates
    pairs : numpy.ndarray, shape (n, 2)
        Rows of ``direct`` and ``idler`` that go together, best first.
    spare, size, smoothness : numpy.ndarray
        Of each pair: least strength over load, sum of largest blanks in mm, least contact ratio.
    struck_together : int
        Combinations struck out because the idler's pin meets the direct pair.
    """

    direct: Candidates
    idler: Candidates
    pairs: np.ndarray
    spare: np.ndarray
    size: np.ndarray
    smoothness: np.ndarray
    struck_together: int

    @property
    def looked_at(self) -> int:
        """Candidates of both paths."""
        return self.direct.looked_at + self.idler.looked_at

    @property
    def why_empty(self) -> str:
        """Which rule emptied the answer, in a sentence; empty where there is an answer."""
        if len(self.pairs):
            return ""
        for name, one in (("direct", self.direct), ("idler", self.idler)):
            if not len(one.module):
                rule, count = max(one.struck.items(), key=lambda item: item[1])
                last = [rule for rule, struck in one.struck.items() if struck][-1]
                return (
                    f"No {name} path is left: of {one.looked_at} candidates most ({count}) were struck out by "
                    f'"{rule}", and the last by "{last}".'
                )
        return (
            f"All {self.struck_together} combinations bring the idler's pin into the direct pair."
        )

    def values(self, row: int) -> dict[str, object]:
        """Design fields of one answer, by dotted name."""
        i, j = self.pairs[row]
        shift = float(self.direct.shift[i])
        return {
            "paths.direct.module": pitch(self.direct.module[i], typed=True),
            "paths.direct.tooth_counts": [int(count) for count in self.direct.counts[i]],
            "paths.direct.profile_shift_coefficients": [round(shift, 4)] * 2 if shift else [],
            "paths.idler.module": pitch(self.idler.module[j], typed=True),
            "paths.idler.tooth_counts": [int(count) for count in self.idler.counts[j]],
            "paths.idler.profile_shift_coefficients": [],
        }

    def front(self) -> np.ndarray:
        """Rows that no other answer beats in both spare and size."""
        order = np.argsort(self.size, kind="stable")
        best = np.maximum.accumulate(self.spare[order])
        keep = np.concatenate([[True], best[1:] > best[:-1]]) if len(order) else np.array([], bool)
        best_rows: Indices = order[keep]
        return best_rows


def purchases(found: Found, most: int = 5) -> list[tuple[float, int, int]]:
    """Say which one cutter would unlock most candidates.

    Parameters
    ----------
    found : Found
    most : int

    Returns
    -------
    list of (module in mm, cutter number, candidates unlocked)
        Most first; candidates of both paths, before strength is looked at.
    """
    total: dict[tuple[float, int], int] = {}
    for one in (found.direct, found.idler):
        for key, count in one.near.items():
            total[key] = total.get(key, 0) + count
    ranked = sorted(total.items(), key=lambda item: (-item[1], item[0]))
    return [(module, number, count) for (module, number), count in ranked[:most]]
