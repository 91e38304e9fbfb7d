"""The kit's version, part of every fingerprint."""

__all__ = ["VERSION"]

VERSION = "0.1.0"
