"""Whether the rolling bearings fit their shafts and last."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check, Say
from mixerkit.parts import bearing, bearing_workings, zones
from mixerkit.parts.along import NAMES
from mixerkit.parts.bearing_loads import AXIAL, axial_push, jam_thrust, loads
from mixerkit.parts.remedies import LIGHTER, calmer
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.results import Array, Flags, LoadedMachine, TableRow
from mixerkit.spec import SERIES
from mixerkit.units import show

__all__ = ["rolling"]


def _size(row: TableRow, say: Say) -> str:
    return " x ".join(say(row[one], "mm") for one in ("bore", "outer", "width"))


def _larger_bearings(line: ShaftBeam, which: str, over: float) -> list[Change]:
    """A heavier series for the same shaft, or a shaft that carries a bearing with so much higher a rating."""
    spec = line.machine.spec
    has = min((row for row in line.bearings if row), key=lambda row: float(row[which]))
    wanted = float(has[which]) * float(over)
    found: list[Change] = []
    for series in SERIES[SERIES.index(spec.bearings.series) + 1 :]:
        row = zones.bearing_for(float(has["bore"]), series)
        if row and row["bore"] == has["bore"] and row[which] >= wanted:
            wider = row["width"] > spec.housing.plate_thickness
            plates = {"housing.plate_thickness": row["width"]} if wider else {}
            found.append({"bearings.series": series, **plates})
            break
    rows = zones.bearing_rows(spec.bearings.series)
    bigger = [row["bore"] for row in rows if row["bore"] > has["bore"] and row[which] >= wanted]
    return [*found, *({f"shaft_{line.number}.diameter": bore} for bore in bigger[:1])]


def rolling(line: ShaftBeam) -> list[Check]:
    """Check the rolling bearings of a shaft."""
    machine = line.machine
    least = float(zones.bearing_rows(machine.spec.bearings.series)[0]["bore"])
    rows = [row for row in line.bearings if row]
    if len(rows) < len(line.bearings):
        smallest = show(least, "mm", machine.system)
        why = f"the table of rolling bearings begins at a bore of {smallest}, and a seat is thinner"
        larger: list[Change] = [{f"shaft_{line.number}.diameter": least}]
        if line.diameters[line.supports].min() >= least:
            bar = show(float(line.diameters[line.supports[-1]]), "mm", machine.system)
            why = f"no insert bearing of the table has the bore of its bar, {bar}, and its seat is not turned down"
            larger = [{"bearings.far_end": "as in the plates"}]
        return [_seats(line, least)] + [
            replace(
                make_unjudged(machine, "bearings", _part(line), name, why), fixes=lambda: larger
            )
            for name in ("rating life", "static load in a jam")
        ]
    felt = [_Felt.of(line, place, row) for place, row in enumerate(rows)]
    return [_seats(line, least), _life(line, felt), _static(line, felt)]


def _part(line: ShaftBeam) -> str:
    return f"bearings of shaft {line.number}"


def _seats(line: ShaftBeam, least: float) -> Check:
    """Whether there is a bearing for the shaft's seats, the smallest having a bore in mm."""
    thin = float(line.diameters[line.supports].min())
    return make_check(
        line.machine,
        "bearings",
        _part(line),
        "a bearing for the shaft's seats",
        demand=least,
        capacity=thin,
        unit="mm",
        tight=1.0,
        working=lambda i: bearing_workings.taken(
            "d", "thinnest seat of a bearing on the shaft", thin, "mm"
        ),
        source="ISO 15 as far as the table goes",
        reason=lambda i, say: "seat turned down from the shaft",
        fix=lambda i: [
            {f"shaft_{line.number}.diameter": least},
            {"bearings.kind": "plain bush"},
        ],
    )


@dataclass(frozen=True)
class _Felt:
    """What one bearing feels over the load cases, in N.

    Attributes
    ----------
    place : int
        Of the bearing along its shaft.
    row : TableRow
    axial : float
        Push along the shaft day by day.
    load : array
        Equivalent of pull and push while mixing.
    radial, pushed, rest : array
        Pull, push, and the equivalent of both in a jam.
    """

    place: int
    row: TableRow
    axial: float
    load: Array
    radial: Array
    pushed: Array
    rest: Array

    @classmethod
    def of(cls, line: ShaftBeam, place: int, row: TableRow) -> _Felt:
        """Work it out; the bearing that locates the shaft bears its push."""
        machine = line.machine
        locates = place + 1 == machine.spec.bearings.locating
        axial = axial_push(machine) if locates else 0.0
        lasting, most = loads(line, place)
        load = bearing.equivalent_load.formula(lasting, axial, 1e3 * row["static_rating"])
        along = np.maximum(axial, jam_thrust(machine, line.number)) if locates else axial
        rest = np.asarray(bearing.static_load.formula(most, along))
        pushed = np.broadcast_to(along, rest.shape)
        return cls(place, row, axial, np.asarray(load), most, pushed, rest)

    @property
    def limit(self) -> float:
        """Load in N up to which ISO 281 reckons."""
        return 1e3 * float(min(0.5 * self.row["dynamic_rating"], self.row["static_rating"]))

    def most(self, mixing: Flags) -> float:
        """Greatest load in N while mixing."""
        return float(self.load[mixing].max())

    def life(self, speed: Array) -> Array:
        """Rating life in hours at speeds in rpm over the load cases."""
        # a newton is nothing to a bearing, and no load at all would last for ever; where it stands it does
        life = bearing.rating_life.formula(
            1e3 * self.row["dynamic_rating"],
            np.maximum(self.load, 1.0),
            np.where(speed > 0, speed, 1.0),
        )
        return np.where(speed > 0, life, np.inf)


