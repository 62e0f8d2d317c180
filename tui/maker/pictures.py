"""What is drawn beside a page of questions: the piece, how its billet is built, or the sections at the fire."""

from __future__ import annotations

from plans.at_hand import sections_drawn
from plans.billets import (
    BilletError,
    Blade,
    Laminate,
    Meeting,
    borders_of,
    composite_drawn,
    laminate_drawn,
    stack_drawn,
    stages,
    twist_drawn,
)
from plans.drawing import Drawing
from plans.maker import Proposal, Settled
from plans.making import Build, Part, What
from plans.plan import Plan
from plans.shapes import Section
from plans.stock import piece_drawn


def picture_of(page: str, proposal: Proposal, plan: Plan | None) -> Drawing | None:
    """What to draw beside a page; None where there is nothing to see.

    Args:
        page: the name of the page
        proposal: what is proposed
        plan: the same as it can be followed; None while it is not read
    """
    if page in ("built", "bars"):
        try:
            drawn = _built(proposal)
        except BilletError:
            drawn = None
        if drawn is not None:
            return drawn
    if page == "steps" and plan is not None and (drawn := sections_drawn(plan)) is not None:
        return drawn
    if proposal.finished is None:
        return None
    bar = max(proposal.bars, key=lambda one: one.section.area * one.length, default=None)
    return piece_drawn(proposal.finished, *((bar.section, bar.length) if bar is not None else ()))


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
        case Build.CORE | Build.WRAPPED:
            jacket_side = sides.get("jackets") or sides.get("edge")
            if jacket_side is None:
                return None
            whole = [jacket_side.width] + [(sides.get("core") or jacket_side).width] * of.cores + [jacket_side.width]
            return composite_drawn(of.width, _blade(of), borders_of(whole, of.width))
        case Build.TWISTED if (square := _squared(proposal)) is not None:
            return twist_drawn(square, of.twist or 2.5 * square.thickness)
    return None


def _squared(proposal: Proposal) -> Section | None:
    """Section of a bar before it is twisted."""
    return next((step.keys.reach for step in proposal.steps if step.part is Part.SQUARE), None)


def _blade(of: Settled) -> Blade | None:
    if of.what in (What.BAR, What.WEDGE, What.CYCLES):
        return None
    return Blade(of.width, of.thickness, of.edge, is_double=of.what is What.DOUBLE_EDGED)
