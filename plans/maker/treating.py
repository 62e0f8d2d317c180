"""The steps after the forging: bending, straightening, heat treatment, grinding, etching."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any, Final

from plans.maker.applying import parts_of
from plans.maker.ends import has_rod
from plans.maker.errors import MakeError
from plans.maker.etching import etching
from plans.maker.finished import GRIND, Forms
from plans.maker.hardening import hardening
from plans.maker.heats import heats_for
from plans.maker.hot_work import HotWork, heat_for
from plans.maker.normalizing import normalizing
from plans.maker.proposal import ProposedStep
from plans.maker.quenching import Medium
from plans.maker.settled import EDGED, Settled
from plans.maker.steels import Steels
from plans.maker.tempering import Use, temper_for, tempering
from plans.maker.why import Chosen, Concern, arithmetic, asked, practice
from plans.maker.wording import worded
from plans.making import OPTIONAL, Part, What
from plans.phase import PhaseKind
from plans.reader import AirKeys, AnswerKeys, DipKeys, OvenKeys, QuenchKeys, StepKeys
from plans.record import record
from plans.shapes import Section
from plans.steel import SteelError
from plans.units import Units, kelvin

HAND_WARM: Final = kelvin(50)
"""What can be held in the hand without haste [K]: common practice, no source."""
HARD_EDGE: Final = 1.5e-3
"""Thickness of the edge that is quenched [m]: common practice (1 to 2 mm), no source; thinner, it warps and cracks."""


@record(eq=False)
class Treated:
    """The steps after the forging, and what does not add up in them."""

    steps: tuple[ProposedStep, ...]
    """The steps, in order."""
    concerns: tuple[Concern, ...]
    """What does not add up."""


@record(eq=False)
class _Piece:
    """What a step after the forging is made from."""

    answers: AnswerKeys
    of: Settled
    forms: Forms
    steels: Steels

    @property
    def quenched(self) -> Section:
        """The section that is quenched: ground near its thickness, with an edge that stands it."""
        return ground_section(self.of, self.forms)


def treated(answers: AnswerKeys, of: Settled, forms: Forms, steels: Steels) -> Treated:
    """The steps after the forging.

    Args:
        answers: what was answered
        of: the same, with nothing left open
        forms: the sections that the piece goes through
        steels: those of the piece; what is hardened is decided by those of its edge
    """
    piece = _Piece(answers, of, forms, steels)
    steps: list[ProposedStep] = []
    concerns: list[Concern] = []
    needed = {*parts_of(answers)} - of.leave_out
    for part, make in _PARTS:
        if part in OPTIONAL and part not in needed:
            continue
        step, said = make(piece)
        if step is not None:
            steps.append(step)
        concerns += said
    done = {step.part for step in steps}
    if Part.HARDEN not in done:
        steps = [step for step in steps if step.part is not Part.TEMPER]
    elif Part.TEMPER not in done:
        concerns.append(_UNTEMPERED)
    return Treated(tuple(steps), tuple(concerns))


def ground_section(of: Settled, forms: Forms) -> Section:
    """The section of the piece as it is quenched, halfway along [m]."""
    forged = forms.forged
    if of.what not in EDGED or not of.has(Part.PROFILE):
        return forged
    edge = max(HARD_EDGE, of.edge + GRIND)
    thickness = forms.tapered.thickness - GRIND
    width = max(forged.width - GRIND, thickness)
    form = next(body.section.form for body in forms.finished.bodies if body.name == "blade")
    return Section(width, thickness, form, edge) if edge < thickness else Section(width, thickness)


_UNTEMPERED: Final = Concern(
    "leave_out",
    "it is quenched and not tempered: as hard and brittle as glass, it cracks by itself and breaks at the wheel",
    "leave the temper in, or leave out the hardening with it",
    serious=True,
)

_Made = tuple[ProposedStep | None, tuple[Concern, ...]]


def _with(keys: StepKeys, part: Part, chosen: Mapping[str, Chosen[Any]], **more: Any) -> ProposedStep:
    """A step with its figures; a "." in a name leads into a nested table, which stands in `more`."""
    figures = {name: one.value for name, one in chosen.items() if "." not in name}
    return ProposedStep(part, replace(keys, **figures, **more), {name: one.why for name, one in chosen.items()})


def _bench(part: Part) -> Callable[[_Piece], _Made]:
    def made(piece: _Piece) -> _Made:
        return ProposedStep(part, worded(part, _named(piece), (), (piece.of.what,)), {}), ()

    return made


def _named(piece: _Piece, **more: str) -> dict[str, str]:
    of, units = piece.of, Units.METRIC
    edge = piece.quenched.edge if piece.quenched.edge is not None else of.edge
    named = {
        "middle": "ridge" if of.what is What.DOUBLE_EDGED else "spine",
        "edge": units.length(edge),
        "glass": _GLASS if has_rod(of) else "",
        "face": units.exact_length(GRIND / 2),
        "for_etch": "" if not of.has(Part.ETCH) else "For the etch go to 400 or 600, no finer, and degrease it.",
    }
    return named | more


_GLASS: Final = "What is left of the flux is glass: take it off first, in vinegar overnight or with an old belt."


def _bend_tangs(piece: _Piece) -> _Made:
    if piece.of.what is not What.DRAWKNIFE or not piece.of.is_tanged:
        return None, ()
    heat, heats = heat_for(HotWork.BEND, piece.steels), heats_for(Part.BEND_TANGS)
    forms = piece.forms
    chosen = {
        "heats": heats,
        **{name: getattr(heat, name) for name in ("fire", "heat_to", "keep_above", "burn_above")},
        "soak_at_most": Chosen(180.0, practice("Longer, it only scales and loses carbon.")),
        "section": Chosen(forms.tang_section, arithmetic("The tang as it was drawn.")),
        "length": Chosen(piece.of.tang_length, arithmetic("The tang as it was drawn.")),
    }
    return _with(worded(Part.BEND_TANGS, _named(piece), (), (piece.of.what,)), Part.BEND_TANGS, chosen), ()


def _shaped(piece: _Piece, section: Section) -> dict[str, Chosen[Any]]:
    """Section of the piece as it goes into the fire, and its tip."""
    of = piece.of
    shape = arithmetic("The piece as it is by now.")
    chosen: dict[str, Chosen[Any]] = {"section": Chosen(section, shape)}
    tip = piece.forms.end
    if of.point and tip.area < section.area:
        chosen |= {
            "thin": Chosen(tip, shape),
            "thin_length": Chosen(of.point, shape),
            "thin_name": Chosen("tip", shape),
        }
    return chosen


def _straighten(piece: _Piece) -> _Made:
    heat = heat_for(HotWork.STRAIGHTEN, piece.steels)
    chosen = {
        "heats": heats_for(Part.STRAIGHTEN),
        **{name: getattr(heat, name) for name in ("fire", "heat_to", "keep_above", "burn_above")},
        "soak_at_most": Chosen(180.0, practice("Longer, it only scales and loses carbon.")),
        **_shaped(piece, piece.forms.forged),
    }
    dull = Units.METRIC.temperature(heat.heat_to.value)
    return _with(
        worded(Part.STRAIGHTEN, _named(piece, heat_to=dull), (), (piece.of.what,)), Part.STRAIGHTEN, chosen
    ), ()


def _normalize(piece: _Piece) -> _Made:
    found, concerns = normalizing(piece.steels)
    if found is None:
        return None, concerns
    names = ("fire", "heat_to", "soak", "soak_at_most", "burn_above")
    cycles = len(found.heat_to.value)
    chosen: dict[str, Chosen[Any]] = {name: getattr(found, name) for name in names}
    chosen["heats"] = Chosen(cycles, found.heat_to.why)
    chosen |= _shaped(piece, piece.forms.forged)
    chosen["air.until"] = found.until
    until = Units.METRIC.temperature(found.until.value)
    keys = worded(Part.NORMALIZE, _named(piece, until=until), (), (piece.of.what,))
    return _with(keys, Part.NORMALIZE, chosen, air=AirKeys(until=found.until.value)), concerns


def _harden(piece: _Piece) -> _Made:
    section = piece.quenched
    found, concerns = hardening(piece.steels, section.thickness)
    if found is None:
        return None, concerns
    names = ("fire", "heat_to", "soak", "soak_at_most", "burn_above")
    chosen: dict[str, Chosen[Any]] = {name: getattr(found, name) for name in names}
    chosen |= _shaped(piece, section) | {"length": Chosen(piece.of.length, arithmetic("The piece as it is by now."))}
    quench = found.quench
    in_air = quench.medium.value is Medium.AIR
    phases = (PhaseKind.FIRE, PhaseKind.SOAK, PhaseKind.AIR) if in_air else ()
    named = _named(piece, medium=quench.medium.value, ready=_READY[quench.medium.value], poll=_poll(piece))
    keys = worded(Part.HARDEN, named, phases, (quench.medium.value, piece.of.what))
    if in_air:
        chosen["air.until"] = Chosen(HAND_WARM, practice("To hand warmth, then temper at once."))
        return _with(keys, Part.HARDEN, chosen, air=AirKeys(until=HAND_WARM)), concerns
    chosen |= {"quench.medium": quench.medium, "quench.seconds": quench.seconds, "quench.within": quench.within}
    into = QuenchKeys(medium=quench.text, seconds=quench.seconds.value, within=quench.within.value)
    return _with(keys, Part.HARDEN, chosen, quench=into), concerns


_READY: Final = {
    Medium.FAST_OIL: f"{Medium.FAST_OIL}, its lid beside it",
    Medium.OIL: f"{Medium.OIL}, its lid beside it",
    Medium.BRINE: f"{Medium.BRINE}, hand-warm, deep enough",
    Medium.AIR: "",
}
"""What is to stand ready for the quench."""
_CLEANED: Final = {
    Medium.FAST_OIL: "Clean off the oil",
    Medium.OIL: "Clean off the oil",
    Medium.BRINE: "Rinse off the salt, dry it,",
    Medium.AIR: "Take it out of the plates",
}
"""What is done with the work between the quench and the oven."""


def _poll(piece: _Piece) -> str:
    """What is to be said of the poll of a wedge that hardens wherever it was hot."""
    if piece.of.what is not What.WEDGE:
        return ""
    return "Heat the edge half alone: a poll that has been hot is hard as well, and throws splinters under the sledge."


def _temper(piece: _Piece) -> _Made:
    of = piece.of
    use = Use.STRUCK if of.what is What.WEDGE else Use.KNIFE
    wanted = piece.answers.temper
    found, concerns = tempering(piece.steels, use, wanted)
    if found is None:
        return None, concerns
    if wanted is None and piece.answers.hardness is not None:
        found = replace(found, at=_temper_for(piece, piece.answers.hardness))
    chosen: dict[str, Chosen[Any]] = {
        "heats": found.holds,
        "oven.at": found.at,
        "oven.seconds": found.seconds,
        "oven.within": found.within,
        "air.until": Chosen(HAND_WARM, practice("To hand warmth between the holds, in still air.")),
    }
    hard, _ = hardening(piece.steels, piece.quenched.thickness)
    cleaned = "" if hard is None else _CLEANED[hard.quench.medium.value]
    named = _named(piece, within=f"{found.within.value / 3600:g} h", cleaned=cleaned)
    keys = worded(Part.TEMPER, named, (), (piece.of.what,))
    oven = OvenKeys(at=found.at.value, seconds=found.seconds.value, within=found.within.value)
    return _with(keys, Part.TEMPER, chosen, oven=oven, air=AirKeys(until=HAND_WARM)), concerns


def _temper_for(piece: _Piece, hardness: int) -> Chosen[float]:
    hard = piece.steels.hard
    assert hard is not None, "what is tempered has a steel that hardens"
    try:
        return temper_for(hard, hardness)
    except SteelError as error:
        raise MakeError("hardness", str(error)) from None


def _etch(piece: _Piece) -> _Made:
    found, concerns = etching(piece.steels)
    answers = piece.answers
    dips = found.dips if answers.dips is None else Chosen(answers.dips, asked())
    seconds = found.seconds if answers.dip is None else Chosen(answers.dip, asked())
    chosen: dict[str, Chosen[Any]] = {"heats": dips, "dip.medium": found.medium, "dip.seconds": seconds}
    dip = DipKeys(medium=found.medium.value, seconds=seconds.value)
    return _with(worded(Part.ETCH, _named(piece), (), (piece.of.what,)), Part.ETCH, chosen, dip=dip), concerns


def _ground(piece: _Piece) -> _Made:
    """The grinding after the temper, to the finished measures."""
    of, units = piece.of, Units.METRIC
    finished = units.section(Section(of.width, of.thickness))
    named = _named(piece, edge=units.length(of.edge), finished=finished)
    return ProposedStep(Part.GRIND, worded(Part.GRIND, named, (), (piece.of.what,)), {}), ()


_PARTS: Final[tuple[tuple[Part, Callable[[_Piece], _Made]], ...]] = (
    (Part.BEND_TANGS, _bend_tangs),
    (Part.NORMALIZE, _normalize),
    # from the last of its heats it comes black into this one, and not far hotter than a dull red, as from the anvil
    (Part.STRAIGHTEN, _straighten),
    (Part.PROFILE, _bench(Part.PROFILE)),
    (Part.HARDEN, _harden),
    (Part.TEMPER, _temper),
    (Part.GRIND, _ground),
    (Part.FINISH, _bench(Part.FINISH)),
    (Part.ETCH, _etch),
    (Part.LOOK_OVER, _bench(Part.LOOK_OVER)),
)
"""The parts after the forging in their order, and what makes each."""
