"""Whether the bolts of a joint stay tight, stay straight and last."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check, Say
from mixerkit.parts.bolts import (
    Drawn,
    bolt_endurance,
    larger_bolts,
    stronger_class,
    worked_preload,
)
from mixerkit.parts.remedies import LIGHTER, calmer
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import Array
from mixerkit.working import Given, Working, worked

__all__ = ["Joint"]


@dataclass(frozen=True)
class Joint:
    """Bolts of one kind, and the pull in N on the one that is pulled most, over the load cases.

    Attributes
    ----------
    machine : WorkedMachine
    part : str
    field : str
        Dotted name of their thread.
    bolt : Drawn
    pull : array
    share : Given
        Of the pull that a bolt feels beyond its preload, and where that came from.
    more : sequence of Change
        What may mend it besides other bolts.
    how : callable
        Given the place of a load case, how the pull was worked out.
    tells : callable
        Given that and what writes a number, what pulls.
    """

    machine: WorkedMachine
    part: str
    field: str
    bolt: Drawn
    pull: Array
    share: Given
    more: Sequence[Change]
    how: Callable[[int], list[Working]]
    tells: Callable[[int, Say], str]

    def checks(self) -> list[Check]:
        """Whether they stay tight, do not stretch, and do not tire."""
        return [self._tight(), self._straight(), self._lasting()]

    def _larger(self, over: float) -> list[Change]:
        return larger_bolts(self.field, self.bolt.name, over)

    def _stronger(self, over: float) -> list[Change]:
        return stronger_class(self.machine.spec.frame, over, self.machine.system)

    def _tight(self) -> Check:
        """Whether what they clamp never parts."""
        machine, safety = self.machine, self.machine.spec.safety.shaft_in_jam

        def mends(i: int) -> list[Change]:
            over = float(self.pull[i] * safety / self.bolt.least)
            return [
                *self._larger(over),
                *self._stronger(over),
                *self.more,
                *calmer(machine, i, over),
            ]

        return make_check(
            machine,
            "frame",
            self.part,
            "joint does not part in a jam",
            where=machine.load_cases.jammed,
            demand=self.pull,
            capacity=self.bolt.least,
            unit="N",
            safety=safety,
            working=lambda i: [
                *self.how(i),
                worked_preload(machine.spec.frame, self.bolt, self.field),
            ],
            source="Shigley 10th ed., eq. 8-30, all of the pull taken off the plates (from memory)",
            reason=self.tells,
            fix=mends,
        )

    def _straight(self) -> Check:
        """Whether the most drawn-up of them does not yield."""
        machine, safety = self.machine, self.machine.spec.safety.shaft_in_jam
        felt, bolt = self.share[0] * self.pull, self.bolt

        def mends(i: int) -> list[Change]:
            if bolt.room <= 0:
                return []
            over = float(felt[i] * safety / bolt.room)
            return [
                *self._larger(over),
                *self._stronger(1.0),
                *self.more,
                *calmer(machine, i, over),
            ]

        return make_check(
            machine,
            "frame",
            self.part,
            "bolts do not stretch in a jam",
            where=machine.load_cases.jammed,
            demand=felt,
            capacity=bolt.room,
            unit="N",
            safety=safety,
            working=lambda i: [
                *self.how(i),
                worked(
                    "F_b = C*P",
                    float(felt[i]),
                    "N",
                    C=self.share,
                    P=(float(self.pull[i]), "N", "above"),
                ),
                self._worked_room(),
            ],
            source="Shigley 10th ed., eq. 8-29, to yield and with the highest preload (from memory)",
            reason=self.tells,
            fix=mends,
            note=lambda i, say: (
                "Drawn up as hard as frame.preload_share and frame.preload_scatter say, they may yield at the wrench: "
                "draw them up less, or measure how true the wrench is."
                if bolt.room <= 0
                else ""
            ),
        )

    def _lasting(self) -> Check:
        """Whether they last, the pull coming and going with every turn."""
        machine, bolt = self.machine, self.bolt
        safety = machine.spec.safety.shaft_fatigue
        swing = self.share[0] * self.pull / (2 * bolt.area)
        endures = float(bolt_endurance.formula(bolt.diameter))
        return make_check(
            machine,
            "frame",
            self.part,
            "bolts do not tire",
            where=machine.load_cases.mixing,
            demand=swing,
            capacity=endures,
            unit="MPa",
            safety=safety,
            working=lambda i: [
                *self.how(i),
                worked(
                    "sigma_a = C*P/(2*A_s)",
                    float(swing[i]),
                    "MPa",
                    C=self.share,
                    P=(float(self.pull[i]), "N", "above"),
                    A_s=(
                        bolt.area,
                        "mm**2",
                        f"data/tables/threads.csv, {bolt.name}: stress area",
                    ),
                ),
                self._worked_endurance(endures),
            ],
            source="VDI 2230 part 1, thread rolled before hardening (from memory); swing: Shigley 10th ed., eq. 8-35 in its form",
            reason=lambda i, say: self.tells(i, say) + ", coming and going at every turn",
            fix=lambda i: [
                *self._larger(float(swing[i] * safety / endures)),
                *self.more,
                *LIGHTER,
            ],
        )

    def _worked_room(self) -> Working:
        bolt, frame = self.bolt, self.machine.spec.frame
        row = f"data/tables/bolt_classes.csv, {frame.bolt_class}"
        return worked(
            "F_max = (R_e - (1 + s)*c*R_p)*A_s",
            bolt.room,
            "N",
            R_e=(bolt.yields, "MPa", f"{row}: yield strength"),
            s=(frame.preload_scatter, "", "frame.preload_scatter"),
            c=(frame.preload_share, "", "frame.preload_share"),
            R_p=(bolt.proof, "MPa", f"{row}: proof strength"),
            A_s=(bolt.area, "mm**2", f"data/tables/threads.csv, {bolt.name}: stress area"),
        )

    def _worked_endurance(self, endures: float) -> Working:
        return worked(
            "sigma_A = 0.85*(150*d_1/d + 45)*p_1",
            endures,
            "MPa",
            d=(self.bolt.diameter, "mm", f"data/tables/threads.csv, {self.bolt.name}: diameter"),
            d_1=(1.0, "mm", "unit of the formula's diameter"),
            p_1=(1.0, "MPa", "unit of what it gives"),
        )
