"""How hard a bush is pressed, how fast it slides, and how soon it is worn out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check, Say
from mixerkit.parts import bearing, bearing_workings
from mixerkit.parts.remedies import LIGHTER, calmer
from mixerkit.results import Array, Flags, LoadedMachine, TableRow
from mixerkit.tables import table
from mixerkit.working import Working, worked

__all__ = ["LASTING", "Bush", "lasting"]

LASTING = (
    "pressure in {} in a jam",
    "pressure in {} while mixing",
    "sliding speed in {}",
    "pressure times speed in {}",
    "wear of {}",
)
"""Names of the checks, each with the bush in it."""


@dataclass(frozen=True, kw_only=True)
class Bush:
    """A bush and what it bears.

    Attributes
    ----------
    machine : LoadedMachine
    part : str
    bore, length : float
        In mm.
    load, stopped : array over the load cases
        Force in N while it turns, and in a jam.
    speed : array over the load cases
        In rpm.
    share : float
        Of the machine's life in which it slides.
    field : str
        That of its length.
    more : tuple of Change
        Other changes that help it.
    jam_bore : float, optional
        Bore of the bush that a jam loads most, where that is another one.
    """

    machine: LoadedMachine
    part: str
    bore: float
    length: float
    load: Array
    stopped: Array
    speed: Array
    share: float = 1.0
    field: str
    more: tuple[Change, ...] = ()
    jam_bore: float | None = None

    @property
    def material(self) -> str:
        """What it is made of."""
        return self.machine.spec.bearings.bush_material

    @property
    def row(self) -> TableRow:
        """What its material bears."""
        return table("bush_materials").find(self.material).values

    @property
    def source(self) -> str:
        """Where that stands."""
        return f"{self.material}: data/tables/bush_materials.csv"

    def better(self, column: str) -> list[Change]:
        """Name other materials that bear more."""
        has, sign = self.row, -1 if column == "wear_rate" else 1
        rows = [row.values for row in table("bush_materials")]
        rows = [row for row in rows if sign * row[column] > sign * has[column]]
        rows.sort(key=lambda row: sign * row[column])
        return [{"bearings.bush_material": row["name"]} for row in rows[:2]]

    def longer(self, value: float, allowed: float, column: str) -> list[Change]:
        """Give a bush so much longer, or a better one."""
        length = {self.field: float(self.length * value / allowed)}
        return [length, *self.better(column), *self.more]


@dataclass(frozen=True)
class _Sliding:
    """A bush while it turns: pressure in MPa and sliding speed in m/s over the load cases."""

    bush: Bush
    pressure: Array
    speed: Array
    turning: Flags

    @classmethod
    def of(cls, bush: Bush) -> _Sliding:
        """Work both out."""
        mixing = bush.machine.load_cases.mixing
        speed = np.asarray(bearing.sliding_speed.formula(bush.speed, bush.bore))
        turning = mixing & (speed > 0)
        pressure = bearing.bush_pressure.formula(bush.load, bush.bore, bush.length)
        return cls(bush, np.asarray(pressure), speed, turning if turning.any() else mixing)

    def pressed(self, i: int) -> Working:
        """Say how the pressure was got."""
        one = self.bush
        return bearing_workings.pressure(
            float(one.load[i]), one.bore, one.length, float(self.pressure[i]), one.part
        )

    def slid(self, i: int) -> Working:
        """Say how the speed was got."""
        one = self.bush
        return bearing_workings.sliding(
            float(one.speed[i]), one.bore, float(self.speed[i]), one.part
        )

    def rubbed(self, i: int) -> list[Working]:
        """Say how pressure times speed was got."""
        pressure, speed = float(self.pressure[i]), float(self.speed[i])
        both = worked(
            "P = p*v",
            float(self.pressure[i] * self.speed[i]),
            "MPa*m/s",
            p=(pressure, "MPa", "above"),
            v=(speed, "m/s", "above"),
        )
        return [self.pressed(i), self.slid(i), both]

    def told(self, i: int, say: Say) -> str:
        """Say what it bears."""
        one = self.bush
        return (
            f"{say(one.load[i], 'N')} on {say(one.bore, 'mm')} x {say(one.length, 'mm')}, "
            f"sliding {say(self.speed[i], 'm/s')}"
        )


def lasting(bush: Bush) -> list[Check]:
    """Check pressure turning and stopped, speed, pressure times speed, and wear over the machine's life.

    Parameters
    ----------
    bush : Bush

    Returns
    -------
    list of Check
    """
    slides = _Sliding.of(bush)
    return [_stopped(bush), *_turning(slides), _worn(slides)]


def _stopped(bush: Bush) -> Check:
    """Whether it bears a jam at rest."""
    machine, allowed = bush.machine, 2 * bush.row["pressure"]
    bore = bush.bore if bush.jam_bore is None else bush.jam_bore
    rest = np.asarray(bearing.bush_pressure.formula(bush.stopped, bore, bush.length))
    return make_check(
        machine,
        "bearings",
        bush.part,
        LASTING[0].format(bush.part),
        where=machine.load_cases.jammed,
        demand=rest,
        capacity=allowed,
        unit="MPa",
        working=lambda i: [
            bearing_workings.pressure(
                float(bush.stopped[i]), bore, bush.length, float(rest[i]), bush.part
            )
        ],
        source=f"{bush.source}; at rest twice that: common practice",
        reason=lambda i, say: (
            f"{say(bush.stopped[i], 'N')} on {say(bore, 'mm')} x {say(bush.length, 'mm')}"
        ),
        fix=lambda i: [
            *bush.longer(rest[i], allowed, "pressure"),
            *calmer(machine, i, rest[i] / allowed),
        ],
    )


def _turning(slides: _Sliding) -> list[Check]:
    """Whether it bears pressure and speed, alone and together, while it turns."""
    bush, row = slides.bush, slides.bush.row
    both = slides.pressure * slides.speed

    def check(
        name: str,
        demand: Array,
        capacity: float,
        unit: str,
        working: Callable[[int], list[Working]],
        fix: Callable[[int], list[Change]],
    ) -> Check:
        return make_check(
            bush.machine,
            "bearings",
            bush.part,
            name.format(bush.part),
            where=slides.turning,
            demand=demand,
            capacity=capacity,
            unit=unit,
            source=bush.source,
            working=working,
            reason=slides.told,
            fix=fix,
        )

    return [
        check(
            LASTING[1],
            slides.pressure,
            row["pressure"],
            "MPa",
            lambda i: [slides.pressed(i)],
            lambda i: [*bush.longer(slides.pressure[i], row["pressure"], "pressure"), *LIGHTER],
        ),
        check(
            LASTING[2],
            slides.speed,
            row["speed"],
            "m/s",
            lambda i: [slides.slid(i)],
            lambda i: [*bush.better("speed"), "motor.run_at", "reducer"],
        ),
        check(
            LASTING[3],
            both,
            row["pv"],
            "MPa*m/s",
            slides.rubbed,
            lambda i: [*bush.longer(both[i], row["pv"], "pv"), *LIGHTER, "motor.run_at"],
        ),
    ]


def _worn(slides: _Sliding) -> Check:
    """Whether it lasts as long as the machine."""
    bush, rate = slides.bush, slides.bush.row["wear_rate"]
    allowed = bush.machine.spec.bearings.wear_allowed
    hours = bush.machine.spec.batch.life_hours * bush.share
    path = slides.speed * 3.6 * hours
    worn = np.asarray(bearing.wear_depth.formula(slides.pressure, path, rate))
    return make_check(
        bush.machine,
        "bearings",
        bush.part,
        LASTING[4].format(bush.part),
        where=slides.turning,
        demand=worn,
        capacity=allowed,
        unit="mm",
        working=lambda i: bearing_workings.wear(
            slides.pressed(i), slides.slid(i), hours, rate, float(worn[i]), bush.material
        ),
        source=f"Archard's law; {bush.source}",
        reason=lambda i, say: f"{slides.told(i, say)} for {hours:g} h",
        fix=lambda i: [
            *bush.longer(worn[i], allowed, "wear_rate"),
            *LIGHTER,
            "motor.run_at",
        ],
        note=lambda i, say: (
            f"As it is, the bush is worn out after {say(hours * allowed / worn[i], 'hour')}: plan to change it then."
        ),
    )
