"""The same reading is believed everywhere: by the sitting, its figures, `log show`, the review and every export."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from devices.recording import read_recording
from plans.logbook.book import Logbook
from plans.logbook.exports import export
from plans.logbook.logged_sitting import LoggedSitting
from plans.reader import read_plan
from plans.reading import ProbeOn, Reading
from plans.sitting.engine import Sitting
from plans.sitting.events import Basis, Said, Tick, Word
from plans.units import Units
from tui.cli.sitting_text import sitting_text
from tui.review.review_data import read_review
from tui.review.rows import review_options

ICE = 273.15
PLAN = """
heatbook = 1
title = "One heat"

[[step]]
title = "Normalize"
kind = "normalize"
fire = "930 degC"
heat_to = "900 degC"
soak = "3 min"
section = "40 x 6 mm"
"""
"""A fire of 930 degC: while the probe is silent, the warm model never has the work hotter than the probe had it."""

TRUE, SPIKE = 951.0, 1500.0


def heard(how: str) -> Iterator[Reading | Tick]:
    """A minute at 951 degC four times a second; one reading of 1500 degC, first of all or first after a silence."""
    at = 0.25
    if how != "at the beginning":
        while at <= 30.0:
            yield Reading(at, TRUE + ICE)
            at += 0.25
        if how == "after it was unplugged":
            yield Reading(at, None, "lost: unplugged")
        at += 10.0
    yield Reading(at, SPIKE + ICE)
    while at < 60.0:
        at += 0.25
        yield Reading(at, TRUE + ICE)


@pytest.mark.parametrize("how", ["at the beginning", "after a silence", "after it was unplugged"])
def test_a_spike_after_a_silence_is_the_peak_of_nothing(tmp_path: Path, how: str) -> None:
    plan = read_plan(PLAN, "one", "one.toml")
    logbook = Logbook(tmp_path / "logbook")
    running = LoggedSitting.begin(logbook, plan, datetime(2026, 11, 26, 9, tzinfo=UTC), ProbeOn.WORK)
    running.take(Said(0.0, Word.NEXT))
    for entry in heard(how):
        running.take(entry)
    peak = running.sitting.peak
    assert peak is not None
    assert peak == (pytest.approx(TRUE + ICE), Basis.MEASURED)
    running.take(Said(61.0, Word.OUT))
    running.take(Said(62.0, Word.FINISH))
    running.put_away()

    kept = logbook.load("last")
    assert kept.figures is not None
    (heat,) = kept.figures.heats
    assert (heat.peak, heat.leaving) == (pytest.approx(TRUE + ICE), pytest.approx(TRUE + ICE))

    shown = sitting_text(kept, Units.METRIC)
    assert f"{TRUE:.0f} degC" in shown
    assert f"{SPIKE:.0f}" not in shown
    # 951 degC * 9/5 + 32 = 1743.8 degF
    assert "1744 degF" in sitting_text(kept, Units.INCH)

    review = read_review(logbook, "last")
    options, stops = review_options(review, Units.METRIC)
    line = next(option for option in options if option.id and "peak" in stops[option.id].above)
    ends = stops[line.id or ""].above.index("peak") + len("peak")
    assert str(line.prompt)[:ends].split()[-1] == f"{TRUE:.0f}"
    assert max(value for value in review.measured.values if value is not None) == pytest.approx(TRUE + ICE)

    told = json.loads(export(kept, "json"))
    assert told["steps"][0]["heats"][0]["peak_celsius"] == TRUE
    assert [celsius for _, celsius in told["measured_seconds_celsius"] if celsius and celsius > TRUE] == [SPIKE], "kept"

    page = export(kept, "html")
    assert f"<td>{TRUE:.0f} °C</td>" in page
    assert not re.search(rf">[^<]*{SPIKE:.0f} °C", page)

    rows = tmp_path / "rows.csv"
    rows.write_text(export(kept, "csv"), encoding="utf-8")
    again = Sitting(plan, ProbeOn.WORK)
    again.open()
    for row in read_recording(rows):
        again.take(row)
    assert again.peak == running.sitting.peak
    logbook.close()
