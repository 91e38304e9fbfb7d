"""What carries the machine: far bearing wall, sheet of the trough, bolts, feet and the arm's anchor.

Ranges of defaults are common practice unless they say more.
"""

from __future__ import annotations

from mixerkit.fields import Record, choice, number, quantity, whole, words

__all__ = ["Frame"]


class Frame(Record, role="choice"):
    """Walls, bolts and feet; the gear plates themselves are the housing's."""

    wall_thickness: float = quantity(
        "mm > 0 <= 200",
        "of the far wall, which holds the bearings beyond the trough",
        "20 mm",
        "20 mm",
    )
    wall_material: str = words(
        "of the far wall, a material of data/tables/materials.csv",
        "steel S355J2",
        "steel S355J2",
    )
    boss_length: float = quantity(
        "mm >= 0 <= 300",
        "of the bosses round the far wall's bores, wall included; 0 for a bare plate",
        "30 mm",
        "0 mm",
    )
    ribs: int = whole(
        0, 60, "round the trough's sheet between its ends, evenly spaced along the shafts", "3", 0
    )
    bolt_class: str = words(
        "of tie bolts, feet and the arm's anchor, a class of data/tables/bolt_classes.csv",
        "8.8",
        "8.8",
    )
    preload_share: float = number(
        "> 0 <= 0.9",
        "of the proof strength to which they are drawn up (Shigley 10th ed., eq. 8-31: 0.75)",
        "0.75",
        0.75,
        role="practice",
    )
    preload_scatter: float = number(
        ">= 0.1 <= 0.6",
        "how far the preload may be off either way, drawn up with a torque wrench (common practice)",
        "0.3",
        0.3,
        role="practice",
    )
    arm_held_by: str = choice(
        ("frame", "floor"),
        "what holds the torque arm: the machine's own frame, or something beside it",
        "floor",
    )
    arm_bolt: str = words("thread of the bolts of the torque arm's anchor", "M12", "M12")
    arm_bolts: int = whole(2, 12, "of them, in two rows", "2", 2)
    arm_bolt_pitch: float = quantity(
        "mm > 0 <= 1000", "from row to row of them, along the arm's pull", "60 mm", "60 mm"
    )
    arm_height: float = quantity(
        "mm >= 0 <= 1000", "of the arm's pull above the face that they hold", "60 mm", "60 mm"
    )
    arm_grip: float = quantity(
        "mm > 0 <= 200", "thickness that they clamp, anchor and frame together", "30 mm", "30 mm"
    )
    shaft_height: float = quantity(
        "mm > 0 <= 3000", "of the shafts above the floor", "700 mm", "900 mm"
    )
    edge_height: float = quantity(
        "mm > 0 <= 3000",
        "of the trough's edge, on which the bag is laid, above the floor",
        "850 mm",
        "1100 mm",
    )
    foot_length: float = quantity(
        "mm >= 0 <= 5000",
        "between the feet along the shafts; 0 for from the plate at the reducer to the far wall",
        "600 mm",
        "0 mm",
    )
    foot_width: float = quantity(
        "mm >= 0 <= 5000",
        "between the feet across the shafts; 0 for that of the tie bolts",
        "650 mm",
        "0 mm",
    )
    foot_hold: float = quantity(
        "N >= 0 <= 100000",
        "pull that the floor holds at each foot; 0 where it only stands",
        "3000 N",
        "0 N",
    )
    foot_bolt: str = words("thread of the bolt of each foot that is held", "M12", "M12")
    mass: float = quantity(
        "kg >= 0 <= 5000",
        "of the machine without box and motor, as weighed; 0 counts plates, far wall and shafts only",
        "160 kg",
        "0 kg",
        role="fact",
    )
    handling_push: float = quantity(
        "N > 0 <= 2000",
        "level push on the trough's edge of whoever heaves the bag over it (common practice)",
        "200 N",
        "200 N",
        role="practice",
    )
