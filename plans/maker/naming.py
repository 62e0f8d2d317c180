"""What the $names in the words of a step stand for, where it makes the billet or forges the piece."""

from __future__ import annotations

from typing import Final

from plans.billets import USUAL_LOSS
from plans.maker.building import TRIM, notch_of
from plans.maker.edge_place import FLAT_FACED
from plans.maker.ends import cut_off, has_rod, hold, spare_off, tang_end
from plans.maker.making import Making, free_of, layers_at, pitch_of
from plans.maker.marking import marked
from plans.maker.steels import Steels
from plans.maker.strand import GRIP, Run, Stage
from plans.maker.welding import weld_heat
from plans.making import Build, Part, What
from plans.units import Units


def names_for(making: Making, run: Run, stage: Stage, steels: Steels) -> dict[str, str]:
    """What the $names in the words of a move stand for; quantities are metric, as they stand in braces."""
    of, forms, move = making.of, making.forms, stage.move
    units = Units.METRIC

    def long(metres: float) -> str:
        return units.length(marked(metres, making.units))

    named = {
        "section": units.section(stage.section),
        "length": long(stage.length),
        "reach": units.section(stage.reach),
        "reach_length": long(stage.reach_length),
        "thick": units.length(stage.reach.thickness),
        "calipers": f"{units.length(stage.reach.thickness).removesuffix(' mm')} and {units.length(stage.reach.width)}",
        "turn": ("", "one", "two", "three", "four", "five", "six", "seven", "eight")[min(move.turn, 8)],
        "flux": units.temperature(weld_heat(steels).flux_at.value),
        "cuts": _cuts(making, run),
        "order": _order(making, run),
        "layers": str(layers_at(making, run, move) or ""),
        "trim": units.length(TRIM),
        "cut_off": cut_off(of),
        "spare_off": spare_off(of),
        "tang_end": tang_end(of),
        "hold": hold(of),
        "second_hold": "Cut the rod off, and hold" if has_rod(of) else "Hold",
        "back": long(USUAL_LOSS),
        "needed": long(_needed(making)),
        "thin_name": "edge" if of.what is What.WEDGE else "point",
        "full": units.length(stage.section.thickness),
        "keeps": _keeps(making),
        "mark": _MARK if of.build is Build.LAID_EDGE else "",
        "thin_thick": units.length(forms.tip.thickness if forms.tip else stage.section.thickness),
        "taper_length": long(stage.reach_length),
        "point": long(of.point) if of.point else "",
        "edge": units.length(forms.forged.edge or of.edge),
        "sides": _sides(making),
        "middle": "ridge" if of.what is What.DOUBLE_EDGED else "spine",
        "round_core": _ROUND_CORE if of.build is Build.CORE else "",
        "hands": "",
        "grip": units.length(GRIP),
        "free": "",
        "heat_to": "",
        "mouth": "",
        "depth": "",
        "pitch": "",
        "turns": "",
    }
    if move.part is Part.NOTCH_CUT:
        notch = notch_of(run.strand.pieces, stage.section, forms.bar)
        named |= {name: long(getattr(notch, name).value) for name in ("mouth", "depth")}
    if move.part is Part.TWIST:
        pitch = pitch_of(making, stage.section)
        free = free_of(making, stage)
        named |= {"pitch": long(pitch), "turns": _turns(free / pitch), "free": long(free)}
        if of.cores > 1:
            named["hands"] = f"It is twisted in {of.cores} such stretches, each the other way from the one before it."
    return named


_SIDES: Final = {
    What.DOUBLE_EDGED: "along both edges, from both faces",
    What.CHISEL_EDGED: "along the edge, from one face alone, the other flat on the anvil",
    What.DRAWKNIFE: "along the edge, from one face alone, the other flat on the anvil",
}
_MARK: Final = (
    "Punch two dots into the end of the edge steel's side: once it is scaled, nobody can tell the faces apart."
)
_ROUND_CORE: Final = (
    "Keep the core in the middle: as many blows on one side as on the other, or it runs out on an edge."
)


def _turns(turns: float) -> str:
    """So many turns: "6 turns", "2.5 turns", "0.1 of a turn"."""
    if turns < 0.95:
        return f"{max(turns, 0.1):.1f} of a turn"
    count = round(turns) if turns > 4 else round(2 * turns) / 2
    return "1 turn" if count == 1 else f"{count:g} turns"


def _sides(making: Making) -> str:
    """From which faces the bevels are forged."""
    of = making.of
    if of.build is Build.LAID_EDGE and of.what in FLAT_FACED:
        return f"along the edge, on the {of.back} side alone, the {of.steel} side with its marks flat on the anvil"
    return _SIDES.get(of.what, "along the edge, from both faces")


def _keeps(making: Making) -> str:
    """How thick the ridge or the spine stays while the bevels are forged."""
    forms, units = making.forms, Units.METRIC
    full = f"{{{units.length(forms.bar.thickness)}}}"
    if forms.tip is None:
        return full
    return f"{full} at the shoulder and {{{units.length(forms.tip.thickness)}}} at the point"


def _cuts(making: Making, run: Run) -> str:
    """What is cut for a strand: "two pieces of 1084, {25 x 10 mm}, {97 mm} long"."""
    units = Units.METRIC
    said = []
    for cut in run.cuts:
        count = "one piece" if cut.piece.count == 1 else f"{cut.piece.count} pieces"
        said.append(
            f"{count} of {cut.piece.steel}, {{{units.section(cut.piece.section)}}}, {{{units.length(cut.each)}}} long"
        )
    for piece, made in zip((one for one in run.strand.pieces if one.made_of), run.before, strict=True):
        each = marked(run.stages[0].length, making.units)
        parts = "in one piece" if piece.count == 1 else f"into {piece.count}"
        if any(stage.move.part is Part.BEND for stage in made.stages):
            said.append(f"the legs of the bent bar even, {{{units.length(each)}}} long")
            continue
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
