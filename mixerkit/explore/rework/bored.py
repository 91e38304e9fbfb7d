"""Where the holes of the plates are, by the sizes as made."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

import numpy as np

from mixerkit.parts import mesh
from mixerkit.parts.idler import idler_centre
from mixerkit.shop.holes import PLATES
from mixerkit.shop.measurements import Measurements, distance_as_bored
from mixerkit.shop.wanted_sizes import off_by
from mixerkit.spec import Spec

__all__ = ["Bored", "as_bored", "idler_distances"]


@dataclass(frozen=True)
class Bored:
    """Where the holes of the plates are.

    Attributes
    ----------
    apart : float
        Distance of the shafts in mm.
    idler : tuple of (float, float), optional
        Distances of the idler's hole from both shafts in mm, not numbers where it is bored and its place
        is not measured; none where it is not bored yet.
    """

    apart: float
    idler: tuple[float, float] | None = None

    def shafts_off(self, spec: Spec) -> bool:
        """Whether the shafts stand at another distance than drawn."""
        drawn = spec.housing.centre_distance
        return abs(self.apart - drawn) > off_by(drawn) + 1e-9

    def idler_off(self, spec: Spec) -> bool:
        """Whether the idler's hole stands at another distance than drawn from either shaft."""
        drawn = idler_distances(spec)
        return self.idler is not None and any(
            abs(made - want) > off_by(want) + 1e-9
            for made, want in zip(self.idler, drawn, strict=True)
        )

    def idler_strays(self, spec: Spec) -> float:
        """How far in mm the idler's hole is from its place, shaft 2 being put where it is drawn."""
        if self.idler is None:
            return 0.0
        along, aside = (float(one) for one in mesh.idler_place.formula(self.apart, *self.idler))
        x, y, _ = idler_centre(spec)
        return float(np.hypot(along - x, aside - abs(y)))


def idler_distances(spec: Spec) -> tuple[float, float]:
    """Distances of the idler's hole from both shafts as drawn, in mm."""
    distances = idler_centre(spec)[2]
    return distances[0], float(sum(distances[1:]))


def as_bored(spec: Spec, made: Measurements, doubted: Collection[str] = ()) -> Bored:
    """Where the holes are by the sizes as made, those of both plates taken together.

    Parameters
    ----------
    spec : Spec
        The design in plain numbers.
    made : Measurements
    doubted : collection of str
        Names of findings that are no sizes, but slips or another part's: such a plate says nothing.

    Returns
    -------
    Bored
    """
    trusted = [
        which
        for which in PLATES
        if {f"plates.{which}", f"plates.{which}.centre_distance"}.isdisjoint(doubted)
    ]
    apart = [one for which in trusted if (one := distance_as_bored(made, which)) is not None]
    rows = []
    for which in trusted:
        names = [f"plates.{which}.{one}" for one in ("shaft_1", "idler_pin", "shaft_2")]
        if all(one in made.places for one in names):
            ends, (x, y) = (made.places[names[0]], made.places[names[2]]), made.places[names[1]]
            rows.append([float(np.hypot(at[0] - x, at[1] - y)) for at in ends])
    bored = any(
        f"plates.{which}.idler_pin" in made.places
        or f"plates.{which}.idler_pin_bore" in made.values
        for which in PLATES
    )
    first, second = np.mean(rows, axis=0) if rows else (np.nan, np.nan)
    return Bored(
        float(np.mean(apart)) if apart else spec.housing.centre_distance,
        (float(first), float(second)) if bored else None,
    )
