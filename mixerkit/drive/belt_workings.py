"""How the numbers of the belts' checks were worked out."""

from __future__ import annotations

from mixerkit.drive import belt
from mixerkit.drive.belt_set import NEW_BELT, STRETCH, BeltSet
from mixerkit.results import LoadedMachine
from mixerkit.tables import table
from mixerkit.working import Given, Working, as_given, by_method, worked

__all__ = [
    "least_apart",
    "life",
    "moved",
    "of_section",
    "pull_across",
    "slips",
    "speed",
    "tension",
    "wrap",
]


def least_apart(machine: LoadedMachine, share: float, least: float) -> Working:
    """Say how far apart the pulleys are to stand."""
    one = machine.spec.motor_drive.belt
    return worked(
        "C_min = c*(d_1 + d_2)",
        least,
        "mm",
        c=(share, "", "common practice"),
        d_1=(one.motor_pulley, "mm", "motor_drive.belt.motor_pulley"),
        d_2=(one.box_pulley, "mm", "motor_drive.belt.box_pulley"),
    )


def wrap(found: BeltSet) -> Working:
    """Say how the wrap was got."""
    return by_method(
        "theta",
        "half a turn less twice the angle whose sine is half the difference of both pulleys over their distance",
        found.both.wrap,
        "deg",
        source="Shigley 10th ed., eq. 17-1 (from memory)",
        d=(found.both.small, "mm", "smaller pulley"),
        D=(found.both.large, "mm", "larger pulley"),
        C=(found.both.centre, "mm", "motor_drive.belt.centre_distance"),
    )


def of_section(machine: LoadedMachine, symbol: str, column: str, unit: str) -> Working:
    """Say where a number of the section was read."""
    name = machine.spec.motor_drive.belt.section
    row = f"data/tables/belt_sections.csv, {name}: {column.replace('_', ' ')}"
    return as_given(symbol, _of(machine, column, unit)[0], unit, row)


def _of(machine: LoadedMachine, column: str, unit: str) -> Given:
    name = machine.spec.motor_drive.belt.section
    value = table("belt_sections").find(name).values[column]
    return value, unit, f"data/tables/belt_sections.csv, {name}: {column.replace('_', ' ')}"


def speed(machine: LoadedMachine, found: BeltSet) -> Working:
    """Say how fast the belts run."""
    return worked(
        "v = omega*d_1/2",
        found.speed,
        "m/s",
        omega=(machine.power_flow.abilities.field, "rpm", "motor, speed of its field as fed"),
        d_1=(found.both.motor, "mm", "motor_drive.belt.motor_pulley"),
    )


def moved(found: BeltSet) -> list[Working]:
    """Say how far the motor is moved for a belt that is made."""
    centre = float(belt.centre_for_length.formula(found.both.small, found.both.large, found.bought))
    sizes: dict[str, Given] = {
        "d": (found.both.small, "mm", "smaller pulley"),
        "D": (found.both.large, "mm", "larger pulley"),
    }
    return [
        worked(
            "L = 2*C + pi*(D + d)/2 + (D - d)**2/(4*C)",
            found.both.length,
            "mm",
            source="Shigley 10th ed., eq. 17-16a (from memory)",
            C=(found.both.centre, "mm", "motor_drive.belt.centre_distance"),
            **sizes,
        ),
        by_method(
            "L_B",
            "the nearest length of the section in data/tables/belt_lengths.csv",
            found.bought,
            "mm",
        ),
        worked(
            "C_B = (L_B - pi*(D + d)/2 + sqrt((L_B - pi*(D + d)/2)**2 - 2*(D - d)**2))/4",
            centre,
            "mm",
            source="Shigley 10th ed., eq. 17-16b (from memory)",
            L_B=(found.bought, "mm", "above"),
            **sizes,
        ),
        worked(
            "x = Abs(C_B - C) + c*L_B",
            found.moved,
            "mm",
            C_B=(centre, "mm", "above"),
            C=(found.both.centre, "mm", "motor_drive.belt.centre_distance"),
            c=(STRETCH, "", "stretching on and in use: common practice"),
            L_B=(found.bought, "mm", "above"),
        ),
    ]


