"""How many batches a shear pin is good for: every start shears at it, and every turn about does so the other way."""

from __future__ import annotations

from math import log10

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.drive.fuses import (
    PINS_TOGETHER,
    SHEAR_OVER_TENSILE,
    SHEARS,
    pin_torques,
    shear_pin_torque,
)
from mixerkit.drive.pinsteel import not_known
from mixerkit.drive.remedies import LESS_CLAY
from mixerkit.frozen import result
from mixerkit.parts import fatigue
from mixerkit.results import LoadedMachine
from mixerkit.working import Given, Working, by_method, worked

__all__ = ["WANTED", "PinLife", "checks", "pin_life", "said"]

WANTED = 100.0
"""Batches that a pin is wanted to last at the least (common practice)."""
PEAK = 4 / 3 * 1.5
"""Greatest over mean shear in the neck: a round section (Shigley 10th ed., table 3-2) at a well-rounded fillet under
shear (table 7-1)."""
SHEAR_ENDURANCE = 0.577
"""Endurance in shear over that in bending (Shigley 10th ed., eq. 6-26: the load factor of distortion energy)."""
SOFT, SOFT_AT_FEW = 490.0, 0.9
"""Below so many MPa of tensile strength a steel bears this share of its strength a thousand times (Shigley 10th ed.,
fig. 6-18 and the text beside it, from memory)."""
_NAME = ("jam", "fuse", "pins last")


@result
class PinLife:
    """How a shear pin is loaded, and how long it bears that.

    Attributes
    ----------
    start, least : float
        Torque of the hardest start, and the least at which the pins break, in N*m.
    at_few, endured : float
        Shares of the torque that breaks a pin which it bears a thousand times, and a million times, to and fro.
    reversals : float
        How often a shaft is turned about in a batch.
    """

    start: float
    least: float
    at_few: float
    endured: float
    reversals: float

    @property
    def share(self) -> float:
        """Torque of a start over the least at which the pins break."""
        return self.start / self.least

    @property
    def pulsing(self) -> float:
        """Share that tires a pin to and fro as much as starts that come and go: Goodman."""
        half = self.share / 2
        # more than breaks it is more than breaks it to and fro
        return half / (1 - min(half, 0.5))

    @property
    def swings(self) -> float:
        """How often the pin bears a start to and fro."""
        return _borne(self, self.share)

    @property
    def pulses(self) -> float:
        """How often it bears a start that comes and goes."""
        return _borne(self, self.pulsing)

    @property
    def batches(self) -> float:
        """How many it is good for: Miner."""
        return 1 / (self.reversals / 2 / self.swings + 1 / self.pulses)


def pin_life(machine: LoadedMachine) -> PinLife | None:
    """Say how long the design's shear pins last; none where it has none, or nothing is known of them.

    Two turns about are a swing to and fro, and each batch begins with a start besides (counted as rain flows:
    ASTM E1049). All starts count as the hardest, and the pin as the weakest of its bar.
    """
    spec, one = machine.spec, machine.spec.fuse
    if one.kind != "shear pin" or not_known(spec):
        return None
    least = pin_torques(spec)[0]
    start = float(machine.power_flow.torque_at_box_output[machine.load_cases.starting].max())
    # a shear strength of 1 MPa breaks the pins that carry at first
    first = PINS_TOGETHER if one.pins > 1 else 1.0
    each = first * float(
        shear_pin_torque.formula(one.pin_diameter, one.pin_radius, 1.0, one.pins, one.planes)
    )
    tensile = SHEAR_OVER_TENSILE * least / each / SHEARS[1]
    at_few = SOFT_AT_FEW if tensile <= SOFT else fatigue.AT_FEW
    limit = float(fatigue.endurance_limit.formula(tensile, one.pin_diameter))
    endured = SHEAR_ENDURANCE * limit / (PEAK * SHEARS[1] * tensile)
    return PinLife(start, least, at_few, endured, spec.batch.reversals)


def _borne(found: PinLife, share: float) -> float:
    """How often a pin bears a share of what breaks it, to and fro; a million times is as often as is counted."""
    few, many = log10(fatigue.FEW), log10(fatigue.MANY)
    if share >= 1:
        return 1.0
    if share > found.at_few:
        return float(10 ** (few * log10(share) / log10(found.at_few)))
    if share <= found.endured:
        return fatigue.MANY
    fall = log10(found.at_few / share) / log10(found.at_few / found.endured)
    return float(10 ** (few + (many - few) * fall))


