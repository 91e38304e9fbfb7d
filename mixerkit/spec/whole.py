"""All tables of a design file together."""

from __future__ import annotations

from collections.abc import Mapping

from mixerkit.fields import Record, by_name, choice, day, section, whole, words
from mixerkit.spec.contact import Contact
from mixerkit.spec.drive import Clutch, Motor, Reducer, Supply
from mixerkit.spec.formats import FORMAT
from mixerkit.spec.frame import Frame
from mixerkit.spec.gears import Housing, Paths
from mixerkit.spec.load import Batch, Clay, Paddles, Trough
from mixerkit.spec.motor_drive import MotorDrive
from mixerkit.spec.shafts import Bearings, Fuse, Guard, Hubs, Shaft, Sleeve
from mixerkit.spec.wanted import Ranges, Safety, Want

__all__ = ["Spec"]


class Spec(Record, role="choice"):
    """The whole machine as its maker says it.

    Attributes
    ----------
    format, name, date, show_units : int, str, str, str
    batch, clay, trough, supply, motor, motor_drive, reducer, paths, clutch, housing : Record
    paddles, shaft_1, shaft_2, sleeve, contact, hubs, bearings, frame, fuse, guard : Record
    safety, ranges, want : Record
    drafted : mapping of str to object
        Fields that the kit drafted, by dotted name, and the values it gave them.
    """

    format: int = whole(1, 9999, "number of the file's form", f"{FORMAT}", FORMAT)
    name: str = words("what this machine is called on sheets", "Our clay mixer")
    date: str = day(
        "day that stands on sheets and report; the day of printing if left out", "2026-03-01"
    )
    show_units: str = choice(("metric", "inch"), "units shown on sheets and in tables", "metric")
    batch: Batch = section(Batch, "what goes into the trough")
    clay: Clay = section(Clay, "the clay")
    trough: Trough = section(Trough, "the trough")
    supply: Supply = section(Supply, "the socket")
    motor: Motor = section(Motor, "the motor")
    motor_drive: MotorDrive = section(MotorDrive, "what sits between motor and box", optional=True)
    reducer: Reducer = section(Reducer, "the reduction box")
    paths: Paths = section(Paths, "the two gear paths")
    clutch: Clutch = section(Clutch, "the dog clutch", optional=True)
    housing: Housing = section(Housing, "the gear housing")
    paddles: Paddles = section(Paddles, "the paddles")
    shaft_1: Shaft = section(Shaft, "the shaft on the reduction box")
    shaft_2: Shaft = section(Shaft, "the shaft driven through the gears")
    sleeve: Sleeve = section(Sleeve, "the sleeve over the shafts in the trough", optional=True)
    contact: Contact = section(Contact, "what the clay touches", optional=True)
    hubs: Hubs = section(Hubs, "how box and gears hold their shafts", optional=True)
    bearings: Bearings = section(Bearings, "what everything turns in")
    frame: Frame = section(Frame, "walls, bolts and feet", optional=True)
    fuse: Fuse = section(Fuse, "what gives way first", optional=True)
    guard: Guard = section(Guard, "what keeps hands away", optional=True)
    safety: Safety = section(Safety, "wanted factors", optional=True)
    ranges: Ranges = section(Ranges, "how well the inputs are known", optional=True)
    want: Want = section(Want, "what is wanted besides that it holds", optional=True)
    drafted: Mapping[str, object] = by_name(
        "fields that the kit drafted, and the values it gave them", '"trough.length" = "330 mm"'
    )
