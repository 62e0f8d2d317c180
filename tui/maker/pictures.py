"""What is drawn beside a page of questions: the piece, how its billet is built, or the sections at the fire."""

from __future__ import annotations

from math import atan2, degrees

from plans.at_hand import sections_drawn
from plans.billets import (
    BilletError,
    Blade,
    Laminate,
    Meeting,
    borders_of,
    composite_drawn,
    laminate_drawn,
    notch_drawn,
    stack_drawn,
    stages,
    twist_drawn,
)
from plans.drawing import Drawing
from plans.maker import Proposal, Settled, closing_notch
from plans.making import Build, Part, What
from plans.plan import Plan
from plans.shapes import Section
from plans.stock import piece_drawn


def piece_of(proposal: Proposal) -> Drawing | None:
    """The finished piece and the largest of its bars; None where nothing new is made."""
    if proposal.finished is None:
        return None
    bar = max(proposal.bars, key=lambda one: one.section.area * one.length, default=None)
    return piece_drawn(proposal.finished, *((bar.section, bar.length) if bar is not None else ()))


def picture_of(page: str, proposal: Proposal, plan: Plan | None) -> Drawing | None:
    """What to draw beside a page; None where there is nothing to see but the piece.

    Args:
        page: the name of the page
        proposal: what is proposed
        plan: the same as it can be followed; None while it is not read
    """
    if page in ("built", "bars"):
        try:
            drawn = _notched(proposal) if page == "bars" else None
            drawn = drawn or _built(proposal)
        except BilletError:
            drawn = None
        if drawn is not None:
            return drawn
    if page == "steps" and plan is not None and (drawn := sections_drawn(plan)) is not None:
        return drawn
    return None


def _built(proposal: Proposal) -> Drawing | None:
    """How the billet is built; None for one that has nothing inside to be seen."""
    of, sides = proposal.settled, {bar.name: bar.section for bar in proposal.bars}
    match of.build:
        case Build.LAMINATE if {"core", "jackets"} <= sides.keys():
            core, jacket = sides["core"].thickness, sides["jackets"].thickness
            height = of.width / (2 if of.what is What.DOUBLE_EDGED else 1)
            return laminate_drawn(Laminate(of.thickness, of.edge, of.thickness * core / (core + 2 * jacket), height))
        case Build.FOLDED:
            return stack_drawn(of.pieces, None, Meeting.LIKE, stages(of.pieces, of.folds, 2, Meeting.LIKE), None)
        case Build.CORE | Build.WRAPPED if proposal.bars:
            return composite_drawn(of.width, _blade(of), borders_of(_side_by_side(proposal), of.width))
        case Build.TWISTED if (square := _squared(proposal)) is not None:
            return twist_drawn(square, of.twist or 2.5 * square.thickness)
    return None


def _side_by_side(proposal: Proposal) -> list[float]:
    """Widths of the bars of a billet that lie side by side, a core between two others [m]."""
    sides = {bar.name: bar.section.width for bar in proposal.bars}
    outer = next(sides[name] for name in ("jackets", "edge") if name in sides)
    inner = next((sides[name] for name in ("core", "cores") if name in sides), outer)
    return [outer, *[inner] * proposal.settled.cores, outer]


def _notched(proposal: Proposal) -> Drawing | None:
    """The notch at the point, open and closed; None where there is none."""
    keys = {step.part: step.keys for step in proposal.steps}
    if not {Part.NOTCH_CUT, Part.NOTCH_CLOSE, Part.DRAW} <= keys.keys():
        return None
    billet, bar = keys[Part.NOTCH_CLOSE].section, keys[Part.DRAW].reach
    if billet is None or bar is None:
        return None
    outer, *inner, _ = _side_by_side(proposal)
    share = sum(inner) / (sum(inner) + 2 * outer)
    notch = closing_notch(share, billet, bar)
    depth, mouth = notch.depth.value, notch.mouth.value
    angle = 2 * degrees(atan2(mouth / 2, depth))
    return notch_drawn(billet.width, share * billet.width, depth, angle, notch.jacket_left.value)


def _squared(proposal: Proposal) -> Section | None:
    """Section of a bar before it is twisted."""
    return next((step.keys.reach for step in proposal.steps if step.part is Part.SQUARE), None)


def _blade(of: Settled) -> Blade | None:
    if of.what in (What.BAR, What.WEDGE, What.CYCLES):
        return None
    return Blade(of.width, of.thickness, of.edge, is_double=of.what is What.DOUBLE_EDGED)
