"""Readings, silences, losses and words as they may come, for the tests that ask whatever a probe says."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf, nan
from typing import Any

from hypothesis import strategies as st

from plans.reading import Reading
from plans.sitting.engine import Sitting
from plans.sitting.events import Entry, Said, Tick, Word
from plans.sitting.words import WordError

SAID = st.one_of(st.floats(20.0, 1400.0), st.sampled_from([None, nan, inf, 4000.0, -200.0, 1500.0]))
SPELLS = st.one_of(
    st.tuples(st.sampled_from([0.1, 0.25, 1.0, 4.0, 12.0]), st.floats(700.0, 1300.0), st.integers(1, 40), SAID),
    st.sampled_from([1.0, 4.9, 5.0, 5.3, 8.0, 40.0]),
    st.sampled_from(["lost: unplugged", Word.NEXT, Word.NEXT, Word.OUT, Word.BACK, Word.UNDO, Word.PAUSE, Word.FINISH]),
)
"""A spell of readings with a last one that may be anything; a silence; a loss; a word."""


def play(sitting: Sitting, stream: list[Any], log: list[Entry], said: list[float | None]) -> Iterator[float]:
    """Open a sitting, say next, and hand it one spell after the other.

    Args:
        sitting: one that was not opened yet
        stream: the spells
        log: takes what is to be logged
        said: takes every temperature of the readings [K]

    Yields:
        the time after each spell [s]
    """
    log += sitting.open()
    log += sitting.take(Said(0.0, Word.NEXT))
    at = 0.0
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
        yield at
