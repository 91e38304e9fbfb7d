"""What may be typed on the command line."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import NoReturn

__all__ = ["parser"]

_DESCRIPTION = """\
mixerkit: from this clay, this bag and this socket to a clay mixer that fits, turns and lasts.

A design is one text file. Start with "mixerkit new my_mixer.toml", change the numbers in it, and
ask "mixerkit check my_mixer.toml" whether it holds."""
_EPILOG = """\
exit status: 0 all checks hold, 1 a check fails, 2 the input cannot be used.
The kit advises; it certifies nothing. Local codes and licensed people come first."""


class _Parser(argparse.ArgumentParser):
    """A parser whose complaints are said as all others are: in one sentence, without the usage."""

    def error(self, message: str) -> NoReturn:
        """Refuse what was typed."""
        from mixerkit.units import InputError

        raise InputError(f'{self.prog}: {message}; "{self.prog} --help" says what may be typed.')


def parser() -> argparse.ArgumentParser:
    """Make the parser of the command line."""
    whole = _Parser(
        prog="mixerkit",
        description=_DESCRIPTION,
        epilog=_EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    commands = whole.add_subparsers(dest="command", required=True, metavar="COMMAND")
    check = commands.add_parser("check", help="check a design and print the check table")
    check.add_argument("file", type=Path, help="design file")
    check.add_argument("--all", action="store_true", help="list the checks that hold too")
    check.add_argument("--why", action="store_true", help="list each with its formula and source")
    check.add_argument(
        "--json", action="store_true", help="print one JSON object for scripts; see README"
    )
    check.add_argument(
        "--no-remedies", action="store_true", help="do not look for what mends a failing check"
    )
    change = commands.add_parser("set", help="change fields of a design file, as check prints them")
    change.add_argument("file", type=Path, help="design file; the one before is kept beside it")
    change.add_argument(
        "values", nargs="*", metavar="FIELD=VALUE", help="such as 'shaft_2.diameter = \"50 mm\"'"
    )
    change.add_argument(
        "--confirm",
        action="append",
        default=[],
        metavar="FIELD",
        help="take a drafted value as your own, such as reducer.output_bore once it is measured",
    )
    report = commands.add_parser("report", help="write the design report, one HTML page")
    report.add_argument("file", type=Path, help="design file")
    report.add_argument(
        "--out", type=Path, default=Path("report"), help="folder for the report (default: report)"
    )
    report.add_argument(
        "--pictures", action="store_true", help="write every picture beside it too, as SVG and PNG"
    )
    sheets = commands.add_parser("sheets", help="write shop sheets and files for cutting")
    sheets.add_argument("file", type=Path, help="design file")
    sheets.add_argument("--out", type=Path, default=Path("sheets"), help="folder (default: sheets)")
    sheets.add_argument(
        "--paper", choices=["a4", "letter", "both"], default="a4", help="paper (default: a4)"
    )
    hold_points = commands.add_parser(
        "hold-points",
        aliases=["gates"],
        help="judge sizes as made at each hold point: cut, stop, or measure first (gates is the same command)",
    )
    hold_points.add_argument("file", type=Path, help="design file")
    hold_points.add_argument(
        "measured", type=Path, nargs="?", help="sizes as made (default: my_sizes.toml beside it)"
    )
    for one in (check, report, sheets, hold_points):
        one.add_argument("--shop", type=Path, help="shop file (default: my_shop.toml beside it)")
    _more(commands)
    return whole


def _more(commands: argparse._SubParsersAction[_Parser]) -> None:
    """What begins a design, and what looks further than one check of it."""
    for add in (_of_drafts, _of_mending, _of_compare, _of_risk):
        add(commands)


def _of_risk(commands: argparse._SubParsersAction[_Parser]) -> None:
    """Whether it holds with all that is not known."""
    risk = commands.add_parser(
        "risk",
        help="say how likely all checks hold with all that is not known, and what to measure",
    )
    risk.add_argument("file", type=Path, help="design file")
    risk.add_argument(
        "--draws", type=int, default=1000, help="machines drawn, 10 to 100000 (default: 1000)"
    )
    risk.add_argument(
        "--seed", type=int, default=1, help="the same one gives the same answer (default: 1)"
    )


def _of_mending(commands: argparse._SubParsersAction[_Parser]) -> None:
    """What mends a whole design."""
    mend = commands.add_parser("mend", help="find the fewest changes that make everything hold")
    mend.add_argument("file", type=Path, help="design file")
    mend.add_argument(
        "--keep",
        action="append",
        default=[],
        metavar="FIELD",
        help="a field that stays as it is, or a whole table such as paths.direct; may be given again",
    )
    mend.add_argument(
        "--free",
        action="append",
        default=[],
        metavar="FIELD",
        help="a fact that may be changed too; motor or reducer for another one; may be given again",
    )
    mend.add_argument(
        "--take",
        type=int,
        metavar="N",
        help="write proposal N into the file; the one before is kept",
    )


def _of_compare(commands: argparse._SubParsersAction[_Parser]) -> None:
    """Many whole machines side by side."""
    compare = commands.add_parser("compare", help="vary a design and list the machines none beats")
    compare.add_argument("file", type=Path, help="design file")
    compare.add_argument(
        "--vary",
        nargs="+",
        action="extend",
        metavar="FIELD",
        help='such as shaft_2.diameter, or with values: \'shaft_2.diameter = ["45 mm", "48 mm"]\'; motor and reducer for '
        "other rows of their tables (default: choices that the kit drafted, or those that matter)",
    )
    compare.add_argument("--count", type=int, default=200, help="machines (default: 200)")
    compare.add_argument("--seed", type=int, default=1, help="the same gives the same machines")
    compare.add_argument(
        "--out", type=Path, help="table of all of them to write, with a picture beside it"
    )
    compare.add_argument("--take", type=int, metavar="K", help="write the K-th as a new design")
    compare.add_argument("--to", type=Path, metavar="FILE", help="where --take writes it")
    compare.add_argument("--shop", type=Path, help="shop file (default: my_shop.toml beside it)")


def _of_drafts(commands: argparse._SubParsersAction[_Parser]) -> None:
    """What begins a design: the demo to change, or a brief and its draft."""
    new = commands.add_parser("new", help="write a commented starting design")
    new.add_argument("file", type=Path, help="file to write; one that is there is left alone")
    new.add_argument(
        "--brief", action="store_true", help="write a least brief instead, to draft a machine from"
    )
    new.add_argument(
        "--units",
        choices=["metric", "inch"],
        default="metric",
        help="of that brief (default: metric)",
    )
    draft = commands.add_parser("draft", help="draft a whole machine from a brief")
    draft.add_argument(
        "file", type=Path, help="brief: a design file in which any field may be missing"
    )
    draft.add_argument(
        "--out",
        type=Path,
        default=Path("my_mixer.toml"),
        help="design to write (default: my_mixer.toml)",
    )
    draft.add_argument(
        "--shop",
        type=Path,
        help="shop file, for whose cutters gears are drafted (default: my_shop.toml beside the brief)",
    )
