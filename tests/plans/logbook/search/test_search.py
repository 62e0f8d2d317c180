"""Sittings are found by words, dates and figures; what can't be understood is said part by part."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta, timezone

import pytest

from plans.logbook.afterwards.label import Label
from plans.logbook.facts import Facts
from plans.logbook.search.typed import SearchError, read_search
from plans.logbook.summary import Progress, Summary
from plans.units import Units

EAST = timezone(timedelta(hours=9))
KNIFE = Summary(
    "20260331-235900-kitchen",
    "kitchen",
    "A blade hardened from {800 degC}",
    datetime(2026, 3, 31, 23, 59, tzinfo=EAST),
    None,
    Progress.UNFINISHED,
    False,
    19,
    4,
    5400.0,
    "2 welds sound, cold shut, rated 3",
    Label("For the shed", "gift"),
    # 1300 degC, which is 2372 degF; 1.5 h; 10 s; 1/64 in
    Facts(
        ("1084", "15N20"),
        ("weld opened, a cold shut",),
        peak=1573.15,
        in_fire=5400.0,
        soaked=60.0,
        struck=30.0,
        too_cold=10.0,
        decarb=0.0254 / 64,
        scale=None,
        reheats=3,
        at_welding_heat=150.0,
        hardness=60.5,
        rating=3,
        warp=0.002,
        twist_degrees=1.5,
    ),
)
WEDGE = replace(
    KNIFE,
    id="20260401-000100-wedge",
    plan="wedge",
    title="A splitting wedge",
    started=datetime(2026, 4, 1, 0, 1, tzinfo=EAST),
    state=Progress.FINISHED,
    heats=20,
    seconds=5400.5,
    outcome="3 welds sound, no cracks",
    label=Label(),
    facts=Facts(("O1",), (), 1573.25, 5401.0, 60.0, 30.0, 10.5, None, None),
)
RUNNING = replace(
    WEDGE, outcome="", id="20260402-080000-wedge", state=Progress.RUNNING, heats=None, facts=None, seconds=None
)
PUT_BY = replace(KNIFE, id="20250101-080000-kitchen", label=Label("", "", True))
ALL = {"knife": KNIFE, "wedge": WEDGE, "running": RUNNING, "put by": PUT_BY}


def found(text: str, units: Units = Units.METRIC) -> list[str]:
    kept = read_search(text).found(ALL.values(), units)
    return [name for name, summary in ALL.items() if summary in kept]


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("", ["knife", "wedge", "running"]),
        ("SHED gift opened 15n", ["knife"]),
        ('"cold shut"', ["knife"]),
        ('"shut cold"', []),
        ("steel: 1084", ["knife"]),
        ("steel:o1", ["wedge"]),
        ("1084 wedge", []),
        ("plan: wedge", ["wedge", "running"]),
        ("title: shed", ["knife"]),
        ('note:"a cold shut", mark: gift', ["knife"]),
        ("since: 2026-04", ["wedge", "running"]),
        ("until: 2026-03", ["knife"]),
        ("on: 2026-03-31", ["knife"]),
        ("since: 2026 until: 2026-04-01", ["knife", "wedge", "running"]),
        ("is: unfinished", ["knife"]),
        ("outcome: flawed", ["knife"]),
        ("outcome: sound outcome: cold", ["knife"]),
        ("is: archived", ["put by"]),
        ("2026-03-31", ["knife"]),
        ("2026-04", ["wedge", "running"]),
        ("26-04", []),
        ("3/5 flawed", ["knife"]),
        ("reheats > 2", ["knife"]),
        ("at welding heat = 2 min 30 s kitchen", ["knife"]),
        ("hardness >= 60.5 rating<4", ["knife"]),
        ("warp > 1 mm", ["knife"]),
        ("twist < 2", ["knife"]),
        ("peak > 1300 degC", ["wedge"]),
        ("peak >= 1300 degC", ["knife", "wedge"]),
        ("peak>2372 degF", ["wedge"]),
        ("too cold > 10 s", ["wedge"]),
        ("took <= 1 h 30 min", ["knife"]),
        ("in fire > 1:30:00", ["wedge"]),
        ("heats < 20", ["knife"]),
        ("heats = 20 splitting", ["wedge"]),
        ("decarb < 0.4 mm, shed", ["knife"]),
        ("scale < 10 mm", []),
    ],
)
def test_what_is_found(text: str, names: list[str]) -> None:
    assert found(text) == names


def test_a_title_is_found_as_it_is_shown() -> None:
    # 800 degC is 1472 degF
    assert found("1472", Units.INCH) == ["knife"]
    assert found("1472") == []


def test_a_figure_that_is_held_against_nothing_is_a_word_and_said_to_be_one() -> None:
    assert read_search("at welding heat").hint.startswith('"at welding heat" is looked for as a word; for the figure')
    assert read_search("kitchen peak > 3 degC").hint == ""


@pytest.mark.parametrize(
    ("text", "part", "why"),
    [
        ("knife peak > 1300", '"peak > 1300"', "the unit is missing"),
        ("knife peak > 12 mm", '"peak > 12 mm"', "that is a length"),
        ("knife peak >", '"peak >"', "nothing stands behind it"),
        ("knife too cold > 1,5 s", '"too cold > 1,5 s"', "a comma is not read"),
        ("knife stel: 1084", '"stel:"', 'perhaps "steel:"'),
        ("knife steel: heats < 3", '"steel:"', "nothing stands behind it"),
        ("knife steel:", '"steel:"', "nothing stands behind it"),
        ("knife to cold > 3 s", '"cold"', 'perhaps "too cold"'),
        ("knife > 3", '"knife"', "that is no figure"),
        ("knife since: march", '"since: march"', "that is no date"),
        ("knife on: 2026-00", '"on: 2026-00"', "that is no date"),
        ("knife welding heat > 3 s", '"heat"', 'perhaps "at welding heat"'),
        ("knife rating > good", '"rating > good"', 'write "4", of 5'),
        ("knife on: 2026-02-30", '"on: 2026-02-30"', "that is no date"),
        ("knife is: lost", '"is: lost"', "unfinished"),
    ],
)
def test_what_can_not_be_understood(text: str, part: str, why: str) -> None:
    with pytest.raises(SearchError) as caught:
        read_search(text)
    assert str(caught.value).startswith(f"{part}: ")
    assert why in str(caught.value)
