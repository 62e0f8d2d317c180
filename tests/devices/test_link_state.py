"""What is told of a probe's pace, slow, fast, and slow with a buffer behind it."""

from __future__ import annotations

from collections.abc import Iterable

import pytest

from devices.link_state import Count, LinkPhase, LinkState
from devices.slots import Slots
from plans.reading import Reading


def told(said: Iterable[tuple[float, int]]) -> list[LinkState]:
    """How it stands after each time at which a probe has said so many at once [s]."""
    slots, count, states = Slots(), Count(), list[LinkState]()
    for at, readings in said:
        count.heard(readings)
        slots.hold([Reading(at, 1000.0)] * readings)
        if due := slots.due(at):
            count.handed_on(at, len(due))
        rate, thinned_to = count.rates
        states.append(LinkState(LinkPhase.OPEN, "", "", 0, 0, (), rate, "", count.merged, thinned_to))
    return states


def steady(rate: float, seconds: float, begin: float = 0.0) -> list[tuple[float, int]]:
    return [(begin + n / rate, 1) for n in range(round(seconds * rate))]


@pytest.mark.parametrize("rate", [0.2, 4.0, 10.0, 20.0])
def test_a_slow_probe_is_told_by_its_rate_alone(rate: float) -> None:
    states = told(steady(rate, 30.0))
    assert {state.too_fast for state in states} == {""}
    assert states[-1].pace == f"{rate:.1f}/s"


@pytest.mark.parametrize("rate", [25, 40])
def test_of_a_probe_that_says_a_little_too_much_it_is_told_what_comes_through(rate: int) -> None:
    states = told(steady(rate, 10.0))
    assert {state.pace for state in states[len(states) // 2 :]} == {f"{rate}/s, thinned to 22/s"}
    assert states[-1].too_fast == f"the probe says more than is needed: {rate}/s, thinned to 22/s"


def test_of_a_fast_one_how_many_a_median_is_of() -> None:
    rate, _, of_each = told(steady(1600, 4.0))[-1].pace.partition("/s, the median of every ")
    assert (int(rate), int(of_each.removesuffix(" counts"))) == pytest.approx((1600, 1600 / 22), rel=0.03)


@pytest.mark.parametrize("at_once", [10, 600])
@pytest.mark.parametrize("before", [0.0, 0.25, 0.5, 8.0])
def test_a_buffer_that_is_emptied_at_once_makes_no_slow_probe_fast(at_once: int, before: float) -> None:
    """A system's buffer holds four kilobytes, some six hundred short lines: what came while nobody read."""
    states = told([*steady(4.0, before), (before, at_once), *steady(4.0, 10.0, before + 0.25)])
    assert {state.too_fast for state in states} == {""}
    assert states[-1].merged == at_once - 1
    assert [state.rate for state in states[-4:]] == [pytest.approx(4.0)] * 4


def test_one_that_empties_its_buffer_again_and_again_is_fast() -> None:
    state = told([(n / 2, 500) for n in range(20)])[-1]
    assert state.pace == "1000/s, the median of every 500 counts"
