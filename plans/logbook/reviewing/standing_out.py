"""What stands out in a sitting: one rule for each thing, on the same figures as its tables, the most costly first."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterator
from typing import Final

from plans.logbook.figures import Finding, HeatEnd, HeatFigures, StepFigures, Toll, What
from plans.logbook.reviewing.timeline import Timeline
from plans.phase import WARMING, PhaseKind
from plans.plan import Step, StepKind
from plans.sitting import Basis, Call, Called, LeftFire, PhaseSpan, heat_ceiling, leeway

_APART: Final = 5.0
"""A probe tells a temperature from a limit that is this far off: a temperature difference [K]; from memory."""
_BLOWS: Final = 3.0
"""A blow or two too many below the cold limit take so long [s]; common practice, no source."""
_MOMENT: Final = 10.0
"""Nobody reaches into the fire sooner after a call [s]; common practice, no source."""
_FIRE: Final = 60.0
"""Less time in the fire for nothing is not spoken of [s]; common practice, no source."""
_LOOK: Final = 1.0
"""The skin is looked through for a moment in pieces of this [s]."""


def standing_out(timeline: Timeline) -> tuple[Finding, ...]:
    """What stands out in a sitting, the most costly first; see `Toll`.

    Nothing where its plan can't be read, or its figures could not be worked out.
    """
    figures, plan = timeline.kept.figures, timeline.plan
    if figures is None or plan is None:
        return ()
    found = [
        finding
        for shown in figures.steps
        for finding in _StepLookedAt(timeline, shown, plan.steps[shown.step]).findings()
    ]
    return tuple(sorted(found, key=lambda one: (one.toll, -one.beyond, one.at)))


class _StepLookedAt:
    """One step that was come to, held against its plan."""

    def __init__(self, timeline: Timeline, figures: StepFigures, step: Step) -> None:
        self._timeline = timeline
        self._figures = figures
        self._step = step
        self._calls = [
            call
            for place, call in enumerate(timeline.state.calls)
            if call.step == figures.step and place not in timeline.taken_back
        ]

    def findings(self) -> Iterator[Finding]:
        """All that stands out in the step, in no order."""
        for heat in self._figures.heats:
            spans = self._timeline.spans_of(self._figures.step, heat.heat)
            if not spans:
                continue
            yield from self._too_hot(heat, spans)
            cold = list(self._not_at_heat(heat, spans))
            yield from cold
            yield from self._struck_cold(heat, spans)
            yield from self._cut_off(heat, spans)
            yield from self._told(heat, spans, at_heat=not cold)
        yield from self._more_heats()
        yield from self._late_temper()

    def _too_hot(self, heat: HeatFigures, spans: list[PhaseSpan]) -> Iterator[Finding]:
        step, peak = self._step, heat.peak
        if peak is None:
            return
        target = step.target(heat.heat)
        ceiling = heat_ceiling(step, target)
        if step.burn_above is not None and peak - step.burn_above >= _APART:
            over, limit = peak - step.burn_above, step.burn_above
            what, toll, beyond = What.BURNT, Toll.SPOILED, over / _APART
        elif target is not None and ceiling is not None and peak > ceiling:
            over, limit = peak - target.heat_to, target.heat_to
            what, toll, beyond = What.OVER_HEAT, Toll.DOUBTFUL, over / (ceiling - limit)
        else:
            return
        # The figures are to the tenth of a degree, and the skin is not.
        at = self._first(spans, lambda kelvin: kelvin >= peak - 0.06)
        yield self._finding(what, toll, beyond, heat, at, over, limit, heat.basis)

    def _not_at_heat(self, heat: HeatFigures, spans: list[PhaseSpan]) -> Iterator[Finding]:
        """Skin or middle under the heat that the plan wants, as the work came out of the fire."""
        step, target = self._step, self._step.target(heat.heat)
        warming = [part for part in spans if part.phase in WARMING]
        if target is None or not warming or not heat.is_done:
            return
        out_at = self._out_at(warming)
        # A heat treatment is judged by the hottest that it was, as its call is: it cools on its way to the quench.
        skin = heat.leaving if heat_ceiling(step, target) is None else heat.peak
        for what, kelvin in ((What.UNDER_HEAT, skin), (What.MIDDLE_COLD, self._middle(out_at))):
            if kelvin is not None and (under := target.heat_to - kelvin) > step.even_within:
                beyond = under / max(step.even_within, _APART)
                basis = heat.basis if what is What.UNDER_HEAT else Basis.MODELLED
                yield self._finding(what, self._toll_of_cold, beyond, heat, out_at, under, target.heat_to, basis)
                return

    def _out_at(self, warming: list[PhaseSpan]) -> float:
        """When the work last came out of the fire in these phases [s]: on its way to a quench before they end."""
        began, ended = warming[0].began, warming[-1].ended
        told = (event for event in self._timeline.kept.log.events if isinstance(event, LeftFire))
        left = (event.at if event.happened is None else event.happened for event in told)
        return max((at for at in left if began <= at <= ended), default=ended)

    @property
    def _toll_of_cold(self) -> Toll:
        """What too little heat costs: drawing and forging it is done again, everything else only looks done."""
        return Toll.WASTED if self._step.kind in (StepKind.DRAW, StepKind.FORGE) else Toll.DOUBTFUL

    def _struck_cold(self, heat: HeatFigures, spans: list[PhaseSpan]) -> Iterator[Finding]:
        cold = self._step.keep_above
        if cold is None or heat.too_cold < _BLOWS:
            return
        struck = [part for part in spans if part.phase is PhaseKind.STRIKE]
        at = self._first(struck, lambda kelvin: kelvin < cold)
        beyond = heat.too_cold / _BLOWS
        yield self._finding(What.TOO_COLD, Toll.DOUBTFUL, beyond, heat, at, heat.too_cold, cold, heat.basis)

    def _cut_off(self, heat: HeatFigures, spans: list[PhaseSpan]) -> Iterator[Finding]:
        if heat.end is HeatEnd.CUT_OFF and heat.in_fire >= _FIRE:
            at = spans[-1].ended
            yield self._finding(What.CUT_OFF, Toll.WASTED, heat.in_fire / _FIRE, heat, at, heat.in_fire)

    def _told(self, heat: HeatFigures, spans: list[PhaseSpan], *, at_heat: bool) -> Iterator[Finding]:
        """What was called out, and no figure has."""
        for call in self._calls:
            if call.heat != heat.heat:
                continue
            match call.call:
                case Call.QUENCH_LATE:
                    yield self._finding(
                        What.QUENCH_LATE, Toll.DOUBTFUL, 1.0, heat, call.was, call.kelvin, basis=call.basis
                    )
                case Call.HOLD_SHORT:
                    yield from self._short(What.HOLD_SHORT, Toll.DOUBTFUL, heat, call)
                case Call.SOAK_SHORT if at_heat:
                    # Where the work was not at heat that is said, and this is why.
                    yield from self._short(What.SOAK_SHORT, self._toll_of_cold, heat, call)
                case Call.SOAKED_TOO_LONG:
                    late = max((part.ended for part in spans if part.phase in WARMING), default=call.was) - call.was
                    if late >= _MOMENT:
                        yield self._finding(What.SOAK_LONG, Toll.WASTED, late / _MOMENT, heat, call.was, late)

    def _short(self, what: What, toll: Toll, heat: HeatFigures, call: Called) -> Iterator[Finding]:
        if call.took is not None and call.wanted is not None:
            short = call.wanted - call.took
            yield self._finding(what, toll, short / leeway(call.wanted), heat, call.was, short, call.wanted)

    def _more_heats(self) -> Iterator[Finding]:
        planned, done = self._step.heats, [heat for heat in self._figures.heats if heat.is_done]
        more = done[planned:]
        spent = sum(heat.in_fire for heat in more)
        if spent >= _FIRE and (spans := self._timeline.spans_of(self._figures.step, more[0].heat)):
            beyond, at = spent / _FIRE, spans[0].began
            yield self._finding(What.MORE_HEATS, Toll.WASTED, beyond, more[0], at, float(len(done)), float(planned))

    def _late_temper(self) -> Iterator[Finding]:
        """Hardened work that waited for its oven; called out before the first heat of its step begins."""
        call = next((call for call in self._calls if call.call is Call.TEMPER_LATE), None)
        heat = next(iter(self._figures.heats), None)
        spans = [] if heat is None else self._timeline.spans_of(self._figures.step, heat.heat)
        within = self._step.phases[0].within
        if call is None or heat is None or not spans or within is None:
            return
        before = [part.began for part in self._timeline.spans if part.phase is PhaseKind.QUENCH]
        waited = spans[0].began - max((began for began in before if began <= call.at), default=call.at - within)
        if waited - within >= _MOMENT:
            yield self._finding(What.TEMPER_LATE, Toll.DOUBTFUL, waited / within, heat, call.was, waited - within)

    def _first(self, spans: list[PhaseSpan], is_so: Callable[[float], bool]) -> float:
        """When the skin first was so in these phases [s]; when the last of them ended, if it can't be found."""
        skin = self._timeline.skin
        for part in spans:
            at = part.began
            while at < part.ended:
                until = min(at + _LOOK, part.ended)
                if any(is_so(kelvin) for _, kelvin, _ in skin.over(at, until)):
                    return at
                at = until
        return spans[-1].ended

    def _middle(self, at: float) -> float | None:
        """The middle as the warm model had it last before a time [K]; None where it did not know."""
        trace = self._timeline.kept.middle
        place = bisect_right(trace.times, at) - 1
        kelvin = trace.kelvins[place] if place >= 0 else None
        return None if kelvin is None or kelvin != kelvin else kelvin

    def _finding(
        self,
        what: What,
        toll: Toll,
        beyond: float,
        heat: HeatFigures,
        at: float,
        amount: float | None,
        limit: float | None = None,
        basis: Basis = Basis.MEASURED,
    ) -> Finding:
        step = self._step
        number = self._figures.step
        return Finding(what, toll, beyond, number, heat.heat, step.kind, step.counts, at, amount, limit, basis)
