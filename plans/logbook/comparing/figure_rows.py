"""Figures of several sittings beside one another, and which of them differ by more than can be told."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from plans.logbook.afterwards import with_later
from plans.logbook.comparing.same_steps import same_steps
from plans.logbook.comparing.told_apart import differs
from plans.logbook.figures import Fuel, HeatFigures
from plans.logbook.kept_sitting import KeptSitting
from plans.logbook.lines import What
from plans.measured import Measured
from plans.plan import StepKind
from plans.record import record
from plans.sitting import folded, length, measured_at_ends


@record
class Row:
    """One figure of every sitting that is compared."""

    name: str
    """What it is."""
    what: What
    """What kind of figure, and so how it is printed."""
    values: tuple[float | str | None, ...]
    """What each sitting has there, in SI, or a word; None where it has none, or nobody knows it."""
    currency: str = ""
    """Of an amount of money its currency; empty for all else."""

    @property
    def differs(self) -> tuple[bool, ...]:
        """Whether each sitting differs from the first by more than can be told."""
        return tuple(differs(self.what, self.values[0], value) for value in self.values)


@record
class Part:
    """The figures of one step, or of the sittings as a whole."""

    titles: tuple[str, ...]
    """The step's title in the plan of each sitting, the first one's where one has no such step; empty for the whole."""
    kind: StepKind | None
    """What kind of work it is; None for the whole."""
    steps: tuple[int | None, ...]
    """Its number in each sitting, from 0; None where that has no such step, and for the whole."""
    rows: tuple[Row, ...]
    """Its figures, those left out that no sitting has."""

    @property
    def title(self) -> str:
        """What it is called; empty for the whole."""
        return self.titles[0] if self.titles else ""


def side_by_side(sittings: Sequence[KeptSitting]) -> list[Part]:
    """The figures of sittings beside one another: first the whole, then step by step, as `same_steps` has them."""
    every = [None if kept.figures is None else kept.figures.heats for kept in sittings]
    ends = [folded(kept.log.events) for kept in sittings]
    took = tuple(length(state, kept.left_at) for state, kept in zip(ends, sittings, strict=True))
    burnt = [Fuel.burnt(kept.header.burns, state, kept.left_at) for state, kept in zip(ends, sittings, strict=True)]
    whole = [Row("took", What.TIME, took), *_rows(every), *_burnt_rows(burnt)]
    parts = [Part((), None, (None,) * len(sittings), tuple(whole))]
    by_hand = [
        measured_at_ends(with_later(state, kept.measured_later)) for state, kept in zip(ends, sittings, strict=True)
    ]
    for same in same_steps(sittings):
        rows = _rows([None if step is None else step.heats for step in same.steps])
        found = (
            None if number is None else of_one.get(number) for of_one, number in zip(by_hand, same.numbers, strict=True)
        )
        rows += _measured_rows([None if one is None else one.measured for one in found])
        if rows:
            parts.append(Part(same.titles, same.kind, same.numbers, tuple(rows)))
    return parts


_Heats = Sequence[HeatFigures]


def _together(time: Callable[[HeatFigures], float]) -> Callable[[_Heats], float | None]:
    return lambda heats: sum(map(time, heats))


def _of_known(
    choose: Callable[[list[float]], float], value: Callable[[HeatFigures], float | None]
) -> Callable[[_Heats], float | None]:
    def chosen(heats: _Heats) -> float | None:
        known = [one for one in map(value, heats) if one is not None]
        return choose(known) if known else None

    return chosen


_FIGURES: Final[tuple[tuple[str, What, Callable[[_Heats], float | None]], ...]] = (
    ("heats", What.COUNT, lambda heats: sum(heat.is_done for heat in heats)),
    ("not done", What.COUNT, lambda heats: sum(not heat.is_done for heat in heats)),
    ("in fire", What.TIME, _together(lambda heat: heat.in_fire)),
    ("soak", What.TIME, _together(lambda heat: heat.soak)),
    ("struck", What.TIME, _together(lambda heat: heat.strike)),
    ("too cold", What.SHORT_TIME, _together(lambda heat: heat.too_cold)),
    ("air", What.TIME, _together(lambda heat: heat.air)),
    ("held", What.TIME, _together(lambda heat: heat.hold)),
    ("peak", What.TEMPERATURE, _of_known(max, lambda heat: heat.peak)),
    ("leaving, coolest", What.TEMPERATURE, _of_known(min, lambda heat: heat.leaving)),
    ("lowest struck", What.TEMPERATURE, _of_known(min, lambda heat: heat.lowest_struck)),
)


def _rows(heats: Sequence[_Heats | None]) -> list[Row]:
    rows = []
    for name, what, value in _FIGURES:
        values = tuple(None if of_one is None else value(of_one) for of_one in heats)
        if any(values):
            rows.append(Row(name, what, values))
    return rows


_BY_HAND: Final[tuple[tuple[str, What, Callable[[Measured], float | str | None]], ...]] = (
    ("measured width", What.LENGTH, lambda measured: measured.width),
    ("measured thickness", What.LENGTH, lambda measured: measured.thickness),
    ("measured length", What.LENGTH, lambda measured: measured.length),
    ("measured bevel", What.LENGTH, lambda measured: measured.bevel),
    ("measured weight", What.WEIGHT, lambda measured: measured.mass),
    ("measured hardness", What.HARDNESS, lambda measured: measured.hardness),
    ("a file", What.WORD, lambda measured: measured.file or None),
    ("measured decarb", What.DEPTH, lambda measured: measured.decarb),
)


def _measured_rows(measured: Sequence[Measured | None]) -> list[Row]:
    """What was measured by hand at the end of a step."""
    rows = [
        Row(name, what, tuple(None if one is None else value(one) for one in measured))
        for name, what, value in _BY_HAND
    ]
    return [row for row in rows if any(row.values)]


def _burnt_rows(burnt: Sequence[Fuel | None]) -> list[Row]:
    """What was weighed, what was metered, and what it cost in each currency."""
    rows = [
        Row("fuel", What.MASS, tuple(None if one is None else one.mass for one in burnt)),
        Row("fuel", What.GAS, tuple(None if one is None else one.volume for one in burnt)),
    ]
    for currency in dict.fromkeys(one.rate.currency for one in burnt if one is not None):
        costs = (one.cost if one is not None and one.rate.currency == currency else None for one in burnt)
        rows.append(Row("fuel cost", What.MONEY, tuple(costs), currency))
    return [row for row in rows if any(row.values)]
