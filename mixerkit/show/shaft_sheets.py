"""The sheet of a shaft: lengths, limits, what is turned and milled."""

from __future__ import annotations

from itertools import pairwise
from math import inf

from mixerkit.parts.sleeve_checks import sleeve_warnings
from mixerkit.parts.sleeve_seats import seats_told
from mixerkit.shop import turning
from mixerkit.shop.shaftwork import ShaftWork, shaft_work
from mixerkit.shop.workshop import Workshop
from mixerkit.show.drawing import Drawing
from mixerkit.show.sheet import Sheet, Words, ratio
from mixerkit.spec import Spec
from mixerkit.units import show

__all__ = ["shaft"]


def shaft(spec: Spec, number: int, shop: Workshop | None, words: Words) -> Sheet:
    """Write the sheet of a shaft."""
    one = shaft_work(spec, number, words.system)
    notes = turning.turning_notes(one.length, one.diameter, shop, words.system)
    rows = [
        (
            str(k),
            feature.words,
            words.size(feature.start),
            words.size(feature.end),
            words.limits(feature.least, feature.most),
            feature.note,
            "",
        )
        for k, feature in enumerate(one.features, 1)
    ]
    return Sheet(
        f"Shaft {number}",
        f"{one.material}, {show(one.mass, 'kg', words.system)}; lengths from the left end",
        _shaft_drawing(one, words),
        (
            ("Saw to", words.size(one.length + 4)),
            ("Face to", words.size(one.length)),
            *_bearing_limits(one, words),
        ),
        (
            (
                "From left to right",
                ("", "What", "From", "To", "Limits", "Note", "As made"),
                tuple(rows),
            ),
        ),
        (),
        (
            *(f"{text[0].upper()}{text[1:]}." for text in notes.words),
            f"{_fillets(one, words)}, or an undercut no deeper than {words.size(0.3, 2)}; seats Ra {words.finish(0.8)}, the rest Ra {words.finish(3.2)}; break every edge {words.size(0.5, 1)} x 45 deg.",
            "Turn seats last, to the bores as measured. Mill keyways before the last cut on the seat: they let the bar spring.",
            *seats_told(spec, number, words.system),
            *(sleeve_warnings(spec)[:1]),
        ),
        dense=True,
    )


def _fillets(one: ShaftWork, words: Words) -> str:
    """Fillets at the shoulders: none is larger than its shoulder is high."""
    told = f"Fillets {words.size(one.fillet)} at every shoulder"
    sizes = [size for _, _, size in one.segments]
    low = min((abs(a - b) / 2 for a, b in pairwise(sizes) if a != b), default=inf)
    if low >= one.fillet:
        return told
    return f"{told} but no more than it is high, {words.size(low)} at the lowest"


def _bearing_limits(one: ShaftWork, words: Words) -> list[tuple[str, str]]:
    """Limits of the bearing seats: one line where all are alike."""
    seats = {
        feature.words: words.limits(feature.least, feature.most)
        for feature in one.features
        if feature.words.startswith(("seat in the plate", "seat beyond"))
    }
    if len(set(seats.values())) == 1:
        return [("Bearing seats", next(iter(seats.values())))]
    return [(f"Bearing {name}", limits) for name, limits in seats.items()]


_LEVELS = 3
"""Rows of numbers above a shaft."""


def _shaft_drawing(one: ShaftWork, words: Words) -> str:
    big = max(size for _, _, size in one.segments)
    scale = 164.0 / one.length
    tall = max(2.0, 12.0 / (big * scale))
    drawn = Drawing((0, -big * tall / 2), (one.length, big * tall / 2), scale, 11)
    for start, end, size in one.segments:
        drawn.box((start, -size * tall / 2), (end, size * tall / 2))
    ends = [-inf] * _LEVELS
    for k, feature in enumerate(one.features):
        half = big * tall / 2
        if feature.kind == "seat":
            drawn.box((feature.start, -half), (feature.end, half), wide=0.2, fill="#ececec")
        elif feature.kind == "groove":
            low = feature.diameter * tall / 2
            for sign in (-1, 1):
                drawn.box((feature.start, sign * low), (feature.end, sign * half), fill="#fff")
        elif feature.kind == "keyway":
            drawn.box((feature.start, -half / 3), (feature.end, half / 3), wide=0.35, fill="#fff")
        elif feature.kind == "hole":
            drawn.circle((feature.start + feature.end) / 2, 0, feature.diameter / 2)
        middle = (feature.start + feature.end) / 2
        if feature.kind != "keyway":
            # one above the other where they stand close
            reach, at = 1.0 + len(str(k + 1)), middle * scale
            level = next((n for n, end in enumerate(ends) if at - reach > end), 0)
            ends[level] = at + reach
            up = 2.8 + 3.1 * level
            drawn.words(middle, half, str(k + 1), size=3.0, shift=(0, up), bold=True)
    drawn.line((-15, 0), (one.length + 15, 0), wide=0.18, dash="5 1.2 0.8 1.2")
    drawn.size((one.length, -big * tall / 2), (0, -big * tall / 2), words.bare(one.length), 6)
    drawn.words(
        one.length / 2,
        -big * tall / 2,
        f"lengths to scale {ratio(scale)}, diameters {tall:.2g} times as thick; numbers as in the list",
        size=2.6,
        shift=(0, -10.2),
    )
    return drawn.svg(f"shaft {one.number}")
