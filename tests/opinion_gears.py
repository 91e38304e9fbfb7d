"""A second opinion on trains and teeth by two general libraries for transmissions.

Run by tests/long.py, not by the quick tier; it needs the extra ``long`` and is never skipped: without
the libraries it fails.

gearpy turns trains: speeds, torques, forces on the teeth, their bending by Lewis out of a form factor
table of its own. It knows no velocity factor, so teeth are held against it at rest. Its contact stress
is not used: it is 0.63 of what the theory of Hertz gives for two flanks in line.

gearbox works out ISO 6336. Three of its slips are gone round: what tells spur from helical gears asks
for the very number 0; two moduli lose a square, so both are alike here; the involute takes degrees and
is given radians, which leaves it out of the angle of the load: it is put in, and one test shows by how
much it falls short without. Its contact ratio takes the distance of unshifted gears, so shifts of one
pair add up to nought here; the working angle is held for any shifts.
"""

from itertools import pairwise
from math import radians, tan

import numpy as np
import pytest

from mixerkit.drive import gearpaths
from mixerkit.parts import lewis, mesh, spurgear, toothcontact, toothstrength

pytestmark = pytest.mark.filterwarnings("ignore::SyntaxWarning")
WITHIN = 1e-6


def train(counts, module, width, efficiency, load):
    """A motor and the wheels of a path in gearpy, a torque in N m on the last, after one step of time."""
    from gearpy import units
    from gearpy.mechanical_objects import DCMotor, SpurGear
    from gearpy.powertrain import Powertrain
    from gearpy.solver import Solver
    from gearpy.utils import add_fixed_joint, add_gear_mating

    inertia = units.InertiaMoment(1e-3, "kgm^2")
    motor = DCMotor(
        "motor", inertia, units.AngularSpeed(100, "rad/s"), units.Torque(10 * load, "Nm")
    )
    wheels = [
        SpurGear(
            f"wheel {place}",
            count,
            inertia,
            module=units.Length(module, "mm"),
            face_width=units.Length(width, "mm"),
        )
        for place, count in enumerate(counts)
    ]
    add_fixed_joint(motor, wheels[0])
    for first, second in pairwise(wheels):
        add_gear_mating(first, second, efficiency)
    wheels[-1].external_torque = lambda time, angular_position, angular_speed: units.Torque(
        load, "Nm"
    )
    wheels[-1].angular_position = units.AngularPosition(0, "rad")
    wheels[-1].angular_speed = units.AngularSpeed(1, "rad/s")
    Solver(Powertrain(motor)).run(units.TimeInterval(1, "ms"), units.TimeInterval(2, "ms"))
    return wheels


@pytest.mark.parametrize("seed", range(200))
def test_trains_of_wheels_in_line(seed):
    """Speeds, the torque taken from shaft 1, force and bending stress of the first wheel."""
    rng = np.random.default_rng(seed)
    counts = [int(one) for one in rng.integers(14, 80, rng.integers(2, 6))]
    module, width = float(rng.choice([2.0, 3.0, 4.0, 5.0, 6.0])), float(rng.uniform(10.0, 60.0))
    efficiency, load = float(rng.uniform(0.9, 1.0)), float(rng.uniform(5.0, 400.0))
    wheels = train(counts, module, width, efficiency, load)
    first, last = wheels[0], wheels[-1]
    turned = last.angular_speed.to("rad/s").value / first.angular_speed.to("rad/s").value
    assert abs(gearpaths.path_ratio(counts)) == pytest.approx(turned, rel=WITHIN)
    speeds = gearpaths.solve_speeds({"path": counts}, ["path"])
    for place, wheel in enumerate(wheels):
        ours = speeds[gearpaths.wheel_name("path", place, len(counts))]
        theirs = wheel.angular_speed.to("rad/s").value / first.angular_speed.to("rad/s").value
        assert abs(ours) == pytest.approx(theirs, rel=WITHIN)
    torque = first.load_torque.to("Nm").value
    assert gearpaths.path_torque.formula(load, counts, efficiency) == pytest.approx(
        torque, rel=WITHIN
    )
    diameter = spurgear.pitch_diameter.formula(module, counts[0])
    force = first.tangential_force.to("N").value
    assert 2e3 * torque / diameter == pytest.approx(force, rel=WITHIN)
    # two tables of the form factor, read to a hundredth of each other
    assert lewis.lewis_stress.formula(force, width, module, counts[0], 0.0) == pytest.approx(
        first.bending_stress.to("MPa").value, rel=0.01
    )


