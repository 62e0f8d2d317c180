"""The hottest that the work's skin was in the heat that goes on."""

from __future__ import annotations

from dataclasses import replace

from plans.sitting.believed import Believed
from plans.sitting.calls import Call
from plans.sitting.events import Basis, Called, Eased, Event
from plans.sitting.phase_span import phase_spans, spans_by_model
from plans.sitting.skin import Skin
from plans.sitting.state import State
from plans.sitting.warm import WorkWarmth


class Peak:
    """Works the hottest out from what of the heat was not looked at yet.

    Args:
        believed: what is believed of the probe
        warm: the warm model, run along
    """

    def __init__(self, believed: Believed, warm: WorkWarmth) -> None:
        self._believed = believed
        self._warm = warm
        self._looked_until = 0.0
        """Until when the heat was looked at; from the beginning, once what it was may have changed [s]."""
        self._found: tuple[float, Basis] | None = None

    def follow(self, event: Event) -> None:
        """Look at all of it anew where an event may tell otherwise what the skin was, or which heat goes on."""
        if not isinstance(event, Called | Eased) or (isinstance(event, Called) and event.call is Call.PROBE_SLOW):
            self._looked_until, self._found = 0.0, None

    def up_to(self, state: State, now: float) -> tuple[float, Basis] | None:
        """The hottest up to now [K], as the figures of a heat say it, and whether it was measured; None if unknown.

        Args:
            state: where the sitting stands
            now: the time [s]
        """
        since, before = self._looked_until, self._found
        spans = (part for part in phase_spans(state, now) if (part.step, part.heat) == (state.step, state.heat))
        heat = [replace(part, began=max(part.began, since)) for part in spans if part.ended > since]
        skin = Skin(self._believed, self._warm, spans_by_model(state, now))
        peak = skin.peak(heat, state.pauses(now))
        if before is not None and (peak is None or before[0] >= peak[0]):
            peak = before
        self._looked_until, self._found = now, peak
        return peak
