"""Grease, speed and roughness on flanks: hand calculations with ISO 6336-2, clause 12."""

import numpy as np
import pytest

from mixerkit import Design, Machine
from mixerkit.explore import pathrules
from mixerkit.explore.pathleans import candidate_leans
from mixerkit.parts.film import film_factors, film_share, reduced_radius
from mixerkit.parts.tooth_lives import lasting_contact

DEMO = Design.demo()


def flanks(part="direct path", **values):
    machine = Machine(
        DEMO.with_values({key.replace("__", "."): one for key, one in values.items()})
    )
    return next(
        one for one in machine.checks if (one.part, one.name) == (part, "teeth surfaces last")
    )


def test_reference_conditions_are_one():
    """100 mm^2/s is 0.935 to 1 by hardness; 10 m/s and R_z10 = 3 um are the test gears' own."""
    lubricant, speed, rough = film_factors(688.0, 100.0, 10.0, 3.0, 10.0)
    assert speed == pytest.approx(1.0)
    assert rough == pytest.approx(1.0)
    # by hand: 0.83 + 4 x 0.17/(1.2 + 1.34)^2
    assert lubricant == pytest.approx(0.83 + 0.68 / 2.54**2, abs=1e-4)


@pytest.mark.parametrize(
    ("limit", "by_hand"),
    [
        # C_ZL, C_Zv and C_ZR: 0.83, 0.85, 0.15 to 850 MPa; 0.91, 0.93, 0.08 from 1200 MPa
        (485.0, (0.83 + 0.68 / (1.2 + 134 / 220) ** 2, 0.85 + 0.3 / 160.8**0.5, (3 / 20) ** 0.15)),
        (
            1500.0,
            (0.91 + 0.36 / (1.2 + 134 / 220) ** 2, 0.93 + 0.14 / 160.8**0.5, (3 / 20) ** 0.08),
        ),
    ],
)
def test_slow_rough_gears_by_hand(limit, by_hand):
    """Oil of 220 mm^2/s, 0.2 m/s (0.8 + 32/0.2 = 160.8), R_z 20 um on a curvature of 10 mm."""
    assert film_factors(limit, 220.0, 0.2, 20.0, 10.0) == pytest.approx(by_hand, abs=2e-4)


def test_curvature_of_the_direct_pair():
    """Two gears of 150 mm: base radius 75 cos 20, flanks curve with 75 sin 20 = 25.65 mm, together half of it."""
    base = 150 * np.cos(np.radians(20))
    assert reduced_radius(base, base, 20.0) == pytest.approx(75 * np.sin(np.radians(20)) / 2)


def test_the_demos_flanks_by_hand():
    """30 and 30 teeth of module 5 in 42CrMo4 QT, oil of 460 mm^2/s, R_z 10 um: Z_L 1.136, Z_R 0.845."""
    machine = Machine(DEMO)
    loads = machine.running_speed * 60 * DEMO.batch.life_hours
    speed = np.pi * 0.150 * machine.running_speed / 60
    z_l = 0.83 + 0.68 / (1.2 + 134 / 460) ** 2
    z_v = 0.85 + 0.3 / np.sqrt(0.8 + 32 / speed)
    z_r = (3 / (10 * (10 / 12.826) ** (1 / 3))) ** 0.15
    counts = np.log10(loads / 1e5) / np.log10(5e7 / 1e5)
    by_hand = 688 * (5e7 / loads) ** 0.0756 * (z_l * z_v * z_r) ** counts
    assert flanks().capacity == pytest.approx(by_hand, rel=1e-4)
    assert {"Z_L", "Z_v", "Z_R"} <= {one.symbol for one in flanks().working}


def test_thin_grease_and_rough_flanks_last_less_and_are_what_is_taken_unsaid():
    text = "".join(
        line
        for line in DEMO.to_toml().splitlines(keepends=True)
        if not line.startswith(("lubricant_viscosity", "flank_roughness"))
    )
    unsaid = Design.parse(text)
    assert unsaid.housing.lubricant_viscosity == 100.0
    assert unsaid.paths.direct.flank_roughness == 25.0
    fine, thin = flanks(), flanks(housing__lubricant_viscosity="100 mm^2/s")
    rough = flanks(paths__direct__flank_roughness="25 um")
    assert thin.capacity < fine.capacity
    assert rough.capacity < fine.capacity
    thick = flanks(housing__lubricant_viscosity="500 mm^2/s")
    assert flanks(housing__lubricant_viscosity="5000 mm^2/s").capacity == thick.capacity


def test_nothing_counts_for_few_loads_and_all_of_it_for_many():
    assert film_share(9e4, 5e7) == 0
    assert film_share(5e7, 5e7) == 1
    assert film_share(2e6, 2e6) == 1
    assert film_share(np.sqrt(1e5 * 5e7), 5e7) == pytest.approx(0.5)


def test_the_search_for_paths_lasts_as_the_check_does():
    load = pathrules.loads_of(DEMO)
    base = 150 * np.cos(np.radians(20))
    speed = np.pi * 150 * load.speed / 60e3
    between = np.prod(film_factors(688.0, 460.0, speed, 10.0, reduced_radius(base, base, 20.0)))
    steel = load.material["direct"]
    assert lasting_contact(steel, load.cycles, between) == pytest.approx(
        flanks().capacity, rel=1e-6
    )
    ones = np.array([1.0])
    spare = pathrules.mesh_spare(
        load,
        "direct",
        5.0 * ones,
        30 * ones,
        [30 * ones, 30 * ones],
        [0 * ones, 0 * ones],
        150.0 * ones,
        np.array(
            [next(one.capacity for one in Machine(DEMO).checks if "contact ratio" in one.name)]
        ),
        *candidate_leans(load.machine, "direct", 5.0 * ones, [30 * ones, 30 * ones]),
    )
    jam = next(
        one.spare
        for one in Machine(DEMO).checks
        if (one.part, one.name) == ("direct path", "teeth surfaces bear a jam")
    )
    # the check has Barth's speed factor besides, which is little at walking pace
    assert spare[0] == pytest.approx(min(flanks().spare, jam), rel=0.03)
