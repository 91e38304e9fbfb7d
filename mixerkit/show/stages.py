"""One panel for each stage of the maker's work; those of shafts and shop are in stages_metal."""

from __future__ import annotations

from mixerkit.checks import weakest
from mixerkit.drive import dogclutch, motor, reducer
from mixerkit.explore import uncertainty
from mixerkit.load import trough
from mixerkit.load.clay import strength_range
from mixerkit.machine import Machine
from mixerkit.parts import gear_checks
from mixerkit.parts.shaft_checks import next_stock
from mixerkit.show import driveplots, gearplots, loadplots, plots
from mixerkit.show.knobs import Knob
from mixerkit.show.marks import MARKS
from mixerkit.show.panels import Bench, Panel, verdict_words
from mixerkit.show.stages_metal import (
    bearings,
    cutting,
    hubs,
    jam,
    plates,
    run_down,
    shaft,
)
from mixerkit.states import MODES
from mixerkit.tables import table
from mixerkit.units import show

__all__ = [
    "bearings",
    "clay",
    "cutting",
    "dog_clutch",
    "gear_paths",
    "hubs",
    "jam",
    "mesh",
    "motor_and_box",
    "paddles_and_trough",
    "plates",
    "run_down",
    "shaft",
    "shaft_torsion",
    "stall_risk",
    "tooth_strength",
    "torque_over_a_turn",
    "whole_machine",
]

_WATER = Knob("clay.water_content", "Water content", 0.15, 0.45)
_POWER = Knob("motor.rated_power", "Motor power", 0.37, 5.5)
_RATIO = Knob("reducer.ratio", "Reduction", 20, 120)
_TESTS = {
    "cone": [
        Knob("clay.cone_mass", "Cone and rod", 20, 400),
        Knob("clay.cone_angle", "Cone angle"),
        Knob("clay.cone_penetration", "Cone sinks", 1, 25),
    ],
    "rod": [
        Knob("clay.rod_diameter", "Rod's flat end", 4, 30),
        Knob("clay.rod_load", "Load on the rod", 1, 200),
    ],
    "vane": [
        Knob("clay.vane_diameter", "Vane, across", 8, 80),
        Knob("clay.vane_height", "Vane, height", 8, 160),
        Knob("clay.vane_torque", "Vane turns at", 0.05, 10),
    ],
}


def whole_machine(bench: Bench) -> Panel:
    """Show the whole machine: the numbers that matter most, and every check.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("batch.mass", "Batch", 5, 40),
        _POWER,
        _RATIO,
        Knob("shaft_1.diameter", "Shaft 1 diameter", 20, 70),
        Knob("shaft_2.diameter", "Shaft 2 diameter", 20, 70),
    ]
    return Panel(bench, "The whole machine", knobs, plots.power_path, verdict_words)


def clay(bench: Bench) -> Panel:
    """Show how strong the clay is, by its water and by tests at the bench.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("clay.strength_from", "Strength from"),
        Knob("clay.body", "Named body"),
        _WATER,
        Knob("clay.plastic_limit", "Plastic limit", 0.12, 0.4),
        Knob("clay.liquid_limit", "Liquid limit", 0.25, 0.9),
        *(knob for listed in _TESTS.values() for knob in listed),
    ]

    def says(machine: Machine) -> str:
        found = machine.clay_load.clay
        system = machine.design.show_units
        mixing = machine.clay_load.strength
        factors = strength_range(machine.design.clay)
        low, high = (show(found.strength * factor, "kPa", system) for factor in factors)
        return (
            f"Strength {show(found.strength, 'kPa', system)} {found.words}; by that way it may be anything from "
            f"{low} to {high}. At the speed of mixing it is {show(mixing, 'kPa', system)}. {verdict_words(machine, 'motor')}"
        )

    return Panel(bench, "Clay", knobs, loadplots.clay_strength, says, ("motor",))


