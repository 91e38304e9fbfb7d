"""How much of each operation a part takes, as rows of data/tables/hours.csv count it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import ceil, pi, sqrt

from mixerkit.parts.blades import section_at
from mixerkit.parts.frame_layout import plate_size
from mixerkit.parts.plate_feet import FOOT_BOLTS, FOOT_LEG
from mixerkit.parts.retainers import retainer
from mixerkit.parts.stack import Stack
from mixerkit.shop.blanks import GEARS, gear_blank
from mixerkit.shop.holes import plate
from mixerkit.shop.part import FACING, Part
from mixerkit.shop.shaftwork import shaft_work
from mixerkit.shop.stock import BOUGHT, bored_sleeves, finished_volume, stock_volume
from mixerkit.shop.trough_blank import trough_blank
from mixerkit.spec import Spec

__all__ = ["amounts_of", "runs", "trough_amounts"]

Amounts = dict[str, float]

_RUN = 4.0
"""Throat in mm of the fillet that one run lays (common practice)."""
_SMALL = ("screw", "dowel", "seal", "retaining ring", "tie bolt", "bolt of the feet")
"""Bought things that are put in within minutes."""
_FREE = 2
"""Bores of a gear's blank or a bush that are held to limits: outside and inside."""


def runs(throat: float) -> int:
    """How many runs a fillet takes, by its throat in mm.

    Examples
    --------
    >>> runs(4.0), runs(6.0)
    (1, 3)
    """
    return max(1, ceil((throat / _RUN) ** 2 - 1e-9))


def amounts_of(spec: Spec, part: Part, laid: Sequence[Stack], system: str = "metric") -> Amounts:
    """How much of each operation one part takes.

    Parameters
    ----------
    spec : Spec
    part : Part
    laid : sequence of Stack
        Both shafts laid out.
    system : str
        Whose bar and keys: ``"metric"`` or ``"inch"``.

    Returns
    -------
    dict of str to float
        By the names of data/tables/hours.csv.
    """
    if part.material == BOUGHT:
        small = part.name.startswith(_SMALL)
        return {"fastener" if small else "fit": 1.0}
    found = _sawn(spec, part, system) if part.cut else {}
    for begins, more in _BY_NAME:
        if part.name.startswith(begins):
            found |= more(spec, part, laid, system)
            break
    return {"fit": 1.0} | found


def trough_amounts(spec: Spec) -> Amounts:
    """What shell, ends and ribs of the trough take; ribs are welded on both sides."""
    blank, ribs = trough_blank(spec), spec.frame.ribs
    once = runs(spec.trough.wall_thickness / sqrt(2))
    return {
        "cut": (blank.cut + 2 * ribs * blank.girth) / 1e3,
        "bend": 2.0,
        "tack": 2.0 + ribs,
        "seam": once * (blank.seam + 2 * ribs * blank.girth) / 10,
        "drill": 4.0,
        "fit": 1.0,
    }


def _sawn(spec: Spec, part: Part, system: str) -> Amounts:
    """Sawn off its bar and, from round bar, turned down to what is left of it."""
    long = part.cut[1] if part.cut else 0.0
    volume = stock_volume(spec, part, system)
    found = {"saw set-up": 1.0, "saw": volume / (long + FACING) / 100, "chucking": 2.0}
    return found | {"chips": max(volume - finished_volume(part), 0.0) / 1e3, "limits": 1.0}


def _shaft(spec: Spec, part: Part, laid: Sequence[Stack], system: str) -> Amounts:
    number = int(part.name[-1])
    one = shaft_work(spec, number, system, laid[number - 1])
    kinds = [feature.kind for feature in one.features]
    ways = [feature for feature in one.features if feature.kind == "keyway"]
    return {
        "chucking": 2.0 + len(one.segments),
        "limits": float(kinds.count("seat")),
        "groove": float(kinds.count("groove")),
        "keyway set-up": float(len(ways)),
        "keyway": sum(feature.end - feature.start for feature in ways) / 10,
        "ream": float(kinds.count("hole")),
    }


def _gear(spec: Spec, part: Part, _laid: Sequence[Stack], system: str) -> Amounts:
    one = gear_blank(spec, _gear_of(part.name), None, system)
    found = {
        "limits": float(_FREE),
        "gear set-up": 1.0,
        "tooth": float(one.count),
        # half of the ring between tips and roots is cut away
        "tooth chips": pi / 8 * (one.outside[0] ** 2 - one.root**2) * one.width / 1e3,
    }
    if one.keyway:
        found["hub keyway"] = 1.0
    if one.dogs:
        found |= {"dog set-up": 1.0, "dog": float(spec.clutch.dogs)}
    return found


def _gear_of(words: str) -> str:
    """Key of a gear by its words in the list of parts, without making every blank to compare them."""
    if ", idler" in words:
        return "idler_2"
    path, place = words.split(maxsplit=1)[0], 0 if "on shaft 1" in words else -1
    return next(name for name, where in GEARS.items() if where == (path, place))


def _clutch(spec: Spec, _part: Part, _laid: Sequence[Stack], _system: str) -> Amounts:
    """Dogs on both faces, a keyway for the feather key, a groove for the fork."""
    return {
        "dog set-up": 2.0,
        "dog": 2.0 * spec.clutch.dogs,
        "hub keyway": 1.0,
        "groove": 1.0,
        "limits": float(_FREE),
    }


