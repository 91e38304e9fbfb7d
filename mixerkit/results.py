"""What is worked out of a design, as frozen records: no formulas, only what stands where and in which unit.

Arrays over the load cases run as :data:`mixerkit.states.LOAD_CASES` does.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Protocol

import numpy as np
import numpy.typing as npt

from mixerkit.fields import Record
from mixerkit.frozen import cached_property, result
from mixerkit.spec import Spec
from mixerkit.states import LoadCases
from mixerkit.units import Array, Numbers

__all__ = [
    "Abilities",
    "Array",
    "Batch",
    "BoxBush",
    "ClayLoad",
    "ClayStrength",
    "Counts",
    "Flags",
    "Indices",
    "Numbers",
    "PowerFlow",
    "Rotation",
    "TableRow",
    "Train",
    "Travel",
]

Counts = int | npt.NDArray[np.int_]
"""A whole number, or an array of them of any shape."""
Flags = npt.NDArray[np.bool_]
Indices = npt.NDArray[np.intp]
TableRow = Mapping[str, Any]
"""A row of a table by its columns: numbers in the units of their headings, and words."""


@result
class ClayStrength:
    """Undrained strength of the clay as a test gives it.

    Attributes
    ----------
    strength : float
        In kPa.
    rate : float
        Of shear in 1/s, at which the test found it.
    words : str
        How it was found.
    valid : bool
        Whether it lies inside the range of the relation it was found by.
    """

    strength: float
    rate: float
    words: str
    valid: bool


@result
class ClayLoad:
    """What the clay asks of one paddle shaft.

    Attributes
    ----------
    turn, mean, peak : array, float, float
        Torque in N*m over a turn in degrees, its mean and its greatest.
    paddles, cylinder : float
        Greatest torque in N*m by the blades one by one, and by the cylinder they sweep.
    governs : str
        Which of both is the lesser; the cylinder only where those of both shafts do not overlap.
    sleeve : float
        Torque in N*m of the sleeve in the clay, on top of either.
    scraping : float
        Part of it from the tips, in N*m.
    heaped, beside : float
        Greatest torque in N*m of the shaft that the clay is heaped on, and of the other then.
    heaped_blades : float
        How many blades' worth of that shaft are buried at most.
    strength : float
        Of the clay in kPa at the rate of mixing.
    level : float
        Of the clay over the shafts in mm.
    force, push : float
        Of one buried blade across and along its shaft, in N.
    buried, angles : array
        Share of each blade that is buried, and where it points in degrees, over a turn.
    clay : ClayStrength
    """

    turn: Array
    mean: float
    peak: float
    paddles: float
    cylinder: float
    governs: str
    sleeve: float
    scraping: float
    heaped: float
    beside: float
    heaped_blades: float
    strength: float
    level: float
    force: float
    push: float
    buried: Array
    angles: Array
    clay: ClayStrength

    @cached_property
    def most_buried(self) -> float:
        """Blades' worth of one shaft that is buried at most at any angle."""
        return float(self.buried.sum(axis=1).max())


@result
class Abilities:
    """What a motor can give as it is fed.

    Attributes
    ----------
    rated, lasting, start, pull_up, greatest, pushing, breakdown : float
        Torques in N*m: on the plate, all day as fed, at rest, least while running up, at the speed it runs
        at, at any speed from that down to rest, and that of the field alone.
    field, plate_field : float
        Speed of the field in rpm as fed, and on the plate.
    slip : float
        At breakdown, as a share of ``plate_field``.
    """

    rated: float
    lasting: float
    start: float
    pull_up: float
    greatest: float
    pushing: float
    breakdown: float
    field: float
    plate_field: float
    slip: float


