"""The beginning: ten questions, a draft of a whole machine from the answers, and that machine on the bench."""

from __future__ import annotations

import json
from html import escape

import ipywidgets as widgets

from mixerkit.design import Design
from mixerkit.explore.draft.brief import parse_brief
from mixerkit.explore.draft.drafting import best_of
from mixerkit.machine import Machine
from mixerkit.shop.workshop import Workshop
from mixerkit.show.bodyplots import cut_open
from mixerkit.show.drafted import against, main_sizes, read_anew, to_buy, unmet
from mixerkit.show.panels.bench import Bench, styled
from mixerkit.show.panels.desk import Desk
from mixerkit.show.panels.panel import verdict_words
from mixerkit.show.panels.whole_machine import whole_machine
from mixerkit.show.style import as_image
from mixerkit.show.testplots import clay_tests
from mixerkit.tables import table
from mixerkit.textfiles import read_text
from mixerkit.units import InputError
from mixerkit.written import write_all

__all__ = ["Beginning", "begin"]

BRIEF = "my_brief.toml"
_SOCKETS = {
    "230 V, 10 A, 50 Hz": ("230 V", "50 Hz", 1, "10 A"),
    "230 V, 13 A, 50 Hz": ("230 V", "50 Hz", 1, "13 A"),
    "230 V, 16 A, 50 Hz": ("230 V", "50 Hz", 1, "16 A"),
    "400 V three-phase, 16 A, 50 Hz": ("400 V", "50 Hz", 3, "16 A"),
    "120 V, 15 A, 60 Hz": ("120 V", "60 Hz", 1, "15 A"),
    "120 V, 20 A, 60 Hz": ("120 V", "60 Hz", 1, "20 A"),
    "240 V, 20 A, 60 Hz": ("240 V", "60 Hz", 1, "20 A"),
}
"""Sockets that are usual, with voltage, frequency, phases and current (common practice)."""
_TESTS = {
    "cone": ("clay.cone_penetration", "6 mm"),
    "rod": ("clay.rod_load", "22 N"),
    "vane": ("clay.vane_torque", "1.6 N*m"),
}
"""Bench tests: the reading's field, and an example."""
_BY_NAME = "known by name"


class Beginning(Desk):
    """Ten questions and what is drafted from the answers.

    Parameters
    ----------
    bench : Bench
        The drafted machine is laid on it.
    """

    def __init__(self, bench: Bench) -> None:
        self._begin(bench)
        self.fields = _fields()
        self._said, self._machine = widgets.HTML(), widgets.HTML()
        self._knobs = widgets.VBox()
        self.buttons = (
            self._button(
                "Draft my machine", self._draft, "work out a whole machine from these answers"
            ),
            self._button("Keep this machine", self._keep, f"write it to {bench.path.name}"),
            self._button("Show the demo", self._demo, "lay the demo machine on the bench"),
        )
        self.fields["clay"].observe(lambda _: self._ask_reading(), names="value")
        questions = widgets.VBox([*self.fields.values()], layout={"flex": "0 0 auto"})
        picture = widgets.HTML(
            as_image(clay_tests(), "cone, rod and vane in clay"), layout={"flex": "0 1 340px"}
        )
        top = widgets.HBox([questions, picture], layout={"flex_flow": "row wrap"})
        super().__init__(
            [top, widgets.HBox(self.buttons), self._status, self._said, self._machine, self._knobs]
        )
        self._ask_reading()
        # the demo is laid out when it is asked for, the maker's own file always
        self._shown = bench.path.exists() and not bench.fault
        self._show()
        self._stand(bench)

    def _ask_reading(self) -> None:
        way, reading = self.fields["clay"].value, self.fields["reading"]
        if way == _BY_NAME:
            names = ", ".join(f'"{row.name}"' for row in table("clay_bodies"))
            reading.description, reading.placeholder = "4 Its name", names
        else:
            reading.description, reading.placeholder = "4 Reading", _TESTS[way][1]

    def brief(self) -> str:
        """The answers as the text of a brief.

        Returns
        -------
        str
        """
        answers = {name: str(one.value).strip() for name, one in self.fields.items()}
        voltage, frequency, phases, current = _SOCKETS[answers["socket"]]
        lines: dict[str, list[str]] = {"": [], "batch": [], "clay": [], "supply": []}

        def say(dotted: str, value: object) -> None:
            where, _, name = dotted.rpartition(".")
            lines.setdefault(where, []).append(f"{name} = {json.dumps(value, ensure_ascii=False)}")

        if answers["units"] == "inch":
            say("show_units", "inch")
        say("batch.mass", answers["mass"])
        if answers["clay"] == _BY_NAME:
            say("clay.strength_from", "named body")
            say("clay.body", answers["reading"])
        else:
            say("clay.strength_from", answers["clay"])
            say(_TESTS[answers["clay"]][0], answers["reading"])
        say("supply.voltage", voltage)
        say("supply.frequency", frequency)
        say("supply.phases", phases)
        say("supply.socket_current", current)
        for dotted, name in _OPTIONAL.items():
            if answers[name]:
                say(dotted, _number(answers[name]) if dotted == "reducer.ratio" else answers[name])
        speeds = [one.strip() for one in answers["speed"].split("to") if one.strip()]
        if speeds:
            say("want.speed", [f"{one.removesuffix('rpm').strip()} rpm" for one in speeds])
        return "\n".join(
            "\n".join([f"[{where}]"] * bool(where) + rows) + "\n"
            for where, rows in lines.items()
            if rows
        )

    def _progress(self, words: str) -> None:
        self._says(f"{words} ...")

    def _draft(self) -> None:
        text, shop = self.brief(), self._own_shop()
        brief = parse_brief(text, BRIEF)
        found = best_of(brief, shop, self._progress)
        if found is None:
            raise InputError(
                "no whole machine can be written with these answers; leave sizes out that need not be so."
            )
        self._write_brief(text)
        if found.badness > 0:
            said = list(against(brief, found, shop, self._progress))
            self._says("")
            self._said.value = _lines(said)
            return
        _, drafted = read_anew(brief, found, self._bench.path.name)
        self._shown = True
        self._bench.lay(drafted.design)
        self._said.value = _lines(
            [
                *main_sizes(drafted),
                *to_buy(brief, drafted),
                *unmet(drafted),
                f"{len(found.reasons)} values were drafted, each with its reason in the file.",
                f"Your answers stand in {BRIEF}; Keep this machine writes {self._bench.path.name}.",
            ]
        )
        self._says("")

    def _own_shop(self) -> Workshop | None:
        return None if self._bench.beside.demos_shop else self._bench.shop

    def _write_brief(self, text: str) -> None:
        folder = self._bench.path.parent
        there = folder / BRIEF
        before = {f"{BRIEF}.previous": read_text(there, missing="")} if there.exists() else {}
        write_all(folder, {**before, BRIEF: text})

    def _keep(self) -> None:
        if not self._shown:
            raise InputError(
                "nothing is drafted yet: answer the questions and press Draft my machine."
            )
        self._bench.keep()
        self._says(f"kept in {self._bench.path.name}")

    def _demo(self) -> None:
        self._shown = True
        self._said.value = ""
        self._bench.lay(Design.demo())

    def _show(self) -> None:
        machine = self._bench.machine
        self._machine.value = _whole(machine) if self._shown else ""
        if self._shown and not self._knobs.children:
            self._knobs.children = (whole_machine(self._bench),)

    def __repr__(self) -> str:
        asked = "\n".join(f"{one.description}: {one.value}" for one in self.fields.values())
        return f"{asked}\n{verdict_words(self._bench.machine)}" if self._shown else asked

    def _repr_mimebundle_(self, **kwargs: object) -> dict[str, object]:
        """Give the live view, and a still one for readers without a kernel."""
        rows = "".join(
            f"<tr><td>{escape(one.description)}</td><td>{escape(str(one.value))}</td></tr>"
            for one in self.fields.values()
        )
        still = styled(f"<table>{rows}</table>") + self._machine.value
        return self._still(repr(self), still, super()._repr_mimebundle_(**kwargs))


