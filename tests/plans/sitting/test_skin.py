"""The skin through a sitting: measured where a probe on it is believed, modelled elsewhere; and its peak."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, strategies as st

from plans.logbook.figures.heats import heat_figures
from plans.logbook.figures.of_a_sitting import HeatFigures
from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reading import ProbeOn, Reading
from plans.shop import Shop
from plans.sitting.believed import Believed
from plans.sitting.engine import Sitting
from plans.sitting.events import Basis, Entry
from plans.sitting.phase_span import PhaseSpan
from plans.sitting.skin import Skin
from plans.sitting.warm import WorkWarmth
from plans.trace import from_tenths, to_tenths
from tests.plans.sitting.spells import SPELLS, play

Modelled = Callable[..., Skin]
MEASURED, MODELLED = Basis.MEASURED, Basis.MODELLED
FIRE, STRIKE = PhaseKind.FIRE, PhaseKind.STRIKE


@pytest.fixture
def skin(plan: Plan) -> Modelled:
    """The skin by a model that has these temperatures, a grid point every half second from 0.5 s on, and readings."""

    def made(modelled: list[float], readings: dict[float, float], on: ProbeOn = ProbeOn.WORK) -> Skin:
        warm = WorkWarmth(plan, on, Shop())
        warm.skin.extend(modelled)
        return Skin(Believed.of((Reading(at, kelvin) for at, kelvin in readings.items()), on), warm)

    return made


def span(phase: PhaseKind, began: float, ended: float) -> PhaseSpan:
    return PhaseSpan(0, 1, phase, began, ended, ended - began)


def test_where_no_probe_is_believed_each_half_second_is_as_the_model_ends_it(skin: Modelled) -> None:
    by_model = skin([500.0, 510.0, 520.0, 530.0], {})
    assert list(by_model.over(0.0, 1.5)) == [(0.5, 500.0, MODELLED), (0.5, 510.0, MODELLED), (0.5, 520.0, MODELLED)]
    # From 0.3 on 500 for what is left of that half second; of the one after 1.0 the end is not known at 1.2.
    assert list(by_model.over(0.3, 1.2)) == [
        (pytest.approx(0.2), 500.0, MODELLED),
        (0.5, 510.0, MODELLED),
        (pytest.approx(0.2), 510.0, MODELLED),
    ]


def test_a_probe_on_the_work_goes_before_the_model_as_long_as_it_is_believed(skin: Modelled) -> None:
    # The median of three stands from 2.5 on; the model before it, and after the silence of five seconds.
    readings = {0.5: 900.0, 1.5: 900.0, 2.5: 900.0}
    found = list(skin([500.0] * 20, readings).over(0.0, 9.0))
    assert [round(seconds, 6) for seconds, _, basis in found if basis is MEASURED] == [5.0]
    assert {(kelvin, basis) for _, kelvin, basis in found} == {(900.0, MEASURED), (500.0, MODELLED)}
    assert sum(seconds for seconds, _, _ in found) == pytest.approx(9.0)
    assert found[0][2] is found[-1][2] is MODELLED


def test_a_probe_in_the_fire_says_nothing_of_the_skin(skin: Modelled) -> None:
    in_the_fire = skin([500.0] * 8, {0.25 * index: 1500.0 for index in range(12)}, ProbeOn.FIRE)
    assert {basis for _, _, basis in in_the_fire.over(0.0, 3.0)} == {MODELLED}


def test_what_neither_knows_is_left_out(skin: Modelled) -> None:
    nan = float("nan")
    assert list(skin([nan, nan, 520.0], {}).over(0.0, 1.5)) == [(0.5, 520.0, MODELLED)]
    assert list(skin([], {}).over(0.0, 60.0)) == []


def test_the_peak_of_a_heat_leaves_pauses_and_idle_phases_out(skin: Modelled) -> None:
    #   until [s]:      0.5    1.0    1.5    2.0    2.5    3.0
    by_model = skin([900.0, 500.0, 600.0, 800.0, 550.0, 700.0], {})
    parts = [span(PhaseKind.READY, 0.0, 0.5), span(FIRE, 0.5, 2.0), span(STRIKE, 2.0, 2.5)]
    assert by_model.peak(parts, []) == (800.0, MODELLED)
    assert by_model.peak(parts, [(1.5, 2.0)]) == (600.0, MODELLED)
    assert by_model.peak(parts[:1], []) is None
    assert [(part.phase, kelvin) for part, _, kelvin, _ in by_model.in_heat(parts, [(1.0, 1.5)])] == [
        (FIRE, 500.0),
        (FIRE, 800.0),
        (STRIKE, 550.0),
    ]


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


@given(stream=st.lists(SPELLS, max_size=20))
def test_engine_and_figures_have_one_peak(plan: Plan, stream: list[Any]) -> None:
    sitting = Sitting(plan, ProbeOn.WORK)
    log: list[Entry] = []
    said: list[float | None] = []
    for _ in play(sitting, stream, log, said):
        heat, (peak, _) = heat_now(sitting), sitting.peak or (None, None)
        assert (None if peak is None else from_tenths(to_tenths(peak))) == (None if heat is None else heat.peak)
        if peak is not None:
            # A median of three or more is no more than the second highest of them.
            borne_out = sorted(kelvin for kelvin in said if kelvin is not None and 200.0 <= kelvin <= 2300.0)[-2:-1]
            modelled = [kelvin for kelvin in sitting.warm.skin if kelvin == kelvin]
            assert peak <= max([*borne_out, *modelled]) + 0.05
