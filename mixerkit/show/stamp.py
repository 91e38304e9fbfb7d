"""What stands on everything printed or written for a design: its day, its fingerprint, and whether to cut."""

from __future__ import annotations

import hashlib
import json
import math
import os
from dataclasses import dataclass
from datetime import UTC, date, datetime

from mixerkit.checks import Check
from mixerkit.design import Design
from mixerkit.machine import Machine
from mixerkit.shop.measurements import Measurements
from mixerkit.shop.workshop import Workshop
from mixerkit.units import InputError
from mixerkit.version import VERSION

__all__ = ["STOP", "Stamp", "day_of", "fingerprint", "stamp_of", "why_not"]

STOP = "DO NOT CUT"
REASONS = 3
"""Failing checks that are named; a sheet has room for no more."""


@dataclass(frozen=True)
class Stamp:
    """What stands on each sheet and on the report.

    Attributes
    ----------
    day : str
        Year-month-day.
    fingerprint : str
    covers : str
        What the fingerprint covers, in words.
    why_not : tuple of str
        Why nothing may be cut yet, a line each; empty for a design that holds.
    """

    day: str
    fingerprint: str
    covers: str
    why_not: tuple[str, ...] = ()

    @property
    def stop(self) -> tuple[str, ...]:
        """Lines that stop a cut, for files; none for a design that holds."""
        return (STOP, *self.why_not) if self.why_not else ()


def stamp_of(
    found: Machine, shop: Workshop | None, sizes: Measurements | None = None, on: date | None = None
) -> Stamp:
    """Make the stamp of an assessed design.

    Parameters
    ----------
    found : Machine
    shop : Workshop, or None
    sizes : Measurements, optional
        Sizes as made, where they had a part in it.
    on : datetime.date, optional
        See :func:`day_of`.

    Returns
    -------
    Stamp

    Examples
    --------
    >>> from mixerkit import Design, Machine
    >>> from mixerkit.shop.workshop import read_workshop
    >>> stamp_of(Machine(Design.demo()), read_workshop()).stop
    ()
    """
    return Stamp(
        day_of(found.design, on),
        fingerprint(found.design, shop, sizes),
        covers(shop, sizes),
        why_not(found),
    )


def fingerprint(
    design: Design, shop: Workshop | None = None, sizes: Measurements | None = None
) -> str:
    """Eight characters that change when any value of design, shop or sizes does, or the kit's version.

    Prices cut nothing: a sheet stays the same when they rise.

    Parameters
    ----------
    design : Design
    shop : Workshop, optional
    sizes : Measurements, optional

    Returns
    -------
    str
    """
    tables = [one and one.to_table() for one in (design, shop, sizes)]
    if tables[1]:
        tables[1].pop("prices", None)
    said = [*tables, VERSION]
    canonical = json.dumps(said, sort_keys=True, ensure_ascii=False)
    return hashlib.sha256(canonical.encode()).hexdigest()[:8]


def covers(shop: Workshop | None = None, sizes: Measurements | None = None) -> str:
    """Say what a fingerprint covers.

    Examples
    --------
    >>> covers()
    'fingerprint of design and kit ...'
    """
    parts = ["design", *(["shop"] if shop else []), *(["sizes as made"] if sizes else [])]
    return f"fingerprint of {', '.join(parts)} and kit {VERSION}"


def day_of(design: Design, on: date | None = None) -> str:
    """Day that stands on what is printed.

    Parameters
    ----------
    design : Design
    on : datetime.date, optional
        The day wanted. If not given, it is the design's own ``date``; if it has none, the day that the
        environment variable ``SOURCE_DATE_EPOCH`` gives in seconds since 1970; or else today.

    Returns
    -------
    str
        Year-month-day.

    Raises
    ------
    InputError
        If the environment variable is not a count of seconds.

    Examples
    --------
    >>> from mixerkit import Design
    >>> day_of(Design.demo().with_values({"date": "2026-03-01"}))
    '2026-03-01'
    """
    if on is not None:
        return on.isoformat()
    if design.date:
        return design.date
    seconds = os.environ.get("SOURCE_DATE_EPOCH")
    if not seconds:
        return datetime.now().astimezone().date().isoformat()
    try:
        return datetime.fromtimestamp(int(seconds), UTC).date().isoformat()
    except (ValueError, OverflowError, OSError):
        raise InputError(
            f'SOURCE_DATE_EPOCH: "{seconds[:40]}" does not fit; whole seconds since the start of 1970 are wanted, for example 1772323200.'
        ) from None


def why_not(found: Machine) -> tuple[str, ...]:
    """Say why a design must not be cut yet: its failing checks in short, the worst first.

    Parameters
    ----------
    found : Machine

    Returns
    -------
    tuple of str
        One line a check and one for those that are not named; empty for a design that holds.

    Examples
    --------
    >>> from mixerkit import Design, Machine
    >>> why_not(Machine(Design.demo()))
    ()
    """
    if found.verdict != "fails":
        return ()
    failing = [one for one in found.checks if one.verdict == "fails"]
    failing.sort(key=lambda one: -math.inf if math.isnan(one.spare) else one.spare)
    said = [_short(one) for one in failing[:REASONS]]
    more = len(failing) - len(said)
    return (*said, f"and {more} more") if more else tuple(said)


def _short(check: Check) -> str:
    asked, takes = check.shown
    name = check.name if check.name.startswith(check.part) else f"{check.part}, {check.name}"
    factor = f" with factor {check.safety:g}" if check.safety != 1 else ""
    return f"{name}: {asked} asked against {takes}{factor}"
