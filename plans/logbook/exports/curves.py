"""The curves of a sitting as a page draws them: thinned, in unbroken pieces, each with what it is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import inf

from plans.logbook.reviewing import Timeline
from plans.logbook.thinning import Points, pieces_of, thin
from plans.reading import ProbeOn
from plans.record import record

CURVES = {
    "measured": "skin, measured",
    "modelled": "skin, modelled",
    "middle": "middle, modelled",
    "fire": "fire, measured",
}
"""What each kind of curve is, as the legend says it."""


@record
class DrawnCurve:
    """One curve of the page's trace, thinned."""

    kind: str
    """What it is, and how it is drawn: one of `CURVES`, as the style names them."""
    pieces: list[Points]
    """Its unbroken pieces, in order."""


def curves(timeline: Timeline) -> list[DrawnCurve]:
    """The curves of a sitting, the most important last: it lies on top."""
    kept = timeline.kept
    skin, middle = thin(pieces_of(kept.skin)), thin(pieces_of(kept.middle))
    measured = thin(timeline.believed.pieces(0.0, inf))
    if kept.header.probe_on is ProbeOn.WORK:
        skin = [part for piece in skin for part in _without(piece, measured)]
        return [DrawnCurve("middle", middle), DrawnCurve("modelled", skin), DrawnCurve("measured", measured)]
    return [DrawnCurve("fire", measured), DrawnCurve("middle", middle), DrawnCurve("modelled", skin)]


def inside(piece: Points, begin: float, end: float) -> Iterator[tuple[float, float]]:
    """The points between two times, and the next one on each side."""
    for index, (at, value) in enumerate(piece):
        follows = index + 1 < len(piece) and piece[index + 1][0] >= begin
        comes_after = index > 0 and piece[index - 1][0] <= end
        if begin <= at <= end or (at < begin and follows) or (at > end and comes_after):
            yield at, value


def _without(piece: Points, others: Iterable[Points]) -> Iterator[Points]:
    """The parts of a curve that lie where the others have nothing."""
    part: Points = []
    covered = [(other[0][0], other[-1][0]) for other in others]
    for point in piece:
        if any(begin < point[0] < end for begin, end in covered):
            if part:
                yield [*part, point]
            part = []
        else:
            part.append(point)
    if part:
        yield part
