"""What a draft says on the command line: verdict, main sizes, what to buy, or what stands against the brief."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

from mixerkit.checks import Check
from mixerkit.design import Design
from mixerkit.explore.candidate import made
from mixerkit.explore.draft.brief import Brief, read_brief
from mixerkit.explore.draft.conflict import conflict
from mixerkit.explore.draft.drafting import Attempt, best_of
from mixerkit.explore.draft.file import draft_text
from mixerkit.machine import Machine
from mixerkit.parts.bodies import bodies
from mixerkit.shop.workshop import Workshop
from mixerkit.units import InputError, show, visible
from mixerkit.written import write_atomically

__all__ = ["against", "draft", "main_sizes", "read_anew", "to_buy", "unmet"]


def draft(
    path: Path, out: Path, shop: Workshop | None, progress: Callable[[str], None]
) -> tuple[list[str], int]:
    """Draft a brief and write the design that holds.

    Parameters
    ----------
    path, out : pathlib.Path
        Brief, and the design file to write; one that is there is left alone.
    shop : Workshop or None
    progress : callable
        Told in words what is being done.

    Returns
    -------
    list of str
        Lines to print.
    int
        Exit status: 0 where all holds, 1 where no draft does; nothing is written then.

    Raises
    ------
    InputError
        If the brief cannot be used, or a file is there already.
    """
    if out.exists() or out.is_symlink():
        raise InputError(
            f"{out}: is there already and is left alone; give another name with --out, for example my_mixer_2.toml."
        )
    brief = read_brief(path)
    found = best_of(brief, shop, progress)
    if found is None:
        raise InputError(
            f"{path.name}: no whole machine can be written with what it states; leave sizes out that need not be so."
        )
    if found.badness > 0:
        return list(against(brief, found, shop, progress)), 1
    text, drafted = read_anew(brief, found, out.name)
    write_atomically(out, text)
    return [
        visible(f"wrote {out}; next: mixerkit check {out}"),
        "",
        *main_sizes(drafted),
        "",
        *to_buy(brief, drafted),
        *unmet(drafted),
        "",
        f"{drafted.verdict}: all {len(drafted.checks)} checks hold; {len(found.reasons)} values were drafted, each with its reason beside it.",
        "The kit advises; it certifies nothing.",
    ], 0


def read_anew(brief: Brief, found: Attempt, file: str) -> tuple[str, Machine]:
    """The file of a draft, and the machine that it gives when it is read.

    Parameters
    ----------
    brief : Brief
    found : Attempt
        Its draft.
    file : str
        Name of the design file, for messages.

    Returns
    -------
    str
    Machine

    Raises
    ------
    InputError
        If it does not hold as it is written.
    """
    text = draft_text(brief, found)
    drafted = Machine(Design.parse(text, file))
    if drafted.verdict == "fails":
        failing = next(one for one in drafted.checks if one.verdict == "fails")
        raise InputError(f"{file}: the draft as it is written does not hold ({failing.name}).")
    return text, drafted


def main_sizes(machine: Machine) -> Iterator[str]:
    """The machine in a few lines.

    Parameters
    ----------
    machine : Machine

    Yields
    ------
    str
    """
    design, system = machine.design, machine.system

    def say(value: float, unit: str) -> str:
        return show(value, unit, system, 3)

    yield (
        f"trough {say(design.trough.length, 'mm')} long, paddles {say(design.paddles.tip_radius, 'mm')} from the shaft, "
        f"{design.paddles.count} on each; shafts {say(design.housing.centre_distance, 'mm')} apart, "
        f"{say(design.shaft_1.diameter, 'mm')} and {say(design.shaft_2.diameter, 'mm')} thick"
    )
    counts = {
        name: "-".join(map(str, getattr(design.paths, name).tooth_counts))
        for name in ("direct", "idler")
    }
    yield (
        f"gears {counts['direct']} and {counts['idler']}, {design.paths.direct.shown('module', system)} and "
        f"{design.paths.idler.shown('module', system)}; shaft 1 at {say(machine.running_speed, 'rpm')}"
    )


def to_buy(brief: Brief, machine: Machine) -> Iterator[str]:
    """Motor and box as one buys them: what they must carry at least, of what was drafted and not given.

    Parameters
    ----------
    brief : Brief
    machine : Machine

    Yields
    ------
    str
    """
    design, system = machine.design, machine.system
    asked = {one.id: one for one in machine.checks}

    def least(check: Check | None, unit: str) -> str:
        return show(check.demand * check.safety, unit, system, 3) if check else "as its sheet says"

    if not brief.fixes("motor."):
        motor = design.motor
        yield (
            f"to buy: a {motor.kind} motor of {show(motor.rated_power, 'kW', system, 3)}, {motor.poles} poles, "
            f"{motor.shown('rated_voltage', system)} at {motor.shown('rated_frequency', system)}, fed by {motor.fed_by}"
        )
    if not brief.fixes("reducer."):
        box = design.reducer
        yield (
            f"to buy: a {box.kind} box, {box.ratio:g} to 1, hollow output, for at least "
            f"{least(asked.get('reducer.reducer.torque-while-mixing'), 'N*m')} all day and "
            f"{least(asked.get('reducer.reducer.torque-in-a-jam'), 'N*m')} for a moment, and "
            f"{least(asked.get('reducer.reducer.load-across-its-slow-end'), 'N')} across its slow end; mounted on shaft 1 with "
            "a torque arm"
        )
        yield "measure both its bores before a shaft is turned: write them into reducer.output_bore and input_bore"


def unmet(machine: Machine) -> Iterator[str]:
    """Say what is wanted of the machine and not reached.

    Parameters
    ----------
    machine : Machine

    Yields
    ------
    str
    """
    design, system, batch = machine.design, machine.system, machine.batch
    want = design.want
    if want.speed:
        low, high = min(want.speed), max(want.speed)
        if not 0.99 * low <= machine.running_speed <= 1.01 * high:
            yield (
                f"not as wanted: shaft 1 turns at {show(machine.running_speed, 'rpm', system, 3)}, wanted is "
                f"{show(low, 'rpm', system, 3)} to {show(high, 'rpm', system, 3)}"
            )
    time = batch.minutes + design.batch.loading_time
    if want.batch_time and time > want.batch_time:
        yield (
            f"not as wanted: a batch takes {show(time, 'min', system, 3)}, wanted is "
            f"{show(want.batch_time, 'min', system, 3)} at most"
        )
    if want.throughput and batch.throughput < want.throughput:
        yield (
            f"not as wanted: {show(batch.throughput, 'kg/hour', system, 3)} go through, wanted is "
            f"{show(want.throughput, 'kg/hour', system, 3)} at least"
        )
    for name, size, unit in _bulk(machine):
        limit = getattr(want, name)
        if limit and size > limit:
            yield (
                f"not as wanted: its {name} is {show(size, unit, system, 3)}, wanted is {show(limit, unit, system, 3)} at most"
            )


def _bulk(machine: Machine) -> Iterator[tuple[str, float, str]]:
    """Length and width of the machine, and its mass as machines are compared by: name, size and unit."""
    there = bodies(machine.spec)
    yield "length", max(one.end for one in there) - min(one.start for one in there), "mm"
    trough = 2 * (machine.spec.paddles.tip_radius + machine.spec.trough.wall_clearance)
    across = machine.spec.housing.centre_distance + trough + 2 * machine.spec.trough.wall_thickness
    yield "width", max(across, machine.spec.frame.foot_width), "mm"
    yield "mass", made(machine, None)[0], "kg"


def against(
    brief: Brief, found: Attempt, shop: Workshop | None, progress: Callable[[str], None]
) -> Iterator[str]:
    """Say what stands against a brief of which no draft holds.

    Parameters
    ----------
    brief : Brief
    found : Attempt
        Its best draft.
    shop : Workshop or None
    progress : callable
        Told in words what is being done.

    Yields
    ------
    str
    """
    failing = [one for one in found.machine.checks if one.verdict == "fails"]
    yield f"No machine was found that holds with all that {brief.file} states; nothing was written."
    yield "What fails in the nearest one:"
    yield from (f"  {one.part}, {one.name}: {one.reason}" for one in failing[:6])
    met = conflict(brief, found, shop, progress)
    if met.against:
        yield f"It hangs on what is given: {', '.join(met.against)}."
    if met.field:
        yield "With this change of the brief, which was tried, one holds:"
        yield f"  {met.line}"
    else:
        yield "No single change of what is given was found that frees it; leave out sizes that need not be so."
