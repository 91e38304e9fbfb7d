"""What a machine costs by the maker's own prices; not known, rather than too low, where one of them is missing.

All is reckoned as bought, what lies on the shelf too.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from mixerkit.frozen import result
from mixerkit.shop.part import Part
from mixerkit.shop.prices_file import Prices
from mixerkit.shop.stock import BOUGHT, family, stock_mass
from mixerkit.shop.trough_blank import trough_blank
from mixerkit.spec import Spec

__all__ = ["Price", "price"]

_BOX = "reduction box with motor"
_EACH = (
    ("insert bearing", "insert_bearing"),
    ("bearing", "bearing"),
    ("seal", "seal"),
    ("elastic coupling", "coupling"),
    ("pulley", "pulley"),
    ("V-belt", "belt"),
    ("sprocket", "sprocket"),
    ("roller chain", "chain"),
)
"""How names of bought parts begin, and whose price they have; all others are fasteners."""


@result
class Price:
    """What a machine costs.

    Attributes
    ----------
    total : float or None
        In the maker's currency; None where a price that it needs is missing.
    missing : tuple of str
        Fields of the shop file that it needs.
    metal, bought, work : float
        Of what is known.
    """

    total: float | None
    missing: tuple[str, ...]
    metal: float
    bought: float
    work: float

    @property
    def words(self) -> str:
        """That it is not known, and why; empty where it is."""
        if self.total is not None:
            return ""
        return f"price not known: the shop file has no {', '.join(self.missing)}"


def price(
    spec: Spec, listed: Sequence[Part], hours: float, prices: Prices, system: str = "metric"
) -> Price:
    """Reckon what a machine costs: metal as it is bought, what comes from a dealer, and work.

    Parameters
    ----------
    spec : Spec
    listed : sequence of Part
        See :func:`mixerkit.shop.parts_list.parts`.
    hours : float
        Of work, see :func:`mixerkit.shop.hours.total_hours`.
    prices : Prices
        Of the shop file.
    system : str
        Whose bar: ``"metric"`` or ``"inch"``.

    Returns
    -------
    Price

    Examples
    --------
    >>> from mixerkit import Design
    >>> price(Design.demo(), [], 100.0, Prices(hour=5)).words
    'price not known: the shop file has no prices.per_kg.stainless'
    """
    sums = {"metal": 0.0, "bought": 0.0, "work": 0.0}
    missing: dict[str, None] = {}
    for what, name, amount in (
        *_metal(spec, listed, system),
        *_dealt(spec, listed),
        ("work", "hour", hours),
    ):
        each = _of(prices, name)
        if each is None:
            missing[f"prices.{name}"] = None
        else:
            sums[what] += amount * each
    return Price(None if missing else sum(sums.values()), tuple(missing), **sums)


def _of(prices: Prices, name: str) -> float | None:
    table, _, field = name.rpartition(".")
    found: float | None = getattr(getattr(prices, table) if table else prices, field)
    return found


def _metal(spec: Spec, listed: Sequence[Part], system: str) -> Iterator[tuple[str, str, float]]:
    """Kilograms as bought, by family."""
    kilograms = {family(spec.trough.material): trough_blank(spec).bought}
    for part in listed:
        if part.material != BOUGHT:
            of = family(part.material)
            mass = part.count * stock_mass(spec, part, system)
            kilograms[of] = kilograms.get(of, 0.0) + mass
    for of, mass in kilograms.items():
        yield "metal", f"per_kg.{of.replace(' ', '_')}", mass


def _dealt(spec: Spec, listed: Sequence[Part]) -> Iterator[tuple[str, str, float]]:
    """What comes from a dealer, by its price."""
    for part in listed:
        if part.name == _BOX:
            yield "bought", "each.motor_per_kw", spec.motor.rated_power
            yield "bought", "each.box_per_newton_metre", spec.reducer.rated_torque
            if spec.motor.fed_by == "frequency converter":
                yield "bought", "each.converter_per_kw", spec.motor.rated_power
        elif part.material == BOUGHT:
            found = (field for begins, field in _EACH if part.name.startswith(begins))
            yield "bought", f"each.{next(found, 'fastener')}", part.count