def said(machine: LoadedMachine) -> str:
    """Say in a sentence when to change the pins; nothing where there are none or nothing is known of them."""
    found = pin_life(machine)
    if found is None:
        return ""
    return f"Starts tire {_pins(machine)}: change {'it' if machine.spec.fuse.pins == 1 else 'all'} {_every(found)}."


def _pins(machine: LoadedMachine) -> str:
    return "its pin" if machine.spec.fuse.pins == 1 else "its pins"


def _every(found: PinLife) -> str:
    whole = int(found.batches)
    return f"every {whole} batches" if whole > 1 else "before every batch"


def checks(machine: LoadedMachine) -> list[Check]:
    """Check that a shear pin lasts a while: one that breaks at a start every other day is replaced by a bolt.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    if machine.spec.fuse.kind != "shear pin":
        return []
    found = pin_life(machine)
    if found is None:
        return [make_unjudged(machine, *_NAME, not_known(machine.spec))]
    return [_lasts(machine, found)]


def _lasts(machine: LoadedMachine, found: PinLife) -> Check:
    one = machine.spec.fuse
    # a share so much smaller lasts so much longer
    power = log10(found.at_few / found.endured) / 3
    thicker = one.pin_diameter * (WANTED / found.batches) ** (power / 2)

    setting = found.start * machine.spec.safety.fuse_over_start / (1 - one.scatter)
    changes: list[Change] = [
        {"fuse.pin_diameter": thicker},
        "fuse.pin_diameter",
        {"fuse.kind": "torque limiter", "fuse.setting": setting},
        *LESS_CLAY,
    ]

    return make_check(
        machine,
        *_NAME,
        where=machine.load_cases.starting,
        demand=WANTED,
        capacity=found.batches,
        unit="",
        words=(f"{WANTED:g} batches", f"{int(found.batches)} batches"),
        tight=1.0,
        working=lambda i: _workings(machine, found),
        source="shear strength for a count of loads: Shigley 10th ed., eq. 6-13 to 6-17 and 6-26; two turns about a swing: ASTM E1049",
        reason=lambda i, say: (
            f"a start brings {say(found.start, 'N*m')} to {_pins(machine)}, of {say(found.least, 'N*m')} that break the "
            f"weakest of the bar, and {machine.spec.batch.reversals:g} times in a batch a shaft is turned about: change "
            f"{'it' if one.pins == 1 else 'all'} {_every(found)}"
        ),
        fix=lambda i: changes,
    )


def _line(found: PinLife, symbol: str, share: Given, times: float) -> Working:
    """Say how often a share is borne, on the line where it lies."""
    value, few = share[0], (found.at_few, "", "share borne a thousand times")
    if value >= 1 or value <= found.endured:
        words = (
            "once, as it breaks" if value >= 1 else "more often than the million that are counted"
        )
        return by_method(symbol, words, times, "", x=share)
    if value > found.at_few:
        return worked(f"{symbol} = 1000**(log(x)/log(f))", times, "", x=share, f=few)
    ended: Given = (found.endured, "", "above")
    return worked(f"{symbol} = 1000*1000**(log(f/x)/log(f/e))", times, "", x=share, f=few, e=ended)


def _workings(machine: LoadedMachine, found: PinLife) -> list[Working]:
    """Say how the batches were got."""
    share: Given = (found.share, "", "above")
    return [
        by_method(
            "e",
            "endurance in shear of the weakest pin, its surface, size, peak of shear and neck counted in, over its strength",
            found.endured,
            "",
            K=(PEAK, "", "peak over mean shear: Shigley, tables 3-2 and 7-1"),
        ),
        worked(
            "x = T/T_F",
            found.share,
            "",
            T=(found.start, "N*m", "power flow, hardest start"),
            T_F=(found.least, "N*m", "fuse, least torque of its bounds"),
        ),
        _line(found, "N_r", share, found.swings),
        worked("x_p = x/2/(1 - Min(x/2, 1/2))", found.pulsing, "", source="Goodman", x=share),
        _line(found, "N_p", (found.pulsing, "", "above"), found.pulses),
        worked(
            "B = 1/(n/2/N_r + 1/N_p)",
            found.batches,
            "",
            source="Miner",
            n=(machine.spec.batch.reversals, "", "batch.reversals"),
            N_r=(found.swings, "", "above"),
            N_p=(found.pulses, "", "above"),
        ),
    ]
