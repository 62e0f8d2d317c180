"""The sittings that are compared, made ready for looking at: their figures, and one heat of each from a moment on."""

from __future__ import annotations

from collections.abc import Sequence

from plans.logbook import KeptSitting, Logbook, LogbookError, Timeline, work_out
from plans.logbook.comparing import LETTERS, Laid, Moment, Part, apart, heats_from, lay_heats, side_by_side
from plans.record import record
from plans.sitting import Basis
from plans.units import Units
from tui.widgets import Curve, Series, TraceData, temperature


@record
class Overlaid:
    """One heat of each sitting, from a moment on."""

    moment: Moment
    """What is time 0."""
    heat: int
    """Number of the heat within the step, from 1."""
    heats: tuple[int, ...]
    """The heats that can be laid over one another from that moment."""
    laid: tuple[Laid | None, ...]
    """The heat of each sitting; None where it has no such moment."""

    @property
    def seconds(self) -> float:
        """How long the longest of them goes on [s]."""
        return max((one.seconds for one in self.laid if one is not None), default=0.0)

    def data(self, units: Units) -> TraceData:
        """What a trace shows of them."""
        every = apart(self.laid)
        series = [
            _series(letter, one, every) for letter, one in zip(LETTERS, self.laid, strict=False) if one is not None
        ]
        # Those that have no such heat keep their colours free.
        blank = [Series(letter) for letter, one in zip(LETTERS, self.laid, strict=False) if one is None]
        return TraceData(
            0.0,
            max(self.seconds, 1.0),
            series=sorted([*series, *blank], key=lambda one: one.sign),
            up=temperature(units),
        )


@record
class Compared:
    """Several sittings beside one another."""

    sittings: tuple[KeptSitting, ...]
    """The sittings, the others held against the first."""
    timelines: tuple[Timeline, ...]
    """Each told again."""
    parts: tuple[Part, ...]
    """Their figures: first the whole, then step by step."""
    messages: tuple[str, ...]
    """What is wrong with any of them, in plain words."""

    def moments(self, part: Part) -> list[Moment]:
        """The moments from which traces of a part can be laid over one another."""
        return [moment for moment in Moment if heats_from(self.timelines, moment, part.steps)]

    def overlaid(self, part: Part, wanted: Moment, heat: int) -> Overlaid | None:
        """One heat of a step laid over one another.

        Args:
            part: the step
            wanted: from when on; where no sitting has such a moment there, from the first that one has
            heat: number of the heat, from 1; where there is none like that the nearest that there is

        Returns:
            None where no sitting has a heat there
        """
        moments = self.moments(part)
        if not moments:
            return None
        moment = wanted if wanted in moments else moments[0]
        heats = heats_from(self.timelines, moment, part.steps)
        heat = min(heats, key=lambda one: abs(one - heat))
        return Overlaid(moment, heat, tuple(heats), tuple(lay_heats(self.timelines, moment, part.steps, heat)))


def read_compared(logbook: Logbook, ids: Sequence[str]) -> Compared:
    """Load sittings from the logbook and lay them beside one another; those that can't be read are left out and told.

    Args:
        logbook: where they are kept
        ids: their ids

    Raises:
        LogbookError: fewer than two can be read.
    """
    found, messages = [], []
    for name in ids:
        try:
            found.append(logbook.load(name, work_out))
        except LogbookError as error:
            messages.append(f"left out: {error}")
    messages += logbook.messages
    logbook.messages.clear()
    if len(found) < 2:
        raise LogbookError("; ".join(["fewer than two sittings are left to compare", *messages]))
    timelines = tuple(map(Timeline.of, found))
    for letter, one in zip(LETTERS, timelines, strict=False):
        if one.trouble is not None:
            messages.append(f"{letter}: {one.trouble}")
        elif one.kept.figures is None:
            messages.append(f"{letter}: no figures could be worked out from its log")
        elif not one.spans:
            messages.append(f"{letter}: nothing was begun in it")
        elif not len(one.kept.log.readings):
            messages.append(f"{letter} has no readings: its temperatures are modelled")
    parts = side_by_side(found)
    if len(parts) > 1 and not any(sum(step is not None for step in part.steps) > 1 for part in parts):
        messages.append("no step was come to in two of them: there is nothing to hold against one another step by step")
    return Compared(tuple(found), timelines, tuple(parts), tuple(messages))


def _series(letter: str, laid: Laid, every: float) -> Series:
    found = laid.every(every)
    at = [moment for moment, _ in found]

    def curve(basis: Basis) -> Curve:
        return Curve(at, [None if skin is None or skin[1] is not basis else skin[0] for _, skin in found])

    return Series(letter, curve(Basis.MEASURED), curve(Basis.MODELLED))
