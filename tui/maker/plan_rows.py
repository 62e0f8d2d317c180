"""The plan as a list: its head, its bars and its steps, with section and length, volume and time running along."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import accumulate
from typing import Final

from textual.content import Content
from textual.widgets.option_list import Option

from plans.plan import Bar, Plan, Step, StepKind
from plans.prose import in_units
from plans.shapes import Section
from plans.stock import PlanVolume, through
from plans.text import plain
from plans.times import PlanTimes
from plans.toml import KeyPath
from plans.units import Units
from tui.widgets import fill

_WIDE: Final = 110
"""Cells from which on a row says section and length before a step as well as after it."""
_TITLE: Final = 18
"""Cells that a title has at least."""
_WIDEST: Final = 60
"""Cells that it has at most: no title is longer, and its figures are not to stand far away."""
HEAD: Final[KeyPath] = ()
"""What the row of the plan's head is of."""


class PlanRows:
    """The rows of a plan for a list of a width.

    Args:
        plan: the plan
        times: what it takes; None while that is worked out
        units: in which figures are shown
        width: cells of a row
    """

    def __init__(self, plan: Plan, times: PlanTimes | None, units: Units, width: int) -> None:
        self._plan, self._units, self._width = plan, units, width
        self._volume = _volumes(through(plan))
        self._clock = _clocks(plan, times)
        self._columns = _wide(units) if width >= _WIDE else _narrow(units)
        self._title = min(_WIDEST, max(_TITLE, width - 4 - sum(size + 1 for _, size in self._columns)))

    @property
    def heading(self) -> str:
        """What stands above the columns."""
        return f"    {fill('', self._title)}" + "".join(f" {name:>{size}}" for name, size in self._columns)

    @property
    def options(self) -> list[Option]:
        """The rows; what each is of, `part_of` tells from its id."""
        plan = self._plan
        head = Option(Content.assemble("    ", (plain(in_units(plan.title, self._units)), "bold")), id=_id(HEAD))
        bars = [Option(self._bar(bar), id=_id(("bar", number))) for number, bar in enumerate(plan.bars)]
        steps = [Option(self._step(number), id=_id(("step", number))) for number in range(len(plan.steps))]
        return [head, *bars, *steps]

    def _bar(self, bar: Bar) -> Content:
        units = self._units
        text = f"{units.section(bar.section)}, {units.length(bar.length)} of {plain(bar.steel)}"
        return Content.assemble("    ", ("bar  ", "$text-muted"), plain(in_units(bar.name, units)), f"  {text}")

    def _step(self, number: int) -> Content:
        step, units = self._plan.steps[number], self._units
        cells = {
            "heats": "" if step.kind is StepKind.BENCH else str(step.heats),
            "from": _section(step.section, units) if step.heats_in_fire else "",
            "to": _section(_after(step), units),
            "long": _long(step, units, both=self._width >= _WIDE),
            "fire": "" if not step.targets else units.degrees(step.targets[-1].fire),
            "heat to": "" if not step.targets else units.degrees(step.targets[-1].heat_to),
            "runs": self._clock.get(number, ""),
            "steel": self._volume.get(number, ""),
        }
        title = fill(plain(in_units(step.title, units)), self._title)
        figures = "".join(f" {fill_left(cells[_KEYS[name]], size)}" for name, size in self._columns)
        return Content.assemble((f"{number + 1:>3} ", "$text-muted"), title, (figures, "$text-muted"))


_KEYS: Final[Mapping[str, str]] = {
    "heats": "heats",
    "from": "from",
    "to": "to",
    "long": "long",
    "mm": "long",
    "in": "long",
    "fire": "fire",
    "degC": "heat to",
    "degF": "heat to",
    "time": "runs",
    "steel": "steel",
}


def _wide(units: Units) -> list[tuple[str, int]]:
    return [
        *(("heats", 5), ("from", 18), ("to", 18), (units.length_unit, 13), ("fire", 5)),
        *((units.degree, 5), ("time", 6), ("steel", 5)),
    ]


def _narrow(units: Units) -> list[tuple[str, int]]:
    return [("heats", 5), ("to", 15), (units.length_unit, 6), (units.degree, 4), ("time", 5), ("steel", 5)]


def part_of(row: str) -> KeyPath:
    """The part of the plan that a row is of, as the path of its table: ("step", 2); `HEAD` for the plan's head."""
    part, _, number = row.partition(" ")
    return (part, int(number)) if number else HEAD


def _id(path: KeyPath) -> str:
    return " ".join(str(one) for one in path) or "head"


def row_of(path: KeyPath) -> str:
    """What the row of a part of the plan is called."""
    return _id(path)


def fill_left(text: str, width: int) -> str:
    """A text set to the right of so many cells; its beginning where there is no room."""
    return text.rjust(width) if len(text) <= width else text[: width - 1] + "…"


def _after(step: Step) -> Section | None:
    return (step.reach or step.section) if step.heats_in_fire else None


def _section(section: Section | None, units: Units) -> str:
    if section is None:
        return ""
    return units.section(section).removesuffix(f" {units.length_unit}")


def _long(step: Step, units: Units, *, both: bool) -> str:
    if not step.heats_in_fire:
        return ""
    before, after = step.length, step.reach_length or step.length
    if both and before is not None and after is not None and before != after:
        return f"{_bare(before, units)} > {_bare(after, units)}"
    return "" if after is None else _bare(after, units)


def _bare(length: float, units: Units) -> str:
    return units.length(length).removesuffix(f" {units.length_unit}")


def _volumes(volume: PlanVolume | None) -> dict[int, str]:
    """What of the stock each step ends with, in per cent."""
    if volume is None:
        return {}
    return {one.step: f"{100 * one.ends / volume.stock:.0f} %" for one in volume.steps}


def _clocks(plan: Plan, times: PlanTimes | None) -> dict[int, str]:
    """The time in the fire that has come together by the end of each step that has a fire: "1:07" in hours."""
    if times is None:
        return {}
    runs = accumulate(_fire(times, number) for number in range(len(plan.steps)))
    return {number: _hours(seconds) for number, seconds in enumerate(runs) if times.steps[number].heats}


def _fire(times: PlanTimes, number: int) -> float:
    return times.steps[number].in_the_fire or 0.0


def _hours(seconds: float) -> str:
    minutes = round(seconds / 60)
    return f"{minutes // 60}:{minutes % 60:02}"
