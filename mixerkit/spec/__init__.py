"""The tables of a design file: what each field holds, its unit, its range and its role."""

from mixerkit.spec.contact import Contact
from mixerkit.spec.drive import Clutch, Motor, Reducer, Supply
from mixerkit.spec.formats import FORMAT, STEPS
from mixerkit.spec.frame import Frame
from mixerkit.spec.gears import GearPath, Housing, Paths
from mixerkit.spec.load import TESTED, Batch, Clay, Paddles, Trough
from mixerkit.spec.motor_drive import BeltDrive, ChainDrive, ElasticCoupling, MotorDrive
from mixerkit.spec.shafts import SERIES, Bearings, Fuse, Guard, Hubs, Shaft, Sleeve
from mixerkit.spec.wanted import Ranges, Safety, Want
from mixerkit.spec.whole import Spec

__all__ = [
    "FORMAT",
    "SERIES",
    "STEPS",
    "TESTED",
    "Batch",
    "Bearings",
    "BeltDrive",
    "ChainDrive",
    "Clay",
    "Clutch",
    "Contact",
    "ElasticCoupling",
    "Frame",
    "Fuse",
    "GearPath",
    "Guard",
    "Housing",
    "Hubs",
    "Motor",
    "MotorDrive",
    "Paddles",
    "Paths",
    "Ranges",
    "Reducer",
    "Safety",
    "Shaft",
    "Sleeve",
    "Spec",
    "Supply",
    "Trough",
    "Want",
]