def tension(machine: LoadedMachine, found: BeltSet) -> Working:
    """Say where the tension at rest came from."""
    drive = machine.spec.motor_drive
    if drive.belt.tension:
        return as_given("T_0", found.tension, "N", "motor_drive.belt.tension")
    return by_method(
        "T_0",
        "tension from which the greatest pull of mixing and starting, times the service factor, just slips with the least "
        "friction, with the belt's swing added, rounded up to a whole newton",
        found.tension,
        "N",
        source="Shigley 10th ed., eq. 17-9 (from memory)",
        F=(
            found.pull,
            "N",
            "greatest torque at the motor over its pulley's radius and the belts, with service factor",
        ),
        theta=(found.both.wrap, "deg", "wrap on the smaller pulley"),
        f=(drive.belt.friction_low, "", "motor_drive.belt.friction_low"),
        T_s=(found.swing, "N", "mass per length times the square of the belt's speed"),
    )


def slips(machine: LoadedMachine, found: BeltSet) -> list[Working]:
    """Say at which torque the belts slip."""
    drive = machine.spec.motor_drive
    return [
        speed(machine, found),
        wrap(found),
        tension(machine, found),
        worked(
            "T_s = m*v**2",
            found.swing,
            "N",
            source="what swings outwards grips nothing: Shigley 10th ed., ch. 17 (from memory)",
            m=_of(machine, "mass_per_length", "kg/m"),
            v=(found.speed, "m/s", "above"),
        ),
        worked(
            "T_G = z*(T_0 - T_s)*d_1*(exp(f*theta) - 1)/(exp(f*theta) + 1)",
            found.slips,
            "N*m",
            z=(drive.belt.belts, "", "motor_drive.belt.belts"),
            T_0=(found.tension, "N", "above"),
            T_s=(found.swing, "N", "above"),
            d_1=(found.both.motor, "mm", "motor_drive.belt.motor_pulley"),
            f=(drive.belt.friction_low, "", "motor_drive.belt.friction_low"),
            theta=(found.both.wrap, "deg", "above"),
        ),
    ]


def pull_across(machine: LoadedMachine, found: BeltSet) -> Working:
    """Say how the pull on both shafts was got."""
    return worked(
        "F = 2*z*c*T_0*sin(theta/2)",
        found.across,
        "N",
        z=(machine.spec.motor_drive.belt.belts, "", "motor_drive.belt.belts"),
        c=(NEW_BELT, "", "new belts are drawn up more: common practice"),
        T_0=(found.tension, "N", "tension at rest"),
        theta=(found.both.wrap, "deg", "wrap on the smaller pulley"),
    )


def life(machine: LoadedMachine, found: BeltSet) -> list[Working]:
    """Say how the hours that the belts last were got."""
    row = found.both.row
    bent = [found.tight + row["bending"] / size for size in (found.both.small, found.both.large)]
    passes = float(belt.belt_passes.formula(bent[0], bent[1], row["strength"], row["exponent"]))
    proven = min(passes, belt.MOST_PASSES)
    return [
        speed(machine, found),
        tension(machine, found),
        by_method(
            "F_1",
            "tension at rest, with half of the pull of mixing times the service factor",
            found.tight,
            "N",
            T_0=(found.tension, "N", "above"),
        ),
        *(
            worked(
                f"T_{place} = F_1 + K_b/d_{place}",
                one,
                "N",
                source="Shigley 10th ed., ch. 17: bending as a tension (from memory)",
                F_1=(found.tight, "N", "above"),
                K_b=_of(machine, "bending", "N*mm"),
                **{f"d_{place}": (size, "mm", f"{name} pulley")},
            )
            for place, name, size, one in (
                (1, "smaller", found.both.small, bent[0]),
                (2, "larger", found.both.large, bent[1]),
            )
        ),
        by_method(
            "N",
            "one over the sum of (T_1/K)^b and (T_2/K)^b, no more than 1e9 passes, beyond which nothing is proven",
            proven,
            "",
            K=_of(machine, "strength", "N"),
            b=_of(machine, "exponent", ""),
        ),
        worked(
            "t = N*L_B/v",
            found.hours,
            "h",
            N=(proven, "", "above"),
            L_B=(found.bought, "mm", "the length that is made"),
            v=(found.speed, "m/s", "above"),
        ),
    ]
