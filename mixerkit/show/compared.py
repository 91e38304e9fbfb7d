"""What a comparison says on the command line: the machines none beats, each ready to paste, and the one taken."""

from __future__ import annotations

import argparse
import os
import shlex
import tomllib
from collections.abc import Callable, Iterator, Sequence
from math import isnan
from pathlib import Path

from mixerkit.design import Design
from mixerkit.explore.candidate import Candidate, made
from mixerkit.explore.compare import compare, front
from mixerkit.explore.remedy import written
from mixerkit.machine import Machine
from mixerkit.shop.beside import beside
from mixerkit.shop.flatpattern import as_csv
from mixerkit.shop.workshop import Workshop
from mixerkit.show.marks import MARKS, spare_text
from mixerkit.show.processes import side_by_side
from mixerkit.show.stamp import covers, fingerprint
from mixerkit.units import InputError, as_written, show, visible
from mixerkit.written import write_all, write_atomically

__all__ = ["FRONT_HEADS", "compare_csv", "compare_text", "front_cells", "take"]

_SHOWN = 12
"""Machines of the front that are printed; the table has all."""
_ALONE = 64
"""Machines up to which other processes are not worth their start."""
FRONT_HEADS = ("", "", "mass", "price", "hours", "batch", "stall risk", "least spare")
"""What the table of a front says of each machine."""
_CSV = (
    "place",
    "verdict",
    "mass [kg]",
    "price",
    "hours",
    "batch [min]",
    "stall risk",
    "least spare",
)


def compare_text(
    arguments: argparse.Namespace, progress: Callable[[str], None]
) -> tuple[list[str], int]:
    """Compare machines as the command line asks.

    Parameters
    ----------
    arguments : argparse.Namespace
        Of ``mixerkit compare``.
    progress : callable
        Told in words what is being done.

    Returns
    -------
    list of str
        Lines to print.
    int
        Exit status: 0 where a machine holds, 1 where none does; nothing is taken then.

    Raises
    ------
    InputError
        If a field, a number or a file does not fit.
    """
    _refuse_files(arguments)
    design, here = Design.read(arguments.file), beside(arguments.file, arguments.shop)
    found = _compared(design, arguments, here.shop, progress)
    best = front(found)
    if arguments.take is not None and not 1 <= arguments.take <= len(best):
        raise InputError(
            f"--take {arguments.take}: there is no such machine; a whole number from 1 to {len(best)} is wanted."
            if best
            else f"--take {arguments.take}: none of the machines holds, so that there is none to take."
        )
    lines = [f"{design.name}; {fingerprint(design)}: {covers()}", here.shop_words]
    lines += [*_counted(found, best), *_why_no_price(design, found, here.shop)]
    lines += ["", *_table(design, best, here.shop), "", *_rests_on()] if best else []
    if arguments.out:
        lines.append(_write(arguments.out, design, found, best, here.shop))
    if arguments.take is not None:
        lines.append(take(design, best[arguments.take - 1], arguments.to))
    return [visible(line) for line in lines], 0 if best else 1


def _refuse_files(arguments: argparse.Namespace) -> None:
    """Files are refused before anything is reckoned."""
    if (arguments.take is None) != (arguments.to is None):
        raise InputError(
            "--take and --to go together; for example --take 1 --to my_mixer_2.toml writes the first of the list."
        )
    picture = arguments.out and arguments.out.with_suffix(".svg")
    if arguments.out and picture == arguments.out:
        raise InputError(
            f"{arguments.out}: is to be a table; a name such as compare.csv is wanted, the picture goes beside it."
        )
    for path, name in (
        (arguments.out, "--out compare_2.csv"),
        (picture, "--out compare_2.csv"),
        (arguments.to, "--to my_mixer_2.toml"),
    ):
        # a link that leads nowhere is there too
        if path and os.path.lexists(path):
            raise InputError(
                f"{path}: is there already and is left alone; give another name, for example {name}."
            )


def _compared(
    design: Design,
    arguments: argparse.Namespace,
    shop: Workshop | None,
    progress: Callable[[str], None],
) -> list[Candidate]:
    """Compare on as many processes as there are cores, where it is worth their start."""
    vary = dict(map(_field, arguments.vary)) if arguments.vary else None

    def told(done: int, of: int) -> None:
        progress(f"{done} of {of} machines compared")

    with side_by_side("compare", arguments.count, _ALONE + 1, f"--count {_ALONE}") as executor:
        return compare(
            design,
            vary,
            count=arguments.count,
            seed=arguments.seed,
            shop=shop,
            executor=executor,
            progress=told,
        )


def _field(words: str) -> tuple[str, object]:
    """A field with no value, or with a list of them."""
    name, sign, text = words.partition("=")
    if not sign:
        return name.strip(), None
    try:
        values = tomllib.loads(f"value = {text}")["value"]
    except tomllib.TOMLDecodeError:
        values = None
    if not isinstance(values, list):
        raise InputError(
            f"--vary {as_written(words)}: a field alone is wanted, or one with a list of values, for example "
            '\'shaft_2.diameter = ["45 mm", "48 mm"]\'.'
        )
    return name.strip(), values


def _counted(found: Sequence[Candidate], best: Sequence[Candidate]) -> Iterator[str]:
    hold = sum(one.holds for one in found)
    yield f"{len(found)} whole machines compared; {hold} of them hold, and {len(best)} of these no other beats in everything."
    if not best:
        often: dict[str, int] = {}
        for one in found:
            for name in one.failing:
                often[name] = often.get(name, 0) + 1
        worst = sorted(often, key=lambda name: -often[name])[:3]
        yield f"What fails most often: {'; '.join(f'{name} ({often[name]})' for name in worst)}."


