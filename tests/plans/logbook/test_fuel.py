"""What a fire burnt, worked out by hand; a pound is 0.45359237 kg and a foot 0.3048 m (NIST SP 811, exact)."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from plans.logbook.fuel import Fuel, burning_seconds
from plans.logbook.header import from_record, to_record
from plans.logbook.looking_back import outline
from plans.phase import PhaseKind
from plans.shop import FuelRate, Shop
from plans.sitting import PhaseSpan, Word
from plans.units import Units


def span(phase: PhaseKind, began: float, ended: float) -> PhaseSpan:
    return PhaseSpan(0, 1, phase, began, ended, ended - began)


def test_a_fire_burns_between_heats_and_is_turned_down_at_the_bench() -> None:
    heats = [
        span(PhaseKind.READY, 0, 60),
        span(PhaseKind.FIRE, 60, 360),
        span(PhaseKind.SOAK, 360, 480),
        span(PhaseKind.STRIKE, 480, 520),
        span(PhaseKind.FIRE, 520, 720),
        # An hour at the bench.
        span(PhaseKind.BENCH, 720, 4320),
        span(PhaseKind.FIRE, 4320, 4620),
        span(PhaseKind.OVEN, 4700, 12000),
    ]
    assert burning_seconds(heats) == 660 + 300
    assert burning_seconds(heats, [(490, 500)]) == 660 + 300 - 40, "left between two heats, and gone on with"
    assert burning_seconds(heats, [(100, 200)]) == 660 + 300 - 100, "left while it lay in the fire"
    assert burning_seconds(heats[:1]) == 0


def test_it_is_said_in_the_units_that_are_set() -> None:
    charcoal = Fuel(1800.0, FuelRate(mass=1.4))
    assert (charcoal.text(Units.METRIC), charcoal.text(Units.INCH)) == ("700 g", "1.54 lb")
    gas = Fuel(7200.0, FuelRate(volume=1.8))
    # 3.6 m3 / 0.3048^3 = 127.1 ft3
    assert (gas.text(Units.METRIC), gas.text(Units.INCH)) == ("3.60 m3", "127 ft3")


def test_a_sitting_keeps_the_rate_that_held_when_it_began(tell: Any) -> None:
    story = tell().say(Word.NEXT).wait(1200).say(Word.OUT).wait(5)
    kept = story.say(Word.NEXT, Word.FINISH).kept()
    assert "fuel" not in outline(kept)["totals"]
    header = replace(kept.header, shop=Shop(fuel=FuelRate(volume=1.8)))
    assert from_record(to_record(header)) == header
    assert outline(replace(kept, header=header))["totals"]["fuel"] == {"burning_seconds": 1200.0, "m3": 0.6}
    assert "fuel" not in outline(replace(kept, header=replace(header, rehearsal=True)))["totals"]
    record = to_record(header)
    for spoilt in ({"fuel_m3_per_hour": 0}, {"fuel_m3_per_hour": "1.8"}, {"fuel_kg_per_hour": 1.4}):
        with pytest.raises((ValueError, TypeError)):
            from_record(record | {"shop": record["shop"] | spoilt})