@result
class PowerFlow:
    """Torques, speeds and powers along the path of the power, over the load cases.

    Attributes
    ----------
    stations : mapping of str to tuple of array
        Speed in rpm, torque in N*m and power in kW at each station.
    losses : mapping of str to array
        In kW.
    abilities : Abilities
        Of the motor.
    rated, greatest : float
        The motor's rated torque, and its greatest as it arrives at the slow end, in N*m.
    jam_torque, jam_torque_without_fuse : array
        Torque of a jam at the box's output, in N*m.
    torque_at_motor, torque_at_box_output, torque_into_gear_path : array
        In N*m.
    wound_up : array of int
        Places of the load cases in which a jam winds up the train.
    paddles : tuple of array
        Torque at the paddles of both shafts, in N*m.
    at_gears, drag, turns : mapping of int to array
        By shaft: torque at its gears and of its seals in N*m, and turns for one of shaft 1.
    box_efficiency, efficiency : array
        Share of the torque that comes through the box, and through all from the motor to shaft 1.
    into_box : tuple of array
        Speed in rpm, torque in N*m and power in kW at the box's fast end.
    speed_while_mixing : array
        Of the motor in rpm, with its direction.
    slides : mapping of str to array
        By path: turns of its free gear on its shaft for one of shaft 1.
    asked : array
        Of both shafts together by the clay, in N*m.
    """

    stations: Mapping[str, tuple[Array, Array, Array]]
    losses: Mapping[str, Array]
    abilities: Abilities
    rated: float
    greatest: float
    jam_torque: Array
    jam_torque_without_fuse: Array
    torque_at_motor: Array
    torque_at_box_output: Array
    torque_into_gear_path: Array
    wound_up: Indices
    paddles: tuple[Array, Array]
    at_gears: Mapping[int, Array]
    drag: Mapping[int, Array]
    box_efficiency: Array
    efficiency: Array
    into_box: tuple[Array, Array, Array]
    speed_while_mixing: Array
    turns: Mapping[int, Array]
    slides: Mapping[str, Array]
    asked: Array


@result
class Batch:
    """Time, throughput, energy and warming of one batch.

    Attributes
    ----------
    minutes, lasts : float, str
        Time, infinite where it never ends, and the same in words.
    throughput : float
        In kg/h with loading.
    energy, drawn : float
        In kJ into the clay, and at the motor's shaft.
    warmer : float
        In K.
    """

    minutes: float
    lasts: str
    throughput: float
    energy: float
    drawn: float
    warmer: float


@result
class Train:
    """The power path as one rotor on one spring, seen from shaft 1.

    Attributes
    ----------
    inertia : float
        Of the rotor in kg*m^2.
    springs : mapping of str to float
        Stiffness of each part in N*m/rad.
    stiffness : float
        Of all in a row, in N*m/rad.
    play : float
        Backlash in rad.
    ratio : float
        Torque on the jammed shaft for one N*m at the slow end.
    """

    inertia: float
    springs: Mapping[str, float]
    stiffness: float
    play: float
    ratio: float


@result
class Rotation:
    """A jam as it goes on, the rotor winding up the train.

    Attributes
    ----------
    time, torque, speed, angle, energy : array
        In s, N*m, rad/s, rad and J.
    peak : float
        Greatest torque in N*m.
    broke : float, optional
        Time in s at which the fuse gave; none where it did not.
    """

    time: Array
    torque: Array
    speed: Array
    angle: Array
    energy: Array
    peak: float
    broke: float | None


@result
class Travel:
    """Places of the clutch sleeve, in mm.

    Attributes
    ----------
    room, gap, travel, other, bottom : float
        Between the gears' dogs; to the dogs in neutral; from neutral into a gear; from the one gear into the
        other; left at the bottom of the dogs when they are in.
    """

    room: float
    gap: float
    travel: float
    other: float
    bottom: float


@result
class BoxBush:
    """The bush that makes up between shaft 1 and the box's bore: its wall in mm, and words on it."""

    wall: float
    words: str


class LoadedMachine(Protocol):
    """A machine as far as its loads are known: what lays out its shafts and makes its checks asks for these."""

    @property
    def spec(self) -> Spec:
        """The design's records."""

    @property
    def system(self) -> str:
        """Units this maker reads: ``"metric"`` or ``"inch"``."""

    @property
    def load_cases(self) -> LoadCases:
        """Every load case, in the order of all arrays."""

    @property
    def running_speed(self) -> float:
        """Speed of shaft 1 in rpm while it mixes, at the frequency the motor is fed with and under its rated torque: life, wear and batch go by it."""

    @property
    def empty_speed(self) -> float:
        """Speed of shaft 1 in rpm with the trough empty: run-down and jam go by it."""

    @property
    def clay_load(self) -> ClayLoad:
        """What the clay asks of one shaft."""

    @property
    def power_flow(self) -> PowerFlow:
        """Torques and speeds along the power path."""

    def with_numbers(self, **records: Record) -> LoadedMachine:
        """Give the machine with some records exchanged for others, which are not read again."""