def _why_no_price(
    design: Design, found: Sequence[Candidate], shop: Workshop | None
) -> Iterator[str]:
    """Why prices are not compared, by the first machine whose price is not known."""
    lost = next((one for one in found if one.holds and one.price is None), None)
    if lost is None:
        return
    if shop is None:
        yield "price not known: there is no shop file, whose table [prices] has the maker's own."
        return
    cost = made(Machine(design.with_values(lost.values)), shop.prices)[2]
    yield f"{cost.words}." if cost else "price not known."


def front_cells(place: int, one: Candidate, system: str, currency: str) -> tuple[str, ...]:
    """What the table says of one machine.

    Parameters
    ----------
    place : int
        Its place on the front.
    one : Candidate
    system, currency : str

    Returns
    -------
    tuple of str
        One for each of :data:`FRONT_HEADS`.
    """
    return (
        f"{place}",
        f"{MARKS['tight' if one.verdict == 'tight' else 'holds']} {one.verdict}",
        show(one.mass, "kg", system),
        "not known" if one.price is None else f"{one.price:.0f} {currency}".rstrip(),
        show(one.hours, "hour", system),
        show(one.batch_minutes, "min", system),
        f"{100 * one.stall_risk:.2g} %",
        spare_text(one.least_spare),
    )


def _table(design: Design, best: Sequence[Candidate], shop: Workshop | None) -> Iterator[str]:
    """The front as a table, under each machine what differs from the design."""
    currency = (shop.prices.currency if shop else None) or ""
    rows = [
        FRONT_HEADS,
        *(front_cells(k, one, design.show_units, currency) for k, one in enumerate(best, 1)),
    ][: _SHOWN + 1]
    wide = [max(len(row[k]) for row in rows) for k in range(len(FRONT_HEADS))]
    for place, row in enumerate(rows):
        cells = [
            cell.rjust(wide[k]) if k != 1 else cell.ljust(wide[k]) for k, cell in enumerate(row)
        ]
        yield "  ".join(cells).rstrip()
        if place:
            values = best[place - 1].values
            yield from (f"       {written(name, value)}" for name, value in values.items())
            if not values:
                yield "       the design as it is"
    if len(best) > _SHOWN:
        yield f"... and {len(best) - _SHOWN} more, which --out compare.csv writes down."


def _rests_on() -> Iterator[str]:
    yield (
        "Hours go by rates of common practice, good to half or twice as much; mass is without ribs, lid, feet and "
        "guards; prices take as bought what lies on the shelf; batch is from loading to loading."
    )
    yield "The kit advises; it certifies nothing."


def compare_csv(found: Sequence[Candidate], best: Sequence[Candidate]) -> str:
    """Write all machines of a comparison as CSV.

    Parameters
    ----------
    found, best : sequence of Candidate
        All of them in the order of their draws, and the front.

    Returns
    -------
    str
        A line each: place on the front, numbers, what fails, and a column for each field that differs from the design
        anywhere; an empty cell is the design's own.
    """
    fields = list(dict.fromkeys(name for one in found for name in one.values))
    places = {id(one): place for place, one in enumerate(best, 1)}
    rows = [
        (
            places.get(id(one), ""),
            one.verdict,
            *(_rounded(getattr(one, goal)) for goal in ("mass", "price", "hours", "batch_minutes")),
            *(_rounded(getattr(one, goal)) for goal in ("stall_risk", "least_spare")),
            "; ".join(one.failing),
            *(_cell(one.values.get(name)) for name in fields),
        )
        for one in found
    ]
    return as_csv((*_CSV, "fails", *fields), rows)


def _rounded(value: float | None) -> object:
    return "not known" if value is None or isnan(value) else float(f"{value:.6g}")


def _cell(value: object) -> object:
    return "" if value is None else written("", value).removeprefix(" = ").strip('"')


def _write(
    out: Path,
    design: Design,
    found: Sequence[Candidate],
    best: Sequence[Candidate],
    shop: Workshop | None,
) -> str:
    """Write table and picture, both or none."""
    from mixerkit.show.compareplots import candidates
    from mixerkit.show.style import as_svg

    currency = (shop.prices.currency if shop else None) or ""
    drawn = candidates(found, best, design.show_units, currency)
    picture = out.with_suffix(".svg").name
    write_all(out.parent, {out.name: compare_csv(found, best), picture: as_svg(drawn)})
    return f"wrote {out}, and the picture {picture} beside it"


def take(design: Design, one: Candidate, to: Path) -> str:
    """Lay a machine on the bench: write it as a design, read again and checked before.

    Parameters
    ----------
    design : Design
        The one that was varied; its comments are kept.
    one : Candidate
    to : pathlib.Path
        File to write; one that is there is left alone.

    Returns
    -------
    str
        What was written, and what to type next.

    Raises
    ------
    InputError
        If the file is there already, or what would be written does not hold.
    """
    if os.path.lexists(to):
        raise InputError(
            f"{to}: is there already and is left alone; give another name, for example my_mixer_2.toml."
        )
    text = design.with_values(one.values).to_toml()
    again = Machine(Design.parse(text, to.name))
    if again.verdict != one.verdict:
        raise InputError(
            f"{to}: the machine as it would be written {again.verdict}; none was written."
        )
    write_atomically(to, text)
    return f"wrote {to}: {again.verdict}; next: mixerkit check {shlex.quote(str(to))}"