def paddles_and_trough(bench: Bench) -> Panel:
    """Show trough and paddles, the clay's level, and whether anything collides.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("clutch.drawn_in", "Clutch on"),
        Knob("batch.mass", "Batch", 5, 40),
        Knob("trough.length", "Trough length", 150, 800),
        Knob("housing.centre_distance", "Shafts apart", 80, 300),
        Knob("paddles.tip_radius", "Paddle tip radius", 40, 200),
        Knob("paddles.root_radius", "Sleeve radius", 15, 60),
        Knob("paddles.count", "Paddles a shaft", 2, 12),
        Knob("paddles.width", "Paddle width", 10, 100),
        Knob("paddles.thickness", "Paddle thickness", 3, 20),
        Knob("paddles.set_angle", "Set angle", 15, 90),
        Knob("paddles.spacing", "Spacing", 20, 200),
        Knob("paddles.offset_2", "Shaft 2 further along", 0, 100),
        Knob("paddles.phase_step", "Phase step", 0, 180),
        Knob("paddles.phase_2", "Phase of shaft 2", 0, 180),
        Knob("clutch.keeps_phase", "Clutch keeps the phase"),
    ]

    def says(machine: Machine) -> str:
        spec, system = machine.design, machine.design.show_units
        volume, room = trough.batch_volume(spec), trough.working_volume(spec)
        run = machine.batch
        return (
            f"The batch is {show(volume, 'L', system)} and fills {100 * volume / room:.0f} % of the working volume, "
            f"{show(room, 'L', system)}. A batch takes {run.lasts}, with loading "
            f"{show(run.throughput, 'kg/h', system)}; {show(run.energy, 'kJ', system)} goes into the clay and warms it "
            f"by {show(run.warmer, 'K', system)} at most. "
            f"{verdict_words(machine, 'trough', 'paddles')}"
        )

    return Panel(
        bench,
        "Paddles and trough",
        knobs,
        loadplots.trough_view,
        says,
        ("trough", "paddles"),
        turns=True,
    )


def torque_over_a_turn(bench: Bench) -> Panel:
    """Show the torque over a turn, and what each paddle does to its shaft.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("batch.mass", "Batch", 5, 40),
        Knob("paddles.count", "Paddles a shaft", 2, 12),
        Knob("paddles.phase_step", "Phase step", 0, 180),
        Knob("paddles.phase_2", "Phase of shaft 2", 0, 180),
        Knob("paddles.bearing_capacity_factor", "Bearing capacity factor", 9, 12),
        Knob("paddles.nip_share", "Added by the nip", 0, 0.4),
        Knob("clay.start_factor", "To start, times", 1, 3),
    ]

    def says(machine: Machine) -> str:
        asks, system = machine.clay_load, machine.design.show_units
        return (
            f"One shaft asks {show(asks.mean, 'N*m', system)} on average and {show(asks.peak, 'N*m', system)} at its peak, "
            f"{show(asks.scraping, 'N*m', system)} of it from tips scraping. Reckoned blade by blade the peak is "
            f"{show(asks.paddles, 'N*m', system)}, as one turning cylinder of clay {show(asks.cylinder, 'N*m', system)}: "
            f"the {asks.governs} govern{'s' if asks.governs != 'paddles' else ''}. One buried paddle bends its shaft with "
            f"{show(asks.force, 'N', system)} and pushes along it with {show(asks.push, 'N', system)}. "
            f"{verdict_words(machine, 'motor')}"
        )

    return Panel(bench, "Torque over a turn", knobs, loadplots.torque_over_a_turn, says, ("motor",))


def motor_and_box(bench: Bench) -> Panel:
    """Show what the clay asks of motor, socket and box, and what they give.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("motor.kind", "Kind of motor"),
        Knob("motor.fed_by", "Fed by"),
        _POWER,
        Knob("motor.rated_speed", "Motor speed", 700, 3000),
        Knob("motor.start_torque_ratio", "Torque at rest / rated", 0.3, 4),
        Knob("motor.run_at", "Converter set to", 20, 80),
        Knob("motor.shaft_end", "Motor's shaft end", 11, 42),
        Knob("supply.socket_current", "Socket", 6, 32),
        _RATIO,
        Knob("reducer.efficiency", "Box efficiency", 0.4, 0.98),
        Knob("reducer.rated_torque", "Box rated torque", 100, 2000),
        Knob("reducer.hours_a_day", "Hours a day", 0.5, 12),
        Knob("reducer.shock", "Shock"),
        Knob("reducer.input_bore", "Fast end, bore", 11, 42),
        Knob("reducer.output_bore", "Slow end, bore", 20, 80),
        Knob("reducer.torque_arm", "Torque arm", 100, 600),
    ]

    def says(machine: Machine) -> str:
        spec = machine.design
        speed = show(machine.running_speed, "rpm")
        bush = reducer.adapting_bush(spec.reducer.output_bore, spec.shaft_1.diameter)
        system = machine.system
        mixing, able = (
            float(machine.power_flow.torque_at_motor[machine.load_cases.mixing].max()),
            machine.power_flow.abilities,
        )
        lasting = motor.duty_torque.formula(mixing, machine.batch.minutes, spec.batch.loading_time)
        return (
            f"Shaft 1 turns at about {speed}. Service factor of the box {reducer.service_factor(spec):g}. "
            f"Slow end: {bush.words}. {motor.reversal(spec)} Over a batch with its loading pause the motor feels "
            f"{show(float(lasting), 'N*m', system)} "
            f"against {show(able.lasting, 'N*m', system)} it gives all day. {verdict_words(machine, 'motor', 'reducer')}"
        )

    return Panel(
        bench,
        "Motor and reduction box",
        knobs,
        driveplots.motor_and_box,
        says,
        ("motor", "reducer"),
    )


def stall_risk(bench: Bench) -> Panel:
    """Show the risk of a stall over the stated ranges, and what to measure first.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("clay.strength_from", "Strength from"),
        _WATER,
        Knob("clay.cone_penetration", "Cone sinks", 1, 25),
        _POWER,
        _RATIO,
        Knob("ranges.water_spread", "Water, either way", 0.002, 0.05),
        Knob("ranges.fill_spread", "Batch, either way", 0.01, 0.5),
        Knob("ranges.start_low", "Start factor, least", 1, 3),
        Knob("ranges.start_high", "Start factor, greatest", 1, 3),
        Knob("ranges.voltage_low", "Voltage, least", 0.8, 1),
    ]

    def says(machine: Machine) -> str:
        risk = uncertainty.stall_risk(machine, 100_000)
        return (
            f"It stalls in {100 * risk.starting:.2g} % of starts with a full trough and in "
            f"{100 * risk.mixing:.2g} % while mixing, over the stated ranges. The longest bar on the right is what to "
            f"measure first. {verdict_words(machine, 'motor')}"
        )

    return Panel(bench, "Will it stall?", knobs, loadplots.stall, says, ("motor",))


