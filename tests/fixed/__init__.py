"""Designs that cases worked out by hand stand on: they stay as they are when the demo changes."""

from pathlib import Path

from mixerkit import Design


def text_of(name):
    """Text of a design file of this folder."""
    return (Path(__file__).parent / f"{name}.toml").read_text("utf-8")


def fixed(name):
    """Design of this folder: ``"tired"``, ``"jammed"``, ``"touched"`` or ``"framed"``."""
    return Design.parse(text_of(name))
