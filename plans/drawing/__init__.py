"""Pictures to scale as plain data, each steel in its own pattern: one description for a terminal and for SVG."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.drawing.records import (
        LAYERS as LAYERS,
        STEELS as STEELS,
        Bounds as Bounds,
        Drawing as Drawing,
        Measure as Measure,
        Note as Note,
        Part as Part,
        Pattern as Pattern,
        Point as Point,
        as_typed as as_typed,
        box as box,
        long as long,
    )
    from plans.drawing.sections import cut_across as cut_across, sides_of as sides_of
    from plans.drawing.side_by_side import lanes as lanes
    from plans.drawing.svg import as_svg as as_svg
else:
    __getattr__ = hand_on(__name__)
