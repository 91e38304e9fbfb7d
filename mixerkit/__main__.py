"""Command line: write a starting design, check a design, write its report."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from pathlib import Path

__all__ = ["main"]

_DESCRIPTION = """\
mixerkit: from this clay, this bag and this socket to a clay mixer that fits, turns and lasts.

A design is one text file. Start with "mixerkit new my_mixer.toml", change the numbers in it, and
ask "mixerkit check my_mixer.toml" whether it holds."""
_EPILOG = """\
exit status: 0 all checks hold, 1 a check fails, 2 the input cannot be used.
The kit advises; it certifies nothing. Local codes and licensed people come first."""


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="mixerkit",
        description=_DESCRIPTION,
        epilog=_EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    new = commands.add_parser("new", help="write a commented starting design")
    new.add_argument("file", type=Path, help="file to write; one that is there is left alone")
    check = commands.add_parser("check", help="check a design and print the check table")
    check.add_argument("file", type=Path, help="design file")
    check.add_argument("--why", action="store_true", help="print formula and source of each check")
    report = commands.add_parser("report", help="write the design report, one HTML page")
    report.add_argument("file", type=Path, help="design file")
    report.add_argument(
        "--out", type=Path, default=Path("report"), help="folder for the report (default: report)"
    )
    report.add_argument(
        "--pictures", action="store_true", help="write every picture beside it too, as SVG and PNG"
    )
    return parser


def _new(arguments: argparse.Namespace) -> int:
    from mixerkit.data_files import data_path
    from mixerkit.design import write_atomically
    from mixerkit.units import InputError

    if arguments.file.exists():
        raise InputError(
            f"{arguments.file}: is there already and is left alone; give another name, for example my_mixer_2.toml."
        )
    write_atomically(arguments.file, data_path("designs", "larkfield.toml").read_text("utf-8"))
    print(f"wrote {arguments.file}; next: mixerkit check {arguments.file}")
    return 0


def _check(arguments: argparse.Namespace) -> int:
    from mixerkit.assess import assess
    from mixerkit.design import Design
    from mixerkit.show.tables import check_text

    design = Design.read(arguments.file)
    found = assess(design)
    print(f"{design.name}, fingerprint {design.fingerprint}\n")
    print(check_text(found.checks, why=arguments.why))
    print(f"\n{found.verdict}. Least to spare: {found.weakest.sentence()}")
    return 1 if found.verdict == "fails" else 0


def _report(arguments: argparse.Namespace) -> int:
    from mixerkit.assess import assess
    from mixerkit.design import Design
    from mixerkit.show.report import write_pictures, write_report

    found = assess(Design.read(arguments.file))
    path = write_report(found, arguments.out)
    print(f"{found.verdict}. Report written: {path}")
    if arguments.pictures:
        print(f"{len(write_pictures(found, arguments.out))} pictures beside it")
    return 1 if found.verdict == "fails" else 0


_COMMANDS = {"new": _new, "check": _check, "report": _report}


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
    arguments = _parser().parse_args(argv)
    try:
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
    return status


if __name__ == "__main__":
    sys.exit(main())