def gear_paths(bench: Bench) -> Panel:
    """Show both gear paths to scale, with speeds and directions.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("clutch.drawn_in", "Clutch on"),
        Knob("housing.centre_distance", "Shafts apart", 80, 300),
        Knob("paths.direct.module", "Direct path pitch"),
        Knob("paths.direct.tooth_counts[0]", "Direct, shaft 1 teeth", 12, 60),
        Knob("paths.direct.tooth_counts[1]", "Direct, shaft 2 teeth", 12, 60),
        Knob("paths.idler.module", "Idler path pitch"),
        Knob("paths.idler.tooth_counts[0]", "Idler path, shaft 1 teeth", 12, 60),
        Knob("paths.idler.tooth_counts[1]", "Idler teeth", 12, 60),
    ]
    if len(bench.design.paths.idler.tooth_counts) == 3:
        knobs.append(Knob("paths.idler.tooth_counts[2]", "Idler path, shaft 2 teeth", 12, 60))

    def says(machine: Machine) -> str:
        second = machine.station("paddles of shaft 2").speed.m_as("rpm")
        speeds = [
            f"{MODES[clutch]} shaft 2 turns at {show(abs(float(second[machine.index(clutch)])), 'rpm')}"
            for clutch in ("direct", "idler")
        ]
        return f"While {' and while '.join(speeds)}. {verdict_words(machine, 'gear paths')}"

    return Panel(
        bench,
        "The two gear paths",
        knobs,
        lambda a, angle: plots.train(a, angle=angle),
        says,
        ("gear paths",),
        turns=True,
    )


_TEETH = [
    Knob("housing.centre_distance", "Shafts apart", 80, 300),
    Knob("paths.direct.module", "Direct path pitch"),
    Knob("paths.direct.tooth_counts[0]", "Direct, shaft 1 teeth", 12, 60),
    Knob("paths.direct.tooth_counts[1]", "Direct, shaft 2 teeth", 12, 60),
    Knob("paths.direct.thinning", "Direct, teeth thinned", 0, 0.5),
]


def mesh(bench: Bench) -> Panel:
    """Show the direct pair's teeth in mesh, with contact ratio and backlash.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        *_TEETH,
        Knob("paths.idler.module", "Idler path pitch"),
        Knob("paths.idler.tooth_counts[1]", "Idler teeth", 12, 60),
        Knob("paths.idler.thinning", "Idler path, teeth thinned", 0, 0.5),
        Knob("housing.idler_side", "Idler sits"),
        Knob("housing.idler_pin", "Idler's pin", 12, 60),
        Knob("housing.hub_diameter", "Hubs", 40, 120),
    ]

    def says(machine: Machine) -> str:
        system = machine.system
        turning = machine.load_cases.mixing & (machine.load_cases.clutch == "idler")
        forces = gear_checks.idler_forces(machine)
        pins = [
            float(forces[turning & (machine.load_cases.direction == way)].max()) for way in (1, -1)
        ]
        needed = gear_checks.ideal_sum(
            machine.spec.paths.direct,
            gear_checks.pairs(machine.spec.paths.direct, machine.spec.housing.centre_distance)[0],
        )
        side = "below" if machine.spec.housing.idler_side == "above" else "above"
        return (
            f"On this centre distance the direct pair wants profile shifts that add up to {needed:.3f}. While mixing, the "
            f"idler's pin carries {show(pins[0], 'N', system)} forward and {show(pins[1], 'N', system)} in reverse; {side} the "
            f"line it would be the other way round. {verdict_words(machine, 'gears', 'gear paths')}"
        )

    return Panel(
        bench,
        "Teeth in mesh",
        knobs,
        lambda a, angle: gearplots.mesh_picture(a, angle=angle),
        says,
        ("gear paths", "gears"),
        turns=True,
    )