def pair(rng, *, balanced):
    """Two gears in gearbox, of shifts that add up to nought or of any; with what they were made of."""
    from gearbox.transmition.gears import Gear, Lubricant, Material, Tool, Transmition

    counts = tuple(int(one) for one in rng.integers(22, 70, 2))
    first, second = (float(one) for one in rng.uniform(-0.2, 0.4, 2))
    shifts = (first, -first if balanced else second)
    module, width = float(rng.choice([2.0, 3.0, 4.0, 5.0, 6.0])), float(rng.uniform(10.0, 60.0))
    modulus = float(rng.uniform(1.1e5, 2.1e5))
    steel = Material(600.0, 200.0, 200.0, "V", e=modulus)
    rack = Tool(1.0, 1.25, 0.38, 0, 0, 0, 10.0)
    gears = [
        Gear(
            *(rack, steel, count, 0, width, width, 20, module, shift),
            rz=3.0,
            shaft_diameter=20.0,
            schema=3,
            l=60.0,
            s=10.0,
        )
        for count, shift in zip(counts, shifts, strict=True)
    ]
    theirs = Transmition(
        *(Lubricant(100.0), 100.0, 100.0 * counts[0] / counts[1]),
        *(2, 1.0, 1.0, gears, 1.0, 1, 1),
    )
    theirs.epsilon_beta = 0
    return theirs, counts, shifts, module, width, modulus


@pytest.mark.parametrize("seed", range(200))
def test_how_shifted_gears_stand(seed):
    theirs, counts, shifts, module, _, _ = pair(np.random.default_rng(seed), balanced=False)
    distance = mesh.mesh_centre_distance.formula(module, *counts, sum(shifts))
    assert distance == pytest.approx(theirs.aw, rel=WITHIN)
    assert mesh.working_pressure_angle.formula(module, *counts, theirs.aw) == pytest.approx(
        theirs.alpha_wt, rel=WITHIN
    )
    assert mesh.shift_sum.formula(module, *counts, theirs.aw) == pytest.approx(
        sum(shifts), abs=1e-6
    )


def tips(theirs):
    return theirs.gear_one.da, theirs.gear_two.da


@pytest.mark.parametrize("seed", range(200))
def test_flanks_to_iso_6336(seed):
    """Contact ratio, zone, elasticity and share of load, and the nominal stress of the flanks."""
    from gearbox.standards.iso import Pitting

    theirs, counts, _, module, width, modulus = pair(np.random.default_rng(seed), balanced=True)
    found = Pitting(theirs).calculate()
    ratio = mesh.contact_ratio.formula(module, *counts, *tips(theirs), theirs.aw)
    assert ratio == pytest.approx(theirs.epsilon_alpha, rel=WITHIN)
    zone, share = toothcontact.contact_factors(module, *counts, theirs.aw, ratio)
    elastic = toothcontact.elastic_factor(modulus, modulus)
    assert (zone, elastic, share) == pytest.approx(
        (found["zh"], found["ze"], found["z_epsilon"]), rel=WITHIN
    )
    # its first gear may be the larger; ours takes the smaller one's diameter, the stress is the same
    small, large = min(counts), max(counts)
    ours = toothcontact.contact_stress.formula(
        theirs.ft, width, module * small, large / small, zone, elastic, share
    )
    loads = found["kv"] * found["khb"] * found["kha"]
    assert ours == pytest.approx(found["sigmaHOne"] / found["zb"] / loads**0.5, rel=WITHIN)


def roots(theirs):
    from gearbox.standards.iso import Bending

    return Bending(theirs).calculate


@pytest.mark.parametrize("seed", range(200))
def test_roots_to_iso_6336(seed, monkeypatch):
    """Form and stress correction of both gears, load where each last carries alone; nominal stress."""
    from gearbox.standards import iso

    monkeypatch.setattr(iso, "involute", lambda angle: radians(tan(angle) - angle))
    theirs, counts, shifts, module, width, _ = pair(np.random.default_rng(seed), balanced=True)
    found = roots(theirs)
    both = (counts, shifts, tips(theirs))
    for turned, of in ((False, "one"), (True, "two")):
        seen = tuple(one[::-1] for one in both) if turned else both
        form, notch = toothstrength.root_factors(module, *seen, theirs.aw)
        # it seeks the tangent in nine steps and stops
        assert (form, notch) == pytest.approx((found[f"yf{of}"], found[f"ys{of}"]), rel=1e-4)
        loads = found["kv"] * found["kfb"] * found["kfa"]
        ours = toothstrength.bending_stress.formula(theirs.ft, width, module, form, notch)
        assert ours == pytest.approx(found[f"sigmaf{of}"] / loads, rel=1e-4)


def test_what_the_library_leaves_out_is_small():
    """Its form factor as it comes, without the involutes in the angle of the load, is 9 % off at most."""
    for seed in range(50):
        theirs, counts, shifts, module, _, _ = pair(np.random.default_rng(seed), balanced=True)
        form, _ = toothstrength.root_factors(module, counts, shifts, tips(theirs), theirs.aw)
        assert roots(theirs)["yfone"] == pytest.approx(form, rel=0.09)
