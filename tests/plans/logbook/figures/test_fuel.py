"""What a fire burnt, worked out by hand; a pound is 0.45359237 kg and a foot 0.3048 m (NIST SP 811, exact)."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from plans.logbook.comparing import Occasion, Row, points_of, row_name, row_texts, side_by_side, trend_table
from plans.logbook.figures.fuel import Fuel, burning_seconds
from plans.logbook.header import from_record, to_record
from plans.logbook.kept_sitting import KeptSitting
from plans.logbook.lines import What
from plans.logbook.reviewing.looking_back import outline
from plans.logbook.reviewing.timeline import Timeline
from plans.logbook.search.typed import SearchError, read_search
from plans.logbook.summary import Summary
from plans.phase import PhaseKind
from plans.shop import FuelRate, Shop
from plans.sitting import PhaseSpan, Word
from plans.units import Units
from tests.plans.logbook.conftest import STARTED


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
    charcoal = Fuel(1800.0, FuelRate(mass=1.4, price=2.5, currency="EUR"))
    # 1.4 kg / 0.45359237 = 3.0865 lb; 0.7 kg at 2.50
    assert charcoal.named(Units.METRIC) == [
        ("fire burning", "30:00 at 1.40 kg/h"),
        ("fuel", "700 g"),
        ("fuel cost", "1.75 EUR"),
    ]
    assert charcoal.named(Units.INCH)[:2] == [("fire burning", "30:00 at 3.09 lb/h"), ("fuel", "1.54 lb")]
    gas = Fuel(7200.0, FuelRate(volume=1.8))
    # 3.6 m3 / 0.3048^3 = 127.1 ft3
    assert [gas.named(units) for units in (Units.METRIC, Units.INCH)] == [
        [("fire burning", "2:00:00 at 1.80 m3/h"), ("fuel", "3.60 m3")],
        [("fire burning", "2:00:00 at 63.6 ft3/h"), ("fuel", "127 ft3")],
    ]
    assert replace(gas, seconds=0.0).named(Units.METRIC) == []


RATE = FuelRate(volume=1.8, price=0.5, currency="Fr.")


@pytest.fixture
def kept(tell: Any) -> KeptSitting:
    """In the fire for 20 min, and nothing more."""
    story = tell().say(Word.NEXT).wait(1200).say(Word.OUT).wait(5)
    kept: KeptSitting = story.say(Word.NEXT, Word.FINISH).kept()
    return replace(kept, header=replace(kept.header, shop=Shop(fuel=RATE)))


def test_a_pause_burns_as_long_as_nobody_turns_the_fire_down(tell: Any) -> None:
    def burnt(pause: float) -> float:
        story = tell().say(Word.NEXT).wait(300).say(Word.PAUSE).wait(pause).say(Word.RESUME).wait(200)
        told = story.say(Word.OUT).wait(5).say(Word.FINISH).kept()
        fuel = Fuel.burnt(RATE, Timeline.of(told).state, told.left_at)
        return 0.0 if fuel is None else fuel.seconds

    assert [burnt(pause) for pause in (600, 1200)] == [300 + 600 + 200, 300 + 200]


def test_a_sitting_keeps_the_rate_that_held_when_it_began(kept: KeptSitting) -> None:
    header = kept.header
    assert from_record(to_record(header)) == header
    # A third of an hour at 1.8 m3, and 0.6 m3 at 0.50.
    assert outline(kept)["totals"]["fuel"] == {
        "burning_seconds": 1200.0,
        "m3": 0.6,
        "m3_per_hour": 1.8,
        "cost": 0.3,
        "currency": "Fr.",
    }
    for other in (replace(header, rehearsal=True), replace(header, shop=Shop())):
        assert "fuel" not in outline(replace(kept, header=other))["totals"]


@pytest.mark.parametrize(
    "spoilt",
    [
        {"fuel_m3_per_hour": 0},
        {"fuel_m3_per_hour": "1.8"},
        {"fuel_kg_per_hour": 1.4},
        {"fuel_price_per_m3": 0},
        {"fuel_price_per_m3": None},
        {"fuel_currency": ""},
        {"fuel_currency": "Fr." * 9},
        {"fuel_currency": 5},
    ],
)
def test_what_no_shop_file_says_is_refused(kept: KeptSitting, spoilt: dict[str, object]) -> None:
    record = to_record(kept.header)
    with pytest.raises((ValueError, TypeError)):
        from_record(record | {"shop": record["shop"] | spoilt})


def test_a_sitting_is_found_by_what_it_burnt(kept: KeptSitting) -> None:
    gas = Summary.from_record(kept.summary.to_record())
    coal = replace(kept, header=replace(kept.header, id="coal", shop=Shop(fuel=FuelRate(mass=3.0)))).summary
    # As an earlier version wrote it.
    record = replace(kept, header=replace(kept.header, id="old", shop=Shop())).summary.to_record()
    record["found_by"] = {key: value for key, value in record["found_by"].items() if not key.startswith("fuel")}
    old = Summary.from_record(record)

    def found(text: str) -> list[Summary]:
        return read_search(text).found([gas, coal, old], Units.METRIC)

    # 0.6 m3 are 21.19 ft3; 1 kg is 2.205 lb.
    assert [found(f"fuel {text}") for text in ("> 21 ft^3", "> 22 ft^3", ">= 1 kg", "> 2.3 lb", "< 99 kg")] == [
        [gas],
        [],
        [coal],
        [],
        [coal],
    ]
    with pytest.raises(SearchError, match="the unit is missing"):
        found("fuel > 3")


def test_what_was_burnt_stands_side_by_side(kept: KeptSitting) -> None:
    dearer = replace(kept, header=replace(kept.header, shop=Shop(fuel=replace(RATE, price=0.6))))
    coal = replace(kept, header=replace(kept.header, shop=Shop(fuel=FuelRate(mass=3.0))))
    rows = [row for row in side_by_side([kept, dearer, coal])[0].rows if "fuel" in row.name]
    assert [(row_name(row, Units.METRIC), list(row_texts(row, Units.METRIC))) for row in rows] == [
        ("fuel", [("-", False), ("-", False), ("1.00 kg", False)]),
        ("fuel", [("0.600 m3", False), ("0.600 m3", False), ("-", False)]),
        # 0.30 and 0.36 are more than a tenth apart.
        ("fuel cost, Fr.", [("0.30", False), ("0.36", True), ("-", False)]),
    ]


def test_a_cent_of_a_cost_is_not_told_apart() -> None:
    row = Row("fuel cost", What.MONEY, (0.02, 0.03, 0.0349, 0.0351, 0.05), "EUR")
    # 0.02, 0.03, 0.03, 0.04 and 0.05 as they are shown: rounding alone may make one of them 0.01 more.
    assert row.differs == (False, False, False, True, True)
    # 112 and 124 are less than a tenth of 124 apart.
    assert Row("fuel cost", What.MONEY, (112.4, 123.8), "EUR").differs == (False, False)


def test_comparing_and_trends_show_the_same_fuel(kept: KeptSitting, tell: Any) -> None:
    # A third of an hour at 13.7 g an hour: 4.5667 g, kept as 0.0046 kg.
    little = replace(kept, header=replace(kept.header, shop=Shop(fuel=FuelRate(mass=0.0137))))
    none = replace(tell().say(Word.FINISH).kept(), header=little.header)
    facts = [one.summary.facts for one in (little, none)]
    seen = [
        Occasion(str(at), "trial", STARTED, (), None, None if one is None else one.fuel_mass)
        for at, one in enumerate(facts)
    ]
    table = trend_table(points_of(seen), Units.METRIC)
    in_trends = [row[table.heading.index("fuel")] for row in table.rows]
    (row,) = [row for row in side_by_side([little, none])[0].rows if row.name == "fuel"]
    assert [text for text, _ in row_texts(row, Units.METRIC)] == [text or "-" for text in in_trends] == ["4.60 g", "-"]
    assert ("fuel", "4.60 g") in Fuel(1200.0, FuelRate(mass=0.0137)).named(Units.METRIC)