def _greatest(share: float) -> float:
    """Share to compare by: what cannot be worked out governs all that can."""
    return np.inf if np.isnan(share) else share


def _static(line: ShaftBeam, felt: Sequence[_Felt]) -> Check:
    """Static load of the bearing that a jam loads most for its rating."""
    machine, safety = line.machine, line.machine.spec.safety.bearing_static
    one = max(felt, key=lambda one: _greatest(float(one.rest.max()) / one.row["static_rating"]))
    static, thrust = 1e3 * one.row["static_rating"], jam_thrust(machine, line.number)
    return make_check(
        machine,
        "bearings",
        _part(line),
        "static load in a jam",
        where=machine.load_cases.jammed,
        demand=one.rest,
        capacity=static,
        unit="N",
        safety=safety,
        working=lambda i: bearing_workings.static(
            float(one.radial[i]), float(one.pushed[i]), float(one.rest[i]), NAMES[one.place]
        ),
        source="ISO 76 (from memory): what dents its track; slow shafts are governed by it",
        reason=lambda i, say: (
            f"{_size(one.row, say)} at the {NAMES[one.place]}: P0 = {say(one.rest[i], 'N')}, its push along the shaft {say(thrust[i], 'N')} if it locates"
        ),
        fix=lambda i: [
            *_larger_bearings(line, "static_rating", one.rest[i] * safety / static),
            *calmer(machine, i, one.rest[i] * safety / static),
            {"bearings.kind": "plain bush"},
            "reducer.overhang",
            "bearings.span",
        ],
    )


def _life(line: ShaftBeam, felt: Sequence[_Felt]) -> Check:
    """Rating life of the bearing that is loaded most for its rating."""
    machine, mixing = line.machine, line.machine.load_cases.mixing
    speed = machine.running_speed * machine.power_flow.turns[line.number]
    one = max(felt, key=lambda one: _greatest(one.most(mixing) / one.row["dynamic_rating"]))
    wanted, life = machine.spec.batch.life_hours, one.life(speed)

    def mended(i: int) -> list[Change]:
        over = (wanted / life[i]) ** (1 / 3) if speed[i] > 0 else np.inf
        return [
            *_larger_bearings(line, "dynamic_rating", float(over)),
            {"bearings.kind": "plain bush"},
            *LIGHTER,
            "reducer.overhang",
            "bearings.span",
            "motor.run_at",
        ]

    why = _why_no_life(machine, one, felt)
    if why:
        worst = int(np.argmax(np.where(mixing, one.load, 0.0)))
        return replace(
            make_unjudged(machine, "bearings", _part(line), "rating life", why),
            fixes=lambda: mended(worst),
        )
    return make_check(
        machine,
        "bearings",
        _part(line),
        "rating life",
        where=mixing,
        demand=wanted,
        capacity=life,
        unit="hour",
        working=lambda i: bearing_workings.life(
            1e3 * one.row["dynamic_rating"],
            float(one.load[i]),
            float(speed[i]),
            one.axial,
            float(life[i]),
        ),
        source="ISO 281; ratings of data/tables/rolling_bearings.csv",
        reason=lambda i, say: (
            f"{_size(one.row, say)} at the {NAMES[one.place]}: P = {say(one.load[i], 'N')}, "
            f"C = {say(1e3 * one.row['dynamic_rating'], 'N')}, {say(speed[i], 'rpm')}"
        ),
        fix=mended,
    )


def _why_no_life(machine: LoadedMachine, worst: _Felt, felt: Sequence[_Felt]) -> str:
    """Say why no life can be reckoned; empty where it can."""
    if not machine.running_speed > 0:
        return f"{NAMES[worst.place]}: shaft 1 does not turn at the frequency the motor is fed with"
    for one in felt:
        most = one.most(machine.load_cases.mixing)
        if not most <= one.limit:
            said = [show(force, "N", machine.system) for force in (most, one.limit)]
            return f"{NAMES[one.place]}: a load of {said[0]} is beyond {said[1]}, up to which ISO 281 reckons"
        if one.axial > AXIAL * 1e3 * one.row["static_rating"]:
            return f"{NAMES[one.place]}: the push is beyond the table of factors for axial load"
    return ""