def tooth_strength(bench: Bench) -> Panel:
    """Show the gear case in plan, and whether the teeth last.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("paths.direct.material", "Direct path material"),
        Knob("paths.direct.face_width", "Direct, face width", 10, 100),
        Knob("paths.direct.position", "Direct, middle of teeth at", 10, 200),
        Knob("paths.idler.material", "Idler path material"),
        Knob("paths.idler.idler_material", "Idler's material"),
        Knob("paths.idler.face_width", "Idler path, face width", 10, 100),
        Knob("paths.idler.position", "Idler path, middle at", 10, 300),
        Knob("housing.plate_spacing", "Between the plates", 80, 400),
        Knob("batch.life_hours", "Hours to last", 100, 10000),
    ]

    def says(machine: Machine) -> str:
        lines = []
        for name in ("direct", "idler"):
            path = getattr(machine.spec.paths, name)
            speed = gear_checks.pitch_speed(machine, path)
            grease = table("gear_materials").find(path.material).values["lubrication"]
            lines.append(f"{name} path at {speed:.2g} m/s: {grease}")
        return f"No oil film carries at this pace ({'; '.join(lines)}). {verdict_words(machine, 'gears')}"

    return Panel(bench, "Gear case and teeth", knobs, gearplots.plan, says, ("gears",))


def dog_clutch(bench: Bench) -> Panel:
    """Show the dog clutch in its three positions.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("clutch.dogs", "Dogs a face", 1, 9),
        Knob("clutch.outer_diameter", "Over the dogs", 50, 160),
        Knob("clutch.inner_diameter", "Inside the dogs", 30, 120),
        Knob("clutch.dog_height", "Dog height", 3, 25),
        Knob("clutch.overlap", "Overlap", 2, 25),
        Knob("clutch.sleeve_length", "Sleeve over its dogs", 20, 120),
        Knob("clutch.angular_play", "Play", 1, 20),
        Knob("clutch.material", "Material"),
        Knob("clutch.fork_force", "Shift fork gives", 50, 600),
        Knob("clutch.detent_force", "Detent holds", 5, 200),
    ]

    def says(machine: Machine) -> str:
        spec, system = machine.design, machine.design.show_units
        at, cut = dogclutch.positions(spec), dogclutch.milling(spec)
        return (
            f"Travel {show(at.travel, 'mm', system)} each way from neutral. To mill: {cut.words}; cutter at most "
            f"{show(cut.cutter, 'mm', system)} wide. {verdict_words(machine, 'clutch')}"
        )

    return Panel(bench, "Dog clutch", knobs, gearplots.clutch_positions, says, ("clutch",))


def shaft_torsion(bench: Bench, number: int = 2) -> Panel:
    """Show the diameter that each rule asks of one shaft.

    Parameters
    ----------
    bench : Bench
    number : int
        1 or 2.

    Returns
    -------
    Panel
    """
    knobs = [
        Knob(f"shaft_{number}.material", "Material"),
        Knob(f"shaft_{number}.diameter", "Diameter", 15, 80),
        Knob(f"shaft_{number}.keyway", "Keyway cut"),
        Knob("batch.heavier_share", "Share of the heavier shaft", 0.5, 1),
        Knob("paddles.tip_radius", "Paddle tip radius", 40, 200),
        Knob("bearings.span", "Bearings apart", 100, 800),
        _POWER,
        _RATIO,
    ]
    part = f"shaft {number}"

    def says(machine: Machine) -> str:
        system = machine.design.show_units
        needed = {
            rule: float(size.m_as("mm")) for rule, size in machine.needed_diameters[part].items()
        }
        torsion = max(size for rule, size in needed.items() if rule.startswith("torsion"))
        worst = weakest(one for one in machine.checks if one.part == part)
        words = {"holds": "holds", "tight": "is tight", "fails": "fails"}[worst.verdict]
        return (
            f"Torsion alone would be content with {show(torsion, 'mm', system)}; with bending and fatigue it takes "
            f"{show(max(needed.values()), 'mm', system)}, next stock size {show(next_stock(max(needed.values()), system), 'mm', system)}. {MARKS[worst.verdict]} {part.capitalize()} {words}: "
            f"{worst.sentence()}"
        )

    return Panel(
        bench,
        part.capitalize(),
        knobs,
        lambda a: plots.shaft_diameters(a, number),
        says,
        ("shafts",),
    )
