"""All that the sittings of a shop teach, a row for each thing: what it is, what it rests on, what heatbook goes by."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import datetime
from math import exp, log
from statistics import median
from typing import Any, Final, TypeVar

from plans.logbook.lines import shown_spread
from plans.logbook.taught.combining import combined
from plans.logbook.taught.evidence import FEWEST, Evidence, Forgotten, drawn_that_counts, still_counts
from plans.logbook.taught.figures import FactorFigure, Figure, RangeFigure, SoakFigure, rests_text
from plans.logbook.taught.going_by import as_drawn, loss_to_go_by, reduction_to_go_by
from plans.logbook.taught.losses import loss, losses_that_count, spread, spread_that_counts
from plans.logbook.taught.names import (
    CONTACT_ROW,
    COOLING_ROW,
    LOSS_ROW,
    SPREAD_ROW,
    heats_row,
    reduction_row,
    soak_row,
)
from plans.logbook.teaching import FactorTaught, StepDrawn
from plans.press import usual_reduction
from plans.prose import in_units
from plans.record import record
from plans.shop import KEYS, Shop
from plans.stock import USUAL_SCALE
from plans.units import Units

_Item = TypeVar("_Item")


@record
class Row:
    """One thing that the sittings of a shop teach."""

    id: str
    """By which it is forgotten, e.g. `cooling-factor`: small letters, figures and hyphens."""
    name: str
    """What it is; a section in it stands in braces."""
    figure: Figure | None
    """What it comes to; None where there are too few sittings to say."""
    sittings: int
    """Sittings that it rests on."""
    count: int
    """How many of what is counted they have."""
    noun: str
    """What is counted: stay, step, weld."""
    first: datetime
    """When the first of the sittings began."""
    last: datetime
    """When the last of them began."""
    in_use: str
    """What heatbook goes by now, in words."""
    key: str = ""
    """The key of the shop file that it can be kept under; empty where heatbook goes by no figure of that file there."""

    def called(self, units: Units) -> str:
        """What it is, in the units that are set."""
        return in_units(self.name, units)

    @property
    def text(self) -> str:
        """What it comes to, or that there are too few sittings: "too few: 2 of 4 sittings"."""
        return f"too few: {self.sittings} of {FEWEST} sittings" if self.figure is None else self.figure.text

    @property
    def rests(self) -> str:
        """What it rests on."""
        return rests_text(self.sittings, self.count, self.noun, f"{self.first:%Y-%m-%d}", f"{self.last:%Y-%m-%d}")

    def to_record(self) -> dict[str, Any]:
        """It as a JSON object."""
        return {
            "row": self.id,
            "name": in_units(self.name, Units.METRIC),
            "taught": None if self.figure is None else self.figure.to_record(),
            "fewest_sittings": FEWEST,
            "sittings": self.sittings,
            f"{self.noun}s": self.count,
            "first": self.first.isoformat(timespec="seconds"),
            "last": self.last.isoformat(timespec="seconds"),
            "in_use": self.in_use,
        }


@record
class Looked:
    """What rows are made of."""

    every: Sequence[Evidence]
    """What the sittings teach, the oldest first."""
    shop: Shop
    """What the shop file says."""
    forgotten: Forgotten
    """What of it was forgotten."""
    gone_by: Sequence[Evidence] = ()
    """What heatbook reckons with: that of the sittings which are not archived."""

    def counts(self, row: str) -> list[Evidence]:
        """The sittings that count for a row."""
        return [one for one in self.every if still_counts(one, row, self.forgotten)]


def taught(looked: Looked) -> list[Row]:
    """The rows of all that sittings teach; none of what no sitting that counts tells anything."""
    return [row for make in ROWS for row in make(looked)]


def _factor(
    row: str, key: str, name: str, of: Callable[[Evidence], FactorTaught | None]
) -> Callable[[Looked], Iterator[Row]]:
    """Rows of a factor on the warm model.

    Sittings with a single stay do not count: nobody knows how far off they are.
    """

    def rows(looked: Looked) -> Iterator[Row]:
        told = [
            (one, factor.value, shown_spread(factor.spread), factor.stays)
            for one in looked.counts(row)
            if (factor := of(one)) is not None and factor.spread is not None
        ]
        if not told:
            return
        figure = None
        if len(told) >= FEWEST:
            # A factor of twice is as far off as one of a half: their logarithms are put together.
            all_told = combined(
                [log(value) for _, value, _, _ in told], [spread / value for _, value, spread, _ in told]
            )
            value = exp(all_told.mean)
            figure = FactorFigure(value, value * all_told.of_one_more)
        stays = sum(count for *_, count in told)
        yield _row(row, name, figure, [one for one, *_ in told], stays, "stay", _factor_in_use(looked.shop, key), key)

    return rows


def _factor_in_use(shop: Shop, key: str) -> str:
    value: float = getattr(shop, KEYS[key].attribute)
    spread: float | None = next(getattr(shop, one.attribute) for one in KEYS.values() if one.spread_of == key)
    if value == 1 and spread is None:
        return "1.00, as it ships"
    return f"{value:.2f}{'' if spread is None else f' +- {shown_spread(spread):.2f}'}, the shop file"


def _reductions(looked: Looked) -> Iterator[Row]:
    """What a heat takes off, by kind of step and tool."""
    told = drawn_that_counts(looked.every, looked.forgotten)
    for row, steps in _grouped(told, lambda one: reduction_row(one[1])).items():
        shown = steps[0][1]
        learned = reduction_to_go_by(looked.gone_by, looked.forgotten, shown.by)
        tool = f"as measured and planned with a {shown.by.value}"
        in_use = f"{(learned or usual_reduction(shown.by)).value * 100:.0f} %, {tool if learned else 'the usual'}"
        name = f"reduction a heat, {shown.kind.value}, {shown.by.value}"
        yield _of_steps(row, name, steps, lambda step: as_drawn(step).reduction, in_use, is_share=True)


def _heats(looked: Looked) -> Iterator[Row]:
    """How many heats a step takes, by kind of step and tool."""
    told = drawn_that_counts(looked.every, looked.forgotten, heats_row)
    for row, steps in _grouped(told, lambda one: heats_row(one[1])).items():
        shown = steps[0][1]
        name = f"heats a step, {shown.kind.value}, {shown.by.value}"
        yield _of_steps(row, name, steps, lambda step: step.heats, "what the plan says", is_share=False)


def _of_steps(
    row: str,
    name: str,
    steps: Sequence[tuple[Evidence, StepDrawn]],
    value: Callable[[StepDrawn], float],
    in_use: str,
    *,
    is_share: bool,
) -> Row:
    values = [value(step) for _, step in steps]
    figure = RangeFigure(median(values), min(values), max(values), is_share)
    return _row(row, name, figure, [one for one, _ in steps], len(steps), "step", in_use)


def _loss(looked: Looked) -> Iterator[Row]:
    """What a heat takes as scale, by what was measured before and after."""
    told = losses_that_count(looked.every, looked.forgotten)
    if told:
        figure, count = loss([lost for _, lost in told]), sum(len(lost) for _, lost in told)
        learned = loss_to_go_by(looked.gone_by, looked.forgotten)
        in_use = f"{USUAL_SCALE.likely * 100:.0f} %, the usual"
        if learned is not None:
            in_use = f"{learned.value * 100:.1f} %, as measured here"
        yield _row(LOSS_ROW, "loss to scale a heat", figure, [one for one, _ in told], count, "measurement", in_use)


def _spread(looked: Looked) -> Iterator[Row]:
    """How far drawn work comes out wider than planned at its thickness."""
    told = spread_that_counts(looked.every, looked.forgotten)
    if told:
        figure, count = spread([wider for _, wider in told]), sum(len(wider) for _, wider in told)
        name = "wider than planned, when drawn"
        yield _row(SPREAD_ROW, name, figure, [one for one, _ in told], count, "measurement", "what the plan says")


def _soaks(looked: Looked) -> Iterator[Row]:
    """How welds came out, by section."""
    told = [
        (one, weld)
        for one in looked.every
        for weld in one.teaches.welds
        if still_counts(one, soak_row(weld), looked.forgotten)
    ]
    for row, welds in _grouped(told, lambda one: soak_row(one[1])).items():
        sound = [weld.soak for _, weld in welds if not weld.flawed]
        flawed = [weld.soak for _, weld in welds if weld.flawed]
        figure = SoakFigure(len(sound), len(flawed), min(sound, default=None), max(flawed, default=None))
        name = f"soak and welds, {{{welds[0][1].section}}}"
        yield _row(row, name, figure, [one for one, _ in welds], len(welds), "weld", "what the plan says")


def _row(
    row: str,
    name: str,
    figure: Figure | None,
    told: Sequence[Evidence],
    count: int,
    noun: str,
    in_use: str,
    key: str = "",
) -> Row:
    began = sorted({one.started for one in told})
    said = figure if len(began) >= FEWEST else None
    return Row(row, name, said, len(began), count, noun, began[0], began[-1], in_use, key)


def _grouped(items: Iterable[_Item], by: Callable[[_Item], str]) -> dict[str, list[_Item]]:
    found: dict[str, list[_Item]] = {}
    for item in items:
        found.setdefault(by(item), []).append(item)
    return dict(sorted(found.items()))


ROWS: Final[tuple[Callable[[Looked], Iterator[Row]], ...]] = (
    _factor(COOLING_ROW, "cooling_factor", "cooling in air, factor", lambda one: one.teaches.cooling),
    _factor(CONTACT_ROW, "contact_factor", "contact with the anvil, factor", lambda one: one.teaches.contact),
    _reductions,
    _heats,
    _loss,
    _spread,
    _soaks,
)
"""What makes the rows, in their order: one more is a line here."""
