"""What a jam leaves wound up: whether the box lets it go by itself, how it is let off, what the fork would have to pull.

All torques are at the slow end of the reduction box unless they say otherwise.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check, Say
from mixerkit.drive import dogclutch
from mixerkit.drive.dog_checks import clutch_torque
from mixerkit.results import Array, LoadedMachine, Numbers
from mixerkit.spec import Spec
from mixerkit.units import in_units
from mixerkit.working import Given, Working, worked

__all__ = [
    "checks",
    "efficiency_backwards",
    "fan_torque",
    "fork_against",
    "left_wound_up",
    "resting_drag",
    "stays",
    "torque_kept",
]

DRAG_AT_REST = 0.05
"""Most of its rated torque that a motor at rest takes to be turned, in bearings and seals (common practice)."""


def efficiency_backwards(efficiency: float) -> float:
    r"""Share of the power that a box passes from its slow end to its fast end; nought or less where it holds.

    .. math:: \eta' = 2 - \frac{1}{\eta}

    Parameters
    ----------
    efficiency : float
        From the fast end to the slow, at rest.

    References
    ----------
    What is lost is the same both ways: common practice for worms, and a wedge with friction; exact for small leads.

    Examples
    --------
    >>> round(efficiency_backwards(0.75), 3), round(efficiency_backwards(0.45), 3)
    (0.667, -0.222)
    """
    return 2 - 1 / efficiency


def at_rest(spec: Spec) -> float:
    """Share of the power that the box passes from rest, never more than while it turns."""
    return min(spec.reducer.start_efficiency, spec.reducer.efficiency)


@in_units("N*m", torque="N*m >= 0", drag="N*m >= 0", ratio="> 0")
def torque_kept(torque: Numbers, drag: Numbers, ratio: Numbers, efficiency: float) -> Numbers:
    r"""Torque that stays wound up when the motor is switched off.

    .. math:: T_s = \min\left(T,\ \frac{i\,T_d}{\eta'}\right)

    Parameters
    ----------
    torque : quantity, any shape
        That wound it up.
    drag : quantity, broadcast
        Of the motor at rest, at its shaft.
    ratio : float, broadcast
    efficiency : float
        Of the box at rest, from the fast end to the slow; one that holds keeps all of it.

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    Equilibrium at the fast end, with :func:`efficiency_backwards`.

    Examples
    --------
    >>> torque_kept("600 N*m", "0.5 N*m", 60, 0.75), torque_kept("600 N*m", "0.5 N*m", 60, 0.45)
    (<Quantity(45.0, 'newton * meter')>, <Quantity(600.0, 'newton * meter')>)
    """
    back = efficiency_backwards(efficiency)
    if back <= 0:
        return torque
    kept: Numbers = np.minimum(torque, ratio * drag / back)
    return kept


@in_units("N*m", torque="N*m >= 0", drag="N*m >= 0", ratio="> 0")
def fan_torque(torque: Numbers, drag: Numbers, ratio: Numbers, efficiency: float) -> Numbers:
    r"""Torque at the motor's fan end that turns it back and lets off what stays wound up.

    .. math:: T_f = T_d + \frac{T}{i} \max(0, -\eta')

    Parameters
    ----------
    torque, drag, ratio, efficiency
        As in :func:`torque_kept`.

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    A worm that holds has to be turned back as a screw has to be undone: efficiency backwards less than nought.

    Examples
    --------
    >>> round(fan_torque("600 N*m", "0.5 N*m", 60, 0.45), 2), fan_torque("600 N*m", "0.5 N*m", 60, 0.75)
    (<Quantity(2.72, 'newton * meter')>, <Quantity(0.5, 'newton * meter')>)
    """
    return drag + torque / ratio * max(0.0, -efficiency_backwards(efficiency))


def resting_drag(machine: LoadedMachine) -> float:
    """Torque in N*m that the motor at rest takes to be turned."""
    return DRAG_AT_REST * machine.power_flow.rated


def stays(machine: LoadedMachine) -> Array:
    """Torque in N*m that stays wound up after a jam, over the load cases."""
    drag, ratio = resting_drag(machine), machine.spec.reducer.ratio
    jam = machine.power_flow.torque_at_box_output * machine.load_cases.jammed
    return np.asarray(torque_kept.formula(jam, drag, ratio, at_rest(machine.spec)))


def _at_fan(machine: LoadedMachine) -> Array:
    """Torque in N*m at the motor's fan end that lets it off, over the load cases."""
    drag, ratio = resting_drag(machine), machine.spec.reducer.ratio
    return np.asarray(fan_torque.formula(stays(machine), drag, ratio, at_rest(machine.spec)))


def fork_against(machine: LoadedMachine) -> Array:
    """Force in N that pulls the dogs apart against it, over the load cases."""
    one, jam = machine.spec.clutch, machine.power_flow.torque_at_box_output
    share = np.divide(stays(machine), jam, out=np.zeros_like(jam), where=jam > 0)
    lever = (one.outer_diameter + one.inner_diameter) / 4
    bore = getattr(machine.spec, f"shaft_{one.shaft}").diameter
    torque = share * clutch_torque(machine)
    return np.asarray(dogclutch.shift_force.formula(torque, lever, bore, one.friction))


def left_wound_up(machine: LoadedMachine, say: Say) -> str:
    """Say what a jam leaves wound up, how it is let off, and what to beware of."""
    kept, fork = float(stays(machine).max()), float(fork_against(machine).max())
    back, fan = efficiency_backwards(at_rest(machine.spec)), float(_at_fan(machine).max())
    box = (
        "The box cannot be driven back, so that the whole of a jam's wind-up stays"
        if back <= 0
        else "Switched off, the box is driven back until the motor's drag holds it"
    )
    point = machine.spec.motor.jacking_torque
    way = (
        f"the jacking point at the motor's fan end lets it off with {say(fan, 'N*m')}"
        if point > 0
        else f"a jacking point at the motor's fan end would let it off with {say(fan, 'N*m')}"
    )
    return (
        f"{box}: {say(kept, 'N*m')}, against which the fork would have to pull {say(fork, 'N')}; {way}. It is a wound "
        "spring: lock out the supply, stand clear of the paddles, and let it off before a hand or a tool goes in."
    )


def checks(machine: LoadedMachine) -> list[Check]:
    """Check that what a jam leaves wound up can be let off, by the fork or at the motor's fan end.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    fork, fan = fork_against(machine), _at_fan(machine)
    pull, point = machine.spec.clutch.fork_force, machine.spec.motor.jacking_torque
    # the better of both ways
    by_fork = pull * float(fan.max()) >= point * float(fork.max())
    demand, capacity, unit = (fork, pull, "N") if by_fork else (fan, point, "N*m")
    source = (
        "efficiency backwards 2 - 1/eta; friction at dogs and feather: common practice"
        if by_fork
        else "efficiency backwards 2 - 1/eta, and the motor's drag at rest: common practice"
    )
    steps: Callable[[LoadedMachine, int], list[Working]] = _fork_worked if by_fork else _fan_worked

    ways: list[Change] = [
        {"motor.jacking_torque": float(fan.max())},
        {"clutch.fork_force": float(fork.max())},
        "clutch.outer_diameter",
    ]
    return [
        make_check(
            machine,
            "jam",
            "reduction box",
            "its wind-up can be let off",
            where=machine.load_cases.jammed,
            demand=demand,
            capacity=capacity,
            unit=unit,
            working=lambda i: steps(machine, i),
            source=source,
            reason=lambda i, say: left_wound_up(machine, say),
            fix=lambda i: ways,
            note=lambda i, say: (
                "File a square or fit a nut on the motor's fan end, under a cover that the supply is locked out to open."
            ),
        )
    ]


def _kept_worked(machine: LoadedMachine, i: int) -> list[Working]:
    """Say how the torque that stays was got."""
    spec, jam = machine.spec, float(machine.power_flow.torque_at_box_output[i])
    eta, drag = at_rest(spec), resting_drag(machine)
    back = efficiency_backwards(eta)
    origin = "lesser of reducer.start_efficiency and reducer.efficiency"
    wound: Given = (jam, "N*m", "power flow, torque of the jam at the box's output")
    holds = worked("T_s = T", float(stays(machine)[i]), "N*m", T=wound)
    lets = worked(
        "T_s = Min(T, i*T_d/eta_b)",
        float(stays(machine)[i]),
        "N*m",
        T=wound,
        i=(spec.reducer.ratio, "", "reducer.ratio"),
        T_d=(drag, "N*m", "above"),
        eta_b=(back, "", "above"),
    )
    return [
        worked("eta_b = 2 - 1/eta", back, "", eta=(eta, "", origin)),
        worked(
            "T_d = c*T_N",
            drag,
            "N*m",
            c=(DRAG_AT_REST, "", "most of a motor at rest: common practice"),
            T_N=(machine.power_flow.rated, "N*m", "motor, rated torque"),
        ),
        holds if back <= 0 else lets,
    ]


def _fork_worked(machine: LoadedMachine, i: int) -> list[Working]:
    """Say how the force against what stays was got."""
    one, jam = machine.spec.clutch, float(machine.power_flow.torque_at_box_output[i])
    bore = getattr(machine.spec, f"shaft_{one.shaft}").diameter
    lever = (one.outer_diameter + one.inner_diameter) / 4
    return [
        *_kept_worked(machine, i),
        worked(
            "F = mu*T_c*T_s/T*(1/r + 2/d)",
            float(fork_against(machine)[i]),
            "N",
            mu=(one.friction, "", "clutch.friction"),
            T_c=(float(clutch_torque(machine)[i]), "N*m", "power flow, on the clutch's shaft"),
            T_s=(float(stays(machine)[i]), "N*m", "above"),
            T=(jam, "N*m", "power flow, torque of the jam at the box's output"),
            r=(lever, "mm", "middle radius of the dogs"),
            d=(bore, "mm", f"shaft_{one.shaft}.diameter"),
        ),
    ]


def _fan_worked(machine: LoadedMachine, i: int) -> list[Working]:
    """Say how the torque at the fan end was got."""
    kept, back = _kept_worked(machine, i), efficiency_backwards(at_rest(machine.spec))
    return [
        *kept,
        worked(
            "T_f = T_d + T_s/i*Max(0, -eta_b)",
            float(_at_fan(machine)[i]),
            "N*m",
            T_d=(resting_drag(machine), "N*m", "above"),
            T_s=(kept[-1].result, "N*m", "above"),
            i=(machine.spec.reducer.ratio, "", "reducer.ratio"),
            eta_b=(back, "", "above"),
        ),
    ]
