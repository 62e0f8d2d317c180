"""The reckoning of forged bevels: how much wider and longer a bar gets when they are forged in."""

from __future__ import annotations

from plans.bench import LEAST_WIDENING, MOST_WIDENING, WIDENING, Forged, forge_bevel, forged_drawn
from plans.reckoned import Reckoned
from plans.reckoner import checks
from plans.reckoner.bars import of_the_section
from plans.reckoner.errors import ReckonError
from plans.reckoner.figures import Figure, Given, given
from plans.reckoner.kinds import LENGTH, NUMBER, SHARE, TYPED_LENGTH
from plans.reckoner.reckoning import Reckoning
from plans.shapes import Form, Section


def reckon_forged(
    section: Section, edge: float, bevel: float | None = None, edges: int = 1, widening: float | None = None
) -> Reckoning:
    """How much wider and longer a flat bar gets when bevels are forged in, volume held.

    Args:
        section: of the bar before, flat
        edge: thickness of the edge when it is done [m]
        bevel: width of each bevel when it is done, across the bar [m]; None where they take the whole width
        edges: 1, or 2 with a bevel on either edge
        widening: share of what is displaced that goes into width; None for what is usual, with its range

    Raises:
        ReckonError: the section is not flat, or an edge, a bevel, their number or the share is none that can be.
    """
    checks.bar(section, None)
    if section.form is not Form.FLAT:
        raise ReckonError("section", 'give a flat bar, e.g. "30 x 6 mm": bevels are forged into its faces')
    if not 0 < edge < section.thickness:
        raise ReckonError("edge", "give a thickness above zero, thinner than the bar")
    if edges not in (1, 2):
        raise ReckonError("edges", f"{edges}: give 1, or 2 for a double edge")
    if widening is not None and not 0 <= widening <= 1:
        raise ReckonError("widening", "give a share from 0, all into length, to 1, all into width")

    def forged(share: float) -> Forged:
        try:
            return forge_bevel(section.width, section.thickness, bevel, edge, edges=edges, widening=share)
        except ValueError:
            raise ReckonError("bevel", "give a width above zero, and no more than the bar then has") from None

    usual = forged(WIDENING if widening is None else widening)
    ends = None if widening is not None else (forged(LEAST_WIDENING), forged(MOST_WIDENING))
    said = (
        "volume held, no scale; what the bevel displaces and does not go into width goes into length; a peen along the "
        "bar widens more, one across it lengthens more"
    )

    def figure(key: str, label: str, of: str, less: float = 0.0) -> Figure:
        kind = NUMBER if of == "elongation" else LENGTH
        value = getattr(usual, of) - less
        spans = (None, None) if ends is None else tuple(sorted(getattr(end, of) - less for end in ends))
        return Figure(key, label, Reckoned(value, "common practice", said, "common practice, no source", *spans), kind)

    asked: list[Given] = [of_the_section(section), given("edge_mm", "edge", edge, TYPED_LENGTH)]
    if bevel is not None:
        asked.append(given("bevel_mm", "bevel", bevel, TYPED_LENGTH))
    asked += [
        given("edges", "edges", edges, NUMBER),
        given("widening", "into width", WIDENING if widening is None else widening, SHARE),
    ]
    return Reckoning(
        "forged",
        tuple(asked),
        (
            figure("wider_mm", "wider by", "width", section.width),
            figure("width_mm", "width then", "width"),
            figure("elongation", "times as long", "elongation"),
        ),
        drawing=forged_drawn(section.width, section.thickness, edge, bevel, edges, usual),
    )
