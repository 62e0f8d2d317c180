"""The piece as it shall be, as it comes from the anvil, and the bar that it is forged from."""

from __future__ import annotations

from typing import Final

from plans.bench import WIDENING, forge_bevel
from plans.maker.marking import set_to, worked_to
from plans.maker.settled import EDGED, Settled
from plans.making import Part, What
from plans.record import record
from plans.shapes import Blade, Body, Form, Runout, Section
from plans.stock import Allowances
from plans.units import Units

GRIND: Final = Allowances().grinding
"""What is ground off each face [m]: common practice, no source."""
LEAST_EDGE: Final = 2e-3
"""Thickness of a forged edge, which is kept until after the quench: a thin one warps and cracks [m]. Common practice
(1.5 to 2.5 mm), no source."""
LEAST_WRITTEN: Final = 0.5e-3
"""No side of a section in a plan is thinner [m]."""
TIP: Final = 4e-3
"""Width of a point as it is forged, to be ground to its outline [m]: common practice, no source."""
TAPERED: Final = 0.65
"""Thickness at the beginning of the point, as a share of that at the shoulder: common practice, no source."""


@record
class Forms:
    """The sections that a piece goes through once its billet is made, and the volumes of its parts as forged."""

    finished: Blade
    """The piece as it shall be."""
    bar: Section
    """The bar that it is forged from: thick and wide enough, and flat."""
    tapered: Section
    """The same once it tapers, halfway along the blade."""
    tip: Section | None
    """The same where the point begins; None where nothing tapers."""
    forged: Section
    """The blade halfway along, as it comes from the anvil."""
    body: float
    """Volume of the blade as forged, without its point and its tang [m3]."""
    point: float
    """Volume of the point as forged [m3]; 0 where there is none."""
    tang: float
    """Volume of each tang as forged [m3]; 0 where there is none."""
    tang_section: Section
    """Section of each tang as forged."""
    end: Section
    """The very tip of a point as forged, to be ground to its outline."""


def forms_of(of: Settled, units: Units = Units.METRIC) -> Forms:
    """What a piece goes through from its bar on.

    Args:
        of: what shall be made
        units: those in which the work is measured
    """
    tapers = of.what in EDGED and of.what is not What.DRAWKNIFE and of.has(Part.TAPER)
    share = TAPERED if tapers else 1.0
    edges = 2 if of.what is What.DOUBLE_EDGED else 1
    full, thin = (_section(of, of.thickness * one) for one in (1.0, share))
    finished = Blade(tuple(_bodies(of, full, thin)))

    def side(metres: float) -> float:
        return set_to(metres, units)

    # what stands in the finished piece is no smaller than with what is ground off it
    width, thickness = (set_to(one + 2 * GRIND, units, up=True) for one in (of.width, of.thickness))
    mean = side(thickness * (1 + share) / 2)
    end = worked_to(TIP, LEAST_EDGE, units)
    if of.what is What.CYCLES:
        edge = max(of.edge, LEAST_WRITTEN)
        there = Section(of.width, of.thickness, Form.WEDGE, edge) if edge < of.thickness else full
        return Forms(finished, there, there, None, there, 0.0, 0.0, 0.0, of.tang, end)
    if of.what not in EDGED:
        raw = Section.flat(width, thickness)
        tip = Section.flat(width, side(min(LEAST_EDGE, thickness / 2))) if of.what is What.WEDGE else None
        shape = raw if tip is None else Section.flat(width, side((thickness + tip.thickness) / 2))
        return Forms(finished, raw, shape, tip, shape, shape.area * of.length, 0.0, 0.0, of.tang, end)
    forged = tapered = Section.flat(width, mean)
    if of.has(Part.BEVELS) and mean > LEAST_EDGE * 1.05:
        edge = side(max(LEAST_EDGE, of.edge + 2 * GRIND))
        forged = Section(width, mean, _form(of), edge) if edge < mean else tapered
    before = width if forged.edge is None else side(_before_bevels(width, mean, forged.edge, edges))
    bar, tapered = Section.flat(before, thickness), Section.flat(before, mean)
    tip = Section.flat(before, side(thickness * share)) if tapers else None
    tang = Section.flat(side(of.tang.width + 2 * GRIND), side(of.tang.thickness + 2 * GRIND))
    return Forms(
        finished=finished,
        bar=bar,
        tapered=tapered,
        tip=tip,
        forged=forged,
        body=forged.area * (of.length - (of.point if of.has(Part.POINT) else 0.0)),
        point=_point(forged, of.point) if of.point and of.has(Part.POINT) else 0.0,
        tang=tang.area * of.tang_length,
        tang_section=tang,
        end=end,
    )


def _point(forged: Section, length: float) -> float:
    """Volume of a forged point [m3]."""
    return Body(forged, length, Section.flat(TIP, min(LEAST_EDGE, forged.thickness))).volume


def _bodies(of: Settled, full: Section, thin: Section) -> list[Body]:
    if of.what is What.WEDGE:
        return [Body(full, of.length, Runout.EDGE, name="wedge")]
    if of.what not in EDGED:
        return [Body(full, of.length, name="bar")]
    tang = Body(of.tang, of.tang_length, name="tang") if of.is_tanged else None
    blade = (
        [Body(full, of.length - of.point, None if thin == full else thin, name="blade")] if of.length > of.point else []
    )
    point = [Body(thin, of.point, Runout.TIP, name="point")] if of.point else []
    other = [tang] if tang and of.what is What.DRAWKNIFE else []
    return [*([tang] if tang else []), *blade, *point, *other]


def _section(of: Settled, thickness: float) -> Section:
    if of.what not in EDGED:
        return Section.flat(of.width, thickness)
    return Section(max(of.width, thickness), thickness, _form(of), min(of.edge, 0.8 * thickness))


def _form(of: Settled) -> Form:
    return Form.DIAMOND if of.what is What.DOUBLE_EDGED else Form.WEDGE


def _before_bevels(width: float, thickness: float, edge: float, edges: int) -> float:
    """Width of the flat bar into which bevels are forged that then is so wide [m]: `forge_bevel` turned over."""
    one = forge_bevel(width, thickness, None, edge, edges=edges, widening=WIDENING).width / width
    return max(width / one, thickness)
