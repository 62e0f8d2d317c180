"""The engine's peak is the figures' peak, whatever the probe says."""

from __future__ import annotations

from math import inf, nan
from typing import Any

from hypothesis import given, settings, strategies as st

from plans.logbook.figures import HeatFigures
from plans.logbook.heats import heat_figures
from plans.plan import Plan
from plans.reading import ProbeOn, Reading
from plans.sitting.believed import Believed
from plans.sitting.engine import Sitting
from plans.sitting.events import Said, Tick, Word
from plans.sitting.words import WordError
from plans.trace import from_tenths, to_tenths

SAID = st.one_of(st.floats(20.0, 1400.0), st.sampled_from([None, nan, inf, 4000.0, -200.0, 1500.0]))
SPELLS = st.one_of(
    st.tuples(st.sampled_from([0.1, 0.25, 1.0, 4.0, 12.0]), st.floats(700.0, 1300.0), st.integers(1, 40), SAID),
    st.sampled_from([1.0, 4.9, 5.0, 5.3, 8.0, 40.0]),
    st.sampled_from(["lost: unplugged", Word.NEXT, Word.NEXT, Word.OUT, Word.BACK, Word.UNDO, Word.PAUSE, Word.FINISH]),
)
"""A spell of readings with a last one that may be anything; a silence; a loss; a word."""


def heat_now(sitting: Sitting) -> HeatFigures | None:
    """The figures of the heat that is going on."""
    state = sitting.state
    return next(
        (
            heat
            for step in heat_figures(sitting).steps
            for heat in step.heats
            if (step.step, heat.heat) == (state.step, state.heat)
        ),
        None,
    )


@settings(deadline=None, max_examples=80)
@given(stream=st.lists(SPELLS, max_size=20))
def test_engine_and_figures_have_one_peak(trial: Plan, stream: list[Any]) -> None:
    sitting = Sitting(trial, ProbeOn.WORK)
    log = list(sitting.open())
    log += sitting.take(Said(0.0, Word.NEXT))
    at, said = 0.0, []
    for spell in stream:
        match spell:
            case (every, celsius, count, last):
                for kelvin in [*[celsius + 273.15] * count, None if last is None else last + 273.15]:
                    at += every
                    said.append(kelvin)
                    log += sitting.take(Reading(at, kelvin))
            case float():
                at += spell
                log += sitting.take(Tick(at))
            case Word():
                try:
                    log += sitting.take(Said(at, spell))
                except WordError:
                    log += sitting.take(Tick(at))
            case fault:
                at += 0.5
                log += sitting.take(Reading(at, None, fault))
        heat, (peak, _) = heat_now(sitting), sitting.peak or (None, None)
        assert (None if peak is None else from_tenths(to_tenths(peak))) == (None if heat is None else heat.peak)
        if peak is not None:
            # A median of three or more is no more than the second highest of them.
            borne_out = sorted(kelvin for kelvin in said if kelvin is not None and 200.0 <= kelvin <= 2300.0)[-2:-1]
            modelled = [kelvin for kelvin in sitting.warm.skin if kelvin == kelvin]
            assert peak <= max([*borne_out, *modelled]) + 0.05

    again = Sitting(trial, ProbeOn.WORK)
    again.replay(log)
    again.take(Tick(at))
    alone = Believed.of(log, ProbeOn.WORK)
    for other in (again.believed, alone):
        assert other.measured == sitting.measured
        assert other.kelvins.tobytes() == sitting.believed.kelvins.tobytes()
        assert list(other.until)[:-1] == list(sitting.believed.until)[:-1]
