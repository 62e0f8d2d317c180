"""Billets drawn to scale: a stack through its folds, a twist, parts across a bevel, a laminate, a notch, a lean."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import accumulate, pairwise
from math import cos, hypot, pi, radians, sin, tan
from typing import Final

from plans.billets.composite import Blade
from plans.billets.cutting import between, left_of
from plans.billets.laminate import Laminate
from plans.billets.layers import Meeting, Stage, in_order
from plans.billets.notch import USUAL_LOSS
from plans.billets.wander import Corners
from plans.drawing import LAYERS, STEELS, Drawing, Measure, Note, Part, Pattern, Point, box
from plans.shapes import Section
from plans.units import Shown

CORE, JACKET = STEELS[:2]
"""The patterns of a core and its jacket."""
_INNER: Final = (Pattern.HATCHED, Pattern.COUNTER)
"""The patterns of several cores side by side, by turns: as a twist and one the other way round."""
_DRAWN_ONE_BY_ONE: Final = 16
"""Layers that can still be told apart in a terminal."""
_STAGES: Final = 4
"""Stages side by side, at most."""


def _typed(metres: float, what: str = "") -> Shown:
    """What was given; what it is stands before it, where that is not plain to see."""
    return lambda units: f"{what} {units.exact_length(metres)}".strip()


def _width(metres: float, what: str = "") -> Shown:
    """What was found, in the same way."""
    return lambda units: f"{what} {units.width(metres)}".strip()


def stack_drawn(
    pieces: int,
    cut_in: int | None,
    meeting: Meeting,
    stages: Sequence[Stage],
    thickness: float | None,
    each: tuple[float, float] = (1.0, 1.0),
) -> Drawing:
    """A billet as it is first stacked and after each fold, pieces of two steels in turn.

    Args:
        pieces: pieces of the first stack
        cut_in: how many pieces it is cut in each time; None where it is folded
        meeting: which faces meet
        stages: the billet at each stage
        thickness: of the billet at each stage [m]; None where it is not known, and no dimension tells it
        each: thickness of one piece of the first steel and of one of the second, in any unit
    """
    shown = [*range(len(stages))] if len(stages) <= _STAGES else [0, 1, 2, len(stages) - 1]
    tall = thickness or 1.0
    parts: list[Part] = []
    measures: list[Measure] = []
    for place, done in enumerate(shown):
        left = place * 1.4 * tall
        right = left + tall
        if stages[done].layers <= _DRAWN_ONE_BY_ONE:
            layers = in_order(pieces, done, cut_in or 2, meeting, each)
            rising = [0.0, *accumulate(layer.share * tall for layer in layers)]
            parts += [
                Part(box(left, low, right, high), STEELS[layer.steel], f"steel {layer.steel + 1}")
                for layer, (low, high) in zip(layers, pairwise(rising), strict=True)
            ]
        else:
            parts.append(Part(box(left, 0.0, right, tall), LAYERS, "layers too fine to draw"))
        measures.append(Measure((left, 0.0), (right, 0.0), str(stages[done].layers)))
    if thickness is not None:
        measures.append(Measure((right, 0.0), (right, tall), _typed(thickness)))
    said = "how many layers the stack has, and after each " + ("fold" if cut_in is None else "time it is stacked again")
    return Drawing(said, tuple(parts), tuple(measures))


def twist_drawn(section: Section, pitch: float) -> Drawing:
    """Two turns of a twisted bar from the side, as if it were of two halves: how the lines of its surface run.

    Args:
        section: the bar before it was twisted
        pitch: length of one turn [m]
    """
    radius, length = section.width / 2, 2 * pitch
    whole = box(0.0, -radius, length, radius)
    steps = 12

    def winding(number: int) -> list[Point]:
        """One line along the front, from the top down."""
        return [(pitch / 2 * (number + step / steps), radius * cos(pi * step / steps)) for step in range(steps + 1)]

    parts = [Part(whole, STEELS[0], "one half")]
    for number in range(-1, 4, 2):
        band = [*winding(number), *reversed(winding(number + 1))]
        cut = [(min(length, max(0.0, x)), y) for x, y in band]
        parts.append(Part(tuple(cut), STEELS[1], "the other"))
    measures = (
        Measure((0.0, -radius), (pitch, -radius), _typed(pitch)),
        Measure((length, -radius), (length, radius), _typed(section.width)),
    )
    return Drawing("a bar of two halves, twisted, from the side", tuple(parts), measures)


def patterns_of(count: int) -> tuple[tuple[Pattern, str], ...]:
    """The pattern of each bar side by side, with what it is: jackets outside, cores between them.

    Args:
        count: how many bars there are
    """
    if count < 3:
        return ((JACKET, "jacket"), (CORE, "core"))[:count]
    inner = count - 2
    cores = [(_INNER[place % 2], "core" if place % 2 == 0 else "core, counter") for place in range(inner)]
    if inner == 1:
        cores = [(CORE, "core")]
    return ((JACKET, "jacket"), *cores, (JACKET, "jacket"))


def composite_drawn(face: float, blade: Blade | None, borders: Sequence[float], lean: float = 0.0) -> Drawing:
    """Bars side by side across a blade's section, its front above, or across the flat bar.

    Args:
        face: width of the whole [m]
        blade: the section; None for a flat bar, a quarter as thick as it is wide
        borders: where they meet on the middle plane, from the first edge [m]
        lean: by how much the borders lean towards the second edge, on their way to the front [degrees]
    """
    half = (blade.ridge if blade is not None else face / 4) / 2
    outline = blade.outline if blade is not None else box(0.0, -half, face, half)
    edges = [-face, *borders, 2 * face]
    slope = tan(radians(lean))
    parts = [
        Part(cut, pattern, name)
        for (low, high), (pattern, name) in zip(pairwise(edges), patterns_of(len(borders) + 1), strict=True)
        if (cut := between(outline, low, high, slope))
    ]
    places = [0.0, *borders, face]
    measures = [Measure((low, -half), (high, -half), _width(high - low)) for low, high in pairwise(places)]
    measures.append(Measure((0.0, half), (face, half), _typed(face)))
    if blade is not None:
        thin = blade.edge / 2
        measures.append(Measure((face, -half), (face, half), _typed(blade.ridge)))
        measures.append(Measure((0.0, -thin), (0.0, thin), _typed(blade.edge)))
    return Drawing("bars side by side, the front above", tuple(parts), tuple(measures))


def laminate_drawn(laminate: Laminate, off: float = 0.0) -> Drawing:
    """The bevel of a laminate, its edge at the left.

    Args:
        laminate: the three layers
        off: how far the core lies off the middle, upwards [m]
    """
    height, half, thin = laminate.bevel, laminate.spine / 2, laminate.edge / 2
    outline = ((0.0, -thin), (height, -half), (height, half), (0.0, thin))
    top, bottom = off + laminate.core / 2, off - laminate.core / 2
    core = left_of(left_of(outline, (0.0, bottom), (1.0, 0.0)), (0.0, top), (-1.0, 0.0))
    line, back = (min(height, max(0.0, laminate.line(aside))) for aside in (off, -off))
    measures = (
        *((Measure((0.0, half), (line, half), _width(line)),) if line else ()),
        *((Measure((0.0, -half), (back, -half), _width(back)),) if off and back else ()),
        Measure((0.0, -half), (height, -half), _typed(height)),
        Measure((height, -half), (height, half), _typed(laminate.spine)),
        Measure((height, bottom), (height, top), _typed(laminate.core)),
        Measure((0.0, -thin), (0.0, thin), _typed(laminate.edge)),
    )
    parts = (Part(outline, JACKET, "jacket"), *((Part(core, CORE, "core"),) if core else ()))
    return Drawing("the bevel cut across, its edge at the left", parts, measures)


def notch_drawn(width: float, core: float, depth: float, angle: float, jacket: float) -> Drawing:
    """The end of a bar with its notch, and beside it the notch closed.

    Args:
        width: of the bar [m]
        core: width of the core [m]
        depth: of the notch [m]
        angle: from flank to flank [degrees]
        jacket: what of jacket is left in front of the core, once the tip is ground back [m]
    """
    half, bend = width / 2, radians(angle / 2)
    mouth = depth * tan(bend)
    flank = hypot(depth, mouth)
    back = -0.6 * width
    # The closed one lies to the right of the notched one.
    aside = depth + 0.6 * width - back
    ends_at = core / 2 / tan(bend)
    tip = (depth * cos(bend) + half * sin(bend), half * cos(bend) - depth * sin(bend))
    kernel = flank - jacket - USUAL_LOSS
    parts = (
        Part(_mirrored((back, half), (depth, half), (depth, mouth), (0.0, 0.0)), JACKET, "jacket"),
        Part(_mirrored((back, core / 2), (ends_at, core / 2), (0.0, 0.0)), CORE, "core"),
        Part(_moved(_mirrored((back, half), (0.0, half), tip, (flank, 0.0)), aside), JACKET, "jacket"),
        Part(_moved(_mirrored((back, core / 2), (0.0, core / 2), (max(0.0, kernel), 0.0)), aside), CORE, "core"),
    )
    measures = (
        Measure((0.0, -half), (depth, -half), _width(depth)),
        Measure((aside, -half), (aside + flank, -half), _width(flank, "weld")),
        Measure((aside + kernel, half), (aside + kernel + jacket, half), _typed(jacket, "jacket")),
        Measure((depth, -mouth), (depth, mouth), _width(2 * mouth, "V")),
        Measure((back, -core / 2), (back, core / 2), _typed(core)),
        Measure((back, -half), (back, half), _typed(width)),
    )
    return Drawing("the end of the bar from the front: the notch, and the notch closed", parts, measures)


def _mirrored(*above: Point) -> tuple[Point, ...]:
    """An outline that ends on the level of 0, from its upper half."""
    return (*above, *((x, -y) for x, y in reversed(above[:-1])))


def _moved(outline: Sequence[Point], aside: float) -> tuple[Point, ...]:
    return tuple((x + aside, y) for x, y in outline)


def wander_drawn(
    width: float, thickness: float, front: tuple[float, float], back: tuple[float, float], corners: Corners
) -> Drawing:
    """A bar cut across, its front above, with a core that leans.

    Args:
        width: of the bar [m]
        thickness: of the bar [m]
        front: where the core begins and ends on the front, from the left [m]
        back: the same on the back, from the same side [m]
        corners: which corners to strike
    """
    core = ((back[0], 0.0), (back[1], 0.0), (front[1], thickness), (front[0], thickness))
    parts = (Part(box(0.0, 0.0, width, thickness), JACKET, "jacket"), Part(core, CORE, "core"))
    measures = (
        Measure((front[0], thickness), (front[1], thickness), _typed(front[1] - front[0])),
        Measure((back[0], 0.0), (back[1], 0.0), _typed(back[1] - back[0])),
        Measure((width, 0.0), (width, thickness), _typed(thickness)),
    )
    notes = tuple(Note(at, "×") for at in _corners_of(corners, width, thickness))
    said = "the bar cut across, the front above" + ("; × where to strike" if notes else "")
    return Drawing(said, parts, measures, notes)


def _corners_of(corners: Corners, width: float, thickness: float) -> Iterator[Point]:
    if corners is Corners.FRONT_RIGHT:
        yield from ((width, thickness), (0.0, 0.0))
    if corners is Corners.FRONT_LEFT:
        yield from ((0.0, thickness), (width, 0.0))