def _plate(spec: Spec, part: Part, _laid: Sequence[Stack], _system: str) -> Amounts:
    """Cut, welded to its foot, trued, bored and drilled."""
    width, height = plate_size(spec)
    far = part.name == "far wall"
    thick = spec.frame.wall_thickness if far else spec.housing.plate_thickness
    holes = plate(spec, part.name.removeprefix("plate at the ")).holes if not far else ()
    kinds = [
        "ream" if one.name.startswith("dowel") else "bore" if one.zone else "drill" for one in holes
    ] or ["bore", "bore", *("drill" for _ in range(4))]
    bosses = 2.0 if far and spec.frame.boss_length > 0 else 0.0
    return {
        "cut": 2 * (width + height) / 1e3,
        "true": (width * height + 2 * (width + height) * thick) / 1e4,
        "plate set-up": 1.0,
        "tack": 1.0 + bosses,
        "seam": runs(FOOT_LEG / sqrt(2)) * 2 * width / 10,
        "bore": float(kinds.count("bore")),
        "ream": float(kinds.count("ream")),
        # its own, and those of its feet
        "drill": float(kinds.count("drill") + FOOT_BOLTS),
    }


def _retaining(spec: Spec, _part: Part, _laid: Sequence[Stack], _system: str) -> Amounts:
    one = retainer(spec)
    if one is None:
        return {}
    screws = float(len(one.screws))
    return {
        "cut": (2 * sum(one.size) + pi * sum(one.openings)) / 1e3,
        "drill": screws,
        # one of both is threaded, counted half for each
        "tap": screws / 2,
    }


def _bush(_spec: Spec, _part: Part, _laid: Sequence[Stack], _system: str) -> Amounts:
    """Turned, pressed in and reamed."""
    return {"limits": float(_FREE), "ream": 1.0}


def _paddle(spec: Spec, part: Part, _laid: Sequence[Stack], system: str) -> Amounts:
    """Sawn, milled to its stem, welded on all round."""
    blade, volume = spec.paddles, stock_volume(spec, part, system)
    foot = 2 * float(sum(section_at(blade, blade.root_radius)))
    reach = blade.tip_radius - blade.root_radius
    return {
        "saw set-up": 1.0,
        "saw": volume / max(reach, 1.0) / 100,
        "mill set-up": 1.0,
        "mill chips": max(volume - finished_volume(part), 0.0) / 1e3,
        "tack": 1.0,
        "seam": runs(blade.weld_throat) * foot / 10,
    }


def _sleeve(spec: Spec, _part: Part, _laid: Sequence[Stack], _system: str) -> Amounts:
    """Seats at both ends, and turned about for them."""
    return {"chucking": 3.0 if bored_sleeves(spec) else 2.0, "limits": float(_FREE)}


def _ring(spec: Spec, _part: Part, _laid: Sequence[Stack], _system: str) -> Amounts:
    """Welded into the sleeve on both sides, bored after."""
    round_it = 2 * pi * (spec.paddles.root_radius - spec.sleeve.wall)
    return {"limits": float(_FREE), "tack": 1.0, "seam": 2 * round_it / 10}


def _flange(spec: Spec, part: Part, _laid: Sequence[Stack], system: str) -> Amounts:
    """Out of bar, keyed, and bored for the pins together with its twin."""
    chips = stock_volume(spec, part, system) - finished_volume(part)
    return {
        "saw set-up": 1.0,
        "saw": pi * spec.fuse.pin_radius**2 / 100,
        "chucking": 3.0,
        "chips": chips / 1e3,
        "limits": float(_FREE),
        "hub keyway": 1.0,
        "ream": float(spec.fuse.pins),
    }


def _pin(_spec: Spec, _part: Part, _laid: Sequence[Stack], _system: str) -> Amounts:
    """A shear pin: sawn, its neck turned to size."""
    return {"saw set-up": 1.0, "chucking": 1.0, "limits": 1.0, "fit": 0.0, "fastener": 1.0}


def _spacer(_spec: Spec, _part: Part, _laid: Sequence[Stack], _system: str) -> Amounts:
    """Tube faced to length."""
    return {"chucking": 1.0, "fit": 0.0, "fastener": 1.0}


def _thin(spec: Spec, _part: Part, _laid: Sequence[Stack], _system: str) -> Amounts:
    """A washer or ring cut from sheet, inside and outside."""
    around = 2 * pi * (spec.housing.idler_pin + 2 * spec.bearings.bush_wall) / 1e3
    return {"cut": around, "fit": 0.0, "fastener": 1.0}


def _pressed(_spec: Spec, _part: Part, _laid: Sequence[Stack], _system: str) -> Amounts:
    """Round bar cut to length, with a fit: a pin of a sleeve."""
    return {"chucking": 1.0, "ream": 1.0}


_BY_NAME: tuple[tuple[str, Callable[[Spec, Part, Sequence[Stack], str], Amounts]], ...] = (
    ("shaft ", _shaft),
    ("direct path", _gear),
    ("idler path", _gear),
    ("clutch sleeve", _clutch),
    ("plate at the", _plate),
    ("far wall", _plate),
    ("retaining plate", _retaining),
    ("bush", _bush),
    ("idler's bush", _bush),
    ("paddle", _paddle),
    ("seat ring", _ring),
    ("sleeve pin", _pressed),
    ("sleeve", _sleeve),
    ("flange of the fuse", _flange),
    ("shear pin", _pin),
    ("spacer", _spacer),
    ("distance ring", _thin),
    ("thrust washer", _thin),
)
"""What each kind of part takes besides sawing and turning, by how its name begins."""
