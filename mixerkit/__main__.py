"""Command line: write a starting design, check it, write its report and sheets, judge sizes as made."""

from __future__ import annotations

import argparse
import io
import os
import re
import sys
import time
import warnings
from collections.abc import Sequence
from typing import TYPE_CHECKING

from mixerkit.show.arguments import parser

if TYPE_CHECKING:
    from mixerkit.design import Design

__all__ = ["main"]


class _Progress:
    """Says on the error stream what is being done, once it has taken a second."""

    def __init__(self) -> None:
        self._start = time.monotonic()

    def __call__(self, words: str) -> None:
        if time.monotonic() - self._start > 1.0:
            print(f"  {words} ...", file=sys.stderr, flush=True)


def _new(arguments: argparse.Namespace) -> int:
    from mixerkit.data_files import data_path
    from mixerkit.shop.beside import START
    from mixerkit.units import InputError, visible
    from mixerkit.written import write_atomically

    # a link that leads nowhere is there too
    if os.path.lexists(arguments.file):
        raise InputError(
            f"{arguments.file}: is there already and is left alone; give another name, for example my_mixer_2.toml."
        )
    name, start = arguments.file.name, ("designs", "larkfield.toml")
    next_one = f"mixerkit check {arguments.file}"
    if arguments.brief:
        start = ("briefs", f"brief_{arguments.units}.toml")
        next_one = f"mixerkit draft {arguments.file}"
    elif name in START:
        start, next_one = START[name], "write in your own"
    write_atomically(arguments.file, data_path(*start).read_text("utf-8"))
    print(visible(f"wrote {arguments.file}; next: {next_one}"))
    return 0


def _draft(arguments: argparse.Namespace) -> int:
    from mixerkit.shop.beside import beside
    from mixerkit.show.drafted import draft

    here = beside(arguments.file, arguments.shop)
    lines, status = draft(arguments.file, arguments.out, here.shop, _Progress())
    print("\n".join(lines))
    return status


def _check(arguments: argparse.Namespace) -> int:
    from mixerkit.design import Design
    from mixerkit.explore.flips import flips
    from mixerkit.machine import Machine
    from mixerkit.shop.beside import beside
    from mixerkit.show import along
    from mixerkit.show.answer import answer_json, answer_text
    from mixerkit.show.assumptions import flips_json, known_beside, rests_text
    from mixerkit.show.stamp import covers, fingerprint
    from mixerkit.units import visible

    design, found_beside = Design.read(arguments.file), beside(arguments.file, arguments.shop)
    found = Machine(design)
    mending = None
    if found.verdict == "fails" and not arguments.no_remedies:
        from mixerkit.explore.mend import mend

        mending = mend(found)
    known = known_beside(design, found_beside)
    flipping = flips(found, known)
    if arguments.json:
        import json

        more = {
            **along.told_json(design, found_beside),
            "assumed_flips": flips_json(flipping),
        }
        print(json.dumps(answer_json(found, mending, more), indent=1, allow_nan=False))
    else:
        everything = arguments.all or arguments.why
        print(visible(f"{design.name}; {fingerprint(design)}: {covers()}"))
        for line in (*_told(design), *along.told(design, found_beside, arguments.file)):
            print(visible(line))
        rests = rests_text(found, flipping, known)
        answer = answer_text(found, mending, everything=everything, why=arguments.why, rests=rests)
        print("\n".join(map(visible, answer.split("\n"))))
    return 1 if found.verdict == "fails" else 0


def _told(design: Design) -> list[str]:
    """What a maker is told of a file of an older format."""
    from mixerkit.design import FORMAT

    if not design.told:
        return []
    head = f"The file is of an older format; it is read as format {FORMAT}, and written so when a value is set:"
    return [head, *(f"  {sentence}" for sentence in design.told)]


def _set(arguments: argparse.Namespace) -> int:
    from mixerkit.design import Design
    from mixerkit.explore.draft.assumed import confirmed
    from mixerkit.textfiles import read_text
    from mixerkit.units import visible
    from mixerkit.written import write_all

    before = Design.read(arguments.file)
    lines = [one for text in arguments.values for one in text.splitlines() if one.strip()]
    values = _values(lines) if lines or not arguments.confirm else {}
    changed = confirmed(before.with_values(values), arguments.confirm)
    changed.refuse_untested(values)
    name, text = arguments.file.name, read_text(arguments.file, missing="")
    write_all(arguments.file.parent, {f"{name}.previous": text, name: changed.to_toml()})
    print(visible(f"wrote {arguments.file}; the file before is {arguments.file}.previous"))
    for line in _told(before):
        print(visible(line))
    return 0


def _mend(arguments: argparse.Namespace) -> int:
    from mixerkit.show.mended import mend

    keep, free = arguments.keep, arguments.free
    lines, status = mend(arguments.file, keep, free, arguments.take, _Progress())
    print("\n".join(lines))
    return status


def _compare(arguments: argparse.Namespace) -> int:
    from mixerkit.show.compared import compare_text

    lines, status = compare_text(arguments, _Progress())
    print("\n".join(lines))
    return status


