"""The table of a design file that says what touches the clay and stands nowhere else.

Where nothing is said, plain steel is taken: it is what rusts into the clay.
"""

from __future__ import annotations

from mixerkit.fields import Record, choice, words, yes_no

__all__ = ["FILLERS", "Contact"]

FILLERS = ("plain steel", "19 9 L", "19 12 3 L", "23 12 L", "22 9 3 N L")
"""Welding fillers: the stainless ones by their symbols in EN ISO 3581 and EN ISO 14343."""
_METAL = "a metal of data/tables/contact_metals.csv"


class Contact(Record, role="choice"):
    """Metals that clay lies on or splashes, how they are joined, and what the clay brings."""

    clay: str = choice(
        ("white", "dark"),
        "colour it is to fire to; iron spots show in white, not in dark",
        "white",
        role="fact",
    )
    salted: bool = yes_no(
        "whether salt, brackish water or a deflocculant with chloride is mixed in, as for casting slip",
        default=False,
    )
    lid_material: str = words(f"of the lid, {_METAL}", "stainless 1.4301 annealed", "steel S235JR")
    bolt_material: str = words(
        f"of bolts and hinges on trough and lid, {_METAL}",
        "stainless 1.4404 annealed",
        "steel S235JR",
    )
    bolted_laps: bool = yes_no(
        "whether sheets lie bolted on each other below the clay", default=False
    )
    pin_ends: str = choice(
        ("bare", "capped"),
        "ends of the pins through the sleeves: bare in the clay, or capped with a weld bead ground flush",
        "bare",
    )
    paddle_filler: str = choice(FILLERS, "filler that paddles are welded on with", "plain steel")
    trough_filler: str = choice(FILLERS, "filler that the trough is welded with", "plain steel")
