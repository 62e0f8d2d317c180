"""A few of the hard traces of `tests/listening/played/hard.py`, which prints the table of them all."""

from __future__ import annotations

import pytest

from tests.listening.played.cells import ARREST, IN, OUT
from tests.listening.played.hard import Trace, play
from tests.listening.played.thermometer import Faults

LOOSE = [
    Trace(scene, mm, Faults(2.0, hertz, silences=0.0, contacts=30.0), 3)
    for scene, mm, hertz in [
        ("weld", 6.0, 10.0),
        ("weld", 12.0, 1.0),
        ("normalize", 6.0, 4.0),
        ("normalize", 12.0, 10.0),
        ("normalize", 6.0, 1.0),
    ]
]
SLOW = [Trace(scene, mm, Faults(silences=0.0), 2) for scene, mm in [("turned down", 6.0), ("fire 300 K low", 12.0)]]


@pytest.mark.parametrize("trace", [*LOOSE, *SLOW, Trace("kiln", 6.0, Faults(2.0, 1.0, silences=0.0), 2)], ids=repr)
def test_every_heat_is_heard_and_none_that_was_not(trace: Trace) -> None:
    heard = play(trace)
    assert heard.heats == heard.true_heats
    for what in (IN, OUT):
        assert (heard.scores[what].found, heard.scores[what].false) == (heard.scores[what].true, 0)


@pytest.mark.parametrize("mm", [6.0, 12.0])
def test_a_changing_draught_is_no_arrest(mm: float) -> None:
    heard = play(Trace("draughts", mm, Faults(silences=0.0), 1, transforms=False))
    assert heard.heats == 3
    assert "possible arrest" not in heard.calls


def test_in_a_changing_draught_an_arrest_is_one() -> None:
    arrests = play(Trace("draughts", 12.0, Faults(silences=0.0), 1)).scores[ARREST]
    assert (arrests.found, arrests.false) == (arrests.true, 0)
