"""One sentence for what does not fit: the field, what was given, what is wanted, an example."""

from __future__ import annotations

from datetime import date, time

__all__ = ["InputError", "as_written", "visible"]


_LONGEST = (900, 400)
"""Letters of a message that are kept at its beginning and at its end."""


def visible(text: object) -> str:
    r"""Give a text on one line, in which nothing moves a terminal's cursor or turns its letters about.

    Parameters
    ----------
    text : object
        Its words are taken.

    Returns
    -------
    str

    Examples
    --------
    >>> print(visible("a\nb\x1b[2J"))
    a\nb\x1b[2J
    """
    line = str(text)
    if line.isprintable():
        return line
    return "".join(
        one if one.isprintable() else one.encode("unicode_escape").decode("ascii") for one in line
    )


def as_written(value: object) -> str:
    """Give a value of a TOML file as it may stand there, for a message.

    Examples
    --------
    >>> as_written([True, "5 mm", {}])
    '[true, "5 mm", {}]'
    """
    if isinstance(value, (bool, str)):
        return str(value).lower() if isinstance(value, bool) else f'"{value}"'
    if isinstance(value, list):
        return f"[{', '.join(map(as_written, value))}]"
    if isinstance(value, dict):
        inner = ", ".join(f"{key} = {as_written(one)}" for key, one in value.items())
        return f"{{{inner}}}"
    if isinstance(value, (date, time)):
        return value.isoformat()
    if isinstance(value, int) and abs(value) >= 2**63:
        return "a whole number with too many digits"
    return repr(value)


class InputError(ValueError):
    """Input that cannot be used, said in sentences a maker can act on.

    Each is kept on one line and to a length that can be read, whatever was given.

    Parameters
    ----------
    *messages : str
        One sentence for each mistake; the same one twice is said once.
    """

    # as it is caught, and as a traceback names it
    __module__ = "mixerkit.units"

    def __init__(self, *messages: str) -> None:
        self.messages = tuple(dict.fromkeys(map(_sentence, messages)))
        super().__init__("\n".join(self.messages))

    def _render_traceback_(self) -> list[str]:
        """What a notebook prints in place of a traceback, which says nothing to a maker."""
        return list(self.messages)


def _sentence(message: str) -> str:
    head, tail = _LONGEST
    if len(message) > head + tail:
        message = f"{message[:head]} ... {message[-tail:]}"
    return visible(message)
