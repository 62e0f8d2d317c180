"""What can be built and will not be what was asked for: soft pattern in the edge, layers too thin, too few heats."""

from __future__ import annotations

from collections.abc import Iterator
from math import pi
from typing import Final

from plans.billets import Meeting, carbon_left, layer_thickness, stages
from plans.maker.making import Making
from plans.maker.settled import EDGED
from plans.maker.welding import weld_heat, weld_soak
from plans.maker.why import Concern
from plans.making import ALL_PATTERN, Build, Part, What
from plans.press import usual_reduction
from plans.reader import AnswerKeys
from plans.units import Units

LEAST_LAYER: Final = 10e-6
"""Thinner layers can't be told apart on a blade, some 500 of them in 5 mm [m]: common practice, no source."""
LEAST_AIR: Final = 1 - pi / 12**0.5
"""Share of a bundle of round wires that is air, laid as close as they can be: plane geometry."""
FAR_OFF: Final = 2.0
"""A heat that takes off so many times the most that is usual is not to be had."""


def doubts_of(making: Making, answers: AnswerKeys) -> Iterator[Concern]:
    """What won't be as it was asked for, in how a piece is built.

    Args:
        making: the piece
        answers: what was answered
    """
    yield from _soft_pattern(making)
    yield from _thin_layers(making)
    yield from _bundle(making, answers)
    yield from _few_heats(answers)


def _soft_pattern(making: Making) -> Iterator[Concern]:
    """Steels of a pattern that reaches the edge and that no quench hardens."""
    of, steels = making.of, making.steels
    soft = [one.name for one in steels.all if not one.hardens]
    if of.build not in ALL_PATTERN or of.what not in {*EDGED, What.WEDGE} or not of.has(Part.HARDEN):
        return
    if not soft or steels.hard is None:  # where none hardens, the quench says so
        return
    what = (
        f"{' and '.join(soft)} does not harden, and lies in the edge with {steels.hard.name}: it wears and bends there"
    )
    mend = "take a second steel that hardens, such as 15N20; or lay an edge on it, or make it a core between jackets"
    yield Concern("pattern", what, mend, True)


def _thin_layers(making: Making) -> Iterator[Concern]:
    of = making.of
    if of.build is not Build.FOLDED:
        return
    layer = layer_thickness(of.thickness, of.pieces, of.folds, 2, Meeting.LIKE).value
    if layer >= LEAST_LAYER:
        return
    welds = [stage for stage in making.run.stages if stage.move.part is Part.FOLD_WELD]
    thick = welds[0].section.thickness
    seconds = weld_soak(thick, first=True).value * welds[0].move.heats
    heat = weld_heat(making.steels).heat_to.value
    left = carbon_left(stages(of.pieces, of.folds, 2, Meeting.LIKE, thick), heat, seconds).value

    def what(units: Units) -> str:
        differ = f"of what they differ by in carbon {100 * left:.0f} % is left"
        return f"layers of {units.depth(layer)} can't be told apart any more, and {differ}: it is one grey steel"

    yield Concern("folds", what, "fold it less often, or begin with fewer pieces", True)


def _bundle(making: Making, answers: AnswerKeys) -> Iterator[Concern]:
    of = making.of
    if of.build is not Build.BUNDLE:
        return
    if len(of.steels) > 1:
        first, *others = of.steels
        both = " and ".join(of.steels)
        what = f"a cable is of one steel; of {both} it is a canister, and its bar here is called {first}"
        mend = f"for a cable give its one steel; for a canister weigh {' and '.join(others)} out beside {first}"
        yield Concern("pattern", what, mend)
    if answers.loss is not None and answers.loss < LEAST_AIR:
        air = f"{100 * LEAST_AIR:.0f} %"
        what = f"round wires laid as close as they can be are {air} air, and scale and ends are lost besides"
        yield Concern("loss", what, "count on 30 to 40 %", True)


def _few_heats(answers: AnswerKeys) -> Iterator[Concern]:
    most = usual_reduction(answers.struck_by).most
    share = answers.reduction
    if share is None or most is None or share <= most:
        return
    what = (
        f"{100 * share:.0f} % of the area a heat is more than a {answers.struck_by.value} takes off, {100 * most:.0f} %"
        " at most: there will be more heats than the plan has, and more scale"
    )
    yield Concern("reduction", what, "give what your own heats take off, or leave it open", share > FAR_OFF * most)
