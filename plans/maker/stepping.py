"""From the moves of a strand to the steps of a plan: each with its figures and where they come from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, Final

from plans.billets import Meeting, layers_after
from plans.blows import StruckBy
from plans.maker.building import Built, notch_of
from plans.maker.finished import LEAST_EDGE, TIP, Forms
from plans.maker.hot_work import HotWork, heat_for
from plans.maker.proposal import ProposedStep
from plans.maker.settled import Settled
from plans.maker.steels import Steels
from plans.maker.strand import Move, Run, Stage
from plans.maker.welding import weld_heat, weld_soak, weld_soak_at_most
from plans.maker.why import Chosen, Why, arithmetic, practice
from plans.maker.wording import worded
from plans.making import Build, Part, What
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
class Making:
    """All that the steps of a piece are made from."""

    of: Settled
    """What shall be made."""
    forms: Forms
    """The sections that it goes through."""
    built: Built
    """How its billet is built."""
    heats: Mapping[Part, Chosen[int]]
    """Heats of each part, each with where it comes from."""
    run: Run
    """Its moves, with their figures."""
    steels: Steels
    """All its steels."""


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
        for one in run.before:
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
    keys = worded(move.part, _named(making, run, stage, steels))
    if not move.heats:
        return ProposedStep(move.part, keys, {})
    figures: dict[str, Any] = {}
    whys: dict[str, Why] = {}

    def take(name: str, chosen: Chosen[Any]) -> None:
        figures[name], whys[name] = chosen.value, chosen.why

    take("heats", making.heats[move.part])
    if left.section != stage.section or left.length is None or abs(left.length - stage.length) > 1e-9:
        volume = arithmetic("By constant volume from the bars: what is set apart, cut off and gone to scale is gone.")
        take("section", Chosen(stage.section, volume))
        take("length", Chosen(stage.length, volume))
    if stage.reach != stage.section:
        take("reach", Chosen(stage.reach, _reach_why(move)))
    if stage.reach != stage.section or move.apart:
        take(
            "reach_length",
            Chosen(_long(making, stage), arithmetic("By constant volume, 2 % of it gone to scale in each heat.")),
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
    if (layers := _layers(making, run, move)) is not None:
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


def _reach_why(move: Move) -> Why:
    if move.part is Part.DRAW:
        return arithmetic("The bar from which the finished section is forged, with what is ground off each face.")
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
    tip = Section(max(TIP, LEAST_EDGE), min(TIP, LEAST_EDGE))
    if part is Part.TAPER and forms.tip is not None:
        name = "edge" if making.of.what is What.WEDGE else "thin end"
        thin, length = forms.tip, stage.reach_length
    elif part is Part.POINT:
        name, thin, length = "tip", tip, making.of.point
    else:
        return {}
    why = arithmetic("The shape that it is forged to there.")
    if thin.area >= stage.section.area:
        return {}
    return {"thin": Chosen(thin, why), "thin_length": Chosen(length, why), "thin_name": Chosen(name, why)}


def _layers(making: Making, run: Run, move: Move) -> int | None:
    of = making.of
    if of.build in (Build.LAID_EDGE, Build.LAMINATE):
        return None
    if run is not making.run:
        return of.pieces if move.part is not Part.BEND else None
    if of.build is not Build.FOLDED:
        return None
    folds = [one for one in run.stages if one.move.part is Part.FOLD_WELD]
    done = move.turn - (move.part is not Part.FOLD_WELD) if move.turn else None
    if done is None:
        before = next(place for place, stage in enumerate(run.stages) if stage.move is move)
        done = sum(1 for stage in run.stages[:before] if stage.move.part is Part.FOLD_WELD)
    return layers_after(of.pieces, min(done, len(folds)), 2, Meeting.LIKE)


def _named(making: Making, run: Run, stage: Stage, steels: Steels) -> dict[str, str]:
    """What the $names in the words of a move stand for; quantities are metric, as they stand in braces."""
    of, forms, move = making.of, making.forms, stage.move
    units = Units.METRIC
    named = {
        "section": units.section(stage.section),
        "length": units.length(stage.length),
        "reach": units.section(stage.reach),
        "reach_length": units.length(stage.reach_length),
        "thick": units.length(stage.reach.thickness),
        "calipers": f"{units.length(stage.reach.thickness).removesuffix(' mm')} and {units.length(stage.reach.width)}",
        "turn": ("", "one", "two", "three", "four", "five", "six", "seven", "eight")[min(move.turn, 8)],
        "flux": units.temperature(weld_heat(steels).flux_at.value),
        "cuts": _cuts(run),
        "order": _order(making, run),
        "layers": str(_layers(making, run, move) or ""),
        "trim": "8 mm",
        "ends": "5 mm",
        "back": "6 mm",
        "needed": units.length(_needed(making)),
        "thin_name": "edge" if of.what is What.WEDGE else "point",
        "full": units.length(stage.section.thickness),
        "thin_thick": units.length(forms.tip.thickness if forms.tip else stage.section.thickness),
        "taper_length": units.length(stage.reach_length),
        "point": units.length(of.point) if of.point else "",
        "edge": units.length(forms.forged.edge or of.edge),
        "sides": "along both edges, from both faces" if of.what is What.DOUBLE_EDGED else _ONE_SIDE[of.what],
        "middle": "ridge" if of.what is What.DOUBLE_EDGED else "spine",
        "round_core": _ROUND_CORE if of.build is Build.CORE else "",
        "hands": _HANDS if of.cores > 1 else "",
        "heat_to": "",
        "mouth": "",
        "depth": "",
        "aside": "",
        "pitch": "",
        "turns": "",
    }
    if move.part is Part.NOTCH_CUT:
        notch = notch_of(run.strand.pieces, stage.section, forms.bar)
        named |= {name: units.length(getattr(notch, name).value) for name in ("mouth", "depth", "aside")}
    if move.part is Part.TWIST:
        pitch = pitch_of(making, stage.section)
        named |= {"pitch": units.length(pitch), "turns": f"{max(1.0, stage.length / pitch):.0f}"}
    return named


def pitch_of(making: Making, section: Section) -> float:
    """Length of one whole turn of a twisted bar of a section [m]."""
    asked_for = making.of.twist
    return asked_for if asked_for is not None else 2.5 * section.thickness


_ONE_SIDE: Final = {
    What.SINGLE_EDGED: "along the edge, from both faces",
    What.CHISEL_EDGED: "along the edge, from one face alone, the other flat on the anvil",
    What.DRAWKNIFE: "along the edge, from one face alone, the other flat on the anvil",
    What.WEDGE: "towards the edge",
    What.BAR: "along the edge",
    What.CYCLES: "along the edge",
}
_ROUND_CORE: Final = (
    "Keep the core in the middle: as many blows on one side as on the other, or it runs out on an edge."
)
_HANDS: Final = "Turn every other bar the other way."


def _cuts(run: Run) -> str:
    """What is cut for a strand: "two pieces of 1084, {25 x 10 mm}, {97 mm} long"."""
    units = Units.METRIC
    said = []
    for cut in run.cuts:
        count = "one piece" if cut.piece.count == 1 else f"{cut.piece.count} pieces"
        said.append(
            f"{count} of {cut.piece.steel}, {{{units.section(cut.piece.section)}}}, {{{units.length(cut.each)}}} long"
        )
    for piece, made in zip((one for one in run.strand.pieces if one.made_of), run.before, strict=True):
        each = (made.out / piece.section.area) / piece.count
        parts = "in one piece" if piece.count == 1 else f"into {piece.count}"
        said.append(f"the {piece.name} {parts}, {{{units.length(each)}}} long")
    return "; ".join(said)


def _order(making: Making, run: Run) -> str:
    of = making.of
    if run is not making.run or of.build is Build.FOLDED:
        steels = of.pattern if len(of.pattern) > 1 else of.pattern * 2
        return f"{steels[0]} outside and {steels[1]} between, in turn"
    match of.build:
        case Build.LAID_EDGE:
            return f"{of.steel} flat on {of.back}"
        case Build.LAMINATE:
            return f"{of.steel} between two jackets of {of.back}"
        case Build.CORE:
            return (
                f"{of.steel} on both sides, the core between"
                if of.cores == 1
                else f"{of.steel} on both sides, {of.cores} cores between"
            )
        case Build.WRAPPED:
            return "the core in the bend, both legs against it"
        case Build.TWISTED:
            return "twists that run against each other side by side" if of.cores > 1 else "the one bar"
        case _:
            return "as it is bundled: the wires or pieces straight and tight, the ends closed"


def _needed(making: Making) -> float:
    """Length of the drawn bar that the rest takes, without what is spare [m]."""
    stages = making.run.stages
    place = next(place for place, stage in enumerate(stages) if stage.move.part is Part.DRAW)
    stage = stages[place]
    cut = sum(loss.volume for loss in stage.move.cuts)
    return (stage.reach_length * stage.reach.area - cut) / stage.reach.area
