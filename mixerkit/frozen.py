"""What the kit hands out and keeps: namespaces, mappings and arrays that nobody can change.

Results are kept and handed out again, so a change in one place would be a wrong answer in another.
What goes round these doors on purpose, such as ``object.__setattr__``, is not stopped.
"""

from __future__ import annotations

import functools
from collections.abc import Callable, Mapping
from dataclasses import FrozenInstanceError, dataclass
from types import SimpleNamespace
from typing import Any, NoReturn, Self, TypeVar, dataclass_transform, overload

import numpy as np
import numpy.typing as npt

__all__ = ["Frozen", "FrozenDict", "Sealed", "cached_property", "frozen", "result"]


T = TypeVar("T")
K = TypeVar("K")
V = TypeVar("V")
N = TypeVar("N", bound=np.generic)


class Frozen(SimpleNamespace):
    """A namespace that cannot be changed; :meth:`changed` gives a changed copy.

    Examples
    --------
    >>> motor = Frozen(poles=4, kind="three-phase")
    >>> motor.poles = 2
    Traceback (most recent call last):
    ...
    dataclasses.FrozenInstanceError: poles cannot be changed here; .changed(poles=...) gives a changed copy.
    >>> motor.changed(poles=2).poles
    2
    """

    def __setattr__(self, name: str, value: object) -> NoReturn:
        raise FrozenInstanceError(
            f"{name} cannot be changed here; .changed({name}=...) gives a changed copy."
        )

    def __delattr__(self, name: str) -> NoReturn:
        raise FrozenInstanceError(f"{name} cannot be deleted here.")

    def __reduce__(self) -> tuple[Callable[..., Frozen], tuple[type[Self], dict[str, object]]]:
        return _namespace, (type(self), dict(vars(self)))

    def changed(self, **values: object) -> Self:
        """Give a copy with some values changed or added."""
        return type(self)(**{**vars(self), **values})


def _namespace(kind: type[Frozen], values: Mapping[str, object]) -> Frozen:
    return kind(**values)


class FrozenDict(dict[K, V]):
    """A dict that cannot be changed.

    Examples
    --------
    >>> row = FrozenDict(bore=35.0)
    >>> row["bore"] = 40.0
    Traceback (most recent call last):
    ...
    TypeError: this mapping cannot be changed; dict(...) gives a copy that can.
    >>> dict(row, bore=40.0)
    {'bore': 40.0}
    """

    def _refuse(self, *_given: object, **_named: object) -> NoReturn:
        raise TypeError("this mapping cannot be changed; dict(...) gives a copy that can.")

    __setitem__ = __delitem__ = __ior__ = _refuse
    clear = pop = popitem = setdefault = update = _refuse

    def __hash__(self) -> int:  # type: ignore[override]  # a dict has none, as it can be changed
        return hash(frozenset(self.items()))

    def __reduce__(self) -> tuple[type[Self], tuple[dict[K, V]]]:
        return type(self), (dict(self),)

    def copy(self) -> Self:
        """Give itself: what cannot change need not be copied."""
        return self


@overload
def frozen(value: npt.NDArray[N]) -> npt.NDArray[N]: ...
@overload
def frozen(value: tuple[T, ...]) -> tuple[T, ...]: ...
@overload
def frozen(value: list[T]) -> tuple[T, ...]: ...
@overload
def frozen(value: set[T]) -> frozenset[T]: ...
@overload
def frozen(value: dict[K, V]) -> FrozenDict[K, V]: ...
@overload
def frozen(value: T) -> T: ...


def frozen(value: object) -> object:
    """Give a value in a form that cannot be changed, with all that is in it.

    Parameters
    ----------
    value : any
        Namespaces become :class:`Frozen`, dicts :class:`FrozenDict`, lists tuples and sets frozensets;
        an array stays the same array and can no longer be written to. Anything else is given back.

    Returns
    -------
    any

    Examples
    --------
    >>> frozen({"shaft 1": [30.0, 35.0]})
    {'shaft 1': (30.0, 35.0)}
    """
    how = _HOW.get(type(value))
    return value if how is None else how(value)


def _array(value: npt.NDArray[N]) -> npt.NDArray[N]:
    held: object = value
    # a view could still be written to through what it looks at
    while type(held) is np.ndarray:
        held.flags.writeable = False
        held = held.base
    return value


# by exact type: most of what is asked about is a number or a text and stays as it is
_HOW: dict[type, Callable[[Any], object]] = {
    np.ndarray: _array,
    SimpleNamespace: lambda value: Frozen(
        **{one: frozen(held) for one, held in vars(value).items()}
    ),
    dict: lambda value: FrozenDict({one: frozen(held) for one, held in value.items()}),
    list: lambda value: tuple(map(frozen, value)),
    tuple: lambda value: tuple(map(frozen, value)),
    set: frozenset,
}


def _freeze_all(held: dict[str, Any]) -> None:
    for name, value in held.items():
        # looked up here, since most values stay as they are
        how = _HOW.get(type(value))
        if how is not None:
            held[name] = how(value)


@dataclass_transform(frozen_default=True)
def result(kind: type[T]) -> type[T]:
    """Make a class a frozen record of results, in which nothing that it holds can be changed either.

    Examples
    --------
    >>> @result
    ... class Load:
    ...     forces: tuple[float, ...]
    >>> Load([1.0, 2.0]).forces
    (1.0, 2.0)
    """

    def freeze(self: object) -> None:
        _freeze_all(vars(self))

    # there before the record is made, so that its making calls it
    kind.__post_init__ = freeze  # type: ignore[attr-defined]  # dataclass alone looks for it
    return dataclass(frozen=True, eq=False)(kind)


class Sealed:
    """Base of objects that set themselves up and are then :meth:`sealed <seal>`."""

    def seal(self) -> None:
        """Freeze every attribute; none can be set from here on."""
        held = vars(self)
        _freeze_all(held)
        held["_sealed"] = True

    def __setattr__(self, name: str, value: object) -> None:
        if "_sealed" in vars(self):
            raise FrozenInstanceError(f"{name} cannot be changed here.")
        object.__setattr__(self, name, value)

    def __delattr__(self, name: str) -> NoReturn:
        raise FrozenInstanceError(f"{name} cannot be deleted here.")


class cached_property(functools.cached_property[T]):  # noqa: N801  named as the one it stands for
    """As :class:`functools.cached_property`, with a value that cannot be changed."""

    def __init__(self, worked_out: Callable[[Any], T]) -> None:
        super().__init__(lambda self: frozen(worked_out(self)))
        self.__doc__ = worked_out.__doc__