_OPTIONAL = {
    "motor.rated_power": "motor",
    "motor.rated_speed": "motor_speed",
    "reducer.ratio": "ratio",
    "reducer.output_bore": "bore",
    "shaft_1.diameter": "bar",
    "paths.direct.module": "module",
}
"""Fields that may be answered or left to be drafted, and whose answer fills them."""


def _number(text: str) -> object:
    """A plain number, or the text as it is, to be refused in words."""
    try:
        return float(text.removesuffix(": 1").removesuffix(":1"))
    except ValueError:
        return text


def _fields() -> dict[str, widgets.Widget]:
    """The questions, in the order in which they are asked."""

    def text(words: str, value: str, example: str = "") -> widgets.Text:
        return widgets.Text(value=value, description=words, placeholder=example, **_WIDE)

    def one_of(words: str, options: list[str]) -> widgets.Dropdown:
        return widgets.Dropdown(options=options, description=words, **_WIDE)

    return {
        "units": one_of("1 Units on sheets", ["metric", "inch"]),
        "mass": text("2 One bag", "15 kg", "15 kg or 25 lb"),
        "clay": one_of("3 Clay tested by", [*_TESTS, _BY_NAME]),
        "reading": text("4 Reading", "6 mm"),
        "socket": one_of("5 Socket", list(_SOCKETS)),
        "motor": text("6 Motor there: power", "", "none, or 1.5 kW"),
        "motor_speed": text("   and its speed", "", "1420 rpm"),
        "ratio": text("7 Box there: ratio", "", "none, or 60"),
        "bore": text("   and its bore", "", "45 mm, measured"),
        "bar": text("8 Bar there", "", "none, or 45 mm"),
        "module": text("9 Gear cutters", "", "any, or 4 mm, or 6 / in"),
        "speed": text("10 Speed wanted", "", "any, or 25 to 40 rpm"),
    }


_WIDE = {"layout": {"width": "430px"}, "style": {"description_width": "170px"}}


def _lines(said: list[str]) -> str:
    return styled("".join(f"<div>{escape(one)}</div>" for one in said))


def _whole(machine: Machine) -> str:
    """The whole machine as a picture, and its verdict."""
    picture = as_image(cut_open(machine), "both shafts cut open, from above")
    return picture + styled(f"<div><b>{escape(verdict_words(machine))}</b></div>")


def begin(bench: Bench) -> Beginning:
    """Ask what is there and wanted, and draft a whole machine from the answers.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Beginning
    """
    return Beginning(bench)