def _values(lines: Sequence[str]) -> dict[str, object]:
    """Read lines such as ``shaft_2.diameter = "50 mm"`` as dotted names and values."""
    import tomllib

    from mixerkit.units import InputError, as_written

    values: dict[str, object] = {}
    for line in lines or [""]:
        name, sign, text = line.partition("=")
        name = re.sub("would do:|trades it:|or:", "", name).strip()
        try:
            value = tomllib.loads(f"value = {text}")["value"]
        except tomllib.TOMLDecodeError:
            value = None
        if not sign or value is None:
            raise InputError(
                f"{as_written(line)} is not a field with its value; a text stands in double quotes and the whole in single "
                "ones, for example 'shaft_2.diameter = \"50 mm\"'."
            )
        if name in values:
            raise InputError(f"{name}: is given twice; one value is wanted.")
        values[name] = value
    return values


def _report(arguments: argparse.Namespace) -> int:
    from mixerkit.design import Design
    from mixerkit.machine import Machine
    from mixerkit.shop.beside import beside
    from mixerkit.show import along
    from mixerkit.show.assumptions import known_beside
    from mixerkit.show.report import write_report
    from mixerkit.units import visible

    design, here = Design.read(arguments.file), beside(arguments.file, arguments.shop)
    found, told = Machine(design), along.told(design, here, arguments.file)
    page, *pictures = write_report(
        found,
        arguments.out,
        here.shop,
        _Progress(),
        pictures=arguments.pictures,
        told=told,
        known=known_beside(design, here),
    )
    for line in (f"{found.verdict}. Report written: {page}", *told):
        print(visible(line))
    if pictures:
        print(f"{len(pictures)} pictures beside it")
    return 1 if found.verdict == "fails" else 0


def _sheets(arguments: argparse.Namespace) -> int:
    from mixerkit.design import Design
    from mixerkit.machine import Machine
    from mixerkit.shop.beside import beside
    from mixerkit.show import along
    from mixerkit.show.assumptions import known_beside
    from mixerkit.show.sheets import write_sheets
    from mixerkit.units import visible

    design, here = Design.read(arguments.file), beside(arguments.file, arguments.shop)
    found = Machine(design)
    papers = ["a4", "letter"] if arguments.paper == "both" else [arguments.paper]
    written = write_sheets(
        design,
        here.shop,
        arguments.out,
        *papers,
        found=found,
        known=known_beside(design, here),
    )
    out = (
        f"{len(written)} files written to {arguments.out}; print {written[0].name} on one side each"
    )
    for line in (out, *along.told(design, here, arguments.file)):
        print(visible(line))
    if found.verdict == "fails":
        print("The design does not hold yet: mend it before metal is cut.", file=sys.stderr)
    return 1 if found.verdict == "fails" else 0


def _hold_points(arguments: argparse.Namespace) -> int:
    from mixerkit.design import Design
    from mixerkit.shop.beside import beside
    from mixerkit.show.holdtext import hold_points_text

    design = Design.read(arguments.file)
    here = beside(arguments.file, arguments.shop, arguments.measured)
    lines, stops = hold_points_text(design, here, _Progress())
    print("\n".join(lines))
    return 1 if stops else 0


def _risk(arguments: argparse.Namespace) -> int:
    from mixerkit.show.risked import risk

    lines, status = risk(arguments.file, arguments.draws, arguments.seed, _Progress())
    print("\n".join(lines))
    return status


_COMMANDS = {
    "new": _new,
    "draft": _draft,
    "check": _check,
    "compare": _compare,
    "set": _set,
    "mend": _mend,
    "report": _report,
    "risk": _risk,
    "sheets": _sheets,
    "hold-points": _hold_points,
    "gates": _hold_points,
}


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command line.

    Parameters
    ----------
    argv : sequence of str, optional
        Arguments; those of the process, if not given.

    Returns
    -------
    int
        0 all checks hold, 1 a check fails, 2 the input cannot be used, 130 interrupted.
    """
    _speak_on()
    # what a formula cannot work out is said as a check, not as numpy's own warning
    warnings.filterwarnings("ignore", category=RuntimeWarning)
    try:
        arguments = parser().parse_args(argv)
        status = _COMMANDS[arguments.command](arguments)
        sys.stdout.flush()
    except KeyboardInterrupt:
        print("stopped; nothing was left half-written", file=sys.stderr)
        return 130
    except BrokenPipeError:
        # the reader of a pipe has gone; give Python a place to flush to at exit
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except ValueError as error:
        from mixerkit.units import InputError

        if not isinstance(error, InputError):
            raise
        print("\n".join(error.messages), file=sys.stderr)
        return 2
    except OSError as error:
        # files have been asked for by name already: what is left is the output itself
        print(f"the output cannot be written ({error.strerror or error}).", file=sys.stderr)
        return 2
    return status


def _speak_on() -> None:
    """Let a letter that the terminal does not have be written as its code."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


if __name__ == "__main__":
    sys.exit(main())
