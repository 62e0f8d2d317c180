"""Hours in an oven in which nothing happens: a page says them in a line, and has the room for where something does."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import Final

from plans.logbook.exports.curves import DrawnCurve, inside
from plans.logbook.exports.writing import in_markup, on_paper
from plans.logbook.reviewing import LookingBack
from plans.phase import PhaseKind
from plans.record import record
from plans.shown import show_clock
from plans.units import Units

_LONG: Final = 2700.0
"""A hold is drawn whole where it is no longer between two events [s]."""
_COMES_UP, _BEFORE = 1200.0, 300.0
"""What is drawn of a longer one all the same: its beginning, and what comes before its end [s]."""
_EVEN: Final = 20.0
"""By so much a curve may go up and down in what is left out: a temperature difference [K]."""


@record
class LeftOut:
    """Part of a hold that is said and not drawn."""

    began: float
    """From when on, in seconds since the sitting began."""
    ended: float
    """Until when, in seconds since the sitting began."""
    least: float
    """The lowest that any curve has there [K]."""
    most: float
    """The highest [K]."""

    def line(self, back: LookingBack, units: Units) -> str:
        """It as a line between the strips."""
        clock = back.timeline.state.clock
        least, most = units.degrees(self.least), units.temperature(self.most)
        said = f"{show_clock(clock(self.began))} to {show_clock(clock(self.ended))} in the oven, {least} to {most}"
        return f'<p class="about">{in_markup(on_paper(said))}: not drawn</p>'


def left_out(back: LookingBack, drawn: Sequence[DrawnCurve]) -> list[LeftOut]:
    """What a page leaves out of its trace, in order: long even holds, and nothing in which there is anything to see."""
    return list(_left_out(back, drawn))


def _left_out(back: LookingBack, drawn: Sequence[DrawnCurve]) -> Iterator[LeftOut]:
    events = sorted(_events(back))
    for span in back.timeline.spans:
        if span.phase is not PhaseKind.OVEN or span.ended - span.began <= _LONG:
            continue
        times = [span.began, *(at for at in events if span.began < at < span.ended), span.ended]
        for before, after in pairwise(times):
            began, ended = before + _COMES_UP, after - _BEFORE
            values = [value for piece in _pieces(drawn) for _, value in inside(piece, began, ended)]
            if after - before > _LONG and values and max(values) - min(values) <= _EVEN:
                yield LeftOut(began, ended, min(values), max(values))


def _pieces(drawn: Iterable[DrawnCurve]) -> Iterator[list[tuple[float, float]]]:
    for curve in drawn:
        yield from curve.pieces


def _events(back: LookingBack) -> Iterator[float]:
    """When there is anything to see: calls, notes, what stands out, and both sides of a break."""
    state = back.timeline.state
    yield from (call.at for call in state.calls)
    yield from (note.at for note in state.notes)
    yield from (finding.at for finding in back.findings)
    for sides in state.breaks:
        yield from sides
