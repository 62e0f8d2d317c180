"""The simulated probe's faults, in the shares that they are meant to have."""

from __future__ import annotations

from random import Random
from statistics import mean, pstdev

import pytest

from devices.decode import Decoder
from devices.rehearsal.probe import Probe
from devices.rehearsal.rehearsal import PROFILE

MOMENT = 0.25
SKIN = 1273.15


def sent(seed: int, skin: float = SKIN, seconds: float = 20_000.0) -> list[tuple[bytes, ...]]:
    probe = Probe(Random(seed))
    return [probe.lines(n * MOMENT, MOMENT, skin) for n in range(int(seconds / MOMENT))]


def figures(moments: list[tuple[bytes, ...]]) -> list[float]:
    return [float(lines[-1]) for lines in moments if lines]


def test_noise_is_two_degrees_and_half_a_percent_are_spikes() -> None:
    found = figures(sent(1))
    usual = [celsius for celsius in found if abs(celsius - 1000.0) < 15.0]
    assert mean(usual) == pytest.approx(1000.0, abs=0.1)
    assert pstdev(usual) == pytest.approx(2.0, rel=0.03)
    assert 0.004 < 1 - len(usual) / len(found) < 0.006


def test_two_percent_of_the_lines_are_missing_and_one_silence_lasts_ten_to_twenty_seconds() -> None:
    for seed in range(10):
        moments = sent(seed, seconds=4000.0)
        missing = [n for n, lines in enumerate(moments) if not lines]
        runs, begin = [], missing[0]
        for before, after in zip(missing, [*missing[1:], -1], strict=False):
            if after != before + 1:
                runs.append((before - begin + 1) * MOMENT)
                begin = after
        (silence,) = [run for run in runs if run > 3.0]
        assert 10.0 <= silence <= 21.0
        assert 0.015 < (len(missing) - silence / MOMENT) / len(moments) < 0.025


def test_lags_by_half_a_second() -> None:
    answers = []
    for seed in range(400):
        probe = Probe(Random(seed))
        probe.lines(0.0, MOMENT, SKIN)
        probe.lines(MOMENT, MOMENT, SKIN + 100.0)
        lines = probe.lines(2 * MOMENT, MOMENT, SKIN + 100.0)
        if lines:
            answers.append(float(lines[-1]) - 1000.0)
    # After one time constant, 1 - 1/e of the step.
    assert mean(celsius for celsius in answers if abs(celsius) < 110.0) == pytest.approx(63.2, abs=1.0)


def test_junk_comes_beside_a_reading_and_is_no_reading_to_the_decoder() -> None:
    decoder = Decoder(PROFILE)
    doubled = [lines for lines in sent(2) if len(lines) > 1]
    assert 100 < len(doubled) < 500
    for junk, reading in doubled:
        assert decoder.decode(junk.rstrip()).is_junk
        assert decoder.decode(reading.rstrip()).kelvin is not None


def test_the_same_seed_sends_the_same_bytes() -> None:
    assert sent(5, seconds=1000.0) == sent(5, seconds=1000.0)
