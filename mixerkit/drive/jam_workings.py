"""How the torque of a jam without a fuse was worked out."""

from __future__ import annotations

from collections.abc import Sequence

from mixerkit.drive import jam
from mixerkit.drive.motor_drive import added_inertia
from mixerkit.drive.motor_workings import field_speed
from mixerkit.parts.reduction import ratio_given, reduction_worked
from mixerkit.results import LoadedMachine, Train
from mixerkit.spec import GearPath
from mixerkit.tables import table
from mixerkit.working import Given, Working, worked

__all__ = ["jam_unfused"]


def _inertia(machine: LoadedMachine, referred: float) -> Working:
    plate = machine.spec.motor
    share, origin = 1.0, "motor.inertia"
    if not plate.inertia:
        share, origin = jam.INERTIA_MOST, "usual for motor.rated_power and motor.poles"
    more = machine.spec.motor_drive.kind != "flange"
    given: dict[str, Given] = {
        "c_J": (share, "", "most of what is usual, 1 as stated: common practice"),
        "i": ratio_given(machine.spec),
        "J_M": (jam.rotor_inertia(machine.spec) / share, "kg*m**2", origin),
    }
    if more:
        given["J_D"] = (added_inertia(machine.spec), "kg*m**2", "what drives the box, at the motor")
    return worked(
        "J = i**2*(c_J*J_M + J_D)" if more else "J = i**2*c_J*J_M",
        referred,
        "kg*m**2",
        source="",
        **given,
    )


def _between(machine: LoadedMachine, stiffness: float) -> Working:
    """Say how stiff belts, chain or coupling are as shaft 1 feels them."""
    return worked(
        "k_D = i_B**2*c",
        stiffness,
        "N*m/rad",
        source="energy is the same on both sides of the box",
        i_B=(machine.spec.reducer.ratio, "", "reducer.ratio"),
        c=(machine.spec.motor_drive.stiffness or 0.0, "N*m/rad", "motor_drive.stiffness"),
    )


def _box(machine: LoadedMachine, stiffness: float) -> Working:
    box = machine.spec.reducer
    return worked(
        "k_B = T_N/(c_B*phi)",
        stiffness,
        "N*m/rad",
        source="wind-up under rated torque: the box's sheet, else common practice",
        T_N=(box.rated_torque, "N*m", "reducer.rated_torque"),
        c_B=(
            jam.wind_up_share(machine.spec),
            "",
            "least of what is usual, 1 as stated or measured: common practice",
        ),
        phi=(box.wind_up, "deg", "reducer.wind_up"),
    )


def _bar(
    machine: LoadedMachine, number: int, lengths: Sequence[tuple[float, float]], stiffness: float
) -> Working:
    """Say how stiff lengths of a shaft are."""
    material = getattr(machine.spec, f"shaft_{number}").material
    shear = table("materials").find(material).values["shear_modulus"]
    given: dict[str, Given] = {
        "G": (shear, "GPa", f"data/tables/materials.csv, {material}: shear modulus")
    }
    for n, (length, size) in enumerate(lengths, 1):
        given[f"l_{n}"] = (length, "mm", f"shaft {number}, length between its drive and the stop")
        given[f"d_{n}"] = (size, "mm", f"shaft {number}, diameter of that length")
    give = " + ".join(f"l_{n}/d_{n}**4" for n in range(1, len(lengths) + 1))
    return worked(
        f"k_{number} = pi*G/(32*({give}))",
        stiffness,
        "N*m/rad",
        source="twist of round bars one behind the other: Shigley 10th ed., eq. 3-35 (from memory)",
        **given,
    )


def _teeth(name: str, path: GearPath, stiffness: float) -> Working:
    return worked(
        "k_z = c*b*(m*z_1/2)**2/n",
        stiffness,
        "N*m/rad",
        source="ISO 6336-1 (from memory), at the pitch radius of shaft 1's gear, meshes one behind the other",
        c=(
            jam.MESH_STIFFNESS,
            "GPa",
            "a pair of steel teeth for its width: ISO 6336-1 (from memory)",
        ),
        b=(path.face_width, "mm", f"paths.{name}.face_width"),
        m=(path.module, "mm", f"paths.{name}.module"),
        z_1=(path.tooth_counts[0], "", f"paths.{name}.tooth_counts"),
        n=(len(path.tooth_counts) - 1, "", f"meshes of the {name} path"),
    )


def _springs(
    machine: LoadedMachine, clutch: str, jammed: int, train: Train
) -> tuple[list[Working], dict[str, Given]]:
    """Say how stiff each part of the train is, and give those that are felt, by their symbols."""
    spec, path = machine.spec, jam.path_wound_up(machine.spec, clutch, jammed)
    bars = jam.lengths_wound_up(spec, clutch, jammed)
    steps = [_box(machine, train.springs["reduction box"])]
    if "motor drive" in train.springs:
        steps.append(_between(machine, train.springs["motor drive"]))
    if bars[1]:
        steps.append(_bar(machine, 1, bars[1], train.springs["shaft 1"]))
    felt = steps
    if path is not None:
        felt = [*steps, _teeth(clutch, path, train.springs["teeth"])]
        steps = felt
        if bars[2]:
            bar = _bar(machine, 2, bars[2], train.springs["shaft 2"] / train.ratio**2)
            geared = _geared(clutch, path, bar, train.springs["shaft 2"])
            steps, felt = [*steps, bar, geared], [*felt, geared]
    return steps, {one.symbol: (one.result, one.unit, "above") for one in felt}


def _geared(name: str, path: GearPath, bar: Working, stiffness: float) -> Working:
    """Say how stiff shaft 2 is as shaft 1 feels it."""
    return worked(
        "k_g = k_2*(z_1/z_n)**2",
        stiffness,
        "N*m/rad",
        source="energy is the same on both sides of the gears",
        k_2=(bar.result, bar.unit, "above"),
        z_1=(path.tooth_counts[0], "", f"paths.{name}.tooth_counts"),
        z_n=(path.tooth_counts[-1], "", f"paths.{name}.tooth_counts"),
    )


def jam_unfused(machine: LoadedMachine, i: int) -> list[Working]:
    """Say how the torque of a jam without a fuse was found."""
    spec, flow, cases = machine.spec, machine.power_flow, machine.load_cases
    jammed = 2 if cases.load[i] == "jam on shaft 2" else 1
    clutch = str(cases.clutch[i])
    train = jam.train(spec, clutch, jammed)
    steps, springs = _springs(machine, clutch, jammed, train)
    return [
        field_speed(machine),
        worked(
            "omega = n_0/i",
            machine.empty_speed,
            "rpm",
            n_0=(flow.abilities.field, "rpm", "above"),
            i=ratio_given(spec),
        ),
        *reduction_worked(spec),
        _inertia(machine, train.inertia),
        *steps,
        worked(
            f"k = 1/({' + '.join(f'1/{one}' for one in springs)})",
            train.stiffness,
            "N*m/rad",
            source="springs one behind the other",
            **springs,
        ),
        worked(
            "T_J = T_m + sqrt(T_m**2 + (omega*sqrt(k*J))**2)",
            float(flow.jam_torque_without_fuse[i]),
            "N*m",
            T_m=(float(flow.greatest), "N*m", "power flow, motor's greatest at the box's output"),
            omega=(machine.empty_speed, "rpm", "above"),
            k=(train.stiffness, "N*m/rad", "above"),
            J=(train.inertia, "kg*m**2", "above"),
        ),
    ]
