"""The reckoner's command line in any unit, there and back again."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, strategies as st

Reckon = Callable[..., dict[str, Any]]
Say = Callable[..., list[str]]


@pytest.mark.parametrize(
    ("words", "same"),
    [
        (
            ("cooling", "--section", "25.4 x 25.4 mm", "--length", "100 mm", "--from", "1250 degC", "--to", "900 degC"),
            ("cooling", "--section", "1 in square", "--length", "100 mm", "--from", "2282 degF", "--to", "1652 degF"),
        ),
        (
            ("soak", "--section", "round 25 mm", "--fire", "1250 degC", "--from", "20 degC", "--middle", "1200 degC"),
            ("soak", "--section", "25 mm round", "--fire", "2282°F", "--from", "68F", "--middle", "2192 degF"),
        ),
        (
            ("carbon", "--carbon", "0.8", "--at", "1200 degC", "--for", "10 min"),
            ("carbon", "--carbon", "0.8 %", "--at", "1473.15 K", "--for", "0:10:00"),
        ),
        (
            ("carbon", "--layer", "0.127 mm", "--at", "1100 degC", "--for", "60 s"),
            ("carbon", "--layer", "0.005 in", "--at", "2012 degF", "--for", "1 min"),
        ),
        (
            ("scale", "--at", "1200 degC", "--for", "5 min", "--section", "25.4 x 12.7 mm"),
            ("scale", "--at", "2192 degF", "--for", "300 s", "--section", "1 x 1/2 in"),
        ),
        (
            ("temper", "--carbon", "0.8", "--at", "200 degC", "--for", "2.5 h", "--instead-at", "250 degC"),
            ("temper", "--carbon", "0.8", "--at", "392 degF", "--for", "2 h 30 min", "--instead-at", "482 degF"),
        ),
        (("glow", "--at", "1000 degC"), ("glow", "--at", "1832 degF")),
        (("steel", "1084", "--at", "800 degC"), ("steel", "AISI 1084", "--at", "1472 degF")),
        (
            ("thermocouple", "--type", "K", "--mv", "41.276", "--cold-junction", "25 degC"),
            ("thermocouple", "--type", "k", "--mv", "41.276 mV", "--cold-junction", "77 degF"),
        ),
    ],
)
def test_the_same_in_other_units(reckon: Reckon, words: tuple[str, ...], same: tuple[str, ...]) -> None:
    one, other = reckon(*words), reckon(*same)
    assert one.keys() == other.keys()
    for key in one.keys() - {"about", "given"}:
        assert (
            other[key] == pytest.approx(one[key], rel=1e-6) if isinstance(one[key], float) else other[key] == one[key]
        )


@given(inches=st.integers(1, 64), hot=st.integers(1000, 1300), lost=st.integers(50, 400))
def test_a_bar_in_inches_is_the_same_bar(reckon: Reckon, inches: int, hot: int, lost: int) -> None:
    def cooled(section: str, start: str, end: str) -> float:
        return float(reckon("cooling", "--section", section, "--from", start, "--to", end)["seconds"])

    side, end = inches * 25.4 / 16, hot - lost
    metric = cooled(f"{side} x {side} mm", f"{hot} degC", f"{end} degC")
    inch = cooled(f"{inches}/16 x {inches}/16 in", f"{hot * 9 / 5 + 32} degF", f"{end * 9 / 5 + 32} degF")
    assert inch == pytest.approx(metric, rel=1e-6)


@given(side=st.floats(4, 60), more=st.floats(1.05, 1.5), hot=st.integers(1000, 1300))
def test_thicker_cools_and_soaks_longer_and_hotter_falls_faster(
    reckon: Reckon, side: float, more: float, hot: int
) -> None:
    def cooled(section: str, start: int, end: int) -> float:
        return float(
            reckon("cooling", "--section", section, "--from", f"{start} degC", "--to", f"{end} degC")["seconds"]
        )

    def soaked(section: str) -> float:
        words = ("soak", "--section", section, "--fire", f"{hot} degC", "--middle", f"{hot - 50} degC")
        return float(reckon(*words)["seconds"])

    thin, thick = f"{side} x {side} mm", f"{side * more} x {side * more} mm"
    assert cooled(thick, hot, hot - 100) > cooled(thin, hot, hot - 100)
    assert soaked(thick) > soaked(thin)
    assert cooled(thin, hot, hot - 50) < cooled(thin, hot - 50, hot - 100)


RANGES = {"K": (-200, 1372), "N": (-200, 1300), "S": (-50, 1768), "R": (-50, 1768), "B": (250, 1820), "J": (-210, 1200)}


@given(data=st.data(), kind=st.sampled_from(sorted(RANGES)), cold=st.integers(0, 50))
def test_there_and_back_through_a_thermocouple(reckon: Reckon, data: st.DataObject, kind: str, cold: int) -> None:
    celsius = data.draw(st.floats(*RANGES[kind]).map(lambda value: round(value, 2)))
    couple = ("thermocouple", "--type", kind, "--cold-junction", f"{cold} degC")
    millivolts = reckon(*couple, "--at", f"{celsius} degC")["millivolts"]
    assert reckon(*couple, "--mv", f"{millivolts:.7f}")["celsius"] == pytest.approx(celsius, abs=0.01)


@given(hours=st.floats(0.25, 24), celsius=st.integers(160, 300), carbon=st.floats(0.5, 1.1))
def test_there_and_back_through_an_equal_temper(reckon: Reckon, hours: float, celsius: int, carbon: float) -> None:
    steel = ("temper", "--carbon", f"{carbon:.3f}")
    hold = (*steel, "--at", f"{celsius} degC", "--for", f"{hours:.4f} h")
    other = reckon(*hold, "--instead-for", "1 h")
    back = reckon(*steel, "--at", f"{other['instead_at_celsius']} degC", "--for", "1 h")
    assert back["parameter"] == pytest.approx(other["parameter"], rel=1e-5)
    assert other["instead_at_celsius"] == pytest.approx(other["one_hour_celsius"], abs=1e-4)


@pytest.mark.parametrize(
    ("words", "inches", "fahrenheit"),
    [
        (("glow", "--at", "2000 degF"), None, True),
        (("glow", "--at", "1000 degC"), None, False),
        (("carbon", "--carbon", "0.8", "--at", "2192 degF", "--for", "10 min"), None, True),
        (("cooling", "--section", "1 x 1/2 in", "--from", "1250 degC", "--to", "900 degC"), True, False),
        (("cooling", "--section", "25 x 25 mm", "--from", "2282 degF", "--to", "1652 degF"), False, True),
        (("scale", "--section", "25 x 25 mm", "--at", "2192 degF", "--for", "5 min"), False, True),
        (("scale", "--section", "1 in square", "--at", "2192 degF", "--for", "5 min"), True, True),
        (("steel", "1084"), None, False),
        (("thermocouple", "--type", "K", "--mv", "41.276"), None, False),
    ],
)
@pytest.mark.parametrize("setting", ["metric", "inch"])
def test_each_quantity_is_answered_in_the_unit_that_it_was_typed_in(
    say: Say, home: Path, words: tuple[str, ...], inches: bool | None, fahrenheit: bool, setting: str
) -> None:
    typed = " ".join(words)
    home.mkdir()
    (home / "heatbook.toml").write_text(f'units = "{setting}"\n')
    text = " ".join(say(*words)[:8])
    if re.search("deg[CF]", typed):
        assert ("degF" in text) is fahrenheit
        assert ("degC" in text) is not fahrenheit
    if re.search(r"\d (?:mm|in)\b", typed):
        assert bool(re.search(r"\d in\b", text)) is inches
        assert bool(re.search(r"\d mm\b", text)) is not inches


def test_units_that_were_set_hold_where_nothing_else_was_typed(say: Say, home: Path) -> None:
    home.mkdir()
    (home / "heatbook.toml").write_text('units = "inch"\n')
    assert "degF" in " ".join(say("thermocouple", "--type", "K", "--mv", "41.276"))
    assert "degF" not in " ".join(say("thermocouple", "--type", "K", "--at", "1000 degC")[:4])


def test_quotes_may_be_left_out(reckon: Reckon) -> None:
    bare = "carbon --carbon 0.8 --at 1200 degC --for 10 min"
    assert reckon(*bare.split()) == reckon("carbon", "--carbon", "0.8", "--at", "1200 degC", "--for", "10 min")
    assert reckon("glow", "--at", "-20", "degC")["name"] == "black heat"


def test_a_heat_is_named_by_the_chart_that_is_set(say: Say, home: Path) -> None:
    # 1000 degC: orange by Chapman, 982 to 1092; yellow by White and Taylor, whose yellow is 996.
    assert "orange, 980-1095 degC" in " ".join(say("glow", "--at", "1000 degC"))
    home.mkdir()
    (home / "heatbook.toml").write_text('heat_names = "taylor"\n')
    assert "yellow, 970-1040 degC" in " ".join(say("glow", "--at", "1000 degC"))


def test_grades_by_any_name(reckon: Reckon) -> None:
    assert reckon("steel", "AISI", "1084")["given"] == reckon("steel", "1084")["given"]
    assert reckon("steel", "--Mn", "0.4", "--C", "0.75") == reckon("steel", "--carbon", "0.75", "--mn", "0.4 %")
