"""Turns of the motor for one of shaft 1, over all that sits between: the one place where they are reckoned."""

from __future__ import annotations

from mixerkit.spec import Spec
from mixerkit.working import Given, Working, worked

__all__ = [
    "drive_efficiency",
    "drive_ratio",
    "efficiency_given",
    "kept_turns",
    "loaded_ratio",
    "loaded_worked",
    "ratio_given",
    "reduction_worked",
    "total_efficiency",
    "total_ratio",
]


def drive_ratio(spec: Spec) -> float:
    """Turns of the motor for one of the box's fast end, nothing slipping: driven over driver.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    float
        1 for a flange and a coupling.

    References
    ----------
    The ratio's definition, over datum diameters or teeth.

    Examples
    --------
    >>> from mixerkit import Design
    >>> belts = {"motor_drive.kind": "V-belt", "motor_drive.belt.box_pulley": "180 mm"}
    >>> drive_ratio(Design.demo()), drive_ratio(Design.demo().with_values(belts))
    (1.0, 2.0)
    """
    one = spec.motor_drive
    if one.kind == "V-belt":
        return one.belt.box_pulley / one.belt.motor_pulley
    if one.kind == "chain":
        return one.chain.box_teeth / one.chain.motor_teeth
    return 1.0


def drive_efficiency(spec: Spec) -> float:
    """Share of the torque that comes through what sits between motor and box."""
    one = spec.motor_drive
    return {"V-belt": one.belt.efficiency, "chain": one.chain.efficiency}.get(one.kind, 1.0)


def kept_turns(spec: Spec) -> float:
    """Share of its turns that the drive between motor and box keeps under load: belts lose some."""
    return 1.0 - spec.motor_drive.belt.slip if spec.motor_drive.kind == "V-belt" else 1.0


def total_ratio(spec: Spec) -> float:
    """Turns of the motor for one of shaft 1, nothing slipping: torques and an empty machine go by it.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    float
    """
    return spec.reducer.ratio * drive_ratio(spec)


def loaded_ratio(spec: Spec) -> float:
    """Turns of the motor for one of shaft 1 under load, with what belts slip."""
    return total_ratio(spec) / kept_turns(spec)


def total_efficiency(spec: Spec) -> float:
    """Share of the motor's torque times :func:`total_ratio` that arrives at shaft 1."""
    return spec.reducer.efficiency * drive_efficiency(spec)


def ratio_given(spec: Spec) -> Given:
    """Total ratio as it stands in a working, which then has :func:`reduction_worked` with it."""
    origin = "reducer.ratio" if spec.motor_drive.kind not in _TURNS else "total of box and drive"
    return total_ratio(spec), "", origin


def efficiency_given(spec: Spec) -> Given:
    """Total efficiency as it stands in a working."""
    own = "reducer.efficiency"
    origin = own if spec.motor_drive.kind not in _TURNS else f"{own} times that of the drive before"
    return total_efficiency(spec), "", origin


_TURNS = {
    "V-belt": ("motor_drive.belt.box_pulley", "motor_drive.belt.motor_pulley", "mm"),
    "chain": ("motor_drive.chain.box_teeth", "motor_drive.chain.motor_teeth", ""),
}
"""Fields of the driven and the driving wheel, and their unit, by the kinds that have a ratio of their own."""


def reduction_worked(spec: Spec) -> list[Working]:
    """Say how the total ratio was got; nothing where the motor turns the box one to one.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    list of Working
    """
    one = spec.motor_drive
    if one.kind not in _TURNS:
        return []
    driven, driver, unit = _TURNS[one.kind]
    wheels = (
        (one.belt.box_pulley, one.belt.motor_pulley)
        if one.kind == "V-belt"
        else (one.chain.box_teeth, one.chain.motor_teeth)
    )
    return [
        worked(
            "i = i_B*D_2/D_1",
            total_ratio(spec),
            "",
            i_B=(spec.reducer.ratio, "", "reducer.ratio"),
            D_2=(wheels[0], unit, driven),
            D_1=(wheels[1], unit, driver),
        )
    ]


def loaded_worked(spec: Spec) -> list[Working]:
    """Say how the ratio under load was got, with what belts slip.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    list of Working
    """
    if spec.motor_drive.kind != "V-belt":
        return reduction_worked(spec)
    return [
        *reduction_worked(spec),
        worked(
            "i_s = i/(1 - s)",
            loaded_ratio(spec),
            "",
            i=(total_ratio(spec), "", "above"),
            s=(spec.motor_drive.belt.slip, "", "motor_drive.belt.slip"),
        ),
    ]
