"""From the moves of a strand to the steps of a plan: each with its figures and where they come from."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Final

from plans.blows import StruckBy
from plans.maker.hot_work import HotWork, heat_for
from plans.maker.making import Making, layers_at
from plans.maker.marking import marked
from plans.maker.naming import names_for
from plans.maker.proposal import ProposedStep
from plans.maker.steels import Steels
from plans.maker.strand import Move, Run, Stage
from plans.maker.welding import weld_heat, weld_soak, weld_soak_at_most
from plans.maker.why import Chosen, Why, arithmetic, practice
from plans.maker.wording import worded
from plans.making import Part, What
from plans.reader import StepKeys
from plans.record import record
from plans.shapes import Section
from plans.units import Units

_WELDS: Final = {
    Part.SET_WELD: True,
    Part.WELD: False,
    Part.FOLD_WELD: True,
    Part.JOIN_SET: True,
    Part.JOIN: False,
    Part.NOTCH_CLOSE: True,
    Part.FLATTEN: False,
}
"""Parts at welding heat, and whether their seams are open still."""
_HOT: Final = {
    Part.FOLD_DRAW: HotWork.DRAW,
    Part.SQUARE: HotWork.DRAW,
    Part.DRAW: HotWork.DRAW,
    Part.PROOF: HotWork.PROOF,
    Part.TWIST: HotWork.TWIST,
    Part.FOLD_CLOSE: HotWork.THIN,
    Part.BEND: HotWork.BEND,
    Part.BEND_TANGS: HotWork.BEND,
    Part.TANG: HotWork.THIN,
    Part.SECOND_TANG: HotWork.THIN,
    Part.TAPER: HotWork.THIN,
    Part.POINT: HotWork.THIN,
    Part.BEVELS: HotWork.THIN,
    Part.STRAIGHTEN: HotWork.STRAIGHTEN,
}
"""How hot each other part is worked."""
_SOAK_AT_MOST: Final = 240.0
_SOAK_THIN: Final = 180.0


@record(eq=False)
class Left:
    """The work as the file has it after a step."""

    section: Section | None = None
    """Its section; None where the file does not say."""
    length: float | None = None
    """Its length [m]; None where the file does not say."""


def steps_of(making: Making) -> list[ProposedStep]:
    """The steps that make the billet and forge the piece, in order."""
    found: list[ProposedStep] = []
    for run, steels in _runs(making):
        left = Left()
        for stage in run.stages:
            step = _step(making, run, stage, steels, left)
            found.append(step)
            left = _left(step.keys, left)
    return found


def _runs(making: Making) -> list[tuple[Run, Steels]]:
    """The strands in the order in which they are worked, each with its steels."""
    found: list[tuple[Run, Steels]] = []

    def add(run: Run) -> None:
        # the bar that is bent round a core comes after the core
        for one in sorted(run.before, key=lambda one: any(stage.move.part is Part.BEND for stage in one.stages)):
            add(one)
        names = tuple(dict.fromkeys(cut.piece.steel for cut in run.all_cuts))
        found.append((run, making.steels if run is making.run else Steels.of(names)))

    add(making.run)
    return found


def _left(keys: StepKeys, left: Left) -> Left:
    """The work as the reader takes it to be after a step."""
    section, length = (keys.section, keys.length) if keys.section else (left.section, keys.length or left.length)
    if keys.reach is None:
        return Left(section, keys.reach_length or length)
    return Left(keys.reach, keys.reach_length)


def _step(making: Making, run: Run, stage: Stage, steels: Steels, left: Left) -> ProposedStep:
    move = stage.move
    keys = worded(move.part, names_for(making, run, stage, steels), special=(making.of.what, making.of.build))
    if move.heats_why is None:
        return ProposedStep(move.part, keys, {})
    figures: dict[str, Any] = {}
    whys: dict[str, Why] = {}

    length, ends = marked(stage.length, making.units), marked(_long(making, stage), making.units)

    def take(name: str, chosen: Chosen[Any]) -> None:
        figures[name], whys[name] = chosen.value, chosen.why

    take("heats", Chosen(move.heats, move.heats_why))
    if left.section != stage.section or left.length is None or abs(left.length - length) > 1e-9:
        volume = arithmetic("By constant volume from the bars: what is set apart, cut off and gone to scale is gone.")
        take("section", Chosen(stage.section, volume))
        take("length", Chosen(length, volume))
    if stage.reach != stage.section:
        take("reach", Chosen(stage.reach, _reach_why(move)))
    if stage.reach != stage.section or move.apart:
        take(
            "reach_length",
            Chosen(ends, _volume_why(making)),
        )
    for name, chosen in _temperatures(move.part, steels).items():
        take(name, chosen)
    if move.part in _WELDS:
        soak = weld_soak(stage.section.thickness, first=_WELDS[move.part])
        take("soak", soak)
        take("soak_at_most", weld_soak_at_most(soak.value))
    else:
        thin = _HOT[move.part] is HotWork.THIN
        most = _SOAK_THIN if thin else _SOAK_AT_MOST
        take("soak_at_most", Chosen(most, practice("Longer, it only scales and loses carbon.")))
    for name, chosen in _thin(making, stage).items():
        take(name, chosen)
    if (layers := layers_at(making, run, move)) is not None:
        take("layers", Chosen(layers, arithmetic("Pieces of the stack; like faces that meet in a fold count as one.")))
    if making.of.struck_by is not StruckBy.HAND and move.part not in (Part.TWIST, Part.BEND, Part.BEND_TANGS):
        figures["struck_by"] = making.of.struck_by
    return ProposedStep(move.part, replace(keys, **figures), whys)


def _temperatures(part: Part, steels: Steels) -> dict[str, Chosen[float]]:
    names = ["fire", "heat_to", "keep_above", "burn_above"]
    if part in _WELDS:
        names.append("flux_at")
        heat: Any = weld_heat(steels)
    else:
        heat = heat_for(_HOT[part], steels)
    return {name: getattr(heat, name) for name in names}


def _volume_why(making: Making) -> Why:
    """Where the length comes from that is left after the heats; says of which shop their scale is, where one told."""
    of_a_heat = making.of.whys["scale"]

    def said(units: Units) -> str:
        told = f"By constant volume, {100 * making.of.scale.likely:.2g} % of it gone to scale in each heat"
        return f"{told}: {units.text(of_a_heat.said)}" if of_a_heat.basis == "learned" else f"{told}."

    return Why("learned" if of_a_heat.basis == "learned" else "arithmetic", said, of_a_heat.source)


def _reach_why(move: Move) -> Why:
    if move.part is Part.DRAW:
        return arithmetic("The bar from which the finished section is forged, with what is ground off each face.")
    if move.part is Part.TAPER:
        return arithmetic("The section halfway along, between the bar and its thin end.")
    if move.part is Part.BEVELS:
        return arithmetic("The finished section, what is ground off each face, and an edge that stands the quench.")
    if move.part in (Part.TANG, Part.SECOND_TANG):
        return arithmetic("The finished tang, and what is ground off each face.")
    return practice("What such a heat usually does to the section.")


def _long(making: Making, stage: Stage) -> float:
    return making.of.point if stage.move.part is Part.POINT else stage.reach_length


def _thin(making: Making, stage: Stage) -> dict[str, Chosen[Any]]:
    """The part that goes cold first, where a step has one of its own shape."""
    forms, part = making.forms, stage.move.part
    if part is Part.TAPER and forms.tip is not None:
        name = "edge" if making.of.what is What.WEDGE else "thin end"
        thin, length = forms.tip, marked(stage.reach_length, making.units)
    elif part is Part.POINT:
        name, thin, length = "tip", forms.end, marked(making.of.point, making.units)
    else:
        return {}
    why = arithmetic("The shape that it is forged to there.")
    if thin.area >= stage.section.area:
        return {}
    return {
        "thin": Chosen(thin, why),
        "thin_length": Chosen(length, why),
        "thin_name": Chosen(name, why),
    }
